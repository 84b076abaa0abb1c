//! How much of the sunlight on level ground is diffuse: the correlations of Erbs, Klein & Duffie 1982.
//!
//! One for each span of time, and never one in place of another.

use crate::units::si::{Angle, Dimension};

/// Sunset hour angle that parts winter from the other seasons, degrees.
const WINTER_SUNSET: f64 = 81.4;
/// Lowest cosine of the zenith angle in the clearness index.
const LOWEST_COSINE: f64 = 0.065;
/// Zenith angle above which all light is taken as diffuse, degrees.
const LOW_SUN: f64 = 87.0;

/// Beam and diffuse irradiance, W/m².
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Split {
    /// On a plane facing the sun.
    pub beam_normal: f64,
    /// On a level plane.
    pub diffuse: f64,
}

/// Cosine of the zenith angle below which beam is not computed from global and diffuse, cos 87°.
pub fn low_sun_cosine() -> f64 {
    LOW_SUN.to_radians().cos()
}

/// Diffuse fraction of an hour, k_d = 1 − 0.09k (k ≤ 0.22); 0.9511 − 0.1604k + 4.388k² − 16.638k³ + 12.336k⁴
/// (k ≤ 0.80); 0.165 above.
///
/// Erbs, Klein & Duffie 1982; Duffie & Beckman eq. 2.10.1. `clearness` k_t from 0 to 1.
pub fn hourly_fraction(clearness: f64) -> f64 {
    let k = clearness;
    if k <= 0.22 {
        1.0 - 0.09 * k
    } else if k <= 0.80 {
        0.9511 - 0.1604 * k + 4.388 * k.powi(2) - 16.638 * k.powi(3) + 12.336 * k.powi(4)
    } else {
        0.165
    }
}

/// Splits global irradiance of an hour, W/m², by [`hourly_fraction`].
///
/// k_t = GHI/(G_on max(cos Z, 0.065)), held to 0..1; with Z above 87° everything counts as diffuse: near the horizon
/// the division by cos Z would make beam out of rounding.
pub fn hourly(global: f64, cos_zenith: f64, extraterrestrial_normal: f64) -> Split {
    let clearness = (global / (extraterrestrial_normal * cos_zenith.max(LOWEST_COSINE))).clamp(0.0, 1.0);
    if cos_zenith < low_sun_cosine() {
        return Split { beam_normal: 0.0, diffuse: global };
    }
    let diffuse = hourly_fraction(clearness) * global;
    Split { beam_normal: (global - diffuse) / cos_zenith, diffuse }
}

/// Diffuse fraction of a day by its clearness K_T and the sunset hour angle.
///
/// ω_s ≤ 81.4°: 1 − 0.2727K + 2.4495K² − 11.9514K³ + 9.3879K⁴ below 0.715, else 0.143; above: 1 + 0.2832K −
/// 2.5557K² + 0.8448K³ below 0.722, else 0.175 (it passes 1 by 0.8 % near K = 0.06, as printed). Erbs et al. 1982;
/// Duffie & Beckman eq. 2.11.1.
pub fn daily_fraction(clearness: f64, sunset: Angle) -> f64 {
    let k = clearness;
    match (is_winter(sunset), k) {
        (true, k) if k < 0.715 => 1.0 - 0.2727 * k + 2.4495 * k.powi(2) - 11.9514 * k.powi(3) + 9.3879 * k.powi(4),
        (true, _) => 0.143,
        (false, k) if k < 0.722 => 1.0 + 0.2832 * k - 2.5557 * k.powi(2) + 0.8448 * k.powi(3),
        (false, _) => 0.175,
    }
}

/// A monthly diffuse fraction and whether the month lay outside the fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthlyFraction {
    /// H_d/H.
    pub fraction: f64,
    /// The clearness was outside 0.3 to 0.8 and the nearest end was taken.
    pub held: bool,
}

/// Diffuse fraction of a month by its mean clearness K_T and the sunset hour angle of its mean day.
///
/// ω_s ≤ 81.4°: 1.391 − 3.560K + 4.189K² − 2.137K³; else 1.311 − 3.022K + 3.427K² − 1.821K³. Fitted for K from 0.3 to
/// 0.8; outside the value at the end is given and said so. Erbs et al. 1982; Duffie & Beckman eq. 2.12.1.
pub fn monthly_fraction(clearness: f64, sunset: Angle) -> MonthlyFraction {
    let k = clearness.clamp(0.3, 0.8);
    let fraction = if is_winter(sunset) {
        1.391 - 3.560 * k + 4.189 * k.powi(2) - 2.137 * k.powi(3)
    } else {
        1.311 - 3.022 * k + 3.427 * k.powi(2) - 1.821 * k.powi(3)
    };
    MonthlyFraction { fraction, held: !(0.3..=0.8).contains(&clearness) }
}

/// The comparison carries a rounding margin, so that 81.4° given in radians still counts as winter.
fn is_winter(sunset: Angle) -> bool {
    sunset.si().to_degrees() <= WINTER_SUNSET + 1e-9
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_parts_add_up_to_the_whole() {
        for tenth in 1..100 {
            let cosine = f64::from(tenth) / 100.0;
            let split = hourly(400.0, cosine, 1367.0);
            assert!((split.diffuse + split.beam_normal * cosine - 400.0).abs() < 1e-9);
        }
    }

    #[test]
    fn a_month_outside_the_fit_says_so() {
        assert!(monthly_fraction(0.2, Angle::from_si(1.2)).held);
        assert!(!monthly_fraction(0.5, Angle::from_si(1.2)).held);
    }
}
