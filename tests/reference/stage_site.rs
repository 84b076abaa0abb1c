//! The site stage's verdicts: what the file, the spot and the local code decide.

use crate::support::{verdict, workbook};

fn site(entries: &str) -> String {
    format!("[site]\nweather_file = \"carried:greensboro-tmy3\"\nazimuth = \"1°\"\n{entries}\n")
}

/// The coldest hour of the Greensboro file is −16.7 °C (its own column); the record is colder (−22 °C, from memory).
#[test]
fn a_record_low_is_colder_than_the_typical_year() {
    let judged = |low: &str| verdict(&workbook(&site(&format!("record_low = \"{low}\""))), "site.record-low");
    assert_eq!(judged("-22 °C"), "clear");
    assert_eq!(judged("-10 °C"), "caution");
    assert_eq!(verdict(&workbook(&site("")), "site.record-low"), "unknown");
}

#[test]
fn wind_and_snow_come_from_the_local_code_or_stay_unknown() {
    let judged = |entries: &str| verdict(&workbook(&site(entries)), "site.local-loads");
    assert_eq!(judged("wind_speed = \"115 mph\""), "unknown");
    assert_eq!(judged("wind_speed = \"115 mph\"\nsnow_load = \"15 psf\""), "clear");
}

#[test]
fn a_bearing_is_compared_across_north() {
    let judged = |found: &str| {
        let reading = format!("[reading.\"site.measured_azimuth\".2026-05-01-1]\nvalue = \"{found}\"\n");
        verdict(&workbook(&site(&reading)), "site.bearing")
    };
    assert_eq!(judged("357°"), "clear");
    assert_eq!(judged("6°"), "clear");
    assert_eq!(judged("350°"), "caution");
    assert_eq!(judged("330°"), "stop");
    assert_eq!(verdict(&workbook(&site("")), "site.bearing"), "unknown");
}

#[test]
fn water_for_others_asks_for_the_authority() {
    let judged = |entries: &str| verdict(&workbook(&site(entries)), "site.public-water");
    assert_eq!(judged("premises = \"household\""), "clear");
    assert_eq!(judged("premises = \"workplace\""), "caution");
    assert_eq!(judged(""), "unknown");
}
