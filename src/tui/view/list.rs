//! The lines of a page in three columns: label, value, state word.

use ratatui::Frame;
use ratatui::layout::Rect;
use unicode_width::UnicodeWidthStr;

use super::{piece, row};
use crate::stage::summary::Answer;
use crate::tui::ink::{Piece, Role, cut, fit};
use crate::tui::layout;
use crate::tui::page::Line;
use crate::tui::state::State;
use crate::tui::words::row::{Cells, cells};
use crate::tui::words::summary;

/// Draws the lines in view.
pub fn draw(state: &State, frame: &mut Frame<'_>, area: Rect) {
    let (lines, selected) = state.lines();
    let top = layout::scrolled(state.spot().top, selected, lines.len(), usize::from(area.height));
    for (y, (index, line)) in (area.top()..area.bottom()).zip(lines.iter().enumerate().skip(top)) {
        let here = index == selected && line.is_selectable();
        let pieces = pieces(state, line, here, area.width);
        row(frame, Rect { y, height: 1, ..area }, &pieces, state.theme());
    }
}

fn pieces(state: &State, line: &Line, here: bool, width: u16) -> Vec<Piece> {
    let theme = state.theme();
    match line {
        Line::Says(words) => {
            return vec![piece(Role::Quiet, format!("  {}", cut(words, usize::from(width).saturating_sub(2), theme)))];
        }
        Line::Heading(words) => return vec![piece(Role::Heading, (*words).to_owned())],
        Line::Answer(answer) => return self::answer(state, answer, usize::from(width)),
        _ => {}
    }
    let cells = cells(state, line);
    let columns = layout::columns(width);
    let mark = if here { theme.here() } else { " " };
    let role = if here { Role::Selected } else { Role::Plain };
    let Cells { label, value, word, role: word_role } = cells;
    let room = columns.label + 2 + columns.value;
    let text = match line {
        _ if value.is_empty() => fit(&label, room, theme),
        // The title of a step is a sentence: it gets what its short value leaves.
        Line::Panels(_) => {
            let value = cut(&value, columns.value, theme);
            let label = fit(&label, room.saturating_sub(value.width() + 2), theme);
            format!("{label}  {value}")
        }
        _ => format!("{}  {}", fit(&label, columns.label, theme), fit(&value, columns.value, theme)),
    };
    let word = fit(&word, columns.word, theme);
    let word_role = if here { Role::Selected } else { word_role.unwrap_or(Role::Plain) };
    vec![piece(role, format!("{mark} {text}  ")), piece(word_role, word)]
}

/// Columns of what a line of the summary asks.
const ASKS: usize = 9;

fn answer(state: &State, answer: &Answer, width: usize) -> Vec<Piece> {
    let theme = state.theme();
    let text = cut(&summary::fill(state, answer.text).replace('\u{a0}', " "), width.saturating_sub(ASKS + 2), theme);
    vec![piece(Role::Quiet, format!("  {}", fit(answer.asks, ASKS, theme))), piece(Role::Plain, text)]
}
