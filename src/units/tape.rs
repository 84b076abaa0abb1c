//! Tape marks: lengths as a builder finds them on a tape, in fractions of an inch or in millimetres.
//!
//! Positions in a row are each rounded on their own from one datum, so their errors never add up. Reading and
//! printing of decimal numbers lie elsewhere.

mod inch;
mod metric;

pub use inch::{Division, TapeMark, WithFeet, mark, running, stepped_drift};
pub use metric::{MetricStep, MillimetreMark, millimetres, running_millimetres};

use super::si::{Dimension, Length};

/// Longest length that is marked, m. Far above any panel; it keeps every count of steps exact.
const LONGEST: f64 = 1e6;
/// Most positions of one row.
const MOST_POSITIONS: usize = 10_000;
/// Share of a step by which a length may miss the middle between two marks, through the last digits of binary
/// numbers, and still be rounded up like the middle itself.
const TIE: f64 = 1e-9;

/// Why a length has no mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum TapeError {
    /// Not a number, or longer than any tape.
    #[error("a length that is not finite or above 1000 km has no mark on a tape")]
    NoMark,
    /// More positions than a builder can mark.
    #[error("{count} positions are too many for one row; {MOST_POSITIONS} are allowed")]
    TooMany {
        /// Positions asked for.
        count: usize,
    },
}

/// Equally spaced positions on one line, such as the holes of a header.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// Distance of the first position from the datum.
    pub first: Length,
    /// Distance from one position to the next.
    pub pitch: Length,
    /// Number of positions.
    pub count: usize,
}

impl Row {
    /// The exact positions.
    fn positions(self) -> Result<impl Iterator<Item = Length>, TapeError> {
        if self.count > MOST_POSITIONS {
            return Err(TapeError::TooMany { count: self.count });
        }
        let position = move |i: usize| Length::from_si(self.first.si() + self.pitch.si() * i as f64);
        Ok((0..self.count).map(position))
    }
}

/// The nearest whole number of steps, the middle rounded away from zero.
fn nearest_step(length: Length, step_m: f64) -> Result<f64, TapeError> {
    if !length.si().is_finite() || length.si().abs() > LONGEST {
        return Err(TapeError::NoMark);
    }
    let steps = length.si() / step_m;
    Ok(((steps.abs() + 0.5 + TIE).floor() * steps.signum()) + 0.0)
}

#[cfg(test)]
mod tests;
