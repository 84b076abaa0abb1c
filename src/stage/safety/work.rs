//! Dangers of the work itself, as they were answered: relief path, torch, height, mains, licences.

use super::entries::{self as e, FallProtection, Fume};
use crate::model::{Fig, Judgement, Verdict, Why};
use crate::stage::Solution;
use crate::stage::site::entries as site;
use crate::stage::worst::worst;
use crate::units::si::{Dimension, Length, Time};

/// Height from which a fall is arrested at work, m (6 ft; work rules of one country, from memory).
const FALL_HEIGHT: f64 = 1.8288;
/// Fire watch after a torch, s: 60 min is a project rule, 30 min the shortest that trades use (from memory).
const WATCH_CLEAR: f64 = 3600.0;
const WATCH_LEAST: f64 = 1800.0;
/// Days after which a breaker is tripped again (project rule).
const TRIP_AGAIN: i32 = 366;

/// Whether any panel can be shut in without relief.
pub fn relief_path(s: &Solution) -> Fig<Judgement> {
    Ok(Judgement::stop_unless(!s.inputs.get(&e::SHUT_IN)?))
}

/// Air at the torch.
pub fn fume(s: &Solution) -> Fig<Judgement> {
    Ok(Judgement::stop_unless(s.inputs.get(&e::FUME)? != Fume::Closed).part("a closed room"))
}

/// Fire watch.
pub fn fire_watch(s: &Solution) -> Fig<Judgement> {
    let watch = s.inputs.get(&e::FIRE_WATCH)?;
    let verdict = match watch.si() {
        seconds if seconds >= WATCH_CLEAR => Verdict::Clear,
        seconds if seconds >= WATCH_LEAST => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let limit = Time::from_si(WATCH_CLEAR);
    Ok(Judgement::of(verdict).with(watch, limit).margin(watch - limit))
}

/// Work at height.
pub fn height(s: &Solution) -> Fig<Judgement> {
    let height = s.inputs.get(&e::HEIGHT)?;
    if height.si() <= 0.0 {
        return Ok(Judgement::of(Verdict::Clear).part("work on the ground"));
    }
    let limit = Length::from_si(FALL_HEIGHT);
    let alone = s
        .inputs
        .get(&e::SECOND_PERSON)
        .map(|second| Judgement::stop_unless(second).with(height, limit).part("nobody else is there"));
    let caught = s.inputs.get(&e::FALL_PROTECTION).map(|protection| {
        let verdict = match protection {
            FallProtection::GuardRail | FallProtection::Harness => Verdict::Clear,
            FallProtection::Ladder | FallProtection::None if height >= limit => Verdict::Stop,
            FallProtection::Ladder | FallProtection::None => Verdict::Caution,
        };
        Judgement::of(verdict).with(height, limit).part("nothing catches a fall")
    });
    worst([alone, caught])
}

/// Test of the leakage breaker.
pub fn electrical(s: &Solution) -> Fig<Judgement> {
    let tested = s.inputs.get(&e::RCD_TESTED)?;
    let days = (s.world.today - tested).get_days();
    if days < 0 {
        return Err(Why::out_of_range("the day of the breaker's test lies in the future"));
    }
    Ok(Judgement::caution_unless(days <= TRIP_AGAIN).part(tested.to_string()))
}

/// Who is licensed for what.
pub fn licensed(s: &Solution) -> Fig<Judgement> {
    let all = [&e::PLUMBER, &e::ELECTRICIAN, &e::ENGINEER, &e::PERMIT, &site::JURISDICTION];
    let named = |entry: &crate::model::Entry<String>| match s.inputs.get(entry) {
        Ok(name) if name.trim().is_empty() => Err(Why::missing(entry.spec.id)),
        other => other.map(|_| Judgement::of(Verdict::Clear)),
    };
    worst(all.map(named))
}
