//! Liquid shut in a full section: how fast its pressure climbs when it warms.
//!
//! Lives here: stiffness of water in a tube and the pressure a kelvin adds. Must not live here: which sections can
//! be shut (the graph of the loop), gas in the section (`pressure_test`).

use super::domain::{DomainError, positive, within};
use super::fluid::Fluid;
use super::polynomial;
use crate::units::si::{Dimension, Length, Temperature, ZERO_CELSIUS, in_celsius};

/// Young's modulus of copper, Pa (from memory).
const COPPER_MODULUS: f64 = 117e9;
/// Linear expansion of copper near room temperature, 1/K (from memory). Smaller than the handbook's mean to 100 °C
/// (`expansion::COPPER_TO_100`), so the pressure computed with it is the higher one.
const COPPER_EXPANSION: f64 = 16.5e-6;

/// A thin copper tube by its section.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TubeSection {
    /// Outside diameter.
    pub outside_diameter: Length,
    /// Wall t.
    pub wall: Length,
}

/// What water in a shut tube does, per litre of content.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShutWater {
    /// Relative growth of the water over that of the tube, β − 3α, 1/K. Negative below about 6 °C: the pressure then
    /// falls as the water warms.
    pub expansion: f64,
    /// Relative volume that a pascal takes, κ + D/(t E), 1/Pa.
    pub compliance: f64,
}

impl ShutWater {
    /// Pressure per kelvin, dp/dT = (β − 3α)/(κ + D/(t E)), Pa/K.
    pub fn pressure_per_kelvin(&self) -> f64 {
        self.expansion / self.compliance
    }
}

/// Isothermal compressibility κ of water at a temperature in °C, 1/Pa.
///
/// Kell 1975, J. Chem. Eng. Data 20, 97 (coefficients from memory; 4.59e-10 at 20 °C, 4.42e-10 at 40 °C), 0 to 100 °C.
fn compressibility(celsius: f64) -> f64 {
    const NUMERATOR: [f64; 6] = [50.88496, 0.6163813, 1.459187e-3, 20.08438e-6, -58.47727e-9, 410.4110e-12];
    1e-11 * polynomial::value(&NUMERATOR, celsius) / (1.0 + 19.67348e-3 * celsius)
}

/// Water in a closed copper tube without gas.
///
/// β from the density of water (central difference over 0.2 K), κ after Kell, the tube as a thin closed cylinder whose
/// content grows by D/(t E) a pascal, D the bore (hoop strain only). 1 to 99 °C. Pure water only: glycol grows faster,
/// so this law understates it. `None` for the tube stands for a rigid vessel that does not grow.
pub fn shut_water(water: Temperature, tube: Option<TubeSection>) -> Result<ShutWater, DomainError> {
    const HALF_STEP: f64 = 0.1;
    let kelvin = within("water temperature", water.si(), ZERO_CELSIUS + 1.0, ZERO_CELSIUS + 99.0)?;
    let density = |offset: f64| Fluid::Water.density(Temperature::from_si(kelvin + offset)).si();
    let growth = -(density(HALF_STEP) - density(-HALF_STEP)) / (2.0 * HALF_STEP * density(0.0));
    let stiff = compressibility(in_celsius(water));
    let Some(tube) = tube else { return Ok(ShutWater { expansion: growth, compliance: stiff }) };
    let wall = positive("wall", tube.wall.si())?;
    let bore = positive("bore", tube.outside_diameter.si() - 2.0 * wall)?;
    Ok(ShutWater { expansion: growth - 3.0 * COPPER_EXPANSION, compliance: stiff + bore / (wall * COPPER_MODULUS) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    /// Handbook values from memory: 45.9, 44.2 and 44.5 in 1e-11/Pa at 20, 45 and 60 °C.
    #[test]
    fn water_is_stiffest_near_forty_five_degrees() {
        assert!((compressibility(20.0) - 45.9e-11).abs() < 1e-12);
        assert!((compressibility(45.0) - 44.15e-11).abs() < 1e-12);
        assert!((compressibility(60.0) - 44.5e-11).abs() < 1e-12);
    }

    #[test]
    fn near_freezing_the_tube_outgrows_the_water() {
        let tube = TubeSection { outside_diameter: Length::from_si(0.015), wall: Length::from_si(0.0007) };
        assert!(shut_water(celsius(3.0), Some(tube)).unwrap().pressure_per_kelvin() < 0.0);
        assert!(shut_water(celsius(120.0), Some(tube)).is_err());
    }
}
