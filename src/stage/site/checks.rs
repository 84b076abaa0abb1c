//! The checks of the site stage.

use super::entries::{self as e, Premises};
use crate::model::{Fig, Judgement, Verdict};
use crate::stage::{Check, Severity, Solution};
use crate::units::si::{Angle, Dimension, difference};

/// Difference of the azimuths, found and entered, that is clear, and that is still worth going on with (project rule).
const BEARING_CLEAR: f64 = 5.0;
const BEARING_LEAST: f64 = 15.0;

fn record_low(s: &Solution) -> Fig<Judgement> {
    let entered = s.inputs.get(&e::RECORD_LOW)?;
    let file = s.site.weather.clone()?.lowest;
    Ok(Judgement::caution_unless(entered <= file).with(entered, file).margin(difference(file, entered)))
}

fn weather_file(s: &Solution) -> Fig<Judgement> {
    let weather = s.site.weather.clone()?;
    Ok(match weather.warnings.split_first() {
        None => Judgement::of(Verdict::Clear).part("no fault found"),
        Some((only, [])) => Judgement::of(Verdict::Caution).part(only.clone()),
        Some((first, rest)) => Judgement::of(Verdict::Caution).part(format!("{first} (and {} more)", rest.len())),
    })
}

fn local_loads(s: &Solution) -> Fig<Judgement> {
    s.inputs.get(&e::WIND_SPEED)?;
    s.inputs.get(&e::SNOW_LOAD)?;
    Ok(Judgement::of(Verdict::Clear).part("wind and snow are entered"))
}

fn bearing(s: &Solution) -> Fig<Judgement> {
    let (found, entered) = (s.inputs.get(&e::BEARING)?, s.inputs.get(&e::AZIMUTH)?);
    let apart = Angle::from_si(around(found.si() - entered.si()));
    let verdict = match apart.si().to_degrees() {
        // An azimuth typed as the very limit must not fail by its rounding.
        degrees if degrees <= BEARING_CLEAR + 1e-9 => Verdict::Clear,
        degrees if degrees <= BEARING_LEAST + 1e-9 => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let limit = Angle::from_si(BEARING_CLEAR.to_radians());
    Ok(Judgement::of(verdict).with(apart, limit).margin(limit - apart))
}

/// The smaller way round a circle, 0 to π.
fn around(radians: f64) -> f64 {
    let turned = radians.rem_euclid(std::f64::consts::TAU);
    turned.min(std::f64::consts::TAU - turned)
}

fn premises(s: &Solution) -> Fig<Judgement> {
    Ok(match s.inputs.get(&e::PREMISES)? {
        Premises::Household => Judgement::of(Verdict::Clear).part("household"),
        Premises::Shared => Judgement::of(Verdict::Caution).part("shared"),
        Premises::Workplace => Judgement::of(Verdict::Caution).part("a workplace"),
    })
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("site.record-low", "record low against the weather file", Severity::Serious, record_low)
        .says(
            "The record low entered is {found}, but the file alone knows {limit}: a record cannot be warmer.",
            "Ask the weather service for the coldest air ever measured nearby.",
        )
        .blind_to("frost pockets: a hollow can be several kelvin colder than the station")
        .source("a typical year holds no record: manual of the TMY3 data set")
        .needs(&["site.record_low", "site.air_lowest"]),
    Check::new("site.weather-file", "weather file", Severity::Nuisance, weather_file)
        .says("The audit of the weather file found: {part}.", "Look at the file, or take another station or year.")
        .blind_to("whether the station stands for your place: height, fog, sea, city")
        .source("ranges and sun clock: project rule")
        .needs(&["site.station"]),
    Check::new("site.local-loads", "wind and snow of the local code", Severity::Deadly, local_loads)
        .says(
            "Wind speed and snow load of the local code are needed.",
            "Ask the building office; there is no default that would hold everywhere.",
        )
        .blind_to("whether the numbers are those of the code for this spot, exposure and roof")
        .ask("the building office, or an engineer")
        .source("local code, as entered")
        .needs(&["site.wind_speed", "site.snow_load"]),
    Check::new("site.bearing", "azimuth found on the spot", Severity::Nuisance, bearing)
        .says(
            "Found on the spot the glass faces {found} away from the azimuth entered; {limit} is allowed.",
            "Check for magnetic declination and iron nearby; then enter what was found.",
        )
        .blind_to("shade, and how the bearing was taken")
        .source("5° clear, 15° caution: project rule")
        .needs(&["site.measured_azimuth", "site.azimuth"]),
    Check::new("site.public-water", "who uses the water", Severity::Deadly, premises)
        .says(
            "The water is for others too ({part}): duties on hot water, germs and pressure may apply that no household \
             has.",
            "Ask the authority before you buy, and write down name, date and answer.",
        )
        .blind_to("what the local law says")
        .ask("the authority for public health or for work")
        .source("project rule")
        .needs(&["site.premises"]),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bearings_differ_by_the_smaller_way_round() {
        let apart = |a: f64, b: f64| around((a - b).to_radians()).to_degrees();
        for (a, b, degrees) in [(359.0, 1.0, 2.0), (1.0, 359.0, 2.0), (180.0, 186.0, 6.0), (0.0, 180.0, 180.0)] {
            assert!((apart(a, b) - degrees).abs() < 1e-9, "{a} {b}");
        }
    }
}
