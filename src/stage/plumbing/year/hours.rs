//! The 8760 hours of a project's year: sun through the glass, air, cold water, draws.

use std::ops::RangeInclusive;

use super::entries::{self as y, Profile};
use crate::climate::{Climate, PlaneYear};
use crate::model::{Fig, Inputs, Why};
use crate::physics::draw::DrawProfile;
use crate::physics::fluid::Fluid;
use crate::stage::Solution;
use crate::stage::plumbing::{entries as e, load};
use crate::stage::site::entries::surroundings::{ROW_PITCH, ROWS};
use crate::stage::site::{self, Mains, spacing, sun};
use crate::units::si::{Dimension, Temperature, Volume};
use crate::year::tank::WATER_DENSITY;
use crate::year::{Conditions, Incidence, Service, absorbed_irradiance, hourly};

/// Days of the typical year.
const YEAR: u16 = 365;

/// The hours of a solution; a year without weather has none.
pub fn hours(solution: &Solution) -> Fig<Vec<Conditions>> {
    let climate = solution.world.sky.clone()?;
    solution.site.weather.as_ref().map_err(Why::clone)?;
    let irradiance = irradiance(solution, &climate)?;
    let inputs = &solution.inputs;
    let mains = solution.site.mains.as_ref().map_err(Why::clone)?;
    let away = away(inputs)?;
    let service = Service {
        daily: by_mass(load::daily_volume(inputs)?, inputs.get(&e::TAP)?),
        profile: profile(inputs)?,
        away: &away,
        supply: &|day| supply(mains, day),
    };
    hourly(&climate, &irradiance, &service).map_err(super::refused)
}

/// The volume that weighs the same at 1 kg/L, as the simulation counts water.
fn by_mass(volume: Volume, tap: Temperature) -> Volume {
    volume * (Fluid::Water.density(tap).si() / WATER_DENSITY)
}

/// Irradiance on the plane behind the skyline and the row in front, each part weighted by what the glass lets through.
fn irradiance(solution: &Solution, climate: &Climate) -> Fig<Vec<f64>> {
    let inputs = &solution.inputs;
    let (plane, horizon) = (sun::plane(inputs)?, sun::skyline(inputs)?);
    let [_, middle, _] = sun::models(climate.station().format);
    let mut light = climate.plane_behind(&plane, middle, &horizon);
    shade(solution, climate, &mut light)?;
    let optics = solution.absorber.collector.as_ref().map_err(Why::clone)?.optics();
    Ok(absorbed_irradiance(light.hours(), plane.tilt, &Incidence::Plate(optics)))
}

/// Takes from beam and circumsolar light what rows shade of each other, the first row being free.
fn shade(solution: &Solution, climate: &Climate, light: &mut PlaneYear) -> Fig<()> {
    let count = solution.inputs.get(&ROWS)?;
    if count < 2 {
        return Ok(());
    }
    let (rows, pitch) = (spacing::rows(solution)?, solution.inputs.get(&ROW_PITCH)?);
    let behind = 1.0 - 1.0 / count as f64;
    light.shade(|at| {
        let sun = climate.hours()[at.index()].sunlight.sun;
        behind * rows.shaded_fraction(pitch, sun)
    });
    Ok(())
}

/// Shares of the 24 hours.
fn profile(inputs: &Inputs) -> Fig<[f64; 24]> {
    let published = match inputs.get(&y::PROFILE)? {
        Profile::Dwelling => DrawProfile::Dwelling,
        Profile::Combined => DrawProfile::CombinedUses,
        Profile::Even => DrawProfile::Even,
        Profile::Own => return own_day(inputs),
    };
    Ok(published.fractions())
}

/// The rows of the project over their sum.
fn own_day(inputs: &Inputs) -> Fig<[f64; 24]> {
    let mut shares = [0.0; 24];
    for (hour, share) in shares.iter_mut().enumerate() {
        match inputs.at(&y::HOUR_SHARE, &(hour + 1).to_string()) {
            Ok(entered) => *share = entered.si(),
            Err(Why::Missing(_)) => {}
            Err(why) => return Err(why),
        }
    }
    let whole: f64 = shares.iter().sum();
    if whole > 0.0 { Ok(shares.map(|share| share / whole)) } else { Err(Why::missing("plumbing.draw.1.share")) }
}

/// Days of the year without any draw, 1 to 365; what reaches beyond 31 December goes on in January.
pub fn away(inputs: &Inputs) -> Fig<Vec<RangeInclusive<u16>>> {
    let mut ranges = Vec::new();
    for key in inputs.rows("plumbing.away") {
        let from = inputs.at(&y::AWAY_FROM, &key)?;
        let days = u16::try_from(inputs.at(&y::AWAY_DAYS, &key)?).map_err(Why::out_of_range)?;
        // 29 February counts as the day before it.
        let leap = from.in_leap_year() && from.day_of_year() >= 60;
        let first = from.day_of_year().unsigned_abs() - u16::from(leap);
        let last = first + days.min(YEAR);
        if days > 0 {
            ranges.push(first..=(last - 1).min(YEAR));
            ranges.extend((last - 1 > YEAR).then(|| 1..=last - 1 - YEAR));
        }
    }
    Ok(ranges)
}

/// How many days of each month nobody draws.
pub fn days_away(inputs: &Inputs) -> Fig<[f64; 12]> {
    let away = away(inputs)?;
    let mut months = [0.0; 12];
    let mut first = 1.0;
    for (month, length) in months.iter_mut().zip(load::DAYS) {
        let days = (1..=YEAR).filter(|day| (first..first + length).contains(&f64::from(*day)));
        *month = days.filter(|day| away.iter().any(|range| range.contains(day))).count() as f64;
        first += length;
    }
    Ok(months)
}

/// Cold water on a day: between the middles of two months as the day lies between them.
fn supply(mains: &Mains, day: u16) -> Temperature {
    let day = f64::from(day);
    let year = f64::from(YEAR);
    let middle = |index: usize| site::MID_MONTH[index % 12] + if index < 12 { 0.0 } else { year };
    let day = if day < middle(0) { day + year } else { day };
    let before = (0..12).rev().find(|index| middle(*index) <= day).unwrap_or(0);
    let share = (day - middle(before)) / (middle(before + 1) - middle(before));
    let (from, to) = (mains.monthly[before].si(), mains.monthly[(before + 1) % 12].si());
    Temperature::from_si(from + share * (to - from))
}
