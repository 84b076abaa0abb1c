//! Heat: solder, paint, joints, insulation, hoses and timber against the plate that stands in the sun.

use super::super::stage_loop::GARDEN;
use super::{Pair, by, of, pair, plate, small};
use crate::support::{Bench, SMALL};
use sunharp::model::Verdict::{Caution, Stop};

const COOLANT: &str = "EPDM coolant/heater hose";

fn two_panels() -> Bench {
    Bench::of(&format!("{SMALL}\n[panel.B]\n"))
}

/// A harp whose joints are soldered, at a heat.
fn soldered(degrees: f64) -> Bench {
    plate(&small(&[("absorber.header_filler", "soldered"), ("absorber.header_alloy", "Sn50Pb50")]), degrees)
}

/// Two layers whose second stands 20 K more than it sees, and a little more (project rule).
fn two_layers(more: f64) -> Bench {
    let bench = small(&[
        ("enclosure.second_insulation", "polyisocyanurate, pipe grade C591"),
        ("enclosure.second_thickness", "25 mm"),
    ]);
    let judged = bench.evaluate().verdict("enclosure.second-insulation").unwrap().judgement.clone().unwrap();
    let sees = judged.found.unwrap().si - 273.15;
    bench.with("enclosure.second_limit", &format!("{} °C", sees + 20.0 + more))
}

/// Insulation that stands 20 K more than the plate, and a little more (project rule).
fn by_limit(more: f64) -> Bench {
    let stands = Bench::small().number("absorber.stagnation_worst") + 20.0 + more;
    small(&[("enclosure.insulation_limit", &format!("{stands} °C"))])
}

/// A cover that comes to 90 °C, and a little more, over butyl tape.
fn sealed(more: f64) -> Bench {
    let taped = small(&[("enclosure.sealant", "butyl tape"), ("enclosure.air_gap", "10 mm")]);
    by(&taped, ("absorber.absorptance", "%"), (20.0, 100.0), ("enclosure.cover_hottest", 90.0), more)
}

fn beside_panels(name: &'static str) -> [(&'static str, &'static str); 2] {
    [("plumbing.run.down.insulation", name), ("plumbing.run.up.insulation", "cellular glass C552")]
}

/// A hose in the suction of the pump, away from the panels.
fn hose(bears: &'static str) -> [(&'static str, &'static str); 4] {
    [
        ("plumbing.run.suction.hose", "corrugated stainless (CSST, EPDM seals)"),
        ("plumbing.run.suction.bore", "3/4 in"),
        ("plumbing.run.suction.rated_at", "180 °C"),
        ("plumbing.run.suction.rating", bears),
    ]
}

/// Wood whose face comes to a temperature behind a selective plate, by a thickness, and a little more of it.
fn wood(by_entry: (&str, &str), face: (&str, f64), more: f64) -> Bench {
    let selective = small(&[("absorber.emittance", "10 %"), ("enclosure.back_thickness", "100 mm")]);
    let selective = selective.with("enclosure.edge_thickness", "100 mm").with("enclosure.rail_lining", "100 mm");
    by(&selective, by_entry, (1.0, 100.0), face, more)
}

#[allow(clippy::too_many_lines)] // one table, read line by line
pub fn pairs() -> Vec<Pair> {
    vec![
        // Heat. Solidus 183 °C less 30 K; 121 °C soldered, 177 °C brazed (application data sheet).
        pair(
            "absorber.sheet-solder",
            Caution,
            |check| plate(&small(&[("absorber.solder", "Sn50Pb50")]), 153.1).verdict(check),
            |check| plate(&small(&[("absorber.solder", "Sn50Pb50")]), 152.9).verdict(check),
        ),
        pair(
            "absorber.paint-cure",
            Caution,
            |check| small(&[("absorber.paint_cure", "191.01 °C")]).verdict(check),
            |check| small(&[("absorber.paint_cure", "190.99 °C")]).verdict(check),
        ),
        pair(
            "absorber.pressure-joints",
            Stop,
            |check| soldered(121.1).verdict(check),
            |check| soldered(120.9).verdict(check),
        ),
        pair(
            "absorber.pressure-joints",
            Stop,
            |check| plate(&Bench::small(), 177.1).verdict(check),
            |check| plate(&Bench::small(), 176.9).verdict(check),
        ),
        // 85 psi, 5.86 bar, at 121 °C (copper trade handbook).
        pair(
            "absorber.joint-rating",
            Stop,
            |check| soldered(120.9).with("plumbing.relief_setting", "5.88 bar").verdict(check),
            |check| soldered(120.9).with("plumbing.relief_setting", "5.86 bar").verdict(check),
        ),
        // A drilled hole, brazed, is a caution; a drawn collar is not (copper trade handbook).
        pair(
            "absorber.joint-kind",
            Caution,
            |check| small(&[("absorber.joint", "drilled")]).verdict(check),
            |check| small(&[("absorber.joint", "collar")]).verdict(check),
        ),
        pair(
            "enclosure.insulation-limit",
            Stop,
            |check| by_limit(-0.01).verdict(check),
            |check| by_limit(0.01).verdict(check),
        ),
        pair(
            "enclosure.second-insulation",
            Stop,
            |check| two_layers(-0.01).verdict(check),
            |check| two_layers(0.01).verdict(check),
        ),
        pair(
            "enclosure.plastic-cover",
            Caution,
            |check| plate(&small(&[("enclosure.glass", "polycarbonate")]), 100.0).verdict(check),
            |check| Bench::small().verdict(check),
        ),
        // Butyl tape stands 90 °C (from memory).
        pair("enclosure.sealant", Stop, |check| sealed(0.02).verdict(check), |check| sealed(-0.02).verdict(check)),
        // 204 °C beside the panels (guide specification): cellular glass stands 427, melamine 177 °C.
        pair(
            "plumbing.run-insulation",
            Caution,
            |check| of(GARDEN, &beside_panels("melamine foam C1410"), check),
            |check| of(GARDEN, &beside_panels("cellular glass C552"), check),
        ),
        pair(
            "plumbing.hose-rating",
            Stop,
            |check| of(GARDEN, &hose("29.9 psi"), check),
            |check| of(GARDEN, &hose("30 psi"), check),
        ),
        // A coolant hose ends at 120 °C for good (carmaker's standard).
        pair(
            "enclosure.link-hose",
            Stop,
            |check| plate(&two_panels().with("enclosure.link_hose", COOLANT), 120.1).verdict(check),
            |check| plate(&two_panels().with("enclosure.link_hose", COOLANT), 119.9).verdict(check),
        ),
        // Wood: 65 °C and 77 °C (documented fires at 77 °C).
        pair(
            "enclosure.timber-behind",
            Caution,
            |check| wood(("enclosure.back_thickness", "mm"), ("enclosure.back_face", 65.0), -0.01).verdict(check),
            |check| wood(("enclosure.back_thickness", "mm"), ("enclosure.back_face", 65.0), 0.01).verdict(check),
        ),
        pair(
            "enclosure.timber-rail",
            Stop,
            |check| wood(("enclosure.rail_lining", "mm"), ("enclosure.rail_face", 77.0), -0.01).verdict(check),
            |check| wood(("enclosure.rail_lining", "mm"), ("enclosure.rail_face", 65.0), 0.01).verdict(check),
        ),
        pair(
            "enclosure.stub-hole",
            Caution,
            |check| small(&[("enclosure.sleeve", "11.99 mm")]).verdict(check),
            |check| small(&[("enclosure.sleeve", "12 mm")]).verdict(check),
        ),
    ]
}
