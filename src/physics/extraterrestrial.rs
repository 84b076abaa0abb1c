//! Sunlight above the atmosphere: the measure against which clearness is taken.

use std::f64::consts::PI;

use crate::physics::sun::{day_angle, declination_cooper, sunset_hour_angle};
use crate::units::si::{Angle, Dimension, HeatFluxDensity, RadiantExposure};

/// Solar constant G_sc, W/m²: the handbook's, on which Erbs' clearness was fitted (1361.1 changes a year by 0.01 %).
pub const SOLAR_CONSTANT: f64 = 1367.0;

/// Irradiance on a plane facing the sun, G_on = G_sc(1.00011 + 0.034221 cos B + 0.00128 sin B + 0.000719 cos 2B +
/// 0.000077 sin 2B), B = 360°(n−1)/365.
///
/// Spencer 1971; Duffie & Beckman eq. 1.4.1b. Any day of the year n, fractions allowed.
pub fn normal(day_of_year: f64) -> HeatFluxDensity {
    let b = day_angle(day_of_year);
    let distance =
        1.00011 + 0.034221 * b.cos() + 0.00128 * b.sin() + 0.000719 * (2.0 * b).cos() + 0.000077 * (2.0 * b).sin();
    HeatFluxDensity::from_si(SOLAR_CONSTANT * distance)
}

/// The same by G_on = G_sc(1 + 0.033 cos(360° n/365)): the form behind the handbook's monthly tables.
///
/// Duffie & Beckman eq. 1.4.1a.
pub fn normal_short(day_of_year: f64) -> HeatFluxDensity {
    HeatFluxDensity::from_si(SOLAR_CONSTANT * (1.0 + 0.033 * (360.0 * day_of_year / 365.0).to_radians().cos()))
}

/// Irradiation of a level plane in a day, H_0 = (86400 G_on/π)(cos φ cos δ sin ω_s + ω_s sin φ sin δ).
///
/// Duffie & Beckman eq. 1.10.3 with Cooper's declination and [`normal_short`]; all latitudes.
pub fn daily(latitude: Angle, day_of_year: f64) -> RadiantExposure {
    let sunset = sunset_hour_angle(latitude, declination_cooper(day_of_year)).si();
    RadiantExposure::from_si(level(latitude, day_of_year, -sunset, sunset))
}

/// A span of hour angles, the earlier first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HourSpan {
    /// ω_1.
    pub from: Angle,
    /// ω_2.
    pub to: Angle,
}

/// Irradiation of a level plane between two hour angles, I_0 = (43200 G_on/π)(cos φ cos δ (sin ω_2 − sin ω_1) +
/// (ω_2 − ω_1) sin φ sin δ).
///
/// Duffie & Beckman eq. 1.10.4. The part of the span in which the sun is down is left out.
pub fn within(latitude: Angle, day_of_year: f64, span: HourSpan) -> RadiantExposure {
    let sunset = sunset_hour_angle(latitude, declination_cooper(day_of_year)).si();
    let (from, to) = (span.from.si().clamp(-sunset, sunset), span.to.si().clamp(-sunset, sunset));
    RadiantExposure::from_si(level(latitude, day_of_year, from, to))
}

/// J/m² on a level plane between hour angles in radians.
fn level(latitude: Angle, day_of_year: f64, from: f64, to: f64) -> f64 {
    let (sin_phi, cos_phi) = latitude.si().sin_cos();
    let (sin_delta, cos_delta) = declination_cooper(day_of_year).si().sin_cos();
    43200.0 / PI
        * normal_short(day_of_year).si()
        * (cos_phi * cos_delta * (to.sin() - from.sin()) + (to - from) * sin_phi * sin_delta)
}
