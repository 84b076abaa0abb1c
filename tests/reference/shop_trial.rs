//! What a builder stumbled over in the shop: each number held against a sum by hand or a published size.

use super::close as near;
use super::stage_loop::{GARDEN, HARBOUR, sample};
use crate::support::{Bench, si, value, verdict};
use sunharp::cli::procedure::page_of;
use sunharp::model::Address;
use sunharp::model::Verdict::{Caution, Clear, Unknown};
use sunharp::solve::progress::comes_first;
use sunharp::stage::procedure::procedure;
use sunharp::stage::{self, plumbing::pictures::pump_curve};
use sunharp::workbook::mend::words;

/// The guide specification of solar heating systems (verified) sets 125 psi as the most; 160 psi over parts of 150 psi is mended
/// to that, written as a valve is sold, and in the metric project to half bars below the 4 bar of its weakest part.
#[test]
fn a_relief_setting_is_mended_in_the_projects_units_with_room_below_the_limit() {
    let book = sample(GARDEN, &[("plumbing.relief_setting", "160 psi"), ("plumbing.weakest_rating", "150 psi")]);
    assert_eq!(verdict(&book, "plumbing.relief-chain"), "stop");
    assert_eq!(words(&book.mend("plumbing.relief-chain").unwrap()), "plumbing.relief_setting = 125 psi");
    let book = sample(HARBOUR, &[("plumbing.weakest_rating", "4 bar")]);
    let mend = words(&book.mend("plumbing.relief-chain").unwrap());
    assert!(mend.contains("plumbing.relief_setting = 3.5 bar"), "{mend}");
}

/// A cup for 1/2 in tube is 0.50 in deep (copper handbook, solder-joint fittings): a tee with its shoulder at 20 mm ends 32.7 mm
/// from the header's axis. A collar leaves the riser between the headers of 1 1/8 in free.
#[test]
fn the_sheet_ends_at_the_mouths_of_the_tees() {
    let tees = Bench::small();
    near(tees.number("absorber.sheet_along"), 1.877_425 - 2.0 * (0.020 + 0.0127), 1e-9);
    near(tees.number("absorber.area"), 0.906 * 1.812_025, 1e-9);
    near(tees.number("absorber.bond_run"), 9.0 * 1.812_025, 1e-9);
    assert_eq!(tees.verdict("absorber.sheet-fittings"), Clear);
    let collars = Bench::small().with("absorber.joint", "collar");
    near(collars.number("absorber.sheet_along"), 1.877_425 - 0.028_575, 1e-9);
    assert_eq!(Bench::small().without("absorber.tee_shoulder").verdict("absorber.sheet-fittings"), Unknown);
    // Tees whose mouths meet leave nothing free.
    assert_eq!(
        Bench::small()
            .with("absorber.cup_depth", "95 mm")
            .with("absorber.header_spacing", "200 mm")
            .verdict("absorber.sheet-fittings"),
        Caution
    );
}

/// The label's last point is 6 gpm, 3.785e-4 m³/s; with a smaller last point the same pump runs beyond it.
#[test]
fn a_pump_that_runs_beyond_its_label_is_told() {
    let on = sample(GARDEN, &[]);
    let flow = si(&on, "plumbing.pump_flow");
    let label = value(&on, "plumbing.pump_label").unwrap().text(sunharp::units::System::Si);
    assert_eq!(label.starts_with("yes"), flow <= 6.0 * 3.785_411_784e-3 / 60.0, "{label}");
    // Points of the same parabola, but only as far as 1.5 gpm.
    let short = [("plumbing.pump_point.2.flow", "0.75 gpm"), ("plumbing.pump_point.3.flow", "1.5 gpm")];
    let heads = [("plumbing.pump_point.2.head", "26.6 ft"), ("plumbing.pump_point.3.head", "26 ft")];
    let beyond = sample(GARDEN, &[short[0], short[1], heads[0], heads[1]]);
    let label = value(&beyond, "plumbing.pump_label").unwrap().text(sunharp::units::System::Si);
    assert!(label.starts_with("no, beyond the last point"), "{label}");
    assert_eq!(verdict(&beyond, "plumbing.pump-duty"), "caution");
    let chart = pump_curve(&beyond.evaluation().drawn).unwrap();
    let end = 1.5 * 3.785_411_784e-3 / 60.0;
    let line = chart.lines.iter().find(|line| line.label == "pump").unwrap();
    near(line.points.last().unwrap().0, end, 1e-9);
    assert!(chart.marks.iter().any(|mark| mark.label == "label ends"));
}

/// A loop that drains back has a reservoir with air and no vessel: its steps are gone, and the filling does not wait for them.
#[test]
fn steps_of_a_vessel_apply_only_where_there_may_be_one() {
    let fill = stage::step("commissioning.fill").unwrap();
    let of = |bench: &Bench, id: &str| bench.evaluate().step(&Address::drawn(id)).is_some();
    let waits = |bench: &Bench| {
        let evaluation = bench.evaluate();
        let state = evaluation.step(&Address::drawn(fill.id)).unwrap();
        let snapshot = bench.snapshot();
        let first = comes_first(state.step, &state.address, &snapshot.records, &snapshot.entries, &snapshot.panels);
        first.iter().any(|first| first.id == "commissioning.vessel-open")
    };
    let glycol = Bench::small().with("plumbing.loop", "glycol").with("plumbing.glycol", "40 %");
    let drains = Bench::small().with("plumbing.loop", "drainback");
    for id in ["plumbing.vessel", "commissioning.vessel-open"] {
        assert_eq!((of(&glycol, id), of(&drains, id)), (true, false), "{id}");
    }
    assert_eq!((waits(&glycol), waits(&drains)), (true, false));
    let lay_up = |bench: &Bench| page_of(&bench.evaluate(), procedure("lay-up").unwrap()).text();
    assert!(lay_up(&glycol).contains("Glycol"), "{}", lay_up(&glycol));
    assert!(!lay_up(&drains).contains("Glycol"), "{}", lay_up(&drains));
}

#[test]
fn a_glazed_plate_is_not_judged_as_a_bare_one() {
    let judgement = |bench: &Bench| bench.evaluate().verdict("absorber.bare-plate").unwrap().judgement.clone().unwrap();
    assert_eq!(judgement(&Bench::small()).does_not_apply, Some("the plate lies under glass"));
    let bare = judgement(&Bench::small().with("absorber.glazing", "none"));
    assert_eq!((bare.verdict, bare.does_not_apply), (Caution, None));
}

/// The procedures name the people that the weight asks for (revised NIOSH lifting equation), not only those who were named.
#[test]
fn a_procedure_counts_the_people_that_the_weight_asks_for() {
    let bench = Bench::small().with("enclosure.lifters", "2");
    let people = bench.number("enclosure.people");
    assert!(people > 2.0, "{people}");
    for name in ["repair", "end-of-life"] {
        let text = page_of(&bench.evaluate(), procedure(name).unwrap()).text();
        let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat.contains(&format!("{people} people by its weight, 2 named for the lift")), "{flat}");
    }
}

/// Three powers of steam under three conditions: each says which, and the one that sizes the relief valve is its limit.
#[test]
fn every_power_of_steam_names_its_condition() {
    let label = |id: &str| stage::figure(id).unwrap().0.label;
    assert!(label("plumbing.steam_power").contains("worst sun"));
    assert!(label("safety.steam_power").contains("1200 W/m²"));
    assert!(label("safety.steam_power_most").contains("sizes the relief valve"));
    let bench = Bench::small();
    let judged = bench.evaluate().verdict("safety.relief-size").unwrap().judgement.clone().unwrap();
    near(judged.limit.unwrap().si, bench.number("safety.steam_power_most"), 1e-9);
}
