//! Propylene glycol as an antifreeze: how much, what it stands against, where it boils, what it adds.
//!
//! Properties of the mixture at one temperature live in `fluid`.

use super::domain::{DomainError, at_least, not_negative, positive, within};
use super::fluid::{self, Fluid};
use super::root::{self, Bracket};
use crate::units::si::{Dimension, Pressure, Temperature, Volume};

/// Density of propylene glycol at 20 °C, kg/m³.
const GLYCOL_DENSITY: f64 = 1036.1;
/// Density of water at 20 °C, kg/m³.
const WATER_DENSITY: f64 = 998.21;
/// Molar masses of water and propylene glycol, g/mol.
const MOLAR_MASS: (f64, f64) = (18.015, 76.094);

/// Strongest mixture that the property tables reach, by mass; above it water is added, not glycol.
pub const GREATEST_MASS_FRACTION: f64 = 0.6;

/// Weakest mixture in which the inhibitors of usual jugs still protect metal, by volume (from memory).
pub const INHIBITOR_LEAST_VOLUME_FRACTION: f64 = 0.25;

/// The liquid with this mass fraction of glycol; 0 is water, above 0.6 there is no data.
pub fn mixture(mass_fraction: f64) -> Result<Fluid, DomainError> {
    let mass_fraction = within("mass fraction of glycol", mass_fraction, 0.0, GREATEST_MASS_FRACTION)?;
    Ok(if mass_fraction > 0.0 { Fluid::PropyleneGlycol { mass_fraction } } else { Fluid::Water })
}

/// Mass fraction from the volume fraction φ that jugs and refractometers mean, both measured at 20 °C.
///
/// x = φ 1036.1/\[φ 1036.1 + (1 − φ) 998.21\]: volumes before mixing. 0 ≤ φ ≤ 1.
pub fn mass_fraction(volume_fraction: f64) -> Result<f64, DomainError> {
    let part = within("volume fraction of glycol", volume_fraction, 0.0, 1.0)?;
    let mass = part * GLYCOL_DENSITY;
    Ok(mass / (mass + (1.0 - part) * WATER_DENSITY))
}

/// Volume fraction from the mass fraction: the inverse of [`mass_fraction`].
pub fn volume_fraction(mass_fraction: f64) -> Result<f64, DomainError> {
    let part = within("mass fraction of glycol", mass_fraction, 0.0, 1.0)?;
    let volume = part / GLYCOL_DENSITY;
    Ok(volume / (volume + (1.0 - part) / WATER_DENSITY))
}

/// Smallest mass fraction whose first ice forms no warmer than `wanted`.
///
/// Inverse of [`Fluid::freezing_point`] on 0 to 0.6, to 1e-12; zero when water alone will do (the glycol data begin at
/// −0.02 °C); an error when 0.6 does not reach. The first ice is a slush that stops the pump; pipes burst later, but
/// that is no protection.
pub fn mass_fraction_for_freezing(wanted: Temperature) -> Result<f64, DomainError> {
    let freezing = |mass_fraction: f64| Fluid::PropyleneGlycol { mass_fraction }.freezing_point().si();
    let coldest = freezing(GREATEST_MASS_FRACTION);
    at_least("freezing point", wanted.si(), coldest)?;
    if wanted.si() >= freezing(0.0) {
        return Ok(0.0);
    }
    let whole = Bracket { low: 0.0, high: GREATEST_MASS_FRACTION };
    let excess = |mass_fraction: f64| freezing(mass_fraction) - wanted.si();
    root::find(whole, 1e-12, excess)
        .ok_or(DomainError::NotSettled { what: "mass fraction of glycol", residual: wanted.si() - coldest })
}

/// Litres of glycol in a loop: φ V, with no allowance for spills, flushing or the shrinking of the mixture (< 1 %).
pub fn glycol_volume(mass_fraction: f64, loop_volume: Volume) -> Result<Volume, DomainError> {
    not_negative("loop volume", loop_volume.si())?;
    Ok(loop_volume * volume_fraction(mass_fraction)?)
}

/// Vapour pressure of a liquid of the loop, absolute.
///
/// Raoult: p = x_w p_w(T) + (1 − x_w) p_g(T) with mole fractions from 18.015 and 76.094 g/mol, p_w by IAPWS SR1-86,
/// p_g = exp\[25.4251446 − 6091.94938/(T − 22.45)\] Pa (Landolt-Börnstein set, 364 to 483 K, extrapolated outside,
/// where its part is small). Real mixtures boil within about 1 K of it (one published point: 118 psia at 350 °F for
/// 40 %). Temperature 273.15 to 640 K.
pub fn vapour_pressure(liquid: Fluid, temperature: Temperature) -> Result<Pressure, DomainError> {
    within("temperature", temperature.si(), 273.15, 640.0)?;
    Ok(Pressure::from_si(mixture_pressure(water_mole_fraction(liquid)?, temperature.si())))
}

/// Temperature at which a liquid of the loop starts to boil under an absolute pressure.
///
/// Inverse of [`vapour_pressure`] on 273.15 to 640 K, to 1e-9 K. A pressure outside that range, about 0.006 to 200 bar,
/// is refused.
pub fn boiling_point(liquid: Fluid, absolute_pressure: Pressure) -> Result<Temperature, DomainError> {
    let water_part = water_mole_fraction(liquid)?;
    let wanted = positive("absolute pressure", absolute_pressure.si())?;
    let range = Bracket { low: 273.15, high: 640.0 };
    let ends = [range.low, range.high].map(|kelvin| mixture_pressure(water_part, kelvin));
    within("absolute pressure", wanted, ends[0], ends[1])?;
    root::find(range, 1e-9, |kelvin| mixture_pressure(water_part, kelvin) - wanted)
        .map(Temperature::from_si)
        .ok_or(DomainError::NotSettled { what: "boiling point", residual: wanted - ends[0] })
}

/// A warming of the loop's liquid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Warming {
    /// Coldest, where the liquid is densest.
    pub cold: Temperature,
    /// Hottest.
    pub hot: Temperature,
}

/// Growth of a liquid on warming, as a part of its cold volume: ρ(cold)/ρ(hot) − 1.
///
/// Glycol polynomials are extrapolated above 100 °C, water's above 150 °C. One manufacturer's manual takes 0.13 for
/// its fluid from −20 to 120 °C, against 0.09 here at 40 %: the cautious choice when the fluid is not known.
pub fn expansion(liquid: Fluid, warming: Warming) -> Result<f64, DomainError> {
    positive("coldest temperature", warming.cold.si())?;
    within("hottest temperature", warming.hot.si(), warming.cold.si(), 523.15)?;
    Ok(liquid.density(warming.cold).si() / liquid.density(warming.hot).si() - 1.0)
}

fn water_mole_fraction(liquid: Fluid) -> Result<f64, DomainError> {
    match liquid {
        Fluid::Water => Ok(1.0),
        Fluid::PropyleneGlycol { mass_fraction } => {
            let x = within("mass fraction of glycol", mass_fraction, 0.0, 1.0)?;
            let (water, glycol) = ((1.0 - x) / MOLAR_MASS.0, x / MOLAR_MASS.1);
            Ok(water / (water + glycol))
        }
    }
}

fn mixture_pressure(water_part: f64, kelvin: f64) -> f64 {
    let glycol = (25.4251446 - 6091.94938 / (kelvin - 22.45)).exp();
    water_part * fluid::vapour_pressure(Temperature::from_si(kelvin)) + (1.0 - water_part) * glycol
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    #[test]
    fn volume_and_mass_fractions_are_inverse() {
        for part in [0.0, 0.25, 0.5, 1.0] {
            assert!((volume_fraction(mass_fraction(part).unwrap()).unwrap() - part).abs() < 1e-15);
        }
    }

    #[test]
    fn frost_that_no_mixture_stands_is_refused() {
        assert!(matches!(mass_fraction_for_freezing(celsius(-60.0)), Err(DomainError::Below { .. })));
        assert_eq!(mass_fraction_for_freezing(celsius(2.0)), Ok(0.0));
    }

    #[test]
    fn the_needed_fraction_freezes_where_it_was_asked_to() {
        for degrees in [-5.0, -17.0, -35.0] {
            let liquid = mixture(mass_fraction_for_freezing(celsius(degrees)).unwrap()).unwrap();
            assert!((liquid.freezing_point().si() - celsius(degrees).si()).abs() < 1e-6);
        }
    }

    #[test]
    fn a_mixture_boils_where_its_vapour_pressure_says() {
        let liquid = mixture(0.4).unwrap();
        let pressure = Pressure::from_si(3e5);
        let boiling = boiling_point(liquid, pressure).unwrap();
        assert!((vapour_pressure(liquid, boiling).unwrap().si() / 3e5 - 1.0).abs() < 1e-9);
        assert!(boiling_point(liquid, Pressure::from_si(0.0)).is_err());
        assert!(boiling_point(liquid, Pressure::from_si(1e9)).is_err());
    }

    #[test]
    fn cooling_is_no_warming() {
        assert!(expansion(Fluid::Water, Warming { cold: celsius(60.0), hot: celsius(10.0) }).is_err());
    }
}
