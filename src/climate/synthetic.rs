//! A year made without a weather file: mean days from twelve monthly means, or a year without a cloud.
//!
//! Such a year has the right sums and no weather: no cold nights, no dull weeks, no gusts. What needs extremes must
//! ask [`Format::is_hourly`] first.

use super::audit::Audit;
use super::calendar::{HourOfYear, months};
use super::raw::{Format, Station};
use super::{Climate, Hour, Warning};
use crate::physics::clear_sky::{ClearAir, ineichen};
use crate::physics::decomposition::monthly_fraction;
use crate::physics::monthly::{MEAN_DAYS, MeanDay, MonthlyAir, MonthlyError, diffuse_share, global_share};
use crate::physics::sun::{Air, Direction, Observer, Place, SunError, julian_day, sunset_hour_angle};
use crate::physics::transposition::Sunlight;
use crate::physics::{atmosphere, extraterrestrial, monthly};
use crate::units::si::{Angle, Dimension, Length, RadiantExposure, Temperature};

/// The year that the sun's positions are taken from: no leap year, near the middle of typical ones.
const YEAR: i32 = 2001;
/// Seconds of an hour.
const HOUR: f64 = 3600.0;
/// Wind where none is known, m/s at 10 m (project rule, a usual mean inland).
const WIND: f64 = 3.0;
/// Air at sea level and its fall with height of the standard atmosphere, K and K/m.
const SEA_LEVEL_AIR: f64 = 288.15;
const LAPSE: f64 = 0.0065;
/// Clearness for which the day's swing of the air is known.
const SWING_FITTED: (f64, f64) = (0.3, 0.75);

/// Where a year is to be made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ground {
    /// Position and height.
    pub place: Place,
    /// Standard time less universal time, hours.
    pub utc_offset: f64,
}

/// What almanacs print of a place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthlyMeans {
    /// Mean daily irradiation of level ground, January to December.
    pub daily_global: [RadiantExposure; 12],
    /// Mean air temperature.
    pub air: [Temperature; 12],
}

/// A year cannot be made from what is given.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SyntheticError {
    /// Mean days do not stand for months here.
    #[error(transparent)]
    Monthly(#[from] MonthlyError),
    /// The place is beyond the sun's algorithm.
    #[error(transparent)]
    Sun(#[from] SunError),
    /// More sun than reaches the atmosphere, or less than none.
    #[error("month {month}: {daily:.2} kWh/m² a day is not between 0 and the {most:.2} above the atmosphere")]
    Impossible {
        /// 1 to 12.
        month: usize,
        /// As given, kWh/m².
        daily: f64,
        /// Above the atmosphere, kWh/m².
        most: f64,
    },
}

/// The sun of one hour.
struct Sun {
    direction: Direction,
    azimuth: f64,
    normal: f64,
}

impl Climate {
    /// A year of mean days from twelve monthly means.
    ///
    /// The light of a month is spread over its days as above the atmosphere and over the hours by r_t and r_d; the
    /// diffuse share is Erbs' monthly one; the air swings about its mean by Erbs' profile. The sums are those given.
    /// Collares-Pereira & Rabl 1979, Liu & Jordan 1960, Erbs et al. 1982 and 1983 (the last from memory); up to
    /// latitude 66.5°. Against hourly files a year on a plane is within 2.1 %, a month within 7 %, in a subarctic
    /// winter 19 %.
    pub fn from_monthly_means(ground: Ground, means: &MonthlyMeans) -> Result<Self, SyntheticError> {
        let latitude = ground.place.latitude;
        let suns = suns(ground)?;
        let mut hours = Vec::with_capacity(suns.len());
        let mut held = 0;
        for (index, month) in months().into_iter().enumerate() {
            let mean_day = MeanDay::new(latitude, f64::from(MEAN_DAYS[index]))?;
            let daily = means.daily_global[index];
            let most = mean_day.extraterrestrial();
            if !(0.0..=most.si()).contains(&daily.si()) {
                let [daily, most] = [daily, most].map(|value| value.si() / 3.6e6);
                return Err(SyntheticError::Impossible { month: index + 1, daily, most });
            }
            let clearness = if most.si() > 0.0 { mean_day.clearness(daily) } else { 0.0 };
            let diffuse = monthly_fraction(clearness, mean_day.sunset());
            held += usize::from(diffuse.held);
            let total = daily.si() * (month.len() / 24) as f64;
            let light = mean_days(latitude, &suns[month.clone()], month.start / 24, diffuse.fraction, total);
            let air = MonthlyAir { mean: means.air[index], clearness: clearness.clamp(SWING_FITTED.0, SWING_FITTED.1) };
            for (at, sunlight) in month.zip(light) {
                let temperature = monthly::hourly_temperature(air, (at % 24 + 1) as f64);
                hours.push(hour(&ground, &suns[at], sunlight, temperature.si()));
            }
        }
        let mut warnings = vec![Warning::WindUnknown, Warning::NoMoisture];
        if held > 0 {
            warnings.push(Warning::ClearnessHeld { months: held });
        }
        Ok(Self::made(ground, Format::MonthlyMeans, "twelve monthly means", hours, warnings))
    }

    /// A year without a cloud: an upper bound of the sun, not a yield.
    ///
    /// Ineichen & Perez 2002 with one Linke turbidity for the year (2 in mountain and arctic air, 3 usual, 4.5 in
    /// humid summers). The air is the standard atmosphere's: it is not weather.
    pub fn clear_sky(ground: Ground, linke_turbidity: f64) -> Result<Self, SyntheticError> {
        let altitude = ground.place.altitude;
        let air = standard_air(altitude);
        let hours = suns(ground)?
            .iter()
            .map(|sun| {
                let clear = ineichen(ClearAir {
                    apparent_zenith: sun.direction.zenith(),
                    altitude,
                    linke_turbidity,
                    extraterrestrial_normal: Dimension::from_si(sun.normal),
                });
                let sunlight = Sunlight {
                    global: clear.global,
                    beam_normal: clear.split.beam_normal,
                    diffuse: clear.split.diffuse,
                    extraterrestrial_normal: sun.normal,
                    sun: sun.direction,
                };
                hour(&ground, sun, sunlight, air)
            })
            .collect();
        let warnings = vec![Warning::AirUnknown, Warning::WindUnknown, Warning::NoMoisture];
        Ok(Self::made(ground, Format::ClearSky, "a year without a cloud", hours, warnings))
    }

    fn made(ground: Ground, format: Format, name: &str, hours: Vec<Hour>, warnings: Vec<Warning>) -> Self {
        let station = Station {
            name: name.to_owned(),
            place: ground.place,
            utc_offset: ground.utc_offset,
            format,
            source: name.to_owned(),
        };
        let audit = Audit { clock_shift_applied: 0.0, clock: None, warnings };
        Self { station, hours, albedo: None, audit, instead_of: Vec::new() }
    }
}

fn hour(ground: &Ground, sun: &Sun, sunlight: Sunlight, air: f64) -> Hour {
    Hour {
        sunlight,
        sun_azimuth: sun.azimuth,
        dry_bulb: air,
        dew_point: None,
        wind: WIND,
        pressure: atmosphere::pressure(ground.place.altitude).si(),
        infrared: None,
        opaque_cloud: None,
    }
}

/// Air of the standard atmosphere, K.
fn standard_air(altitude: Length) -> f64 {
    SEA_LEVEL_AIR - LAPSE * altitude.si()
}

fn suns(ground: Ground) -> Result<Vec<Sun>, SunError> {
    let observer = Observer::new(ground.place, Air::standard(ground.place.altitude))?;
    let mut track = observer.track();
    HourOfYear::all()
        .map(|at| {
            let (month, day) = at.date();
            let utc_hours = at.clock_hours() - ground.utc_offset;
            let direction = track.apparent(julian_day(YEAR, month, day) + utc_hours / 24.0)?;
            Ok(Sun {
                direction,
                azimuth: direction.azimuth().si(),
                normal: extraterrestrial::normal(f64::from(at.day_of_year())).si(),
            })
        })
        .collect()
}

/// The light of a month's hours, J/m² in all `total` on level ground.
fn mean_days(latitude: Angle, suns: &[Sun], first_day: usize, diffuse_fraction: f64, total: f64) -> Vec<Sunlight> {
    let days = suns.chunks(24).enumerate();
    let light: Vec<Sunlight> = days
        .flat_map(|(day, suns)| {
            let above = extraterrestrial::daily(latitude, (first_day + day + 1) as f64).si();
            suns.iter().map(move |sun| profile(latitude, sun, above / HOUR, diffuse_fraction))
        })
        .collect();
    let sum: f64 = light.iter().map(|light| light.global * HOUR).sum();
    let scale = if sum > 0.0 { total / sum } else { 0.0 };
    let scaled = |light: Sunlight| Sunlight {
        global: light.global * scale,
        beam_normal: light.beam_normal * scale,
        diffuse: light.diffuse * scale,
        ..light
    };
    light.into_iter().map(scaled).collect()
}

/// Global and diffuse light of an hour for a day with `daily` W·h/m².
///
/// Declination and hour angle are taken back from the sun's direction, so that the profiles' factor cos ω − cos ω_s
/// is the sun's own height and the beam stays finite at sunrise.
fn profile(latitude: Angle, sun: &Sun, daily: f64, diffuse_fraction: f64) -> Sunlight {
    let direction = sun.direction;
    let dark =
        Sunlight { global: 0.0, beam_normal: 0.0, diffuse: 0.0, extraterrestrial_normal: sun.normal, sun: direction };
    if direction.up <= 0.0 {
        return dark;
    }
    let (sin_phi, cos_phi) = latitude.si().sin_cos();
    let toward = direction.up * cos_phi - direction.north * sin_phi;
    let declination = Angle::from_si((direction.up * sin_phi + direction.north * cos_phi).clamp(-1.0, 1.0).asin());
    let hour_angle = Angle::from_si((-direction.east).atan2(toward));
    let sunset = sunset_hour_angle(latitude, declination);
    let global = global_share(hour_angle, sunset).max(0.0) * daily;
    let diffuse = (diffuse_share(hour_angle, sunset) * diffuse_fraction * daily).min(global);
    Sunlight { global, diffuse, beam_normal: (global - diffuse) / direction.up, ..dark }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    fn ground(latitude: f64) -> Ground {
        let place = Place {
            latitude: Angle::from_si(latitude.to_radians()),
            longitude: Angle::from_si(0.0),
            altitude: Length::from_si(100.0),
        };
        Ground { place, utc_offset: 0.0 }
    }

    fn means(kilowatt_hours: f64) -> MonthlyMeans {
        MonthlyMeans { daily_global: [RadiantExposure::from_si(kilowatt_hours * 3.6e6); 12], air: [celsius(10.0); 12] }
    }

    #[test]
    fn the_sums_are_the_ones_that_were_given() {
        let climate = Climate::from_monthly_means(ground(45.0), &means(2.0)).unwrap();
        for (total, month) in climate.monthly_global().iter().zip(months()) {
            assert!((total.si() / 3.6e6 - 2.0 * (month.len() / 24) as f64).abs() < 1e-9);
        }
        assert!(climate.monthly_temperature().iter().all(|mean| (mean.si() - celsius(10.0).si()).abs() < 1e-9));
        let beam = climate.hours().iter().map(|hour| hour.sunlight.beam_normal).fold(0.0, f64::max);
        assert!(beam < 1000.0, "{beam}");
    }

    #[test]
    fn more_sun_than_reaches_the_atmosphere_is_refused() {
        assert!(matches!(
            Climate::from_monthly_means(ground(45.0), &means(9.0)),
            Err(SyntheticError::Impossible { month: 1, .. })
        ));
        assert!(matches!(Climate::from_monthly_means(ground(70.0), &means(1.0)), Err(SyntheticError::Monthly(_))));
    }
}
