//! Moving in a sheet of text, and following what its lines lead to.

use super::super::command::Act;
use super::super::page::Line;
use super::super::state::{Over, Sheet, State, Subject};
use super::super::{layout, words};
use super::{close, page, variant};
use crate::model::Stage;
use crate::stage;

/// A row of a sheet as wrapped: what its paragraph leads to.
fn rows(state: &State, subject: &Subject) -> Vec<Option<Subject>> {
    let width = state.areas().map_or(80, |areas| usize::from(areas.detail.width)).saturating_sub(SHEET_MARGIN);
    let pars = words::sheet::pars(state, subject);
    pars.iter().flat_map(|par| vec![par.leads_to.clone(); par.wrap(width, state.theme()).len()]).collect()
}

/// Columns that the mark of the current row takes.
pub const SHEET_MARGIN: usize = 2;

/// Whether a command can do anything in a sheet.
pub fn can(state: &State, sheet: &Sheet, act: Act) -> bool {
    let rows = rows(state, &sheet.subject);
    let here = || rows.get(sheet.at).cloned().flatten();
    match act {
        Act::Follow => here().is_some(),
        Act::Sway => matches!(&sheet.subject, Subject::Figure(of) if stage::figure(&of.id).is_some()),
        Act::Mend => {
            matches!(&sheet.subject, Subject::Check(check) if state.mend_of(check).is_some_and(Option::is_some))
        }
        Act::NextLink => rows.iter().any(Option::is_some),
        Act::GoTo => target(&sheet.subject, here()).is_some(),
        _ => true,
    }
}

/// A command in a sheet.
pub fn run(state: &mut State, act: Option<Act>) {
    let Some(Over::Sheet(sheet)) = state.over.last() else { return };
    let (at, subject) = (sheet.at, sheet.subject.clone());
    let rows = rows(state, &subject);
    let last = rows.len().saturating_sub(1);
    let height = state.areas().map_or(1, |areas| usize::from(areas.detail.height)).max(2) - 1;
    let to = match act {
        Some(Act::Down) => at + 1,
        Some(Act::Up) => at.saturating_sub(1),
        Some(Act::PageDown) => at + height,
        Some(Act::PageUp) => at.saturating_sub(height),
        Some(Act::First) => 0,
        Some(Act::Last) => last,
        Some(Act::NextLink) => next_link(&rows, at),
        Some(Act::Follow) => return follow(state, rows.get(at).cloned().flatten()),
        Some(Act::Sway) => return variant::sway(state, &subject),
        Some(Act::Mend) => return variant::mend(state, &subject),
        Some(Act::GoTo) => return go_to(state, &subject, rows.get(at).cloned().flatten()),
        Some(Act::Close) => return close(state),
        _ => return,
    };
    set_at(state, to.min(last));
}

fn set_at(state: &mut State, at: usize) {
    if let Some(Over::Sheet(sheet)) = state.over.last_mut() {
        sheet.at = at;
    }
}

/// The next paragraph that leads on, from the beginning again after the last.
fn next_link(rows: &[Option<Subject>], at: usize) -> usize {
    let begins = |index: &usize| rows[*index].is_some() && (*index == 0 || rows[*index - 1] != rows[*index]);
    let found = (at + 1..rows.len()).find(begins).or_else(|| (0..=at.min(rows.len().saturating_sub(1))).find(begins));
    found.filter(|index| *index < rows.len()).unwrap_or(at)
}

fn follow(state: &mut State, subject: Option<Subject>) {
    match subject {
        Some(subject) => page::push_sheet(state, subject),
        None => state.say("this line leads nowhere; Tab goes to the next one that does"),
    }
}

/// The page's line of what the sheet is about, else of what the row names.
fn target(about: &Subject, row: Option<Subject>) -> Option<(Stage, Line)> {
    line_of(about).or_else(|| line_of(&row?))
}

/// Leaves for the page.
fn go_to(state: &mut State, about: &Subject, row: Option<Subject>) {
    match target(about, row) {
        Some((stage, line)) => page::go_to(state, stage, line),
        None => state.say("there is no line of this on a page"),
    }
}

fn line_of(subject: &Subject) -> Option<(Stage, Line)> {
    let (id, line) = match subject {
        Subject::Figure(address) if stage::figure(&address.id).is_some() => {
            (address.id.as_str(), Line::Figure(address.id.clone()))
        }
        Subject::Figure(address) => (address.id.as_str(), Line::Entry(address.id.clone())),
        Subject::Check(id) => (*id, Line::Check(id)),
        Subject::Step(address) => (address.id.as_str(), Line::Step(address.clone())),
        Subject::Moved
        | Subject::Faults
        | Subject::Help
        | Subject::Records(_)
        | Subject::Variant(_)
        | Subject::SinceCommit => return None,
    };
    Some((Stage::of_id(id).unwrap_or(Stage::Site), line))
}

/// Keeps the row that keys act on in view.
pub fn settle(state: &mut State) {
    let Some(Over::Sheet(Sheet { subject, .. })) = state.over.last() else { return };
    let rows = rows(state, &subject.clone()).len();
    let height = state.areas().map_or(1, |areas| usize::from(areas.detail.height)).max(1);
    if let Some(Over::Sheet(sheet)) = state.over.last_mut() {
        sheet.at = sheet.at.min(rows.saturating_sub(1));
        sheet.top = layout::scrolled(sheet.top, sheet.at, rows, height);
    }
}
