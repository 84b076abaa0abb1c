//! The best tilt and the best way to face, as a study, with how flat the best is.

use std::sync::Arc;

use super::WEATHER;
use super::entries::{self as e};
use super::sun::{self, ALBEDO, FACING, SKYLINE};
use crate::climate::{BestOrientation, BestTilt, Scan};
use crate::model::{Fig, Why};
use crate::stage::study::{Cancel, Outcome};
use crate::stage::{Group, Solution};
use crate::units::si::{Angle, Dimension, RadiantExposure, Ratio};

/// All months of the year.
const YEAR: [bool; 12] = [true; 12];

/// What a scan of planes found.
#[derive(Clone, Debug)]
pub struct Orientation {
    /// The year's sun at every tilt from 0 to 90°, the panels facing as entered.
    pub curve: Vec<(Angle, RadiantExposure)>,
    /// The best of them for the year.
    pub best: BestTilt,
    /// The best of them for the four dark months.
    pub winter: BestTilt,
    /// The best plane if the panels could face any way.
    pub anywhere: BestOrientation,
    /// The year's sun at the tilt entered, by the same scan.
    pub here: Fig<RadiantExposure>,
}

/// What the scan reads.
pub static ORIENTATION: Group =
    Group { name: "best tilt", entries: &["site.tilt"], groups: &[&WEATHER, &FACING, &SKYLINE, &ALBEDO] };

/// Runs the scan.
pub fn study(solution: &Solution, cancel: &Cancel) -> Option<Outcome> {
    let found = scan(solution).map(Arc::new);
    (!cancel.is_cancelled()).then_some(Outcome::Orientation(found))
}

fn scan(solution: &Solution) -> Fig<Orientation> {
    let climate = solution.world.sky.clone()?;
    let inputs = &solution.inputs;
    let (horizon, azimuth) = (sun::skyline(inputs)?, sun::azimuth(inputs)?);
    let scan = climate.scan(&horizon, &sun::albedo(inputs)?);
    let curve = scan.tilt_curve(azimuth, YEAR);
    let dark = dark_months(climate.station().place.latitude);
    let best_of = |curve: &[(Angle, RadiantExposure)]| {
        Scan::best_of(curve).ok_or_else(|| Why::out_of_range("no tilt to choose among"))
    };
    Ok(Orientation {
        best: best_of(&curve)?,
        winter: best_of(&scan.tilt_curve(azimuth, dark))?,
        anywhere: scan.best_orientation(YEAR),
        here: inputs.get(&e::TILT).map(|tilt| scan.total(tilt, azimuth, YEAR)),
        curve,
    })
}

/// November to February, south of the equator May to August.
pub fn dark_months(latitude: Angle) -> [bool; 12] {
    let (first, last) = if latitude.si() < 0.0 { (4, 7) } else { (10, 1) };
    std::array::from_fn(
        |month| if first < last { (first..=last).contains(&month) } else { month >= first || month <= last },
    )
}

impl Orientation {
    /// Share of the best tilt's sun that the tilt entered gives up.
    pub fn given_up(&self) -> Fig<Ratio> {
        let here = self.here.clone()?;
        if self.best.total.si() <= 0.0 {
            return Err(Why::out_of_range("there is no sun in this year"));
        }
        Ok(Ratio::from_si((1.0 - here.si() / self.best.total.si()).max(0.0)))
    }

    /// The tilts within 1 % of the best, in words.
    pub fn range(&self) -> String {
        let degrees = |angle: Angle| angle.si().to_degrees();
        format!("any tilt from {:.0}° to {:.0}°", degrees(self.best.flattest), degrees(self.best.steepest))
    }
}
