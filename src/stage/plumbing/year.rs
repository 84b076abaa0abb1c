//! What the sun gives in a year, as a study: 8760 hours of the project's own plant.
//!
//! Lives here: what the study reads, its result and what is asked of it. The plant is put together in `plant`, the
//! hours in `hours`, figures in `rows`; the simulation is `crate::year`, the outside check `correlation`.

pub mod checks;
pub mod choices;
pub mod correlation;
pub mod entries;
pub mod extreme_rows;
pub mod hours;
pub mod methods;
pub mod pictures;
pub mod pipes;
pub mod plant;
pub mod rows;
pub mod worst_days;
pub mod worst_pressures;

use std::sync::Arc;

use super::flow_rows::NATURAL_FLOW;
use super::{HOT_WATER, LINE};
use crate::climate::Format;
use crate::model::{Fig, Why};
use crate::stage::site::{self, frost};
use crate::stage::study::{self, Cancel};
use crate::stage::{Group, Solution};
use crate::units::si::{Dimension, Energy, Time};
use crate::year::{HourEnd, Outcome, Tally, YearError, simulate};

/// How long all water of the tank must stand at 60 °C or more in a day for that day to count as a pass, s (an hour a
/// day: guidance on storage heaters, from memory).
const PASS: f64 = 3600.0;

/// When and how much water is drawn.
pub static DRAWS: Group = Group {
    name: "hours of the draw",
    entries: &["plumbing.draw_profile", "plumbing.draw.*.share"],
    groups: &[&HOT_WATER],
};

/// The plant as the year sees it.
pub static PLANT: Group = Group {
    name: "the plant of the year",
    entries: &[
        "plumbing.tank",
        "plumbing.tank_limit",
        "plumbing.tank_layers",
        "plumbing.tank_height",
        "plumbing.tank_insulation",
        "plumbing.tank_room",
        "plumbing.tank_band",
        "plumbing.exchanger_type",
        "plumbing.pump_power",
        "plumbing.control_start",
        "plumbing.control_stop",
        "plumbing.lock_out",
        "plumbing.auxiliary",
        "plumbing.element_power",
        "plumbing.element_set",
        "plumbing.element_depth",
    ],
    groups: &[&LINE, &pipes::PIPES, &NATURAL_FLOW],
};

/// The simulated year.
pub static YEAR: Group =
    Group { name: "the year", entries: &[], groups: &[&PLANT, &DRAWS, &site::SUN, &site::spacing::ROW_SHADE] };

/// The year of a project.
#[derive(Clone, Debug)]
pub struct Year {
    /// What was simulated.
    pub outcome: Outcome,
    /// What the hours were made from.
    pub format: Format,
    /// The year of the panels as drawn, where this one is of panels as measured.
    pub of_drawing: Option<Box<Self>>,
}

/// Runs the study.
pub fn study(solution: &Solution, cancel: &Cancel) -> Option<study::Outcome> {
    let found = year(solution, cancel);
    (!cancel.is_cancelled()).then(|| study::Outcome::Year(found.map(Arc::new)))
}

/// The year of a solution.
pub fn year(solution: &Solution, cancel: &Cancel) -> Fig<Year> {
    let plant = plant::plant(solution)?;
    let hours = hours::hours(solution)?;
    let format = solution.world.sky.as_ref().map_err(Clone::clone)?.station().format;
    let simulated = |plant| simulate(plant, &hours, &|| cancel.is_cancelled()).map_err(refused);
    let beside = plant::beside_measured(solution)?;
    let drawn = beside.as_ref().map(simulated).transpose()?;
    let of_drawing = drawn.map(|outcome| Box::new(Year { outcome, format, of_drawing: None }));
    Ok(Year { outcome: simulated(&plant)?, format, of_drawing })
}

/// Why a plant gives no year.
pub fn refused(error: YearError) -> Why {
    match error {
        YearError::Cancelled => Why::Pending,
        other => Why::out_of_range(other),
    }
}

/// Heat that need not be bought: the load less auxiliary heat and shortage.
pub fn from_sun(tally: &Tally) -> Energy {
    tally.load() - tally.auxiliary() - tally.shortage()
}

impl Year {
    /// The same, where its hours are those of a weather file: mean days have neither the hottest nor the worst.
    pub fn of_real_hours(&self) -> Fig<&Self> {
        if self.format.is_hourly() { Ok(self) } else { Err(frost::needs_file(self.format)) }
    }

    /// This year, and that of the panels as drawn where this one is of measured panels: limits on danger take the worse.
    pub fn and_as_drawn(&self) -> impl Iterator<Item = &Self> {
        std::iter::once(self).chain(self.of_drawing.as_deref())
    }

    /// The tank at the ends of the 24 hours of a day of the year (1 to 365): highest and lowest layer, the water's own
    /// history. Empty for a day that is none.
    pub fn day(&self, day: u16) -> &[HourEnd] {
        let first = usize::from(day).saturating_sub(1) * 24;
        self.outcome.hours.get(first..first + 24).filter(|_| day > 0).unwrap_or_default()
    }

    /// For each day of the year whether all water of the tank stood at 60 °C or more for an hour.
    pub fn passes(&self) -> impl Iterator<Item = bool> {
        self.outcome.days.iter().map(|day| day.tally.all_hot_time() >= Time::from_si(PASS))
    }

    /// Most days in a row without a pass, the year taken as a ring.
    pub fn longest_without_pass(&self) -> usize {
        let passes: Vec<bool> = self.passes().collect();
        let mut longest = 0;
        let mut now = 0;
        for pass in passes.iter().chain(&passes) {
            now = if *pass { 0 } else { now + 1 };
            longest = longest.max(now);
        }
        longest.min(passes.len())
    }
}
