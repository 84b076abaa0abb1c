//! How tube is bent, sold and run: bending radii, stock lengths, speed limits, and copper as a material.
//!
//! Sizes live in `tube`, pressures in `tube_pressure`.

use super::tube::{Standard, TABLE, find};
use super::tube_pressure::Temper;
use super::{Marks, Provenance, TableError, read};
use crate::physics::customary::{FOOT, INCH};
use crate::units::si::{Dimension, Length, Temperature, Velocity, celsius, in_celsius};
use serde::Deserialize;
use std::sync::LazyLock;

/// Smallest radius of a bend made with a mechanical bender (copper tube handbook, table 4.1).
#[derive(Clone, Debug, PartialEq)]
pub struct BendRadius {
    /// Nominal size.
    pub nominal: String,
    /// Wall types that the row holds for.
    pub types: Vec<Standard>,
    /// Temper that the row holds for.
    pub temper: Temper,
    /// Smallest radius, to the tube's middle line.
    pub radius: Length,
}

/// Smallest radius of a bend of EN 1057 tube with a tool, by its diameter.
#[derive(Clone, Copy, Debug)]
struct EuropeanBend {
    od: Length,
    radius: Length,
}

/// Lengths that tube is sold in.
#[derive(Clone, Debug, PartialEq)]
pub struct StockLengths {
    /// Type or standard in words.
    pub kind: String,
    /// Straight or coil, and its temper.
    pub form: String,
    /// Range of sizes in words.
    pub sizes: String,
    /// The lengths.
    pub lengths: Vec<Length>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// Copper as a material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Copper {
    /// Linear expansion between 20 and 100 °C, 1/K (copper tube handbook).
    pub expansion_to_100_celsius: f64,
    /// Linear expansion between 20 and 200 °C, 1/K (reference page): the one for every clearance of a panel.
    pub expansion_to_200_celsius: f64,
    /// Density, kg/m³.
    pub density: f64,
    /// Conductivity of phosphorus-deoxidised tube, W/(m·K) (from memory).
    pub tube_conductivity: f64,
    /// Conductivity of electrolytic sheet, W/(m·K) (from memory).
    pub sheet_conductivity: f64,
    /// Young's modulus, Pa (from memory).
    pub elasticity: f64,
    /// Specific heat capacity, J/(kg·K) (from memory).
    pub specific_heat: f64,
    /// Melting point (from memory).
    pub melting: Temperature,
}

/// Smallest bending radius of a size; none when no source gives one, and then a fitting takes its place.
///
/// Inch sizes by the copper tube handbook, EN 1057 sizes by a maker's page, which names no temper.
pub fn bend_radius(standard: Standard, nominal: &str, temper: Temper) -> Option<Length> {
    if standard == Standard::En1057 {
        let size = find(standard, nominal)?;
        let row = rules().european_bends.iter().find(|row| (row.od - size.od).abs().si() < 1e-9)?;
        return Some(row.radius);
    }
    let fits = |row: &&BendRadius| row.nominal == nominal && row.temper == temper && row.types.contains(&standard);
    bends().iter().find(fits).map(|row| row.radius)
}

/// Every bending radius.
pub fn bends() -> &'static [BendRadius] {
    &rules().bends
}

/// Every row of stock lengths.
pub fn stock_lengths() -> &'static [StockLengths] {
    &rules().lengths
}

/// Highest speed of water in copper at a temperature: 2.4 m/s cold, 1.5 to 60 °C, 0.9 above (reference page on
/// copper tubes). "Cold" is taken to end at 30 °C, a rule of this program. None above 120 °C.
pub fn greatest_velocity(water: Temperature) -> Option<Velocity> {
    let degrees = in_celsius(water);
    let case = [(30.0, "cold"), (60.0, "hot to 140 F"), (120.0, "above 140 F")].iter().find(|c| degrees <= c.0)?;
    rules().velocities.iter().find(|row| row.case == case.1).map(|row| Velocity::from_si(row.max_m_s))
}

/// Copper as a material; none only if the embedded table were broken.
pub fn copper() -> Option<Copper> {
    rules().copper
}

#[derive(Debug, Default)]
struct Rules {
    bends: Vec<BendRadius>,
    european_bends: Vec<EuropeanBend>,
    lengths: Vec<StockLengths>,
    velocities: Vec<VelocityRow>,
    copper: Option<Copper>,
}

fn rules() -> &'static Rules {
    static RULES: LazyLock<Rules> = LazyLock::new(|| load().unwrap_or_default());
    &RULES
}

#[derive(Deserialize)]
struct Tables {
    bend: Section<BendRow>,
    en1057_mass: Section<EuropeanRow>,
    b88_lengths: Section<LengthRow>,
    velocity: Section<VelocityRow>,
    properties: Section<PropertyRow>,
}

#[derive(Deserialize)]
struct Section<Row> {
    rows: Vec<Row>,
}

#[derive(Deserialize)]
struct BendRow {
    nominal: String,
    types: String,
    temper: TemperWord,
    radius_in: f64,
}

#[derive(Deserialize)]
struct EuropeanRow {
    od_mm: f64,
    bend_mm: Option<f64>,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "lowercase")]
enum TemperWord {
    Annealed,
    Drawn,
}

#[derive(Deserialize)]
struct LengthRow {
    r#type: String,
    form: String,
    sizes: String,
    #[serde(default)]
    length_ft: Vec<f64>,
    #[serde(default)]
    length_m: Vec<f64>,
    #[serde(flatten)]
    marks: Marks,
}

#[derive(Debug, Deserialize)]
struct VelocityRow {
    case: String,
    max_m_s: f64,
}

#[derive(Deserialize)]
struct PropertyRow {
    name: String,
    value: f64,
}

fn load() -> Result<Rules, TableError> {
    let tables: Tables = read(TABLE.0, TABLE.1)?;
    Ok(Rules {
        bends: tables.bend.rows.into_iter().map(BendRow::bend).collect(),
        european_bends: tables.en1057_mass.rows.iter().filter_map(EuropeanRow::bend).collect(),
        lengths: tables.b88_lengths.rows.into_iter().map(LengthRow::lengths).collect(),
        velocities: tables.velocity.rows,
        copper: Some(material(&tables.properties.rows)?),
    })
}

impl BendRow {
    fn bend(self) -> BendRadius {
        let inch = [("K", Standard::TypeK), ("L", Standard::TypeL), ("M", Standard::TypeM)];
        let listed = |letter: &str| self.types.split_whitespace().any(|word| word == letter);
        BendRadius {
            types: inch.iter().filter(|(letter, _)| listed(letter)).map(|(_, standard)| *standard).collect(),
            nominal: self.nominal,
            temper: match self.temper {
                TemperWord::Annealed => Temper::Annealed,
                TemperWord::Drawn => Temper::Drawn,
            },
            radius: Length::from_si(self.radius_in * INCH),
        }
    }
}

impl EuropeanRow {
    fn bend(&self) -> Option<EuropeanBend> {
        let millimetres = |value: f64| Length::from_si(value * 1e-3);
        Some(EuropeanBend { od: millimetres(self.od_mm), radius: millimetres(self.bend_mm?) })
    }
}

impl LengthRow {
    fn lengths(self) -> StockLengths {
        let feet = self.length_ft.iter().map(|feet| feet * FOOT);
        StockLengths {
            lengths: feet.chain(self.length_m.iter().copied()).map(Length::from_si).collect(),
            kind: self.r#type,
            form: self.form,
            sizes: self.sizes,
            provenance: self.marks.provenance(),
        }
    }
}

fn material(rows: &[PropertyRow]) -> Result<Copper, TableError> {
    let value = |name: &str| {
        let row = rows.iter().find(|row| row.name == name);
        row.map(|row| row.value).ok_or_else(|| TableError { table: TABLE.0, problem: format!("no property {name}") })
    };
    Ok(Copper {
        expansion_to_100_celsius: value("alpha_per_k")?,
        expansion_to_200_celsius: value("alpha_20_200c_per_k")?,
        density: value("density_kg_m3")?,
        tube_conductivity: value("k_c12200_w_mk")?,
        sheet_conductivity: value("k_c11000_w_mk")?,
        elasticity: value("e_gpa")? * 1e9,
        specific_heat: value("cp_j_kgk")?,
        melting: celsius(value("melting_c")?),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::tube::COPPER_DENSITY;

    #[test]
    fn the_rules_parse() {
        let rules = load().unwrap();
        assert_eq!((rules.bends.len(), rules.lengths.len(), rules.velocities.len()), (9, 10, 3));
        assert!(rules.lengths.iter().all(|row| !row.lengths.is_empty()));
        assert!(rules.bends.iter().all(|row| !row.types.is_empty()));
    }

    /// Copper tube handbook, table 4.1: drawn 1/2 in to 2 1/2 in.
    #[test]
    fn hard_half_inch_tube_bends_to_two_and_a_half_inches() {
        let radius = bend_radius(Standard::TypeM, "1/2", Temper::Drawn).unwrap();
        assert!((radius.si() - 0.0635).abs() < 1e-9);
        assert_eq!(bend_radius(Standard::TypeM, "1", Temper::Drawn), None);
    }

    /// 9.4e-6 per °F between 70 and 212 °F, as the copper tube handbook prints it.
    #[test]
    fn copper_grows_as_the_handbook_says() {
        let copper = copper().unwrap();
        assert!((copper.expansion_to_100_celsius / 1.8 / 9.4e-6 - 1.0).abs() < 2e-3);
        assert!(copper.expansion_to_200_celsius > copper.expansion_to_100_celsius);
        assert!((copper.density - COPPER_DENSITY).abs() < 1e-9);
    }

    #[test]
    fn hotter_water_must_run_slower() {
        let speed = |degrees: f64| greatest_velocity(celsius(degrees)).map(Dimension::si);
        assert_eq!((speed(15.0), speed(55.0), speed(85.0)), (Some(2.4), Some(1.5), Some(0.9)));
        assert_eq!(speed(130.0), None);
    }
}
