//! A plot as data: axes, lines, bands, bars, marks. Painted by any face.
//!
//! Nothing here knows a terminal, a page or a colour. Numbers are in SI base units with the kind of each axis, so a
//! face prints them in the project's units.

use crate::units::Kind;

/// One axis.
#[derive(Clone, Debug, PartialEq)]
pub struct ChartAxis {
    /// What it measures, in words.
    pub label: &'static str,
    /// The kind of its numbers.
    pub kind: Kind,
    /// Smallest and largest number shown.
    pub range: (f64, f64),
    /// Names in place of numbers at whole positions from the start of the range, such as months; empty for none.
    pub names: &'static [&'static str],
}

impl ChartAxis {
    /// The twelve months, January at 0.
    pub const fn months() -> Self {
        const INITIALS: &[&str] = &["J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D"];
        Self { label: "month", kind: Kind::Count, range: (0.0, 11.0), names: INITIALS }
    }
}

/// A line through points.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it is, in words.
    pub label: String,
    /// Where it runs; a gap stands between two lists.
    pub points: Vec<(f64, f64)>,
}

/// A surface between two lines over the same places.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// What it is, in words.
    pub label: String,
    /// Place, lower and upper edge.
    pub points: Vec<(f64, f64, f64)>,
}

/// Upright bars of one width.
#[derive(Clone, Debug, PartialEq)]
pub struct Bars {
    /// What they are, in words.
    pub label: String,
    /// Half the width of a bar along the horizontal axis.
    pub half_width: f64,
    /// Place, foot and head of each bar.
    pub bars: Vec<(f64, f64, f64)>,
}

/// A stretch of the horizontal axis that is marked, or one point of it where both ends are equal.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// What it is, in words.
    pub label: String,
    /// From and to.
    pub span: (f64, f64),
}

/// A plot.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// What is seen, in words.
    pub title: String,
    /// The horizontal axis.
    pub x: ChartAxis,
    /// The vertical axis.
    pub y: ChartAxis,
    /// Surfaces, painted first.
    pub bands: Vec<Band>,
    /// Bars, painted next.
    pub bars: Vec<Bars>,
    /// Lines.
    pub lines: Vec<Line>,
    /// Marked stretches of the horizontal axis.
    pub marks: Vec<Mark>,
}

impl ChartAxis {
    /// An axis of numbers.
    pub const fn of(label: &'static str, kind: Kind, range: (f64, f64)) -> Self {
        Self { label, kind, range, names: &[] }
    }
}

impl Chart {
    /// An empty plot.
    pub fn new(title: impl Into<String>, x: ChartAxis, y: ChartAxis) -> Self {
        Self { title: title.into(), x, y, bands: Vec::new(), bars: Vec::new(), lines: Vec::new(), marks: Vec::new() }
    }

    /// Adds a line.
    #[must_use]
    pub fn line(mut self, label: impl Into<String>, points: Vec<(f64, f64)>) -> Self {
        self.lines.push(Line { label: label.into(), points });
        self
    }

    /// Adds a surface.
    #[must_use]
    pub fn band(mut self, label: impl Into<String>, points: Vec<(f64, f64, f64)>) -> Self {
        self.bands.push(Band { label: label.into(), points });
        self
    }

    /// Adds bars of one kind, each with its place, foot and head.
    #[must_use]
    pub fn bars(mut self, label: impl Into<String>, half_width: f64, bars: Vec<(f64, f64, f64)>) -> Self {
        self.bars.push(Bars { label: label.into(), half_width, bars });
        self
    }

    /// Marks a stretch of the horizontal axis.
    #[must_use]
    pub fn mark(mut self, label: impl Into<String>, span: (f64, f64)) -> Self {
        self.marks.push(Mark { label: label.into(), span });
        self
    }
}
