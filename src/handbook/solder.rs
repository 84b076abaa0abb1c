//! Solders, brazing fillers, fluxes and the pressure ratings of their joints.
//!
//! How ratings are read between points lives in `physics::solder_joint`; which solder may sit where is judged
//! elsewhere.

use super::section::{Named, Section, Value};
use super::{Marks, Provenance, TableError, read};
use crate::physics::customary::fahrenheit;
use crate::units::si::{Dimension, MassDensity, Temperature, ThermalConductivity, celsius};
use serde::Deserialize;
use std::sync::LazyLock;

const TABLE: (&str, &str) = ("solder.toml", include_str!("tables/solder.toml"));

/// A soft solder.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "AlloyRow")]
pub struct Alloy {
    /// Composition in percent by mass.
    pub name: String,
    /// Grade in ASTM B32, `-` where it has none.
    pub astm_b32: String,
    /// Where it begins to melt.
    pub solidus: Temperature,
    /// Where it is all melted.
    pub liquidus: Temperature,
    /// Density.
    pub density: Option<MassDensity>,
    /// Conductivity.
    pub conductivity: Option<ThermalConductivity>,
    /// Holds no lead.
    pub lead_free: bool,
    /// Composition where the name does not tell it.
    pub composition: Option<String>,
    /// What else to know.
    pub note: Option<String>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// A brazing filler.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "BrazingFillerRow")]
pub struct BrazingFiller {
    /// AWS class.
    pub name: String,
    /// Composition in percent by mass.
    pub composition: String,
    /// Where it begins to melt.
    pub solidus: Temperature,
    /// Where it is all melted.
    pub liquidus: Temperature,
    /// Coolest and hottest that it is brazed at, where printed.
    pub brazed_at: Option<[Temperature; 2]>,
    /// What else to know.
    pub note: Option<String>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// Temperatures that a method works at.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "WorkingHeatRow")]
pub struct WorkingHeat {
    /// Method.
    pub name: String,
    /// Coolest.
    pub low: Temperature,
    /// Hottest.
    pub high: Temperature,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// A flux.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "FluxRow")]
pub struct Flux {
    /// Kind.
    pub name: String,
    /// What it is for.
    pub purpose: String,
    /// What it leaves behind.
    pub residue: Option<String>,
    /// What else to know.
    pub note: Option<String>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// Soft solders.
pub fn alloys() -> &'static Section<Alloy> {
    &table().alloys
}

/// Brazing fillers after AWS A5.8.
pub fn brazing_fillers() -> &'static Section<BrazingFiller> {
    &table().brazing
}

/// Temperatures of work by method.
pub fn working_heat() -> &'static Section<WorkingHeat> {
    &table().working_heat
}

/// Highest lead content for drinking water, percent by mass.
pub fn lead_free() -> &'static Section<Value> {
    &table().lead_free
}

/// Fluxes.
pub fn fluxes() -> &'static Section<Flux> {
    &table().flux
}

#[derive(Default, Deserialize)]
struct Tables {
    alloys: Section<Alloy>,
    brazing: Section<BrazingFiller>,
    working_heat: Section<WorkingHeat>,
    lead_free: Section<Value>,
    flux: Section<Flux>,
}

fn table() -> &'static Tables {
    static TABLES: LazyLock<Tables> = LazyLock::new(|| load().unwrap_or_default());
    &TABLES
}

fn load() -> Result<Tables, TableError> {
    read(TABLE.0, TABLE.1)
}

#[derive(Deserialize)]
struct AlloyRow {
    name: String,
    astm_b32: String,
    solidus_c: f64,
    liquidus_c: f64,
    density_g_cm3: Option<f64>,
    k_w_mk: Option<f64>,
    lead_free: bool,
    composition: Option<String>,
    note: Option<String>,
    #[serde(flatten)]
    marks: Marks,
}

impl From<AlloyRow> for Alloy {
    fn from(row: AlloyRow) -> Self {
        Self {
            name: row.name,
            astm_b32: row.astm_b32,
            solidus: celsius(row.solidus_c),
            liquidus: celsius(row.liquidus_c),
            density: row.density_g_cm3.map(|value| MassDensity::from_si(value * 1000.0)),
            conductivity: row.k_w_mk.map(ThermalConductivity::from_si),
            lead_free: row.lead_free,
            composition: row.composition,
            note: row.note,
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for Alloy {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct BrazingFillerRow {
    name: String,
    composition: String,
    solidus_c: f64,
    liquidus_c: f64,
    braze_range_f: Option<[f64; 2]>,
    note: Option<String>,
    #[serde(flatten)]
    marks: Marks,
}

impl From<BrazingFillerRow> for BrazingFiller {
    fn from(row: BrazingFillerRow) -> Self {
        Self {
            name: row.name,
            composition: row.composition,
            solidus: celsius(row.solidus_c),
            liquidus: celsius(row.liquidus_c),
            brazed_at: row.braze_range_f.map(|range| range.map(fahrenheit)),
            note: row.note,
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for BrazingFiller {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct WorkingHeatRow {
    name: String,
    low_c: f64,
    high_c: f64,
    #[serde(flatten)]
    marks: Marks,
}

impl From<WorkingHeatRow> for WorkingHeat {
    fn from(row: WorkingHeatRow) -> Self {
        Self { name: row.name, low: celsius(row.low_c), high: celsius(row.high_c), provenance: row.marks.provenance() }
    }
}

impl Named for WorkingHeat {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct FluxRow {
    name: String,
    #[serde(rename = "use")]
    purpose: String,
    residue: Option<String>,
    note: Option<String>,
    #[serde(flatten)]
    marks: Marks,
}

impl From<FluxRow> for Flux {
    fn from(row: FluxRow) -> Self {
        Self {
            name: row.name,
            purpose: row.purpose,
            residue: row.residue,
            note: row.note,
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for Flux {
    fn name(&self) -> &str {
        &self.name
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::in_celsius;

    #[test]
    fn the_solder_table_parses() {
        let tables = load().unwrap();
        assert_eq!((tables.alloys.all().len(), tables.brazing.all().len(), tables.flux.all().len()), (13, 9, 4));
    }

    #[test]
    fn every_filler_melts_from_its_solidus_upward() {
        for alloy in alloys().all() {
            assert!(alloy.solidus <= alloy.liquidus, "{}", alloy.name);
            assert_eq!(alloy.lead_free, !alloy.name.contains("Pb"), "{}", alloy.name);
        }
        assert!(brazing_fillers().all().iter().all(|filler| filler.solidus < filler.liquidus));
    }

    /// Solidus 183 °C is agreed between all pages seen; the liquidus is not.
    #[test]
    fn a_solder_is_found_by_name() {
        let alloy = alloys().get("Sn50Pb50").unwrap();
        assert!((in_celsius(alloy.solidus) - 183.0).abs() < 1e-9);
        assert_eq!(alloys().get("Sn95Sb5").unwrap().provenance, Provenance::Recalled);
    }
}
