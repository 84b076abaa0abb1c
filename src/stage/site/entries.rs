//! What the site stage asks: the place, the panels' way, the code's loads. Weather and surroundings lie below.

pub mod surroundings;
pub mod weather;

use crate::model::{Choice, Entry, EntrySpec};
use crate::units::si::{Angle, Length, Pressure, Ratio, Temperature, Velocity};

const DEGREE: f64 = std::f64::consts::PI / 180.0;
const FREEZING: f64 = crate::units::si::ZERO_CELSIUS;

/// Latitude of the site.
pub static LATITUDE: Entry<Angle> = Entry::quantity("site.latitude", "latitude")
    .why("north positive; decides the sun's height and the side that faces it")
    .hard(-90.0 * DEGREE, 90.0 * DEGREE);

/// Longitude of the site.
pub static LONGITUDE: Entry<Angle> = Entry::quantity("site.longitude", "longitude")
    .why("east positive, so the Americas are negative")
    .hard(-180.0 * DEGREE, 180.0 * DEGREE);

/// Altitude of the site.
pub static ALTITUDE: Entry<Length> = Entry::quantity("site.altitude", "altitude")
    .why("thin air boils water sooner and carries less heat off the plate")
    .hard(-450.0, 6000.0)
    .usual(-10.0, 3000.0);

/// Weather file.
pub static WEATHER_FILE: Entry<String> = Entry::text("site.weather_file", "weather file")
    .why("hourly weather of a typical year, named relative to this project; or 'carried:greensboro-tmy3'");

/// Checksum of the weather file.
pub static WEATHER_SHA256: Entry<String> = Entry::text("site.weather_sha256", "weather checksum")
    .why("SHA-256 of the weather file; with it a changed file is noticed");

/// Coldest air on record.
pub static RECORD_LOW: Entry<Temperature> = Entry::quantity("site.record_low", "record low")
    .why("the coldest air ever measured nearby; a typical year does not hold it")
    .hard(FREEZING - 90.0, FREEZING + 25.0)
    .usual(FREEZING - 50.0, FREEZING + 10.0);

/// Tilt of the panels.
pub static TILT: Entry<Angle> = Entry::quantity("site.tilt", "tilt")
    .why("0° lies flat, 90° stands; a slope such as 8/12 may be typed")
    .hard(0.0, 90.0 * DEGREE)
    .usual(15.0 * DEGREE, 75.0 * DEGREE);

/// Azimuth of the panels.
pub static AZIMUTH: Entry<Angle> = Entry::quantity("site.azimuth", "azimuth")
    .why("the way the glass faces, from TRUE north clockwise: 180° is south; a compass shows magnetic north")
    .hard(0.0, 360.0 * DEGREE);

/// Reflectance of the ground.
pub static GROUND_ALBEDO: Entry<Ratio> = Entry::percent("site.ground_albedo", "ground reflectance")
    .why("20 % for grass or bare soil; fresh snow 70 % (from memory)")
    .default("20 %");

/// Kind of premises.
pub static PREMISES: Entry<Premises> = Entry::choice("site.premises", "premises")
    .why("shared premises and workplaces carry duties of their own; ask the authority");

/// Jurisdiction.
pub static JURISDICTION: Entry<String> =
    Entry::text("site.jurisdiction", "jurisdiction").why("whose codes and permits hold here");

/// Design wind speed.
pub static WIND_SPEED: Entry<Velocity> = Entry::quantity("site.wind_speed", "design wind speed")
    .why("the gust that the local code asks for; there is no default")
    .hard(0.0, 120.0)
    .usual(25.0, 80.0);

/// Ground snow load.
pub static SNOW_LOAD: Entry<Pressure> = Entry::quantity("site.snow_load", "ground snow load")
    .why("the load that the local code asks for; 0 psf where it says none")
    .hard(0.0, 30_000.0);

/// Bearing found on the spot.
pub static BEARING: Entry<Angle> = Entry::quantity("site.measured_azimuth", "azimuth found on the spot")
    .why("by the sun or a map, from true north")
    .hard(0.0, 360.0 * DEGREE)
    .measured(crate::model::Fold::Latest);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &LATITUDE.spec,
    &LONGITUDE.spec,
    &ALTITUDE.spec,
    &WEATHER_FILE.spec,
    &WEATHER_SHA256.spec,
    &RECORD_LOW.spec,
    &TILT.spec,
    &AZIMUTH.spec,
    &GROUND_ALBEDO.spec,
    &PREMISES.spec,
    &JURISDICTION.spec,
    &WIND_SPEED.spec,
    &SNOW_LOAD.spec,
    &BEARING.spec,
];

/// Who uses the water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Premises {
    /// One household.
    Household,
    /// Several households, a club, a garden.
    Shared,
    /// People at work.
    Workplace,
}

impl Choice for Premises {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Household, "household", "one household"),
        (Self::Shared, "shared", "several households, a club or a garden"),
        (Self::Workplace, "workplace", "people at work"),
    ];
}
