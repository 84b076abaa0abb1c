//! What every change goes through: it is made, what was before is kept, and what moved is told.

use super::super::ink::cut;
use super::super::state::{LastChange, State};
use super::super::words;
use super::form;
use crate::model::text::clean;
use crate::workbook::{ChangeError, Workbook};
use std::sync::Arc;
use unicode_width::UnicodeWidthStr;

/// Takes the last change back.
pub fn undo(state: &mut State) {
    let before = Arc::clone(state.workbook.evaluation());
    match state.workbook.undo() {
        Some(label) => changed(state, before, format!("undone: {label}")),
        None => state.say("nothing to undo"),
    }
}

/// Makes the change again that was taken back.
pub fn redo(state: &mut State) {
    let before = Arc::clone(state.workbook.evaluation());
    match state.workbook.redo() {
        Some(label) => changed(state, before, format!("done again: {label}")),
        None => state.say("nothing to do again"),
    }
}

/// Makes a change and tells what moved by it; whether it was made.
pub fn change(state: &mut State, label: String, make: impl FnOnce(&mut Workbook) -> Result<(), ChangeError>) -> bool {
    let before = Arc::clone(state.workbook.evaluation());
    match make(&mut state.workbook) {
        Ok(()) => {
            changed(state, before, label);
            true
        }
        Err(error) => {
            state.refuse(form::refusal(&error));
            false
        }
    }
}

/// Remembers what was before a change and tells what moved.
pub fn changed(state: &mut State, before: Arc<crate::solve::Evaluation>, label: String) {
    state.last = Some(LastChange { label, before, differences: crate::workbook::Differences::default() });
    state.compare_again();
    tell_change(state);
}

fn tell_change(state: &mut State) {
    if let Some(text) = change_text(state) {
        state.say(text);
    }
}

/// Says again what moved, now that a study is back, if that is what the message is about.
pub fn retell_change(state: &mut State) {
    if state.last.is_some() && state.message.text.ends_with(MORE) {
        tell_change(state);
    }
}

/// How the words about a change end: which key tells more.
const MORE: &str = " (m shows them)";

fn change_text(state: &State) -> Option<String> {
    let last = state.last.as_ref()?;
    let figures = State::figures_moved(&last.differences);
    let verdicts = last.differences.flips.len();
    let stale = last.differences.stale.len();
    let mut parts = vec![format!("{} moved", words::count(figures, "figure"))];
    if verdicts > 0 {
        parts.push(format!("{} changed", words::count(verdicts, "verdict")));
    }
    if stale > 0 {
        parts.push(format!("{} stale", words::count(stale, "step")));
    }
    let rest = format!("; {}{MORE}", parts.join(", "));
    // What was changed the builder knows: that is cut where the line is short, not what moved.
    let room = usize::from(state.setup.size.0).saturating_sub(rest.width());
    Some(format!("{}{rest}", cut(&clean(&last.label), room, state.theme())))
}
