//! How a box breathes: the air that a day's warming drives out and a night draws in, and the water in that air.
//!
//! Lives here: volumes and masses. Must not live here: which holes a box has, rain that is driven in.

use super::domain::{DomainError, positive, within};
use super::fluid::vapour_pressure;
use crate::units::si::{Dimension, Mass, Temperature, Volume, in_celsius};

/// Gas constant of water vapour, J/(kg·K): 8.314 46 over 0.018 015 kg/mol (from memory).
const VAPOUR_GAS_CONSTANT: f64 = 461.5;

/// The box at its coldest and at its hottest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Swing {
    /// Mean temperature of its air in the night.
    pub cold: Temperature,
    /// Mean temperature of its air at the hottest.
    pub hot: Temperature,
}

/// Air of the night's state that one warming drives out and one cooling draws in: V (1 − T_cold/T_hot).
///
/// Ideal gas at constant pressure, any temperatures with cold below hot. No source beyond the gas law.
pub fn breath(volume: Volume, swing: Swing) -> Result<Volume, DomainError> {
    let volume = positive("volume of the air", volume.si())?;
    let cold = positive("night temperature", swing.cold.si())?;
    let hot = within("day temperature", swing.hot.si(), cold, 1000.0)?;
    Ok(Volume::from_si(volume * (1.0 - cold / hot)))
}

/// Water that saturated air of a night leaves on a surface colder than it: V (p_s(T_air) − p_s(T_surface))/(R_v T_air).
///
/// For air of 0 to 40 °C and surfaces down to 0 °C; the pressure is that of [`vapour_pressure`].
pub fn dew(air_drawn_in: Volume, air: Temperature, surface: Temperature) -> Result<Mass, DomainError> {
    within("temperature of the night air, °C", in_celsius(air), 0.0, 40.0)?;
    within("temperature of the surface, °C", in_celsius(surface), 0.0, in_celsius(air))?;
    let density = (vapour_pressure(air) - vapour_pressure(surface)) / (VAPOUR_GAS_CONSTANT * air.si());
    Ok(Mass::from_si(positive("air drawn in", air_drawn_in.si())? * density))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    /// Saturated air holds 17.3 g/m³ at 20 °C and 12.8 g/m³ at 15 °C (psychrometric tables, from memory).
    #[test]
    fn air_of_the_night_holds_what_the_tables_say() {
        let cubic = Volume::from_si(1.0);
        let left = dew(cubic, celsius(20.0), celsius(15.0)).unwrap();
        assert!((left.si() * 1e3 - (17.3 - 12.6)).abs() < 0.3, "{left:?}");
        assert!(dew(cubic, celsius(10.0), celsius(15.0)).is_err());
    }

    #[test]
    fn a_box_warmed_by_a_quarter_of_its_kelvins_breathes_a_fifth() {
        let swing = Swing { cold: celsius(6.85), hot: celsius(76.85) };
        assert!((breath(Volume::from_si(0.2), swing).unwrap().si() - 0.04).abs() < 1e-9);
    }
}
