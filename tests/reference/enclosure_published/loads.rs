//! Wind by height, flush panels, lag screws by timber and diameter, lifting: as printed, and beyond the printed examples.

use super::super::close;
use crate::support::Bench;
use sunharp::model::Verdict::{Caution, Clear};
use sunharp::physics::lag::{Adjustments, Screw};
use sunharp::physics::lift::{Coupling, Lift, recommended_weight};
use sunharp::physics::snow::{Snow, pressures};
use sunharp::physics::wind::Exposure;
use sunharp::units::si::{Angle, Dimension, Length, Pressure};

const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const POUND_FORCE: f64 = 4.448_221_615_260_5;

/// Height in feet; exposure B, C, D. ASCE 7-16 table 26.10-1 as printed with two digits (from memory); 15 ft and less is
/// one row.
const HEIGHTS: [(f64, [f64; 3]); 12] = [
    (0.0, [0.57, 0.85, 1.03]),
    (1.0, [0.57, 0.85, 1.03]),
    (15.0, [0.57, 0.85, 1.03]),
    (20.0, [0.62, 0.90, 1.08]),
    (30.0, [0.70, 0.98, 1.16]),
    (40.0, [0.76, 1.04, 1.22]),
    (60.0, [0.85, 1.13, 1.31]),
    (100.0, [0.99, 1.26, 1.43]),
    (200.0, [1.20, 1.46, 1.61]),
    (300.0, [1.35, 1.59, 1.73]),
    (400.0, [1.47, 1.69, 1.82]),
    (500.0, [1.56, 1.77, 1.89]),
];

#[test]
fn wind_grows_with_height_as_the_table_of_the_code() {
    let exposures = [("B", Exposure::B), ("C", Exposure::C), ("D", Exposure::D)];
    for (feet, row) in HEIGHTS {
        for ((letter, exposure), expected) in exposures.into_iter().zip(row) {
            close(exposure.coefficient(Length::from_si(feet * FOOT)).unwrap(), expected, 0.0085);
            let bench = Bench::small()
                .with("enclosure.wind_edition", "2016")
                .with("enclosure.wind_exposure", letter)
                .with("enclosure.wind_height", &format!("{feet} ft"));
            close(bench.number("enclosure.wind_kz"), expected, 0.0085);
        }
    }
    assert!(Exposure::D.coefficient(Length::from_si(701.0 * FOOT)).is_err());
    assert!(Exposure::C.coefficient(Length::from_si(-1.0)).is_err());
}

/// ASCE 7-16, 29.4.4 (page, verified): the figures for flush panels hold within 10 in of the roof, with gaps of 1/4 in.
#[test]
fn flush_panels_keep_to_ten_inches_and_a_quarter_inch() {
    let bench = Bench::of(&format!("{}\n[panel.B]\n", crate::support::SMALL))
        .with("enclosure.mount_kind", "flush")
        .with("enclosure.standoff", "10 in")
        .with("enclosure.edge_distance", "5 m")
        .with("enclosure.panel_gap", "1/4 in");
    assert_eq!(bench.verdict("enclosure.flush-limits"), Clear);
    assert_eq!(bench.clone().with("enclosure.standoff", "10.05 in").verdict("enclosure.flush-limits"), Caution);
    assert_eq!(bench.with("enclosure.panel_gap", "0.24 in").verdict("enclosure.flush-limits"), Caution);
}

/// NDS table 12.2A (verified to 1/2 in): lb for each inch of thread at 1/4, 3/8 and 1/2 in for the table's timbers; their
/// specific gravities from memory.
#[test]
fn lags_hold_in_every_listed_timber_what_the_table_prints() {
    for (timber, printed) in [
        ("Southern pine", [260.0, 352.0, 437.0]),
        ("Douglas fir-larch", [225.0, 305.0, 378.0]),
        ("Hem-fir", [179.0, 243.0, 302.0]),
        ("Spruce-pine-fir", [173.0, 235.0, 291.0]),
        ("Western cedars", [137.0, 186.0, 231.0]),
        ("Spruce-pine-fir south", [137.0, 186.0, 231.0]),
    ] {
        for (diameter, pounds) in ["1/4 in", "3/8 in", "1/2 in"].into_iter().zip(printed) {
            let bench = Bench::small()
                .with("enclosure.rafter_timber", timber)
                .with("enclosure.lag_diameter", diameter)
                .with("enclosure.lag_thread", "1 in")
                .with("enclosure.lag_wet", "no");
            // Wind lasts so short that timber bears 1.6 times as much (from memory).
            close(bench.number("enclosure.lag_holds") / POUND_FORCE / 1.6, pounds, 0.8);
        }
    }
}

/// The same table for thicker screws at a specific gravity of 0.50 (from memory), to its last column; beyond both ends of
/// the table there is no answer.
#[test]
fn thick_lags_hold_what_the_table_prints_and_none_is_guessed_beyond_it() {
    let holds = |gravity: f64, inches: f64| {
        let screw = Screw {
            diameter: Length::from_si(inches * INCH),
            thread: Length::from_si(INCH),
            specific_gravity: gravity,
        };
        screw.lag_withdrawal(Adjustments::none()).map(|force| force.si() / POUND_FORCE)
    };
    for (inches, pounds) in [(0.625, 447.0), (0.75, 513.0), (0.875, 576.0), (1.0, 636.0), (1.125, 695.0), (1.25, 752.0)]
    {
        close(holds(0.50, inches).unwrap(), pounds, 0.8);
    }
    for (gravity, inches) in [(0.30, 0.25), (0.74, 0.25), (0.50, 0.24), (0.50, 1.3)] {
        assert!(holds(gravity, inches).is_err(), "{gravity} {inches}");
    }
    assert!(holds(0.31, 0.25).is_ok() && holds(0.73, 1.25).is_ok());
}

/// By hand: 0.7 p_g on the flat with all factors 1; C_s of it on the slope; cos² of the tilt of that across the glass, from
/// a flat panel, which carries all, to an upright one, which carries none.
#[test]
fn snow_falls_away_with_slope_factor_and_tilt() {
    for slope in [0.0, 0.25, 0.7, 1.0] {
        for (tilt, share) in [(0.0_f64, 1.0), (30.0, 0.75), (45.0, 0.5), (60.0, 0.25), (90.0, 0.0)] {
            let snow = Snow { ground: Pressure::from_si(1000.0), exposure: 1.0, thermal: 1.0, importance: 1.0, slope };
            let found = pressures(snow, Angle::from_si(tilt.to_radians())).unwrap();
            close(found.flat.si(), 700.0, 1e-9);
            close(found.sloped.si(), 700.0 * slope, 1e-9);
            close(found.normal_to_glass.si(), 700.0 * slope * share, 1e-9);
        }
    }
    // Least and greatest factors of the code's tables (from memory): C_e 0.7 to 1.2, C_t 0.85 to 1.3, I_s 0.8 to 1.2.
    for (exposure, thermal, importance) in [(0.7, 0.85, 0.8), (1.2, 1.3, 1.2)] {
        let snow = Snow { ground: Pressure::from_si(1000.0), exposure, thermal, importance, slope: 1.0 };
        let found = pressures(snow, Angle::from_si(0.0)).unwrap();
        close(found.flat.si(), 700.0 * exposure * thermal * importance, 1e-9);
    }
}

/// The lifting equation in pounds and inches (page, verified): 51 lb × 10/H × (1 − .0075 |V − 30|) × (.82 + 1.8/D) is the
/// same law as in kilograms and centimetres, within the rounding of 25 cm to 10 in.
#[test]
fn the_lifting_equation_is_the_same_in_both_unit_systems() {
    for h in [10.0_f64, 15.0, 20.0, 24.0] {
        for v in [0.0_f64, 15.0, 30.0, 50.0, 68.0] {
            for d in [10.0_f64, 25.0, 49.0, 68.0] {
                let pounds = 51.0 * (10.0 / h) * (1.0 - 0.0075 * (v - 30.0).abs()) * (0.82 + 1.8 / d);
                let lift = Lift {
                    horizontal: Length::from_si(h * INCH),
                    vertical: Length::from_si(v * INCH),
                    travel: Length::from_si(d * INCH),
                    twist: Angle::from_si(0.0),
                    frequency: 1.0,
                    coupling: Coupling::Good,
                };
                close(recommended_weight(lift).unwrap().si() / 0.453_592_37 / pounds, 1.0, 0.04);
            }
        }
    }
}
