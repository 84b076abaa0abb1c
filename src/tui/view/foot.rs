//! What the program says, and the keys that work here.

use ratatui::Frame;
use unicode_width::UnicodeWidthStr;

use super::{piece, row};
use crate::tui::command::{self, Act, Command};
use crate::tui::ink::{Piece, Role, cut};
use crate::tui::layout::Areas;
use crate::tui::state::State;
use crate::tui::update::{can, open_word};

/// Draws both lines.
pub fn draw(state: &State, frame: &mut Frame<'_>, areas: &Areas) {
    let theme = state.theme();
    let message = cut(&state.message.text, usize::from(areas.message.width), theme);
    row(frame, areas.message, &[piece(state.message.role, message)], theme);
    row(frame, areas.footer, &keys(state, usize::from(areas.footer.width)), theme);
}

/// What is always shown, behind whatever else fits.
const ALWAYS: [Act; 4] = [Act::Menu, Act::Close, Act::Help, Act::Quit];

/// As many keys as fit, the most wanted first.
fn keys(state: &State, width: usize) -> Vec<Piece> {
    let place = state.place();
    let shown = |command: &&Command| command.footer && can(state, command.act);
    let (always, others): (Vec<&Command>, Vec<&Command>) =
        command::at(place).filter(shown).partition(|command| ALWAYS.contains(&command.act));
    let words = |command: &Command| -> Option<(String, &str)> {
        let label = if command.act == Act::Open { open_word(state) } else { command.label };
        Some((command.keys.first()?.to_string(), label))
    };
    let cells = |(key, label): &(String, &str)| key.width() + label.width() + 3;
    let always: Vec<(String, &str)> = always.into_iter().filter_map(words).collect();
    let mut room = (width + 2).saturating_sub(always.iter().map(cells).sum());
    let mut fitting = Vec::new();
    for entry in others.into_iter().filter_map(words) {
        if cells(&entry) <= room {
            room -= cells(&entry);
            fitting.push(entry);
        }
    }
    let mut pieces: Vec<Piece> = Vec::new();
    for (key, label) in fitting.into_iter().chain(always) {
        let gap = if pieces.is_empty() { "" } else { "  " };
        pieces.push(piece(Role::Plain, gap));
        pieces.push(piece(Role::Key, key));
        pieces.push(piece(Role::Quiet, format!(" {label}")));
    }
    pieces
}
