//! What the three readers have in common: the station, one reading an hour, slots of the year, numbers in fields.

use csv::ByteRecord;

use super::calendar::{HOURS, HourOfYear, day_before, is_leap};
use super::{ClimateError, epw, tmy2, tmy3};
use crate::physics::sun::Place;
use crate::units::si::{Angle, Dimension, Length};

/// The kind of weather file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Format {
    /// Typical meteorological year 3, comma separated.
    Tmy3,
    /// Typical meteorological year 2, fixed columns.
    Tmy2,
    /// EPW, the format of building simulation.
    Epw,
    /// No file: mean days made from twelve monthly means.
    MonthlyMeans,
    /// No file: every day without a cloud. An upper bound, not a yield.
    ClearSky,
}

impl Format {
    /// Whether the hours are those of a weather file, with its cold nights and dull weeks.
    pub const fn is_hourly(self) -> bool {
        matches!(self, Self::Tmy3 | Self::Tmy2 | Self::Epw)
    }
}

/// Where a weather file comes from.
#[derive(Clone, Debug, PartialEq)]
pub struct Station {
    /// As the file writes it.
    pub name: String,
    /// Position and height.
    pub place: Place,
    /// Standard time less universal time, hours; halves and quarters exist.
    pub utc_offset: f64,
    /// Kind of file.
    pub format: Format,
    /// Label of the file.
    pub source: String,
}

/// The station's numbers as a header gives them.
pub(super) struct Header {
    pub name: String,
    pub latitude: f64,
    pub longitude: f64,
    pub altitude: f64,
    pub utc_offset: f64,
    pub format: Format,
}

impl Header {
    /// Checks that the place is on the globe.
    pub fn station(self, source: &str) -> Result<Station, ClimateError> {
        let limits = [
            ("latitude", self.latitude, -90.0..=90.0),
            ("longitude", self.longitude, -180.0..=180.0),
            ("elevation", self.altitude, -500.0..=9000.0),
            ("time zone", self.utc_offset, -14.0..=14.0),
        ];
        for (column, value, range) in limits {
            if !range.contains(&value) {
                return Err(ClimateError::Header { line: 1, column, text: value.to_string() });
            }
        }
        let place = Place {
            latitude: Angle::from_si(self.latitude.to_radians()),
            longitude: Angle::from_si(self.longitude.to_radians()),
            altitude: Length::from_si(self.altitude),
        };
        let source = source.to_owned();
        Ok(Station { name: self.name, place, utc_offset: self.utc_offset, format: self.format, source })
    }
}

/// One row of a file. Temperatures °C, pressure Pa, humidity 0 to 1, the rest SI; `None` where missing.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Reading {
    pub year: i32,
    pub global: Option<f64>,
    pub beam_normal: Option<f64>,
    pub diffuse: Option<f64>,
    pub dry_bulb: Option<f64>,
    pub dew_point: Option<f64>,
    pub humidity: Option<f64>,
    pub wind: Option<f64>,
    pub pressure: Option<f64>,
    pub infrared: Option<f64>,
    pub opaque_cloud: Option<f64>,
    pub albedo: Option<f64>,
}

/// The date and hour of a row as written: hour 24 ends the day, hour 0 ends the day before.
#[derive(Clone, Copy)]
pub(super) struct Stamp {
    pub line: u64,
    pub year: i32,
    pub month: u8,
    pub day: u8,
    pub hour: u8,
}

/// Rows laid into their hours.
pub(super) struct Year {
    slots: Vec<Option<Reading>>,
    /// Rows of 29 February, left out.
    pub leap_rows: usize,
}

/// A file read to the end.
pub(super) struct Raw {
    pub station: Station,
    pub readings: Vec<Reading>,
    pub leap_rows: usize,
}

impl Year {
    pub fn new() -> Self {
        Self { slots: vec![None; HOURS], leap_rows: 0 }
    }

    /// Puts a reading into its hour.
    pub fn place(&mut self, stamp: Stamp, mut reading: Reading) -> Result<(), ClimateError> {
        let Stamp { line, year, mut month, mut day, mut hour } = stamp;
        reading.year = year;
        if !(1600..=2400).contains(&year) {
            return Err(stamp.error());
        }
        let leap_day = (month, day) == (2, 29) && is_leap(year);
        if hour == 0 {
            if (month, day) == (3, 1) && self.leap_rows > 0 {
                self.leap_rows += 1;
                return Ok(());
            }
            // A calendar error must not vanish in the step back.
            if !leap_day && HourOfYear::from_calendar(month, day, 1).is_none() {
                return Err(stamp.error());
            }
            let (before_month, before_day, year_before) = day_before(month, day);
            (month, day, hour) = (before_month, before_day, 24);
            reading.year -= i32::from(year_before);
        } else if leap_day && hour <= 24 {
            self.leap_rows += 1;
            return Ok(());
        }
        let slot = HourOfYear::from_calendar(month, day, hour).ok_or_else(|| stamp.error())?;
        match &mut self.slots[slot.index()] {
            Some(_) => Err(ClimateError::Duplicate { line, hour: slot }),
            empty => {
                *empty = Some(reading);
                Ok(())
            }
        }
    }

    /// All 8760 readings, or the first hour that has none.
    pub fn finish(self, station: Station) -> Result<Raw, ClimateError> {
        let missing = self.slots.iter().filter(|slot| slot.is_none()).count();
        let first = self.slots.iter().position(Option::is_none).and_then(HourOfYear::new);
        if let Some(first) = first {
            return Err(ClimateError::Incomplete { missing, first });
        }
        Ok(Raw { station, readings: self.slots.into_iter().flatten().collect(), leap_rows: self.leap_rows })
    }
}

impl Stamp {
    fn error(self) -> ClimateError {
        let text = format!("{}-{:02}-{:02} {:02}:00", self.year, self.month, self.day, self.hour);
        ClimateError::Time { line: self.line, text }
    }
}

/// Tells the format by the first two lines and reads.
pub(super) fn read(name: &str, bytes: &[u8]) -> Result<Raw, ClimateError> {
    let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
    let mut lines = bytes.split(|byte| *byte == b'\n');
    let (first, second) = (lines.next().unwrap_or_default(), lines.next().unwrap_or_default());
    if let Some(found) = delimiter([first, second]) {
        return Err(ClimateError::Delimiter { name: name.to_owned(), found });
    }
    if starts_with(first, b"location,") {
        epw::read(name, bytes)
    } else if second.split(|byte| *byte == b',').any(|field| starts_with(field, b"date")) {
        tmy3::read(name, bytes)
    } else if second.len() >= tmy2::LEAST_WIDTH && second.get(1..17).is_some_and(|s| s.iter().all(u8::is_ascii_digit)) {
        tmy2::read(name, bytes)
    } else {
        Err(ClimateError::UnknownFormat { name: name.to_owned() })
    }
}

/// What parts the fields of two lines that hold no comma, if it is a usual delimiter.
fn delimiter(lines: [&[u8]; 2]) -> Option<&'static str> {
    let all_hold = |byte: u8| lines.iter().all(|line| line.split(|have| *have == byte).count() > 5);
    let usual = [(b';', "semicolons"), (b'\t', "tabs")];
    let found = usual.iter().find(|(byte, _)| all_hold(*byte) && !all_hold(b','));
    found.map(|(_, words)| *words)
}

fn starts_with(line: &[u8], prefix: &[u8]) -> bool {
    line.get(..prefix.len()).is_some_and(|start| start.eq_ignore_ascii_case(prefix))
}

/// Bytes as text, each byte one character (Latin-1), without blanks around.
pub(super) fn latin1(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| char::from(*byte)).collect::<String>().trim().to_owned()
}

/// A finite number in a field; `None` for an empty field.
pub(super) fn number(line: u64, column: &'static str, field: &[u8]) -> Result<Option<f64>, ClimateError> {
    let field = field.trim_ascii();
    if field.is_empty() {
        return Ok(None);
    }
    let parsed = std::str::from_utf8(field).ok().and_then(|text| text.parse::<f64>().ok());
    match parsed.filter(|value| value.is_finite()) {
        Some(value) => Ok(Some(value)),
        None => Err(ClimateError::Value { line, column, text: latin1(field) }),
    }
}

/// The next record; reading from memory fails only for a record that cannot be taken apart.
pub(super) fn next_record(reader: &mut csv::Reader<&[u8]>, record: &mut ByteRecord) -> Result<bool, ClimateError> {
    reader.read_byte_record(record).map_err(|error| ClimateError::Value {
        line: error.position().map_or(0, csv::Position::line),
        column: "row",
        text: error.to_string(),
    })
}

/// A whole number in a date or hour.
pub(super) fn whole<T: std::str::FromStr>(field: &[u8]) -> Option<T> {
    std::str::from_utf8(field.trim_ascii()).ok()?.parse().ok()
}

/// What a value of weather may be: outside it is an error of the file, not weather.
#[derive(Clone, Copy)]
pub(super) struct Limits {
    pub low: f64,
    pub high: f64,
}

/// Irradiance, W/m²: small negatives come from rounding and are counted by the audit.
pub(super) const IRRADIANCE: Limits = Limits { low: -50.0, high: 2000.0 };
/// Temperatures, °C.
pub(super) const DEGREES: Limits = Limits { low: -100.0, high: 80.0 };
/// Relative humidity, percent.
pub(super) const PERCENT: Limits = Limits { low: 0.0, high: 110.0 };
/// Wind, m/s.
pub(super) const WIND: Limits = Limits { low: 0.0, high: 110.0 };
/// Air pressure, Pa.
pub(super) const PRESSURE: Limits = Limits { low: 30_000.0, high: 120_000.0 };
/// Cloud, tenths.
pub(super) const TENTHS: Limits = Limits { low: 0.0, high: 10.0 };
/// Anything a format may write; the value is judged later.
pub(super) const ANY: Limits = Limits { low: f64::MIN, high: f64::MAX };

impl Limits {
    /// Checks a value that is there.
    pub fn check(self, line: u64, column: &'static str, value: Option<f64>) -> Result<Option<f64>, ClimateError> {
        match value {
            Some(number) if !(self.low..=self.high).contains(&number) => {
                Err(ClimateError::Value { line, column, text: number.to_string() })
            }
            value => Ok(value),
        }
    }
}
