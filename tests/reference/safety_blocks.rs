//! A stop holds the steps that it would make dangerous, until it is gone or overruled in writing.

use crate::support::{Bench, SMALL};
use sunharp::model::{Address, Stage, Verdict};
use sunharp::solve::progress::held;
use sunharp::stage;
use sunharp::stage::safety::register::REGISTER;

const FILL: &str = "commissioning.fill";
/// The controller set and the pump left to it: from here on the loop runs.
const RUN: &str = "commissioning.settings";

/// What is dangerous where, from the reference note on dangers: the steps that each check's stop must hold.
const HOLDS: &[(&str, &[&str])] = &[
    ("safety.stagnation-material", &[FILL, "enclosure.bake-out"]),
    ("safety.joint-pressure", &[FILL]),
    ("safety.relief-path", &[FILL, RUN, "commissioning.prove-no-flow", "commissioning.prove-power-cut"]),
    ("safety.relief-setting", &[FILL]),
    ("safety.relief-size", &[FILL]),
    ("safety.discharge", &[FILL]),
    ("safety.cross-connection", &[FILL]),
    ("safety.cold-slug", &[FILL]),
    ("safety.lead", &[FILL, "absorber.solder-sheet"]),
    ("safety.lead-surfaces", &[FILL]),
    ("safety.galvanic", &[FILL]),
    ("safety.freezing", &[FILL, RUN]),
    ("safety.frost-valve", &[FILL, RUN]),
    ("safety.power-cut", &[RUN]),
    ("safety.scald", &[RUN]),
    ("safety.scald-year", &[RUN]),
    ("safety.tap-valve", &[RUN, "safety.scald-test"]),
    ("safety.tank-limit", &[RUN]),
    ("safety.legionella", &[RUN]),
    ("safety.mains", &[RUN]),
    ("safety.bonding", &[RUN]),
    ("safety.harp-open", &["absorber.join", "absorber.solder-sheet"]),
    ("safety.fume", &["absorber.join", "absorber.solder-sheet", "absorber.coupon"]),
    ("safety.torch-place", &["absorber.join", "absorber.solder-sheet", "absorber.coupon"]),
    ("safety.cylinders", &["absorber.join", "absorber.solder-sheet", "absorber.coupon"]),
    ("safety.fire-watch", &["absorber.join", "absorber.solder-sheet"]),
    ("safety.dust", &["enclosure.cut", "enclosure.insulate"]),
    ("safety.glass-handling", &["enclosure.glaze"]),
    ("safety.height", &["enclosure.lift-plan", "enclosure.mount-holes"]),
    ("safety.ladder", &["enclosure.lift-plan", "enclosure.mount-holes"]),
    ("safety.handling-wind", &["enclosure.lift-plan"]),
    ("safety.roof-holes", &["enclosure.mount-holes"]),
    ("safety.licence-dates", &["safety.licences"]),
    ("plumbing.relief-reach", &[FILL]),
    ("plumbing.relief-chain", &[FILL]),
    ("plumbing.vessel-size", &[FILL]),
    ("plumbing.hose-rating", &[FILL]),
    ("plumbing.steam-parts", &[FILL]),
    ("plumbing.cold-slug", &[FILL]),
    ("plumbing.lockout", &[RUN]),
    ("plumbing.potable-expansion", &[RUN]),
    ("enclosure.timber-behind", &[FILL, "enclosure.bake-out"]),
    ("enclosure.timber-rail", &[FILL, "enclosure.bake-out"]),
    ("enclosure.glass-kind", &["enclosure.glaze"]),
    ("enclosure.lift", &["enclosure.lift-plan"]),
    ("enclosure.chain", &["enclosure.mount-holes"]),
    ("enclosure.roof-load", &["enclosure.mount-holes"]),
    ("enclosure.rack-stands", &["enclosure.mount-holes"]),
    ("commissioning.test-medium", &["commissioning.loop-test"]),
];

/// Checks of the safety stage that never stop: the worst they say is caution, or unknown.
const NEVER_STOP: [&str; 7] = [
    "safety.steam",
    "safety.legionella-days",
    "safety.outlets",
    "safety.electrical",
    "safety.hot-surfaces",
    "safety.licensed",
    "safety.inspection",
];

#[test]
fn every_stop_of_the_safety_stage_holds_the_steps_that_it_would_make_dangerous() {
    for check in stage::checks().iter().filter(|check| check.stage() == Stage::Safety) {
        let never = NEVER_STOP.contains(&check.id);
        assert_ne!(never, HOLDS.iter().any(|(id, _)| *id == check.id), "{}", check.id);
    }
    for (check, steps) in HOLDS {
        assert!(REGISTER.iter().any(|hazard| hazard.checks.contains(check)), "{check} is in no hazard");
        for id in *steps {
            let step = stage::step(id).unwrap_or_else(|| panic!("no step {id}"));
            assert!(step.held_by.contains(check), "a stop of {check} does not hold {id}");
        }
    }
}

/// A few stops of the small project, one by one: the step is held, and no longer when the stop is gone.
#[test]
fn a_stop_holds_and_its_end_sets_free() {
    for (entry, bad, check, step) in [
        ("safety.shut_in", "yes", "safety.relief-path", FILL),
        ("safety.discharge_falls", "no", "safety.discharge", FILL),
        ("absorber.solder", "Sn50Pb50", "safety.lead", FILL),
        ("safety.frost_second", "none", "safety.freezing", RUN),
        ("safety.mixing_valve_rating", "60 °C", "safety.scald", RUN),
        ("safety.final_stage", "none", "safety.legionella", RUN),
        ("safety.isolator", "no", "safety.mains", RUN),
        ("safety.bonded_to", "own rod", "safety.bonding", RUN),
        ("safety.flashback_arrestors", "no", "safety.cylinders", "absorber.join"),
        ("safety.glass_hands", "alone", "safety.glass-handling", "enclosure.glaze"),
    ] {
        let holds = |bench: &Bench| {
            held(stage::step(step).unwrap(), &Address::drawn(step), &bench.evaluate().verdicts).contains(&check)
        };
        assert!(!holds(&Bench::small()), "{check} holds {step} without a stop");
        assert!(holds(&Bench::small().with(entry, bad)), "{check} does not hold {step}");
    }
}

/// Ruling of the project: a written reason, two names, for what can kill one of them licensed. The overruling stands in the
/// file; the verdict stays a stop and says so.
#[test]
fn an_overruled_stop_holds_no_longer_and_is_still_told() {
    let stopped = SMALL.replace("isolator = \"yes\"", "isolator = \"no\"");
    let record = |by: &str| {
        format!(
            "{stopped}\n[override.\"safety.mains\".2026-05-20-1]\nreason = \"isolator comes on Monday, pump unplugged\"\n\
             by = [\"B. Wire\", {by}]\nlicensed = \"B. Wire\"\nsaw = {{ \"safety.isolator\" = \"no\" }}\n"
        )
    };
    let held_in = |text: &str| {
        let evaluation = Bench::of(text).evaluate();
        let judged = evaluation.verdict("safety.mains").unwrap().clone();
        assert_eq!(judged.verdict, Verdict::Stop);
        let holds = held(stage::step(RUN).unwrap(), &Address::drawn(RUN), &evaluation.verdicts);
        let hazard = evaluation.hazard(sunharp::stage::safety::register::named("mains").unwrap()).text();
        (holds.contains(&"safety.mains"), judged.overruled.is_some(), hazard)
    };
    assert_eq!(held_in(&stopped), (true, false, "1 stop, 2 clear".to_owned()));
    assert_eq!(held_in(&record("\"Ines\"")), (false, true, "1 stop, 2 clear, 1 overruled in writing".to_owned()));
    assert_eq!(held_in(&record("\"b.  wire\"")), (true, false, "1 stop, 2 clear".to_owned()));
}
