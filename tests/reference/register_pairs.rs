//! Mutations for what the hazard register takes from other stages: each of these checks has a project that trips it, with
//! the verdict, and one a hair inside the limit that does not. Where a limit comes from stands beside the tests of its own
//! stage; here it stands again in short, so that the hair is one of the limit and not of the program.

mod carried;
mod desk;
mod heat;
mod liquid;

use super::stage_loop::sample;
use crate::support::{Bench, crossing};
use sunharp::model::Verdict::{self, Clear};
use sunharp::stage;
use sunharp::stage::safety::register::REGISTER;

/// A check, what it says of the project that trips it and of the one a hair inside.
struct Pair {
    check: &'static str,
    trips: fn(&str) -> Verdict,
    verdict: Verdict,
    inside: fn(&str) -> Verdict,
}

const fn pair(check: &'static str, verdict: Verdict, trips: fn(&str) -> Verdict, inside: fn(&str) -> Verdict) -> Pair {
    Pair { check, trips, verdict, inside }
}

fn small(answers: &[(&str, &str)]) -> Bench {
    with(Bench::small(), answers)
}

fn with(bench: Bench, answers: &[(&str, &str)]) -> Bench {
    answers.iter().fold(bench, |bench, (entry, typed)| bench.with(entry, typed))
}

/// A plate that comes to this temperature at stagnation, by its absorptance.
fn plate(bench: &Bench, degrees: f64) -> Bench {
    let at = |percent: f64| {
        bench.clone().with("absorber.emittance", "10 %").with("absorber.absorptance", &format!("{percent} %"))
    };
    at(crossing((20.0, 100.0), "absorber.stagnation_worst", degrees, at))
}

/// A project in which a number comes to a target, by one entry in a unit; and a little more of the entry.
fn by(bench: &Bench, (entry, unit): (&str, &str), bounds: (f64, f64), (id, target): (&str, f64), more: f64) -> Bench {
    let at = |value: f64| bench.clone().with(entry, &format!("{value} {unit}"));
    at(crossing(bounds, id, target, at) + more)
}

/// What a check of a sample says with some entries typed anew.
fn of(name: &str, changes: &[(&str, &str)], check: &str) -> Verdict {
    sample(name, changes).evaluation().verdict(check).unwrap().verdict
}

/// The limit that a check of a sample names, SI.
fn limit(name: &str, changes: &[(&str, &str)], check: &str) -> f64 {
    let book = sample(name, changes);
    let judged = book.evaluation().verdict(check).unwrap();
    judged.judgement.clone().unwrap().limit.unwrap().si
}

fn pairs() -> Vec<Pair> {
    [heat::pairs(), liquid::pairs(), carried::pairs(), desk::pairs()].into_iter().flatten().collect()
}

#[test]
fn what_other_stages_judge_trips_with_its_verdict_and_is_clear_a_hair_inside() {
    let mut wrong = Vec::new();
    for Pair { check, trips, verdict, inside } in pairs() {
        let Ok((found, within)) = std::panic::catch_unwind(|| (trips(check), inside(check))) else {
            wrong.push(format!("{check}: panics"));
            continue;
        };
        if found != verdict || within != Clear {
            wrong.push(format!("{check}: {} and {}", found.word(), within.word()));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn no_check_that_the_register_takes_from_another_stage_is_without_a_pair() {
    let pairs = pairs();
    for id in REGISTER.iter().flat_map(|hazard| hazard.checks).filter(|id| !id.starts_with("safety.")) {
        assert!(pairs.iter().any(|pair| pair.check == *id), "{id} has no pair");
        assert!(stage::check(id).is_some(), "{id}");
    }
}
