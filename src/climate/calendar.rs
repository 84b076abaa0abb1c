//! The 365-day calendar of typical years: which slot an hour has, which month and day a slot belongs to.

use std::fmt;
use std::ops::Range;

/// Hours of a typical year.
pub const HOURS: usize = 8760;

const MONTH_DAYS: [u8; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const MONTH_NAMES: [&str; 12] = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// One of the 8760 hours; shown as month, day and the hour it ends at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct HourOfYear(u16);

impl HourOfYear {
    /// 1 January, 0 to 1 o'clock.
    pub const FIRST: Self = Self(0);

    /// The hour with index 0 to 8759.
    pub fn new(index: usize) -> Option<Self> {
        u16::try_from(index).ok().filter(|_| index < HOURS).map(Self)
    }

    /// The hour of month 1–12, day, and the clock hour 1–24 at which it ends.
    pub fn from_calendar(month: u8, day: u8, hour_ending: u8) -> Option<Self> {
        let days = *MONTH_DAYS.get(usize::from(month).checked_sub(1)?)?;
        if !(1..=days).contains(&day) || !(1..=24).contains(&hour_ending) {
            return None;
        }
        let before: u16 = MONTH_DAYS[..usize::from(month) - 1].iter().map(|days| u16::from(*days)).sum();
        Some(Self((before + u16::from(day) - 1) * 24 + u16::from(hour_ending) - 1))
    }

    /// All hours in order.
    pub fn all() -> impl Iterator<Item = Self> {
        (0..8760).map(Self)
    }

    /// 0 to 8759.
    pub fn index(self) -> usize {
        usize::from(self.0)
    }

    /// Month 1–12 and day of the month.
    pub fn date(self) -> (u8, u8) {
        let mut day = self.0 / 24;
        for (month, days) in (1..).zip(MONTH_DAYS) {
            if day < u16::from(days) {
                // A remainder below 31 fits; the fallback cannot occur.
                return (month, u8::try_from(day + 1).unwrap_or(days));
            }
            day -= u16::from(days);
        }
        (12, 31)
    }

    /// Day of the year, 1 to 365.
    pub fn day_of_year(self) -> u16 {
        self.0 / 24 + 1
    }

    /// Clock time of mid-hour in hours from midnight, standard time.
    pub fn clock_hours(self) -> f64 {
        f64::from(self.0 % 24) + 0.5
    }
}

impl fmt::Display for HourOfYear {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (month, day) = self.date();
        write!(f, "{} {day}, {:02}:00", MONTH_NAMES[usize::from(month) - 1], self.0 % 24 + 1)
    }
}

/// Hour indices of each month in order.
pub(super) fn months() -> [Range<usize>; 12] {
    let mut start = 0;
    MONTH_DAYS.map(|days| {
        let month = start..start + usize::from(days) * 24;
        start = month.end;
        month
    })
}

/// Whether a year of the Gregorian calendar has a 29 February.
pub(super) fn is_leap(year: i32) -> bool {
    year % 4 == 0 && (year % 100 != 0 || year % 400 == 0)
}

/// Month and day before a date of the 365-day calendar, and whether that lies in the year before.
pub(super) fn day_before(month: u8, day: u8) -> (u8, u8, bool) {
    match (month, day) {
        (1, 1) => (12, 31, true),
        (month, 1) => (month - 1, MONTH_DAYS[usize::from(month).saturating_sub(2).min(11)], false),
        (month, day) => (month, day.saturating_sub(1), false),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_hour_finds_its_way_back() {
        for hour in HourOfYear::all() {
            let (month, day) = hour.date();
            let ending = u8::try_from(hour.index() % 24 + 1).unwrap();
            assert_eq!(HourOfYear::from_calendar(month, day, ending), Some(hour));
        }
    }

    #[test]
    fn the_year_has_no_leap_day_and_no_thirteenth_month() {
        assert_eq!(HourOfYear::from_calendar(2, 29, 1), None);
        assert_eq!(HourOfYear::from_calendar(13, 1, 1), None);
        assert_eq!(HourOfYear::from_calendar(0, 1, 1), None);
        assert_eq!(HourOfYear::new(8760), None);
    }

    #[test]
    fn hours_read_as_people_write_them() {
        assert_eq!(HourOfYear::from_calendar(12, 31, 24).unwrap().to_string(), "Dec 31, 24:00");
    }
}
