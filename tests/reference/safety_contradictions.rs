//! Projects that say two things of one danger: whichever of them is true, nothing may be clear by the other.
//!
//! Each row was found by thinking as a sceptical engineer: the first project has the danger, the second has it not.

use crate::support::Bench;
use sunharp::model::Verdict::{self, Caution, Clear, Stop, Unknown};

type Answers = &'static [(&'static str, &'static str)];

struct Row {
    check: &'static str,
    danger: Answers,
    verdict: Verdict,
    without: Answers,
}

const fn row(check: &'static str, danger: Answers, verdict: Verdict, without: Answers) -> Row {
    Row { check, danger, verdict, without }
}

const GLYCOL: (&str, &str) = ("plumbing.loop", "glycol");
const SHARE: (&str, &str) = ("plumbing.glycol", "50 %");
const EFFECT: (&str, &str) = ("plumbing.exchanger_effectiveness", "60 %");
const FLUSH: (&str, &str) = ("enclosure.mount_kind", "flush");
const SOLDERED: (&str, &str) = ("absorber.header_filler", "soldered");
const OPEN: (&str, &str) = ("plumbing.relief_setting", "0 bar");
const CLOSED: (&str, &str) = ("plumbing.part.tin.kind", "sealed reservoir");
const VENTED: (&str, &str) = ("plumbing.part.tin.kind", "reservoir");

const ROWS: &[Row] = &[
    // Final stage or element hotter than the valve behind them stands.
    row("safety.scald", &[("safety.final_temperature", "90.01 °C")], Stop, &[("safety.final_temperature", "90 °C")]),
    row(
        "safety.scald",
        &[("plumbing.auxiliary", "element"), ("plumbing.element_set", "90.01 °C")],
        Stop,
        &[("plumbing.auxiliary", "inline"), ("plumbing.element_set", "90.01 °C")],
    ),
    // Lead in a pressure joint of a potable loop, by the plan, by the alloy of the headers, by the joint log.
    row(
        "safety.lead",
        &[SOLDERED, ("safety.joint_solder", "Sn50Pb50")],
        Stop,
        &[SOLDERED, ("safety.joint_solder", "Sn96.5Ag3.5")],
    ),
    row("safety.lead", &[("absorber.header_alloy", "Sn60Pb40")], Stop, &[("absorber.header_alloy", "BCuP-5")]),
    row(
        "safety.lead",
        &[("absorber.joint_log.A-upper-1.alloy", "Sn60Pb40")],
        Stop,
        &[("absorber.joint_log.A-upper-1.alloy", "BCuP-5")],
    ),
    row("safety.lead", &[SOLDERED], Unknown, &[SOLDERED, ("safety.joint_solder", "Sn96.5Ag3.5")]),
    // Cadmium by the alloy of the headers, and by the joint log.
    row("safety.fume", &[("absorber.header_alloy", "BAg-1")], Stop, &[("absorber.header_alloy", "BAg-5")]),
    row(
        "safety.fume",
        &[("absorber.joint_log.A-upper-1.alloy", "BAg-1")],
        Stop,
        &[("absorber.joint_log.A-upper-1.alloy", "BCuP-5")],
    ),
    // A loop that is said to be open, and has a closed part.
    row("safety.joint-pressure", &[OPEN, CLOSED], Unknown, &[OPEN, VENTED]),
    row("safety.relief-size", &[OPEN, CLOSED], Unknown, &[OPEN, VENTED]),
    row("safety.discharge", &[OPEN, CLOSED], Unknown, &[OPEN, VENTED]),
    // Panels on a roof, and no hole, no height, no way up.
    row("safety.roof-holes", &[FLUSH, ("safety.roof_holes", "0")], Caution, &[("safety.roof_holes", "0")]),
    row("safety.height", &[FLUSH, ("safety.work_height", "0 m")], Unknown, &[("safety.work_height", "0 m")]),
    row(
        "safety.ladder",
        &[("safety.access", "ground")],
        Unknown,
        &[("safety.access", "ground"), ("safety.work_height", "0 m")],
    ),
    row(
        "safety.ladder",
        &[FLUSH, ("safety.access", "ground"), ("safety.work_height", "0 m")],
        Unknown,
        &[("safety.access", "ground"), ("safety.work_height", "0 m")],
    ),
    // Glycol in the loop, and water by name.
    row(
        "safety.cross-connection",
        &[GLYCOL, SHARE, EFFECT, ("safety.loop_liquid", "water")],
        Unknown,
        &[GLYCOL, SHARE, EFFECT],
    ),
    // Lead in what drinking water touches beyond a closed loop.
    row(
        "safety.lead-surfaces",
        &[("plumbing.loop", "drainback"), ("safety.wetted.valve.lead", "2.5 %")],
        Stop,
        &[("plumbing.loop", "drainback")],
    ),
];

fn judged(answers: Answers, check: &str) -> Verdict {
    answers.iter().fold(Bench::small(), |bench, (entry, typed)| bench.with(entry, typed)).verdict(check)
}

#[test]
fn what_contradicts_a_danger_does_not_clear_it() {
    for Row { check, danger, verdict, without } in ROWS {
        assert_eq!(judged(danger, check), *verdict, "{check} with {danger:?}");
        assert_eq!(judged(without, check), Clear, "{check} with {without:?}");
    }
}

/// A record low that is warmer than the file's coldest hour clears no frost: the file's −16.7 °C (1.9 °F) at Greensboro counts.
#[test]
fn a_record_low_warmer_than_the_file_clears_no_frost() {
    use super::stage_loop::{BOAT, HARBOUR, sample};
    let of = |name: &str, changes: &[(&str, &str)], check: &str| {
        sample(name, changes).evaluation().verdict(check).unwrap().verdict
    };
    let warm = ("site.record_low", "12 °C");
    assert_eq!(of(BOAT, &[warm, ("safety.frost_passive", "none")], "safety.freezing"), Stop);
    assert_eq!(of(BOAT, &[warm, ("safety.frost_passive", "none")], "safety.frost-valve"), Stop);
    // A clear sky freezes the plate in air above 0 °C: an exchanger outside the tank asks for its bypass there, too.
    let plate = [("plumbing.part.coil.kind", "exchanger"), ("plumbing.slug_protection", "none")];
    assert_eq!(of(HARBOUR, &[plate[0], plate[1], warm], "plumbing.cold-slug"), Stop);
}
