//! Finding by typing part of a name.

use super::super::command::Act;
use super::super::event::Key;
use super::super::form::{Field, Slot};
use super::super::layout;
use super::super::page::Line;
use super::super::state::{Over, State, Subject};
use super::{bench, close, page};
use crate::model::Stage;
use crate::stage;
use crate::workbook::find::{Hit, Sort, find, find_records};

/// A key while finding.
pub fn press(state: &mut State, act: Option<Act>, key: Key) {
    let height = isize::try_from(height(state)).unwrap_or(1);
    match act {
        Some(Act::Down) => step_by(state, 1),
        Some(Act::Up) => step_by(state, -1),
        Some(Act::PageDown) => step_by(state, height),
        Some(Act::PageUp) => step_by(state, -height),
        Some(Act::Close) => close(state),
        Some(Act::Follow) => follow(state),
        _ => type_into(state, |field| {
            field.key(key);
        }),
    }
}

/// A pasted text while finding.
pub fn paste(state: &mut State, text: &str) {
    type_into(state, |field| field.paste(text));
}

fn type_into(state: &mut State, edit: impl FnOnce(&mut Field)) {
    let Some(Over::Find(find)) = state.over.last_mut() else { return };
    let mut field = Field::new(Slot::Main, "", "");
    field.input = find.typed.clone();
    edit(&mut field);
    if field.input.value() != find.typed.value() {
        find.at = 0;
    }
    find.typed = field.input;
}

fn step_by(state: &mut State, by: isize) {
    if let Some(Over::Find(find)) = state.over.last_mut() {
        find.at = find.at.saturating_add_signed(by).min(find.hits.len().saturating_sub(1));
    }
}

fn height(state: &State) -> usize {
    state.areas().map_or(1, |areas| usize::from(areas.detail.height)).saturating_sub(1).max(1)
}

fn follow(state: &mut State) {
    let Some(Over::Find(find)) = state.over.last() else { return };
    match find.hits.get(find.at).cloned() {
        Some(hit) => go_to(state, hit),
        None => state.say("nothing of that name"),
    }
}

fn go_to(state: &mut State, hit: Hit) {
    if state.is_at_bench() && bench::show(state, &hit.address) {
        return;
    }
    let stage = Stage::of_id(&hit.address.id).unwrap_or(Stage::Site);
    let line = match hit.sort {
        Sort::Entry => Line::Entry(hit.address.id),
        Sort::Figure => Line::Figure(hit.address.id),
        Sort::Step => Line::Step(hit.address),
        Sort::Record => {
            let known = stage::step(&hit.address.id).is_some() || stage::is_measurable(&hit.address.id);
            close(state);
            page::push_sheet(state, Subject::Records(known.then_some(hit.address)));
            return;
        }
        Sort::Check => match stage::check(&hit.address.id) {
            Some(check) => Line::Check(check.id),
            None => return,
        },
    };
    page::go_to(state, stage, line);
}

/// Finds anew, and keeps the chosen hit in view.
pub fn settle(state: &mut State) {
    let height = height(state);
    let Some(Over::Find(open)) = state.over.last() else { return };
    let hits = match open.typed.value().trim() {
        "" => Vec::new(),
        typed => {
            let evaluation = state.workbook.evaluation();
            let mut hits = find(evaluation, typed);
            hits.extend(find_records(evaluation, &state.workbook.project().records, typed));
            hits
        }
    };
    if let Some(Over::Find(open)) = state.over.last_mut() {
        open.at = open.at.min(hits.len().saturating_sub(1));
        open.top = layout::scrolled(open.top, open.at, hits.len(), height);
        open.hits = hits;
    }
}
