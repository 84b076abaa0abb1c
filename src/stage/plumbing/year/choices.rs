//! One step up and one step down for what a builder can still change, as a study: a year of each beside the project's.
//!
//! Each row is the whole project solved again with one entry changed, and its year; nothing is guessed from slopes.

use std::collections::BTreeSet;
use std::sync::Arc;

use super::{YEAR, hours, plant, refused};
use crate::handbook::tube::{self, TubeSize};
use crate::model::{EntrySpec, Fig, Inputs, PanelLetter, Value, Why};
use crate::stage::materials::{BILL, Bill, Line};
use crate::stage::plumbing::{circuit, entries as e, panel_count};
use crate::stage::site::entries as s;
use crate::stage::study::{self, Cancel};
use crate::stage::{Group, Solution, plumbing};
use crate::units::si::Dimension;
use crate::units::{Kind, Quantity};
use crate::year::{Conditions, simulate};

/// A step of tank and flow, as a factor.
const FACTOR: f64 = 1.25;
/// A step of the exchanger's effectiveness.
const EFFECTIVENESS: f64 = 0.10;
/// A step of the tilt, rad.
const TILT: f64 = 10.0 * std::f64::consts::PI / 180.0;

/// One row: the project with one thing changed.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// What is changed and how, in words.
    pub words: String,
    /// What the year says of it.
    pub found: Fig<Found>,
    /// What the bill of materials costs more.
    pub cost: Fig<f64>,
}

/// What a year says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Found {
    /// Solar share.
    pub fraction: f64,
    /// Hours the panels stand hot, locked.
    pub stagnation: f64,
}

/// The project as it is and its neighbours.
#[derive(Clone, Debug, PartialEq)]
pub struct Choices {
    /// As it is.
    pub now: Found,
    /// One step away.
    pub rows: Vec<Choice>,
}

/// What the study reads.
pub static CHOICES: Group =
    Group { name: "one step up and down", entries: &[], groups: &[&YEAR, &plumbing::ROW, &BILL] };

/// Runs the study.
pub fn study(solution: &Solution, cancel: &Cancel) -> Option<study::Outcome> {
    let found = choices(solution, cancel);
    (!cancel.is_cancelled()).then(|| study::Outcome::Choices(found.map(Arc::new)))
}

/// The neighbours of a solution and their years.
pub fn choices(solution: &Solution, cancel: &Cancel) -> Fig<Choices> {
    let hours = hours::hours(solution)?;
    let now = found(solution, &hours, cancel)?;
    let mut rows = Vec::new();
    for Step { words, inputs, turns } in steps(solution)? {
        if cancel.is_cancelled() {
            return Err(Why::Pending);
        }
        let changed = (solution.solver)(inputs, &solution.world, &study::Studies::default(), Some(solution));
        // Sun and draws are the same ones unless the panels are turned.
        let found = if turns {
            hours::hours(&changed).and_then(|turned| found(&changed, &turned, cancel))
        } else {
            found(&changed, &hours, cancel)
        };
        rows.push(Choice { words, found, cost: more(&solution.bill, &changed.bill) });
    }
    Ok(Choices { now, rows })
}

fn found(solution: &Solution, hours: &[Conditions], cancel: &Cancel) -> Fig<Found> {
    let plant = plant::plant(solution)?;
    let whole = simulate(&plant, hours, &|| cancel.is_cancelled()).map_err(refused)?.year;
    let no_load = || Why::out_of_range("no heat is wanted in the year");
    Ok(Found { fraction: whole.solar_fraction().ok_or_else(no_load)?, stagnation: whole.locked_time().si() / 3600.0 })
}

/// What one bill costs more than another, over the lines that differ and have a price. A line that asks for another
/// size has none: the price entered is that of the present size.
fn more(now: &Bill, then: &Bill) -> Fig<f64> {
    let keys = then.lines.iter().chain(&now.lines).map(|line| &line.key).collect::<BTreeSet<_>>();
    let (mut sum, mut missing) = (None, Vec::new());
    for key in keys {
        let before = now.line(key).ok();
        let after = then.line(key).ok();
        if before.map(asked) == after.map(asked) {
            continue;
        }
        let is_same_thing = before.zip(after).is_none_or(|(before, after)| before.item == after.item);
        let cost = |line: Option<&Line>| line.map_or(Ok(0.0), Line::cost);
        match (cost(before), cost(after)) {
            (Ok(before), Ok(after)) if is_same_thing => sum = Some(sum.unwrap_or(0.0) + after - before),
            _ => missing.push(format!("materials.{key}.price")),
        }
    }
    match sum {
        Some(sum) => Ok(sum),
        None if missing.is_empty() => Err(Why::out_of_range("nothing on the bill of materials changes with it")),
        None => Err(Why::Missing(missing)),
    }
}

/// What a line asks for.
fn asked(line: &Line) -> (&Fig<String>, &Fig<Quantity>, &Fig<Quantity>) {
    (&line.item, &line.needed, &line.piece)
}

/// One changed project.
struct Step {
    words: String,
    inputs: Inputs,
    /// Whether the panels see another sun.
    turns: bool,
}

/// Every step down and up that the project allows, the two of one thing side by side.
fn steps(solution: &Solution) -> Fig<Vec<Step>> {
    let inputs = &solution.inputs;
    let changed = |words: String, spec: &EntrySpec, value: Value| Step {
        words,
        inputs: inputs.replaced(spec.id, value),
        turns: spec.id == s::TILT.spec.id,
    };
    let number =
        |words: String, spec: &EntrySpec, kind: Kind, si: f64| changed(words, spec, Quantity::new(kind, si).into());
    let both = [(1.0 / FACTOR, -1.0), (FACTOR, 1.0)];
    let mut steps = panels(inputs)?;
    let tank = inputs.get(&e::TANK)?.si();
    steps.extend(both.map(|(by, _)| number(format!("tank × {by}"), &e::TANK.spec, Kind::Volume, by * tank)));
    let flow = inputs.get(&e::FLOW_PER_AREA)?;
    steps.extend(
        both.map(|(by, _)| number(format!("flow × {by}"), &e::FLOW_PER_AREA.spec, Kind::FlowPerArea, by * flow)),
    );
    let sizes = [false, true].into_iter().filter_map(|up| next_tube(circuit::tube(inputs).ok()?, up));
    steps.extend(sizes.map(|size| changed(format!("pipe {}", size.name()), &e::PIPE.spec, Value::Choice(size.name()))));
    if let Some(now) = solution.plumbing.effectiveness.clone()? {
        let next = both.map(|(_, sign)| now.si() + sign * EFFECTIVENESS);
        let possible = next.into_iter().filter(|next| (0.05..=1.0).contains(next));
        let words = |next: f64| format!("exchanger {:.0} %", 100.0 * next);
        steps.extend(possible.map(|next| number(words(next), &e::EXCHANGER.spec, Kind::Percent, next)));
    }
    let tilt = inputs.get(&s::TILT)?.si();
    let next = both.map(|(_, sign)| tilt + sign * TILT);
    let possible = next.into_iter().filter(|next| (0.0..=std::f64::consts::FRAC_PI_2).contains(next));
    steps.extend(
        possible.map(|next| number(format!("tilt {:.0}°", next.to_degrees()), &s::TILT.spec, Kind::Angle, next)),
    );
    Ok(steps)
}

fn panels(inputs: &Inputs) -> Fig<Vec<Step>> {
    let count = panel_count(inputs)?;
    let letters: Vec<PanelLetter> = ('A'..='Z').filter_map(PanelLetter::new).collect();
    let with = |count: usize| Step {
        words: if count == 1 { "1 panel".to_owned() } else { format!("{count} panels") },
        inputs: inputs.clone().with_panels(letters[..count].to_vec()),
        turns: false,
    };
    let range = [count - 1, count + 1];
    Ok(range.into_iter().filter(|count| (1..=letters.len()).contains(count)).map(with).collect())
}

/// The nearest size of the same standard that is thinner or wider outside, its wall the nearest to the present one.
fn next_tube(now: &TubeSize, up: bool) -> Option<&'static TubeSize> {
    let same = || tube::all().iter().filter(|size| size.standard == now.standard);
    let beyond = |size: &&TubeSize| if up { size.od > now.od } else { size.od < now.od };
    let apart = |size: &TubeSize| (size.od.si() - now.od.si()).abs();
    let wall = |size: &TubeSize| (size.wall.si() - now.wall.si()).abs();
    same().filter(beyond).min_by(|a, b| apart(a).total_cmp(&apart(b)).then(wall(a).total_cmp(&wall(b))))
}
