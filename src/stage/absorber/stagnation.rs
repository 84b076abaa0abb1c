//! The plate without flow: where it loses all that it absorbs.
//!
//! The balance is solved in `physics::collector`; the one figure that judges every material is chosen here.

use super::refused;
use crate::model::Fig;
use crate::physics::collector::{Collector, Exposure};
use crate::stage::site;
use crate::units::si::{Dimension, Temperature, Velocity};

/// Heat without flow.
#[derive(Clone, Debug)]
pub struct Stagnation {
    /// At the standard point: 1000 W/m², 30 °C, 1 m/s.
    pub standard: Temperature,
    /// At 1100 W/m², 35 °C, 1 m/s.
    pub severe: Temperature,
    /// In the site's own worst hour at 1 m/s, where weather is known.
    pub site: Option<Temperature>,
    /// The largest of them: the one figure that judges every material.
    pub worst: Temperature,
    /// The sun and air in which the plate comes to `worst`.
    pub worst_exposure: Exposure,
}

/// Solves the three cases: standard, severe, and the site's own hottest hours.
pub fn solve(collector: &Collector, site: &site::Results) -> Fig<Stagnation> {
    let plate = |exposure: Exposure| collector.stagnation(&exposure).map(|plate| (plate, exposure)).map_err(refused);
    let standard = plate(Exposure::standard())?;
    let severe = plate(Exposure::severe())?;
    let mut hottest: Option<(Temperature, Exposure)> = None;
    if let Ok(sun) = &site.sun {
        for hour in &sun.worst_hours {
            let hour = plate(Exposure {
                irradiance: hour.irradiance,
                ambient: hour.air,
                sky: hour.air,
                wind: Velocity::from_si(1.0),
            })?;
            hottest = Some(hottest.map_or(hour, |so_far| hotter(so_far, hour)));
        }
    }
    let (worst, worst_exposure) = hotter(hotter(standard, severe), hottest.unwrap_or(standard));
    Ok(Stagnation {
        standard: standard.0,
        severe: severe.0,
        site: hottest.map(|(plate, _)| plate),
        worst,
        worst_exposure,
    })
}

fn hotter(a: (Temperature, Exposure), b: (Temperature, Exposure)) -> (Temperature, Exposure) {
    if b.0 > a.0 { b } else { a }
}
