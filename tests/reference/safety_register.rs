//! The hazard register: what each hazard must depend on at least, written from the reference note on dangers, held
//! against what the checks declare and against a clear project from which one answer at a time is taken.

mod table;

use crate::support::{Bench, SMALL, workbook};
use sunharp::model::Verdict::{self, Clear, Unknown};
use sunharp::stage;
use sunharp::stage::Severity::Deadly;
use sunharp::stage::safety::register;
use table::REGISTER;

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

/// The table here and the register of the program name the same checks, and every check of the safety stage.
#[test]
fn the_register_and_the_table_of_what_hazards_depend_on_are_complete() {
    let listed = |id: &str| register::REGISTER.iter().any(|hazard| hazard.checks.contains(&id));
    for hazard in register::REGISTER {
        assert!(!hazard.checks.is_empty(), "{}", hazard.key);
        for id in hazard.checks {
            assert!(stage::check(id).is_some(), "{}: no check {id}", hazard.key);
            assert!(REGISTER.iter().any(|row| row.check == *id), "{id} has no row of what it depends on");
        }
    }
    for row in REGISTER {
        assert!(listed(row.check), "{} is in no hazard of the register", row.check);
    }
    for check in stage::checks().iter().filter(|check| check.id.starts_with("safety.")) {
        assert!(listed(check.id), "{}", check.id);
    }
}

/// The hazards of the reference note on dangers, section 1.15 line by line, and those of 1.7, 1.9, 1.11 and 1.14 that have
/// no line there: each is a hazard of the register.
#[test]
fn every_hazard_of_the_reference_is_in_the_register() {
    for (line, key) in [
        ("STAG-MAT", "stagnation"),
        ("SOLDER-P", "joints"),
        ("LEAD", "lead"),
        ("STEAM", "steam"),
        ("RELIEF", "relief"),
        ("TRAPPED", "trapped"),
        ("VESSEL", "vessel"),
        ("SCALD", "scald"),
        ("LEGION", "legionella"),
        ("FREEZE", "frost"),
        ("CROSS", "cross-connection"),
        ("FLUX", "fume"),
        ("DUST", "dust"),
        ("FIRE-WOOD", "timber"),
        ("FIRE-TORCH", "torch"),
        ("GLASS", "glass"),
        ("HEIGHT", "height"),
        ("LIFT", "lift"),
        ("WIND-SNOW", "wind-snow"),
        ("ROOF", "roof"),
        ("ELEC", "mains"),
        ("HOT-SURF", "hot-surfaces"),
        ("AIR-TEST", "pressure-test"),
        ("CHEM", "liquid"),
        ("1.1, plastics", "plastics"),
        ("1.7, power cut", "power-cut"),
        ("1.8, metals", "metals"),
        ("1.14", "licences"),
        ("ruling 13", "cold-slug"),
        ("ruling 24", "harp"),
    ] {
        assert!(register::named(key).is_some(), "{line}: {key}");
    }
}

/// Stops come first, then what is unknown; no hazard is left out, and each says how many of its checks say what.
#[test]
fn the_register_of_a_project_begins_with_its_stops() {
    let evaluation = Bench::small().with("safety.flashback_arrestors", "no").evaluate();
    let states = evaluation.register();
    assert_eq!(states.len(), register::REGISTER.len());
    let words: Vec<&str> = states.iter().map(|state| state.verdict().word()).collect();
    let place = |word: &&str| ["stop", "unknown", "caution", "clear"].iter().position(|other| other == word);
    assert!(words.is_sorted_by_key(place), "{words:?}");
    assert!(words[0] == "stop" && words.contains(&"unknown"), "{words:?}");
    for state in &states {
        assert_eq!(state.judged.len(), state.hazard.checks.len(), "{}", state.hazard.key);
    }
    let torch = evaluation.hazard(register::named("torch").unwrap());
    assert_eq!((torch.verdict(), torch.text()), (Verdict::Stop, "1 stop, 2 clear".to_owned()));
}

/// Each answer of the safety stage, taken out of a project that is clear but for it, leaves something unknown.
#[test]
fn taking_any_answer_of_the_safety_stage_out_leaves_something_unknown() {
    let small = Bench::small();
    let glycol = small
        .clone()
        .with("plumbing.loop", "glycol")
        .with("plumbing.glycol", "50 %")
        .reading("safety.freezing_point", "-33 °C");
    let drainback = small.clone().with("plumbing.loop", "drainback").with("plumbing.drained_length", "5 m");
    let litres = drainback.number("commissioning.drain_expected") * 1e3;
    let drainback = drainback.reading("commissioning.drained", &format!("{litres} L"));
    let near = small.clone().with("safety.hot_work_clear", "0.5 m");
    let soldered = small.clone().with("absorber.header_filler", "soldered").with("safety.joint_solder", "Sn50Pb50");
    let soldered = soldered.with("absorber.absorptance", "40 %");
    let reach = small.clone().with("safety.hot_within_reach", "yes").with("safety.hot_guarded", "yes");
    let baser = small.clone().with("safety.contact_metal", "lead").with("safety.contact_parted", "yes");
    let projects = [small, glycol, drainback, near, soldered, reach, baser];
    // What is printed, kept or printed on a label, and no check judges; what a memory stands on; rows that may go as a whole.
    let kept = ["safety.permit_date", "safety.answer", "safety.looked_up", "safety.licence"];
    let judged = |project: &Bench, id: &str| {
        let (before, after) = (project.evaluate(), project.clone().without(id).evaluate());
        before.verdicts.iter().zip(&after.verdicts).any(|(was, is)| was.verdict != Unknown && is.verdict == Unknown)
    };
    let mut ids: Vec<String> = sunharp::project::Project::read(SMALL).entries.keys().cloned().collect();
    ids.extend(["safety.joint_solder".to_owned(), "safety.hot_guarded".to_owned()]);
    for id in ids.iter().filter(|id| id.starts_with("safety.") && !kept.iter().any(|other| id.starts_with(other))) {
        let asked = projects.iter().filter(|project| project.has(id));
        assert!(asked.into_iter().any(|project| judged(project, id)), "nothing waits for {id}");
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
