//! TMY2: a station line and 8760 rows of fixed columns.
//!
//! Format: NREL TMY2 manual, section 3. Columns are counted from 1 there and in the messages.

use super::ClimateError;
use super::raw::{
    DEGREES, Format, Header, IRRADIANCE, Limits, PERCENT, PRESSURE, Raw, Reading, Stamp, TENTHS, WIND, Year, latin1,
    number, whole,
};

/// Characters up to the last column that is read.
pub(super) const LEAST_WIDTH: usize = 98;

/// A column of the rows: first and last character, code of missing values, factor to SI, limits.
struct Field {
    name: &'static str,
    from: usize,
    to: usize,
    missing: f64,
    factor: f64,
    limits: Limits,
    set: fn(&mut Reading, Option<f64>),
}

#[rustfmt::skip]
const FIELDS: [Field; 9] = [
    Field { name: "global irradiance (characters 18-21)", from: 18, to: 21, missing: 9999.0, factor: 1.0, limits: IRRADIANCE, set: |r, v| r.global = v },
    Field { name: "beam irradiance (characters 24-27)", from: 24, to: 27, missing: 9999.0, factor: 1.0, limits: IRRADIANCE, set: |r, v| r.beam_normal = v },
    Field { name: "diffuse irradiance (characters 30-33)", from: 30, to: 33, missing: 9999.0, factor: 1.0, limits: IRRADIANCE, set: |r, v| r.diffuse = v },
    Field { name: "opaque cloud (characters 64-65)", from: 64, to: 65, missing: 99.0, factor: 1.0, limits: TENTHS, set: |r, v| r.opaque_cloud = v },
    Field { name: "dry bulb (characters 68-71)", from: 68, to: 71, missing: 9999.0, factor: 0.1, limits: DEGREES, set: |r, v| r.dry_bulb = v },
    Field { name: "dew point (characters 74-77)", from: 74, to: 77, missing: 9999.0, factor: 0.1, limits: DEGREES, set: |r, v| r.dew_point = v },
    Field { name: "humidity (characters 80-82)", from: 80, to: 82, missing: 999.0, factor: 1.0, limits: PERCENT, set: |r, v| r.humidity = v.map(|percent| percent / 100.0) },
    Field { name: "pressure (characters 85-88)", from: 85, to: 88, missing: 9999.0, factor: 100.0, limits: PRESSURE, set: |r, v| r.pressure = v },
    Field { name: "wind speed (characters 96-98)", from: 96, to: 98, missing: 999.0, factor: 0.1, limits: WIND, set: |r, v| r.wind = v },
];

pub(super) fn read(name: &str, bytes: &[u8]) -> Result<Raw, ClimateError> {
    let mut lines = (1..).zip(bytes.split(|byte| *byte == b'\n'));
    let header = station(lines.next().map(|line| line.1).unwrap_or_default())?;
    let mut year = Year::new();
    for (line, row) in lines {
        if row.iter().all(|byte| byte.is_ascii_whitespace() || byte.is_ascii_control()) {
            continue;
        }
        year.place(stamp(line, row)?, reading(line, row)?)?;
    }
    year.finish(header.station(name)?)
}

/// Characters `from` to `to`, counted from 1.
fn cut(row: &[u8], from: usize, to: usize) -> Option<&[u8]> {
    row.get(from - 1..to)
}

fn station(row: &[u8]) -> Result<Header, ClimateError> {
    let text = |from, to| cut(row, from, to).unwrap_or_default();
    let value = |column: &'static str, from, to| {
        let error = || ClimateError::Header { line: 1, column, text: latin1(text(from, to)) };
        number(1, column, text(from, to)).ok().flatten().ok_or_else(error)
    };
    let sign = |column: &'static str, at, plus: &[u8], minus: &[u8]| match text(at, at) {
        letter if letter == plus => Ok(1.0),
        letter if letter == minus => Ok(-1.0),
        other => Err(ClimateError::Header { line: 1, column, text: latin1(other) }),
    };
    let north = sign("latitude N or S", 38, b"N", b"S")?;
    let east = sign("longitude E or W", 46, b"E", b"W")?;
    Ok(Header {
        name: format!("{}, {}", latin1(text(8, 29)), latin1(text(31, 32))),
        utc_offset: value("time zone", 34, 36)?,
        latitude: north * (value("latitude", 40, 41)? + value("latitude minutes", 43, 44)? / 60.0),
        longitude: east * (value("longitude", 48, 50)? + value("longitude minutes", 52, 53)? / 60.0),
        altitude: value("elevation", 56, 59)?,
        format: Format::Tmy2,
    })
}

fn stamp(line: u64, row: &[u8]) -> Result<Stamp, ClimateError> {
    let parsed = || {
        let year: i32 = whole(cut(row, 2, 3)?)?;
        let (month, day, hour) = (whole(cut(row, 4, 5)?)?, whole(cut(row, 6, 7)?)?, whole(cut(row, 8, 9)?)?);
        Some(Stamp { line, year: year + 1900, month, day, hour })
    };
    parsed().ok_or_else(|| ClimateError::Time { line, text: latin1(row.get(..9).unwrap_or(row)) })
}

fn reading(line: u64, row: &[u8]) -> Result<Reading, ClimateError> {
    let mut reading = Reading::default();
    for field in &FIELDS {
        let bytes = cut(row, field.from, field.to).ok_or(ClimateError::ShortLine { line, column: field.name })?;
        let given = number(line, field.name, bytes)?.filter(|value| *value < field.missing);
        let value = given.map(|value| value * field.factor);
        (field.set)(&mut reading, field.limits.check(line, field.name, value)?);
    }
    Ok(reading)
}
