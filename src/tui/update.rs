//! What every input does to the state. No drawing.

mod bench;
mod changing;
mod files;
mod find;
mod form;
mod page;
mod picture;
mod pin;
mod question;
mod sheet;
mod variant;
mod write;

use super::command::{self, Act, Place};
use super::event::{Input, Key};
use super::layout;
use super::lessons;
use super::page::Line;
use super::state::{Over, Setup, State, Want};
use super::words;
use crate::workbook::Workbook;

pub use page::{can, open_word};

/// Begins a session: takes the file for writing and asks about unsaved work of an earlier one.
pub fn start(mut workbook: Workbook, setup: Setup) -> State {
    workbook.take_lock();
    let mut state = State::new(workbook, setup);
    state.settle_day();
    if words::sheet::has_faults(&state) {
        state.refuse(files::faults_in_short(&state));
    }
    files::ask_about_draft(&mut state);
    arrange(&mut state);
    form::settle(&mut state);
    state
}

/// Lets all inputs act, in their order. What a half-typed value would move is worked out once, after the last.
pub fn update(state: &mut State, inputs: impl IntoIterator<Item = Input>) {
    for input in inputs {
        one(state, input);
        arrange(state);
    }
    form::settle(state);
}

fn one(state: &mut State, input: Input) {
    match input {
        Input::Key(key) => press(state, key),
        Input::Paste(text) => paste(state, &text),
        Input::Resize(columns, rows) => state.setup.size = (columns, rows),
        Input::Time(now) => {
            state.now = now;
            bench::tell_the_end(state);
        }
        Input::Back => files::look_at_disk(state),
        Input::Report(report) => {
            state.workbook.take_report(*report);
            state.compare_again();
            changing::retell_change(state);
        }
        Input::Found(found) => variant::found(state, *found),
        Input::WorkerFailed(words) => state.refuse(format!("a computation in the background failed: {words}")),
        Input::DraftFailed(words) => state.refuse(format!("unsaved work is not kept beside: {words}")),
    }
}

fn press(state: &mut State, key: Key) {
    state.say("");
    let place = state.place();
    let act = command::act(place, key);
    if act == Some(Act::Suspend) {
        state.want = Some(Want::Suspend);
        return;
    }
    if act == Some(Act::Quit) {
        files::quit(state);
        return;
    }
    if let Some(act) = act {
        lessons::note(state, act);
    }
    match place {
        Place::Page => {
            if let Some(act) = act {
                page::run(state, act);
            }
        }
        Place::Sheet => sheet::run(state, act),
        Place::Picture => picture::run(state, act),
        Place::Form => form::press(state, act, key),
        Place::Question => question::run(state, act),
        Place::Find => find::press(state, act, key),
        Place::Bench => bench::run(state, act),
    }
}

fn paste(state: &mut State, text: &str) {
    match state.over.last_mut() {
        Some(Over::Form(form)) => {
            form.field_mut().paste(text);
            form.echo_is_old = true;
        }
        Some(Over::Find(_)) => find::paste(state, text),
        _ => state.say("a text was pasted, but nothing is being typed here"),
    }
}

/// Makes selection, scrolling and what is found agree with the state.
fn arrange(state: &mut State) {
    state.settle_day();
    let (lines, index) = state.lines();
    let height = state.areas().map_or(1, |areas| usize::from(areas.list.height)).max(1);
    let line = lines.get(index).filter(|line| line.is_selectable()).cloned();
    let spot = state.spot_mut();
    spot.index = index;
    spot.line = line;
    // What stands over the first line comes into view with it.
    let is_first = lines.iter().position(Line::is_selectable) == Some(index) && index < height;
    let wanted = if is_first { 0 } else { index };
    spot.top = layout::scrolled(layout::scrolled(spot.top, index, lines.len(), height), wanted, lines.len(), height);
    sheet::settle(state);
    find::settle(state);
}

/// Leaves what lies on top.
fn close(state: &mut State) {
    state.over.pop();
}
