//! The lines of a stage's page, in order: the summary, what is decided, measured, computed, checked and done.

mod today;

use super::state::State;
use crate::model::{Address, Role, Stage};
use crate::solve::Evaluation;
use crate::solve::register::HEADING;
use crate::stage::safety::questions::SHORT_WORD;
use crate::stage::summary::{self, Answer};
use crate::stage::{self, Figure};

/// One line of a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Line {
    /// A heading.
    Heading(&'static str),
    /// A line of the stage's summary.
    Answer(&'static Answer),
    /// An entry.
    Entry(String),
    /// A figure, or one row of a figure that runs over an axis.
    Figure(String),
    /// A figure that runs over an axis, as one line.
    Rows(&'static str),
    /// A check.
    Check(&'static str),
    /// A hazard of the register, by its key.
    Hazard(&'static str),
    /// A step of the project or of one panel.
    Step(Address),
    /// A step on all panels, as one line.
    Panels(&'static str),
    /// What two builders changed in different ways, by the name of its table.
    Conflict(String),
    /// Words that nothing can be done with.
    Says(String),
}

impl Line {
    /// Whether keys can act on it.
    pub const fn is_selectable(&self) -> bool {
        !matches!(self, Self::Heading(_) | Self::Answer(_) | Self::Says(_))
    }

    /// The id of what it shows.
    pub fn id(&self) -> &str {
        match self {
            Self::Heading(_) | Self::Answer(_) | Self::Says(_) => "",
            Self::Entry(id) | Self::Figure(id) | Self::Conflict(id) => id,
            Self::Rows(id) | Self::Check(id) | Self::Hazard(id) | Self::Panels(id) => id,
            Self::Step(address) => &address.id,
        }
    }
}

/// Whether an entry stands on the page of a stage; what belongs to the whole project stands on the first, the bill on
/// that of the enclosure.
fn is_on(stage: Stage, id: &str) -> bool {
    let shared = if id.starts_with("materials.") { Stage::Enclosure } else { Stage::Site };
    Stage::of_id(id).unwrap_or(shared) == stage
}

/// The lines of the page that is shown.
pub fn lines(state: &State) -> Vec<Line> {
    if state.is_today {
        return today::lines(state);
    }
    let evaluation = state.workbook.evaluation();
    let mut lines = Vec::new();
    section(&mut lines, "In short", summary::of(state.stage).iter().map(Line::Answer).collect());
    if state.stage == Stage::Safety {
        section(&mut lines, HEADING, register(state));
    }
    section(&mut lines, "Decide", entries(evaluation, state.stage, Role::Decide));
    section(&mut lines, "Measure", entries(evaluation, state.stage, Role::Measure));
    let figures = stage::figures().iter().filter(|figure| figure.stage() == state.stage);
    section(&mut lines, "Computed", figures.flat_map(|figure| rows(state, figure)).collect());
    let checks = stage::checks().iter().filter(|check| check.stage() == state.stage);
    section(&mut lines, "Checks", checks.map(|check| Line::Check(check.id)).collect());
    section(&mut lines, "Steps", steps(state));
    lines
}

fn section(lines: &mut Vec<Line>, heading: &'static str, body: Vec<Line>) {
    if !body.is_empty() {
        lines.push(Line::Heading(heading));
        lines.extend(body);
    }
}

fn entries(evaluation: &Evaluation, stage: Stage, role: Role) -> Vec<Line> {
    let mut lines = Vec::new();
    for spec in stage::entries().iter().filter(|spec| spec.role == role && is_on(stage, spec.id)) {
        match spec.id.split_once(".*") {
            None => lines.push(Line::Entry(spec.id.to_owned())),
            Some((table, _)) => {
                let keys = evaluation.drawn.inputs.rows(table);
                lines.extend(keys.iter().map(|key| Line::Entry(spec.id.replacen('*', key, 1))));
            }
        }
    }
    lines
}

/// The hazards, each with the checks that watch over it where it is unfolded.
fn register(state: &State) -> Vec<Line> {
    let mut lines = vec![Line::Says(SHORT_WORD.to_owned())];
    for found in state.workbook.evaluation().register() {
        lines.push(Line::Hazard(found.hazard.key));
        if state.unfolded.contains(found.hazard.key) {
            lines.extend(found.judged.iter().map(|judged| Line::Check(judged.check.id)));
        }
    }
    lines
}

fn rows(state: &State, figure: &Figure) -> Vec<Line> {
    let Some(axis) = figure.axis else { return vec![Line::Figure(figure.id.to_owned())] };
    let mut lines = vec![Line::Rows(figure.id)];
    if state.unfolded.contains(figure.id) {
        let keys = state.workbook.evaluation().keys(axis);
        lines.extend(keys.iter().map(|key| Line::Figure(format!("{}.{key}", figure.id))));
    }
    lines
}

fn steps(state: &State) -> Vec<Line> {
    let evaluation = state.workbook.evaluation();
    let mut lines = Vec::new();
    for step in stage::steps().iter().filter(|step| step.stage == state.stage) {
        let states = evaluation.steps.iter().filter(|other| other.step.id == step.id);
        let addresses: Vec<Address> = states.map(|other| other.address.clone()).collect();
        if addresses.len() > 1 && state.panel.is_none() {
            lines.push(Line::Panels(step.id));
            if state.unfolded.contains(step.id) {
                lines.extend(addresses.into_iter().map(Line::Step));
            }
        } else {
            let shown =
                |address: &Address| address.panel.is_none() || state.panel.is_none() || address.panel == state.panel;
            lines.extend(addresses.into_iter().filter(shown).map(Line::Step));
        }
    }
    lines
}

/// The selectable line at a place or the nearest one behind it, else the nearest before it.
pub fn nearest(lines: &[Line], index: usize) -> usize {
    let behind = (index..lines.len()).find(|at| lines[*at].is_selectable());
    let before = || (0..index.min(lines.len())).rev().find(|at| lines[*at].is_selectable());
    behind.or_else(before).unwrap_or(0)
}
