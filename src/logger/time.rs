//! Times as loggers write them, and back to the calendar.

use jiff::civil::DateTime;

/// Order of day, month and year where the date does not begin with the year.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Order {
    /// Month before day.
    MonthFirst,
    /// Day before month.
    DayFirst,
}

/// A time and, where it is written, by how many seconds its clock is ahead of universal time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Moment {
    /// Seconds since 1970-01-01 by the clock as written.
    pub clock: f64,
    /// Seconds ahead of universal time.
    pub offset: Option<f64>,
}

/// Reads ISO 8601 (T or space between, seconds and offset as they please), dates with points, strokes or slashes, and
/// counts of seconds or milliseconds since 1970.
pub(super) fn read(cell: &[u8], order: Order) -> Option<Moment> {
    let cell = cell.trim_ascii();
    let mut at = Cursor { bytes: cell, at: 0 };
    let (first, width) = at.digits()?;
    if at.done() {
        return since_1970(first, width);
    }
    let separator = at.one_of(b"-./")?;
    let (second, _) = at.digits()?;
    at.exactly(separator)?;
    let (third, third_width) = at.digits()?;
    let (year, month, day) = match (width, third_width, order) {
        (4, 1..=2, _) => (first, second, third),
        (1..=2, 4, _) if separator == b'.' => (third, second, first),
        (1..=2, 4, Order::DayFirst) => (third, second, first),
        (1..=2, 4, Order::MonthFirst) => (third, first, second),
        _ => return None,
    };
    let days = days_since_1970(year, month, day)?;
    let mut seconds = 0.0;
    let mut offset = None;
    if !at.done() {
        at.one_of(b"T t")?;
        at.spaces();
        seconds = at.time_of_day()?;
        at.spaces();
        offset = at.offset()?;
    }
    Some(Moment { clock: days as f64 * 86_400.0 + seconds, offset })
}

/// The order that a date with strokes must have, if it tells; none for a date that can be read both ways.
pub(super) fn order_of(cell: &[u8]) -> Option<Order> {
    let mut at = Cursor { bytes: cell.trim_ascii(), at: 0 };
    let (first, width) = at.digits()?;
    let separator = at.one_of(b"-/")?;
    let (second, _) = at.digits()?;
    at.exactly(separator)?;
    match (width, first, second) {
        (1..=2, 13..=31, 1..=12) => Some(Order::DayFirst),
        (1..=2, 1..=12, 13..=31) => Some(Order::MonthFirst),
        _ => None,
    }
}

fn since_1970(count: i64, width: usize) -> Option<Moment> {
    let clock = match width {
        9..=10 => count as f64,
        12..=13 => count as f64 / 1e3,
        _ => return None,
    };
    Some(Moment { clock, offset: Some(0.0) })
}

/// Days from 1970-01-01 in the Gregorian calendar; none for a day that does not exist.
fn days_since_1970(year: i64, month: i64, day: i64) -> Option<i64> {
    const LENGTHS: [i64; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
    const BEFORE: [i64; 12] = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
    let index = usize::try_from(month - 1).ok().filter(|index| *index < 12)?;
    let leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    let longest = LENGTHS[index] + i64::from(leap && month == 2);
    if !(1900..=2200).contains(&year) || !(1..=longest).contains(&day) {
        return None;
    }
    let past = year - 1;
    let leaps = |to: i64| to / 4 - to / 100 + to / 400;
    let years = (year - 1970) * 365 + leaps(past) - leaps(1969);
    Some(years + BEFORE[index] + i64::from(leap && month > 2) + day - 1)
}

struct Cursor<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl Cursor<'_> {
    fn done(&self) -> bool {
        self.at == self.bytes.len()
    }

    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    fn spaces(&mut self) {
        while self.peek() == Some(b' ') {
            self.at += 1;
        }
    }

    /// A whole number of at most 13 digits, and how many they were.
    fn digits(&mut self) -> Option<(i64, usize)> {
        let start = self.at;
        let mut number = 0;
        while let Some(digit @ b'0'..=b'9') = self.peek() {
            if self.at - start == 13 {
                return None;
            }
            number = number * 10 + i64::from(digit - b'0');
            self.at += 1;
        }
        (self.at > start).then_some((number, self.at - start))
    }

    fn one_of(&mut self, allowed: &[u8]) -> Option<u8> {
        let byte = self.peek().filter(|byte| allowed.contains(byte))?;
        self.at += 1;
        Some(byte)
    }

    fn exactly(&mut self, byte: u8) -> Option<u8> {
        self.one_of(&[byte])
    }

    fn time_of_day(&mut self) -> Option<f64> {
        let (hour, _) = self.digits()?;
        self.exactly(b':')?;
        let (minute, _) = self.digits()?;
        let mut seconds = 0.0;
        if self.one_of(b":").is_some() {
            seconds = self.digits()?.0 as f64;
            if self.one_of(b".,").is_some() {
                let (fraction, width) = self.digits()?;
                seconds += fraction as f64 / 10_f64.powi(i32::try_from(width).ok()?);
            }
        }
        if hour > 24 || minute > 59 || seconds >= 61.0 {
            return None;
        }
        Some(hour as f64 * 3600.0 + minute as f64 * 60.0 + seconds)
    }

    /// Nothing, `Z`, `+02`, `+0200` or `+02:00` up to the end.
    #[allow(clippy::option_option)] // outside: readable or not; inside: written or not
    fn offset(&mut self) -> Option<Option<f64>> {
        if self.done() {
            return Some(None);
        }
        let sign = match self.one_of(b"Zz+-")? {
            b'-' => -1.0,
            b'+' => 1.0,
            _ => return self.done().then_some(Some(0.0)),
        };
        let (number, width) = self.digits()?;
        let (hours, mut minutes) = if width == 4 { (number / 100, number % 100) } else { (number, 0) };
        if width != 4 && self.one_of(b":").is_some() {
            minutes = self.digits()?.0;
        }
        let offset = sign * (hours as f64 * 3600.0 + minutes as f64 * 60.0);
        (self.done() && hours <= 14 && minutes < 60).then_some(Some(offset))
    }
}

/// Day and time of day of a moment, on the log's clock; none outside the calendar.
pub fn civil(clock: f64) -> Option<DateTime> {
    #[allow(clippy::cast_possible_truncation)] // a time of a log lies between 1900 and 2200
    let seconds = clock.is_finite().then(|| clock.round() as i64)?;
    let start = DateTime::constant(1970, 1, 1, 0, 0, 0, 0);
    start.checked_add(jiff::Span::new().try_seconds(seconds).ok()?).ok()
}

/// A moment as people write it: `2026-05-06 12:30`.
pub fn stamp(clock: f64) -> String {
    civil(clock).map_or_else(|| "an impossible time".to_owned(), |at| at.strftime("%Y-%m-%d %H:%M").to_string())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn clock(text: &str) -> Option<f64> {
        read(text.as_bytes(), Order::MonthFirst).map(|moment| moment.clock)
    }

    /// 2026-05-06 12:30 is 1778070600 s after 1970 (date command of a Unix system).
    #[test]
    fn one_moment_reads_the_same_in_every_spelling() {
        for text in [
            "2026-05-06T12:30:00",
            "2026-05-06 12:30",
            "2026/5/6 12:30:00.000",
            "06.05.2026 12:30",
            "5/6/2026 12:30:00",
            "1778070600",
            "1778070600000",
        ] {
            assert_eq!(clock(text), Some(1_778_070_600.0), "{text}");
        }
        let day_first = read(b"6/5/2026 12:30", Order::DayFirst).map(|moment| moment.clock);
        assert_eq!(day_first, Some(1_778_070_600.0));
        assert_eq!(stamp(1_778_070_600.0), "2026-05-06 12:30");
    }

    #[test]
    fn offsets_are_read() {
        for (text, offset) in [("Z", 0.0), ("+02:00", 7200.0), ("-0500", -18_000.0), ("+05:45", 20_700.0)] {
            let text = format!("2026-05-06T12:30:00{text}");
            assert_eq!(read(text.as_bytes(), Order::DayFirst).unwrap().offset, Some(offset), "{text}");
        }
    }

    #[test]
    fn days_that_do_not_exist_are_refused() {
        for text in
            ["2026-02-29 00:00", "2026-13-01 00:00", "06.05.26 12:30", "12:30", "time", "2026-05-06 25:00", "-3"]
        {
            assert_eq!(clock(text), None, "{text}");
        }
        assert!(clock("2024-02-29 00:00").is_some());
    }

    #[test]
    fn an_order_shows_where_a_number_is_no_month() {
        assert_eq!(order_of(b"13/05/2026"), Some(Order::DayFirst));
        assert_eq!(order_of(b"05/13/2026"), Some(Order::MonthFirst));
        assert_eq!(order_of(b"05/06/2026"), None);
    }
}
