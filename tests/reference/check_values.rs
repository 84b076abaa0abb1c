//! Every row of the table of check values is run through the program: a key that nobody runs fails here.
//!
//! What runs a key loops over all its rows; the sums of the rows that no other file needs stand below.

use std::collections::BTreeSet;

use serde::Deserialize;
use sunharp::physics::expansion::{GLASS, POLYCARBONATE, Swing, linear_growth};
use sunharp::physics::pipe::HazenWilliams;
use sunharp::units::si::{Dimension, Length, TemperatureInterval, celsius};
use sunharp::units::tape::{Division, Row, mark, stepped_drift};

use super::{close, cutting, enclosure, glass, guillotine};

const TABLE: &str = include_str!("data/enclosure.toml");
const INCH: f64 = 0.0254;

#[derive(Deserialize)]
struct Data {
    expansion: Vec<Expansion>,
    friction: Vec<Friction>,
    rounding: Vec<Rounding>,
}

#[derive(Deserialize)]
struct Expansion {
    name: String,
    delta_in: Option<f64>,
    delta_mm: Option<f64>,
    delta_mm_true: Option<f64>,
    tol: Option<f64>,
}

#[derive(Deserialize)]
struct Friction {
    tube: String,
    gpm: Vec<f64>,
    psi_100ft: Vec<f64>,
    hazen_williams_c: f64,
    tol: f64,
}

#[derive(Deserialize)]
struct Rounding {
    error_stepped_in: f64,
    error_from_one_datum_max_in: f64,
}

#[allow(clippy::unwrap_used, reason = "a test whose data does not parse shall fail")]
fn data() -> Data {
    toml::from_str(TABLE).unwrap()
}

/// Who runs the rows of each key.
const RUN_BY: [(&str, fn()); 19] = [
    ("cut_1d", cutting::published_roll_instances_are_solved_and_proved),
    ("cut_bars", cutting::bars_of_a_panel_job_need_as_few_as_another_solver_finds),
    ("cut_2d", guillotine::published_sheet_instances_are_solved_and_proved),
    ("rated_pressure", enclosure::tube_ratings_are_those_of_the_handbook),
    ("solder_use", enclosure::wire_for_a_joint_is_that_of_the_handbook),
    ("plate_linear", glass::small_deflection_gives_the_textbook_plates),
    ("plate_nonlinear", glass::large_deflection_gives_the_examples),
    ("plate_table", glass::plate_coefficients_are_those_of_the_tables),
    ("e1300_deflection", glass::large_deflection_agrees_with_the_polynomial_of_the_glass_standard),
    ("wind", enclosure::wind_pressures_are_those_of_the_code),
    ("wind_kz", enclosure::exposure_coefficients_are_those_of_the_code),
    ("lag", enclosure::lag_screws_hold_what_the_table_says),
    ("lag_table", enclosure::lag_screws_hold_what_the_table_says),
    ("shrinkage", enclosure::lumber_shrinks_as_the_standard_assumes),
    ("niosh", enclosure::the_lifting_equation_gives_its_example),
    ("drill", enclosure::a_drill_turns_as_the_shop_table_says),
    ("expansion", parts_grow_as_printed),
    ("friction", friction_is_that_of_the_table),
    ("rounding", stepping_adds_up_and_running_positions_do_not),
];

#[test]
fn every_key_of_the_table_is_run() {
    let table: toml::Table = toml::from_str(TABLE).unwrap();
    let keys: BTreeSet<&str> = table.keys().map(String::as_str).collect();
    let run: BTreeSet<&str> = RUN_BY.iter().map(|(key, _)| *key).collect();
    assert_eq!(keys, run, "a key of the table that nobody runs, or one that is gone");
    for (key, run) in RUN_BY {
        let rows = table[key].as_array().map_or(1, Vec::len);
        assert!(rows > 0, "{key} has no rows");
        run();
    }
}

/// The growth that a named row asks for, m.
fn growth(name: &str) -> f64 {
    let kelvin = TemperatureInterval::from_si;
    let swing = |from, to| Swing { from: celsius(from), to: celsius(to) };
    match name {
        "10 ft copper, 70 to 600 F" => {
            linear_growth(9.4e-6 * 1.8, Length::from_si(120.0 * INCH), kelvin(530.0 / 1.8)).si()
        }
        "polycarbonate, 80 K per metre" => POLYCARBONATE.growth(Length::from_si(1.0), swing(0.0, 80.0)).unwrap().si(),
        "glass 200 in, 100 F" => {
            GLASS.growth(Length::from_si(200.0 * INCH), swing(20.0, 20.0 + 100.0 / 1.8)).unwrap().si()
        }
        name if name.contains("35 m copper") => linear_growth(16.9e-6, Length::from_si(35.0), kelvin(40.0)).si(),
        other => panic!("nobody computes {other}"),
    }
}

/// A physics page, a maker's page, a glass bulletin, and a published figure that is wrong and stands corrected.
fn parts_grow_as_printed() {
    for row in data().expansion {
        let (found, expected, digits) = match (row.delta_in, row.delta_mm.or(row.delta_mm_true)) {
            (Some(inches), _) => (growth(&row.name) / INCH, inches, 0.003),
            (None, Some(millimetres)) => (growth(&row.name) * 1e3, millimetres, 0.05),
            (None, None) => panic!("{} has no figure", row.name),
        };
        close(found, expected, row.tol.unwrap_or(digits));
    }
}

/// A page of friction losses, reproduced by Hazen and Williams with C = 140 and the true bore of type L ¾.
fn friction_is_that_of_the_table() {
    for row in data().friction {
        assert_eq!(row.tube, "L 3/4");
        let bore = sunharp::handbook::tube::tube("3/4 in type L").unwrap().bore();
        for (gallons, psi) in row.gpm.iter().zip(&row.psi_100ft) {
            let rule = HazenWilliams { bore, constant: row.hazen_williams_c };
            let flow = gallons * 3.785_411_784e-3 / 60.0;
            let loss = rule.gradient(sunharp::units::si::VolumeRate::from_si(flow)).unwrap();
            close(loss * 100.0 * 0.3048 / 6_894.757_293_168, *psi, row.tol);
        }
    }
}

/// 20 pitches of 4.55 in: 4-9/16 stepped off is a quarter of an inch out, each mark by itself half of a sixteenth at most.
fn stepping_adds_up_and_running_positions_do_not() {
    for row in data().rounding {
        let pitch = Length::from_si(4.55 * INCH);
        let sixteenth = Division::Sixteenth;
        let stepped = stepped_drift(Row { first: Length::from_si(0.0), pitch, count: 21 }, sixteenth).unwrap();
        close(stepped.si() / INCH, row.error_stepped_in, 1e-9);
        for place in 1..=20 {
            let mark = mark(pitch * f64::from(place), sixteenth).unwrap();
            assert!(mark.residual.si().abs() / INCH <= row.error_from_one_datum_max_in + 1e-12);
        }
    }
}
