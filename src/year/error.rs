//! Why there is no year.

use thiserror::Error;

use crate::climate::HourOfYear;
use crate::physics::domain::DomainError;

/// A year that cannot be computed.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum YearError {
    /// A number of the plant or of an hour is impossible.
    #[error(transparent)]
    Domain(#[from] DomainError),
    /// Two numbers of the plant contradict each other.
    #[error("{what} must be {relation}")]
    Contradiction {
        /// What must change.
        what: &'static str,
        /// What it must be.
        relation: &'static str,
    },
    /// Not one condition for every hour of the year.
    #[error("a year has 8760 hours, but conditions of {found} came")]
    Hours {
        /// How many came.
        found: usize,
    },
    /// A layer is exchanged so fast that no step of a tenth of a second is stable.
    #[error("a layer of the tank is too small for what flows through it")]
    LayerTooSmall,
    /// The steps of one stretch of time exceed what any plant needs.
    #[error("the simulation made no headway{}", .at.map(|at| format!(" in the hour to {at}")).unwrap_or_default())]
    NoHeadway {
        /// The hour, within a year.
        at: Option<HourOfYear>,
    },
    /// Nobody waits for it any more.
    #[error("cancelled")]
    Cancelled,
}
