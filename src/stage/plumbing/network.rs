//! The loop as it is written: which run follows which, what sits where, and what is wrong with the notation.
//!
//! Lives here: names and order. Must not live here: lengths, heights, flows, and whether the loop is wise.

use std::collections::{BTreeMap, BTreeSet};

use super::entries::part::{self, PartKind};
use super::entries::run;
use crate::model::{Fig, Inputs, Why};
use crate::units::nearest;

mod order;

/// One run, in names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// The name of the run.
    pub run: String,
    /// The place where it begins.
    pub from: String,
    /// The place where it ends.
    pub to: String,
    /// The parts along it, in the order of flow.
    pub along: Vec<String>,
}

/// The loop: once around in the order of flow, and what hangs on it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Network {
    /// The runs of the loop from the panels' outlet on.
    pub circuit: Vec<Stretch>,
    /// The runs that end at a valve, vessel or vent.
    pub branches: Vec<Stretch>,
    /// What each part is.
    pub parts: BTreeMap<String, PartKind>,
}

/// Something wrong with the notation, at one entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LoopFault {
    /// The entry at which it shows.
    pub id: String,
    /// What is wrong, in one plain sentence.
    pub reason: String,
}

impl LoopFault {
    fn at(id: &str, row: &str, reason: String) -> Self {
        Self { id: id.replacen('*', row, 1), reason }
    }
}

/// Reads the loop of a project.
///
/// # Errors
/// Missing while no run is written, invalid where the notation has a fault.
pub fn network(inputs: &Inputs) -> Fig<Network> {
    build(inputs)?.map_err(|faults| Why::Invalid(faults.into_iter().map(|fault| fault.id).collect()))
}

/// What is wrong with the notation; nothing while no run is written or an entry cannot be read at all.
pub fn faults(inputs: &Inputs) -> Vec<LoopFault> {
    match build(inputs) {
        Ok(Err(faults)) => faults,
        Ok(Ok(_)) | Err(_) => Vec::new(),
    }
}

fn build(inputs: &Inputs) -> Fig<Result<Network, Vec<LoopFault>>> {
    let runs = inputs.rows("plumbing.run");
    if runs.is_empty() {
        return Err(Why::missing(run::FROM.spec.id));
    }
    let mut parts = BTreeMap::new();
    for name in inputs.rows("plumbing.part") {
        let kind = inputs.at(&part::KIND, &name)?;
        parts.insert(name, kind);
    }
    let mut stretches = Vec::new();
    for name in runs {
        let along = match inputs.at(&run::ALONG, &name) {
            Ok(list) => list.split(',').map(|part| part.trim().to_owned()).filter(|part| !part.is_empty()).collect(),
            Err(Why::Missing(_)) => Vec::new(),
            Err(why) => return Err(why),
        };
        let place = |entry| inputs.at(entry, &name).map(|place: String| place.trim().to_owned());
        stretches.push(Stretch { from: place(&run::FROM)?, to: place(&run::TO)?, along, run: name });
    }
    let faults = misnamed(&stretches, &parts);
    if !faults.is_empty() {
        return Ok(Err(faults));
    }
    Ok(order::in_order(stretches, &parts)
        .map(|(circuit, branches)| Network { circuit, branches, parts })
        .map_err(|fault| vec![fault]))
}

/// Parts that are not listed, stand twice, nowhere, or where they cannot stand.
fn misnamed(stretches: &[Stretch], parts: &BTreeMap<String, PartKind>) -> Vec<LoopFault> {
    let mut faults = Vec::new();
    let mut along = BTreeSet::new();
    let ends: BTreeSet<&str> = stretches.iter().flat_map(|s| [s.from.as_str(), s.to.as_str()]).collect();
    for stretch in stretches {
        let mut complain = |reason: String| faults.push(LoopFault::at(run::ALONG.spec.id, &stretch.run, reason));
        for name in &stretch.along {
            match parts.get(name) {
                None => complain(format!("no part is called '{name}'{}", near(name, parts.keys()))),
                Some(kind) if kind.is_station() => {
                    complain(format!("'{name}' must be the end of a run, not along it"));
                }
                Some(_) if !along.insert(name.as_str()) || ends.contains(name.as_str()) => {
                    complain(format!("'{name}' stands in the loop twice"));
                }
                Some(_) => {}
            }
        }
    }
    for name in parts.keys().filter(|name| !along.contains(name.as_str()) && !ends.contains(name.as_str())) {
        let reason = format!("'{name}' stands nowhere: name it along a run, or as the end of one");
        faults.push(LoopFault::at(part::KIND.spec.id, name, reason));
    }
    faults
}

/// The nearest of some names as a clause; empty if nothing is near.
fn near<'a>(name: &str, known: impl IntoIterator<Item = &'a String>) -> String {
    let known: Vec<&'a str> = known.into_iter().map(String::as_str).collect();
    nearest(name, known).map_or_else(String::new, |near| format!("; did you mean '{near}'?"))
}

impl Network {
    /// What a part is; none for a joint of runs.
    pub fn kind(&self, name: &str) -> Option<PartKind> {
        self.parts.get(name).copied()
    }

    /// The first part of a kind, by name.
    pub fn part_of(&self, kind: PartKind) -> Option<&str> {
        self.parts.iter().find(|(_, known)| **known == kind).map(|(name, _)| name.as_str())
    }

    /// All parts of a kind, by name.
    pub fn parts_of(&self, kind: PartKind) -> Vec<&str> {
        self.parts.iter().filter(|(_, known)| **known == kind).map(|(name, _)| name.as_str()).collect()
    }

    /// Every run, the loop first.
    pub fn stretches(&self) -> impl Iterator<Item = &Stretch> {
        self.circuit.iter().chain(&self.branches)
    }

    /// The parts that hang by a branch of their own on a place.
    pub fn hanging_at<'a>(&'a self, place: &'a str) -> impl Iterator<Item = &'a str> {
        self.branches.iter().filter(move |branch| branch.from == place || branch.to == place).flat_map(|branch| {
            branch.along.iter().map(String::as_str).chain([branch.from.as_str(), branch.to.as_str()])
        })
    }
}

#[cfg(test)]
mod tests;
