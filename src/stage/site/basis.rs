//! What the figures of sun and weather rest on: a weather file, else twelve monthly means, else a clear sky.
//!
//! The file is loaded above this layer; what can be made from the entries alone is made here.

use std::sync::Arc;

use super::entries::weather::{LINKE_TURBIDITY, MONTH_AIR, MONTH_SUN, TIME_ZONE};
use super::entries::{self as e};
use crate::climate::{Climate, Format, Ground, MonthlyMeans, MonthlySummary};
use crate::model::{Entry, Fig, Inputs, Why};
use crate::physics::sun::Place;
use crate::units::si::{Dimension, Length, RadiantExposure, in_celsius};

/// Days of each month of a typical year.
pub const MONTH_DAYS: [f64; 12] = [31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0];

/// Says in words what a climate is.
pub const fn words(format: Format) -> &'static str {
    match format {
        Format::Tmy3 | Format::Tmy2 | Format::Epw => "hourly weather file",
        Format::MonthlyMeans => "twelve monthly means: mean days, no cold nights and no dull weeks",
        Format::ClearSky => "clear sky: an upper bound, not a yield",
    }
}

/// The climate that can be made without a weather file; `instead_of` says why better sources are not used.
pub fn made(inputs: &Inputs, mut instead_of: Vec<String>) -> Fig<Arc<Climate>> {
    let means = || -> Fig<Climate> {
        let means = monthly_means(inputs)?;
        Climate::from_monthly_means(ground(inputs)?, &means).map_err(Why::out_of_range)
    };
    match means() {
        Ok(climate) => return Ok(Arc::new(climate.instead_of(instead_of))),
        Err(why) if has_means(inputs) => instead_of.push(format!("monthly means: {why}")),
        Err(_) => {}
    }
    Ok(Arc::new(clear(inputs)?.instead_of(instead_of)))
}

/// A year without a cloud over the place.
pub fn clear(inputs: &Inputs) -> Fig<Climate> {
    Climate::clear_sky(ground(inputs)?, inputs.get(&LINKE_TURBIDITY)?).map_err(Why::out_of_range)
}

/// Whether any monthly mean is typed.
fn has_means(inputs: &Inputs) -> bool {
    [MONTH_SUN.spec.id, MONTH_AIR.spec.id].iter().any(|id| inputs.typed_like(id).next().is_some())
}

/// The place as entered. Without a time zone the nearest whole hour of its longitude stands in: that turns a made
/// year by half an hour at most, and with it nothing but the clock.
fn ground(inputs: &Inputs) -> Fig<Ground> {
    let longitude = inputs.get(&e::LONGITUDE)?;
    let utc_offset = match inputs.given(&TIME_ZONE)? {
        Some(ahead) => ahead.si() / 3600.0,
        None => (longitude.si().to_degrees() / 15.0).round(),
    };
    let altitude: Length = inputs.get(&e::ALTITUDE)?;
    Ok(Ground { place: Place { latitude: inputs.get(&e::LATITUDE)?, longitude, altitude }, utc_offset })
}

/// The twelve means, or every one that is missing.
fn monthly_means(inputs: &Inputs) -> Fig<MonthlyMeans> {
    Ok(MonthlyMeans { daily_global: twelve(inputs, &MONTH_SUN)?, air: twelve(inputs, &MONTH_AIR)? })
}

/// The twelve rows of a monthly entry, or every one that is missing.
pub fn twelve<T>(inputs: &Inputs, entry: &Entry<T>) -> Fig<[T; 12]> {
    let mut rows = Vec::with_capacity(12);
    let mut missing = Vec::new();
    for month in 1..=12 {
        match inputs.at(entry, &month.to_string()) {
            Ok(value) => rows.push(value),
            Err(Why::Missing(ids)) => missing.extend(ids),
            Err(why) => return Err(why),
        }
    }
    rows.try_into().map_err(|_| Why::Missing(missing))
}

/// The lines of a project file that keep a climate's monthly summary: id and text.
pub fn summary_lines(summary: &MonthlySummary) -> Vec<(String, String)> {
    let mut lines = Vec::with_capacity(24);
    for (index, days) in MONTH_DAYS.iter().enumerate() {
        let id = |entry: &str| entry.replacen('*', &(index + 1).to_string(), 1);
        let daily: RadiantExposure = summary.global[index] / *days;
        lines.push((id(MONTH_SUN.spec.id), format!("{:.3} kWh/m2", daily.si() / 3.6e6)));
        lines.push((id(MONTH_AIR.spec.id), format!("{:.2} °C", in_celsius(summary.temperature[index]))));
    }
    lines
}
