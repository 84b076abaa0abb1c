//! Leafing through the pictures of a stage.

use super::super::command::Act;
use super::super::state::{Over, State};
use super::{close, page};
use crate::stage::picture;

/// Shows the first picture of the stage.
pub fn open(state: &mut State) {
    if picture::of(state.stage).is_empty() {
        state.say("this stage has no pictures; site and absorber do");
    } else {
        state.over.push(Over::Picture(0));
    }
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
