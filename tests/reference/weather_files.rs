//! Traps of the weather formats: each on the real files with one thing changed.
//!
//! Formats: Users Manual for TMY3 Data Sets (NREL/TP-581-43156), NREL TMY2 manual section 3, the public definition of
//! EPW.

#![allow(clippy::expect_used, clippy::unwrap_used, clippy::panic, reason = "helpers of tests fail by panicking")]

use proptest::prelude::*;
use sunharp::climate::{Climate, ClimateError, Format, HourOfYear, Plane, Warning};
use sunharp::physics::transposition::SkyModel;
use sunharp::units::si::{Angle, Dimension, ZERO_CELSIUS, in_celsius};

use super::site::{climate, weather};

/// Lines of the Greensboro file.
fn lines() -> Vec<String> {
    weather("greensboro").split(|byte| *byte == b'\n').map(|line| String::from_utf8_lossy(line).into_owned()).collect()
}

fn read(lines: &[String]) -> Result<Climate, ClimateError> {
    Climate::from_bytes("changed", lines.join("\n").as_bytes())
}

/// A row of the Greensboro file with one field changed; fields count from 0.
fn with_field(line: usize, field: usize, text: &str) -> Vec<String> {
    let mut all = lines();
    let mut fields: Vec<&str> = all[line].split(',').collect();
    fields[field] = text;
    all[line] = fields.join(",");
    all
}

fn year_total(climate: &Climate, tilt: f64, azimuth: f64) -> f64 {
    let (tilt, azimuth) = (Angle::from_si(tilt.to_radians()), Angle::from_si(azimuth.to_radians()));
    climate.plane(&Plane { tilt, azimuth, albedo: 0.2.into() }, SkyModel::HayDavies).year_total().si() / 3.6e6
}

/// The Greensboro year written as EPW, with the codes for what is missing.
fn epw() -> Vec<u8> {
    let greensboro = climate("greensboro");
    let mut text = b"LOCATION,Pi\xE9mont,NC,USA,TMY3,723170,36.1,-79.95,-5.0,273.0\r\n".to_vec();
    for header in [
        "DESIGN CONDITIONS,0",
        "TYPICAL/EXTREME PERIODS,0",
        "GROUND TEMPERATURES,0",
        "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0",
        "COMMENTS 1,",
        "COMMENTS 2,",
        "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31",
    ] {
        text.extend(format!("{header}\r\n").into_bytes());
    }
    for (line, at) in lines()[2..].iter().zip(HourOfYear::all()) {
        let (hour, (month, day)) = (greensboro.hours()[at.index()], at.date());
        let light = hour.sunlight;
        let row = format!(
            "{},{month},{day},{},{},?9,{:.1},{:.1},999,999999,9999,9999,9999,{},{},{},999999,999999,999999,9999,999,\
             {:.1},99,99,9999,99999,9,999999999,999,0.999,999,99,999,999,99\r\n",
            &line[6..10],
            at.index() % 24 + 1,
            if at.index() % 2 == 0 { 60 } else { 0 },
            hour.dry_bulb - ZERO_CELSIUS,
            hour.dew_point.unwrap_or(ZERO_CELSIUS) - ZERO_CELSIUS,
            light.global,
            light.beam_normal,
            light.diffuse,
            hour.wind,
        );
        text.extend(row.into_bytes());
    }
    text
}

#[test]
fn byte_order_mark_and_carriage_returns_change_nothing() {
    let mut text = b"\xEF\xBB\xBF".to_vec();
    text.extend(lines().join("\r\n").into_bytes());
    let read = Climate::from_bytes("greensboro", &text).unwrap();
    assert_eq!(read.hours(), climate("greensboro").hours());
    assert_eq!(read.station(), climate("greensboro").station());
}

#[test]
fn midnight_as_the_next_days_zero_hour_is_hour_twenty_four() {
    let mut all = lines();
    for index in 2..8762 {
        if let Some((date, rest)) = all[index].clone().split_once(",24:00,") {
            let next = all.get(index + 1).filter(|line| line.starts_with(&date[..2]));
            let date = match (next, &date[..2]) {
                (Some(line), _) => line[..10].to_owned(),
                (None, "12") => format!("01/01/{}", date[6..].parse::<i32>().unwrap() + 1),
                (None, month) => format!("{:02}/01/{}", month.parse::<u8>().unwrap() + 1, &date[6..]),
            };
            all[index] = format!("{date},00:00,{rest}");
        }
    }
    assert_eq!(read(&all).unwrap().hours(), climate("greensboro").hours());
}

#[test]
fn columns_are_found_by_name_in_any_order() {
    let turned: Vec<String> = lines()
        .iter()
        .enumerate()
        .map(|(index, line)| match index {
            0 => line.clone(),
            _ => line.split(',').rev().collect::<Vec<_>>().join(","),
        })
        .collect();
    assert_eq!(read(&turned).unwrap().hours(), climate("greensboro").hours());
}

#[test]
fn order_of_rows_does_not_matter_and_blank_lines_are_skipped() {
    let mut all = lines();
    all[2..8762].reverse();
    all.push(String::new());
    all.push(String::new());
    assert_eq!(read(&all).unwrap().hours(), climate("greensboro").hours());
}

#[test]
fn rows_of_a_leap_day_are_left_out_and_told() {
    let mut all = lines();
    let leap: Vec<String> =
        (1..=24).map(|hour| all[2].replace("01/01/1988,01", &format!("02/29/1988,{hour:02}"))).collect();
    all.splice(2 + 59 * 24..2 + 59 * 24, leap);
    let read = read(&all).unwrap();
    assert_eq!(read.hours(), climate("greensboro").hours());
    assert!(read.audit().warnings.contains(&Warning::LeapDay { rows: 24 }));
}

#[test]
fn a_gap_is_filled_between_its_neighbours_and_told() {
    let read = read(&with_field(3, 6, "-9900")).unwrap();
    let kelvin = |index: usize| read.hours()[index].dry_bulb;
    assert!((kelvin(1) - f64::midpoint(kelvin(0), kelvin(2))).abs() < 1e-9);
    assert!(read.audit().warnings.contains(&Warning::Filled { column: "dry bulb", hours: 1 }));
}

#[test]
fn missing_sunlight_is_taken_from_the_day_before() {
    let line = 2 + 5 * 24 + 12;
    let mut all = lines();
    let mut fields: Vec<&str> = all[line].split(',').collect();
    fields[2..5].fill("-9900");
    all[line] = fields.join(",");
    let read = read(&all).unwrap();
    let global = |index: usize| read.hours()[index].sunlight.global;
    assert!((global(line - 2) - global(line - 2 - 24)).abs() < 1e-9);
    assert!(read.audit().warnings.contains(&Warning::Filled { column: "irradiance", hours: 1 }));
}

/// Annual effect of Erbs' split in place of the file's beam and diffuse, computed with pvlib: −1.4 % on 45° south,
/// −4.4 % on a south-west wall.
#[test]
fn a_file_with_global_irradiance_alone_is_split_by_erbs() {
    let reduced: Vec<String> = lines()
        .iter()
        .enumerate()
        .map(|(index, line)| match (index, line.split(',').collect::<Vec<_>>()) {
            (0, _) => line.clone(),
            (_, fields) if fields.len() < 5 => line.clone(),
            (_, fields) => [&fields[..3], &fields[5..]].concat().join(","),
        })
        .collect();
    let (whole, split) = (climate("greensboro"), read(&reduced).unwrap());
    for (tilt, azimuth, change) in [(45.0, 180.0, -0.014), (90.0, 225.0, -0.044)] {
        let got = year_total(&split, tilt, azimuth) / year_total(whole, tilt, azimuth) - 1.0;
        assert!((got - change).abs() < 0.001, "{tilt}/{azimuth}: {got}");
    }
    assert!(split.audit().warnings.contains(&Warning::SplitByModel { hours: 8760 }));
    assert!(split.audit().clock.unwrap().shift_minutes.abs() < 15.0);
}

#[test]
fn an_albedo_of_zero_means_not_given() {
    assert_eq!(climate("greensboro").albedo(), None);
    let sand_point = climate("sandpoint").albedo().unwrap();
    assert!(sand_point.iter().all(|albedo| (0.1099..=0.2501).contains(albedo)));
}

/// Closure residuals found with a script of its own: Greensboro 1.0 W/m², Sand Point 0.5, Miami 8.9, all at no shift.
#[test]
fn the_clocks_of_the_published_files_are_right() {
    for (name, residual) in [("greensboro", 1.0), ("sandpoint", 0.5), ("miami", 8.9)] {
        let check = climate(name).audit().clock.unwrap();
        assert!(check.shift_minutes.abs() <= 3.0);
        assert!((check.residual_at_shift.unwrap() - residual).abs() < 0.06, "{name}: {check:?}");
    }
}

#[test]
fn a_clock_that_is_wrong_is_found_and_put_right() {
    let wrong = Climate::with_clock_shift("late", weather("greensboro"), 40.0).unwrap();
    let check = wrong.audit().clock.unwrap();
    assert!((check.shift_minutes + 40.0).abs() <= 3.0, "{check:?}");
    assert!(wrong.audit().warnings.iter().any(|warning| matches!(warning, Warning::Clock { .. })));
    // Headers that claim another zone are the commonest cause.
    let mut all = lines();
    all[0] = all[0].replace(",-5.0,", ",-6.0,");
    let zoned = read(&all).unwrap().audit().clock.unwrap();
    assert!((zoned.shift_minutes + 60.0).abs() <= 3.0, "{zoned:?}");
}

#[test]
fn the_same_year_as_epw_gives_the_same_sun_and_light() {
    let text = epw();
    let read = Climate::from_bytes("greensboro.epw", &text).unwrap();
    assert_eq!(read.station().format, Format::Epw);
    assert_eq!(read.station().name, "Piémont, NC, USA");
    for (ours, theirs) in read.hours().iter().zip(climate("greensboro").hours()) {
        assert_eq!(ours.sunlight, theirs.sunlight);
        assert!((ours.dry_bulb - theirs.dry_bulb).abs() < 1e-9 && (ours.wind - theirs.wind).abs() < 1e-9);
        assert_eq!((ours.infrared, ours.opaque_cloud), (None, None));
    }
    assert!(read.audit().warnings.contains(&Warning::PressureFromAltitude));
    assert_eq!(read.albedo(), None);
}

#[test]
fn tmy2_headers_are_cut_by_position() {
    let miami = climate("miami").station();
    assert_eq!((miami.name.as_str(), miami.format), ("MIAMI, FL", Format::Tmy2));
    assert!((miami.place.latitude.si().to_degrees() - 25.8).abs() < 1e-9);
    assert!((miami.place.longitude.si().to_degrees() + (80.0 + 16.0 / 60.0)).abs() < 1e-9);
    let mut text = weather("miami").to_vec();
    text[7..29].copy_from_slice(b"WEST PALM BEACH       ");
    let read = Climate::from_bytes("two words", &text).unwrap();
    assert_eq!(read.station().name, "WEST PALM BEACH, FL");
    let (coldest, hottest) = (in_celsius(read.lowest_temperature()), in_celsius(read.highest_temperature()));
    assert!(coldest > 0.0 && coldest < 5.0 && hottest > 30.0 && hottest < 36.0, "{coldest} {hottest}");
}

#[test]
fn tmy2_codes_for_missing_values_are_no_weather() {
    let mut text = weather("miami").to_vec();
    let row = text.iter().position(|byte| *byte == b'\n').unwrap() + 1;
    text[row + 67..row + 71].copy_from_slice(b"9999");
    let read = Climate::from_bytes("gap", &text).unwrap();
    assert!(read.audit().warnings.contains(&Warning::Filled { column: "dry bulb", hours: 1 }));
    assert!(in_celsius(read.highest_temperature()) < 36.0);
}

#[test]
fn errors_name_the_line_and_the_column() {
    let value = read(&with_field(41, 6, "warm")).unwrap_err();
    assert_eq!(value, ClimateError::Value { line: 42, column: "Dry-bulb", text: "warm".to_owned() });
    assert_eq!(value.to_string(), "line 42, Dry-bulb: \"warm\" cannot be read");
    let range = read(&with_field(41, 10, "400")).unwrap_err();
    assert_eq!(range, ClimateError::Value { line: 42, column: "Wspd", text: "400".to_owned() });
    let nan = read(&with_field(41, 2, "NaN")).unwrap_err();
    assert_eq!(nan, ClimateError::Value { line: 42, column: "GHI", text: "NaN".to_owned() });
    let time = read(&with_field(41, 1, "16:30")).unwrap_err();
    assert!(matches!(time, ClimateError::Time { line: 42, .. }));
    let date = read(&with_field(41, 0, "13/02/1988")).unwrap_err();
    assert!(matches!(date, ClimateError::Time { line: 42, .. }));
    let twice = read(&with_field(41, 1, "15:00")).unwrap_err();
    assert!(matches!(twice, ClimateError::Duplicate { line: 42, .. }), "{twice}");
}

#[test]
fn a_file_that_is_not_whole_is_an_error() {
    let mut all = lines();
    all.remove(100);
    assert!(matches!(read(&all), Err(ClimateError::Incomplete { missing: 1, .. })));
    let mut short = lines();
    short[50] = "01/03/1988,01:00,0,0".to_owned();
    assert!(matches!(read(&short), Err(ClimateError::ShortLine { line: 51, column: "DHI" })));
    let mut header = lines();
    header[0] = header[0].replace("36.100", "north");
    assert!(matches!(read(&header), Err(ClimateError::Header { line: 1, column: "latitude", .. })));
    header[0] = header[0].replace("north", "96.1");
    assert!(matches!(read(&header), Err(ClimateError::Header { line: 1, column: "latitude", .. })));
    let mut nameless = lines();
    nameless[1] = nameless[1].replace("Wspd", "Windspeed");
    assert_eq!(read(&nameless), Err(ClimateError::MissingColumn { column: "wind speed" }));
    let unknown = Climate::from_bytes("recipe.txt", b"flour,eggs\nmilk\n");
    assert_eq!(unknown, Err(ClimateError::UnknownFormat { name: "recipe.txt".to_owned() }));
    assert!(Climate::from_bytes("empty", b"").is_err());
}

/// One change to a file: overwrite a byte, drop bytes, or cut the end.
fn damage(text: &mut Vec<u8>, at: prop::sample::Index, byte: u8, kind: u8) {
    if text.is_empty() {
        return;
    }
    let at = at.index(text.len());
    match kind % 4 {
        0 => text.truncate(at),
        1 => drop(text.drain(at..(at + 200).min(text.len()))),
        2 => text.insert(at, byte),
        _ => text[at] = byte,
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever happens to a file, reading it gives a climate or an error.
    #[test]
    fn damaged_files_never_panic(
        which in 0..3usize,
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>(), any::<u8>()), 1..4),
    ) {
        let mut text = match which {
            0 => weather("greensboro").to_vec(),
            1 => weather("miami").to_vec(),
            _ => epw(),
        };
        for (at, byte, kind) in changes {
            damage(&mut text, at, byte, kind);
        }
        if let Ok(climate) = Climate::from_bytes("damaged", &text) {
            prop_assert!(year_total(&climate, 45.0, 180.0).is_finite());
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    /// Damage to the headers and the first rows, where every byte matters.
    #[test]
    fn damaged_headers_never_panic(
        which in 0..3usize,
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>(), any::<u8>()), 1..6),
    ) {
        let mut text = match which {
            0 => weather("greensboro")[..900].to_vec(),
            1 => weather("miami")[..900].to_vec(),
            _ => b"LOCATION,A,B,C,D,1,36,-80,-5,273\nDATA PERIODS,1\n2001,1,1,1,60,?,1,1,50,99000,0,0,300,0,0,0\n".to_vec(),
        };
        for (at, byte, kind) in changes {
            damage(&mut text, at, byte, kind);
        }
        prop_assert!(Climate::from_bytes("damaged", &text).is_err());
    }
}
