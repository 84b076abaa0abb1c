//! Air at a place: pressure by height, wind by height, air mass, dew point.
//!
//! Only the air; what the sky radiates lives in `sky`, what it lets through in `clear_sky`.

use crate::units::si::{Angle, Dimension, Length, Pressure, Temperature, Velocity, celsius, in_celsius};

/// Pressure of the standard atmosphere at sea level, Pa.
pub const SEA_LEVEL_PRESSURE: f64 = 101_325.0;
/// Altitude at which the pressure formula reaches zero, m.
const FORMULA_TOP: f64 = 44_331.514;

/// Pressure by altitude, p = 100((44331.514 − z)/11880.516)^(1/0.1902632) Pa.
///
/// Standard atmosphere of the troposphere, −500 to 11000 m, in the form of a photovoltaic reference library; the form
/// 101325 (1 − 2.25577e-5 z)^5.25588 of other handbooks gives the same within 2e-5 to 5000 m. Zero above 44 km, where
/// the formula ends.
pub fn pressure(altitude: Length) -> Pressure {
    let left = (FORMULA_TOP - altitude.si()).max(0.0);
    Pressure::from_si(100.0 * (left / 11880.516).powf(1.0 / 0.1902632))
}

/// Wind measured at one height, to be carried to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredWind {
    /// Speed at `height`.
    pub speed: Velocity,
    /// Height of the instrument, 10 m at most stations.
    pub height: Length,
    /// Power a of the terrain: 0.10 water, 0.15 smooth grass, 0.20 crops and bushes, 0.25 buildings and trees.
    pub exponent: f64,
}

/// Lowest height of the power law, m: between bushes and houses it says nothing.
const LOWEST_WIND_HEIGHT: f64 = 2.0;

/// Wind speed at `height`, u = u_ref (z/z_ref)^a.
///
/// Power law with the exponents of engineering tables. Below 2 m the speed at 2 m is given.
pub fn wind_at(wind: MeasuredWind, height: Length) -> Velocity {
    let height = height.si().max(LOWEST_WIND_HEIGHT);
    Velocity::from_si(wind.speed.si() * (height / wind.height.si()).powf(wind.exponent))
}

/// Relative air mass m = 1/(cos Z + 0.50572(96.07995 − Z)^−1.6364), Z the apparent zenith angle in degrees.
///
/// Kasten & Young 1989, Z 0 to 90°. Below the horizon there is none.
pub fn relative_air_mass(apparent_zenith: Angle) -> Option<f64> {
    let zenith = apparent_zenith.si().to_degrees();
    (zenith <= 90.0).then(|| 1.0 / (zenith.to_radians().cos().max(0.0) + 0.50572 * (96.07995 - zenith).powf(-1.6364)))
}

/// Dew point from air temperature and relative humidity (0 to 1), after Magnus.
///
/// γ = ln RH + 17.62 t/(243.12 + t), t_dp = 243.12 γ/(17.62 − γ), t in °C, −45 to 60 °C (WMO coefficients, from
/// memory). `None` for a humidity of zero or less, which has no dew point.
pub fn dew_point(air: Temperature, relative_humidity: f64) -> Option<Temperature> {
    if relative_humidity <= 0.0 {
        return None;
    }
    let t = in_celsius(air);
    let gamma = relative_humidity.ln() + 17.62 * t / (243.12 + t);
    Some(celsius(243.12 * gamma / (17.62 - gamma)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Psychrometric tables print a dew point of 9.3 °C for 20 °C and 50 %; from memory.
    #[test]
    fn half_humid_room_air_dews_at_nine_degrees() {
        let dew = dew_point(celsius(20.0), 0.5).map(in_celsius);
        assert!((dew.unwrap() - 9.3).abs() < 0.1);
        assert_eq!(dew_point(celsius(20.0), 0.0), None);
    }

    /// Sea level, 2000 m and 5000 m of the standard atmosphere: 101.325, 79.50 and 54.02 kPa (printed tables, from
    /// memory), and the other published form of the formula.
    #[test]
    fn pressure_falls_with_height_as_the_standard_atmosphere_does() {
        for (metres, pascals) in [(0.0, SEA_LEVEL_PRESSURE), (2000.0, 79_495.0), (5000.0, 54_020.0)] {
            let got = pressure(Length::from_si(metres)).si();
            assert!((got / pascals - 1.0).abs() < 1e-4, "{metres}: {got}");
            let other = 101_325.0 * (1.0 - 2.25577e-5 * metres).powf(5.25588);
            assert!((got / other - 1.0).abs() < 2e-5, "{metres}: {got} {other}");
        }
    }

    #[test]
    fn wind_near_the_ground_is_the_wind_at_two_metres() {
        let wind = MeasuredWind { speed: Velocity::from_si(5.0), height: Length::from_si(10.0), exponent: 0.2 };
        assert_eq!(wind_at(wind, Length::from_si(0.5)), wind_at(wind, Length::from_si(2.0)));
    }
}
