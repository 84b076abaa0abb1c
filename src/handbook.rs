//! Tables of the trade, embedded in the program, each with its source.
//!
//! Lives here: reading the TOML tables under `handbook/tables` and looking rows up. Must not live here: laws
//! (`physics`), entries of a project, verdicts. A table is part of the program's text, so a table that does not
//! parse is a bug: the tests parse every one of them, and at run time such a table would be empty.

pub mod fittings;
pub mod galvanic;
pub mod glazing;
pub mod hose;
pub mod insulation;
pub mod joint_rating;
pub mod section;
pub mod sheet;
pub mod solder;
pub mod timber;
pub mod tube;
pub mod tube_pressure;
pub mod tube_rules;

use serde::Deserialize;
use serde::de::DeserializeOwned;
use thiserror::Error;

/// An embedded table that does not have the shape its reader expects.
#[derive(Debug, Error)]
#[error("the embedded table {table} cannot be read: {problem}")]
pub struct TableError {
    /// File name of the table.
    pub table: &'static str,
    /// What the parser found.
    pub problem: String,
}

/// How a row came into its table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Provenance {
    /// Seen in the named source.
    Printed,
    /// Derived from other columns or from a formula.
    Computed,
    /// From memory; not seen when the table was made.
    Recalled,
    /// A rule of this program, without an outside source.
    Rule,
}

/// The marks that a row of a table may carry.
#[derive(Clone, Copy, Debug, Default, Deserialize)]
pub(crate) struct Marks {
    #[serde(default)]
    memory: bool,
    #[serde(default)]
    computed: bool,
    #[serde(default)]
    rule: bool,
}

impl Marks {
    /// The weakest of the marks decides.
    pub(crate) fn provenance(self) -> Provenance {
        match self {
            Self { rule: true, .. } => Provenance::Rule,
            Self { memory: true, .. } => Provenance::Recalled,
            Self { computed: true, .. } => Provenance::Computed,
            Self { .. } => Provenance::Printed,
        }
    }
}

/// The tables of an embedded file, empty if it does not parse: its own test says so. Callers keep them in a `LazyLock`.
pub(crate) fn embedded<T: DeserializeOwned + Default>((name, text): (&'static str, &str)) -> T {
    read(name, text).unwrap_or_default()
}

/// Reads an embedded table.
pub(crate) fn read<T: DeserializeOwned>(table: &'static str, text: &str) -> Result<T, TableError> {
    toml::from_str(text).map_err(|error| TableError { table, problem: error.to_string() })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_broken_table_is_named_in_its_error() {
        let result: Result<toml::Table, _> = read("broken.toml", "a = ");
        assert!(result.is_err_and(|error| error.to_string().contains("broken.toml")));
    }

    #[test]
    fn memory_is_the_weaker_mark() {
        assert_eq!(Marks { memory: true, computed: true, rule: false }.provenance(), Provenance::Recalled);
        assert_eq!(Marks::default().provenance(), Provenance::Printed);
    }
}
