//! A plot on the terminal: braille dots, or letters where nothing beyond ASCII can be shown.
//!
//! Series are told apart by their letter and their dashes; the legend says what each is.

use ratatui::Frame;
use ratatui::layout::Rect;
use ratatui::symbols::Marker;
use ratatui::widgets::Widget;
use ratatui::widgets::canvas::{Canvas, Context, Points};
use unicode_width::UnicodeWidthStr;

use super::picture::height;
use super::trace::{Dash, Shade, Trace};
use super::{piece, row, rows};
use crate::model::axis::{self, Tick};
use crate::model::{Chart, Line, Mark};
use crate::tui::ink::{Par, Role};
use crate::tui::state::State;
use crate::tui::theme::Theme;
use crate::units::Quantity;

/// Rows of a plot below which it is left out for its words.
const LEAST: u16 = 3;
/// The letters of series.
const LETTERS: [char; 6] = ['a', 'b', 'c', 'd', 'e', 'f'];

/// The letters of bars.
const BAR_LETTERS: [char; 4] = ['s', 't', 'u', 'v'];

/// Lines of one name: one series.
struct Series<'a> {
    label: &'a str,
    letter: char,
    lines: Vec<&'a Line>,
}

fn series(chart: &Chart) -> Vec<Series<'_>> {
    let mut found: Vec<Series<'_>> = Vec::new();
    for line in &chart.lines {
        if let Some(known) = found.iter_mut().find(|series| series.label == line.label) {
            known.lines.push(line);
        } else {
            let letter = LETTERS[found.len() % LETTERS.len()];
            found.push(Series { label: &line.label, letter, lines: vec![line] });
        }
    }
    found
}

/// Draws a plot with its legend and caption.
pub fn draw(state: &State, chart: &Chart, caption: &[Par], frame: &mut Frame<'_>, area: Rect) {
    let system = state.system();
    let mut words = vec![legend(state, chart)];
    words.extend(caption.iter().cloned());
    let below = height(state, &words, area.width).min(area.height / 2);
    // Above the plot what the axes measure, below it the axis and its numbers.
    let plot = area.height.saturating_sub(below + 3);
    let ticks = axis::ticks(&chart.y, (plot * 2 / 3).clamp(1, 10), system);
    let gutter = ticks.iter().map(|tick| tick.text.width()).max().unwrap_or(0) + 2;
    let gutter = u16::try_from(gutter).unwrap_or(0);
    if plot < LEAST || area.width < gutter + 20 {
        return rows(frame, area, &words, state.theme());
    }
    let heading = format!("{}, over {}", axis::words(&chart.y, system), axis::words(&chart.x, system));
    row(frame, Rect { height: 1, ..area }, &[piece(Role::Quiet, heading)], state.theme());
    let body = Rect::new(area.x + gutter, area.y + 1, area.width - gutter - 1, plot);
    upright(state, chart, &ticks, frame, body, gutter);
    level(state, chart, frame, body);
    paint(chart, state.theme(), frame, body);
    let y = body.bottom() + 2;
    rows(frame, Rect { y, height: area.bottom().saturating_sub(y), ..area }, &words, state.theme());
}

fn share(at: f64, [low, high]: [f64; 2]) -> f64 {
    (at - low) / (high - low)
}

/// The cell at a share of so many cells.
fn cell(share: f64, cells: u16) -> u16 {
    let aim = share * f64::from(cells.saturating_sub(1));
    let off = |cell: &u16| (f64::from(*cell) - aim).abs();
    (0..cells).min_by(|a, b| off(a).total_cmp(&off(b))).unwrap_or(0)
}

/// The upright axis with its numbers.
fn upright(state: &State, chart: &Chart, ticks: &[Tick], frame: &mut Frame<'_>, body: Rect, gutter: u16) {
    let theme = state.theme();
    let bounds = axis::bounds(&chart.y);
    let width = usize::from(gutter.saturating_sub(2));
    for y in body.top()..body.bottom() {
        let at = |tick: &&Tick| body.bottom() - 1 - cell(share(tick.at, bounds), body.height) == y;
        let number = ticks.iter().find(at).map_or("", |tick| tick.text.as_str());
        let pieces = [piece(Role::Plain, format!("{number:>width$} ")), piece(Role::Quiet, theme.wall())];
        row(frame, Rect { x: body.x - gutter, y, width: gutter, height: 1 }, &pieces, theme);
    }
}

/// The level axis with its numbers and marked stretches.
fn level(state: &State, chart: &Chart, frame: &mut Frame<'_>, body: Rect) {
    let theme = state.theme();
    let bounds = axis::bounds(&chart.x);
    let column = |at: f64| body.x + cell(share(at, bounds), body.width);
    let line = Rect { y: body.bottom(), height: 1, ..body };
    row(frame, line, &[piece(Role::Quiet, theme.rule().repeat(usize::from(body.width)))], theme);
    for mark in chart.marks.iter().filter(|mark| is_range(mark)) {
        let (from, to) = (column(mark.span.0), column(mark.span.1));
        let inner = usize::from(to.saturating_sub(from + 1));
        let bar = format!("{}{}{}", "[", theme.bar().repeat(inner), "]");
        row(frame, Rect { x: from, width: body.right() - from, ..line }, &[piece(Role::Strong, bar)], theme);
    }
    let mut free = body.x.saturating_sub(2);
    for tick in axis::ticks(&chart.x, (body.width / 8).clamp(1, 12), state.system()) {
        let width = u16::try_from(tick.text.width()).unwrap_or(0);
        let x = column(tick.at).saturating_sub(width / 2).min((body.right() + 1).saturating_sub(width));
        if x >= free {
            row(frame, Rect { x, y: body.bottom() + 1, width, height: 1 }, &[piece(Role::Plain, tick.text)], theme);
            free = x + width + 1;
        }
    }
}

fn is_range(mark: &Mark) -> bool {
    mark.span.1 > mark.span.0
}

/// What each letter, shade and mark stands for.
fn legend(state: &State, chart: &Chart) -> Par {
    let theme = state.theme();
    let mut par = Par::default();
    let add = |par: Par, sign: &str, words: String| {
        par.and(Role::Key, format!("{}\u{a0}", sign.replace(' ', "\u{a0}"))).and(Role::Plain, format!("{words}   "))
    };
    for series in series(chart) {
        par = add(par, &series.letter.to_string(), series.label.to_owned());
    }
    for band in &chart.bands {
        par = add(par, theme.shade(), band.label.clone());
    }
    for (kind, sign) in chart.bars.iter().zip(BAR_LETTERS) {
        par = add(par, &sign.to_string(), kind.label.clone());
    }
    for mark in &chart.marks {
        let number = |at: f64| Quantity::new(chart.x.kind, at).text(state.system());
        par = if is_range(mark) {
            let sign = format!("[{}]", theme.bar());
            add(par, &sign, format!("{}: {} to {}", mark.label, number(mark.span.0), number(mark.span.1)))
        } else {
            add(par, theme.stroke(), format!("{}: {}", mark.label, number(mark.span.0)))
        };
    }
    par
}

fn paint(chart: &Chart, theme: Theme, frame: &mut Frame<'_>, body: Rect) {
    let dots = if theme.ascii { (body.width, body.height) } else { (body.width * 2, body.height * 4) };
    let canvas = Canvas::default()
        .marker(if theme.ascii { Marker::Custom(':') } else { Marker::Braille })
        .x_bounds(axis::bounds(&chart.x))
        .y_bounds(axis::bounds(&chart.y))
        .paint(|context| {
            shades(chart, theme, dots, context);
            bars(chart, theme, dots, context);
            marks(chart, theme, context);
            lines(chart, theme, context);
        });
    canvas.render(body.intersection(frame.area()), frame.buffer_mut());
}

fn shades(chart: &Chart, theme: Theme, dots: (u16, u16), context: &mut Context<'_>) {
    let paint = theme.series(0);
    for band in &chart.bands {
        context.draw(&Shade { points: &band.points, dots, sparse: !theme.ascii, paint });
        for upper in [false, true] {
            let edge = |(x, low, high): &(f64, f64, f64)| (*x, if upper { *high } else { *low });
            let points: Vec<(f64, f64)> = band.points.iter().map(edge).collect();
            let dash = if theme.ascii { Dash::Solid } else { Dash::Dotted };
            context.draw(&Trace { points: &points, dash, paint });
        }
    }
}

/// Bars, told apart by how full they are and by a letter at the head of the tallest of each kind.
fn bars(chart: &Chart, theme: Theme, dots: (u16, u16), context: &mut Context<'_>) {
    let kinds = || chart.bars.iter().zip(BAR_LETTERS).enumerate();
    for (number, (kind, letter)) in kinds() {
        if theme.ascii {
            context.marker(Marker::Custom(letter));
        }
        let paint = theme.series(number);
        for (place, foot, head) in &kind.bars {
            let points = [(place - kind.half_width, *foot, *head), (place + kind.half_width, *foot, *head)];
            context.draw(&Shade { points: &points, dots, sparse: !theme.ascii && number % 2 == 1, paint });
        }
    }
    for (number, (kind, letter)) in kinds() {
        let tall = kind.bars.iter().max_by(|a, b| (a.2 - a.1).total_cmp(&(b.2 - b.1)));
        let Some((place, foot, head)) = tall else { continue };
        context.marker(Marker::Custom(letter));
        context.draw(&Points { coords: &[(*place, f64::midpoint(*foot, *head))], color: theme.series(number) });
    }
    if !theme.ascii {
        context.marker(Marker::Braille);
    }
}

fn marks(chart: &Chart, theme: Theme, context: &mut Context<'_>) {
    let [bottom, top] = axis::bounds(&chart.y);
    for mark in &chart.marks {
        let (sign, dash) = if is_range(mark) { (':', Dash::Dotted) } else { ('|', Dash::Solid) };
        if theme.ascii {
            context.marker(Marker::Custom(sign));
        }
        for at in [mark.span.0, mark.span.1] {
            context.draw(&Trace { points: &[(at, bottom), (at, top)], dash, paint: theme.series(3) });
        }
    }
}

/// The lines, then the letter of each at a place of its own along it.
fn lines(chart: &Chart, theme: Theme, context: &mut Context<'_>) {
    let series = series(chart);
    for (number, one) in series.iter().enumerate() {
        if theme.ascii {
            context.marker(Marker::Custom(one.letter));
        }
        for line in &one.lines {
            let dash = if theme.ascii { Dash::Solid } else { Dash::of(number) };
            context.draw(&Trace { points: &line.points, dash, paint: theme.series(number) });
        }
    }
    for (number, one) in series.iter().enumerate() {
        let Some(longest) = one.lines.iter().max_by_key(|line| line.points.len()) else { continue };
        let Some(at) = longest.points.get(longest.points.len() * (number + 1) / (series.len() + 1)) else { continue };
        context.marker(Marker::Custom(one.letter));
        context.draw(&Points { coords: &[*at], color: theme.series(number) });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_falls_on_the_nearest_cell() {
        assert_eq!([cell(0.0, 5), cell(0.5, 5), cell(1.0, 5), cell(2.0, 5), cell(0.3, 0)], [0, 2, 4, 4, 0]);
    }
}
