//! From a project to everything that can be shown about it: one pure function in a fixed order.
//!
//! Lives here: the order in which stages are solved, the judging of checks over the design and every panel, the
//! state of steps. Must not live here: formulas (they are in `physics` and `stage`), files, screens.

pub mod evaluation;
pub mod findings;
pub mod judge;
pub mod overlay;
pub mod progress;
pub mod register;
pub mod rows;
pub mod words;

pub use evaluation::{Evaluation, Row, Snapshot, evaluate, solve};
