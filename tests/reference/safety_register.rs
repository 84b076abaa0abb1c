//! The hazard register: what each hazard must depend on at least, written from the reference note on dangers, held
//! against what the checks declare and against a clear project from which one answer at a time is taken.

use crate::support::{Bench, SMALL, workbook};
use sunharp::model::Verdict::{self, Clear, Unknown};
use sunharp::stage::{self, Severity};

/// A hazard with its check, its severity, and the entries that it must depend on at least.
struct Hazard {
    check: &'static str,
    severity: Severity,
    /// Taken out of the clear project, each of these turns the check to unknown.
    decides: &'static [&'static str],
    /// Read in other projects: another loop, another torch, weather.
    also: &'static [&'static str],
}

const fn hazard(
    check: &'static str,
    severity: Severity,
    decides: &'static [&'static str],
    also: &'static [&'static str],
) -> Hazard {
    Hazard { check, severity, decides, also }
}

use Severity::{Deadly, Injury, Serious};

/// Section by section: temperature, fire, steam, trapped liquid, scald, legionella, freezing, cross-connection and
/// metals, fume and dust, glass, height and lift, electricity, hot surfaces, licences.
const REGISTER: &[Hazard] = &[
    hazard(
        "safety.stagnation-material",
        Serious,
        &[
            "absorber.solder",
            "absorber.header_filler",
            "absorber.sheet_metal",
            "absorber.sheet_thickness",
            "enclosure.glass",
            "enclosure.insulation",
            "enclosure.back_thickness",
            "safety.coating_limit",
            "safety.sealant_limit",
            "safety.hose_limit",
            "safety.sensor_limit",
            "site.tilt",
        ],
        &["absorber.absorptance", "absorber.emittance", "enclosure.air_gap", "site.weather_file", "site.altitude"],
    ),
    hazard(
        "enclosure.timber-behind",
        Serious,
        &["enclosure.back_thickness", "enclosure.insulation"],
        &["enclosure.back_board"],
    ),
    hazard(
        "enclosure.timber-rail",
        Serious,
        &["enclosure.rail_lining", "enclosure.rail_thickness"],
        &["absorber.emittance"],
    ),
    hazard(
        "safety.joint-pressure",
        Deadly,
        &["absorber.header_filler", "plumbing.relief_setting"],
        &["safety.joint_solder", "absorber.absorptance"],
    ),
    hazard(
        "safety.steam",
        Deadly,
        &["plumbing.relief_setting", "plumbing.loop", "site.altitude"],
        &["plumbing.glycol", "absorber.absorptance", "site.weather_file"],
    ),
    hazard(
        "safety.relief-size",
        Deadly,
        &["safety.relief_power", "plumbing.relief_setting", "absorber.riser_count", "absorber.header_spacing"],
        &["absorber.absorptance"],
    ),
    hazard("safety.relief-setting", Deadly, &["plumbing.relief_setting", "plumbing.weakest_rating"], &[]),
    hazard("safety.relief-path", Deadly, &["safety.shut_in"], &[]),
    hazard(
        "safety.discharge",
        Deadly,
        &[
            "safety.relief_outlet",
            "safety.discharge_bore",
            "safety.discharge_end",
            "safety.discharge_pipe",
            "safety.discharge_falls",
            "safety.discharge_free",
            "safety.discharge_seen",
            "safety.discharge_can",
            "plumbing.pipe",
            "plumbing.pipe_length",
        ],
        &[],
    ),
    hazard(
        "safety.scald",
        Serious,
        &["safety.mixing_valve_setting", "safety.mixing_valve_rating", "plumbing.tank_limit", "plumbing.loop"],
        &[],
    ),
    hazard(
        "safety.scald-year",
        Serious,
        &[],
        &["plumbing.tank", "plumbing.people", "site.weather_file", "safety.mixing_valve_rating", "plumbing.tank_limit"],
    ),
    hazard(
        "safety.legionella",
        Deadly,
        &["safety.final_stage", "safety.final_temperature", "safety.final_bypass"],
        &[],
    ),
    hazard(
        "safety.legionella-days",
        Deadly,
        &[],
        &["plumbing.tank", "plumbing.people", "plumbing.per_person", "site.weather_file", "plumbing.tank_limit"],
    ),
    hazard(
        "safety.freezing",
        Serious,
        &["plumbing.loop", "safety.frost_passive", "safety.frost_second"],
        &[
            "site.record_low",
            "safety.drain_fall",
            "commissioning.drained",
            "plumbing.glycol",
            "safety.freezing_point",
            "site.weather_file",
        ],
    ),
    hazard(
        "safety.frost-valve",
        Serious,
        &["plumbing.loop", "safety.frost_passive", "safety.frost_valve_tested"],
        &["site.record_low"],
    ),
    hazard(
        "safety.power-cut",
        Serious,
        &[],
        &["plumbing.loop", "plumbing.relief_setting", "site.weather_file", "absorber.absorptance"],
    ),
    hazard(
        "safety.cross-connection",
        Deadly,
        &["plumbing.loop"],
        &[
            "safety.exchanger_walls",
            "safety.loop_liquid",
            "safety.exchanger_label",
            "safety.potable_pressure",
            "safety.fill_link",
            "safety.backflow_device",
            "plumbing.relief_setting",
        ],
    ),
    hazard(
        "safety.cold-slug",
        Serious,
        &["plumbing.loop"],
        &["safety.exchanger_place", "safety.cold_slug", "safety.loop_check_valve"],
    ),
    hazard("safety.lead", Deadly, &["absorber.solder"], &["plumbing.loop"]),
    hazard(
        "safety.lead-surfaces",
        Deadly,
        &["plumbing.loop", "safety.wetted.pump.area", "safety.wetted.pump.lead", "safety.wetted.valve.lead"],
        &[],
    ),
    hazard(
        "safety.galvanic",
        Injury,
        &["safety.contact_metal", "safety.galvanised_in_loop"],
        &["safety.contact_parted", "plumbing.loop"],
    ),
    hazard(
        "safety.fume",
        Injury,
        &["safety.fume", "safety.joints_session", "safety.flux", "safety.brazing_filler", "absorber.header_filler"],
        &[],
    ),
    hazard("safety.dust", Injury, &["safety.treated_timber", "safety.dust_protection"], &[]),
    hazard("safety.torch-place", Serious, &["safety.extinguisher", "safety.hot_work_clear"], &["safety.torch_shield"]),
    hazard(
        "safety.cylinders",
        Deadly,
        &["safety.torch", "safety.cylinders_secured", "safety.flashback_arrestors"],
        &[],
    ),
    hazard("safety.fire-watch", Serious, &["safety.fire_watch"], &[]),
    hazard("safety.harp-open", Deadly, &[], &["safety.harp_open"]),
    hazard("enclosure.glass-kind", Serious, &["enclosure.glass"], &[]),
    hazard("enclosure.square", Injury, &[], &["enclosure.diagonal_1", "enclosure.diagonal_2"]),
    hazard("safety.glass-handling", Serious, &["safety.glass_hands"], &[]),
    hazard(
        "enclosure.lift",
        Serious,
        &["enclosure.lifters", "enclosure.glass_thickness", "absorber.sheet_thickness"],
        &["enclosure.hoist", "enclosure.timber"],
    ),
    hazard("safety.height", Deadly, &["safety.work_height", "safety.fall_protection", "safety.second_person"], &[]),
    hazard(
        "safety.ladder",
        Deadly,
        &["safety.access", "safety.ladder_height", "safety.ladder_foot", "safety.ladder_above", "safety.ladder_tied"],
        &[],
    ),
    hazard(
        "safety.handling-wind",
        Serious,
        &["safety.handling_wind", "absorber.riser_count", "absorber.header_spacing"],
        &[],
    ),
    hazard("safety.roof-holes", Injury, &["safety.roof_holes", "safety.roof_flashed", "safety.roofer"], &[]),
    hazard("safety.electrical", Deadly, &["safety.rcd_tested"], &[]),
    hazard("safety.mains", Deadly, &["safety.electrician", "safety.isolator", "safety.pump_dry"], &[]),
    hazard("safety.bonding", Deadly, &["safety.bonded_to"], &["safety.bond_resistance"]),
    hazard(
        "safety.hot-surfaces",
        Injury,
        &["safety.hot_within_reach"],
        &["safety.hot_guarded", "absorber.absorptance"],
    ),
    hazard(
        "safety.licensed",
        Deadly,
        &["safety.plumber", "safety.electrician", "safety.engineer", "safety.permit", "site.jurisdiction"],
        &[],
    ),
    hazard("safety.licence-dates", Serious, &["safety.licence.plumber.until"], &[]),
    hazard("safety.inspection", Serious, &["safety.inspector", "safety.inspection_date"], &[]),
    hazard("commissioning.test-medium", Deadly, &[], &["commissioning.test_medium", "commissioning.panel_start"]),
];

/// The declared id that covers an id of a row.
fn declared(id: &str) -> &'static str {
    stage::entry(id).unwrap_or_else(|| panic!("{id} is no entry")).id
}

#[test]
fn every_hazard_depends_at_least_on_what_the_reference_names() {
    for hazard in REGISTER {
        let check = stage::check(hazard.check).unwrap_or_else(|| panic!("no check {}", hazard.check));
        assert_eq!(check.severity, hazard.severity, "{}", hazard.check);
        let depends = check.depends();
        for id in hazard.decides.iter().chain(hazard.also) {
            assert!(depends.contains(declared(id)), "{} does not declare that it depends on {id}", hazard.check);
        }
    }
}

#[test]
fn every_check_of_the_safety_stage_is_in_the_register() {
    for check in stage::checks().iter().filter(|check| check.id.starts_with("safety.")) {
        assert!(REGISTER.iter().any(|hazard| hazard.check == check.id), "{}", check.id);
    }
}

#[test]
fn taking_one_answer_out_of_a_clear_project_leaves_its_checks_unknown() {
    let whole = Bench::small().evaluate();
    let of = |evaluation: &sunharp::solve::Evaluation, check: &str| -> Verdict {
        evaluation.verdict(check).unwrap_or_else(|| panic!("no check {check}")).verdict
    };
    let mut ids: Vec<&str> = REGISTER.iter().flat_map(|hazard| hazard.decides).copied().collect();
    ids.sort_unstable();
    ids.dedup();
    for id in ids {
        let without = Bench::small().without(id).evaluate();
        for hazard in REGISTER.iter().filter(|hazard| hazard.decides.contains(&id)) {
            assert_eq!(of(&whole, hazard.check), Clear, "{}", hazard.check);
            assert_eq!(of(&without, hazard.check), Unknown, "{} without {id}", hazard.check);
        }
    }
}

/// No answer that is taken out makes any check louder than unknown or quieter than it was.
#[test]
fn a_missing_answer_never_clears_anything() {
    let whole = Bench::small().evaluate();
    let stages = ["site.", "absorber.", "enclosure.", "plumbing.", "safety."];
    let project = sunharp::project::Project::read(SMALL);
    for id in project.entries.keys().filter(|id| stages.iter().any(|stage| id.starts_with(stage))) {
        let without = Bench::small().without(id).evaluate();
        for (was, is) in whole.verdicts.iter().zip(&without.verdicts) {
            let assumed = stage::entry(id).is_some_and(|spec| spec.default.is_some());
            let row = id.starts_with("safety.wetted") || id.starts_with("safety.licence");
            if !assumed && !row && was.verdict != Clear {
                assert_ne!(is.verdict, Clear, "{} clears without {id}", was.check.id);
            }
        }
    }
}

/// What is judged over the year is unknown until the year has come back, and while there is no weather.
#[test]
fn a_check_over_a_pending_study_is_unknown() {
    let checks = ["safety.scald-year", "safety.legionella-days", "safety.power-cut"];
    let body = SMALL.trim_start().strip_prefix("format = 1").unwrap();
    let sunny = body
        .replace("[site]\n", "[site]\nlongitude = \"-80°\"\nweather_file = \"carried:greensboro-tmy3\"\n")
        .replace("[plumbing]\n", "[plumbing]\npeople = 4\nper_person = \"50 L\"\n");
    let mut open = sunharp::workbook::Workbook::unsaved(
        std::sync::Arc::new(sunharp::project::store::RealDisk),
        std::path::Path::new("test.toml"),
        format!("format = 1\n{sunny}"),
        jiff::civil::date(2026, 6, 1),
    );
    for check in checks {
        let judged = open.evaluation().verdict(check).unwrap();
        assert_eq!(judged.verdict, Unknown, "{check}");
        assert_eq!(judged.judgement, Err(sunharp::model::Why::Pending), "{check}");
    }
    open.run_studies();
    for check in checks {
        assert_ne!(open.evaluation().verdict(check).unwrap().verdict, Unknown, "{check} with the year back");
    }
    let dark = workbook(body);
    for check in checks {
        assert_eq!(dark.evaluation().verdict(check).unwrap().verdict, Unknown, "{check} without weather");
    }
}

#[test]
fn every_clear_tells_what_it_cannot_see() {
    for check in stage::checks() {
        assert!(check.blind_to.len() > 10, "{}", check.id);
    }
    let asks_nobody = |check: &&&stage::Check| check.severity == Deadly && check.ask.is_empty();
    let silent: Vec<&str> = stage::checks().iter().filter(asks_nobody).map(|check| check.id).collect();
    assert_eq!(silent, ["safety.harp-open"]);
}

/// Ruling of the project: two stops are never overruled.
#[test]
fn shut_in_liquid_and_compressed_air_are_never_overruled() {
    for check in stage::checks() {
        let never = ["safety.relief-path", "commissioning.test-medium"].contains(&check.id);
        if never {
            assert!(!check.can_be_overruled, "{}", check.id);
        }
    }
}
