//! Texts over the whole body: sheets, and what was found.

use ratatui::Frame;
use ratatui::layout::{Position, Rect};

use super::{piece, row, titled};
use crate::tui::ink::{Piece, Role, cut, fit};
use crate::tui::layout;
use crate::tui::state::{Find, Sheet, State};
use crate::tui::words::sheet as text;

/// Columns that the mark of the current row takes.
const MARGIN: u16 = 2;

/// Draws a sheet.
pub fn draw(state: &State, sheet: &Sheet, frame: &mut Frame<'_>, title: Rect, area: Rect) {
    let theme = state.theme();
    let width = usize::from(area.width.saturating_sub(MARGIN));
    let pars = text::pars(state, &sheet.subject);
    let wrapped: Vec<(bool, Vec<Piece>)> = pars
        .iter()
        .flat_map(|par| par.wrap(width, theme).into_iter().map(|row| (par.leads_to.is_some(), row)))
        .collect();
    let height = usize::from(area.height);
    let top = layout::scrolled(sheet.top, sheet.at, wrapped.len(), height);
    let heading = format!("{}{}", text::title(state, &sheet.subject), extent(top, height, wrapped.len()));
    titled(frame, title, &heading, theme);
    for (y, (index, (leads, pieces))) in (area.top()..area.bottom()).zip(wrapped.iter().enumerate().skip(top)) {
        let here = index == sheet.at;
        let mark = if here { format!("{} ", theme.here()) } else { "  ".to_owned() };
        let mut shown = vec![piece(Role::Key, mark)];
        let selected = here && *leads;
        shown.extend(
            pieces.iter().map(|part| piece(if selected { Role::Selected } else { part.role }, part.text.clone())),
        );
        row(frame, Rect { y, height: 1, ..area }, &shown, theme);
    }
}

/// Which rows are in view, where not all are.
fn extent(top: usize, height: usize, rows: usize) -> String {
    if rows <= height { String::new() } else { format!(", rows {} to {} of {rows}", top + 1, (top + height).min(rows)) }
}

/// Draws what was found.
pub fn find(state: &State, find: &Find, frame: &mut Frame<'_>, title: Rect, area: Rect) {
    let theme = state.theme();
    titled(frame, title, "find", theme);
    let prompt = "part of a name: ";
    let room = usize::from(area.width).saturating_sub(prompt.len() + 1).max(1);
    let typed = find.typed.value();
    let line = Rect { height: 1, ..area };
    row(frame, line, &[piece(Role::Key, prompt), piece(Role::Strong, cut(typed, room, theme))], theme);
    let x = area.x.saturating_add(u16::try_from(prompt.len() + find.typed.visual_cursor().min(room)).unwrap_or(0));
    let position = Position { x: x.min(area.right().saturating_sub(1)), y: area.y };
    if frame.area().contains(position) {
        frame.set_cursor_position(position);
    }
    let below = Rect { y: area.y + 1, height: area.height.saturating_sub(1), ..area };
    if find.hits.is_empty() {
        let text = if typed.trim().is_empty() {
            "type words such as: pitch, stagnation, pressure, drill"
        } else {
            "nothing of that name"
        };
        return row(frame, below, &[piece(Role::Quiet, text)], theme);
    }
    hits(state, find, frame, below);
}

/// Columns of the word that says what sort of thing it is.
const SORT: usize = 7;
/// Columns of the value.
const VALUE: usize = 18;

fn hits(state: &State, find: &Find, frame: &mut Frame<'_>, area: Rect) {
    let theme = state.theme();
    let evaluation = state.workbook.evaluation();
    let top = layout::scrolled(find.top, find.at, find.hits.len(), usize::from(area.height));
    let label = usize::from(area.width).saturating_sub(2 + SORT + 2 + VALUE + 2);
    for (y, (index, hit)) in (area.top()..area.bottom()).zip(find.hits.iter().enumerate().skip(top)) {
        let here = index == find.at;
        let mark = if here { theme.here() } else { " " };
        let name = match evaluation.row(&hit.address) {
            Some(_) => crate::tui::words::label(&hit.address.id),
            None => hit.label.clone(),
        };
        let name = format!("{name}{}", crate::tui::words::on_panel(hit.address.panel));
        let value = match (evaluation.verdict(&hit.address.id), evaluation.step(&hit.address)) {
            (Some(judged), _) => judged.verdict.word().to_owned(),
            (None, Some(step)) => step.standing.word().to_owned(),
            (None, None) => evaluation.text(&hit.address, state.system()),
        };
        let role = if here { Role::Selected } else { Role::Plain };
        let sort = fit(hit.sort.word(), SORT, theme);
        let name = fit(&name, label, theme);
        let text = format!("{mark} {sort}  {name}  {}", fit(&value, VALUE, theme));
        row(frame, Rect { y, height: 1, ..area }, &[piece(role, text)], theme);
    }
}
