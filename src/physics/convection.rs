//! Air: its properties, the wind on a flat face, and the tilted gap under a cover.
//!
//! Liquids and the inside of tubes do not live here: see `fluid` and `tube`.

use super::hydrostatics::STANDARD_GRAVITY;
use crate::units::si::{Dimension, HeatTransfer, Velocity};

pub use super::atmosphere::pressure as air_pressure;

/// Gas constant of dry air, J/(kg·K).
const AIR_GAS_CONSTANT: f64 = 287.055;
/// Specific heat of air, J/(kg·K), held constant.
const AIR_SPECIFIC_HEAT: f64 = 1006.5;
/// Steepest tilt the gap correlation was measured at, rad: steeper gaps are computed at 75°.
const STEEPEST_MEASURED: f64 = 75.0 * std::f64::consts::PI / 180.0;

/// The law that turns wind speed into a heat transfer coefficient.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum WindLaw {
    /// h = 2.8 + 3.0 V (Watmuff, Charters & Proctor 1977, from memory).
    #[default]
    Watmuff,
    /// h = 5.7 + 3.8 V to 5 m/s, 6.47 V^0.78 above (`McAdams`, from memory): the pessimistic one. It steps down by
    /// 2 W/(m²·K) at 5 m/s, as printed.
    McAdams,
}

impl WindLaw {
    /// Heat transfer coefficient h_w of the outer face.
    ///
    /// V is the speed at the collector, m/s, zero or more. Published correlations scatter by a factor of about two.
    pub fn coefficient(self, wind: Velocity) -> HeatTransfer {
        let speed = wind.si();
        HeatTransfer::from_si(match self {
            Self::Watmuff => 2.8 + 3.0 * speed,
            Self::McAdams if speed <= 5.0 => 5.7 + 3.8 * speed,
            Self::McAdams => 6.47 * speed.powf(0.78),
        })
    }
}

/// Properties of dry air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// ρ, kg/m³.
    pub density: f64,
    /// μ, Pa·s.
    pub viscosity: f64,
    /// k, W/(m·K).
    pub conductivity: f64,
}

impl Air {
    /// Properties at a temperature in kelvin and a pressure in Pa.
    ///
    /// Sutherland's law for μ and k, ideal gas for ρ; within 1 % of a reference library from 280 to 360 K. Constants
    /// from memory.
    pub fn at(kelvin: f64, pascal: f64) -> Self {
        let relative = kelvin / 273.15;
        let power = relative * relative.sqrt();
        Self {
            density: pascal / (AIR_GAS_CONSTANT * kelvin),
            viscosity: 1.716e-5 * power * (273.15 + 110.4) / (kelvin + 110.4),
            conductivity: 0.02414 * power * (273.15 + 194.4) / (kelvin + 194.4),
        }
    }
}

/// A flat air gap heated from below.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirGap {
    /// Distance between plate and cover, m.
    pub thickness: f64,
    /// Tilt from the horizontal, rad, 0 to π/2.
    pub tilt: f64,
    /// Air pressure, Pa.
    pub pressure: f64,
}

/// What a gap does between a plate and a cover.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GapConvection {
    /// Rayleigh number Ra; zero or below when the cover is the hotter side.
    pub rayleigh: f64,
    /// Nusselt number Nu on the gap thickness.
    pub nusselt: f64,
    /// h_c, W/(m²·K).
    pub coefficient: f64,
}

/// What the gap correlation needs of a tilt, so that it is computed once where many temperatures are tried.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slant {
    /// cos β.
    upright: f64,
    /// 1708 (sin 1.8β)^1.6.
    onset_of_rolls: f64,
}

impl Slant {
    /// Of a tilt β in rad; steeper than 75° counts as 75°.
    pub fn of(tilt: f64) -> Self {
        let tilt = tilt.min(STEEPEST_MEASURED);
        Self { upright: tilt.cos(), onset_of_rolls: 1708.0 * (1.8 * tilt).sin().powf(1.6) }
    }
}

impl AirGap {
    /// Convection from a plate to a cover, both in kelvin.
    ///
    /// Ra = g ΔT d³ / (T_m ν a), Nu by Hollands et al. 1976, h_c = Nu k / d, air at the mean temperature.
    pub fn between(&self, plate: f64, cover: f64) -> GapConvection {
        self.slanted(Slant::of(self.tilt), plate, cover)
    }

    /// The same with the tilt's own share computed before.
    pub fn slanted(&self, slant: Slant, plate: f64, cover: f64) -> GapConvection {
        let mean = 0.5 * (plate + cover);
        let air = Air::at(mean, self.pressure);
        let kinematic = air.viscosity / air.density;
        let diffusivity = air.conductivity / (air.density * AIR_SPECIFIC_HEAT);
        let rayleigh = STANDARD_GRAVITY * (plate - cover) * self.thickness.powi(3) / (mean * kinematic * diffusivity);
        let nusselt = slant.nusselt(rayleigh);
        GapConvection { rayleigh, nusselt, coefficient: nusselt * air.conductivity / self.thickness }
    }
}

impl Slant {
    /// Nusselt number of a tilted air gap.
    ///
    /// Nu = 1 + 1.44 \[1 − 1708 (sin 1.8β)^1.6 / (Ra cos β)\]⁺ \[1 − 1708/(Ra cos β)\]⁺ + \[(Ra cos β / 5830)^⅓ − 1\]⁺;
    /// β in rad. Hollands, Unny, Raithby & Konicek 1976 (from memory), 0 to 75° and Ra to 1e5; steeper gaps are computed
    /// at 75°. Nu = 1 when Ra ≤ 0, the cover being hotter.
    fn nusselt(self, rayleigh: f64) -> f64 {
        if rayleigh <= 0.0 {
            return 1.0;
        }
        let upright = rayleigh * self.upright;
        let onset = (1.0 - 1708.0 / upright).max(0.0);
        let roll = (1.0 - self.onset_of_rolls / upright).max(0.0);
        1.0 + 1.44 * roll * onset + ((upright / 5830.0).cbrt() - 1.0).max(0.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::Length;

    #[test]
    fn a_gap_with_a_hot_cover_only_conducts() {
        let gap = AirGap { thickness: 0.025, tilt: 0.7, pressure: 101325.0 };
        assert!((gap.between(300.0, 320.0).nusselt - 1.0).abs() < 1e-15);
    }

    #[test]
    fn thin_air_convects_less() {
        let at = |metres: f64| {
            let pressure = air_pressure(Length::from_si(metres)).si();
            AirGap { thickness: 0.025, tilt: 0.7, pressure }.between(350.0, 310.0).nusselt
        };
        assert!(at(0.0) > at(1500.0) && at(1500.0) > at(3000.0));
    }

    #[test]
    fn steeper_than_the_measurements_is_computed_at_their_end() {
        let degrees = |d: f64| Slant::of(d.to_radians()).nusselt(3e4);
        assert!((degrees(90.0) - degrees(75.0)).abs() < 1e-12);
        assert!(degrees(60.0) > degrees(75.0));
    }
}
