//! The cells of a line: label, value, state word.

use std::collections::BTreeMap;

use super::{of_origin, of_standing, of_verdict};
use crate::model::{Address, Fig, Origin, Role as Given, Value, Verdict, Why, text::clean};
use crate::solve::judge::Judged;
use crate::solve::progress::StepState;
use crate::solve::words::finding;
use crate::stage::safety::register::named;
use crate::stage::{self, Show};
use crate::tui::ink::Role;
use crate::tui::page::Line;
use crate::tui::state::State;
use crate::units::Quantity;
use crate::workbook::today::Need;

/// The cells of one line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cells {
    pub label: String,
    pub value: String,
    /// The state word, printed in full.
    pub word: String,
    /// The role of the word.
    pub role: Option<Role>,
}

/// The cells of a line as it is shown.
pub fn cells(state: &State, line: &Line) -> Cells {
    match line {
        Line::Step(address) if state.is_today => today_step(state, address),
        Line::Entry(id) if state.is_today => today_entry(state, id),
        Line::Heading(words) => Cells { label: (*words).to_owned(), ..Cells::default() },
        Line::Conflict(name) => conflict(state, name),
        Line::Says(words) => Cells { label: words.clone(), ..Cells::default() },
        Line::Answer(answer) => Cells { label: answer.asks.to_owned(), ..Cells::default() },
        Line::Entry(id) => entry(state, id),
        Line::Figure(id) => figure(state, id),
        Line::Rows(id) => rows(state, id),
        Line::Check(id) => state.judged(id).map_or_else(Cells::default, |it| check(state, it)),
        Line::Hazard(key) => hazard(state, key),
        Line::Step(address) => {
            state.workbook.evaluation().step(address).map_or_else(Cells::default, |it| step(state, it))
        }
        Line::Panels(id) => panels(state, id),
    }
}

fn entry(state: &State, id: &str) -> Cells {
    let evaluation = state.workbook.evaluation();
    let address = state.shown(id);
    let origin = evaluation.origin(&address);
    let inputs = &evaluation.solution(address.panel).inputs;
    let typed = inputs.typed(id).map(clean);
    let measured_only = stage::entry(id).is_some_and(|spec| spec.role == Given::Measure);
    let (value, word, role) = match evaluation.value(&address) {
        Ok(_) if origin == Origin::Entry && !state.other_units => {
            (typed.unwrap_or_default(), origin.word(), of_origin(origin))
        }
        Ok(value) => (printed(state, &address, &value), origin.word(), of_origin(origin)),
        Err(Why::Missing(_)) if measured_only => ("not measured".to_owned(), "", Role::Quiet),
        Err(Why::Missing(_)) => ("not entered".to_owned(), "", Role::Quiet),
        Err(_) => (typed.unwrap_or_default(), "refused", Role::Refused),
    };
    Cells { label: super::label(id), value, word: word.to_owned(), role: Some(role) }
}

/// A value that is not shown as typed; a single reading is, since that is what stood on the instrument.
fn printed(state: &State, address: &Address, value: &Value) -> String {
    let evaluation = state.workbook.evaluation();
    let typed = evaluation.solution(address.panel).inputs.typed(&address.id).filter(|_| !state.other_units);
    let as_read = typed.filter(|_| evaluation.origin(address) == Origin::Reading);
    let same = |typed: &&str| stage::entry(&address.id).is_some_and(|spec| spec.read(typed).as_ref() == Ok(value));
    as_read.filter(same).map_or_else(|| super::value(state, address, value), clean)
}

fn figure(state: &State, id: &str) -> Cells {
    let address = state.shown(id);
    let is_row = stage::figure(id).is_some_and(|(_, key)| !key.is_empty());
    let label = if is_row { format!("  {}", super::row_name(id)) } else { super::label(id) };
    let (value, word, role) = result(state, &address, &state.workbook.evaluation().value(&address));
    Cells { label, value, word: word.to_owned(), role: Some(role) }
}

fn result(state: &State, address: &Address, value: &Fig<Value>) -> (String, &'static str, Role) {
    match value {
        Ok(value) => (super::value(state, address, value), Origin::Result.word(), Role::Computed),
        Err(Why::Pending) => {
            let before = before_your_change(state, address).map_or_else(String::new, |text| format!(" {text}"));
            (format!("...{before}"), "pending", Role::Unknown)
        }
        Err(why) => (super::why(why), "unknown", Role::Unknown),
    }
}

/// The value that a pending figure had when all studies were back.
pub fn before_your_change(state: &State, address: &Address) -> Option<String> {
    let settled = state.workbook.settled()?;
    let value = settled.value(address).ok()?;
    Some(format!("{} before your change", super::value(state, address, &value)))
}

fn rows(state: &State, id: &'static str) -> Cells {
    let evaluation = state.workbook.evaluation();
    let Some((figure, _)) = stage::figure(id) else { return Cells::default() };
    let keys = figure.axis.map_or_else(Vec::new, |axis| evaluation.keys(axis));
    let (value, word, role) = match (keys.first(), range(state, id, &keys)) {
        (Some(_), Ok(range)) => (range, Origin::Result.word(), Role::Computed),
        (Some(first), Err(why)) => result(state, &state.shown(&format!("{id}.{first}")), &Err(why)),
        (None, _) => ("not known yet".to_owned(), "unknown", Role::Unknown),
    };
    Cells { label: figure.label.to_owned(), value, word: word.to_owned(), role: Some(role) }
}

/// What the rows of a figure span: the least to the greatest number, or the first to the last word.
fn range(state: &State, id: &str, keys: &[String]) -> Fig<String> {
    let evaluation = state.workbook.evaluation();
    let mut values = Vec::new();
    let mut none = None;
    for key in keys {
        let address = state.shown(&format!("{id}.{key}"));
        match evaluation.value(&address) {
            Ok(value) => values.push((value, address)),
            Err(why) => none = none.or(Some(why)),
        }
    }
    // A row without a value, such as a month in which no heat is wanted, hides the others no more.
    if let Some(why) = none.filter(|_| values.is_empty()) {
        return Err(why);
    }
    let number = |value: &Value| value.quantity().map_or(0.0, |quantity| quantity.si);
    values.sort_by(|(a, _), (b, _)| number(a).total_cmp(&number(b)));
    let ends = values.first().zip(values.last());
    let unit = ends.and_then(|(least, most)| common_unit(state, id, &least.0, &most.0));
    let text = |(value, address): &(Value, Address)| {
        let in_unit = value.quantity().zip(unit).and_then(|(quantity, unit)| quantity.text_in(unit));
        in_unit.unwrap_or_else(|| super::value(state, address, value))
    };
    let count =
        if values.len() == keys.len() { keys.len().to_string() } else { format!("{} of {}", values.len(), keys.len()) };
    Ok(ends.map_or_else(String::new, |(least, most)| format!("{} to {}, {count} rows", text(least), text(most))))
}

/// The unit of the larger end of a range, where the smaller one would be printed in another.
fn common_unit(state: &State, id: &str, least: &Value, most: &Value) -> Option<&'static str> {
    stage::figure(id).filter(|(figure, _)| figure.show == Show::Plain)?;
    let (least, most) = least.quantity().zip(most.quantity())?;
    let unit = |quantity: Quantity| quantity.value_and_unit(state.system()).1;
    let larger = if least.si.abs() > most.si.abs() { least } else { most };
    (unit(least) != unit(most)).then(|| unit(larger))
}

fn check(state: &State, judged: &Judged) -> Cells {
    let number = |pick: fn(&crate::model::Judgement) -> Option<crate::units::Quantity>| {
        judged.judgement.as_ref().ok().and_then(pick).map(|quantity| finding(judged.check, quantity, state.system()))
    };
    let numbers = match (number(|judgement| judgement.found), number(|judgement| judgement.limit)) {
        (Some(found), Some(limit)) => format!("{found}, limit {limit}"),
        (Some(found), None) => found,
        _ => match &judged.judgement {
            Err(why) => super::why(why),
            Ok(judgement) => match judgement.does_not_apply {
                Some(why) => format!("does not apply: {why}"),
                None => judgement.part.as_deref().map(clean).unwrap_or_default(),
            },
        },
    };
    let overruled = judged.overruled.is_some();
    let panel = judged.panel.map_or_else(String::new, |panel| format!(" (panel {panel})"));
    Cells {
        label: judged.check.label.to_owned(),
        value: format!("{numbers}{panel}{}", if overruled { ", overruled" } else { "" }),
        word: judged.verdict.word().to_owned(),
        role: Some(of_verdict(judged.verdict)),
    }
}

/// A hazard of the register: how bad it is, what its checks say.
fn hazard(state: &State, key: &str) -> Cells {
    let Some(hazard) = named(key) else { return Cells::default() };
    let found = state.workbook.evaluation().hazard(hazard);
    Cells {
        label: hazard.title.to_owned(),
        value: format!("{}: {}", hazard.severity().word(), found.text()),
        word: found.verdict().word().to_owned(),
        role: Some(of_verdict(found.verdict())),
    }
}

/// The check that speaks loudest of a hazard.
pub fn loudest(state: &State, key: &str) -> Option<&'static str> {
    let found = state.workbook.evaluation().hazard(named(key)?);
    found.judged.iter().max_by_key(|judged| judged.verdict).map(|judged| judged.check.id)
}

/// The title of a step, filled with the project's numbers.
pub fn title(state: &State, of: &StepState) -> String {
    state.workbook.evaluation().fill(of.step.title, of.address.panel, state.system())
}

fn step(state: &State, of: &StepState) -> Cells {
    let below_its_title = state.panel.is_none() && state.unfolded.contains(of.step.id);
    let label = match of.address.panel {
        Some(panel) if below_its_title => format!("  panel {panel}"),
        _ => title(state, of),
    };
    Cells { label, value: String::new(), word: of.standing.word().to_owned(), role: Some(of_standing(&of.standing)) }
}

/// What two builders wrote in different ways.
fn conflict(state: &State, name: &str) -> Cells {
    let Some(found) = state.workbook.project().conflicts.get(name) else { return Cells::default() };
    let side = |typed: &Option<String>| typed.as_deref().map_or_else(|| "nothing".to_owned(), clean);
    let value = format!("ours {}, theirs {}", side(&found.ours), side(&found.theirs));
    Cells { label: super::label(&found.key), value, word: "conflict".to_owned(), role: Some(Role::Caution) }
}

/// A step on the page of the day: what it needs stands where a value would.
fn today_step(state: &State, address: &Address) -> Cells {
    let Some(of) = state.workbook.evaluation().step(address) else { return Cells::default() };
    let jobs = state.day.found.plots.iter().flat_map(|plot| &plot.open);
    let needs: Vec<String> =
        jobs.filter(|job| job.step == *address).flat_map(|job| job.needs.iter().map(Need::words)).collect();
    let label = format!("  {}", title(state, of));
    Cells { label, value: needs.join(", "), ..step(state, of) }
}

/// An entry on the page of the day: how much waits for it.
fn today_entry(state: &State, id: &str) -> Cells {
    let waiting = state.day.found.missing.iter().find(|(other, _)| other == id).map_or(0, |(_, count)| *count);
    let value = format!("{} and checks wait", super::count(waiting, "figure"));
    Cells { label: super::label(id), value, word: "missing".to_owned(), role: Some(Role::Unknown) }
}

/// How many panels are listed one by one.
const LISTED: usize = 3;

fn panels(state: &State, id: &str) -> Cells {
    let evaluation = state.workbook.evaluation();
    let states: Vec<&StepState> = evaluation.steps.iter().filter(|other| other.step.id == id).collect();
    let Some(first) = states.first() else { return Cells::default() };
    let words: Vec<&str> = states.iter().map(|other| other.standing.word()).collect();
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for word in &words {
        *counts.entry(word).or_default() += 1;
    }
    let alike = counts.len() == 1;
    let value = if alike {
        format!("{} panels", states.len())
    } else if states.len() <= LISTED {
        let one = |other: &&StepState| {
            format!("{} {}", other.address.panel.map_or_else(String::new, |p| p.to_string()), other.standing.word())
        };
        states.iter().map(one).collect::<Vec<_>>().join(", ")
    } else {
        counts.iter().map(|(word, count)| format!("{count} {word}")).collect::<Vec<_>>().join(", ")
    };
    // The word of the line is what wants a hand first; it says done only when every panel is.
    let with = |wanted: &[&str]| states.iter().find(|other| wanted.contains(&other.standing.word()));
    let next = with(&["held", "stale"]).or_else(|| with(&["open"])).or_else(|| with(&["waits"])).unwrap_or(first);
    Cells {
        label: evaluation.fill(first.step.title, None, state.system()),
        value,
        word: next.standing.word().to_owned(),
        role: Some(of_standing(&next.standing)),
    }
}

/// The worst verdict of a stage's checks; none if it has none.
pub fn worst(state: &State, stage: crate::model::Stage) -> Option<Verdict> {
    let own = state.workbook.evaluation().verdicts.iter().filter(|judged| judged.check.stage() == stage);
    own.map(|judged| judged.verdict).max()
}
