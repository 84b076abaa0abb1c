//! The figures of the site stage: sun on the plane, air, mains water. Weather and the plane in detail lie below.

pub mod plane;
pub mod weather;

use super::{COLDEST, MAINS, SUN, WEATHER, noon_heights};
use crate::model::Value;
use crate::stage::{Axis, Figure, Group};
use crate::units::Kind::{Angle, Irradiation, Temperature};

static LATITUDE_ONLY: Group = Group { name: "sun's height", entries: &["site.latitude"], groups: &[] };

/// The month of an axis key, 0 to 11.
pub fn month(key: &str) -> usize {
    key.parse::<usize>().map_or(0, |month| month.clamp(1, 12) - 1)
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::word("site.station", "weather station", &WEATHER, |s, _| Ok(Value::Text(s.site.weather.clone()?.station)))
        .by("weather-file", "read from the weather file", &[]),
    Figure::new("site.plane_year", "sun on the plane, year", Irradiation, &SUN, |s, _| {
        Ok(s.site.sun.clone()?.annual.into())
    })
    .by("hay-davies", "H = Σ over 8760 hours of beam + circumsolar + sky + ground on the plane", &[]),
    Figure::new("site.plane_year_low", "the same, cautious sky", Irradiation, &SUN, |s, _| {
        Ok(s.site.sun.clone()?.annual_low.into())
    })
    .by("isotropic", "the same sum with a sky that is equally bright everywhere", &[]),
    Figure::new("site.plane_year_high", "the same, hopeful sky", Irradiation, &SUN, |s, _| {
        Ok(s.site.sun.clone()?.annual_high.into())
    })
    .by("perez", "the same sum with the sky of Perez", &[]),
    Figure::new("site.plane_month", "sun on the plane, month", Irradiation, &SUN, |s, key| {
        Ok(s.site.sun.clone()?.monthly[month(key)].into())
    })
    .axis(Axis::Month)
    .by("hay-davies", "sum of the month's hours on the plane", &[]),
    Figure::new("site.air_mean", "mean air of the year", Temperature, &WEATHER, |s, _| {
        Ok(s.site.weather.clone()?.mean.into())
    })
    .by("weather-file", "mean of 8760 hours", &[]),
    Figure::new("site.air_month", "mean air, month", Temperature, &WEATHER, |s, key| {
        Ok(s.site.weather.clone()?.monthly[month(key)].into())
    })
    .axis(Axis::Month)
    .by("weather-file", "mean of the month's hours", &[]),
    Figure::new("site.air_lowest", "coldest hour of the file", Temperature, &WEATHER, |s, _| {
        Ok(s.site.weather.clone()?.extremes()?[0].temperature.into())
    })
    .by("weather-file", "least of 8760 hours", &[]),
    Figure::new("site.air_highest", "hottest hour of the file", Temperature, &WEATHER, |s, _| {
        Ok(s.site.weather.clone()?.extremes()?[1].temperature.into())
    })
    .by("weather-file", "greatest of 8760 hours", &[]),
    Figure::new("site.coldest_air", "coldest air to prepare for", Temperature, &COLDEST, |s, _| {
        Ok(s.site.coldest.clone()?.into())
    })
    .by(
        "weather-file",
        "the colder of {record} and {file}",
        &[("record", "site.record_low"), ("file", "site.air_lowest")],
    ),
    Figure::new("site.mains_month", "mains water, month", Temperature, &MAINS, |s, key| {
        Ok(s.site.mains.clone()?.monthly[month(key)].into())
    })
    .axis(Axis::Month)
    .by("mains-water", "T from the year's mean air {Ta} and its monthly spread", &[("Ta", "site.air_mean")]),
    Figure::new("site.mains_coldest", "coldest mains water", Temperature, &MAINS, |s, _| {
        Ok(s.site.mains.clone()?.coldest.into())
    })
    .by("mains-water", "least of twelve months", &[]),
    Figure::new("site.noon_summer", "sun at noon, longest day", Angle, &LATITUDE_ONLY, |s, _| {
        Ok(noon_heights(s.inputs.get(&super::entries::LATITUDE)?).0.into())
    })
    .by("solar-geometry", "90° − | |{φ}| − 23.45° |", &[("φ", "site.latitude")]),
    Figure::new("site.noon_winter", "sun at noon, shortest day", Angle, &LATITUDE_ONLY, |s, _| {
        Ok(noon_heights(s.inputs.get(&super::entries::LATITUDE)?).1.into())
    })
    .by("solar-geometry", "90° − | |{φ}| + 23.45° |", &[("φ", "site.latitude")]),
];
