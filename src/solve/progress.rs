//! The state of every step: done, stale, open, waiting, held.
//!
//! A step waits for the steps before it, unless two people have written down why it may come before some of them.

use crate::model::{Address, Entries, OnlyFor, Override, PanelLetter, Records, SignOff, Step};
use crate::solve::judge::{Judged, person};
use crate::stage;

/// One entry that is no longer as it was when the step was signed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Changed {
    /// The entry.
    pub id: String,
    /// As it was typed then.
    pub was: String,
    /// As it is typed now; none if it is gone.
    pub is: Option<String>,
}

/// How far a step is.
#[derive(Clone, Debug, PartialEq)]
pub enum Standing {
    /// Signed, and what it relied on is unchanged.
    Done(SignOff),
    /// Signed, but what it relied on has changed.
    Stale(SignOff, Vec<Changed>),
    /// Can be done now.
    Open,
    /// Other steps come first.
    Waiting(Vec<Address>),
    /// Checks say stop.
    Held(Vec<&'static str>),
}

impl Standing {
    /// The word printed for it.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::Done(_) => "done",
            Self::Stale(..) => "stale",
            Self::Open => "open",
            Self::Waiting(_) => "waits",
            Self::Held(_) => "held",
        }
    }
}

/// One step on one panel, or of the project.
#[derive(Clone, Debug)]
pub struct StepState {
    /// The step, and the panel.
    pub address: Address,
    /// Its declaration.
    pub step: &'static Step,
    /// How far it is.
    pub standing: Standing,
    /// Why it may come, or came, before others: the written reasons that count, the last one first.
    pub out_of_order: Vec<Override>,
}

/// The state of all steps that apply, in the order of the stages, panel by panel where a step is done for each. What is
/// signed stays, whatever was chosen since.
pub fn progress(records: &Records, entries: &Entries, panels: &[PanelLetter], verdicts: &[Judged]) -> Vec<StepState> {
    let mut states = Vec::new();
    for step in stage::steps() {
        let applies = applies(step, entries);
        for address in addresses(step, panels) {
            if !applies && records.sign_off(&address).is_none() {
                continue;
            }
            let standing = standing(step, &address, records, entries, panels, verdicts);
            let out_of_order = out_of_order(step, &address, records).into_iter().cloned().collect();
            states.push(StepState { address, step, standing, out_of_order });
        }
    }
    states
}

/// Whether a step applies to what was chosen; it does as long as nothing is chosen.
pub fn applies(step: &Step, entries: &Entries) -> bool {
    step.only.is_none_or(|only| is_among(&only, typed_now(only.entry, entries).as_deref()))
}

/// Whether what is typed is among the choices for which something applies; nothing typed leaves it open.
pub fn is_among(only: &OnlyFor, typed: Option<&str>) -> bool {
    typed.is_none_or(|typed| only.choices.iter().any(|choice| means_the_same(only.entry, choice, Some(typed))))
}

/// Where a step is done: once for the project, or once on each panel.
pub fn addresses(step: &Step, panels: &[PanelLetter]) -> Vec<Address> {
    if step.per_panel {
        panels.iter().map(|panel| Address::on(step.id, *panel)).collect()
    } else {
        vec![Address::drawn(step.id)]
    }
}

fn standing(
    step: &Step,
    address: &Address,
    records: &Records,
    entries: &Entries,
    panels: &[PanelLetter],
    verdicts: &[Judged],
) -> Standing {
    if let Some(sign_off) = records.sign_off(address) {
        let changed = changes(sign_off, entries);
        return if changed.is_empty() {
            Standing::Done(sign_off.clone())
        } else {
            Standing::Stale(sign_off.clone(), changed)
        };
    }
    let held = held(step, address, verdicts);
    if !held.is_empty() {
        return Standing::Held(held);
    }
    let first = comes_first(step, address, records, entries, panels);
    if first.is_empty() { Standing::Open } else { Standing::Waiting(first) }
}

/// The checks whose stop blocks a step, signed or not.
pub fn held(step: &Step, address: &Address, verdicts: &[Judged]) -> Vec<&'static str> {
    verdicts
        .iter()
        .filter(|judged| judged.blocks() && step.held_by.contains(&judged.check.id))
        .filter(|judged| judged.address.panel.is_none() || judged.address.panel == address.panel)
        .map(|judged| judged.check.id)
        .collect()
}

/// The written reasons that let a step come before others and count: two people, the licensed one among them where the
/// step is licensed work (the rule for overruling a stop, taken over for the order).
fn out_of_order<'a>(step: &Step, address: &Address, records: &'a Records) -> Vec<&'a Override> {
    let counts = |record: &Override| {
        let mut names: Vec<String> =
            record.by.iter().map(|name| person(name)).filter(|name| !name.is_empty()).collect();
        names.sort();
        names.dedup();
        names.len() >= 2 && (!step.licensed || names.contains(&person(&record.licensed)))
    };
    records.overrulings(&address.id, address.panel).into_iter().filter(|record| counts(record)).collect()
}

/// The steps that apply, come first and are not signed, less those that a written reason lets come later.
pub fn comes_first(
    step: &Step,
    address: &Address,
    records: &Records,
    entries: &Entries,
    panels: &[PanelLetter],
) -> Vec<Address> {
    let reasons = out_of_order(step, address, records);
    let may_come_later = |before: &Address| {
        !step.firm.contains(&before.id.as_str()) && reasons.iter().any(|record| record.skips.contains(before))
    };
    step.after
        .iter()
        .filter_map(|id| stage::step(id))
        .filter(|before| applies(before, entries))
        .flat_map(|before| required(before, address, panels))
        .filter(|before| records.sign_off(before).is_none() && !may_come_later(before))
        .collect()
}

/// The sign-offs of an earlier step that a step waits for: on the same panel, or on all of them.
pub fn required(before: &Step, address: &Address, panels: &[PanelLetter]) -> Vec<Address> {
    match address.panel {
        Some(panel) if before.per_panel => vec![Address::on(before.id, panel)],
        _ => addresses(before, panels),
    }
}

fn changes(sign_off: &SignOff, entries: &Entries) -> Vec<Changed> {
    sign_off
        .saw
        .iter()
        .filter_map(|(id, was)| {
            let is = typed_now(id, entries);
            let same = is.as_deref().unwrap_or(NOTHING) == was || means_the_same(id, was, is.as_deref());
            (!same).then(|| Changed { id: id.clone(), was: was.clone(), is })
        })
        .collect()
}

/// Whether two texts are one value: "4 in" and "4in" are, and no work done by one is stale by the other.
fn means_the_same(id: &str, was: &str, is: Option<&str>) -> bool {
    let value = |typed: &str| stage::entry(id)?.read(typed).ok();
    match (value(was), is.and_then(value)) {
        (Some(was), Some(is)) => was.same_as(&is),
        _ => false,
    }
}

/// What is typed for an entry now; the assumed value where nothing is.
fn typed_now(id: &str, entries: &Entries) -> Option<String> {
    entries
        .get(id)
        .map(|given| given.typed.clone())
        .or_else(|| stage::entry(id).and_then(|spec| spec.default.map(str::to_owned)))
}

/// What a sign-off remembers of an entry that nobody had given a value.
const NOTHING: &str = "-";

/// The entries a sign-off of this step must remember, as they are typed now.
pub fn relied_on(step: &Step, entries: &Entries) -> Vec<(String, String)> {
    step.relies
        .iter()
        .map(|id| ((*id).to_owned(), typed_now(id, entries).unwrap_or_else(|| NOTHING.to_owned())))
        .collect()
}
