//! Drawing: reads the state, changes nothing.

mod bench;
mod chart;
mod foot;
mod form;
mod head;
mod list;
mod picture;
mod scene;
mod sheet;
mod trace;

use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::text::Line;
use ratatui::widgets::Widget;
use unicode_width::UnicodeWidthStr;

use super::ink::{self, Par, Piece, Role};
use super::layout;
use super::state::{Over, State};
use super::theme::Theme;
use super::words;

/// Draws everything.
pub fn draw(state: &State, frame: &mut Frame<'_>) {
    let Some(areas) = state.areas().filter(|_| fits(state, frame.area())) else {
        return too_small(state, frame);
    };
    if state.is_at_bench() {
        bench::head(state, frame, &areas);
    } else {
        head::draw(state, frame, &areas);
    }
    if areas.list.height > 0 {
        list::draw(state, frame, areas.list);
    }
    if let Some(wall) = areas.wall {
        for y in wall.top()..wall.bottom() {
            row(frame, Rect { y, height: 1, ..wall }, &[piece(Role::Quiet, state.theme().wall())], state.theme());
        }
    }
    match state.over.last() {
        None => detail(state, frame, areas.title, areas.detail),
        Some(Over::Bench) => bench::draw(state, frame, areas.detail),
        Some(Over::Form(open)) => form::draw(state, open, frame, areas.title, areas.detail),
        Some(Over::Question(open)) => form::question(state, open, frame, areas.title, areas.detail),
        Some(Over::Picture(at)) => picture::draw(state, *at, frame, areas.title, areas.detail),
        Some(Over::Sheet(open)) => sheet::draw(state, open, frame, areas.title, areas.detail),
        Some(Over::Find(open)) => sheet::find(state, open, frame, areas.title, areas.detail),
    }
    foot::draw(state, frame, &areas);
}

/// Whether the size that input handling works with is the one that is drawn on.
fn fits(state: &State, screen: Rect) -> bool {
    state.setup.size.0 <= screen.width && state.setup.size.1 <= screen.height
}

fn too_small(state: &State, frame: &mut Frame<'_>) {
    let area = frame.area();
    let (columns, least) = layout::least(state.plan());
    let what = if state.is_at_bench() { "The bench" } else { "This page" };
    let text = format!(
        "{what} needs {columns} columns and {least} rows; this terminal has {} and {}.",
        area.width, area.height
    );
    rows(frame, area, &[Par::plain(text)], state.theme());
}

fn detail(state: &State, frame: &mut Frame<'_>, title: Rect, area: Rect) {
    let Some(line) = state.selected() else { return titled(frame, title, "", state.theme()) };
    titled(frame, title, &words::detail::title(state, &line), state.theme());
    rows(frame, area, &words::detail::about(state, &line), state.theme());
}

/// A piece of text in a role.
fn piece(role: Role, text: impl Into<String>) -> Piece {
    Piece { role, text: text.into() }
}

/// Draws one row.
fn row(frame: &mut Frame<'_>, area: Rect, pieces: &[Piece], theme: Theme) {
    put(frame, area, ink::line(pieces, theme));
}

fn put(frame: &mut Frame<'_>, area: Rect, line: Line<'_>) {
    let area = area.intersection(frame.area());
    if area.width > 0 && area.height > 0 {
        line.render(area, frame.buffer_mut());
    }
}

/// Draws paragraphs; what does not fit is shown to go on by a mark at the end.
fn rows(frame: &mut Frame<'_>, area: Rect, pars: &[Par], theme: Theme) {
    let wrapped: Vec<Vec<Piece>> = pars.iter().flat_map(|par| par.wrap(usize::from(area.width), theme)).collect();
    let height = usize::from(area.height);
    for (y, pieces) in (area.top()..area.bottom()).zip(&wrapped) {
        row(frame, Rect { y, height: 1, ..area }, pieces, theme);
    }
    if wrapped.len() > height && height > 0 && area.width > 0 {
        let mark = theme.cut();
        let width = u16::try_from(mark.width()).unwrap_or(1).min(area.width);
        let corner = Rect { x: area.right() - width, y: area.bottom() - 1, width, height: 1 };
        row(frame, corner, &[piece(Role::Key, mark)], theme);
    }
}

/// Draws a rule with a title in it.
fn titled(frame: &mut Frame<'_>, area: Rect, title: &str, theme: Theme) {
    let rule = |cells: usize| piece(Role::Quiet, theme.rule().repeat(cells));
    if title.is_empty() {
        return row(frame, area, &[rule(usize::from(area.width))], theme);
    }
    let title = ink::cut(title, usize::from(area.width).saturating_sub(6), theme);
    let rest = usize::from(area.width).saturating_sub(title.width() + 4);
    let pieces = [rule(2), piece(Role::Strong, format!(" {title} ")), rule(rest)];
    row(frame, area, &pieces, theme);
}
