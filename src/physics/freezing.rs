//! Night cooling of a glazed panel under a clear sky: plate temperature, air temperature at which it freezes.
//!
//! Lives here: the balance of cover and plate without sun. Must not live here: counting of hours over a year, frost
//! devices, the freezing point of mixtures (`fluid`).

use super::convection::WindLaw;
use super::domain::{DomainError, positive, within};
use super::radiation::STEFAN_BOLTZMANN;
use super::root::{self, Bracket};
use super::sky::swinbank;
use crate::units::si::{
    Dimension, HeatFluxDensity, HeatTransfer, Temperature, TemperatureInterval, Time, Velocity, celsius, in_celsius,
};

/// Heat of fusion of ice at 0 °C, J/kg (handbook value, from memory).
const HEAT_OF_FUSION: f64 = 333_600.0;

/// The sky that the cover radiates to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sky {
    /// Clear and middling moist, by [`swinbank`].
    Clear,
    /// A given number of kelvin below the air; 30 K stands for a very dry sky.
    BelowAir(TemperatureInterval),
}

impl Sky {
    /// Sky temperature for an air temperature. The clear law is for about −20 to 40 °C and is not checked.
    pub fn temperature(self, air: Temperature) -> Temperature {
        match self {
            Self::Clear => swinbank(air),
            Self::BelowAir(depression) => Temperature::from_si(air.si() - depression.si()),
        }
    }
}

/// Heat paths of a panel at night.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NightPanel {
    /// Long-wave emittance of the cover's outer face.
    pub cover_emittance: f64,
    /// From plate to cover across the gap.
    pub gap: HeatTransfer,
    /// From plate through back and edges to the air.
    pub back: HeatTransfer,
}

impl Default for NightPanel {
    /// Glass 0.88, gap 4 W/(m²·K), back 0.8 W/(m²·K): one glass, insulated box (project values).
    fn default() -> Self {
        Self { cover_emittance: 0.88, gap: HeatTransfer::from_si(4.0), back: HeatTransfer::from_si(0.8) }
    }
}

/// The night around a panel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Night {
    /// Air temperature.
    pub air: Temperature,
    /// Sky temperature.
    pub sky: Temperature,
    /// Wind over the cover.
    pub wind: Velocity,
}

/// Equilibrium temperature of an empty or still plate at night.
///
/// Cover: ε σ (T_c⁴ − T_sky⁴) + h_w (T_c − T_air) = h_g (T_p − T_c). Plate: h_g (T_p − T_c) + h_b (T_p − T_air) = 0.
/// h_w by [`WindLaw::Watmuff`], 0 to 20 m/s. No sun, no stored heat, no condensation (which slows the cooling). The
/// cover lies between air and sky. Source: the plate balance of any solar engineering text.
pub fn night_plate(panel: NightPanel, night: Night) -> Result<Temperature, DomainError> {
    let emittance = within("emittance of the cover", panel.cover_emittance, 0.0, 1.0)?;
    let gap = positive("coefficient across the gap", panel.gap.si())?;
    let back = positive("coefficient through the back", panel.back.si())?;
    within("wind", night.wind.si(), 0.0, 20.0)?;
    let wind = WindLaw::Watmuff.coefficient(night.wind).si();
    let (air, sky) = (night.air.si(), night.sky.si());
    positive("air temperature", air)?;
    positive("sky temperature", sky)?;
    let through = gap * back / (gap + back);
    let excess =
        |cover: f64| emittance * STEFAN_BOLTZMANN * (cover.powi(4) - sky.powi(4)) + (wind + through) * (cover - air);
    let between = Bracket { low: air.min(sky), high: air.max(sky) };
    let unsettled = DomainError::NotSettled { what: "cover temperature at night", residual: excess(air) };
    let cover = root::find(between, 1e-10, excess).ok_or(unsettled)?;
    Ok(Temperature::from_si((gap * cover + back * air) / (gap + back)))
}

/// Air temperature at which the plate comes to 0 °C at night.
///
/// Root of [`night_plate`] between −20 and 40 °C. With the default panel and a clear sky the answers are about
/// 9 °C in calm air, 7.6 at 0.5 m/s and 6.5 at 1 m/s; under a very dry sky (30 K below the air) 12.8, 10.5 and 8.9.
pub fn freezing_air(panel: NightPanel, sky: Sky, wind: Velocity) -> Result<Temperature, DomainError> {
    let plate = |degrees: f64| {
        let air = celsius(degrees);
        night_plate(panel, Night { air, sky: sky.temperature(air), wind }).map(in_celsius)
    };
    let range = Bracket { low: -20.0, high: 40.0 };
    let coldest = plate(range.low)?;
    root::find(range, 1e-6, |degrees| plate(degrees).unwrap_or(f64::NAN))
        .map(celsius)
        .ok_or(DomainError::NotSettled { what: "air temperature that freezes the plate", residual: coldest })
}

/// What is to be frozen and how fast it loses heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cooling {
    /// Heat capacity of the panel per area, J/(m²·K).
    pub capacity_per_area: f64,
    /// Water per area, kg/m².
    pub water_per_area: f64,
    /// Heat lost per area, taken as steady.
    pub loss: HeatFluxDensity,
    /// Temperature at the beginning, 0 to 100 °C.
    pub start: Temperature,
}

/// Times on the way to ice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FreezingTimes {
    /// From the start to 0 °C.
    pub to_zero: Time,
    /// From 0 °C until all water is ice.
    pub to_solid: Time,
}

/// Time to cool to 0 °C, t = C ΔT/q, and then to freeze through, t = m h_f/q, at a steady loss.
///
/// The first riser bursts before the last water is ice. Orientation only.
pub fn freezing_times(cooling: Cooling) -> Result<FreezingTimes, DomainError> {
    let loss = positive("heat loss", cooling.loss.si())?;
    let capacity = positive("heat capacity", cooling.capacity_per_area)?;
    let water = positive("water content", cooling.water_per_area)?;
    within("temperature at the start", cooling.start.si(), celsius(0.0).si(), celsius(100.0).si())?;
    let above = in_celsius(cooling.start);
    Ok(FreezingTimes {
        to_zero: Time::from_si(capacity * above / loss),
        to_solid: Time::from_si(water * HEAT_OF_FUSION / loss),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wind_brings_the_plate_nearer_to_the_air() {
        let at = |v| freezing_air(NightPanel::default(), Sky::Clear, Velocity::from_si(v)).unwrap().si();
        assert!(at(0.0) > at(1.0) && at(1.0) > at(4.0));
    }

    #[test]
    fn a_wind_below_zero_is_refused() {
        let wind = Velocity::from_si(-1.0);
        assert!(matches!(freezing_air(NightPanel::default(), Sky::Clear, wind), Err(DomainError::Outside { .. })));
    }
}
