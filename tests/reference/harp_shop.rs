//! Bench geometry of the harp against the `shop` group of the collector reference cases and a handbook table.
//!
//! Source: exact geometry worked apart from this program, 0.01 mm; Copper Tube Handbook, Table 14.10.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::cast_possible_truncation,
    reason = "helpers of tests may fail loudly"
)]

use super::collector::{ORACLE, at};
use serde_json::Value;
use sunharp::physics::fillet::Fillet;
use sunharp::physics::harp_shop::{HoleRow, RiserInHeader, TeeFitting};
use sunharp::units::si::{Dimension, Length, ThermalConductivity};

fn group(name: &str) -> &'static Vec<Value> {
    ORACLE["shop"][name].as_array().unwrap()
}

fn mm(value: f64) -> Length {
    Length::from_si(value / 1000.0)
}

/// Within 0.01 mm.
fn length_close(item: &Value, path: &str, got: Length) {
    let want = at(item, path);
    assert!((got.si() * 1000.0 - want).abs() < 0.01, "{path} is {got:?}, not {want} mm");
}

fn share_close(item: &Value, path: &str, got: f64) {
    let want = at(item, path);
    assert!((got / want - 1.0).abs() < 1e-4, "{path} is {got}, not {want}");
}

#[test]
fn four_rows_of_holes() {
    for item in group("holes") {
        let count = item["n"].as_u64().unwrap() as usize;
        let bare = HoleRow { first: mm(0.0), pitch: mm(at(item, "pitch_mm")), count };
        let row = HoleRow::centred(mm(at(item, "header_mm")), bare).unwrap();
        let holes = row.holes().unwrap();
        length_close(item, "end_mm", row.first);
        assert_eq!(holes.len(), count);
        for (i, hole) in holes.iter().enumerate() {
            let want = item["running_mm"][i].as_f64().unwrap();
            assert!((hole.position.si() * 1000.0 - want).abs() < 0.01);
            assert_eq!(u64::from(hole.sixteenths), item["running_16ths"][i].as_u64().unwrap());
        }
        let most = holes.iter().map(|hole| hole.rule_error().si().abs()).fold(0.0, f64::max);
        length_close(item, "max_error_running_mm", Length::from_si(most));
        length_close(item, "last_hole_error_if_pitch_stepped_mm", row.stepping_error().unwrap());
    }
}

#[test]
fn four_risers_in_drilled_headers() {
    for item in group("riser_in_header") {
        let joint = RiserInHeader {
            header_outer_diameter: mm(at(item, "header_od")),
            header_bore: mm(at(item, "header_id")),
            riser_outer_diameter: mm(at(item, "riser_od")),
        };
        let least = joint.least_insertion().unwrap();
        let depth = item["insertion_given_mm"].as_f64().map_or(least, mm);
        let inserted = joint.inserted(depth).unwrap();
        length_close(item, "s_min", least);
        length_close(item, "s", inserted.depth);
        length_close(item, "protrusion", inserted.protrusion);
        share_close(item, "blockage", inserted.blockage);
        assert_eq!(inserted.full_bite, item["full_bite"].as_bool().unwrap());
        length_close(item, "cut_length_mm_at_cc_2000", joint.cut_length(mm(2000.0), &inserted).unwrap());
    }
}

#[test]
fn two_cuts_between_cups() {
    for item in group("cup_cut") {
        let tee = TeeFitting {
            centre_to_shoulder: mm(at(item, "tee_centre_to_shoulder_mm")),
            tube_outer_diameter: mm(15.0),
            cup_depth: mm(12.0),
        };
        length_close(item, "cut_length_mm", tee.cut_length(mm(at(item, "header_cc_mm"))).unwrap());
    }
}

#[test]
fn two_fillets() {
    for item in group("fillet") {
        let fillet = Fillet {
            tube_outer_diameter: mm(at(item, "tube_od")),
            width: mm(at(item, "bond_width")),
            film: mm(at(item, "film")),
        };
        let section = fillet.section().unwrap().si() * 1e6;
        let solder = ThermalConductivity::from_si(at(item, "k_solder"));
        let grams_per_metre = section * at(item, "density");
        let run = at(item, "n") * at(item, "riser_mm") / 1000.0;
        share_close(item, "section_mm2", section);
        share_close(item, "grams_per_m", grams_per_metre);
        share_close(item, "total_g", grams_per_metre * run * (1.0 + at(item, "waste")));
        share_close(item, "conductance_W_mK", fillet.conductance(solder).unwrap().si());
    }
}

#[test]
fn two_soldered_cups() {
    for item in group("cup_solder") {
        let cup = TeeFitting {
            centre_to_shoulder: mm(10.0),
            tube_outer_diameter: mm(at(item, "od")),
            cup_depth: mm(at(item, "depth")),
        };
        let volume = cup.filler(mm(at(item, "clearance"))).unwrap().si() * 1e9;
        share_close(item, "volume_mm3", volume);
        share_close(item, "grams", volume * at(item, "density") / 1000.0);
    }
}

/// Copper Tube Handbook, Table 14.10 (seen): pounds of solder per 100 joints by tube and cup, which is the whole 0.010 in
/// clearance at a density of 7.35 g/cm³ fitted to the column; the sizes among each other are the check.
#[test]
fn the_handbook_table_of_solder_for_cups() {
    for (outer, depth, pounds) in
        [(0.500, 0.38, 0.159), (0.625, 0.50, 0.261), (0.875, 0.75, 0.548), (1.125, 0.91, 0.856)]
    {
        let inches = |value: f64| Length::from_si(value * 0.0254);
        let cup = TeeFitting {
            centre_to_shoulder: inches(0.5),
            tube_outer_diameter: inches(outer),
            cup_depth: inches(depth),
        };
        let got = cup.filler(inches(0.010)).unwrap().si() * 7350.0 * 100.0 / 0.45359237;
        assert!((got / pounds - 1.0).abs() < 0.012, "{got} is not {pounds}");
    }
}
