//! The loop as runs and parts: numbers against published rules and hand sums, and every failing line mended.

use std::collections::BTreeSet;
use std::path::Path;
use std::sync::Arc;

use proptest::prelude::*;
use sunharp::model::Verdict;
use sunharp::project::store::RealDisk;
use sunharp::workbook::Workbook;
use sunharp::workbook::mend::words;

use crate::support::{si, value, verdict};

pub(super) const GARDEN: &str = "garden-washroom.toml";
pub(super) const BOAT: &str = "boatyard-shower.toml";
pub(super) const HARBOUR: &str = "harbour-laundry.toml";

/// A sample beside its weather, with some entries typed anew; an empty text takes one out.
pub(super) fn sample(name: &str, changes: &[(&str, &str)]) -> Workbook {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-projects");
    let text = std::fs::read_to_string(folder.join(name)).unwrap();
    let mut book =
        Workbook::unsaved(Arc::new(RealDisk), &folder.join("test.toml"), text, jiff::civil::date(2026, 6, 1));
    for (id, typed) in changes {
        let made = if typed.is_empty() { book.unset(id) } else { book.set(id, typed) };
        made.unwrap_or_else(|error| panic!("{name}: {id} = {typed}: {error}"));
    }
    book
}

fn stops(book: &Workbook) -> BTreeSet<&'static str> {
    let stopped = book.evaluation().verdicts.iter().filter(|judged| judged.verdict == Verdict::Stop);
    stopped.map(|judged| judged.check.id).collect()
}

/// Mends one check and looks again: it no longer stops, and nothing stops that did not before.
fn mended(mut book: Workbook, check: &str) -> String {
    let before = stops(&book);
    assert!(before.contains(check), "{check} does not stop, only {before:?}");
    let mend = book.mend(check).unwrap_or_else(|| panic!("nothing mends {check}"));
    book.apply_mend(&mend).unwrap();
    assert_eq!(book.project().problems, [], "{}", words(&mend));
    let after = stops(&book);
    assert!(!after.contains(check), "{} does not mend {check}", words(&mend));
    let new: Vec<_> = after.difference(&before).collect();
    assert!(new.is_empty(), "{} makes {new:?} stop", words(&mend));
    words(&mend)
}

/// One way to break a sample: its file, what is typed, and the check that then stops.
type Break = (&'static str, &'static [(&'static str, &'static str)], &'static str);

const BREAKS: [Break; 14] = [
    (
        BOAT,
        &[("plumbing.run.feed.along", "v2, check"), ("plumbing.run.return.along", "vent, relief")],
        "plumbing.relief-reach",
    ),
    (GARDEN, &[("plumbing.run.up.pipe", "3/8 in type M")], "plumbing.pipe-speed"),
    (GARDEN, &[("plumbing.part.reservoir.volume", "4 gal")], "plumbing.reservoir-size"),
    (GARDEN, &[("plumbing.run.down.rise", "-4 in")], "plumbing.drain-falls"),
    (
        GARDEN,
        &[
            ("plumbing.pump_point.1.head", "12 ft"),
            ("plumbing.pump_point.2.head", "9 ft"),
            ("plumbing.pump_point.3.head", "3 ft"),
        ],
        "plumbing.drainback-fill",
    ),
    (GARDEN, &[("plumbing.lock_out", "250 °F")], "plumbing.lockout"),
    (GARDEN, &[("plumbing.part.v1.kind", "check valve")], "plumbing.night-flow"),
    (GARDEN, &[("plumbing.weakest_rating", "20 psi")], "plumbing.relief-chain"),
    (BOAT, &[("plumbing.potable_vessel", "0 L")], "plumbing.potable-expansion"),
    (
        BOAT,
        &[("plumbing.run.feed.along", ""), ("plumbing.part.check.kind", ""), ("plumbing.part.check.setting", "")],
        "plumbing.night-flow",
    ),
    (BOAT, &[("plumbing.pump_suction", "61 ft"), ("plumbing.mains_pressure", "16 psi")], "plumbing.suction"),
    (HARBOUR, &[("plumbing.part.vessel.volume", "8 L")], "plumbing.vessel-size"),
    (HARBOUR, &[("plumbing.weakest_rating", "4 bar")], "plumbing.relief-chain"),
    (HARBOUR, &[("plumbing.part.coil.kind", "exchanger"), ("plumbing.slug_protection", "none")], "plumbing.cold-slug"),
];

/// Guide specification of solar heating systems (verified): 400 °F beside the panels, 250 °F elsewhere. Cellular glass stands
/// 427 °C, melamine 177 °C, pipe-grade polyiso 149 °C (their standards, verified); the limit of rock wool is from memory.
#[test]
fn insulation_of_the_pipe_is_hottest_beside_the_panels() {
    const CHECK: &str = "plumbing.run-insulation";
    let judged = |down: &str, suction: &str| {
        let runs = [("plumbing.run.down.insulation", down), ("plumbing.run.up.insulation", "cellular glass C552")];
        let rest = [("plumbing.run.suction.insulation", suction), ("plumbing.run.suction.thickness", "1 in")];
        let book = sample(GARDEN, &[runs[0], runs[1], rest[0], rest[1]]);
        verdict(&book, CHECK)
    };
    let (glass, polyiso, foam) =
        ("cellular glass C552", "polyisocyanurate, pipe grade C591", "elastomeric tube C534 grade I");
    assert_eq!(judged(glass, polyiso), "clear");
    assert_eq!(judged(glass, foam), "caution");
    assert_eq!(judged("melamine foam C1410", polyiso), "caution");
    assert_eq!(judged("mineral (rock) wool board C612 IVA", polyiso), "caution");
}

#[test]
fn every_stop_of_the_loop_comes_with_a_change_that_mends_it() {
    for (file, changes, check) in BREAKS {
        let made = mended(sample(file, changes), check);
        assert!(made.contains("plumbing."), "{check}: {made}");
    }
}

#[test]
fn a_valve_that_shuts_the_panel_in_is_named_and_its_handle_is_the_cheapest_thing_to_take_off() {
    let shut = [("plumbing.run.return.along", "vent, v2"), ("plumbing.run.feed.along", "check, relief")];
    // The relief valve behind the check valve still takes what comes from the panel's inlet side.
    let book = sample(BOAT, &shut);
    assert_eq!(verdict(&book, "plumbing.relief-reach"), "clear");
    let shut = [("plumbing.run.return.along", "vent, v2"), ("plumbing.run.feed.along", "relief, check")];
    let book = sample(BOAT, &shut);
    assert_eq!(verdict(&book, "plumbing.relief-reach"), "stop");
    let found = value(&book, "plumbing.shut_in_parts").unwrap().text(sunharp::units::System::Si);
    assert!(found.contains("panels") && found.contains("v2"), "{found}");
    assert_eq!(mended(book, "plumbing.relief-reach"), "plumbing.part.v2.locked = yes");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 12, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is wrong by however much: a mend that is offered keeps what it promises.
    #[test]
    fn a_mend_that_is_offered_mends_and_harms_nothing(
        vessel in 2.0..60.0_f64,
        relief in 2.0..9.0_f64,
        weakest in 2.0..9.0_f64,
        lockout in 60.0..150.0_f64,
        size in 0..3_usize,
        potable in 0.0..40.0_f64,
    ) {
        let pipe = ["12 x 1.0 mm EN 1057", "15 x 1.0 mm EN 1057", "22 x 1.2 mm EN 1057"][size];
        let typed = [
            ("plumbing.part.vessel.volume", format!("{vessel:.1} L")),
            ("plumbing.relief_setting", format!("{relief:.2} bar")),
            ("plumbing.weakest_rating", format!("{weakest:.2} bar")),
            ("plumbing.lock_out", format!("{lockout:.0} °C")),
            ("plumbing.run.hot.pipe", pipe.to_owned()),
            ("plumbing.potable_vessel", format!("{potable:.1} L")),
        ];
        let changes: Vec<(&str, &str)> = typed.iter().map(|(id, text)| (*id, text.as_str())).collect();
        let book = sample(HARBOUR, &changes);
        for check in stops(&book) {
            if book.mend(check).is_some() {
                mended(sample(HARBOUR, &changes), check);
            }
        }
    }
}

/// 300 L from 10 to 85 °C grow by 9.6 L (density of water after IAPWS-95: 999.70 and 968.61 kg/m³).
#[test]
fn heated_drinking_water_grows_as_its_density_says() {
    let book = sample(BOAT, &[("plumbing.tank", "300 L"), ("plumbing.tank_limit", "85 °C")]);
    let grows = si(&book, "plumbing.potable_growth") * 1e3;
    assert!((grows - 300.0 * (999.70 / 968.61 - 1.0)).abs() < 0.05, "{grows} L");
}

/// The panels rise by their header spacing times sin(tilt): 1.9 m at 55° are 1.556 m; the loop closes to 4 mm.
#[test]
fn heights_add_up_around_the_loop() {
    let book = sample(HARBOUR, &[]);
    let gap = 3.2 + 1.9 * 55.0_f64.to_radians().sin() - 4.16 - 0.6;
    assert!((si(&book, "plumbing.height_gap") - gap).abs() < 1e-9);
    assert_eq!(verdict(&book, "plumbing.heights"), "clear");
}

/// Kirchhoff: the drops of all runs, panels, coil and parts are the loop's; the pump's head is what its flow costs.
#[test]
fn the_drops_around_the_loop_add_up() {
    let book = sample(HARBOUR, &[]);
    let runs: f64 = (1..=3).map(|run| si(&book, &format!("plumbing.run_drop.{run}"))).sum();
    assert!((runs - si(&book, "plumbing.pipe_drop")).abs() < 1e-6 * runs);
    let rest = ["plumbing.panels_drop", "plumbing.coil_drop", "plumbing.parts_drop"].map(|id| si(&book, id));
    let total = runs + rest.iter().sum::<f64>();
    assert!((total - si(&book, "plumbing.loop_drop")).abs() < 1e-6 * total);
    let groups: f64 = (1..=4).map(|group| si(&book, &format!("plumbing.group_flow.{group}"))).sum();
    assert!((groups / si(&book, "plumbing.flow") - 1.0).abs() < 1e-9);
}

/// Speed at most 5 ft/s (UFC 3-440-01, appendix D, verified): one size narrower fails it, the mend widens the pipe.
#[test]
fn the_speed_limit_of_the_facilities_criteria_holds_run_by_run() {
    let mut narrow = sample(GARDEN, &[("plumbing.run.down.pipe", "1/4 in type L")]);
    assert_eq!(verdict(&narrow, "plumbing.pipe-speed"), "stop");
    let limit = 5.0 * 0.3048;
    assert!(si(&narrow, "plumbing.velocity") > limit);
    narrow.set("plumbing.run.down.pipe", "3/4 in type M").unwrap();
    assert_eq!(verdict(&narrow, "plumbing.pipe-speed"), "clear");
}

/// A vent at every high point, a drain at every low one (UFC 3-440-01, 4-2.2.7 and appendix E, verified).
#[test]
fn vents_and_drains_are_missed_where_the_criteria_want_them() {
    assert_eq!(verdict(&sample(HARBOUR, &[]), "plumbing.vents"), "clear");
    let book = sample(HARBOUR, &[("plumbing.run.hot.along", ""), ("plumbing.part.vent.kind", "")]);
    assert_eq!(verdict(&book, "plumbing.vents"), "caution");
    let changes = [("plumbing.run.low.along", ""), ("plumbing.part.drain.kind", ""), ("plumbing.part.fill.kind", "")];
    assert_eq!(verdict(&sample(HARBOUR, &changes), "plumbing.drains"), "caution");
}

/// 2 cm in each metre (1/4 in a foot): a hair less stops.
#[test]
fn a_drainback_run_must_fall_a_quarter_inch_in_a_foot() {
    let at = |typed: &str| {
        verdict(
            &sample(GARDEN, &[("plumbing.run.down.length", "10 m"), ("plumbing.run.down.rise", typed)]),
            "plumbing.drain-falls",
        )
    };
    assert_eq!(at("-20 cm"), "clear");
    assert_eq!(at("-19.9 cm"), "stop");
}
