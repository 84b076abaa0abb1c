//! What a law can be asked: the errors for numbers outside it, and the checks that make them.
//!
//! Only the admission of inputs lives here. A law that goes on outside its published range says so beside its
//! value instead.

use thiserror::Error;

/// A number that a law cannot take. All numbers are in SI base units.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum DomainError {
    /// Not a number, or infinite.
    #[error("{what} is not a finite number")]
    NotFinite {
        /// Name of the input.
        what: &'static str,
    },
    /// Zero or negative where only a positive number has meaning.
    #[error("{what} must be greater than zero, but is {}", rounded(*value))]
    NotPositive {
        /// Name of the input.
        what: &'static str,
        /// The number that came.
        value: f64,
    },
    /// Below a least value.
    #[error("{what} must be {low} or more, but is {}", rounded(*value))]
    Below {
        /// Name of the input.
        what: &'static str,
        /// The number that came.
        value: f64,
        /// Smallest number that is taken.
        low: f64,
    },
    /// Outside a closed range.
    #[error("{what} must lie between {low} and {high}, but is {}", rounded(*value))]
    Outside {
        /// Name of the input.
        what: &'static str,
        /// The number that came.
        value: f64,
        /// Smallest number that is taken.
        low: f64,
        /// Largest number that is taken.
        high: f64,
    },
    /// An iteration that did not settle within its cap.
    #[error("{what} did not settle: {residual} is left")]
    NotSettled {
        /// Name of the unknown.
        what: &'static str,
        /// What the balance still lacked.
        residual: f64,
    },
}

/// Gives `value` back when it is finite.
pub fn finite(what: &'static str, value: f64) -> Result<f64, DomainError> {
    if value.is_finite() { Ok(value) } else { Err(DomainError::NotFinite { what }) }
}

/// Gives `value` back when it is finite and greater than zero.
pub fn positive(what: &'static str, value: f64) -> Result<f64, DomainError> {
    let value = finite(what, value)?;
    if value > 0.0 { Ok(value) } else { Err(DomainError::NotPositive { what, value }) }
}

/// A number with four significant digits, for sentences.
fn rounded(value: f64) -> f64 {
    format!("{value:.3e}").parse().unwrap_or(value)
}

/// Gives `value` back when it is finite and lies in the closed range `low` to `high`.
pub fn within(what: &'static str, value: f64, low: f64, high: f64) -> Result<f64, DomainError> {
    let value = finite(what, value)?;
    if (low..=high).contains(&value) { Ok(value) } else { Err(DomainError::Outside { what, value, low, high }) }
}

/// Gives `value` back when it is finite and `low` or more.
pub fn at_least(what: &'static str, value: f64, low: f64) -> Result<f64, DomainError> {
    let value = finite(what, value)?;
    if value >= low { Ok(value) } else { Err(DomainError::Below { what, value, low }) }
}

/// Gives `value` back when it is finite and not negative.
pub fn not_negative(what: &'static str, value: f64) -> Result<f64, DomainError> {
    at_least(what, value, 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn zero_negative_and_nonsense_are_told_apart() {
        assert_eq!(positive("bore", 0.02), Ok(0.02));
        assert_eq!(positive("bore", 0.0), Err(DomainError::NotPositive { what: "bore", value: 0.0 }));
        assert_eq!(positive("bore", f64::NAN), Err(DomainError::NotFinite { what: "bore" }));
        assert!(matches!(within("fraction", 0.7, 0.0, 0.6), Err(DomainError::Outside { .. })));
        assert_eq!(not_negative("flow", 0.0), Ok(0.0));
        assert_eq!(not_negative("flow", -1.0), Err(DomainError::Below { what: "flow", value: -1.0, low: 0.0 }));
    }
}
