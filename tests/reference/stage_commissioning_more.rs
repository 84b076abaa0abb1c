//! Fill, sensors, control, proofs and calendar of the commissioning stage against vectors and days counted by hand.

#![allow(clippy::format_collect)] // records read best as the lines that they are

use std::path::Path;
use std::sync::Arc;

use super::close;
use crate::support::{si, value, verdict, workbook};
use sunharp::physics::differential_control::DifferentialControl;
use sunharp::physics::expansion_vessel::GasCushion;
use sunharp::project::store::RealDisk;
use sunharp::units::System;
use sunharp::units::si::{Area, Dimension, HeatTransfer, Pressure, TemperatureInterval, Volume};
use sunharp::workbook::Workbook;

const BAR: f64 = 1e5;

fn readings(all: &[(&str, &str)]) -> String {
    let one = |(index, (of, typed)): (usize, &(&str, &str))| {
        format!("[reading.\"{of}\".2026-05-01-{}]\nvalue = \"{typed}\"\n", index + 1)
    };
    all.iter().enumerate().map(one).collect()
}

fn text(book: &Workbook, id: &str) -> String {
    value(book, id).unwrap().text(System::Si)
}

/// Flow for 0.6 m/s (computed apart): 13.84 mm 5.4, 19.94 mm 11.2, 20.2 mm 11.5, 26.04 mm 19.2 L/min; 13.6 mm 5.2.
#[test]
fn the_flush_runs_at_the_speed_that_moves_air() {
    for (tube, litres) in [
        ("1/2 in type L", 5.4),
        ("3/4 in type L", 11.2),
        ("1 in type L", 19.2),
        ("15 x 0.7 mm EN 1057", 5.2),
        ("22 x 0.9 mm EN 1057", 11.5),
    ] {
        let book = workbook(&format!("[plumbing]\npipe = \"{tube}\"\n"));
        close(si(&book, "commissioning.flush_flow") * 60e3, litres, 0.06);
    }
}

/// A maker's sheet (verified): system 1.0 bar + 0.1 bar/m, fill 0.1 more, precharge 0.3 less: 10 m give 2.0/2.1/1.7 bar.
#[test]
fn ten_metres_want_the_pressures_of_the_makers_sheet() {
    let book = workbook("[site]\naltitude = \"0 m\"\n[commissioning]\ntop_height = \"10 m\"\n");
    close(si(&book, "commissioning.cold_pressure") / BAR, 2.0, 1e-6);
    close(si(&book, "commissioning.fill_pressure") / BAR, 2.1, 1e-6);
    close(si(&book, "commissioning.precharge") / BAR, 1.7, 1e-6);
    close(si(&book, "commissioning.precharge_today") / BAR, 1.7, 1e-6);
    // Gas at constant volume by hand: (1.7 + 1.01325) × 283.15/293.15 − 1.01325.
    let cold = workbook(
        "[site]\naltitude = \"0 m\"\n[commissioning]\ntop_height = \"10 m\"\nvessel_temperature = \"10 °C\"\n",
    );
    close(si(&cold, "commissioning.precharge_today") / BAR, 2.71325 * 283.15 / 293.15 - 1.01325, 1e-4);
}

/// 3 m between 5 and 55 °C drive with 420 Pa, 5 m with 700 Pa (computed apart).
#[test]
fn a_hot_tank_drives_backwards_at_night() {
    for (height, pascal) in [("3 m", 420.0), ("5 m", 700.0)] {
        let book = workbook(&format!("[commissioning]\ntop_height = \"{height}\"\n"));
        close(si(&book, "commissioning.reverse_head"), pascal, 6.0);
    }
}

/// 0.35 L from 2.0 to 3.0 bar absolute: 1.05 L of air (computed apart).
#[test]
fn a_squeeze_after_purging_tells_the_air_that_is_left() {
    let book = workbook(&format!(
        "[site]\naltitude = \"0 m\"\n{}",
        readings(&[
            ("commissioning.squeeze_added", "0.35 L"),
            ("commissioning.squeeze_before", "0.98675 bar"),
            ("commissioning.squeeze_after", "1.98675 bar"),
        ])
    ));
    close(si(&book, "commissioning.air_left") * 1e3, 1.05, 1e-4);
}

/// Boiling at standard air (reference library): 0 m 99.97, 1500 m 95.0, 3000 m 90.0 °C.
#[test]
fn water_boils_by_altitude() {
    for (metres, degrees) in [(0, 99.97), (1500, 95.0), (3000, 90.0)] {
        let book = workbook(&format!("[site]\naltitude = \"{metres} m\"\n"));
        close(si(&book, "commissioning.boiling_point") - 273.15, degrees, 0.06);
    }
}

/// Resistors that simulate: 3 °C 28.05 kΩ (frost at 5 °C, 2 K below), Pt1000 at 90 °C 1347 Ω (verified tables).
#[test]
fn resistors_stand_for_temperatures() {
    let frost = workbook("[commissioning]\nsensor_type = \"10k\"\nfrost_trip = \"5 °C\"\n");
    close(si(&frost, "commissioning.resistor_frost"), 28_050.0, 15.0);
    let hot = workbook("[commissioning]\nsensor_type = \"Pt1000\"\nlock_out = \"88 °C\"\n");
    close(si(&hot, "commissioning.resistor_lock_out"), 1347.0, 0.5);
}

/// The beta equation reads 0.29 K low at 60 °C and 0.84 K high at 120 °C (computed apart from the manuals' table).
#[test]
fn beta_is_shown_as_the_rougher_one() {
    for (ohms, degrees, error) in [("2488 ohm", 60.0, -0.29), ("389.6 ohm", 120.0, 0.84)] {
        let book = workbook(&format!(
            "[commissioning]\nsensor_type = \"10k\"\n[panel.A]\n{}",
            readings(&[("commissioning.sensor_ohms@A", ohms)])
        ));
        close(si(&book, "commissioning.sensor_by_beta@A") - 273.15 - degrees, error, 0.02);
        close(si(&book, "commissioning.sensor_temperature@A") - 273.15, degrees, 0.12);
    }
}

/// Class B of IEC 60751 at 100 °C: 0.80 K, class A 0.35 K (verified page).
#[test]
fn platinum_is_held_to_its_class() {
    for (class, kelvin) in [("A", 0.35), ("B", 0.80)] {
        let book = workbook(&format!(
            "[commissioning]\nsensor_type = \"Pt1000\"\nsensor_class = \"{class}\"\n[panel.A]\n{}",
            readings(&[("commissioning.sensor_ohms@A", "1385.1 ohm")])
        ));
        close(si(&book, "commissioning.sensor_tolerance@A"), kelvin, 0.001);
    }
}

/// F_R U_L 4.5 W/(m²·K) at 0.015 kg/(s·m²): ratio 0.072, so a start of 8 K allows a stop of 0.57 K (from memory of the
/// handbook's rule, computed apart).
#[test]
fn usual_settings_cycle_on_some_mornings() {
    let control = DifferentialControl {
        area: Area::from_si(1.0),
        loss: HeatTransfer::from_si(4.5),
        exchanged_rate: 0.015 * 4180.0,
        start: TemperatureInterval::from_si(8.0),
        stop: TemperatureInterval::from_si(3.0),
    };
    let limits = control.stability().unwrap();
    close(limits.greatest_stop.si(), 0.57, 0.006);
    assert!(!limits.stays_on);
}

/// A float meter on 40 % glycol of 1033 kg/m³ wants 0.981 (computed apart); water wants nothing.
#[test]
fn a_float_meter_is_corrected_for_the_liquid() {
    let read = readings(&[("commissioning.float_read", "4 L/min")]);
    let water = workbook(&format!("[plumbing]\nloop = \"drainback\"\n{read}"));
    close(si(&water, "commissioning.float_flow") * 60e3, 4.0, 1e-6);
    let glycol = workbook(&format!("[plumbing]\nloop = \"glycol\"\nglycol = \"40 %\"\n{read}"));
    close(si(&glycol, "commissioning.float_flow") * 60e3 / 4.0, 0.981, 0.003);
}

#[test]
fn each_proof_passes_a_hair_inside_and_stops_a_hair_outside() {
    let judge = |check: &str, entries: &str, all: &[(&str, &str)]| {
        verdict(&workbook(&format!("{entries}\n{}", readings(all))), check)
    };
    let relief = "[plumbing]\nrelief_setting = \"3 bar\"\n";
    let drainback = "[plumbing]\nloop = \"drainback\"\n";
    let mixing = "[safety]\nmixing_valve_setting = \"45 °C\"\n";
    for (check, entries, id, inside, outside) in [
        ("commissioning.proof-tank-limit", "", "commissioning.limit_stop", "10 s", "11 s"),
        ("commissioning.proof-lock-out", "", "commissioning.lock_out_held", "yes", "no"),
        ("commissioning.proof-power-cut", relief, "commissioning.cut_pressure", "2.5 bar", "2.51 bar"),
        ("commissioning.proof-drain", drainback, "commissioning.drain_time", "10 min", "11 min"),
        ("commissioning.proof-refill", drainback, "commissioning.refill_time", "2 min", "121 s"),
        ("commissioning.proof-mixing", mixing, "commissioning.cold_fail", "46.9 °C", "47.2 °C"),
        ("commissioning.proof-relief", "", "commissioning.reseat_time", "5 min", "6 min"),
        ("commissioning.proof-trip", "", "commissioning.trips", "yes", "no"),
        ("commissioning.proof-bond", "", "commissioning.bond", "0.1 ohm", "0.11 ohm"),
    ] {
        assert_eq!(judge(check, entries, &[(id, inside)]), "clear", "{check}");
        assert_eq!(judge(check, entries, &[(id, outside)]), "stop", "{check}");
        assert_eq!(judge(check, entries, &[]), "unknown", "{check}");
    }
    let night = |pipe| [("commissioning.night_pipe", pipe), ("commissioning.night_air", "10 °C")];
    assert_eq!(judge("commissioning.proof-night", "", &night("13 °C")), "clear");
    assert_eq!(judge("commissioning.proof-night", "", &night("13.1 °C")), "caution");
    let set = |start, stop| [("commissioning.start_found", start), ("commissioning.stop_found", stop)];
    assert_eq!(judge("commissioning.proof-start-stop", "", &set("8.9 K", "3.1 K")), "clear");
    assert_eq!(judge("commissioning.proof-start-stop", "", &set("9.1 K", "4 K")), "caution");
    let frost = |one, other| [("commissioning.frost_acts", one), ("commissioning.frost_unpowered", other)];
    assert_eq!(judge("commissioning.proof-frost", "", &frost("yes", "yes")), "clear");
    assert_eq!(judge("commissioning.proof-frost", "", &frost("yes", "no")), "stop");
    let flow = |alarm| [("commissioning.no_flow_pressure", "2.4 bar"), ("commissioning.no_flow_alarm", alarm)];
    assert_eq!(judge("commissioning.proof-no-flow", relief, &flow("yes")), "clear");
    assert_eq!(judge("commissioning.proof-no-flow", relief, &flow("no")), "caution");
}

fn on_day(text: &str, day: jiff::civil::Date) -> Workbook {
    Workbook::unsaved(Arc::new(RealDisk), Path::new("test.toml"), format!("format = 1\n{text}"), day)
}

/// Days counted on a calendar: commissioned on 2026-01-31, the first month ends in February, April begins a season.
#[test]
fn the_calendar_counts_from_the_day_of_commissioning() {
    let project = "[commissioning]\ncommissioned = 2026-01-31\n";
    let due = |day| text(&on_day(project, day), "commissioning.due");
    assert_eq!(due(jiff::civil::date(2026, 2, 6)), "nothing");
    assert_eq!(due(jiff::civil::date(2026, 2, 7)), "weekly");
    assert_eq!(due(jiff::civil::date(2026, 2, 28)), "weekly, monthly");
    assert_eq!(due(jiff::civil::date(2026, 4, 1)), "weekly, monthly, season");
    let done = "[commissioning]\ncommissioned = 2026-01-31\n[commissioning.upkeep]\nweekly = 2026-02-28\nmonthly = 2026-03-31\nseason = 2026-04-02\n";
    let book = on_day(done, jiff::civil::date(2026, 4, 29));
    assert_eq!(text(&book, "commissioning.due"), "nothing");
    assert_eq!(verdict(&book, "commissioning.upkeep-due"), "clear");
    assert!(text(&book, "commissioning.calendar.4").contains("season: 2026-10-01"));
    assert_eq!(verdict(&on_day("", jiff::civil::date(2026, 4, 29)), "commissioning.upkeep-due"), "unknown");
    let years = on_day(project, jiff::civil::date(2036, 2, 1));
    assert!(text(&years, "commissioning.due").contains("hoses"));
}

/// 25 L charged at 1.1 bar and filled to 1.4 bar over 1 bar of air hold 3.1 L (computed apart).
#[test]
fn a_vessel_takes_some_water_when_it_is_filled() {
    let cushion = GasCushion {
        volume: Volume::from_si(0.025),
        precharge: Pressure::from_si(1.1 * BAR),
        atmosphere: Pressure::from_si(BAR),
    };
    close(cushion.liquid_at(Pressure::from_si(1.4 * BAR)).unwrap().si() * 1e3, 3.1, 0.03);
}
