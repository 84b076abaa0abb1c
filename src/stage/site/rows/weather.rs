//! The figures of weather: what they rest on, extremes, wind, frost.

use crate::climate::Climate;
use crate::model::{Fig, TradeUnits, Value, Why};
use crate::physics::great_circle;
use crate::physics::sky::SkyLaw;
use crate::physics::sun::Place;
use crate::stage::site::basis;
use crate::stage::site::entries::{self as e};
use crate::stage::site::frost::{FROST, Frost, Sheltered, WIND, hourly, needs_file};
use crate::stage::site::rows::month;
use crate::stage::site::{WEATHER, Weather};
use crate::stage::{Axis, Figure, Solution};
use crate::units::Kind::{Count, Irradiation, Length, Speed, Temperature};
use crate::units::Quantity;
use crate::units::si;

fn sky(s: &Solution) -> Fig<std::sync::Arc<Climate>> {
    s.world.sky.clone()
}

fn weather(s: &Solution) -> Fig<Weather> {
    s.site.weather.clone()
}

/// Distance of the weather station from the site.
pub fn station_distance(s: &Solution) -> Fig<si::Length> {
    let climate = sky(s)?;
    if !climate.station().format.is_hourly() {
        return Err(needs_file(climate.station().format));
    }
    let here = Place {
        latitude: s.inputs.get(&e::LATITUDE)?,
        longitude: s.inputs.get(&e::LONGITUDE)?,
        altitude: s.inputs.get(&e::ALTITUDE)?,
    };
    Ok(great_circle::distance(here, climate.station().place))
}

fn law_words(law: SkyLaw) -> &'static str {
    match law {
        SkyLaw::Infrared => "infrared of the weather file",
        SkyLaw::CloudyAir => "clouds and dew point of the weather file",
        SkyLaw::ClearMoistAir => "dew point alone, as under a clear sky: too cold on average",
        SkyLaw::ClearAir => "air alone, as under a clear sky: too cold on average",
    }
}

fn counted(s: &Solution, count: fn(&Frost) -> usize) -> Fig<Value> {
    Ok(Quantity::count(count(&s.site.frost.clone()?)).into())
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::word("site.rests_on", "what sun and weather rest on", &WEATHER, |s, _| {
        Ok(Value::Text(basis::words(sky(s)?.station().format).to_owned()))
    })
    .by("weather-order", "a weather file, else twelve monthly means, else a clear sky", &[]),
    Figure::new("site.station_distance", "distance of the weather station", Length, &WEATHER, |s, _| {
        Ok(station_distance(s)?.into())
    })
    .shown_in(TradeUnits::MAP)
    .by(
        "great-circle",
        "along the ground from {φ}, {λ} to the station",
        &[("φ", "site.latitude"), ("λ", "site.longitude")],
    ),
    Figure::new("site.level_year", "sun on level ground, year", Irradiation, &WEATHER, |s, _| {
        Ok(sky(s)?.monthly_global().into_iter().reduce(|sum, next| sum + next).unwrap_or_default().into())
    })
    .by("weather-order", "sum of 8760 hours", &[]),
    Figure::new("site.level_month", "sun on level ground, month", Irradiation, &WEATHER, |s, key| {
        Ok(sky(s)?.monthly_global()[month(key)].into())
    })
    .axis(Axis::Month)
    .by("weather-order", "sum of the month's hours", &[]),
    Figure::word("site.air_lowest_at", "when the file is coldest", &WEATHER, |s, _| {
        Ok(Value::Text(weather(s)?.extremes()?[0].at.to_string()))
    })
    .by("weather-file", "the first hour with {T}, standard time", &[("T", "site.air_lowest")]),
    Figure::word("site.air_highest_at", "when the file is hottest", &WEATHER, |s, _| {
        Ok(Value::Text(weather(s)?.extremes()?[1].at.to_string()))
    })
    .by("weather-file", "the first hour with {T}, standard time", &[("T", "site.air_highest")]),
    Figure::new("site.wind_mean", "mean wind at the station's mast", Speed, &WEATHER, |s, _| {
        Ok(hourly(&s.world)?.mean_wind().into())
    })
    .by("weather-file", "mean of 8760 hours", &[]),
    Figure::new("site.wind_at_panel", "mean wind at the panels", Speed, &WIND, |s, _| {
        Ok(Sheltered::of(&s.inputs)?.wind(hourly(&s.world)?.mean_wind()).into())
    })
    .by(
        "wind-height",
        "{u} · ({z} / 10 m)^a · {k}, a by the terrain {t}; below 2 m as at 2 m",
        &[("u", "site.wind_mean"), ("z", "site.panel_height"), ("k", "site.wind_shelter"), ("t", "site.terrain")],
    ),
    Figure::new("site.frost_air_hours", "hours with the air at or below freezing", Count, &FROST, |s, _| {
        counted(s, |frost| frost.air_hours)
    })
    .by("weather-file", "hours counted", &[]),
    Figure::new("site.frost_air_days", "days with the air at or below freezing", Count, &FROST, |s, _| {
        counted(s, |frost| frost.air_days)
    })
    .by("weather-file", "days whose coldest hour is at or below 0 °C", &[]),
    Figure::new("site.frost_near_hours", "hours with the air at or below 4 °C", Count, &FROST, |s, _| {
        counted(s, |frost| frost.near_hours)
    })
    .by("weather-file", "hours counted", &[]),
    Figure::new("site.frost_near_days", "days with the air at or below 4 °C", Count, &FROST, |s, _| {
        counted(s, |frost| frost.near_days)
    })
    .by("weather-file", "days whose coldest hour is at or below 4 °C", &[]),
    Figure::new("site.frost_plate_hours", "dark hours with the plate below 0 °C", Count, &FROST, |s, _| {
        counted(s, |frost| frost.plate_hours)
    })
    .by("plate-frost", "dark hours in which the balance of cover and plate gives less than 0 °C", &[]),
    Figure::new("site.frost_plate_nights", "nights with the plate below 0 °C", Count, &FROST, |s, _| {
        counted(s, |frost| frost.plate_nights)
    })
    .by("plate-frost", "nights, noon to noon, with such an hour", &[]),
    Figure::new("site.frost_coldest_plate", "coldest plate of the year", Temperature, &FROST, |s, _| {
        Ok(s.site.frost.clone()?.coldest_plate.into())
    })
    .by("plate-frost", "least of all dark hours", &[]),
    Figure::new("site.frost_warmest_air", "warmest air in which the plate froze", Temperature, &FROST, |s, _| {
        let warmest = s.site.frost.clone()?.warmest_air;
        Ok(warmest.ok_or_else(|| Why::out_of_range("the plate never froze in this year"))?.into())
    })
    .by("plate-frost", "greatest air temperature among the hours with a frozen plate", &[]),
    Figure::word("site.frost_sky", "how the night sky is known", &FROST, |s, _| {
        Ok(Value::Text(law_words(s.site.frost.clone()?.sky_law).to_owned()))
    })
    .by("sky-temperature", "the best of four laws that the file allows", &[]),
];
