//! Marks in millimetres.

use std::fmt;

use super::{Row, TapeError, nearest_step};
use crate::units::si::{Dimension, Length};

/// The finest step of millimetres that is used for marks.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum MetricStep {
    /// 0.1 mm, for calipers and machines.
    Tenth,
    /// 0.5 mm, the middle between two marks of a steel rule.
    Half,
    /// 1 mm, the usual finest mark of a tape.
    #[default]
    Whole,
}

impl MetricStep {
    /// Every step, the coarsest last.
    pub const ALL: [Self; 3] = [Self::Tenth, Self::Half, Self::Whole];

    const fn per_millimetre(self) -> f64 {
        match self {
            Self::Tenth => 10.0,
            Self::Half => 2.0,
            Self::Whole => 1.0,
        }
    }

    /// Distance between two neighbouring marks.
    pub fn length(self) -> Length {
        Length::from_si(1e-3 / self.per_millimetre())
    }
}

/// The mark next to a length in millimetres, printed as `1190 mm` or `1190.5 mm`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MillimetreMark {
    /// The mark in millimetres.
    pub millimetres: f64,
    /// The step that the mark was rounded to.
    pub step: MetricStep,
    /// The real length less the mark; at most half a step.
    pub residual: Length,
}

impl MillimetreMark {
    /// The length at which the mark stands.
    pub fn length(&self) -> Length {
        Length::from_si(self.millimetres * 1e-3)
    }
}

impl fmt::Display for MillimetreMark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let decimals = usize::from(self.step != MetricStep::Whole);
        write!(f, "{:.decimals$} mm", self.millimetres)
    }
}

/// The mark next to a length; a length in the middle of two takes the one farther from the datum.
///
/// # Errors
/// [`TapeError::NoMark`] for a length that is not finite or above 1000 km.
pub fn millimetres(length: Length, step: MetricStep) -> Result<MillimetreMark, TapeError> {
    let steps = nearest_step(length, step.length().si())?;
    let mark = MillimetreMark { millimetres: steps / step.per_millimetre(), step, residual: Length::from_si(0.0) };
    Ok(MillimetreMark { residual: Length::from_si(length.si() - mark.length().si()), ..mark })
}

/// The marks of a row, each rounded on its own from the datum: no error exceeds half a step.
///
/// # Errors
/// As [`millimetres`], and [`TapeError::TooMany`] above 10 000 positions.
pub fn running_millimetres(row: Row, step: MetricStep) -> Result<Vec<MillimetreMark>, TapeError> {
    row.positions()?.map(|position| millimetres(position, step)).collect()
}
