//! From readings to prepared hours: gaps filled, parts of the sunlight completed, the sun placed once.

use std::thread;

use super::audit::{Audit, Notes};
use super::calendar::{HOURS, HourOfYear, is_leap, months};
use super::raw::{Raw, Reading};
use super::{Climate, ClimateError, Hour};
use crate::physics::sun::{Air, Direction, Observer, Track, julian_day};
use crate::physics::transposition::Sunlight;
use crate::physics::{atmosphere, decomposition, extraterrestrial};
use crate::units::si::{Dimension, ZERO_CELSIUS, celsius, in_celsius};

/// Share of hours that must be there for gaps to be filled.
const ENOUGH: f64 = 0.9;
/// Days searched backward for the sunlight of a missing hour.
const DAYS_BACK: usize = 7;
/// Reflectances of ground that are believed; below, the field means "not given".
const BELIEVABLE_ALBEDO: std::ops::RangeInclusive<f64> = 0.05..=0.9;

/// The sun of an hour.
#[derive(Clone, Copy)]
struct Sun {
    direction: Direction,
    azimuth: f64,
    extraterrestrial_normal: f64,
}

/// Makes a climate of a file's readings, the sun taken `minutes` later than the stamps say.
pub(super) fn prepare(raw: Raw, minutes: f64) -> Result<Climate, ClimateError> {
    let Raw { station, readings, leap_rows } = raw;
    let mut notes = Notes { leap_rows, clock_shift: minutes, ..Notes::default() };
    let suns = suns(&station, &readings, minutes)?;
    let sunlight = sunlight(&readings, &suns, &mut notes)?;
    let dry_bulb = needed("dry bulb", &readings, |reading| reading.dry_bulb, &mut notes)?;
    let wind = needed("wind speed", &readings, |reading| reading.wind, &mut notes)?;
    let dew_point = optional("dew point", &readings, dew_point, &mut notes);
    let pressure = optional("pressure", &readings, |reading| reading.pressure, &mut notes);
    let infrared = optional("infrared", &readings, |reading| reading.infrared, &mut notes);
    let opaque_cloud = optional("opaque cloud", &readings, |reading| reading.opaque_cloud, &mut notes);
    let standard = atmosphere::pressure(station.place.altitude).si();
    notes.pressure_from_altitude = pressure.is_none();
    let hours: Vec<Hour> = (0..HOURS)
        .map(|i| Hour {
            sunlight: sunlight[i],
            sun_azimuth: suns[i].azimuth,
            dry_bulb: dry_bulb[i] + ZERO_CELSIUS,
            dew_point: dew_point.as_ref().map(|column| column[i] + ZERO_CELSIUS),
            wind: wind[i],
            pressure: pressure.as_ref().map_or(standard, |column| column[i]),
            infrared: infrared.as_ref().map(|column| column[i]),
            opaque_cloud: opaque_cloud.as_ref().map(|column| column[i]),
        })
        .collect();
    let audit = Audit::of(station.place.latitude, &hours, &notes);
    Ok(Climate { station, hours, albedo: monthly_albedo(&readings), audit, instead_of: Vec::new() })
}

/// The sun of every hour, worked out on all cores: it is the longest part of opening a project, and each hour stands
/// for itself.
fn suns(station: &super::Station, readings: &[Reading], minutes: f64) -> Result<Vec<Sun>, ClimateError> {
    let observer = Observer::new(station.place, Air::standard(station.place.altitude))?;
    let place_sun = |track: &mut Track, (hour, reading): &(HourOfYear, &Reading)| -> Result<Sun, ClimateError> {
        let (month, day) = hour.date();
        let utc_hours = hour.clock_hours() - station.utc_offset + minutes / 60.0;
        let direction = track.apparent(julian_day(reading.year, month, day) + utc_hours / 24.0)?;
        let leap = u16::from(month > 2 && is_leap(reading.year));
        let normal = extraterrestrial::normal(f64::from(hour.day_of_year() + leap));
        Ok(Sun { direction, azimuth: direction.azimuth().si(), extraterrestrial_normal: normal.si() })
    };
    let hours: Vec<(HourOfYear, &Reading)> = HourOfYear::all().zip(readings).collect();
    let workers = thread::available_parallelism().map_or(1, usize::from);
    let parts: Vec<&[(HourOfYear, &Reading)]> = hours.chunks(hours.len().div_ceil(workers).max(1)).collect();
    let place_suns = |part: &[(HourOfYear, &Reading)]| {
        let mut track = observer.track();
        part.iter().map(|hour| place_sun(&mut track, hour)).collect::<Result<Vec<Sun>, _>>()
    };
    thread::scope(|scope| {
        let running: Vec<_> = parts.into_iter().map(|part| scope.spawn(move || place_suns(part))).collect();
        let mut suns = Vec::with_capacity(HOURS);
        for worker in running {
            match worker.join() {
                Ok(part) => suns.extend(part?),
                Err(panic) => std::panic::resume_unwind(panic),
            }
        }
        Ok(suns)
    })
}

/// Global, beam and diffuse of every hour, the missing parts completed from the given ones.
fn sunlight(readings: &[Reading], suns: &[Sun], notes: &mut Notes) -> Result<Vec<Sunlight>, ClimateError> {
    let mut all = Vec::with_capacity(HOURS);
    let mut gaps = 0;
    for (index, sun) in suns.iter().enumerate() {
        let mut parts = None;
        for back in 0..=DAYS_BACK {
            let source = (index + HOURS - back * 24) % HOURS;
            parts = complete(&readings[source], sun, notes);
            if parts.is_some() {
                notes.fill("irradiance", usize::from(back > 0));
                break;
            }
        }
        gaps += usize::from(parts.is_none());
        all.extend(parts);
    }
    match gaps {
        0 => Ok(all),
        HOURS => Err(ClimateError::MissingColumn { column: "global irradiance" }),
        hours => Err(ClimateError::Gaps { column: "irradiance", hours }),
    }
}

fn complete(reading: &Reading, sun: &Sun, notes: &mut Notes) -> Option<Sunlight> {
    let up = sun.direction.up;
    let mut zeroed = |value: f64| {
        notes.negative_irradiance += usize::from(value < 0.0);
        value.max(0.0)
    };
    let (global, beam, diffuse) =
        (reading.global.map(&mut zeroed), reading.beam_normal.map(&mut zeroed), reading.diffuse.map(&mut zeroed));
    let (global, beam_normal, diffuse) = match (global, beam, diffuse) {
        (Some(global), Some(beam), Some(diffuse)) => (global, beam, diffuse),
        (Some(global), None, None) => {
            notes.split_by_model += 1;
            let split = decomposition::hourly(global, up, sun.extraterrestrial_normal);
            (global, split.beam_normal, split.diffuse)
        }
        (Some(global), Some(beam), None) => {
            notes.closed += 1;
            (global, beam, (global - beam * up.max(0.0)).max(0.0))
        }
        (Some(global), None, Some(diffuse)) => {
            notes.closed += 1;
            // Near the horizon the division would make beam out of rounding.
            let beam = if up > decomposition::low_sun_cosine() { (global - diffuse).max(0.0) / up } else { 0.0 };
            (global, beam, diffuse)
        }
        (None, Some(beam), Some(diffuse)) => {
            notes.closed += 1;
            (diffuse + beam * up.max(0.0), beam, diffuse)
        }
        _ => return None,
    };
    let (extraterrestrial_normal, sun) = (sun.extraterrestrial_normal, sun.direction);
    Some(Sunlight { global, beam_normal, diffuse, extraterrestrial_normal, sun })
}

/// Dew point, °C: the row's own, or from its humidity.
fn dew_point(reading: &Reading) -> Option<f64> {
    reading.dew_point.or_else(|| {
        let dew = atmosphere::dew_point(celsius(reading.dry_bulb?), reading.humidity?)?;
        Some(in_celsius(dew))
    })
}

type Column = fn(&Reading) -> Option<f64>;

fn needed(name: &'static str, readings: &[Reading], get: Column, notes: &mut Notes) -> Result<Vec<f64>, ClimateError> {
    let (values, missing) = filled(readings, get);
    match (values, missing) {
        (Some(values), missing) => {
            notes.fill(name, missing);
            Ok(values)
        }
        (None, HOURS) => Err(ClimateError::MissingColumn { column: name }),
        (None, hours) => Err(ClimateError::Gaps { column: name, hours }),
    }
}

fn optional(name: &'static str, readings: &[Reading], get: Column, notes: &mut Notes) -> Option<Vec<f64>> {
    let (values, missing) = filled(readings, get);
    if values.is_some() {
        notes.fill(name, missing);
    } else if missing < HOURS {
        notes.dropped.push((name, missing));
    }
    values
}

/// A column with its gaps filled linearly, if enough of it is there, and how many hours were missing.
fn filled(readings: &[Reading], get: Column) -> (Option<Vec<f64>>, usize) {
    let given: Vec<Option<f64>> = readings.iter().map(get).collect();
    let known: Vec<(usize, f64)> =
        given.iter().enumerate().filter_map(|(index, value)| value.map(|value| (index, value))).collect();
    let missing = HOURS - known.len();
    let (Some(first), Some(last)) = (known.first(), known.last()) else {
        return (None, missing);
    };
    if (known.len() as f64) < ENOUGH * HOURS as f64 {
        return (None, missing);
    }
    let mut values = vec![0.0; HOURS];
    let closing = (first.0 + HOURS, first.1);
    let spans = known.windows(2).map(|pair| (pair[0], pair[1])).chain([(*last, closing)]);
    for (from, to) in spans {
        let step = (to.1 - from.1) / (to.0 - from.0) as f64;
        for index in from.0..to.0 {
            values[index % HOURS] = from.1 + step * (index - from.0) as f64;
        }
    }
    (Some(values), missing)
}

/// Monthly means, if every month has believable values in at least half of its hours.
fn monthly_albedo(readings: &[Reading]) -> Option<[f64; 12]> {
    let mut means = [0.0; 12];
    for (mean, month) in means.iter_mut().zip(months()) {
        let hours = month.len();
        let believed: Vec<f64> = readings[month]
            .iter()
            .filter_map(|r| r.albedo)
            .filter(|albedo| BELIEVABLE_ALBEDO.contains(albedo))
            .collect();
        if believed.len() * 2 < hours {
            return None;
        }
        *mean = believed.iter().sum::<f64>() / believed.len() as f64;
    }
    Some(means)
}
