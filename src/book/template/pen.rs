//! Strokes and words in millimetres from the lower left corner of a sheet, written as PDF content.

use pdf_writer::{Content, Name, Str};

/// Points of a millimetre: a point is 1/72 in (ISO 32000-1, 8.3.2.3).
const POINTS: f64 = 72.0 / 25.4;
/// Millimetres of a point of type.
const TYPE_POINT: f64 = 25.4 / 72.0;
/// Control points of a quarter circle of radius 1 in a cubic curve; off by 0.03 % of the radius at most.
const QUARTER: f64 = 0.552_284_749_8;
/// Mean width of a letter of Helvetica in its height; words are centred by it, nothing is measured by it.
const LETTER: f64 = 0.5;

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stroke {
    /// What is drilled or measured by.
    Fine,
    /// What is looked at only.
    Dashed,
}

/// The content of one sheet.
pub struct Pen(Content);

impl Default for Pen {
    fn default() -> Self {
        Self(Content::new())
    }
}

impl Pen {
    /// Draws a straight line.
    pub fn line(&mut self, stroke: Stroke, from: (f64, f64), to: (f64, f64)) {
        self.dress(stroke);
        self.0.move_to(pt(from.0), pt(from.1)).line_to(pt(to.0), pt(to.1)).stroke();
    }

    /// Draws a circle.
    pub fn circle(&mut self, stroke: Stroke, (x, y): (f64, f64), radius: f64) {
        self.dress(stroke);
        let (r, k) = (radius, radius * QUARTER);
        self.0.move_to(pt(x + r), pt(y));
        for [(a, b), (c, d), (e, f)] in [
            [(r, k), (k, r), (0.0, r)],
            [(-k, r), (-r, k), (-r, 0.0)],
            [(-r, -k), (-k, -r), (0.0, -r)],
            [(k, -r), (r, -k), (r, 0.0)],
        ] {
            self.0.cubic_to(pt(x + a), pt(y + b), pt(x + c), pt(y + d), pt(x + e), pt(y + f));
        }
        self.0.close_path().stroke();
    }

    /// Draws a cross.
    pub fn cross(&mut self, (x, y): (f64, f64), arm: f64) {
        self.line(Stroke::Fine, (x - arm, y), (x + arm, y));
        self.line(Stroke::Fine, (x, y - arm), (x, y + arm));
    }

    /// Writes words from a point; size in points of type.
    pub fn words(&mut self, (x, y): (f64, f64), size: f64, text: &str) {
        self.0.begin_text().set_font(Name(b"F"), real(size)).next_line(pt(x), pt(y));
        self.0.show(Str(&latin(text))).end_text();
    }

    /// Writes words centred over a point.
    pub fn centred(&mut self, (x, y): (f64, f64), size: f64, text: &str) {
        let width = text.chars().count() as f64 * size * LETTER * TYPE_POINT;
        self.words((x - width / 2.0, y), size, text);
    }

    /// Keeps what follows inside a rectangle, until [`Pen::free`].
    pub fn inside(&mut self, (x, y): (f64, f64), (width, height): (f64, f64)) {
        self.0.save_state().rect(pt(x), pt(y), pt(width), pt(height)).clip_nonzero().end_path();
    }

    /// Ends what [`Pen::inside`] began.
    pub fn free(&mut self) {
        self.0.restore_state();
    }

    /// The content.
    pub fn finish(self) -> Content {
        self.0
    }

    fn dress(&mut self, stroke: Stroke) {
        match stroke {
            Stroke::Fine => self.0.set_line_width(pt(0.15)).set_dash_pattern([], 0.0),
            Stroke::Dashed => self.0.set_line_width(pt(0.12)).set_dash_pattern([pt(2.0), pt(1.5)], 0.0),
        };
    }
}

/// Millimetres in points.
pub fn pt(mm: f64) -> f32 {
    real(mm * POINTS)
}

/// A number as PDF holds it. A sheet is below 1000 points, where single precision carries a ten-thousandth.
#[allow(clippy::cast_possible_truncation)]
fn real(number: f64) -> f32 {
    number as f32
}

/// Text in the encoding of the base fonts, Windows code page 1252; a sign that it has not is a question mark.
fn latin(text: &str) -> Vec<u8> {
    text.chars()
        .map(|c| match c {
            ' '..='~' | '\u{a0}'..='\u{ff}' => u8::try_from(u32::from(c)).unwrap_or(b'?'),
            '–' => 150,
            '—' => 151,
            '’' | '′' => 146,
            '−' => b'-',
            '…' => 133,
            _ => b'?',
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_of_western_europe_stay_and_others_are_marked() {
        assert_eq!(latin("Zoë ½ Ø"), b"Zo\xeb \xbd \xd8");
        assert_eq!(latin("給湯 −1"), b"?? -1");
    }
}
