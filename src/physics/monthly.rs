//! A year from twelve monthly means: the path for a place without a weather file.
//!
//! Mean days, hourly profiles, tilted monthly totals. Against hourly files a year is within 2 %, a month within 7 % at
//! middle latitudes and 19 % in a subarctic winter.

use std::f64::consts::PI;

use crate::physics::decomposition::{MonthlyFraction, monthly_fraction};
use crate::physics::extraterrestrial;
use crate::physics::sun::{Direction, declination_cooper, sunset_hour_angle};
use crate::units::si::{Angle, Dimension, RadiantExposure, Temperature};

/// Day of the year that stands for each month: its irradiation is nearest to the month's mean.
///
/// Klein 1977; Duffie & Beckman table 1.6.1. Not for latitudes beyond 66.5°.
pub const MEAN_DAYS: [u16; 12] = [17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344];
/// Beyond the polar circle the mean days stand for nothing, degrees.
const POLAR_CIRCLE: f64 = 66.5;
/// Points of the integral over the day.
const STEPS: u32 = 400;

/// The monthly method cannot speak for this place.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum MonthlyError {
    /// Beyond the polar circles.
    #[error("mean days stand for months up to latitude 66.5 degrees; this is {latitude}")]
    Polar {
        /// Degrees.
        latitude: f64,
    },
}

/// The day that stands for a month at a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeanDay {
    latitude: Angle,
    declination: Angle,
    sunset: Angle,
    extraterrestrial: RadiantExposure,
}

/// A month on level ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthOnLevel {
    /// Mean daily irradiation H.
    pub daily: RadiantExposure,
    /// Albedo of the ground.
    pub albedo: f64,
}

/// A month's irradiation on a tilted plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthOnPlane {
    /// Mean daily irradiation H_T.
    pub daily: RadiantExposure,
    /// Ratio R = H_T/H.
    pub ratio: f64,
    /// Diffuse fraction, with its note on the range.
    pub diffuse: MonthlyFraction,
}

impl MeanDay {
    /// The day `day_of_year` (one of [`MEAN_DAYS`], or any) at a latitude up to 66.5°.
    pub fn new(latitude: Angle, day_of_year: f64) -> Result<Self, MonthlyError> {
        let degrees = latitude.si().to_degrees();
        if !(-POLAR_CIRCLE..=POLAR_CIRCLE).contains(&degrees) {
            return Err(MonthlyError::Polar { latitude: degrees });
        }
        let declination = declination_cooper(day_of_year);
        let sunset = sunset_hour_angle(latitude, declination);
        let extraterrestrial = extraterrestrial::daily(latitude, day_of_year);
        Ok(Self { latitude, declination, sunset, extraterrestrial })
    }

    /// Irradiation H_0 above the atmosphere on a level plane.
    pub fn extraterrestrial(&self) -> RadiantExposure {
        self.extraterrestrial
    }

    /// Hour angle of sunset.
    pub fn sunset(&self) -> Angle {
        self.sunset
    }

    /// Clearness K_T = H/H_0.
    pub fn clearness(&self, daily: RadiantExposure) -> f64 {
        daily.si() / self.extraterrestrial.si()
    }

    /// H_T of a plane that faces `azimuth`: R = ∫(r_t − r_d K_d) max(cos θ, 0)/cos Z dω + K_d(1+cos β)/2 + ρ(1−cos
    /// β)/2.
    ///
    /// Isotropic sky. The integral from sunrise to sunset equals the closed form of Klein & Theilacker 1981 (Duffie &
    /// Beckman section 2.20) within 1e-5 for every azimuth.
    pub fn on_plane(&self, month: MonthOnLevel, tilt: Angle, azimuth: Angle) -> MonthOnPlane {
        let diffuse = monthly_fraction(self.clearness(month.daily), self.sunset);
        let beam = self.beam_integral(diffuse.fraction, Direction::normal(tilt, azimuth));
        assemble(month, tilt, beam, diffuse)
    }

    /// H_T of a plane that faces the equator by Klein's beam factor: R = (1−K_d) R_b + K_d(1+cos β)/2 + ρ(1−cos β)/2,
    /// R_b = (cos q cos δ sin ω' + ω' sin q sin δ)/(cos φ cos δ sin ω_s + ω_s sin φ sin δ), q = φ − β in the north and
    /// φ + β in the south, ω' = min(ω_s, ω_s(q)).
    ///
    /// Klein 1977; Duffie & Beckman section 2.19. The cross-check of [`MeanDay::on_plane`].
    pub fn on_equator_facing_plane(&self, month: MonthOnLevel, tilt: Angle) -> MonthOnPlane {
        let diffuse = monthly_fraction(self.clearness(month.daily), self.sunset);
        let toward = if self.latitude.si() < 0.0 { tilt.si() } else { -tilt.si() };
        let turned = Angle::from_si(self.latitude.si() + toward);
        let sunset = self.sunset.si().min(sunset_hour_angle(turned, self.declination).si());
        let factor = self.level_sum(turned.si(), sunset) / self.level_sum(self.latitude.si(), self.sunset.si());
        assemble(month, tilt, (1.0 - diffuse.fraction) * factor, diffuse)
    }

    fn level_sum(&self, latitude: f64, sunset: f64) -> f64 {
        let (sin_delta, cos_delta) = self.declination.si().sin_cos();
        latitude.cos() * cos_delta * sunset.sin() + sunset * latitude.sin() * sin_delta
    }

    /// ∫(r_t − r_d K_d) max(cos θ, 0)/cos Z dω over the day, ω in hours.
    ///
    /// Both profiles carry the factor cos ω − cos ω_s, and cos Z = cos φ cos δ (cos ω − cos ω_s): it cancels, so the
    /// integrand stays finite at sunrise.
    fn beam_integral(&self, diffuse_fraction: f64, normal: Direction) -> f64 {
        let sunset = self.sunset.si();
        let (a, b) = collares_pereira(self.sunset);
        let shape = PI / 24.0 / (sunset.sin() - sunset * sunset.cos());
        let scale = shape / (self.latitude.si().cos() * self.declination.si().cos());
        let step = 2.0 * sunset / f64::from(STEPS);
        let sum: f64 = (0..STEPS)
            .map(|index| {
                let omega = (f64::from(index) + 0.5) * step - sunset;
                let sun = Direction::of_sun(self.latitude, self.declination, Angle::from_si(omega));
                (a + b * omega.cos() - diffuse_fraction) * sun.dot(normal).max(0.0)
            })
            .sum();
        sum * scale * step.to_degrees() / 15.0
    }
}

fn assemble(month: MonthOnLevel, tilt: Angle, beam: f64, diffuse: MonthlyFraction) -> MonthOnPlane {
    let cosine = tilt.si().cos();
    let ratio = beam + diffuse.fraction * f64::midpoint(1.0, cosine) + month.albedo * f64::midpoint(1.0, -cosine);
    MonthOnPlane { daily: month.daily * ratio, ratio, diffuse }
}

/// Share of a day's global light in the hour around an hour angle, r_t = (a + b cos ω) r_d, per hour.
///
/// Collares-Pereira & Rabl 1979; Duffie & Beckman eq. 2.13.2. Zero while the sun is down.
pub fn global_share(hour_angle: Angle, sunset: Angle) -> f64 {
    let (a, b) = collares_pereira(sunset);
    (a + b * hour_angle.si().cos()) * diffuse_share(hour_angle, sunset)
}

/// a = 0.409 + 0.5016 sin(ω_s − 60°), b = 0.6609 − 0.4767 sin(ω_s − 60°).
fn collares_pereira(sunset: Angle) -> (f64, f64) {
    let turn = (sunset.si() - PI / 3.0).sin();
    (0.409 + 0.5016 * turn, 0.6609 - 0.4767 * turn)
}

/// Share of a day's diffuse light in the hour around an hour angle, r_d = (π/24)(cos ω − cos ω_s)/(sin ω_s −
/// ω_s cos ω_s), per hour.
///
/// Liu & Jordan 1960; Duffie & Beckman eq. 2.13.4. Zero while the sun is down.
pub fn diffuse_share(hour_angle: Angle, sunset: Angle) -> f64 {
    let (omega, set) = (hour_angle.si(), sunset.si());
    if omega.abs() >= set {
        return 0.0;
    }
    PI / 24.0 * (omega.cos() - set.cos()) / (set.sin() - set * set.cos())
}

/// A month's mean air temperature and clearness.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthlyAir {
    /// Mean of the month.
    pub mean: Temperature,
    /// K_T, 0.3 to 0.75.
    pub clearness: f64,
}

/// Air temperature at an hour (1 to 24, solar) of a mean day, from the month's mean.
///
/// T + A[0.4632 cos(x − 3.805) + 0.0984 cos(2x − 0.360) + 0.0168 cos(3x − 0.822) + 0.0138 cos(4x − 3.513)],
/// x = 2π(t − 1)/24, A = 25.8 K_T − 5.21 K. Erbs et al. 1983 (from memory).
pub fn hourly_temperature(month: MonthlyAir, hour: f64) -> Temperature {
    let x = 2.0 * PI * (hour - 1.0) / 24.0;
    let swing = 25.8 * month.clearness - 5.21;
    let shape = 0.4632 * (x - 3.805).cos()
        + 0.0984 * (2.0 * x - 0.360).cos()
        + 0.0168 * (3.0 * x - 0.822).cos()
        + 0.0138 * (4.0 * x - 3.513).cos();
    Temperature::from_si(month.mean.si() + swing * shape)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    fn degrees(value: f64) -> Angle {
        Angle::from_si(value.to_radians())
    }

    #[test]
    fn the_shares_of_a_day_add_up_to_the_day() {
        let sunset = degrees(87.0);
        let sum = |share: fn(Angle, Angle) -> f64| -> f64 {
            (-1080..1080).map(|tenth| share(degrees((f64::from(tenth) + 0.5) / 10.0), sunset)).sum::<f64>() / 150.0
        };
        assert!((sum(diffuse_share) - 1.0).abs() < 1e-4);
        assert!((sum(global_share) - 1.0).abs() < 0.01);
    }

    /// Klein's factor takes one profile for global and diffuse light, so it runs up to 5 % higher in winter.
    #[test]
    fn the_integral_agrees_with_kleins_factor_in_both_hemispheres() {
        for (latitude, azimuth) in [(43.0, 180.0), (-35.0, 0.0)] {
            for day in MEAN_DAYS {
                let mean_day = MeanDay::new(degrees(latitude), f64::from(day)).unwrap();
                let month = MonthOnLevel { daily: mean_day.extraterrestrial() * 0.5, albedo: 0.2 };
                let whole = mean_day.on_plane(month, degrees(45.0), degrees(azimuth)).ratio;
                let klein = mean_day.on_equator_facing_plane(month, degrees(45.0)).ratio;
                assert!((whole / klein - 1.0).abs() < 0.05, "{latitude} {day}: {whole} {klein}");
            }
        }
    }

    #[test]
    fn the_polar_regions_are_an_error() {
        assert!(MeanDay::new(degrees(70.0), 17.0).is_err());
        assert!(MeanDay::new(degrees(f64::NAN), 17.0).is_err());
    }

    /// The shape has its minimum at 6 h and its maximum at 15 h (computed from the series).
    #[test]
    fn the_day_is_coldest_at_six_and_warmest_at_fifteen() {
        let month = MonthlyAir { mean: celsius(10.0), clearness: 0.5 };
        let at = |hour| hourly_temperature(month, hour).si();
        assert!((1..=24).all(|hour| at(f64::from(hour)) >= at(6.0) && at(f64::from(hour)) <= at(15.0)));
    }
}
