//! One city's rule for small roof mounts: each of its limits, and what it does not say.

use super::super::rack::ground;
use super::{Pair, by, pair, with};
use crate::support::{Bench, SMALL};
use sunharp::model::Verdict::{Caution, Unknown};
use sunharp::stage;

const PSF: f64 = 47.880_258_98;
const POUND_FORCE: f64 = 4.448_221_615_260_5;

/// A panel on a roof that is light enough for one city's rule for small mounts, and keeps the rest of it.
fn desk(bench: &Bench, answers: &[(&str, &str)]) -> Bench {
    let light = [
        ("absorber.riser_count", "7"),
        ("absorber.riser_pitch", "150 mm"),
        ("absorber.sheet_width", "1000 mm"),
        ("absorber.sheet_thickness", "5 oz"),
        ("absorber.riser_tube", "3/8 in type M"),
        ("absorber.header_tube", "3/4 in type M"),
        ("enclosure.glass_thickness", "3 mm"),
        ("enclosure.insulation", "glass fibre board/batt C612 IA, C553"),
        ("enclosure.back_board", "4 mm"),
        ("enclosure.rail_thickness", "12 mm"),
        ("enclosure.rack_mass", "0 kg"),
        ("enclosure.mount_kind", "flush"),
        ("enclosure.mount_spacing", "0.6 m"),
        ("enclosure.lag_diameter", "5/16 in"),
        ("enclosure.lag_thread", "2.5 in"),
        ("enclosure.standoff", "24 in"),
    ];
    with(with(bench.clone(), &light), answers)
}

/// The weight of the rack with which the full panel comes to 4 psf, and a little more, in kg.
fn desk_weight(more: f64) -> Bench {
    let panel = desk(&Bench::small(), &[]);
    by(&panel, ("enclosure.rack_mass", "kg"), (0.0, 100.0), ("enclosure.dead_wet", 4.0 * PSF), more)
}

/// Three light panels in a row.
fn desk_row(answers: &[(&str, &str)]) -> Bench {
    let row = Bench::of(&format!("{SMALL}\n[panel.B]\n\n[panel.C]\n")).with("enclosure.panel_gap", "100 mm");
    desk(&row, answers)
}

/// One rail, so that the mounts of the row come to 60 lb each by their spacing, and a little more of it, in m.
fn desk_support(more: f64) -> Bench {
    let row = desk_row(&[("enclosure.rails", "1")]);
    let at_limit = ("enclosure.mount_weight", 60.0 * POUND_FORCE);
    by(&row, ("enclosure.mount_spacing", "m"), (0.72, 0.86), at_limit, more)
}

pub fn pairs() -> Vec<Pair> {
    vec![
        // One city's rule: 4 psf, 60 lb on a support, 48 in apart, 5/16 in lag 2.5 in deep, 24 in high (permit page, verified).
        pair(
            "enclosure.desk-rule",
            Caution,
            |check| desk(&Bench::small(), &[("enclosure.standoff", "24.01 in")]).verdict(check),
            |check| desk(&Bench::small(), &[("enclosure.standoff", "24 in")]).verdict(check),
        ),
        pair(
            "enclosure.desk-rule",
            Caution,
            |check| desk(&Bench::small(), &[("enclosure.lag_diameter", "0.312 in")]).verdict(check),
            |check| desk(&Bench::small(), &[("enclosure.lag_diameter", "5/16 in")]).verdict(check),
        ),
        pair(
            "enclosure.desk-rule",
            Caution,
            |check| desk(&Bench::small(), &[("enclosure.lag_thread", "2.49 in")]).verdict(check),
            |check| desk(&Bench::small(), &[("enclosure.lag_thread", "2.5 in")]).verdict(check),
        ),
        pair(
            "enclosure.desk-rule",
            Caution,
            |check| desk_weight(0.01).verdict(check),
            |check| desk_weight(-0.01).verdict(check),
        ),
        pair(
            "enclosure.desk-rule",
            Caution,
            |check| desk_support(0.001).verdict(check),
            |check| desk_support(-0.001).verdict(check),
        ),
        pair(
            "enclosure.desk-rule",
            Caution,
            |check| desk_row(&[("enclosure.rails", "4"), ("enclosure.mount_spacing", "48.01 in")]).verdict(check),
            |check| desk_row(&[("enclosure.rails", "4"), ("enclosure.mount_spacing", "48 in")]).verdict(check),
        ),
    ]
}

/// What the rule is for and what it does not say: on the ground it does not apply, and a clear permits nothing.
#[test]
fn one_citys_rule_is_an_example_and_no_permission() {
    const CHECK: &str = "enclosure.desk-rule";
    let on_ground = ground().evaluate();
    let judged = on_ground.verdict(CHECK).unwrap();
    assert_eq!(judged.judgement.clone().unwrap().does_not_apply, Some("the rule is for mounts on a roof"));
    let check = stage::check(CHECK).unwrap();
    assert!(check.blind_to.contains("no permission; ask") && check.ask.contains("engineer"));
    assert!(check.remedy.contains("Inside the rule as well the question is the office's"));
    for id in ["enclosure.standoff", "enclosure.lag_thread", "enclosure.mount_spacing", "enclosure.rack_mass"] {
        assert_eq!(desk(&Bench::small(), &[]).without(id).verdict(CHECK), Unknown, "without {id}");
    }
}
