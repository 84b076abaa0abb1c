//! Sheets of paper that a page is printed on.

/// A size of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// ISO 216 A4, 210 mm × 297 mm.
    A4,
    /// ANSI/ASME Y14.1 A, 8.5 in × 11 in.
    Letter,
}

impl Paper {
    /// Width and height standing upright, mm.
    pub const fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }

    /// The word by which a printer driver and a style sheet know it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "letter",
        }
    }
}
