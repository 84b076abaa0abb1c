//! Insulating materials: conductivity, temperature limit, what they give off.
//!
//! Heat flow through them lives in `physics::layers`; whether a layer is too hot is judged elsewhere.

use super::section::{Named, Practice, Section, Value};
use super::{Marks, Provenance, TableError, read};
use crate::physics::layers::Conductivity;
use crate::units::si::{Dimension, MassDensity, Temperature, ThermalConductivity, celsius};
use serde::Deserialize;
use std::sync::LazyLock;

const TABLE: (&str, &str) = ("insulation.toml", include_str!("tables/insulation.toml"));

/// An insulating material.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "MaterialRow")]
pub struct Material {
    /// Kind and standard.
    pub name: String,
    /// Conductivity at a mean temperature.
    pub conductivity: Conductivity,
    /// Hottest it bears for good.
    pub limit: Temperature,
    /// How the limit came into the table.
    pub limit_provenance: Provenance,
    /// Density.
    pub density: MassDensity,
    /// What it gives off when hot.
    pub outgas: Option<String>,
    /// What else to know.
    pub note: Option<String>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// Insulating materials.
pub fn materials() -> &'static Section<Material> {
    &table().material
}

/// Factors on the conductivity of aged foam.
pub fn aging() -> &'static Section<Value> {
    &table().aging
}

/// Rules and practice.
pub fn practice() -> &'static Section<Practice> {
    &table().practice
}

#[derive(Default, Deserialize)]
struct Tables {
    material: Section<Material>,
    aging: Section<Value>,
    practice: Section<Practice>,
}

fn table() -> &'static Tables {
    static TABLES: LazyLock<Tables> = LazyLock::new(|| load().unwrap_or_default());
    &TABLES
}

fn load() -> Result<Tables, TableError> {
    read(TABLE.0, TABLE.1)
}

#[derive(Deserialize)]
struct MaterialRow {
    name: String,
    limit_c: f64,
    rho_kg_m3: f64,
    outgas: Option<String>,
    note: Option<String>,
    k24: f64,
    k_slope_per_k: f64,
    #[serde(default)]
    limit_verified: bool,
    #[serde(flatten)]
    marks: Marks,
}

impl From<MaterialRow> for Material {
    fn from(row: MaterialRow) -> Self {
        Self {
            name: row.name,
            limit: celsius(row.limit_c),
            density: MassDensity::from_si(row.rho_kg_m3),
            outgas: row.outgas,
            note: row.note,
            conductivity: Conductivity {
                at_24_celsius: ThermalConductivity::from_si(row.k24),
                slope: row.k_slope_per_k,
            },
            limit_provenance: if row.limit_verified { Provenance::Printed } else { row.marks.provenance() },
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for Material {
    fn name(&self) -> &str {
        &self.name
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::in_celsius;

    #[test]
    fn the_insulation_table_parses() {
        let tables = load().unwrap();
        assert_eq!((tables.material.all().len(), tables.practice.all().len()), (9, 2));
        assert_eq!(aging().get("polyiso_aging_factor").map(|row| row.value), Some(1.15));
    }

    /// Specification guide of insulation materials: C591 300 °F, C1126 257 °F; the building board by its lowest sheet.
    #[test]
    fn foam_board_bears_less_than_pipe_grade_foam() {
        let limit = |name: &str| in_celsius(materials().get(name).unwrap().limit);
        assert!((limit("polyisocyanurate, pipe grade C591") - 149.0).abs() < 1e-9);
        assert!((limit("polyisocyanurate, foil-faced building board C1289") - 93.0).abs() < 1e-9);
        assert!((limit("phenolic foam C1126") - 125.0).abs() < 1e-9);
    }

    #[test]
    fn a_seen_limit_is_told_from_a_recalled_conductivity() {
        let foam = materials().get("phenolic foam C1126").unwrap();
        assert_eq!((foam.provenance, foam.limit_provenance), (Provenance::Recalled, Provenance::Printed));
    }
}
