//! Forms and questions, below or beside the list.

use ratatui::Frame;
use ratatui::layout::{Position, Rect};
use unicode_width::UnicodeWidthStr;

use super::picture::height;
use super::{piece, row, rows, titled};
use crate::tui::form::{Field, Form, Purpose};
use crate::tui::ink::{Par, Piece, Role, cut, fit};
use crate::tui::layout;
use crate::tui::state::{Question, State};
use crate::tui::typeface::Size;

/// Columns of the labels of fields.
const LABEL: usize = 13;

/// Draws a form: its fields, the words to choose from, what the text would mean.
pub fn draw(state: &State, form: &Form, frame: &mut Frame<'_>, title: Rect, area: Rect) {
    let theme = state.theme();
    titled(frame, title, &form.title, theme);
    let mut y = area.top();
    for (index, field) in form.fields.iter().enumerate() {
        if y < area.bottom() {
            one_field(state, field, index == form.at, frame, Rect { y, height: 1, ..area });
            y += 1;
        }
    }
    let below = Rect { y, height: area.bottom().saturating_sub(y), ..area };
    let field = form.field();
    if field.words.is_empty() {
        let mut pars = Vec::new();
        let echo_says_it = field.spec.is_some()
            && matches!(form.purpose, Purpose::Set(_) | Purpose::Reading(_) | Purpose::ReadingHere(_));
        if !echo_says_it {
            pars.push(Par::new(Role::Quiet, field.hint.clone()));
        }
        pars.extend(form.echo.iter().cloned());
        rows(frame, below, &pars, theme);
        if state.is_at_bench() {
            let used = height(state, &pars, below.width) + 1;
            let rest = Rect { y: below.y + used, height: below.height.saturating_sub(used), ..below };
            large(state, field, frame, rest);
        }
    } else {
        let height = (below.height / 2).max(1).min(u16::try_from(field.words.len()).unwrap_or(u16::MAX));
        words(state, field, frame, Rect { height, ..below });
        let rest = Rect { y: below.y + height, height: below.height - height, ..below };
        rows(frame, rest, &form.echo, theme);
    }
}

fn one_field(state: &State, field: &Field, here: bool, frame: &mut Frame<'_>, area: Rect) {
    let theme = state.theme();
    let mark = if here { theme.here() } else { " " };
    let label = fit(&format!("{mark} {}", field.label), LABEL, theme);
    let room = usize::from(area.width).saturating_sub(LABEL + 2).max(1);
    let scroll = field.input.visual_scroll(room.saturating_sub(1));
    let typed = skip_cells(field.input.value(), scroll);
    let chosen = field.value();
    let text = if !field.words.is_empty() && !here { chosen } else { typed };
    let text = cut(&text, room, theme);
    let role = match (here, field.is_fresh) {
        (true, true) => Role::Selected,
        (true, false) => Role::Strong,
        (false, _) => Role::Plain,
    };
    let mut pieces = vec![piece(if here { Role::Key } else { Role::Quiet }, label), piece(role, text)];
    if here && !field.words.is_empty() && field.input.value().is_empty() {
        pieces.push(piece(Role::Quiet, "type to narrow the list, arrows choose"));
    }
    row(frame, area, &pieces, theme);
    if here {
        let cursor = field.input.visual_cursor().max(scroll) - scroll;
        let x = area.x.saturating_add(u16::try_from(LABEL + cursor.min(room)).unwrap_or(0));
        let position = Position { x: x.min(area.right().saturating_sub(1)), y: area.y };
        if frame.area().contains(position) {
            frame.set_cursor_position(position);
        }
    }
}

/// The value that is being typed, in the largest type that fits: at the bench it is read from an arm's length.
fn large(state: &State, field: &Field, frame: &mut Frame<'_>, area: Rect) {
    let theme = state.theme();
    let typed = field.value();
    let fits = |size: &Size| {
        size.height() <= usize::from(area.height)
            && size.width(&typed).is_some_and(|columns| columns <= usize::from(area.width))
    };
    let Some(size) = Size::all(theme.ascii).find(fits).filter(|_| field.spec.is_some()) else { return };
    for (y, text) in (area.top()..area.bottom()).zip(size.rows(&typed, theme.ascii)) {
        row(frame, Rect { y, height: 1, ..area }, &[piece(Role::Strong, text)], theme);
    }
}

/// The text behind so many cells.
fn skip_cells(text: &str, cells: usize) -> String {
    let mut skipped = 0;
    let behind = text.chars().skip_while(|letter| {
        let before = skipped < cells;
        skipped += letter.to_string().width();
        before
    });
    behind.collect()
}

fn words(state: &State, field: &Field, frame: &mut Frame<'_>, area: Rect) {
    let theme = state.theme();
    let matching = field.matching();
    if matching.is_empty() {
        let text = "no word of the list holds what is typed";
        return row(frame, area, &[piece(Role::Refused, text)], theme);
    }
    let top = layout::scrolled(0, field.chosen, matching.len(), usize::from(area.height));
    let widest = matching.iter().map(|(word, _)| word.width()).max().unwrap_or(0).min(usize::from(area.width) / 2);
    for (y, (index, (word, meaning))) in (area.top()..area.bottom()).zip(matching.iter().enumerate().skip(top)) {
        let here = field.is_decided && index == field.chosen;
        let room = usize::from(area.width).saturating_sub(widest + 6);
        let mark = if here { theme.here() } else { " " };
        let role = if here { Role::Selected } else { Role::Plain };
        let pieces = [
            piece(role, format!("  {mark} {}", fit(word, widest, theme))),
            piece(if here { Role::Selected } else { Role::Quiet }, format!("  {}", cut(meaning, room, theme))),
        ];
        row(frame, Rect { y, height: 1, ..area }, &pieces, theme);
    }
}

/// Draws a question with its answers.
pub fn question(state: &State, question: &Question, frame: &mut Frame<'_>, title: Rect, area: Rect) {
    let theme = state.theme();
    titled(frame, title, &question.title, theme);
    let width = usize::from(area.width);
    let says: Vec<Vec<Piece>> =
        question.says.iter().flat_map(|text| Par::plain(text.clone()).wrap(width, theme)).collect();
    let room = usize::from(area.height).saturating_sub(question.answers.len().min(3));
    let shown = says.len().min(room);
    for (y, pieces) in (area.top()..).zip(says.iter().take(shown)) {
        row(frame, Rect { y, height: 1, ..area }, pieces, theme);
    }
    let y = area.top() + u16::try_from(shown).unwrap_or(0);
    let below = Rect { y, height: area.bottom().saturating_sub(y), ..area };
    let top = layout::scrolled(0, question.at, question.answers.len(), usize::from(below.height));
    for (y, (index, (text, _))) in (below.top()..below.bottom()).zip(question.answers.iter().enumerate().skip(top)) {
        let here = index == question.at;
        let mark = if here { theme.here() } else { " " };
        let role = if here { Role::Selected } else { Role::Plain };
        let text = fit(&format!("{mark} {text}"), width.min(76), theme);
        row(frame, Rect { y, height: 1, ..below }, &[piece(role, text)], theme);
    }
}
