//! The year's results: months, days, hours, peaks, the worst week, and how well energy closed.

use super::tally::Tally;
use crate::climate::HourOfYear;
use crate::units::si::{Energy, Temperature};

/// A year of a plant.
#[derive(Clone, Debug, PartialEq)]
pub struct Outcome {
    /// By month.
    pub months: [Tally; 12],
    /// The whole year.
    pub year: Tally,
    /// By day, 365.
    pub days: Vec<Day>,
    /// Where the plant stood at the end of each hour, 8760.
    pub hours: Vec<HourEnd>,
    /// The hottest hour of the tank's top.
    pub peak_tank: Peak,
    /// The hottest hour of the collector.
    pub peak_collector: Peak,
    /// The seven days that lacked most.
    pub worst_week: Week,
    /// Heat in the tank at the end less at the start.
    pub stored: Energy,
    /// What the tank's balance lacks, over all heat that went through it: stored heat of the layers against what was
    /// booked.
    pub tank_residual: f64,
    /// The same of the collector.
    pub collector_residual: f64,
}

/// A peak and the hour in which it came.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Peak {
    /// The temperature.
    pub temperature: Temperature,
    /// The first hour that reached it.
    pub at: HourOfYear,
}

/// One day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Day {
    /// What was booked.
    pub tally: Tally,
    /// Day of the year, 1 to 365.
    pub day: u16,
}

/// The end of an hour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HourEnd {
    /// Highest layer.
    pub top: Temperature,
    /// Lowest layer.
    pub lowest: Temperature,
    /// Outlet of the collector.
    pub collector: Temperature,
}

/// Seven days in a row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Week {
    /// First day of the year, 1 to 359.
    pub first_day: u16,
    /// What was booked in them.
    pub tally: Tally,
}

/// The seven days with the most auxiliary heat and shortage together, the first of equals.
pub(super) fn worst_week(days: &[Day]) -> Week {
    let mut worst = Week { first_day: 1, tally: Tally::default() };
    for (index, week) in days.windows(7).enumerate() {
        let mut tally = week[0].tally;
        week[1..].iter().for_each(|day| tally.add(&day.tally));
        if index == 0 || tally.lacking() > worst.tally.lacking() {
            worst = Week { first_day: week[0].day, tally };
        }
    }
    worst
}
