//! What a column can tell, in which units, and what is possible for it.

/// What a column tells.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Channel {
    /// The panel's own sensor.
    Panel,
    /// Liquid at the inlet of the panels.
    Inlet,
    /// Liquid at the outlet of the panels.
    Outlet,
    /// Lower sensor of the tank.
    TankLow,
    /// Upper sensor of the tank.
    TankHigh,
    /// Outside air.
    Air,
    /// Irradiance in the plane of the panels.
    Sun,
    /// Volume flow.
    Flow,
    /// Pump running.
    Pump,
    /// Gauge pressure.
    Pressure,
    /// Wind speed at the panels.
    Wind,
}

/// All channels in their order.
pub const CHANNELS: [Channel; 11] = [
    Channel::Panel,
    Channel::Inlet,
    Channel::Outlet,
    Channel::TankLow,
    Channel::TankHigh,
    Channel::Air,
    Channel::Sun,
    Channel::Flow,
    Channel::Pump,
    Channel::Pressure,
    Channel::Wind,
];

/// One row's readings by channel; temperatures °C, the rest SI.
pub(super) type Cells = [Option<f64>; CHANNELS.len()];

/// A unit as y = scale × x + shift.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Unit {
    pub scale: f64,
    pub shift: f64,
}

impl Channel {
    /// Its place in the order.
    pub(super) const fn index(self) -> usize {
        self as usize
    }

    /// What it is called.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Panel => "panel sensor",
            Self::Inlet => "inlet",
            Self::Outlet => "outlet",
            Self::TankLow => "tank low",
            Self::TankHigh => "tank high",
            Self::Air => "air",
            Self::Sun => "sun",
            Self::Flow => "flow",
            Self::Pump => "pump",
            Self::Pressure => "pressure",
            Self::Wind => "wind",
        }
    }

    /// Whether it is a temperature.
    pub(super) const fn is_temperature(self) -> bool {
        matches!(self, Self::Panel | Self::Inlet | Self::Outlet | Self::TankLow | Self::TankHigh | Self::Air)
    }

    /// What is physically possible, in the channel's own unit (°C or SI).
    pub(super) const fn possible(self) -> (f64, f64) {
        match self {
            Self::Panel | Self::Inlet | Self::Outlet => (-60.0, 350.0),
            Self::TankLow | Self::TankHigh => (-30.0, 150.0),
            Self::Air => (-70.0, 70.0),
            Self::Sun => (-50.0, 2000.0),
            Self::Flow => (-0.02, 0.02),
            Self::Pump | Self::Wind => (0.0, 100.0),
            Self::Pressure => (-1.1e5, 5e6),
        }
    }

    /// Seconds of one and the same value, while the pump runs, after which the sensor counts as stuck; none where
    /// standing still is natural (project rule: half an hour; two where the thing itself is slow).
    pub(super) const fn patience(self) -> Option<f64> {
        match self {
            Self::Panel | Self::Inlet | Self::Outlet | Self::Sun => Some(1800.0),
            Self::TankLow | Self::TankHigh | Self::Air => Some(7200.0),
            Self::Flow | Self::Pump | Self::Pressure | Self::Wind => None,
        }
    }

    /// The unit that is taken where the file names none: °C, W/m², L/min, bar, m/s.
    pub(super) fn usual(self) -> Unit {
        let scale = match self {
            Self::Flow => 1e-3 / 60.0,
            Self::Pressure => 1e5,
            _ => 1.0,
        };
        Unit { scale, shift: 0.0 }
    }

    /// The unit of a symbol; none if the channel has no such unit.
    #[allow(clippy::match_same_arms)] // a table, read row by row
    pub(super) fn unit(self, symbol: &str) -> Option<Unit> {
        let plain: String = symbol
            .chars()
            .filter(|c| !c.is_whitespace() && *c != '°' && *c != '.')
            .flat_map(char::to_lowercase)
            .collect();
        let plain = plain.replace('²', "2").replace('³', "3").replace('^', "").replace("deg", "");
        let (scale, shift) = match (self, plain.as_str()) {
            (channel, "c" | "celsius") if channel.is_temperature() => (1.0, 0.0),
            (channel, "f" | "fahrenheit") if channel.is_temperature() => (1.0 / 1.8, -32.0 / 1.8),
            (channel, "k" | "kelvin") if channel.is_temperature() => (1.0, -273.15),
            (Self::Sun, "w/m2" | "wm-2" | "w/sqm") => (1.0, 0.0),
            (Self::Sun, "kw/m2") => (1e3, 0.0),
            (Self::Flow, "l/min" | "lpm") => (1e-3 / 60.0, 0.0),
            (Self::Flow, "l/h" | "lph") => (1e-3 / 3600.0, 0.0),
            (Self::Flow, "l/s") => (1e-3, 0.0),
            (Self::Flow, "m3/h") => (1.0 / 3600.0, 0.0),
            (Self::Flow, "gpm" | "gal/min") => (3.785_411_784e-3 / 60.0, 0.0),
            (Self::Pressure, "bar") => (1e5, 0.0),
            (Self::Pressure, "mbar" | "hpa") => (100.0, 0.0),
            (Self::Pressure, "pa") | (Self::Pump, "" | "on" | "0/1" | "%") | (Self::Wind, "m/s") => (1.0, 0.0),
            (Self::Pressure, "kpa") => (1e3, 0.0),
            (Self::Pressure, "mpa") => (1e6, 0.0),
            (Self::Pressure, "psi" | "psig") => (6_894.757_293_168, 0.0),
            (Self::Wind, "km/h" | "kmh") => (1.0 / 3.6, 0.0),
            (Self::Wind, "mph") => (0.447_04, 0.0),
            (Self::Wind, "kn" | "kt" | "knots") => (1852.0 / 3600.0, 0.0),
            _ => return None,
        };
        Some(Unit { scale, shift })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_channel_stands_at_its_own_index() {
        for (index, channel) in CHANNELS.into_iter().enumerate() {
            assert_eq!(channel.index(), index);
        }
    }

    #[test]
    fn units_are_known_however_they_are_spelled() {
        let fahrenheit = Channel::Inlet.unit("°F").unwrap();
        assert!((fahrenheit.scale * 212.0 + fahrenheit.shift - 100.0).abs() < 1e-12);
        assert_eq!(Channel::Inlet.unit("deg C"), Channel::Inlet.unit("°C"));
        assert_eq!(Channel::Sun.unit("W/m²"), Channel::Sun.unit("w/m^2"));
        assert!((Channel::Pressure.unit("psi").unwrap().scale - 6894.757).abs() < 1e-3);
        assert_eq!(Channel::Flow.unit("bar"), None);
    }
}
