//! Leafing through the pictures of a stage.

use super::super::command::Act;
use super::super::state::{Over, State};
use super::{close, page};
use crate::stage::picture;

/// Shows the first picture of the stage that can be drawn.
pub fn open(state: &mut State) {
    let pictures = picture::of(state.stage);
    if pictures.is_empty() {
        return state.say("this stage has no pictures; site and absorber do");
    }
    let drawn = &state.workbook.evaluation().drawn;
    let first = pictures.iter().position(|picture| (picture.draw)(drawn).is_ok()).unwrap_or(0);
    state.over.push(Over::Picture(first));
}

/// A command at a picture.
pub fn run(state: &mut State, act: Option<Act>) {
    let count = picture::of(state.stage).len().max(1);
    let Some(Over::Picture(at)) = state.over.last_mut() else { return };
    match act {
        Some(Act::NextPicture) => *at = (*at + 1) % count,
        Some(Act::PreviousPicture) => *at = (*at + count - 1) % count,
        Some(Act::Close) => close(state),
        Some(Act::Units) => page::run(state, Act::Units),
        _ => {}
    }
}
