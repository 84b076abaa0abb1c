//! Entries of the site that are kept in rows or worked out from others.

use std::path::Path;

use sunharp::model::{Address, Verdict};
use sunharp::project::Project;
use sunharp::units::si::{Dimension, celsius};

use super::{GREENSBORO, degrees, number, open, text, verdict};

#[test]
fn keys_with_points_and_degree_signs_are_set_read_and_taken_out() {
    let mut workbook = open(GREENSBORO);
    let before = workbook.text().to_owned();
    workbook.set("site.horizon.112.5°", "7°").unwrap();
    assert!(workbook.text().contains("[site.horizon]\n\"112.5°\" = \"7°\"\n"), "{}", workbook.text());
    workbook.set("site.horizon.90°", "3°").unwrap();
    workbook.set("site.horizon.112.5°", "8°").unwrap();
    let rows: Vec<String> = workbook
        .evaluation()
        .rows()
        .into_iter()
        .map(|row| row.address.id)
        .filter(|id| id.contains("horizon."))
        .collect();
    assert_eq!(rows, ["site.horizon.90°", "site.horizon.112.5°"]);
    assert_eq!(text(&workbook, "site.horizon.112.5°"), "8.0°");
    workbook.unset("site.horizon.112.5°").unwrap();
    for _ in 0..4 {
        workbook.undo().unwrap();
    }
    assert_eq!(workbook.text(), before);
}

#[test]
fn keys_that_are_no_bearing_or_no_month_are_reported() {
    let read = |lines: &str| Project::read(&format!("format = 1\n{lines}\n")).problems.len();
    assert_eq!(read("[site.horizon]\n\"112.5°\" = \"7°\"\n'S' = \"7°\""), 1);
    assert_eq!(read("[site.horizon]\n112.5 = \"7°\""), 1);
    assert_eq!(read("[site.horizon]\n\"90\" = \"7°\""), 1);
    assert_eq!(read("[site.monthly.12]\nsun = \"1 kWh/m2\"\n[site.monthly.13]\nsun = \"1 kWh/m2\""), 1);
    assert_eq!(read("[site.monthly.01]\nair = \"1 °C\""), 1);
    assert_eq!(read("[variant.hill]\n\"site.horizon.112.5°\" = \"20°\""), 0);
}

#[test]
fn two_heights_at_one_bearing_make_the_sun_unknown() {
    let mut workbook = open(GREENSBORO);
    workbook.set("site.horizon.90°", "3°").unwrap();
    workbook.set("site.horizon.90.0°", "4°").unwrap();
    let why = workbook.evaluation().value(&Address::drawn("site.plane_year")).unwrap_err();
    assert!(why.to_string().contains("two elevations"), "{why}");
    assert_eq!(verdict(&workbook, "site.horizon-loss"), Verdict::Unknown);
}

#[test]
fn a_compass_bearing_counts_with_its_declination() {
    let mut workbook = open(&GREENSBORO.replace("azimuth = \"180°\"", "magnetic_azimuth = \"355°\""));
    let why = workbook.evaluation().value(&Address::drawn("site.azimuth_used")).unwrap_err();
    assert!(why.to_string().contains("site.declination"), "{why}");
    workbook.set("site.declination", "11.5°").unwrap();
    assert!((number(&workbook, "site.azimuth_used") - degrees(6.5).si()).abs() < 1e-9);
    workbook.set("site.azimuth", "182°").unwrap();
    assert!((number(&workbook, "site.azimuth_used") - degrees(182.0).si()).abs() < 1e-9);
    workbook.set("site.roof_slope", "4/12").unwrap();
    assert!(
        (number(&workbook, "site.rack_angle").to_degrees() - (45.0 - (4.0_f64 / 12.0).atan().to_degrees())).abs()
            < 1e-9
    );
}

#[test]
fn twelve_means_are_one_change_and_are_printed_in_the_order_of_the_year() {
    let mut workbook = open(GREENSBORO);
    let before = workbook.text().to_owned();
    workbook.keep_monthly_summary().unwrap();
    let lines = workbook.text().lines().filter(|line| line.starts_with("sun = ") || line.starts_with("air = ")).count();
    assert_eq!(lines, 24);
    let headers: Vec<&str> = workbook.text().lines().filter(|line| line.starts_with("[site.monthly.")).collect();
    assert_eq!((headers[1], headers[11]), ("[site.monthly.2]", "[site.monthly.12]"));
    assert!(workbook.project().problems.is_empty());
    workbook.undo().unwrap();
    assert_eq!(workbook.text(), before);
    workbook.unset("site.weather_file").unwrap();
    assert!(workbook.keep_monthly_summary().is_err());
}

#[test]
fn measured_mains_and_a_well_replace_the_computed_ones() {
    let mut workbook = open(GREENSBORO);
    let computed = number(&workbook, "site.mains_coldest");
    workbook.set("site.water_source", "well").unwrap();
    let well = number(&workbook, "site.mains_month.1");
    assert!((well - number(&workbook, "site.air_mean") - 1.5).abs() < 1e-9 && well > computed);
    workbook.set("site.monthly.1.mains", "3 °C").unwrap();
    let why = workbook.evaluation().value(&Address::drawn("site.mains_coldest")).unwrap_err();
    assert!(why.to_string().contains("site.monthly.2.mains"), "{why}");
    for month in 2..=12 {
        workbook.set(&format!("site.monthly.{month}.mains"), "9 °C").unwrap();
    }
    assert!((number(&workbook, "site.mains_coldest") - celsius(3.0).si()).abs() < 1e-9);
}

#[test]
fn snow_on_the_ground_lights_a_steep_plane_in_its_month_only() {
    let mut workbook = open(GREENSBORO);
    let month = |workbook: &_, month: usize| number(workbook, &format!("site.plane_month.{month}"));
    let (january, june) = (month(&workbook, 1), month(&workbook, 6));
    workbook.set("site.monthly.1.albedo", "70 %").unwrap();
    assert!(month(&workbook, 1) > january);
    assert!((month(&workbook, 6) - june).abs() < 1e-6);
}

/// Classes of hardness, chloride and pH as in the checks' own sources, all from memory.
#[test]
fn water_is_judged_by_what_it_meets() {
    let mut workbook = open("water_hardness = \"11 gpg\"\nwater_chloride = \"30 mg/L\"\nwater_ph = \"6.2\"");
    assert_eq!(verdict(&workbook, "site.water-scale"), Verdict::Unknown);
    workbook.set("safety.looked_up.site-water-chloride", "read by the test").unwrap();
    workbook.set("plumbing.loop", "direct").unwrap();
    assert_eq!(verdict(&workbook, "site.water-scale"), Verdict::Stop);
    assert_eq!(verdict(&workbook, "site.water-ph"), Verdict::Stop);
    assert_eq!(verdict(&workbook, "site.water-chloride"), Verdict::Clear);
    workbook.set("plumbing.loop", "glycol").unwrap();
    assert_eq!(verdict(&workbook, "site.water-scale"), Verdict::Caution);
    assert_eq!(verdict(&workbook, "site.water-ph"), Verdict::Caution);
    workbook.set("site.water_chloride", "300 mg/L").unwrap();
    assert_eq!(verdict(&workbook, "site.water-chloride"), Verdict::Stop);
}

/// A sign that is wrong puts the site on another continent.
#[test]
fn a_station_far_away_is_noticed() {
    let mut workbook = open(GREENSBORO);
    assert_eq!(verdict(&workbook, "site.station-near"), Verdict::Clear);
    workbook.set("site.longitude", "79.95°").unwrap();
    assert_eq!(verdict(&workbook, "site.station-near"), Verdict::Caution);
    assert!(number(&workbook, "site.station_distance") > 1e7);
}

/// Duffie & Beckman section 1.9: at the distance that is just free of shade nothing of the slope is in shade.
#[test]
fn rows_at_the_free_distance_have_no_shade_at_noon() {
    let samples = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-projects");
    let mut workbook = super::sample("harbour-laundry.toml", &samples);
    assert_eq!(verdict(&workbook, "site.row-pitch"), Verdict::Caution);
    assert!(number(&workbook, "site.row_shade_noon") > 0.1);
    let metres = number(&workbook, "site.row_pitch_noon") + 0.001;
    workbook.set("site.row_pitch", &format!("{metres:.4} m")).unwrap();
    assert!(number(&workbook, "site.row_shade_noon").abs() < 1e-9);
    assert_eq!(verdict(&workbook, "site.row-pitch"), Verdict::Clear);
    workbook.run_studies();
    let wide = number(&workbook, "site.row_shade_year");
    workbook.set("site.row_pitch", "3 m").unwrap();
    workbook.run_studies();
    assert!(number(&workbook, "site.row_shade_year") > wide);
}

/// What walks the year is computed again only when what it hangs on has changed.
#[test]
fn an_entry_that_weather_does_not_hang_on_keeps_sun_and_frost() {
    let mut workbook = open(GREENSBORO);
    let before = workbook.evaluation().drawn.clone();
    workbook.set("site.wind_speed", "40 m/s").unwrap();
    let after = &workbook.evaluation().drawn;
    assert_eq!(before.site.frost, after.site.frost);
    let sky = |solution: &sunharp::stage::Solution| solution.world.sky.clone().unwrap();
    assert!(std::sync::Arc::ptr_eq(&sky(&before), &sky(after)));
    workbook.set("site.longitude", "-80°").unwrap();
    assert!(std::sync::Arc::ptr_eq(&sky(&before), &sky(&workbook.evaluation().drawn)));
}

/// Typing what the sky hangs on is shown before it is taken.
#[test]
fn a_preview_of_the_weather_reads_the_weather() {
    let workbook = open(GREENSBORO);
    let (_, differences) = workbook.preview("site.clock_shift", "60 min").unwrap();
    assert!(differences.moved.iter().any(|moved| moved.address.id == "site.plane_year"));
    assert!(differences.flips.iter().any(|flip| flip.check == "site.weather-clock"));
}
