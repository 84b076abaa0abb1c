//! Runs put in the order of flow: the loop once around from the panels, and the branches that hang on it.

use std::collections::BTreeMap;

use super::super::entries::part::PartKind;
use super::super::entries::run;
use super::{LoopFault, Stretch, near};

type Parts = BTreeMap<String, PartKind>;
type Ordered = (Vec<Stretch>, Vec<Stretch>);

/// Sorts runs into the loop and its branches.
pub(super) fn in_order(stretches: Vec<Stretch>, parts: &Parts) -> Result<Ordered, LoopFault> {
    if let Some(turned) = stretches.iter().find(|stretch| stretch.from == stretch.to) {
        let reason = format!("run '{}' ends where it begins", turned.run);
        return Err(LoopFault::at(run::TO.spec.id, &turned.run, reason));
    }
    let (mut ring, branches) = without_branches(stretches, parts);
    for stretch in &ring {
        check_end(stretch, &ring, parts)?;
    }
    let panels: Vec<&String> =
        parts.iter().filter(|(_, kind)| **kind == PartKind::Panels).map(|(name, _)| name).collect();
    let first = ring.first().or(branches.first()).map(|stretch| stretch.run.clone()).unwrap_or_default();
    let [start] = panels[..] else {
        let reason = if panels.is_empty() {
            "no part of the loop is of the kind 'panels'".to_owned()
        } else {
            "the loop has more than one part of the kind 'panels'; all panels together are one part".to_owned()
        };
        return Err(LoopFault::at(run::FROM.spec.id, &first, reason));
    };
    let mut circuit: Vec<Stretch> = Vec::new();
    let mut place = start.clone();
    while let Some(at) = ring.iter().position(|stretch| stretch.from == place) {
        let stretch = ring.remove(at);
        place.clone_from(&stretch.to);
        circuit.push(stretch);
    }
    match ring.first() {
        None if circuit.is_empty() => {
            let reason = format!("no run begins at '{start}': there is no way round");
            Err(LoopFault::at(run::FROM.spec.id, &first, reason))
        }
        None => Ok((circuit, branches)),
        Some(left) => {
            let reason = format!("run '{}' is no part of the way round from '{start}' and back", left.run);
            Err(LoopFault::at(run::FROM.spec.id, &left.run, reason))
        }
    }
}

/// Takes away, again and again, the runs that end where nothing goes on.
fn without_branches(stretches: Vec<Stretch>, parts: &Parts) -> Ordered {
    let mut ring = stretches;
    let mut branches: Vec<Stretch> = Vec::new();
    loop {
        let ends_at = |place: &str| {
            let alone = ring.iter().filter(|s| s.from == place || s.to == place).count() == 1;
            let kind = parts.get(place);
            let terminal = kind.is_some_and(|kind| kind.is_terminal());
            // The loop itself passes its stations: an open end there is a fault, not a branch.
            let station = kind.is_some_and(|kind| kind.is_station());
            alone && !station && (terminal || branches.iter().any(|branch| branch.from == place || branch.to == place))
        };
        let Some(at) = ring.iter().position(|s| ends_at(&s.to) || ends_at(&s.from)) else { break };
        branches.push(ring.remove(at));
    }
    (ring, branches)
}

/// Each place of the loop has one run that comes and one that goes.
fn check_end(stretch: &Stretch, ring: &[Stretch], parts: &Parts) -> Result<(), LoopFault> {
    let begin_at = |place: &str| ring.iter().filter(|other| other.from == place).count();
    let end_at = |place: &str| ring.iter().filter(|other| other.to == place).count();
    let others = || ring.iter().filter(|other| other.run != stretch.run).flat_map(|other| [&other.from, &other.to]);
    let at_end = |reason: String| Err(LoopFault::at(run::TO.spec.id, &stretch.run, reason));
    let at_start = |reason: String| Err(LoopFault::at(run::FROM.spec.id, &stretch.run, reason));
    let (from, to) = (&stretch.from, &stretch.to);
    match begin_at(to) {
        0 if parts.contains_key(to) => {
            return at_end(format!("no run goes on from '{to}': the loop does not come back"));
        }
        0 => return at_end(format!("the run ends at '{to}', where nothing goes on{}", near(to, others()))),
        _ => {}
    }
    match end_at(from) {
        0 if parts.contains_key(from) => {
            return at_start(format!("no run comes to '{from}': the loop does not come back"));
        }
        0 => return at_start(format!("the run begins at '{from}', where no run ends{}", near(from, others()))),
        _ => {}
    }
    if begin_at(from) > 1 || end_at(to) > 1 {
        let place = if begin_at(from) > 1 { from } else { to };
        return at_start(format!(
            "the loop parts at '{place}'; it must lead one way round, panels side by side are one part"
        ));
    }
    Ok(())
}
