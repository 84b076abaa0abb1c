//! The work itself: torch, fume, dust, metals, ladder, wind, roof, mains, licences. Each check tripped by one or two
//! answers of a clear project, and a hair inside its limit.

use super::close as near;
use crate::support::Bench;
use sunharp::model::Verdict::{self, Caution, Clear, Stop, Unknown};

/// What one row of a table changes in the small project.
type Answers = &'static [(&'static str, &'static str)];

fn with(answers: Answers) -> Bench {
    answers.iter().fold(Bench::small(), |bench, (entry, typed)| bench.with(entry, typed))
}

fn all(check: &str, rows: &[(Answers, Verdict)]) {
    assert_eq!(Bench::small().verdict(check), Clear, "{check} of the small project");
    for (answers, verdict) in rows {
        assert_eq!(with(answers).verdict(check), *verdict, "{check} with {answers:?}");
    }
}

/// Sessions of 20 joints with rosin, 30 with other flux (project rule); cadmium by the filler's composition (AWS A5.8).
#[test]
fn fume_is_judged_by_place_joints_flux_and_filler() {
    const FAN: (&str, &str) = ("safety.fume", "window and fan");
    all(
        "safety.fume",
        &[
            (&[FAN, ("safety.joints_session", "30")], Clear),
            (&[FAN, ("safety.joints_session", "31")], Caution),
            (&[FAN, ("safety.flux", "rosin"), ("safety.joints_session", "20")], Clear),
            (&[FAN, ("safety.flux", "rosin"), ("safety.joints_session", "21")], Caution),
            (&[("safety.fume", "closed room"), ("safety.joints_session", "1")], Stop),
            (&[("safety.brazing_filler", "BAg-1")], Stop),
            (&[("safety.brazing_filler", "BAg-5")], Clear),
            (
                &[
                    ("safety.brazing_filler", "BAg-1"),
                    ("absorber.header_filler", "soldered"),
                    ("safety.joint_solder", "Sn96.5Ag3.5"),
                ],
                Clear,
            ),
        ],
    );
}

#[test]
fn treated_wood_and_bare_lungs_stop() {
    all("safety.dust", &[(&[("safety.treated_timber", "yes")], Stop), (&[("safety.dust_protection", "no")], Stop)]);
}

/// 1 m (project rule).
#[test]
fn what_burns_stays_a_metre_from_the_flame() {
    all(
        "safety.torch-place",
        &[
            (&[("safety.hot_work_clear", "1 m"), ("safety.torch_shield", "no")], Clear),
            (&[("safety.hot_work_clear", "0.999 m")], Caution),
            (&[("safety.hot_work_clear", "0.999 m"), ("safety.torch_shield", "no")], Stop),
            (&[("safety.extinguisher", "no")], Stop),
        ],
    );
    let near = with(&[("safety.hot_work_clear", "0.999 m")]).without("safety.torch_shield");
    assert_eq!(near.verdict("safety.torch-place"), Unknown);
}

#[test]
fn cylinders_are_judged_by_the_torch() {
    all(
        "safety.cylinders",
        &[
            (&[("safety.cylinders_secured", "no")], Stop),
            (&[("safety.flashback_arrestors", "no")], Stop),
            (&[("safety.torch", "air-fuel"), ("safety.flashback_arrestors", "no")], Clear),
            (&[("safety.torch", "hand torch"), ("safety.cylinders_secured", "no")], Clear),
        ],
    );
    let judged = with(&[("safety.torch", "hand torch")]).evaluate();
    let judgement = judged.verdict("safety.cylinders").unwrap().judgement.clone().unwrap();
    assert_eq!(judgement.does_not_apply, Some("a hand torch has its cartridge in the hand"));
}

#[test]
fn a_wet_or_closed_harp_stops_the_torch_on_its_panel_alone() {
    const CHECK: &str = "safety.harp-open";
    let bench = Bench::small().reading("safety.harp_open@A", "no");
    let evaluation = bench.evaluate();
    assert_eq!(evaluation.verdict(CHECK).unwrap().verdict, Stop);
    let held = |id: &str| sunharp::stage::step(id).unwrap().held_by.contains(&CHECK);
    assert!(held("absorber.join") && held("absorber.solder-sheet"));
}

/// 0.25 % by wetted area (drinking water act). 0.02 m² with 0.2 % and 0.01 m² with 0.1 % are 0.1667 % by hand.
#[test]
fn lead_is_weighed_by_wetted_area() {
    const CHECK: &str = "safety.lead-surfaces";
    near(Bench::small().number("safety.lead_average"), 0.005 / 3.0, 1e-12);
    all(
        CHECK,
        &[
            (&[("safety.wetted.pump.lead", "0.249 %"), ("safety.wetted.valve.lead", "0.249 %")], Clear),
            (&[("safety.wetted.valve.lead", "0.349 %")], Caution),
            (&[("safety.wetted.valve.lead", "0.351 %")], Stop),
            (&[("safety.wetted.valve.lead", "2.5 %"), ("plumbing.loop", "drainback")], Stop),
        ],
    );
    assert_eq!(Bench::small().without("safety.wetted.valve.area").verdict(CHECK), Unknown);
    let none = Bench::small().without("safety.wetted.valve.area").without("safety.wetted.valve.lead");
    let none = none.without("safety.wetted.pump.area").without("safety.wetted.pump.lead");
    assert_eq!(none.verdict(CHECK), Unknown);
    assert_eq!(none.with("plumbing.loop", "drainback").verdict(CHECK), Clear);
}

/// Anodic indices of the galvanic table: copper −0.35, stainless −0.50, tin −0.65, lead −0.70, aluminium −0.90 V; 0.15 V
/// outdoors and 0.50 V dry (verified; index of aluminium from memory).
#[test]
fn metals_that_touch_are_judged_by_their_indices() {
    all(
        "safety.galvanic",
        &[
            (&[("safety.contact_metal", "18 % Cr stainless")], Clear),
            (&[("safety.contact_metal", "lead")], Caution),
            (&[("safety.contact_metal", "aluminium wrought other")], Stop),
            (&[("safety.contact_metal", "aluminium wrought other"), ("safety.contact_parted", "yes")], Clear),
            (&[("safety.galvanised_in_loop", "yes")], Stop),
            (&[("safety.galvanised_in_loop", "yes"), ("plumbing.loop", "glycol")], Caution),
        ],
    );
}

/// 4 to 1 is 75.96° (computed); 3 ft above the edge (ladder guide, verified).
#[test]
fn a_ladder_stands_four_to_one_three_feet_above_and_tied() {
    near(Bench::small().number("safety.ladder_angle").to_degrees(), 75.96, 0.005);
    all(
        "safety.ladder",
        &[
            (&[("safety.ladder_height", "4.5 m")], Clear),
            (&[("safety.ladder_height", "4.51 m")], Caution),
            (&[("safety.ladder_height", "5.01 m")], Stop),
            (&[("safety.ladder_height", "2.99 m")], Stop),
            (&[("safety.ladder_above", "3 ft")], Clear),
            (&[("safety.ladder_above", "2.99 ft")], Stop),
            (&[("safety.ladder_tied", "no")], Stop),
            (&[("safety.access", "platform"), ("safety.ladder_tied", "no")], Clear),
            (&[("safety.access", "ground"), ("safety.work_height", "0 m"), ("safety.ladder_tied", "no")], Clear),
        ],
    );
}

/// 2 m² at 10 m/s are 147 N (computed: 0.613 v², drag coefficient 1.2 of a plate broadside, from memory). 10 m/s and 20 N
/// for each person: project rules; the lower of the two winds counts, and a hoist has no hands.
#[test]
fn wind_on_a_carried_panel() {
    let bench = with(&[("safety.handling_wind", "10 m/s")]);
    let area = bench.number("enclosure.outside_area");
    near(bench.number("safety.handling_force") * 2.0 / area, 147.1, 0.05);
    all(
        "safety.handling-wind",
        &[
            (&[("safety.handling_wind", "10 m/s"), ("enclosure.lifters", "12")], Clear),
            (&[("safety.handling_wind", "10.01 m/s"), ("enclosure.lifters", "12")], Stop),
            (&[("safety.handling_wind", "10 m/s"), ("enclosure.hoist", "yes")], Clear),
        ],
    );
    let three = with(&[("enclosure.lifters", "3")]);
    let most = three.number("enclosure.lift_wind");
    near(0.613 * 1.2 * most * most * area, 60.0, 0.1);
    let at = |wind: f64| three.clone().with("safety.handling_wind", &format!("{wind} m/s"));
    assert_eq!(
        (at(most - 0.01).verdict("safety.handling-wind"), at(most + 0.01).verdict("safety.handling-wind")),
        (Clear, Stop)
    );
    assert!(most < 10.0, "{most}");
}

#[test]
fn roof_glass_and_hot_metal() {
    const REACH: (&str, &str) = ("safety.hot_within_reach", "yes");
    all(
        "safety.roof-holes",
        &[
            (&[("safety.roof_flashed", "no")], Stop),
            (&[("safety.roof_flashed", "no"), ("safety.roof_holes", "0")], Clear),
        ],
    );
    all("safety.glass-handling", &[(&[("safety.glass_hands", "alone")], Stop)]);
    all("safety.hot-surfaces", &[(&[REACH, ("safety.hot_guarded", "no")], Caution)]);
    all("safety.hot-surfaces", &[(&[REACH, ("safety.hot_guarded", "yes")], Clear)]);
    assert_eq!(with(&[("safety.hot_within_reach", "yes")]).verdict("safety.hot-surfaces"), Unknown);
}

/// 0.1 ohm (project rule); one earth (page on earthing of collectors).
#[test]
fn bonds_go_to_the_building_and_carry() {
    all("safety.bonding", &[(&[("safety.bonded_to", "own rod")], Stop), (&[("safety.bonded_to", "nothing")], Stop)]);
    let measured = |ohms: &str| Bench::small().reading("safety.bond_resistance", ohms).verdict("safety.bonding");
    assert_eq!(measured("0.1 ohm"), Clear);
    assert_eq!(measured("0.101 ohm"), Stop);
    all("safety.mains", &[(&[("safety.isolator", "no")], Stop), (&[("safety.pump_dry", "no")], Stop)]);
}

#[test]
fn licences_lapse_and_inspections_come() {
    all(
        "safety.licence-dates",
        &[
            (&[("safety.licence.plumber.until", "2026-06-01")], Clear),
            (&[("safety.licence.plumber.until", "2026-05-31")], Stop),
            (&[("safety.licence.roofer.until", "2026-05-31")], Stop),
            (&[("safety.licence.roofer.holder", "D. Tile")], Unknown),
        ],
    );
    all(
        "safety.inspection",
        &[(&[("safety.inspection_date", "2026-06-01")], Clear), (&[("safety.inspection_date", "2026-06-02")], Caution)],
    );
}

/// A limit that is only recalled never clears by itself: the solidus of tin-antimony stands in the handbook from memory.
#[test]
fn what_is_recalled_may_warn_but_not_clear() {
    use sunharp::handbook::{Provenance, solder};
    let cool = [("absorber.absorptance", "50 %")];
    for alloy in solder::alloys().all() {
        let bench = cool.iter().fold(Bench::small(), |bench, (entry, typed)| bench.with(entry, typed));
        let bench = bench.with("absorber.solder", &alloy.name);
        let verdict = bench.verdict("safety.stagnation-material");
        if alloy.provenance == Provenance::Recalled {
            assert_ne!(verdict, Clear, "{}", alloy.name);
        } else if alloy.conductivity.is_some() {
            assert_eq!(verdict, Clear, "{}", alloy.name);
        }
    }
}
