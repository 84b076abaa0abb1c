//! Quantities and how people write them.
//!
//! Lives here: the typed quantities (uom) under short names, the parser for what people type and the
//! printer for what they read. Must not live here: what any quantity means for a collector.

pub mod error;
pub mod nearest;
pub mod parse;
pub mod print;
pub mod quantity;
pub mod si;
mod spelling;
pub mod table;
pub mod tape;

pub use error::{UnitError, UnitProblem};
pub use nearest::nearest;
pub use parse::parse;
pub use quantity::{HasKind, Kind, Quantity, System};
pub use spelling::SYNONYMS;
pub use tape::{Division, MetricStep, TapeMark};

/// Whether a number of this kind is typed without a unit.
pub fn is_bare(kind: Kind) -> bool {
    table::of(kind).is_unitless()
}

/// A number of this kind as it may be typed, for messages.
pub fn example(kind: Kind) -> String {
    let unit = table::of(kind).units[0].typed();
    if unit.is_empty() { "12".to_owned() } else { format!("12 {unit}") }
}
