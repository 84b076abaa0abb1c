//! Pictures as inline SVG: what every picture shares.

mod chart;
mod scene;

pub use chart::chart;
pub use scene::scene;

use std::fmt::Write;

use unicode_width::UnicodeWidthStr;

use super::html::escaped;
use crate::model::text::clean;

/// Widest picture that fits A4 and Letter between their margins, mm.
const WIDEST: f64 = 178.0;
/// Height of letters, mm.
const LETTER: f64 = 2.7;
/// Width of one cell of text in letter heights; rather too wide than too narrow.
const CELL: f64 = 0.56;

/// An SVG that grows shape by shape; one user unit is one millimetre of paper.
struct Svg {
    size: (f64, f64),
    body: String,
}

impl Svg {
    fn new(size: (f64, f64)) -> Self {
        Self { size, body: String::new() }
    }

    /// Puts a closed rectangle by its upper left corner.
    fn rectangle(&mut self, class: &str, corner: (f64, f64), size: (f64, f64)) {
        let ((x, y), (width, height)) = (corner, size);
        let _ = write!(self.body, r#"<rect class="{class}" x="{x:.3}" y="{y:.3}" "#);
        let _ = writeln!(self.body, r#"width="{:.3}" height="{:.3}"/>"#, width.max(0.0), height.max(0.0));
    }

    /// Puts a line through points.
    fn path(&mut self, class: &str, points: &[(f64, f64)]) {
        let points: Vec<String> = points.iter().map(|(x, y)| format!("{x:.3},{y:.3}")).collect();
        let _ = writeln!(self.body, r#"<polyline class="{class}" points="{}"/>"#, points.join(" "));
    }

    /// Puts a closed surface.
    fn surface(&mut self, class: &str, points: &[(f64, f64)]) {
        let points: Vec<String> = points.iter().map(|(x, y)| format!("{x:.3},{y:.3}")).collect();
        let _ = writeln!(self.body, r#"<polygon class="{class}" points="{}"/>"#, points.join(" "));
    }

    /// Puts a circle.
    fn circle(&mut self, class: &str, (x, y): (f64, f64), radius: f64) {
        let _ = writeln!(self.body, r#"<circle class="{class}" cx="{x:.3}" cy="{y:.3}" r="{radius:.3}"/>"#);
    }

    /// Puts words at the foot of their letters; the anchor is `start`, `middle` or `end`.
    fn words(&mut self, anchor: &str, (x, y): (f64, f64), text: &str) {
        let _ = write!(self.body, r#"<text x="{x:.3}" y="{y:.3}" text-anchor="{anchor}">"#);
        let _ = writeln!(self.body, "{}</text>", escaped(&clean(text)));
    }

    /// Puts words that are read from the right side of the page.
    fn upright_words(&mut self, (x, y): (f64, f64), text: &str) {
        let _ = write!(self.body, r#"<text transform="translate({x:.3} {y:.3}) rotate(-90)" text-anchor="middle">"#);
        let _ = writeln!(self.body, "{}</text>", escaped(&clean(text)));
    }

    /// The picture, as large on paper as it was drawn.
    fn finish(self, title: &str) -> String {
        let (width, height) = self.size;
        format!(
            "<svg role=\"img\" aria-label=\"{}\" width=\"{width:.2}mm\" height=\"{height:.2}mm\" \
             viewBox=\"0 0 {width:.2} {height:.2}\">\n{}</svg>\n",
            escaped(title),
            self.body
        )
    }
}

/// How wide words are, mm.
fn width_of(text: &str) -> f64 {
    text.width() as f64 * LETTER * CELL
}
