//! Timber of the trade: sections, panels, saw kerfs, movement, heat limits, fasteners, joinery.
//!
//! Movement lives in `physics::timber`, withdrawal of screws in `physics::lag`, cutting in `physics::cutting`.

use super::section::{Named, Practice, Section, Value};
use super::{Marks, Provenance, embedded};
use crate::units::si::{Dimension, Length, MassDensity};
use serde::Deserialize;
use std::sync::LazyLock;

const TABLE: (&str, &str) = ("timber.toml", include_str!("tables/timber.toml"));

/// A section of lumber.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "LumberRow")]
pub struct Lumber {
    /// Name of the trade.
    pub name: String,
    /// Thickness as sold.
    pub thickness: Length,
    /// Width as sold.
    pub width: Length,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// A length of the trade.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "StockLengthRow")]
pub struct StockLength {
    /// Name of the trade.
    pub name: String,
    /// Length; the real one is this or a little over.
    pub length: Length,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// A board of plywood.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "PanelRow")]
pub struct Panel {
    /// Category.
    pub name: String,
    /// Thickness.
    pub thickness: Length,
    /// Sides of the sheet.
    pub sheet: [Length; 2],
    /// Mass of a square metre, kg/m².
    pub mass_per_area: f64,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// The kerf of a saw.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "KerfRow")]
pub struct Kerf {
    /// Tool.
    pub name: String,
    /// What a cut takes.
    pub width: Length,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// How a species moves with moisture.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "SpeciesRow")]
pub struct Species {
    /// Species.
    pub name: String,
    /// Change per percent of moisture across the rings, as a fraction.
    pub radial: f64,
    /// Change per percent of moisture along the rings, as a fraction.
    pub tangential: f64,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// A species by its specific gravity.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "SpecificGravityRow")]
pub struct SpecificGravity {
    /// Species.
    pub name: String,
    /// Specific gravity, oven dry.
    pub value: f64,
    /// How the row came into the table.
    pub provenance: Provenance,
}

impl SpecificGravity {
    /// Density at 12 % of moisture, ρ = 1000 G (1 + 0.12) kg/m³: a little too high, since the volume of dry wood swells.
    /// Source: definition of specific gravity, Wood Handbook ch. 4 (from memory).
    pub fn density(&self) -> MassDensity {
        MassDensity::from_si(1000.0 * self.value * 1.12)
    }
}

/// A fastener metal in copper-treated timber.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "TreatedFastenerRow")]
pub struct TreatedFastener {
    /// Metal.
    pub name: String,
    /// It may be used.
    pub usable: bool,
    /// What else to know.
    pub note: Option<String>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// A hole for drain or breath.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "VentRow")]
pub struct Vent {
    /// Kind.
    pub name: String,
    /// Diameter.
    pub diameter: Length,
    /// Where and how many.
    pub text: String,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// Dressed softwood of PS 20.
pub fn us_lumber() -> &'static Section<Lumber> {
    &TABLES.us_dressed
}

/// Metric sections.
pub fn metric_lumber() -> &'static Section<Lumber> {
    &TABLES.metric_cls
}

/// Lengths of the trade.
pub fn us_lengths() -> &'static Section<StockLength> {
    &TABLES.us_lengths
}

/// Plywood.
pub fn panels() -> &'static Section<Panel> {
    &TABLES.panels
}

/// Saw kerfs.
pub fn kerfs() -> &'static Section<Kerf> {
    &TABLES.kerf
}

/// Movement with moisture.
pub fn species() -> &'static Section<Species> {
    &TABLES.moisture
}

/// Heat that timber bears.
pub fn heat_limits() -> &'static Section<Value> {
    &TABLES.heat
}

/// Specific gravity for withdrawal.
pub fn specific_gravities() -> &'static Section<SpecificGravity> {
    &TABLES.specific_gravity
}

/// Factors on the withdrawal of screws.
pub fn withdrawal_factors() -> &'static Section<Value> {
    &TABLES.nds_factors
}

/// Fasteners in treated timber.
pub fn treated_fasteners() -> &'static Section<TreatedFastener> {
    &TABLES.fastener_treated
}

/// Joinery.
pub fn joinery() -> &'static Section<Practice> {
    &TABLES.joinery
}

/// Holes for drain and breath.
pub fn vents() -> &'static Section<Vent> {
    &TABLES.vent_drain
}

#[derive(Default, Deserialize)]
struct Tables {
    us_dressed: Section<Lumber>,
    metric_cls: Section<Lumber>,
    us_lengths: Section<StockLength>,
    panels: Section<Panel>,
    kerf: Section<Kerf>,
    moisture: Section<Species>,
    heat: Section<Value>,
    specific_gravity: Section<SpecificGravity>,
    nds_factors: Section<Value>,
    fastener_treated: Section<TreatedFastener>,
    joinery: Section<Practice>,
    vent_drain: Section<Vent>,
}

static TABLES: LazyLock<Tables> = LazyLock::new(|| embedded(TABLE));

#[derive(Deserialize)]
struct LumberRow {
    name: String,
    thick_mm: f64,
    width_mm: f64,
    #[serde(flatten)]
    marks: Marks,
}

impl From<LumberRow> for Lumber {
    fn from(row: LumberRow) -> Self {
        Self {
            name: row.name,
            thickness: Length::from_si(row.thick_mm * 1e-3),
            width: Length::from_si(row.width_mm * 1e-3),
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for Lumber {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct StockLengthRow {
    name: String,
    length_mm: f64,
    #[serde(flatten)]
    marks: Marks,
}

impl From<StockLengthRow> for StockLength {
    fn from(row: StockLengthRow) -> Self {
        Self { name: row.name, length: Length::from_si(row.length_mm * 1e-3), provenance: row.marks.provenance() }
    }
}

impl Named for StockLength {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct PanelRow {
    name: String,
    thick_mm: f64,
    kg_m2: f64,
    sheet_mm: [f64; 2],
    #[serde(flatten)]
    marks: Marks,
}

impl From<PanelRow> for Panel {
    fn from(row: PanelRow) -> Self {
        Self {
            name: row.name,
            thickness: Length::from_si(row.thick_mm * 1e-3),
            mass_per_area: row.kg_m2,
            sheet: row.sheet_mm.map(|side| Length::from_si(side * 1e-3)),
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for Panel {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct KerfRow {
    name: String,
    kerf_mm: f64,
    #[serde(flatten)]
    marks: Marks,
}

impl From<KerfRow> for Kerf {
    fn from(row: KerfRow) -> Self {
        Self { name: row.name, width: Length::from_si(row.kerf_mm * 1e-3), provenance: row.marks.provenance() }
    }
}

impl Named for Kerf {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct SpeciesRow {
    name: String,
    c_radial: f64,
    c_tangential: f64,
    #[serde(flatten)]
    marks: Marks,
}

impl From<SpeciesRow> for Species {
    fn from(row: SpeciesRow) -> Self {
        Self { name: row.name, radial: row.c_radial, tangential: row.c_tangential, provenance: row.marks.provenance() }
    }
}

impl Named for Species {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct SpecificGravityRow {
    name: String,
    g: f64,
    #[serde(flatten)]
    marks: Marks,
}

impl From<SpecificGravityRow> for SpecificGravity {
    fn from(row: SpecificGravityRow) -> Self {
        Self { name: row.name, value: row.g, provenance: row.marks.provenance() }
    }
}

impl Named for SpecificGravity {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct TreatedFastenerRow {
    name: String,
    usable: bool,
    note: Option<String>,
    #[serde(flatten)]
    marks: Marks,
}

impl From<TreatedFastenerRow> for TreatedFastener {
    fn from(row: TreatedFastenerRow) -> Self {
        Self { name: row.name, usable: row.usable, note: row.note, provenance: row.marks.provenance() }
    }
}

impl Named for TreatedFastener {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct VentRow {
    name: String,
    diameter_mm: f64,
    text: String,
    #[serde(flatten)]
    marks: Marks,
}

impl From<VentRow> for Vent {
    fn from(row: VentRow) -> Self {
        Self {
            name: row.name,
            diameter: Length::from_si(row.diameter_mm * 1e-3),
            text: row.text,
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for Vent {
    fn name(&self) -> &str {
        &self.name
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::read;

    #[test]
    fn the_timber_table_parses() {
        let tables = read::<Tables>(TABLE.0, TABLE.1).unwrap();
        assert_eq!((tables.us_dressed.all().len(), tables.metric_cls.all().len()), (25, 11));
        assert_eq!((tables.kerf.all().len(), tables.moisture.all().len(), tables.panels.all().len()), (8, 8, 8));
        assert_eq!((us_lengths().all().len(), vents().all().len(), joinery().all().len()), (6, 2, 5));
        assert!(!withdrawal_factors().all().is_empty() && !specific_gravities().all().is_empty());
        assert!(treated_fasteners().get("plain steel").is_some_and(|metal| !metal.usable));
    }

    #[test]
    fn a_section_is_found_by_the_name_of_the_trade() {
        let lumber = us_lumber().get("2x6").unwrap();
        assert!((lumber.thickness.si() - 0.038).abs() < 1e-12 && (lumber.width.si() - 0.14).abs() < 1e-12);
    }

    /// Wood ignites at 77 °C over months to years (Fire and Materials 31(2), abstract); 65 °C is this program's rule.
    #[test]
    fn heat_limits_tell_rules_from_sources() {
        let provenance = |name: &str| heat_limits().get(name).map(|row| (row.value, row.provenance));
        assert_eq!(provenance("long_term_ignition_c"), Some((77.0, Provenance::Printed)));
        assert_eq!(provenance("warn_wood_face_c"), Some((65.0, Provenance::Rule)));
    }
}
