//! Rows of panels one behind the other: the distance without shade, and what the shade takes where it is less.

use std::sync::Arc;

use super::entries::surroundings::{ROW_PITCH, ROWS};
use super::entries::{self as e};
use super::sun::{self, FACING, SUN};
use crate::model::{Fig, Why};
use crate::physics::horizon::Rows;
use crate::physics::sun::{Direction, hour_angle};
use crate::physics::transposition::SkyModel;
use crate::stage::enclosure::BOX;
use crate::stage::study::{Cancel, Outcome};
use crate::stage::{Group, Solution};
use crate::units::si::{Angle, Dimension, Length, Ratio, Time};

/// Declination of the sun at the solstices, degrees (Cooper 1969).
const SOLSTICE: f64 = 23.45;
/// Hours of solar time between which rows should stand free where the latitude allows it.
const COMFORT: [f64; 2] = [9.0, 15.0];

/// Distances of rows on level ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spacing {
    /// Free of shade at noon of the shortest day.
    pub noon: Length,
    /// Free of shade from 9 to 15 h solar time of the shortest day; none where the sun is not up then.
    pub comfort: Option<Length>,
}

/// Distances of rows.
pub static SPACING: Group =
    Group { name: "distance of the rows", entries: &["site.tilt", "site.latitude"], groups: &[&FACING, &BOX] };

/// Shade at the distance entered.
pub static ROW_SHADE: Group =
    Group { name: "shade of the rows", entries: &["site.rows", "site.row_pitch"], groups: &[&SPACING, &SUN] };

/// The distances for this design.
pub fn spacing(solution: &Solution) -> Fig<Spacing> {
    let rows = rows(solution)?;
    let free_at = |hour: f64| rows.pitch_without_shade(shortest_day(solution, hour).ok()?);
    let noon = free_at(12.0)
        .ok_or_else(|| Why::out_of_range("the sun does not rise at the winter solstice at this latitude"))?;
    let at_ends: Option<Vec<Length>> = COMFORT.into_iter().map(free_at).collect();
    let comfort = at_ends.map(|ends| ends.into_iter().fold(noon, |most, next| if next > most { next } else { most }));
    Ok(Spacing { noon, comfort })
}

/// Share of the slope in the shade of the row in front at noon of the shortest day; zero for a single row.
pub fn shaded_at_noon(solution: &Solution) -> Fig<Ratio> {
    if solution.inputs.get(&ROWS)? < 2 {
        return Ok(Ratio::from_si(0.0));
    }
    let pitch = solution.inputs.get(&ROW_PITCH)?;
    Ok(Ratio::from_si(rows(solution)?.shaded_fraction(pitch, shortest_day(solution, 12.0)?)))
}

/// The rows as geometry.
pub fn rows(solution: &Solution) -> Fig<Rows> {
    let timber_box = solution.enclosure.timber_box.as_ref().map_err(Why::clone)?;
    Ok(Rows {
        tilt: solution.inputs.get(&e::TILT)?,
        azimuth: sun::azimuth(&solution.inputs)?,
        slope_length: timber_box.outside_length,
    })
}

/// The sun at an hour of solar time on the shortest day.
fn shortest_day(solution: &Solution, hour: f64) -> Fig<Direction> {
    let latitude = solution.inputs.get(&e::LATITUDE)?;
    let declination = if latitude.si() < 0.0 { SOLSTICE } else { -SOLSTICE };
    Ok(Direction::of_sun(latitude, Angle::from_si(declination.to_radians()), hour_angle(Time::from_si(hour * 3600.0))))
}

/// What the row in front takes from a row behind it in a typical year: beam and circumsolar light only.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RowShade {
    /// Share of the plane's sun lost in a row that has one in front.
    pub behind: Ratio,
    /// Share lost over all rows, the first one free.
    pub all: Ratio,
}

/// Walks the year for the shade of the rows.
pub fn study(solution: &Solution, cancel: &Cancel) -> Option<Outcome> {
    let shade = row_shade(solution).map(Arc::new);
    (!cancel.is_cancelled()).then_some(Outcome::RowShade(shade))
}

fn row_shade(solution: &Solution) -> Fig<RowShade> {
    let count = solution.inputs.get(&ROWS)?;
    if count < 2 {
        let none = Ratio::from_si(0.0);
        return Ok(RowShade { behind: none, all: none });
    }
    let (rows, pitch) = (rows(solution)?, solution.inputs.get(&ROW_PITCH)?);
    let climate = solution.world.sky.clone()?;
    let (plane, horizon) = (sun::plane(&solution.inputs)?, sun::skyline(&solution.inputs)?);
    let year = climate.plane_behind(&plane, SkyModel::HayDavies, &horizon);
    let (mut lost, mut total) = (0.0, 0.0);
    for (light, hour) in year.hours().iter().zip(climate.hours()) {
        let direct = light.beam + light.circumsolar;
        total += light.total();
        if direct > 0.0 {
            lost += direct * rows.shaded_fraction(pitch, hour.sunlight.sun);
        }
    }
    let behind = if total > 0.0 { lost / total } else { 0.0 };
    Ok(RowShade { behind: Ratio::from_si(behind), all: Ratio::from_si(behind * (1.0 - 1.0 / count as f64)) })
}
