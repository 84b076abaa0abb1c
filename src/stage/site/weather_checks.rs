//! Checks on the weather: what it rests on, its clock, where its station stands.

use super::rows::weather::station_distance;
use super::{basis, entries as e};
use crate::climate::Warning;
use crate::model::{Fig, Judgement, Verdict};
use crate::stage::{Check, Severity, Solution};
use crate::units::si::{Dimension, Length, Time};

/// A clock that is off by less moves a year on a plane by less than the sky models differ, minutes (project rule).
const CLOCK_TOLERATED: f64 = 10.0;
/// Distance and height from which a station need not know the place's weather, m (project rule).
const STATION_NEAR: f64 = 50_000.0;
const STATION_LEVEL: f64 = 300.0;

fn weather_basis(s: &Solution) -> Fig<Judgement> {
    let climate = s.world.sky.clone()?;
    let format = climate.station().format;
    if format.is_hourly() {
        return Ok(Judgement::of(Verdict::Clear).part(basis::words(format)));
    }
    let mut part = basis::words(format).to_owned();
    for reason in climate.passed_over() {
        part.push_str("; ");
        part.push_str(reason);
    }
    Ok(Judgement::of(Verdict::Caution).part(part))
}

fn weather_clock(s: &Solution) -> Fig<Judgement> {
    let climate = s.world.sky.clone()?;
    let format = climate.station().format;
    let limit = Time::from_si(CLOCK_TOLERATED * 60.0);
    if !format.is_hourly() {
        return Ok(Judgement::does_not_apply("there is no weather file whose clock could be wrong"));
    }
    let audit = climate.audit();
    let is_off = audit.warnings.iter().any(|warning| matches!(warning, Warning::Clock { .. }));
    // What is to be entered replaces the shift already applied.
    let whole = audit.clock_shift_applied + audit.clock.map_or(0.0, |clock| clock.shift_minutes);
    let found = if is_off { whole } else { audit.clock_shift_applied };
    Ok(Judgement::caution_unless(!is_off)
        .with(Time::from_si(found * 60.0), limit)
        .part(climate.station().source.clone()))
}

fn station_near(s: &Solution) -> Fig<Judgement> {
    let climate = s.world.sky.clone()?;
    let limit = Length::from_si(STATION_NEAR);
    if !climate.station().format.is_hourly() {
        return Ok(Judgement::does_not_apply("there is no station; the year is made for the place itself"));
    }
    let distance = station_distance(s)?;
    let climb = s.inputs.get(&e::ALTITUDE)? - climate.station().place.altitude;
    let is_near = distance <= limit && climb.si().abs() <= STATION_LEVEL;
    let part = format!("{}, {:.0} m above sea level", climate.station().name, climate.station().place.altitude.si());
    Ok(Judgement::caution_unless(is_near).with(distance, limit).margin(limit - distance).part(part))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("site.weather-basis", "what sun and weather rest on", Severity::Nuisance, weather_basis)
        .says(
            "Sun and weather rest on: {part}.",
            "Put the weather file beside the project, or choose another one. Twelve monthly means carry a yearly sum, \
             not frost or the hottest hour; a clear sky carries neither.",
        )
        .blind_to("how typical the year of the file is for the years to come")
        .source("order of sources: project rule")
        .needs(&["site.rests_on"]),
    Check::new("site.weather-clock", "clock of the weather file", Severity::Nuisance, weather_clock)
        .says(
            "In {part} the sun stands {found} later than the stamps say, and {limit} is tolerated: east and west are \
             wrong, south hides it.",
            "Set site.clock_shift = \"{found}\" and look at this check again.",
        )
        .blind_to("a shift below the tolerance; any shift where the file gives no beam light and clouds come by the clock")
        .source("closure of global, beam and diffuse light over the sun's height; tolerance: project rule")
        .needs(&["site.rests_on"]),
    Check::new("site.station-near", "weather station near the site", Severity::Nuisance, station_near)
        .says(
            "The station, {part}, is {found} away, or its height is not the site's; {limit} and 300 m are taken as near.",
            "Look at the signs of latitude and longitude first; then for a nearer station.",
        )
        .blind_to("fog, sea, city and cold hollows between two places that are near each other")
        .source("50 km and 300 m: project rule")
        .needs(&["site.station_distance", "site.altitude"]),
];
