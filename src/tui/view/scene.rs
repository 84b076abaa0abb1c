//! A drawing to scale on the terminal: braille dots, or one character for each part where only ASCII can be shown.

use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::symbols::Marker;
use ratatui::widgets::Widget;
use ratatui::widgets::canvas::{Canvas, Context, Points};
use unicode_width::UnicodeWidthStr;

use super::picture::{height, length};
use super::rows;
use super::trace::{Dash, Trace};
use crate::model::scene::{Part, Scene, Shape};
use crate::tui::ink::{Par, Role};
use crate::tui::state::State;
use crate::tui::theme::Theme;

/// Columns that words beside a drawing need.
const BESIDE: u16 = 26;
/// Columns between a drawing and its words.
const GAP: u16 = 3;

/// Millimetres of one dot of a braille cell, which has two across and four down; dots are about square.
fn scale(scene: &Scene, columns: u16, rows: u16) -> f64 {
    let across = scene.size.0 / f64::from((columns * 2).saturating_sub(1).max(1));
    let down = scene.size.1 / f64::from((rows * 4).saturating_sub(1).max(1));
    across.max(down).max(f64::MIN_POSITIVE)
}

/// The columns that a drawing takes at a scale.
fn columns(scene: &Scene, scale: f64, most: u16) -> u16 {
    (1..most).find(|columns| f64::from(columns * 2 - 1) * scale >= scene.size.0).unwrap_or(most)
}

/// Draws a scene with its words beside it, or below it where it is too wide for that.
pub fn draw(state: &State, scene: &Scene, mut words: Vec<Par>, frame: &mut Frame<'_>, area: Rect) {
    // The topmost row is left for dimension lines.
    let full = scale(scene, area.width, area.height.saturating_sub(1));
    let taken = columns(scene, full, area.width) + GAP;
    let beside = area.width >= taken + BESIDE;
    let below = if beside { 0 } else { (height(state, &words, area.width) + 1).min(area.height / 2) };
    let place = Rect { height: area.height - below, ..area };
    let scale = scale(scene, place.width, place.height.saturating_sub(1));
    let place = Rect { width: columns(scene, scale, place.width), ..place };
    words.push(Par::new(Role::Quiet, format!("One column of the screen is {}.", length(state, 2.0 * scale))));
    paint(state, scene, scale, frame, place);
    let text = if beside {
        Rect { x: area.x + taken, width: area.width - taken, ..area }
    } else {
        Rect { y: place.bottom(), height: below, ..area }
    };
    rows(frame, text, &words, state.theme());
}

fn paint(state: &State, scene: &Scene, scale: f64, frame: &mut Frame<'_>, area: Rect) {
    let theme = state.theme();
    let right = f64::from((area.width * 2).saturating_sub(1)) * scale;
    let top = f64::from((area.height * 4).saturating_sub(1)) * scale;
    let dot = if theme.ascii { (2.0 * scale, 4.0 * scale) } else { (scale, scale) };
    let canvas =
        Canvas::default().marker(Marker::Braille).x_bounds([0.0, right]).y_bounds([0.0, top]).paint(|context| {
            for shape in &scene.shapes {
                put(state, shape, dot, 2.0 * scale, context);
            }
        });
    canvas.render(area.intersection(frame.area()), frame.buffer_mut());
}

/// Paints one shape; `dot` is the size of a dot, `column` the width of a column, mm.
fn put(state: &State, shape: &Shape, dot: (f64, f64), column: f64, context: &mut Context<'_>) {
    let theme = state.theme();
    match shape {
        Shape::Rectangle { part, x, y, width, height } => {
            use_marker(theme, sign(*part, width > height), context);
            outline((*x, *y), (*width, *height), dot, |points| stroke(*part, points, theme, context));
        }
        Shape::Line { part: Part::Dimension, from, to } => dimension(state, *from, *to, column, context),
        Shape::Named { from, to, letter } => {
            use_marker(theme, sign(Part::Dimension, (from.0 - to.0).abs() > (from.1 - to.1).abs()), context);
            stroke(Part::Dimension, &[*from, *to], theme, context);
            let middle = (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1));
            context.print(middle.0, middle.1, letter.to_string());
        }
        Shape::Line { part, from, to } => {
            use_marker(theme, sign(*part, true), context);
            stroke(*part, &[*from, *to], theme, context);
        }
        Shape::Circle { part, centre, .. } => {
            context.marker(Marker::Custom(sign(*part, true)));
            context.draw(&Points { coords: &[*centre], color: theme.series(1) });
        }
        Shape::Label { at, text } => context.print(at.0, at.1, theme.text(text).into_owned()),
    }
}

/// A dimension line with its length, one row higher than it lies, so that they hide nothing.
fn dimension(state: &State, from: (f64, f64), to: (f64, f64), column: f64, context: &mut Context<'_>) {
    let theme = state.theme();
    let row = 2.0 * column;
    use_marker(theme, sign(Part::Dimension, true), context);
    stroke(Part::Dimension, &[(from.0, from.1 + row), (to.0, to.1 + row)], theme, context);
    let text = format!(" {} ", length(state, (to.0 - from.0).hypot(to.1 - from.1)));
    let text = theme.text(&text).into_owned();
    let half = f64::from(u16::try_from(text.width() / 2).unwrap_or(0)) * column;
    context.print(f64::midpoint(from.0, to.0) - half, f64::midpoint(from.1, to.1) + row, text);
}

fn use_marker(theme: Theme, sign: char, context: &mut Context<'_>) {
    context.marker(if theme.ascii { Marker::Custom(sign) } else { Marker::Braille });
}

fn stroke(part: Part, points: &[(f64, f64)], theme: Theme, context: &mut Context<'_>) {
    let dash = if part == Part::Sheet && !theme.ascii { Dash::Dotted } else { Dash::Solid };
    context.draw(&Trace { points, dash, paint: theme.series(0) });
}

/// The edges of a rectangle; one stroke along its middle where it is thinner than two dots.
fn outline(corner: (f64, f64), size: (f64, f64), dot: (f64, f64), mut stroke: impl FnMut(&[(f64, f64)])) {
    let (left, bottom) = corner;
    let (right, top) = (left + size.0, bottom + size.1);
    let middle = (f64::midpoint(left, right), f64::midpoint(bottom, top));
    if size.0 < 2.0 * dot.0 {
        stroke(&[(middle.0, bottom), (middle.0, top)]);
    } else if size.1 < 2.0 * dot.1 {
        stroke(&[(left, middle.1), (right, middle.1)]);
    } else {
        stroke(&[(left, bottom), (right, bottom), (right, top), (left, top), (left, bottom)]);
    }
}

/// The character of a part.
const fn sign(part: Part, lies: bool) -> char {
    match part {
        Part::Tube if lies => '=',
        Part::Tube => '|',
        Part::Sheet => '.',
        Part::Timber => '#',
        Part::Hole => 'o',
        Part::Dimension if lies => '-',
        Part::Dimension => ':',
    }
}
