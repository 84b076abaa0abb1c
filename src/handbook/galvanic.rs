//! Galvanic series of metals.
//!
//! The rows stand in the table of sheet metals; which pair of metals may touch is judged elsewhere.

use super::section::{Named, Section};
use super::sheet::TABLE;
use super::{Marks, Provenance, TableError, read};
use serde::Deserialize;
use std::sync::LazyLock;

/// A metal by its anodic index.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "AnodicIndexRow")]
pub struct AnodicIndex {
    /// Metal.
    pub name: String,
    /// Anodic index, V.
    pub volts: f64,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// A metal by its potential in sea water.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "SeawaterPotentialRow")]
pub struct SeawaterPotential {
    /// Metal.
    pub name: String,
    /// Potential against silver chloride, V.
    pub volts: f64,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// Anodic index of metals.
pub fn anodic_indices() -> &'static Section<AnodicIndex> {
    &table().galvanic_index
}

/// Galvanic series in sea water.
pub fn seawater_series() -> &'static Section<SeawaterPotential> {
    &table().galvanic_seawater
}

#[derive(Default, Deserialize)]
struct Tables {
    galvanic_index: Section<AnodicIndex>,
    galvanic_seawater: Section<SeawaterPotential>,
}

fn table() -> &'static Tables {
    static TABLES: LazyLock<Tables> = LazyLock::new(|| load().unwrap_or_default());
    &TABLES
}

fn load() -> Result<Tables, TableError> {
    read(TABLE.0, TABLE.1)
}

#[derive(Deserialize)]
struct AnodicIndexRow {
    name: String,
    index_v: f64,
    #[serde(flatten)]
    marks: Marks,
}

impl From<AnodicIndexRow> for AnodicIndex {
    fn from(row: AnodicIndexRow) -> Self {
        Self { name: row.name, volts: row.index_v, provenance: row.marks.provenance() }
    }
}

impl Named for AnodicIndex {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct SeawaterPotentialRow {
    name: String,
    mv: f64,
    #[serde(flatten)]
    marks: Marks,
}

impl From<SeawaterPotentialRow> for SeawaterPotential {
    fn from(row: SeawaterPotentialRow) -> Self {
        Self { name: row.name, volts: row.mv * 1e-3, provenance: row.marks.provenance() }
    }
}

impl Named for SeawaterPotential {
    fn name(&self) -> &str {
        &self.name
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_galvanic_series_parse() {
        let tables = load().unwrap();
        assert_eq!(tables.galvanic_index.all().len(), 13);
        assert!(!seawater_series().all().is_empty());
        assert!(anodic_indices().get("lead").is_some_and(|metal| (metal.volts + 0.7).abs() < 1e-12));
    }
}
