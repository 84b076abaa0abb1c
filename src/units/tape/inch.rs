//! Marks in whole inches and fractions of a power of two.

use std::fmt;

use super::{Row, TapeError, nearest_step};
use crate::units::si::{Dimension, Length};

/// Inch, m (exact).
const INCH: f64 = 0.0254;
/// Inches of a foot.
const FOOT: u32 = 12;

/// The finest fraction of an inch that is used for marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Division {
    /// 1/2 in
    Half,
    /// 1/4 in
    Quarter,
    /// 1/8 in
    Eighth,
    /// 1/16 in, the usual finest mark of a tape.
    #[default]
    Sixteenth,
    /// 1/32 in
    ThirtySecond,
    /// 1/64 in
    SixtyFourth,
}

impl Division {
    /// Every division, the coarsest first.
    pub const ALL: [Self; 6] =
        [Self::Half, Self::Quarter, Self::Eighth, Self::Sixteenth, Self::ThirtySecond, Self::SixtyFourth];

    /// Marks of one inch.
    pub const fn denominator(self) -> u32 {
        match self {
            Self::Half => 2,
            Self::Quarter => 4,
            Self::Eighth => 8,
            Self::Sixteenth => 16,
            Self::ThirtySecond => 32,
            Self::SixtyFourth => 64,
        }
    }

    /// Distance between two neighbouring marks.
    pub fn length(self) -> Length {
        Length::from_si(INCH / f64::from(self.denominator()))
    }
}

/// The mark next to a length: whole inches and a reduced proper fraction, printed as `47 1/4"`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TapeMark {
    /// Whether the mark lies before the datum.
    pub is_negative: bool,
    /// Whole inches, sign aside.
    pub inches: u32,
    /// Numerator of the fraction; 0 if there is none.
    pub numerator: u32,
    /// Denominator of the fraction in lowest terms; 1 if there is none.
    pub denominator: u32,
    /// The real length less the mark; at most half a division.
    pub residual: Length,
}

impl TapeMark {
    /// The length at which the mark stands.
    pub fn length(&self) -> Length {
        let inches = f64::from(self.inches) + f64::from(self.numerator) / f64::from(self.denominator);
        Length::from_si(if self.is_negative { -inches } else { inches } * INCH)
    }

    /// The same mark printed in feet and inches, `3' 11 1/4"`.
    pub fn with_feet(self) -> WithFeet {
        WithFeet(self)
    }

    fn write(&self, f: &mut fmt::Formatter<'_>, feet: u32, inches: u32) -> fmt::Result {
        if self.is_negative {
            write!(f, "-")?;
        }
        if feet > 0 {
            write!(f, "{feet}' ")?;
        }
        match (inches, self.numerator) {
            (inches, 0) => write!(f, "{inches}\""),
            (0, numerator) if feet == 0 => write!(f, "{numerator}/{}\"", self.denominator),
            (inches, numerator) => write!(f, "{inches} {numerator}/{}\"", self.denominator),
        }
    }
}

impl fmt::Display for TapeMark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(f, 0, self.inches)
    }
}

/// A mark that is printed in feet and inches.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WithFeet(TapeMark);

impl fmt::Display for WithFeet {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.write(f, self.0.inches / FOOT, self.0.inches % FOOT)
    }
}

/// The mark next to a length; a length in the middle of two takes the one farther from the datum.
///
/// # Errors
/// [`TapeError::NoMark`] for a length that is not finite or above 1000 km.
pub fn mark(length: Length, division: Division) -> Result<TapeMark, TapeError> {
    let steps = nearest_step(length, division.length().si())?;
    let per_inch = division.denominator();
    let count = whole(steps.abs());
    let (inches, part) = (count / u64::from(per_inch), count % u64::from(per_inch));
    let inches = u32::try_from(inches).map_err(|_| TapeError::NoMark)?;
    let part = u32::try_from(part).map_err(|_| TapeError::NoMark)?;
    // The denominator is a power of two: the common divisor is the largest one that both contain.
    let divisor = if part == 0 { per_inch } else { 1 << part.trailing_zeros() };
    let (numerator, denominator) = (part / divisor, per_inch / divisor);
    let on_tape = TapeMark { is_negative: steps < 0.0, inches, numerator, denominator, residual: Length::from_si(0.0) };
    let residual = Length::from_si(length.si() - on_tape.length().si());
    Ok(TapeMark { residual, ..on_tape })
}

/// The marks of a row, each rounded on its own from the datum: no error exceeds half a division.
///
/// # Errors
/// As [`mark`], and [`TapeError::TooMany`] above 10 000 positions.
pub fn running(row: Row, division: Division) -> Result<Vec<TapeMark>, TapeError> {
    row.positions()?.map(|position| mark(position, division)).collect()
}

/// How far the last position would lie beyond its place if the rounded pitch were stepped off from the first mark.
///
/// Zero for a row without positions.
///
/// # Errors
/// As [`running`].
pub fn stepped_drift(row: Row, division: Division) -> Result<Length, TapeError> {
    let Some(last) = row.positions()?.last() else {
        return Ok(Length::from_si(0.0));
    };
    let steps = row.count.saturating_sub(1) as f64;
    let first = mark(row.first, division)?.length().si();
    let pitch = mark(row.pitch, division)?.length().si();
    let drift = first + steps * pitch - last.si();
    // Below a nanometre stands only the rounding of the arithmetic, and no tape has an opinion on it.
    Ok(Length::from_si(if drift.abs() < 1e-9 { 0.0 } else { drift }))
}

/// A count of steps as an integer.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole, not negative and below 2^33 here")]
fn whole(steps: f64) -> u64 {
    steps as u64
}
