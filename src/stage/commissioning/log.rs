//! What a logger file says of its days and its clock, with the project's place and liquid laid beside it.

use super::log_entries as e;
use crate::logger::{DayLog, Log, QUARTERS, civil};
use crate::model::{Fig, Inputs};
use crate::physics::clear_sky::{ClearAir, LINKE_TURBIDITY, ineichen};
use crate::physics::decomposition::hourly_fraction;
use crate::physics::extraterrestrial;
use crate::physics::fluid::Fluid;
use crate::physics::horizon::Horizon;
use crate::physics::sun::{Direction, day_length, declination_cooper, equation_of_time_spencer, hour_angle};
use crate::stage::site;
use crate::units::si::{Angle, Dimension, Energy, Length, Time, celsius};

const HOUR: f64 = 3600.0;
const DAY: f64 = 86_400.0;
const QUARTER: f64 = DAY / QUARTERS as f64;
/// Part of the daylight that must be there for a day to count (project rule).
pub const LEAST_COVER: f64 = 0.95;
/// Roughness up to which a day's sun counts as clear (project rule; 1 is a smooth rise and fall).
const CLEAR_DAY: f64 = 1.25;
/// Step of the sum over a clear day, s.
const STEP: f64 = 600.0;
/// Most clear days that the clock is judged by: the last ones.
const CLEAR_DAYS: usize = 10;

/// The place on the log's clock.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// North positive.
    pub latitude: Angle,
    /// East positive.
    pub longitude: Angle,
    /// Seconds by which the log's clock is ahead of universal time.
    pub ahead: f64,
}

/// Which way the panels look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Facing {
    /// From level.
    pub tilt: Angle,
    /// Clockwise from true north.
    pub azimuth: Angle,
}

impl Place {
    /// The place of a project; the clock by the file, else as entered, else by longitude.
    pub fn of(inputs: &Inputs, log: &Log) -> Fig<Self> {
        let longitude = inputs.get(&site::entries::LONGITUDE)?;
        let by_longitude = (longitude.si().to_degrees() / 15.0).round() * HOUR;
        let entered = inputs.given(&e::CLOCK)?.map(Dimension::si);
        Ok(Self {
            latitude: inputs.get(&site::entries::LATITUDE)?,
            longitude,
            ahead: log.offset.or(entered).unwrap_or(by_longitude),
        })
    }

    /// Solar time less clock time, s.
    fn solar_lead(&self, day_of_year: f64) -> f64 {
        equation_of_time_spencer(day_of_year).si() + self.longitude.si().to_degrees() * 240.0 - self.ahead
    }

    /// Direction of the sun at a moment of the log, from the handbook's short formulas (good to half a degree).
    pub fn sun(&self, at: f64) -> Direction {
        let day = day_of_year(at);
        let solar = at.rem_euclid(DAY) + self.solar_lead(day);
        Direction::of_sun(self.latitude, declination_cooper(day), hour_angle(Time::from_si(solar)))
    }

    /// Part of the sun on a plane that does not come from the sun's direction, by the plane's own clearness.
    ///
    /// Diffuse share d of Erbs, Klein & Duffie 1982, made for level ground; of it (1 − d) k is light around the sun (Hay &
    /// Davies 1980). Both taken for the plane (project rule).
    pub fn diffuse_share(&self, at: f64, irradiance: f64, cosine: f64) -> f64 {
        let most = extraterrestrial::normal(day_of_year(at)).si() * cosine;
        let clearness = (irradiance / most).clamp(0.0, 1.0);
        let diffuse = hourly_fraction(clearness);
        diffuse * (1.0 - (1.0 - diffuse) * clearness)
    }

    /// Sunrise and sunset of a day that begins at `start`, s after midnight.
    pub fn daylight(&self, start: f64) -> (f64, f64) {
        let day = day_of_year(start);
        let noon = 0.5 * DAY - self.solar_lead(day);
        let half = 0.5 * day_length(self.latitude, declination_cooper(day)).si();
        (noon - half, noon + half)
    }
}

/// Days since the turn of the year, 1 on the first of January.
fn day_of_year(at: f64) -> f64 {
    civil(at).map_or(1.0, |at| f64::from(at.date().day_of_year()))
}

/// A day with its heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// Midnight at its beginning.
    pub start: f64,
    /// Heat brought in.
    pub gained: Energy,
    /// Heat sent to the sky, a positive number.
    pub lost: Energy,
    /// Part of the daylight that is there, 0 to 1.
    pub cover: f64,
    /// Starts of the pump.
    pub starts: u32,
    /// Time that the pump ran.
    pub pump: Time,
}

impl Judged {
    /// Whether it counts.
    pub fn counts(&self) -> bool {
        self.cover >= LEAST_COVER
    }
}

/// The days of a log.
pub fn days(log: &Log, place: Place, liquid: Fluid) -> Vec<Judged> {
    let judged = |day: &DayLog| {
        let at = celsius(day.temperature.unwrap_or(40.0));
        let heat = liquid.density(at).si() * liquid.specific_heat(at).si();
        Judged {
            start: day.start,
            gained: Energy::from_si(day.gained * heat),
            lost: Energy::from_si(day.lost * heat),
            cover: cover(day, place),
            starts: day.starts,
            pump: Time::from_si(day.pump_seconds),
        }
    };
    log.days.iter().map(judged).collect()
}

/// Part of a day's light in which everything needed was there; 0 without daylight.
fn cover(day: &DayLog, place: Place) -> f64 {
    let (rise, set) = place.daylight(day.start);
    let quarters = day.covered.iter().enumerate().map(|(index, seconds)| {
        let from = index as f64 * QUARTER;
        let light = (set.min(from + QUARTER) - rise.max(from)).max(0.0);
        f64::from(*seconds).min(light)
    });
    if set > rise { quarters.sum::<f64>() / (set - rise) } else { 0.0 }
}

/// What the clock is held against.
pub struct Sight<'a> {
    /// Place and clock.
    pub place: Place,
    /// Panels.
    pub facing: Facing,
    /// Above sea level.
    pub altitude: Length,
    /// Skyline.
    pub horizon: &'a Horizon,
}

/// By how much the log's clock is ahead of the sun: the middle of clear days' sun against the computed one, the median
/// over the clear days; none without a clear day.
pub fn clock_error(log: &Log, sight: &Sight) -> Option<Time> {
    let clear =
        |day: &&DayLog| day.roughness.is_some_and(|rough| rough <= CLEAR_DAY) && cover(day, sight.place) >= LEAST_COVER;
    let days = log.days.iter().rev().filter(clear).take(CLEAR_DAYS);
    let mut errors: Vec<f64> =
        days.filter_map(|day| Some(day.sun_middle? - sight.expected_middle(day.start)?)).collect();
    errors.sort_by(f64::total_cmp);
    errors.get(errors.len() / 2).map(|error| Time::from_si(*error))
}

impl Sight<'_> {
    /// Middle of a clear day's sun on the plane, s after midnight.
    fn expected_middle(&self, start: f64) -> Option<f64> {
        let (rise, set) = self.place.daylight(start);
        let normal = Direction::normal(self.facing.tilt, self.facing.azimuth);
        let view = f64::midpoint(1.0, self.facing.tilt.si().cos());
        let extraterrestrial_normal = extraterrestrial::normal(day_of_year(start));
        let (mut sum, mut moment) = (0.0, 0.0);
        let mut at = rise.max(0.0);
        while at < set.min(DAY) {
            let sun = self.place.sun(start + at);
            let sky = ineichen(ClearAir {
                apparent_zenith: Angle::from_si(sun.up.clamp(-1.0, 1.0).acos()),
                altitude: self.altitude,
                linke_turbidity: LINKE_TURBIDITY,
                extraterrestrial_normal,
            });
            let hidden = self.horizon.hides(sun, Angle::from_si(sun.east.atan2(sun.north)));
            let beam = if hidden { 0.0 } else { sky.split.beam_normal * sun.dot(normal).max(0.0) };
            let light = beam + view * sky.split.diffuse;
            sum += light;
            moment += light * at;
            at += STEP;
        }
        (sum > 0.0).then(|| moment / sum)
    }
}
