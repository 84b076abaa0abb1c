//! What moved between two evaluations: figures, verdicts, steps.

use std::collections::{BTreeMap, BTreeSet};

use crate::model::{Address, Fig, PanelLetter, Value, Verdict};
use crate::solve::{Evaluation, Row};
use crate::stage;
use crate::stage::card::{Card, cards};
use crate::units::Kind;

/// A figure or entry that is not what it was.
#[derive(Clone, Debug, PartialEq)]
pub struct Moved {
    /// What moved.
    pub address: Address,
    /// A short name for people.
    pub label: &'static str,
    /// What it was.
    pub was: Fig<Value>,
    /// What it is.
    pub is: Fig<Value>,
}

/// A check whose verdict changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Flip {
    /// The check.
    pub check: &'static str,
    /// The panel, where it is judged for each.
    pub panel: Option<PanelLetter>,
    /// A short name for people.
    pub label: &'static str,
    /// The verdict before.
    pub was: Verdict,
    /// The verdict now.
    pub is: Verdict,
}

/// Everything that differs between two evaluations.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Differences {
    /// Figures and entries, the weightiest change first.
    pub moved: Vec<Moved>,
    /// Verdicts that changed.
    pub flips: Vec<Flip>,
    /// Steps that were done and are now stale.
    pub stale: Vec<Address>,
}

impl Differences {
    /// The bench cards that no longer say what they said, in the order of the stages.
    pub fn cards(&self) -> Vec<&'static Card> {
        let moved: BTreeSet<&str> = self
            .moved
            .iter()
            .map(|moved| stage::figure(&moved.address.id).map_or(moved.address.id.as_str(), |(figure, _)| figure.id))
            .collect();
        cards().iter().copied().filter(|card| card.figures.iter().any(|shown| moved.contains(shown.id))).collect()
    }
}

impl Moved {
    /// The relative change, where both are numbers and the old one is not zero.
    pub fn relative(&self) -> Option<f64> {
        let number = |value: &Fig<Value>| value.as_ref().ok()?.quantity().map(|quantity| quantity.si);
        let (was, is) = (number(&self.was)?, number(&self.is)?);
        (was != 0.0).then(|| is / was - 1.0)
    }
}

/// Compares two evaluations, of the design and of every panel as built.
pub fn differences(before: &Evaluation, after: &Evaluation) -> Differences {
    let mut moved: Vec<Moved> = Vec::new();
    let old: BTreeMap<Address, Row> = before.rows().into_iter().map(|row| (row.address.clone(), row)).collect();
    let new = after.rows();
    for row in &new {
        let was = old.get(&row.address).map_or_else(|| before.value(&row.address), |old| old.value.clone());
        for panel in after.built.keys() {
            let address = Address::on(row.address.id.clone(), *panel);
            let (panel_was, panel_is) = (value_on(before, &address, *panel), after.value(&address));
            // A panel is named only where it moves otherwise than the design.
            if !(same(&panel_was, &was) && same(&panel_is, &row.value)) {
                push_if_moved(&mut moved, &address, row.label, panel_was, panel_is);
            }
        }
        push_if_moved(&mut moved, &row.address, row.label, was, row.value.clone());
    }
    moved.sort_by(|a, b| size(b).total_cmp(&size(a)));
    Differences { moved, flips: flips(before, after), stale: stale(before, after) }
}

fn value_on(evaluation: &Evaluation, address: &Address, panel: PanelLetter) -> Fig<Value> {
    if evaluation.built.contains_key(&panel) {
        evaluation.value(address)
    } else {
        evaluation.value(&Address::drawn(address.id.clone()))
    }
}

fn push_if_moved(moved: &mut Vec<Moved>, address: &Address, label: &'static str, was: Fig<Value>, is: Fig<Value>) {
    if !same(&was, &is) {
        moved.push(Moved { address: address.clone(), label, was, is });
    }
}

/// Whether two values are alike; one that is missing is like any other that is.
fn same(a: &Fig<Value>, b: &Fig<Value>) -> bool {
    match (a, b) {
        (Ok(a), Ok(b)) => a.same_as(b),
        (Err(_), Err(_)) => true,
        _ => false,
    }
}

/// How much a change weighs. What the builder decides comes first, words weigh as much as a half; of a share of one its
/// own difference, of any other number the relative one, so that 0.1 % that became 0.2 % does not come before a pitch
/// that grew by a quarter.
fn size(moved: &Moved) -> f64 {
    if stage::entry(&moved.address.id).is_some() {
        return f64::INFINITY;
    }
    let share = |value: &Fig<Value>| {
        value.as_ref().ok()?.quantity().filter(|quantity| quantity.kind == Kind::Percent).map(|quantity| quantity.si)
    };
    match (share(&moved.was), share(&moved.is)) {
        (Some(was), Some(is)) => (is - was).abs(),
        _ => moved.relative().map_or(0.5, f64::abs),
    }
}

fn flips(before: &Evaluation, after: &Evaluation) -> Vec<Flip> {
    after
        .verdicts
        .iter()
        .filter_map(|judged| {
            let was = before.verdict_of(&judged.address)?.verdict;
            let flip = Flip {
                check: judged.check.id,
                panel: judged.address.panel,
                label: judged.check.label,
                was,
                is: judged.verdict,
            };
            (was != judged.verdict).then_some(flip)
        })
        .collect()
}

fn stale(before: &Evaluation, after: &Evaluation) -> Vec<Address> {
    use crate::solve::progress::Standing;
    after
        .steps
        .iter()
        .filter(|state| matches!(state.standing, Standing::Stale(..)))
        .filter(|state| before.step(&state.address).is_some_and(|old| matches!(old.standing, Standing::Done(_))))
        .map(|state| state.address.clone())
        .collect()
}
