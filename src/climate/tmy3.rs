//! TMY3: station line, line of column names, 8760 comma-separated rows.
//!
//! Columns are found by name, so both published column sets and files with only the needed columns are read.
//! Format: Users Manual for TMY3 Data Sets, NREL/TP-581-43156.

use csv::{ByteRecord, ReaderBuilder};

use super::ClimateError;
use super::raw::{
    ANY, DEGREES, Format, Header, IRRADIANCE, Limits, PERCENT, PRESSURE, Raw, Reading, Stamp, TENTHS, WIND, Year,
    latin1, next_record, number, whole,
};

/// Values at or below are missing (the format writes −9900).
const MISSING: f64 = -9900.0;
const MILLIBAR: f64 = 100.0;

/// Positions of the columns; `None` where the file has none.
struct Columns {
    date: usize,
    time: usize,
    fields: [Option<usize>; FIELDS.len()],
}

/// Name before the unit, unit factor to SI, limits, and where the value goes.
struct Field {
    name: &'static str,
    factor: f64,
    limits: Limits,
    set: fn(&mut Reading, Option<f64>),
}

const FIELDS: [Field; 10] = [
    Field { name: "GHI", factor: 1.0, limits: IRRADIANCE, set: |r, v| r.global = v },
    Field { name: "DNI", factor: 1.0, limits: IRRADIANCE, set: |r, v| r.beam_normal = v },
    Field { name: "DHI", factor: 1.0, limits: IRRADIANCE, set: |r, v| r.diffuse = v },
    Field { name: "OpqCld", factor: 1.0, limits: TENTHS, set: |r, v| r.opaque_cloud = v },
    Field { name: "Dry-bulb", factor: 1.0, limits: DEGREES, set: |r, v| r.dry_bulb = v },
    Field { name: "Dew-point", factor: 1.0, limits: DEGREES, set: |r, v| r.dew_point = v },
    Field { name: "RHum", factor: 1.0, limits: PERCENT, set: |r, v| r.humidity = v.map(|percent| percent / 100.0) },
    Field { name: "Pressure", factor: MILLIBAR, limits: PRESSURE, set: |r, v| r.pressure = v },
    Field { name: "Wspd", factor: 1.0, limits: WIND, set: |r, v| r.wind = v },
    Field { name: "Alb", factor: 1.0, limits: ANY, set: |r, v| r.albedo = v },
];

pub(super) fn read(name: &str, bytes: &[u8]) -> Result<Raw, ClimateError> {
    let mut reader = ReaderBuilder::new().has_headers(false).flexible(true).from_reader(bytes);
    let mut record = ByteRecord::new();
    next_record(&mut reader, &mut record)?;
    let header = station(&record)?;
    next_record(&mut reader, &mut record)?;
    let columns = columns(&record)?;
    let mut year = Year::new();
    while next_record(&mut reader, &mut record)? {
        let line = record.position().map_or(0, csv::Position::line);
        let reading = reading(line, &record, &columns)?;
        year.place(stamp(line, &record, &columns)?, reading)?;
    }
    year.finish(header.station(name)?)
}

/// `USAF,"NAME",ST,tz,lat,lon,elevation`.
fn station(record: &ByteRecord) -> Result<Header, ClimateError> {
    let field = |index: usize| record.get(index).unwrap_or_default();
    let value = |index: usize, column: &'static str| {
        let text = || ClimateError::Header { line: 1, column, text: latin1(field(index)) };
        number(1, column, field(index)).ok().flatten().ok_or_else(text)
    };
    Ok(Header {
        name: format!("{}, {}", latin1(field(1)), latin1(field(2))),
        utc_offset: value(3, "time zone")?,
        latitude: value(4, "latitude")?,
        longitude: value(5, "longitude")?,
        altitude: value(6, "elevation")?,
        format: Format::Tmy3,
    })
}

fn columns(record: &ByteRecord) -> Result<Columns, ClimateError> {
    let names: Vec<String> = record.iter().map(|field| bare_name(&latin1(field))).collect();
    let find = |name: &str| names.iter().position(|have| have.eq_ignore_ascii_case(name));
    let need = |column: &'static str| find(column).ok_or(ClimateError::MissingColumn { column });
    Ok(Columns { date: need("Date")?, time: need("Time")?, fields: FIELDS.map(|field| find(field.name)) })
}

/// A column's name without its unit.
fn bare_name(name: &str) -> String {
    name.split('(').next().unwrap_or_default().trim().to_owned()
}

fn reading(line: u64, record: &ByteRecord, columns: &Columns) -> Result<Reading, ClimateError> {
    let mut reading = Reading::default();
    for (field, position) in FIELDS.iter().zip(columns.fields) {
        let Some(position) = position else { continue };
        let bytes = record.get(position).ok_or(ClimateError::ShortLine { line, column: field.name })?;
        let value = number(line, field.name, bytes)?.filter(|value| *value > MISSING).map(|value| value * field.factor);
        (field.set)(&mut reading, field.limits.check(line, field.name, value)?);
    }
    Ok(reading)
}

/// `MM/DD/YYYY` and `HH:00`, 24:00 or 00:00 for midnight.
fn stamp(line: u64, record: &ByteRecord, columns: &Columns) -> Result<Stamp, ClimateError> {
    let date = record.get(columns.date).ok_or(ClimateError::ShortLine { line, column: "Date" })?;
    let time = record.get(columns.time).ok_or(ClimateError::ShortLine { line, column: "Time" })?;
    let parsed = || {
        let mut parts = date.split(|byte| *byte == b'/');
        let (month, day, year) = (whole(parts.next()?)?, whole(parts.next()?)?, whole(parts.next()?)?);
        let mut parts = time.split(|byte| *byte == b':');
        let (hour, minute): (u8, u8) = (whole(parts.next()?)?, whole(parts.next()?)?);
        (minute == 0).then_some(Stamp { line, year, month, day, hour })
    };
    parsed().ok_or_else(|| ClimateError::Time { line, text: format!("{} {}", latin1(date), latin1(time)) })
}
