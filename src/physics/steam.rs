//! Steam of a stagnating panel: whether it boils, how much steam it makes.
//!
//! Lives here: water and its vapour at saturation, the power of the panel there. Must not live here: how far steam
//! reaches into pipes, sizing of vessel and relief, verdicts. Water only: glycol boils hotter, so this errs to caution.

use super::collector_curve::{CollectorCurve, Weather};
use super::domain::{DomainError, positive, within};
use super::fluid::{CRITICAL_TEMPERATURE, Fluid, vapour_pressure};
use super::glycol::boiling_point;
use crate::units::si::{Area, Dimension, MassRate, Power, Pressure, Temperature, ZERO_CELSIUS};

const CRITICAL_DENSITY: f64 = 322.0;

/// Saturation temperature of water under a gauge pressure and the pressure of the surrounding air: [`boiling_point`]
/// with its range.
pub fn saturation(gauge: Pressure, atmosphere: Pressure) -> Result<Temperature, DomainError> {
    boiling_point(Fluid::Water, gauge + atmosphere)
}

/// Water and steam in balance at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Saturated {
    /// Density of the water, kg/m³.
    pub liquid_density: f64,
    /// Density of the steam, kg/m³.
    pub vapour_density: f64,
    /// Heat of evaporation h_fg, J/kg.
    pub heat_of_evaporation: f64,
}

/// Properties at saturation from 0.01 to 350 °C.
///
/// Densities: IAPWS SR1-86 (Wagner and Pruß 1993, coefficients from memory). Heat: Clausius–Clapeyron, h_fg = T (1/ρ″ −
/// 1/ρ′) dp/dT, the slope by central difference over 0.02 K.
pub fn saturated(temperature: Temperature) -> Result<Saturated, DomainError> {
    const HALF_STEP: f64 = 0.01;
    let kelvin = within("saturation temperature", temperature.si(), ZERO_CELSIUS + 0.01, ZERO_CELSIUS + 350.0)?;
    let t = 1.0 - kelvin / CRITICAL_TEMPERATURE;
    let third = t.cbrt();
    let liquid_density = CRITICAL_DENSITY
        * (1.0 + 1.99274064 * third + 1.09965342 * third.powi(2)
            - 0.510839303 * third.powi(5)
            - 1.75493479 * third.powi(16)
            - 45.5170352 * third.powi(43)
            - 6.74694450e5 * third.powi(110));
    let sixth = third.sqrt();
    let vapour_density = CRITICAL_DENSITY
        * (-2.03150240 * sixth.powi(2)
            - 2.68302940 * sixth.powi(4)
            - 5.38626492 * sixth.powi(8)
            - 17.2991605 * sixth.powi(18)
            - 44.7586581 * sixth.powi(37)
            - 63.9201063 * sixth.powi(71))
        .exp();
    let pressure = |offset: f64| vapour_pressure(Temperature::from_si(kelvin + offset));
    let slope = (pressure(HALF_STEP) - pressure(-HALF_STEP)) / (2.0 * HALF_STEP);
    let heat_of_evaporation = kelvin * (1.0 / vapour_density - 1.0 / liquid_density) * slope;
    Ok(Saturated { liquid_density, vapour_density, heat_of_evaporation })
}

/// A panel full of boiling water in the sun.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoilingPanel {
    /// Efficiency curve.
    pub curve: CollectorCurve,
    /// Area that the curve refers to.
    pub area: Area,
    /// Sun and air.
    pub weather: Weather,
    /// Saturation temperature at the panel.
    pub saturation: Temperature,
}

/// Steam that a panel makes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steam {
    /// Power that goes into steam.
    pub power: Power,
    /// Mass of steam a time.
    pub rate: MassRate,
}

impl BoilingPanel {
    /// Steam while water lasts: P = A max(0, η₀ G − a₁ ΔT − a₂ ΔT²) at saturation, rate P/h_fg.
    ///
    /// Zero when the panel stagnates below saturation: it does not boil. The curve's own limits apply.
    pub fn steam(&self) -> Result<Steam, DomainError> {
        let area = positive("area", self.area.si())?;
        let power = area * self.curve.power(self.weather, self.saturation)?.si().max(0.0);
        Ok(Steam {
            power: Power::from_si(power),
            rate: MassRate::from_si(power / saturated(self.saturation)?.heat_of_evaporation),
        })
    }

    /// Upper bound without any loss: all of η₀ G A into steam.
    pub fn steam_without_losses(&self) -> Result<Steam, DomainError> {
        let area = positive("area", self.area.si())?;
        let power = area * self.curve.power(self.weather, self.weather.air)?.si();
        Ok(Steam {
            power: Power::from_si(power),
            rate: MassRate::from_si(power / saturated(self.saturation)?.heat_of_evaporation),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::{HeatFluxDensity, HeatTransfer, celsius};

    #[test]
    fn a_cool_panel_makes_no_steam() {
        let panel = BoilingPanel {
            curve: CollectorCurve { eta0: 0.75, a1: HeatTransfer::from_si(6.0), a2: 0.02 },
            area: Area::from_si(4.0),
            weather: Weather { irradiance: HeatFluxDensity::from_si(500.0), air: celsius(20.0) },
            saturation: celsius(133.7),
        };
        assert!(panel.steam().unwrap().power.si() < 1e-12);
        assert!(panel.steam_without_losses().unwrap().power.si() > 1000.0);
    }

    #[test]
    fn a_vacuum_has_no_saturation() {
        assert!(saturation(Pressure::from_si(-1e5), Pressure::from_si(1e5)).is_err());
    }
}
