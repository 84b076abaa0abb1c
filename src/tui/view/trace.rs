//! Lines and shades on a canvas, by dots: what plots and drawings are painted with.

use ratatui::style::Color;
use ratatui::widgets::canvas::{Painter, Shape};

/// How a line is broken, so that lines are told apart without colours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dash {
    /// Every dot.
    Solid,
    /// Strokes.
    Broken,
    /// Single dots.
    Dotted,
}

impl Dash {
    /// The dash of a line by its number among others.
    pub const fn of(number: usize) -> Self {
        match number % 3 {
            0 => Self::Solid,
            1 => Self::Broken,
            _ => Self::Dotted,
        }
    }

    /// Whether the dot at a place along the line is painted.
    const fn is_on(self, place: u32) -> bool {
        match self {
            Self::Solid => true,
            Self::Broken => place % 6 < 4,
            Self::Dotted => place.is_multiple_of(3),
        }
    }
}

/// A line through points.
pub struct Trace<'a> {
    pub points: &'a [(f64, f64)],
    pub dash: Dash,
    pub paint: Color,
}

impl Shape for Trace<'_> {
    fn draw(&self, painter: &mut Painter<'_, '_>) {
        let mut last = None;
        let mut place = 0;
        for pair in self.points.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            let steps = steps(painter, from, to);
            for step in 0..=steps {
                let share = f64::from(step) / f64::from(steps);
                let at = (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share);
                let Some(dot) = painter.get_point(at.0, at.1).filter(|dot| last != Some(*dot)) else { continue };
                if self.dash.is_on(place) {
                    painter.paint(dot.0, dot.1, self.paint);
                }
                last = Some(dot);
                place += 1;
            }
        }
    }
}

/// The most dots that one stretch is walked in.
const MOST: u32 = 1000;

/// So many steps that no dot between two points is passed over.
fn steps(painter: &Painter<'_, '_>, from: (f64, f64), to: (f64, f64)) -> u32 {
    match (painter.get_point(from.0, from.1), painter.get_point(to.0, to.1)) {
        (Some(from), Some(to)) => {
            let most = from.0.abs_diff(to.0).max(from.1.abs_diff(to.1));
            u32::try_from(most).unwrap_or(MOST).clamp(1, MOST)
        }
        _ => MOST,
    }
}

/// A shade between two edges over the same places, each place with its lower and upper edge.
pub struct Shade<'a> {
    pub points: &'a [(f64, f64, f64)],
    /// How many dots the canvas has each way.
    pub dots: (u16, u16),
    /// Whether every other dot is left out both ways.
    pub sparse: bool,
    pub paint: Color,
}

impl Shape for Shade<'_> {
    fn draw(&self, painter: &mut Painter<'_, '_>) {
        let ([left, right], [bottom, top]) = (*painter.bounds().0, *painter.bounds().1);
        let place = |number: u16, of: u16, from: f64, to: f64| {
            from + (to - from) * f64::from(number) / f64::from(of.saturating_sub(1).max(1))
        };
        for column in 0..self.dots.0 {
            let x = place(column, self.dots.0, left, right);
            let Some((low, high)) = edges(self.points, x) else { continue };
            for row in 0..self.dots.1 {
                let y = place(row, self.dots.1, bottom, top);
                let Some(dot) = painter.get_point(x, y).filter(|_| y >= low && y <= high) else { continue };
                if !self.sparse || (dot.0 % 2 == 0 && dot.1 % 2 == 0) {
                    painter.paint(dot.0, dot.1, self.paint);
                }
            }
        }
    }
}

/// The edges at a place, straight between the nearest two.
fn edges(points: &[(f64, f64, f64)], x: f64) -> Option<(f64, f64)> {
    let pair = points.windows(2).find(|pair| pair[0].0 <= x && x <= pair[1].0)?;
    let (from, to) = (pair[0], pair[1]);
    let share = if to.0 > from.0 { (x - from.0) / (to.0 - from.0) } else { 0.0 };
    Some((from.1 + (to.1 - from.1) * share, from.2 + (to.2 - from.2) * share))
}
