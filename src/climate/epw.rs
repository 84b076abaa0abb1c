//! EPW: eight header lines and 8760 rows of 35 comma-separated fields.
//!
//! At or above a field's code a value counts as missing. Bytes are read as Latin-1: encodings differ.

use csv::{ByteRecord, ReaderBuilder};

use super::ClimateError;
use super::raw::{
    ANY, DEGREES, Format, Header, IRRADIANCE, Limits, PERCENT, PRESSURE, Raw, Reading, Stamp, TENTHS, WIND, Year,
    latin1, next_record, number, whole,
};

/// First field of the last header line.
const LAST_HEADER: &[u8] = b"DATA PERIODS";

/// A field of the rows, counted from 1.
struct Field {
    name: &'static str,
    position: usize,
    missing: f64,
    limits: Limits,
    set: fn(&mut Reading, Option<f64>),
}

#[rustfmt::skip]
const FIELDS: [Field; 11] = [
    Field { name: "dry bulb (field 7)", position: 7, missing: 99.9, limits: DEGREES, set: |r, v| r.dry_bulb = v },
    Field { name: "dew point (field 8)", position: 8, missing: 99.9, limits: DEGREES, set: |r, v| r.dew_point = v },
    Field { name: "humidity (field 9)", position: 9, missing: 999.0, limits: PERCENT, set: |r, v| r.humidity = v.map(|percent| percent / 100.0) },
    Field { name: "pressure (field 10)", position: 10, missing: 999_999.0, limits: PRESSURE, set: |r, v| r.pressure = v },
    Field { name: "infrared (field 13)", position: 13, missing: 9999.0, limits: IRRADIANCE, set: |r, v| r.infrared = v },
    Field { name: "global irradiance (field 14)", position: 14, missing: 9999.0, limits: IRRADIANCE, set: |r, v| r.global = v },
    Field { name: "beam irradiance (field 15)", position: 15, missing: 9999.0, limits: IRRADIANCE, set: |r, v| r.beam_normal = v },
    Field { name: "diffuse irradiance (field 16)", position: 16, missing: 9999.0, limits: IRRADIANCE, set: |r, v| r.diffuse = v },
    Field { name: "wind speed (field 22)", position: 22, missing: 999.0, limits: WIND, set: |r, v| r.wind = v },
    Field { name: "opaque cloud (field 24)", position: 24, missing: 99.0, limits: TENTHS, set: |r, v| r.opaque_cloud = v },
    Field { name: "albedo (field 33)", position: 33, missing: 999.0, limits: ANY, set: |r, v| r.albedo = v },
];

/// Fields up to which a row must reach; the albedo came later to the format and may be absent.
const LEAST_FIELDS: usize = 24;

pub(super) fn read(name: &str, bytes: &[u8]) -> Result<Raw, ClimateError> {
    let mut reader = ReaderBuilder::new().has_headers(false).flexible(true).quoting(false).from_reader(bytes);
    let mut record = ByteRecord::new();
    next_record(&mut reader, &mut record)?;
    let header = station(&record)?;
    while next_record(&mut reader, &mut record)? && !is_last_header(&record) {}
    let mut year = Year::new();
    while next_record(&mut reader, &mut record)? {
        let line = record.position().map_or(0, csv::Position::line);
        let stamp = stamp(line, &record)?;
        year.place(stamp, reading(line, &record)?)?;
    }
    year.finish(header.station(name)?)
}

fn is_last_header(record: &ByteRecord) -> bool {
    record.get(0).is_some_and(|field| field.trim_ascii().eq_ignore_ascii_case(LAST_HEADER))
}

/// `LOCATION,city,state,country,source,WMO,lat,lon,tz,elevation`.
fn station(record: &ByteRecord) -> Result<Header, ClimateError> {
    let field = |index: usize| record.get(index).unwrap_or_default();
    let value = |index: usize, column: &'static str| {
        let text = || ClimateError::Header { line: 1, column, text: latin1(field(index)) };
        number(1, column, field(index)).ok().flatten().ok_or_else(text)
    };
    let names: Vec<String> = [1, 2, 3].into_iter().map(|index| latin1(field(index))).collect();
    let named: Vec<&str> = names.iter().map(String::as_str).filter(|name| !matches!(*name, "" | "-")).collect();
    Ok(Header {
        name: named.join(", "),
        latitude: value(6, "latitude")?,
        longitude: value(7, "longitude")?,
        utc_offset: value(8, "time zone")?,
        altitude: value(9, "elevation")?,
        format: Format::Epw,
    })
}

/// Year, month, day, hour in fields 1 to 4; the minute (0 or 60) says nothing.
fn stamp(line: u64, record: &ByteRecord) -> Result<Stamp, ClimateError> {
    let parsed = || {
        let year = whole(record.get(0)?)?;
        let (month, day, hour) = (whole(record.get(1)?)?, whole(record.get(2)?)?, whole(record.get(3)?)?);
        Some(Stamp { line, year, month, day, hour })
    };
    parsed().ok_or_else(|| {
        let text: Vec<String> = record.iter().take(4).map(latin1).collect();
        ClimateError::Time { line, text: text.join(",") }
    })
}

fn reading(line: u64, record: &ByteRecord) -> Result<Reading, ClimateError> {
    let mut reading = Reading::default();
    for field in &FIELDS {
        let bytes = match record.get(field.position - 1) {
            Some(bytes) => bytes,
            None if field.position > LEAST_FIELDS => continue,
            None => return Err(ClimateError::ShortLine { line, column: field.name }),
        };
        let given = number(line, field.name, bytes)?.filter(|value| *value < field.missing && *value > -900.0);
        (field.set)(&mut reading, field.limits.check(line, field.name, given)?);
    }
    Ok(reading)
}
