//! What moves a figure: every entry that it can depend on is moved a little, one at a time, and the figure is
//! computed anew. Slow by nature, so it runs at the errand desk and reports its progress.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::sky;
use crate::model::{Address, EntrySpec, Fig, Shape, Value, Why, inputs::Given};
use crate::solve::{Evaluation, Snapshot, evaluate};
use crate::stage;
use crate::stage::figure::depends;
use crate::stage::study::{Cancel, STUDIES};
use crate::units::{Kind, Quantity, System};

/// How far a number is moved, as a share of itself.
const SHARE: f64 = 0.05;
/// How far a temperature is moved, in kelvins: a share of an absolute temperature would mean nothing.
const KELVINS: f64 = 5.0;

/// What one entry does to the figure.
#[derive(Clone, Debug, PartialEq)]
pub struct Nudge {
    /// The entry.
    pub entry: String,
    /// What it was given.
    pub to: Value,
    /// What the figure becomes.
    pub value: Fig<Value>,
    /// The relative change of the figure; infinite where a word or the bare existence of the figure changes.
    pub change: f64,
}

/// What was found so far.
#[derive(Clone, Debug, PartialEq)]
pub struct Sway {
    /// The figure.
    pub of: Address,
    /// How many entries were tried.
    pub tried: usize,
    /// How many there are to try.
    pub all: usize,
    /// The entries that move it, the strongest first.
    pub nudges: Vec<Nudge>,
    /// The entries that the weather hangs on, which are not tried.
    pub left_out: Vec<String>,
}

/// Tries one entry after the other; tells after each how far it is. Ends early if cancelled.
pub fn run(snapshot: &Snapshot, of: &Address, cancel: &Cancel, tell: &mut dyn FnMut(&Sway)) {
    let studies = studies_behind(snapshot, of);
    let Some(base) = over(snapshot, &BTreeMap::new(), &studies, cancel) else { return };
    let value = base.value(of);
    let (left_out, ids): (Vec<String>, Vec<String>) = entries(&base, of).into_iter().partition(|id| sky::reads(id));
    let mut sway = Sway { of: of.clone(), tried: 0, all: ids.len(), nudges: Vec::new(), left_out };
    tell(&sway);
    for id in ids {
        let mut strongest: Option<Nudge> = None;
        for to in moved(&base, &id) {
            if cancel.is_cancelled() {
                return;
            }
            let Some(after) = with(snapshot, &id, &to, &studies, cancel).map(|after| after.value(of)) else { return };
            let change = change(&value, &after);
            if change != 0.0 && strongest.as_ref().is_none_or(|known| change.abs() > known.change.abs()) {
                strongest = Some(Nudge { entry: id.clone(), to, value: after, change });
            }
        }
        sway.tried += 1;
        sway.nudges.extend(strongest);
        sway.nudges.sort_by(|a, b| b.change.abs().total_cmp(&a.change.abs()));
        tell(&sway);
    }
}

/// The entries that a figure can depend on and that have a value; of repeated ones every row.
fn entries(base: &Evaluation, of: &Address) -> Vec<String> {
    let inputs = &base.drawn.inputs;
    let rows = |id: &'static str| inputs.typed_like(id).map(|(id, _)| id.to_owned()).collect::<Vec<_>>();
    depends(&of.id).into_iter().flat_map(rows).filter(|id| inputs.value(id).is_ok()).collect()
}

/// The values next to the present one: a little less and a little more, or the words before and behind in the list.
fn moved(base: &Evaluation, id: &str) -> Vec<Value> {
    let (Some(spec), Ok(value)) = (stage::entry(id), base.drawn.inputs.value(id)) else { return Vec::new() };
    match (&spec.shape, value) {
        (Shape::Quantity { hard, .. }, Value::Quantity(quantity)) => {
            let steps = match quantity.kind {
                Kind::Count => [-1.0, 1.0],
                Kind::Temperature => [-KELVINS, KELVINS],
                _ => [-SHARE * quantity.si, SHARE * quantity.si],
            };
            let values = steps.into_iter().filter(|step| *step != 0.0).map(|step| quantity.si + step);
            let possible = values.filter(|si| (hard.0..=hard.1).contains(si));
            possible.map(|si| Value::Quantity(Quantity::new(quantity.kind, si))).collect()
        }
        (Shape::Choice(words), Value::Choice(word)) => beside(spec, &words(), &word),
        (Shape::Flag, Value::Flag(flag)) => vec![Value::Flag(!flag)],
        _ => Vec::new(),
    }
}

fn beside(spec: &EntrySpec, words: &[(&'static str, &'static str)], word: &str) -> Vec<Value> {
    let Some(at) = words.iter().position(|(other, _)| *other == word) else { return Vec::new() };
    let near = [at.checked_sub(1), Some(at + 1)].into_iter().flatten().filter_map(|at| words.get(at));
    near.filter_map(|(word, _)| spec.read(word).ok()).collect()
}

/// The studies whose results the figure rests on: without them it is pending.
fn studies_behind(snapshot: &Snapshot, of: &Address) -> Vec<usize> {
    let rests = |index: &usize| {
        let mut without = snapshot.clone();
        (STUDIES[*index].failed)(Why::Pending).lay_into(&mut without.studies);
        evaluate(&without).value(of) == Err(Why::Pending)
    };
    (0..STUDIES.len()).filter(rests).collect()
}

/// Everything with one entry changed; none if cancelled.
fn with(snapshot: &Snapshot, id: &str, to: &Value, studies: &[usize], cancel: &Cancel) -> Option<Evaluation> {
    let given = Given { typed: to.text(System::Si), value: Ok(to.clone()) };
    over(snapshot, &BTreeMap::from([(id.to_owned(), given)]), studies, cancel)
}

/// Everything with some entries changed and these studies run anew; none if cancelled.
pub fn over(
    snapshot: &Snapshot,
    changed: &BTreeMap<String, Given>,
    studies: &[usize],
    cancel: &Cancel,
) -> Option<Evaluation> {
    let mut snapshot = snapshot.clone();
    Arc::make_mut(&mut snapshot.entries).extend(changed.clone());
    let evaluation = evaluate(&snapshot);
    if studies.is_empty() {
        return Some(evaluation);
    }
    for index in studies {
        (STUDIES[*index].run)(&evaluation.drawn, cancel)?.lay_into(&mut snapshot.studies);
    }
    Some(evaluate(&snapshot))
}

/// The relative change; infinite where it cannot be said in numbers.
fn change(was: &Fig<Value>, is: &Fig<Value>) -> f64 {
    match (was, is) {
        (Ok(was), Ok(is)) if was.same_as(is) => 0.0,
        (Err(_), Err(_)) => 0.0,
        (Ok(Value::Quantity(was)), Ok(Value::Quantity(is))) if was.si != 0.0 => is.si / was.si - 1.0,
        _ => f64::INFINITY,
    }
}
