//! A plot: axes with round numbers, lines told apart by dashes and letters, so that grey paper shows them too.

use super::{LETTER, Svg, WIDEST, width_of};
use crate::model::axis::{self, Tick};
use crate::model::{Chart, Line, Mark};
use crate::units::{Quantity, System};

/// Height of the plot between its axes, mm.
const HEIGHT: f64 = 64.0;
/// Room above for what the upright axis measures, mm.
const ABOVE: f64 = 7.0;
/// Room on the right, mm.
const RIGHT: f64 = 4.0;
/// Room below for the numbers of the level axis and what it measures, mm.
const BELOW: f64 = 12.0;
/// From one row of the legend to the next, mm.
const ROW: f64 = 4.6;
/// Length of a sample of a line in the legend, mm.
const SAMPLE: f64 = 12.0;
/// Kinds of lines and of surfaces that are told apart.
const KINDS: usize = 6;

/// Where numbers lie on paper.
struct Frame {
    left: f64,
    width: f64,
    x: [f64; 2],
    y: [f64; 2],
}

impl Frame {
    fn x(&self, at: f64) -> f64 {
        self.left + self.width * ((at - self.x[0]) / (self.x[1] - self.x[0])).clamp(0.0, 1.0)
    }

    fn y(&self, at: f64) -> f64 {
        ABOVE + HEIGHT * (1.0 - ((at - self.y[0]) / (self.y[1] - self.y[0])).clamp(0.0, 1.0))
    }

    fn at(&self, (x, y): (f64, f64)) -> (f64, f64) {
        (self.x(x), self.y(y))
    }
}

/// Draws a plot with its legend.
pub fn chart(chart: &Chart, system: System) -> String {
    let ticks = axis::ticks(&chart.y, 8, system);
    let left = ticks.iter().map(|tick| width_of(&tick.text)).fold(0.0, f64::max) + 3.0;
    let frame = Frame { left, width: WIDEST - left - RIGHT, x: axis::bounds(&chart.x), y: axis::bounds(&chart.y) };
    let mut svg = Svg::new((WIDEST, 0.0));
    surfaces(&mut svg, chart, &frame);
    axes(&mut svg, chart, &frame, &ticks, system);
    for mark in &chart.marks {
        let (from, to) = (frame.x(mark.span.0), frame.x(mark.span.1));
        for x in [from, to] {
            svg.path("mark", &[(x, ABOVE), (x, ABOVE + HEIGHT)]);
        }
        if is_range(mark) {
            svg.path("range", &[(from, ABOVE + HEIGHT), (to, ABOVE + HEIGHT)]);
        }
    }
    let series = series(&chart.lines);
    for (number, (_, lines)) in series.iter().enumerate() {
        for line in lines {
            let points: Vec<(f64, f64)> = line.points.iter().map(|point| frame.at(*point)).collect();
            svg.path(&format!("line s{}", number % KINDS), &points);
        }
    }
    letters(&mut svg, &series, &frame);
    let foot = legend(&mut svg, chart, &series, ABOVE + HEIGHT + BELOW + ROW, system);
    svg.size.1 = foot;
    svg.finish(&chart.title)
}

fn is_range(mark: &Mark) -> bool {
    mark.span.1 > mark.span.0
}

/// Lines of one name are one series.
fn series(lines: &[Line]) -> Vec<(&str, Vec<&Line>)> {
    let mut found: Vec<(&str, Vec<&Line>)> = Vec::new();
    for line in lines {
        match found.iter_mut().find(|(label, _)| *label == line.label) {
            Some((_, lines)) => lines.push(line),
            None => found.push((&line.label, vec![line])),
        }
    }
    found
}

fn surfaces(svg: &mut Svg, chart: &Chart, frame: &Frame) {
    for band in &chart.bands {
        let lower = band.points.iter().map(|(x, low, _)| frame.at((*x, *low)));
        let upper = band.points.iter().rev().map(|(x, _, high)| frame.at((*x, *high)));
        svg.surface("band", &lower.chain(upper).collect::<Vec<_>>());
    }
    for (number, kind) in chart.bars.iter().enumerate() {
        for (place, foot, head) in &kind.bars {
            let (left, top) = frame.at((place - kind.half_width, foot.max(*head)));
            let (right, bottom) = frame.at((place + kind.half_width, foot.min(*head)));
            svg.rectangle(&format!("bars b{}", number % KINDS), (left, top), (right - left, bottom - top));
        }
    }
}

fn axes(svg: &mut Svg, chart: &Chart, frame: &Frame, ticks: &[Tick], system: System) {
    let (left, right, bottom) = (frame.left, frame.left + frame.width, ABOVE + HEIGHT);
    for tick in ticks {
        let y = frame.y(tick.at);
        svg.path("grid", &[(left, y), (right, y)]);
        svg.words("end", (left - 1.5, y + LETTER / 3.0), &tick.text);
    }
    let mut free = f64::NEG_INFINITY;
    for tick in axis::ticks(&chart.x, 12, system) {
        let (x, half) = (frame.x(tick.at), width_of(&tick.text) / 2.0);
        svg.path("grid", &[(x, ABOVE), (x, bottom)]);
        if x - half > free {
            svg.words("middle", (x, bottom + LETTER + 1.5), &tick.text);
            free = x + half + 1.0;
        }
    }
    svg.path("axis", &[(left, ABOVE), (left, bottom), (right, bottom)]);
    svg.words("start", (0.0, LETTER), &axis::words(&chart.y, system));
    svg.words("end", (right, bottom + 2.0 * LETTER + 3.0), &axis::words(&chart.x, system));
}

const fn letter(number: usize) -> &'static str {
    ["a", "b", "c", "d", "e", "f"][number % KINDS]
}

/// The letter of each line at a place of its own along it.
fn letters(svg: &mut Svg, series: &[(&str, Vec<&Line>)], frame: &Frame) {
    for (number, (_, lines)) in series.iter().enumerate() {
        let Some(longest) = lines.iter().max_by_key(|line| line.points.len()) else { continue };
        let Some(at) = longest.points.get(longest.points.len() * (number + 1) / (series.len() + 1)) else { continue };
        let (x, y) = frame.at(*at);
        svg.circle("flag", (x, y), 0.75 * LETTER);
        svg.words("middle", (x, y + LETTER / 3.0), letter(number));
    }
}

/// What each line, surface and mark is, row by row; gives the foot of the last row.
fn legend(svg: &mut Svg, chart: &Chart, series: &[(&str, Vec<&Line>)], mut foot: f64, system: System) -> f64 {
    let number = |at: f64| Quantity::new(chart.x.kind, at).text(system);
    for (place, (label, _)) in series.iter().enumerate() {
        svg.path(&format!("line s{}", place % KINDS), &[(0.0, foot - 1.0), (SAMPLE, foot - 1.0)]);
        svg.words("start", (SAMPLE + 2.0, foot), &format!("{}  {label}", letter(place)));
        foot += ROW;
    }
    let bands = chart.bands.iter().map(|band| ("band".to_owned(), &band.label));
    let bars = chart.bars.iter().enumerate().map(|(place, kind)| (format!("bars b{}", place % KINDS), &kind.label));
    for (class, label) in bands.chain(bars) {
        svg.rectangle(&class, (0.0, foot - LETTER), (SAMPLE, LETTER));
        svg.words("start", (SAMPLE + 2.0, foot), label);
        foot += ROW;
    }
    for mark in &chart.marks {
        let class = if is_range(mark) { "range" } else { "mark" };
        svg.path(class, &[(0.0, foot - 1.0), (SAMPLE, foot - 1.0)]);
        let (from, to) = (number(mark.span.0), number(mark.span.1));
        let span = if is_range(mark) { format!("{from} to {to}") } else { from };
        svg.words("start", (SAMPLE + 2.0, foot), &format!("{}: {span}", mark.label));
        foot += ROW;
    }
    foot
}
