//! Glazing: thicknesses, strength, transmittance, limits and setting.
//!
//! Strength under load lives in `physics::glass`, optics in `physics`.

use super::section::{Named, Practice, Section, Value};
use super::{Marks, Provenance, embedded};
use crate::physics::customary::INCH;
use crate::units::si::{Dimension, Length, Pressure, Temperature, TemperatureInterval, celsius};
use serde::Deserialize;
use std::sync::LazyLock;

const TABLE: (&str, &str) = ("glazing.toml", include_str!("tables/glazing.toml"));

/// A glass thickness of the trade.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "GlassThicknessRow")]
pub struct GlassThickness {
    /// Nominal thickness.
    pub name: String,
    /// Nominal thickness, which the mass goes by.
    pub nominal: Length,
    /// Nominal thickness in inches, as the trade says it.
    pub us_name: String,
    /// The same as a length.
    pub us_nominal: Option<Length>,
    /// Thinnest that may be delivered, which the strength goes by.
    pub least: Length,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// Strength of a kind of glass.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "GlassStrengthRow")]
pub struct GlassStrength {
    /// Kind.
    pub name: String,
    /// Mean stress at breakage.
    pub modulus_of_rupture: Pressure,
    /// Design stress for 60 s at 0.8 % breakage.
    pub design_60_seconds: Pressure,
    /// Factor for long load on the 3 s strength of annealed glass, from memory.
    pub long_factor: f64,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// What heat a glazing bears.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "GlazingLimitRow")]
pub struct GlazingLimit {
    /// Kind.
    pub name: String,
    /// Hottest it bears for good.
    pub hottest: Option<Temperature>,
    /// Largest difference between its parts.
    pub difference: Option<TemperatureInterval>,
    /// What else to know.
    pub note: Option<String>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// Range of solar transmittance in a study of exposed glazings.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "TransmittanceRow")]
pub struct Transmittance {
    /// Kind.
    pub name: String,
    /// Lowest found.
    pub low: f64,
    /// Highest found.
    pub high: f64,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// Half the width of the band in which a thickness is taken for one of the trade, m.
const SAME_THICKNESS: f64 = 0.0002;

/// The glass that is sold as this thick, by its nominal in millimetres or in inches; the nearer one where both fit.
///
/// The inch names lie up to half a millimetre from the metric ones: 3/8 in is sold as 10 mm, 1/4 in as 6 mm.
pub fn thickness_sold_as(thickness: Length) -> Option<&'static GlassThickness> {
    let apart = |row: &GlassThickness| {
        let from = |nominal: Length| (nominal - thickness).abs().si();
        row.us_nominal.map_or(f64::INFINITY, from).min(from(row.nominal))
    };
    let rows = thicknesses().all().iter().filter(|row| apart(row) <= SAME_THICKNESS);
    rows.min_by(|a, b| apart(a).total_cmp(&apart(b)))
}

/// Glass thicknesses.
pub fn thicknesses() -> &'static Section<GlassThickness> {
    &TABLES.glass_thickness
}

/// Properties of float glass.
pub fn glass_properties() -> &'static Section<Value> {
    &TABLES.glass_properties
}

/// Strength by kind of glass.
pub fn strengths() -> &'static Section<GlassStrength> {
    &TABLES.glass_stress
}

/// Temperature limits.
pub fn limits() -> &'static Section<GlazingLimit> {
    &TABLES.temperature
}

/// Solar transmittance.
pub fn transmittances() -> &'static Section<Transmittance> {
    &TABLES.transmittance
}

/// Properties of polycarbonate.
pub fn polycarbonate() -> &'static Section<Value> {
    &TABLES.polycarbonate
}

/// Setting of glass.
pub fn setting() -> &'static Section<Practice> {
    &TABLES.setting
}

#[derive(Default, Deserialize)]
struct Tables {
    glass_thickness: Section<GlassThickness>,
    glass_properties: Section<Value>,
    glass_stress: Section<GlassStrength>,
    temperature: Section<GlazingLimit>,
    transmittance: Section<Transmittance>,
    polycarbonate: Section<Value>,
    setting: Section<Practice>,
}

static TABLES: LazyLock<Tables> = LazyLock::new(|| embedded(TABLE));

#[derive(Deserialize)]
struct GlassThicknessRow {
    name: String,
    nominal_mm: f64,
    us: String,
    min_mm: f64,
    #[serde(flatten)]
    marks: Marks,
}

impl From<GlassThicknessRow> for GlassThickness {
    fn from(row: GlassThicknessRow) -> Self {
        Self {
            name: row.name,
            nominal: Length::from_si(row.nominal_mm * 1e-3),
            us_nominal: fraction(&row.us).map(|inches| Length::from_si(inches * INCH)),
            us_name: row.us,
            least: Length::from_si(row.min_mm * 1e-3),
            provenance: row.marks.provenance(),
        }
    }
}

/// A fraction of an inch as the table writes it, `3/16`.
fn fraction(text: &str) -> Option<f64> {
    let (over, under) = text.split_once('/')?;
    Some(over.parse::<f64>().ok()? / under.parse::<f64>().ok()?)
}

impl Named for GlassThickness {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct GlassStrengthRow {
    name: String,
    mor_mpa: f64,
    design_60s_mpa: f64,
    factor_long: f64,
    #[serde(flatten)]
    marks: Marks,
}

impl From<GlassStrengthRow> for GlassStrength {
    fn from(row: GlassStrengthRow) -> Self {
        Self {
            name: row.name,
            modulus_of_rupture: Pressure::from_si(row.mor_mpa * 1e6),
            design_60_seconds: Pressure::from_si(row.design_60s_mpa * 1e6),
            long_factor: row.factor_long,
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for GlassStrength {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct GlazingLimitRow {
    name: String,
    max_service_c: Option<f64>,
    max_delta_k: Option<f64>,
    note: Option<String>,
    #[serde(flatten)]
    marks: Marks,
}

impl From<GlazingLimitRow> for GlazingLimit {
    fn from(row: GlazingLimitRow) -> Self {
        Self {
            name: row.name,
            hottest: row.max_service_c.map(celsius),
            difference: row.max_delta_k.map(TemperatureInterval::from_si),
            note: row.note,
            provenance: row.marks.provenance(),
        }
    }
}

impl Named for GlazingLimit {
    fn name(&self) -> &str {
        &self.name
    }
}

#[derive(Deserialize)]
struct TransmittanceRow {
    name: String,
    tau_min: f64,
    tau_max: f64,
    #[serde(flatten)]
    marks: Marks,
}

impl From<TransmittanceRow> for Transmittance {
    fn from(row: TransmittanceRow) -> Self {
        Self { name: row.name, low: row.tau_min, high: row.tau_max, provenance: row.marks.provenance() }
    }
}

impl Named for Transmittance {
    fn name(&self) -> &str {
        &self.name
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::read;

    #[test]
    fn the_glazing_table_parses() {
        let tables = read::<Tables>(TABLE.0, TABLE.1).unwrap();
        assert_eq!((tables.glass_thickness.all().len(), tables.glass_stress.all().len()), (7, 3));
        assert_eq!((limits().all().len(), transmittances().all().len(), setting().all().len()), (5, 9, 5));
        assert!(polycarbonate().get("vicat_c").is_some() && glass_properties().get("e_gpa").is_some());
    }

    #[test]
    fn glass_may_be_thinner_than_its_name() {
        assert!(thicknesses().all().iter().all(|glass| glass.least < glass.nominal));
    }

    #[test]
    fn tempered_glass_is_the_strongest() {
        let design = |name: &str| strengths().get(name).unwrap().design_60_seconds;
        assert!(design("annealed") < design("heat-strengthened"));
        assert!(design("heat-strengthened") < design("fully tempered"));
    }
}
