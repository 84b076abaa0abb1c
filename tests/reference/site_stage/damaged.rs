//! Weather files as they come from the world: each a clear error or an honest warning, never a silent number.
//!
//! The project must open with every one of them, and say what its figures rest on.

use std::path::Path;

use sunharp::model::{Address, Verdict};
use sunharp::workbook::Workbook;

use super::super::site::weather;
use super::{GREENSBORO, number, open, open_in, part, text, verdict};

fn lines() -> Vec<String> {
    std::str::from_utf8(weather("greensboro")).unwrap().lines().map(str::to_owned).collect()
}

/// A project whose weather file holds these bytes.
fn with(bytes: &[u8]) -> Workbook {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("weather.csv"), bytes).unwrap();
    open_in(folder.path(), &GREENSBORO.replace("carried:greensboro-tmy3", "weather.csv"))
}

/// What the project says after the file could not be used: it rests on a clear sky, labelled, with the reason.
#[track_caller]
fn refused(bytes: &[u8], words: &str) {
    let workbook = with(bytes);
    assert_eq!(text(&workbook, "site.rests_on"), "clear sky: an upper bound, not a yield");
    assert_eq!(verdict(&workbook, "site.weather-basis"), Verdict::Caution);
    let part = part(&workbook, "site.weather-basis");
    assert!(part.contains("weather.csv") && part.contains(words), "{part}");
    assert!(workbook.evaluation().value(&Address::drawn("site.air_mean")).is_err());
}

#[test]
fn a_truncated_file_names_the_first_hour_that_is_missing() {
    let all = lines();
    refused(all[..5000].join("\n").as_bytes(), "hours have no row");
    let whole = all.join("\n");
    refused(&whole.as_bytes()[..whole.len() / 2], "");
}

#[test]
fn a_shuffled_file_is_the_same_file() {
    let mut all = lines();
    all[2..].sort_by_key(|line| line.bytes().map(u64::from).fold(7, |hash, byte| hash * 31 % 1_000_003 + byte));
    let workbook = with(all.join("\n").as_bytes());
    assert_eq!(text(&workbook, "site.rests_on"), "hourly weather file");
    let ratio = number(&workbook, "site.plane_year") / number(&open(GREENSBORO), "site.plane_year");
    assert!((ratio - 1.0).abs() < 1e-12);
}

#[test]
fn a_missing_column_is_named() {
    let all: Vec<String> = lines();
    let column = all[1].split(',').position(|name| name.starts_with("Dry-bulb")).unwrap();
    let without = |line: &String| {
        let fields = line.split(',').enumerate().filter(|(index, _)| *index != column);
        fields.map(|(_, field)| field).collect::<Vec<_>>().join(",")
    };
    let cut: Vec<String> = all[..1].iter().cloned().chain(all[1..].iter().map(without)).collect();
    refused(cut.join("\n").as_bytes(), "dry bulb");
}

#[test]
fn one_row_too_many_is_named_with_its_line() {
    let mut all = lines();
    let last = all.last().unwrap().clone();
    all.push(last);
    refused(all.join("\n").as_bytes(), "a second row for Dec 31");
}

#[test]
fn words_and_infinities_where_numbers_belong_name_line_and_column() {
    for word in ["NaN", "inf", "-inf", "1e999", "wet", "12,5"] {
        let mut all = lines();
        let mut fields: Vec<&str> = all[100].split(',').collect();
        fields[2] = word;
        all[100] = fields.join(",");
        refused(all.join("\n").as_bytes(), "line 101");
    }
}

#[test]
fn a_wrong_delimiter_is_named() {
    refused(lines().join("\n").replace(',', ";").as_bytes(), "parted by semicolons");
    refused(lines().join("\n").replace(',', "\t").as_bytes(), "parted by tabs");
}

#[test]
fn packed_bytes_noise_and_nothing_are_no_weather_file() {
    refused(b"\x1f\x8b\x08\x00\x00\x00\x00\x00\x00\x03", "no weather file of a known kind");
    refused(b"", "no weather file of a known kind");
    refused("\u{1b}[2J\u{202e}".as_bytes(), "no weather file of a known kind");
    // Five megabytes of bytes from a linear congruence, with line breaks and commas among them.
    let mut state = 1_u32;
    let noise: Vec<u8> = std::iter::repeat_with(|| {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        state.to_be_bytes()[0]
    })
    .take(5_000_000)
    .collect();
    refused(&noise, "no weather file of a known kind");
    let mut headed = lines()[..2].join("\n").into_bytes();
    headed.push(b'\n');
    headed.extend(&noise);
    refused(&headed, "line 3");
}

#[test]
fn a_file_that_is_another_than_the_project_was_made_with_is_not_used() {
    let checksum = "0".repeat(64);
    let workbook = with(weather("greensboro"));
    assert_eq!(text(&workbook, "site.rests_on"), "hourly weather file");
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("weather.csv"), weather("greensboro")).unwrap();
    let site = GREENSBORO.replace("carried:greensboro-tmy3", "weather.csv");
    let workbook = open_in(folder.path(), &format!("{site}\nweather_sha256 = \"{checksum}\""));
    assert_eq!(verdict(&workbook, "site.weather-basis"), Verdict::Caution);
    assert!(part(&workbook, "site.weather-basis").contains("checksum"));
}

#[test]
fn a_file_that_comes_back_is_used_at_the_next_edit() {
    let folder = tempfile::tempdir().unwrap();
    let mut workbook = open_in(folder.path(), &GREENSBORO.replace("carried:greensboro-tmy3", "weather.csv"));
    assert!(part(&workbook, "site.weather-basis").contains("weather.csv"));
    std::fs::write(folder.path().join("weather.csv"), weather("greensboro")).unwrap();
    workbook.set("site.tilt", "40°").unwrap();
    assert_eq!(text(&workbook, "site.rests_on"), "hourly weather file");
    assert!(Path::new(workbook.path()).starts_with(folder.path()));
}

#[test]
fn a_clock_shift_that_cannot_be_read_makes_the_sky_unknown() {
    let workbook = open(&format!("{GREENSBORO}\nclock_shift = \"soon\""));
    assert_eq!(verdict(&workbook, "site.weather-basis"), Verdict::Unknown);
}
