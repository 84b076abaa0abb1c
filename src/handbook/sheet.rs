//! Sheet metals: thicknesses of the trade, properties, surfaces, bonds to the riser.
//!
//! Fins live in `physics`, the galvanic series in `galvanic`.

use super::section::{Named, Section, Value};
use super::{Marks, Provenance, embedded};
use crate::units::si::{
    Dimension, Length, LineConductance, MassDensity, SpecificHeatCapacity, Temperature, ThermalConductivity, celsius,
};
use serde::Deserialize;
use std::sync::LazyLock;

pub(super) const TABLE: (&str, &str) = ("sheet_metal.toml", include_str!("tables/sheet_metal.toml"));

/// A copper sheet of the trade.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "CopperSheetRow")]
pub struct CopperSheet {
    /// Ounces a square foot.
    pub name: String,
    /// Thickness.
    pub thickness: Length,
    /// Mass of a square metre, kg/m².
    pub mass_per_area: f64,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// A gauge number of one metal.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "GaugeRow")]
pub struct Gauge {
    /// Metal and gauge number.
    pub name: String,
    /// Gauge number.
    pub gauge: u8,
    /// Thickness.
    pub thickness: Length,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// A metal at room temperature.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "MetalRow")]
pub struct Metal {
    /// Metal and alloy.
    pub name: String,
    /// Conductivity.
    pub conductivity: ThermalConductivity,
    /// Density.
    pub density: MassDensity,
    /// Specific heat.
    pub specific_heat: SpecificHeatCapacity,
    /// Linear expansion, 1/K; clearances of copper go by `physics::expansion`.
    pub expansion: f64,
    /// What else to know.
    pub note: Option<String>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// A surface of the absorber.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "SurfaceRow")]
pub struct Surface {
    /// Kind.
    pub name: String,
    /// Solar absorptance.
    pub absorptance: f64,
    /// Long-wave emittance.
    pub emittance: f64,
    /// Hottest it bears for good.
    pub limit: Option<Temperature>,
    /// What else to know.
    pub note: Option<String>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// An example of a bond.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "BondRow")]
pub struct Bond {
    /// Kind.
    pub name: String,
    /// Conductivity of what fills it.
    pub conductivity: ThermalConductivity,
    /// Width of the seat.
    pub width: Length,
    /// Thickness of what fills it.
    pub thickness: Length,
    /// Conductance per metre of riser.
    pub conductance: LineConductance,
    /// What else to know.
    pub note: Option<String>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// Copper sheet by ounces a square foot.
pub fn copper_sheets() -> &'static Section<CopperSheet> {
    &TABLES.copper_sheet_oz
}

/// Gauge numbers, which differ by metal.
pub fn gauges() -> &'static Section<Gauge> {
    &TABLES.gauges
}

/// Properties of metals at room temperature.
pub fn metals() -> &'static Section<Metal> {
    &TABLES.properties
}

/// Absorber surfaces.
pub fn surfaces() -> &'static Section<Surface> {
    &TABLES.surface
}

/// Process of a high-temperature silicone paint.
pub fn paint_process() -> &'static Section<Value> {
    &TABLES.paint_process
}

/// Examples of bonds between sheet and riser.
pub fn bonds() -> &'static Section<Bond> {
    &TABLES.bond
}

#[derive(Default, Deserialize)]
struct Tables {
    copper_sheet_oz: Section<CopperSheet>,
    gauges: Section<Gauge>,
    properties: Section<Metal>,
    surface: Section<Surface>,
    paint_process: Section<Value>,
    bond: Section<Bond>,
}

static TABLES: LazyLock<Tables> = LazyLock::new(|| embedded(TABLE));

#[derive(Deserialize)]
struct CopperSheetRow {
    name: String,
    thickness_mm: f64,
    kg_m2: f64,
    #[serde(flatten)]
    marks: Marks,
}

impl From<CopperSheetRow> for CopperSheet {
    fn from(row: CopperSheetRow) -> Self {
        Self {
            name: row.name,
            thickness: Length::from_si(row.thickness_mm * 1e-3),
            mass_per_area: row.kg_m2,
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for CopperSheet {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct GaugeRow {
    name: String,
    gauge: u8,
    mm: f64,
    #[serde(flatten)]
    marks: Marks,
}

impl From<GaugeRow> for Gauge {
    fn from(row: GaugeRow) -> Self {
        Self {
            name: row.name,
            gauge: row.gauge,
            thickness: Length::from_si(row.mm * 1e-3),
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for Gauge {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct MetalRow {
    name: String,
    k_w_mk: f64,
    rho_kg_m3: f64,
    cp_j_kgk: f64,
    alpha_1e6_k: f64,
    note: Option<String>,
    #[serde(flatten)]
    marks: Marks,
}

impl From<MetalRow> for Metal {
    fn from(row: MetalRow) -> Self {
        Self {
            name: row.name,
            conductivity: ThermalConductivity::from_si(row.k_w_mk),
            density: MassDensity::from_si(row.rho_kg_m3),
            specific_heat: SpecificHeatCapacity::from_si(row.cp_j_kgk),
            expansion: row.alpha_1e6_k * 1e-6,
            note: row.note,
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for Metal {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct SurfaceRow {
    name: String,
    alpha: f64,
    emittance: f64,
    limit_c: Option<f64>,
    note: Option<String>,
    #[serde(flatten)]
    marks: Marks,
}

impl From<SurfaceRow> for Surface {
    fn from(row: SurfaceRow) -> Self {
        Self {
            name: row.name,
            absorptance: row.alpha,
            emittance: row.emittance,
            limit: row.limit_c.map(celsius),
            note: row.note,
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for Surface {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct BondRow {
    name: String,
    k_w_mk: f64,
    b_mm: f64,
    gamma_mm: f64,
    c_b_w_mk: f64,
    note: Option<String>,
    #[serde(flatten)]
    marks: Marks,
}

impl From<BondRow> for Bond {
    fn from(row: BondRow) -> Self {
        Self {
            name: row.name,
            conductivity: ThermalConductivity::from_si(row.k_w_mk),
            width: Length::from_si(row.b_mm * 1e-3),
            thickness: Length::from_si(row.gamma_mm * 1e-3),
            conductance: LineConductance::from_si(row.c_b_w_mk),
            note: row.note,
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for Bond {
    fn name(&self) -> &str {
        &self.name
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::read;

    #[test]
    fn the_sheet_table_parses() {
        let tables = read::<Tables>(TABLE.0, TABLE.1).unwrap();
        assert_eq!((tables.copper_sheet_oz.all().len(), tables.properties.all().len()), (8, 9));
        assert_eq!(tables.surface.all().len(), 9);
        assert!(!gauges().all().is_empty() && !paint_process().source().is_empty());
    }

    /// t = oz/16 lb/ft² over 0.323 lb/in³ (density of copper in the trade handbook).
    #[test]
    fn ounce_copper_has_the_thickness_of_its_weight() {
        for sheet in copper_sheets().all() {
            let ounces: f64 = sheet.name.trim_end_matches(" oz").parse().unwrap();
            let inches = ounces / 16.0 / (0.323 * 144.0);
            assert!((sheet.thickness.si() / 0.0254 - inches).abs() < 6e-5, "{}", sheet.name);
        }
    }

    /// C_b = k b/γ of a solar engineering text, from memory.
    #[test]
    fn a_bond_conducts_by_its_own_dimensions() {
        for bond in bonds().all().iter().filter(|bond| !bond.name.contains("30 %")) {
            let conductance = bond.conductivity.si() * bond.width.si() / bond.thickness.si();
            assert!((conductance / bond.conductance.si() - 1.0).abs() < 1e-9, "{}", bond.name);
        }
    }

    #[test]
    fn a_surface_gives_no_more_than_a_black_body() {
        for surface in surfaces().all() {
            assert!((0.0..=1.0).contains(&surface.absorptance) && (0.0..=1.0).contains(&surface.emittance));
        }
        assert_eq!(metals().get("brass 70-30").map(|metal| metal.provenance), Some(Provenance::Recalled));
    }
}
