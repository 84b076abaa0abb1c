//! Keeping a figure in view, and handing it to the clipboard.

use super::super::page::Line;
use super::super::state::{State, Want};
use super::super::words;

/// The id of the figure or entry of a line.
pub fn figure_of(line: Option<&Line>) -> Option<&str> {
    match line? {
        Line::Entry(id) | Line::Figure(id) => Some(id),
        _ => None,
    }
}

/// Pins the figure of the line to the strip over every page, or takes it off.
pub fn pin(state: &mut State) {
    let line = state.selected();
    let Some(id) = figure_of(line.as_ref()) else {
        return state.say("figures and entries can be pinned; this line is neither");
    };
    let label = words::label(id);
    if let Some(at) = state.marks.pins.iter().position(|pinned| pinned == id) {
        state.marks.pins.remove(at);
        state.say(format!("{label} is no longer pinned"));
    } else {
        state.marks.pins.push(id.to_owned());
        state.say(format!("{label} is pinned over every page; i on its line takes it off"));
    }
}

/// Hands the value of the line to the terminal's clipboard.
pub fn copy(state: &mut State) {
    let line = state.selected();
    let Some(id) = figure_of(line.as_ref()) else {
        return state.say("figures and entries can be copied; this line is neither");
    };
    let text = state.workbook.evaluation().text(&state.shown(id), state.system());
    state.say(format!("sent to the terminal's clipboard: {text}; where it does not arrive, 'sunharp show' prints it"));
    state.want = Some(Want::Copy(text));
}
