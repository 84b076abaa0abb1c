//! What a tube may bear: rated working pressure by temper and temperature.
//!
//! Sizes live in `tube`. Joints are weaker than tube and live in the table of solders.

use super::tube::{Standard, TABLE, TubeSize, all};
use super::{TableError, read};
use crate::physics::customary::{PSI, fahrenheit};
use crate::physics::tube_pressure::{RatedTube, rated_pressure};
use crate::units::si::{Dimension, Length, Pressure, Temperature, in_celsius};
use serde::Deserialize;
use std::sync::LazyLock;

/// Temper of the tube as it is used. A brazed or torch-heated tube is annealed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Temper {
    /// Soft, or made soft by heat.
    Annealed,
    /// Hard as drawn.
    Drawn,
}

/// A row of allowable stress after ASME B31.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AllowableStress {
    /// Up to this temperature.
    pub temperature: Temperature,
    /// Of annealed copper.
    pub annealed: Pressure,
    /// Of drawn copper.
    pub drawn: Pressure,
}

/// Allowable stresses, coolest first.
pub fn allowable_stresses() -> &'static [AllowableStress] {
    static ROWS: LazyLock<Vec<AllowableStress>> = LazyLock::new(|| load().unwrap_or_default());
    &ROWS
}

impl Temper {
    /// Allowable stress: that of the next higher temperature in the table, which is on the cautious side.
    ///
    /// None above 400 °F (204 °C).
    pub fn allowable_stress(self, temperature: Temperature) -> Option<Pressure> {
        let degrees = in_celsius(temperature);
        let row = allowable_stresses().iter().find(|row| degrees <= in_celsius(row.temperature) + 1e-6)?;
        Some(if self == Self::Annealed { row.annealed } else { row.drawn })
    }
}

impl TubeSize {
    /// Rated working pressure by [`rated_pressure`] with the stress of [`Temper::allowable_stress`].
    ///
    /// None for standards whose tolerances are not in the table, and above 400 °F (204 °C).
    pub fn rated_pressure(&self, temper: Temper, temperature: Temperature) -> Option<Pressure> {
        let tolerance = self.od_tolerance?;
        let tube = RatedTube {
            outside_diameter: self.od,
            wall: self.wall,
            diameter_tolerance: if temper == Temper::Annealed { tolerance.annealed } else { tolerance.drawn },
            wall_tolerance: self.wall_tolerance?,
        };
        rated_pressure(tube, temper.allowable_stress(temperature)?).ok()
    }
}

/// Highest pressure to 65 °C that a maker's page prints for an EN 1057 size in the temper it is sold in.
///
/// Brazed or annealed tube (R220) bears less.
pub fn printed_pressure_to_65_celsius(size: &TubeSize) -> Option<Pressure> {
    static ROWS: LazyLock<Vec<EuropeanRow>> = LazyLock::new(|| load_european().unwrap_or_default());
    let same = |millimetres: f64, length: Length| (millimetres * 1e-3 - length.si()).abs() < 1e-9;
    if size.standard != Standard::En1057 {
        return None;
    }
    let row = ROWS.iter().find(|row| same(row.od_mm, size.od) && same(row.wall_mm, size.wall))?;
    Some(Pressure::from_si(row.p_max_bar_65c * 1e5))
}

/// Highest pressure at 150 °F (65.6 °C), annealed, that a gas data sheet prints for refrigeration tube (ASTM B280).
pub fn printed_pressure_at_150_fahrenheit(size: &TubeSize) -> Option<Pressure> {
    static ROWS: LazyLock<Vec<RefrigerationRow>> = LazyLock::new(|| load_refrigeration().unwrap_or_default());
    if size.standard != Standard::Refrigeration {
        return None;
    }
    let row = ROWS.iter().find(|row| row.size_od == size.nominal)?;
    Some(Pressure::from_si(row.p_150f_psi * PSI))
}

/// A temper of EN 1057 tube.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "EuropeanTemperRow")]
pub struct EuropeanTemper {
    /// Designation, `R250`.
    pub designation: String,
    /// In a word.
    pub word: String,
    /// Least tensile strength.
    pub least_strength: Pressure,
    /// Least elongation at breakage, as a fraction.
    pub least_elongation: f64,
}

/// The tempers of EN 1057, softest first (maker's page).
pub fn european_tempers() -> &'static [EuropeanTemper] {
    static ROWS: LazyLock<Vec<EuropeanTemper>> = LazyLock::new(|| load_tempers().unwrap_or_default());
    &ROWS
}

/// The thinnest tube of a standard type, used where only a nominal is known.
pub fn weakest(nominal: &str) -> Option<&'static TubeSize> {
    let inch = [Standard::TypeK, Standard::TypeL, Standard::TypeM];
    let same = all().iter().filter(|size| inch.contains(&size.standard) && size.nominal == nominal);
    same.min_by(|a, b| a.wall.si().total_cmp(&b.wall.si()))
}

#[derive(Deserialize)]
struct StressTables {
    allowable_stress: Section<StressRow>,
}

#[derive(Deserialize)]
struct EuropeanTables {
    en1057_pressure: Section<EuropeanRow>,
}

#[derive(Deserialize)]
struct RefrigerationTables {
    b280_acr: Section<RefrigerationRow>,
}

#[derive(Deserialize)]
struct TemperTables {
    en1057_temper: Section<EuropeanTemper>,
}

#[derive(Deserialize)]
struct Section<Row> {
    rows: Vec<Row>,
}

#[derive(Deserialize)]
struct StressRow {
    temp_f: f64,
    annealed_psi: f64,
    drawn_psi: f64,
}

#[derive(Debug, Deserialize)]
struct EuropeanRow {
    od_mm: f64,
    wall_mm: f64,
    p_max_bar_65c: f64,
}

#[derive(Debug, Deserialize)]
struct RefrigerationRow {
    size_od: String,
    p_150f_psi: f64,
}

#[derive(Deserialize)]
struct EuropeanTemperRow {
    temper: String,
    name: String,
    rm_min_mpa: f64,
    elong_min_pct: f64,
}

impl From<EuropeanTemperRow> for EuropeanTemper {
    fn from(row: EuropeanTemperRow) -> Self {
        Self {
            designation: row.temper,
            word: row.name,
            least_strength: Pressure::from_si(row.rm_min_mpa * 1e6),
            least_elongation: row.elong_min_pct / 100.0,
        }
    }
}

fn load() -> Result<Vec<AllowableStress>, TableError> {
    let tables: StressTables = read(TABLE.0, TABLE.1)?;
    let row = |row: StressRow| AllowableStress {
        temperature: fahrenheit(row.temp_f),
        annealed: Pressure::from_si(row.annealed_psi * PSI),
        drawn: Pressure::from_si(row.drawn_psi * PSI),
    };
    Ok(tables.allowable_stress.rows.into_iter().map(row).collect())
}

fn load_european() -> Result<Vec<EuropeanRow>, TableError> {
    let tables: EuropeanTables = read(TABLE.0, TABLE.1)?;
    Ok(tables.en1057_pressure.rows)
}

fn load_refrigeration() -> Result<Vec<RefrigerationRow>, TableError> {
    let tables: RefrigerationTables = read(TABLE.0, TABLE.1)?;
    Ok(tables.b280_acr.rows)
}

fn load_tempers() -> Result<Vec<EuropeanTemper>, TableError> {
    let tables: TemperTables = read(TABLE.0, TABLE.1)?;
    Ok(tables.en1057_temper.rows)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::tube::tube;
    use crate::units::si::celsius;

    #[test]
    fn the_stress_tables_parse_and_fall_with_temperature() {
        let rows = load().unwrap();
        assert_eq!(rows.len(), 7);
        assert!(rows.windows(2).all(|pair| pair[0].temperature < pair[1].temperature));
        assert!(rows.windows(2).all(|pair| pair[0].annealed >= pair[1].annealed && pair[0].drawn >= pair[1].drawn));
        assert_eq!(load_european().unwrap().len(), 14);
        assert_eq!((load_refrigeration().unwrap().len(), load_tempers().unwrap().len()), (10, 3));
    }

    /// Copper tube handbook, rated working pressure at 150 °F annealed: type L 3/8 to 1 in, and type K from a maker's
    /// data sheet.
    #[test]
    fn rated_pressures_are_the_printed_ones() {
        for (name, psi) in [
            ("3/8 in type L", 662.0),
            ("1/2 in type L", 613.0),
            ("3/4 in type L", 495.0),
            ("1 in type L", 420.0),
            ("1/2 in type K", 758.0),
            ("3/4 in type K", 724.0),
            ("1 in type K", 557.0),
        ] {
            let got = tube(name).unwrap().rated_pressure(Temper::Annealed, fahrenheit(150.0)).unwrap().si() / PSI;
            assert!((got - psi).abs() < 1.0, "{name}: {got}");
        }
    }

    /// Every row of the embedded table of rated pressures, type M of which stands in the handbook as printed.
    #[test]
    fn every_tabled_rating_follows_from_the_formula() {
        let table: toml::Table = read(TABLE.0, TABLE.1).unwrap();
        let section = &table["rated_pressure"];
        let integers = |value: &toml::Value| -> Vec<f64> {
            value.as_array().unwrap().iter().map(|v| v.as_integer().unwrap() as f64).collect()
        };
        let temperatures = integers(&section["temps_f"]);
        for row in section["rows"].as_array().unwrap() {
            let name = format!("{} in type {}", row["nominal"].as_str().unwrap(), row["type"].as_str().unwrap());
            let size = tube(&name).unwrap();
            for (temper, key) in [(Temper::Annealed, "annealed_psi"), (Temper::Drawn, "drawn_psi")] {
                for (degrees, psi) in temperatures.iter().zip(integers(&row[key])) {
                    let got = size.rated_pressure(temper, fahrenheit(*degrees)).unwrap().si() / PSI;
                    assert!((got - psi).abs() < 1.0, "{name} {key} {degrees}: {got} against {psi}");
                }
            }
        }
    }

    #[test]
    fn hotter_than_the_table_nothing_is_promised() {
        let size = tube("1/2 in type M").unwrap();
        assert_eq!(size.rated_pressure(Temper::Annealed, celsius(210.0)), None);
        assert!(
            size.rated_pressure(Temper::Annealed, celsius(150.0))
                < size.rated_pressure(Temper::Annealed, celsius(20.0))
        );
    }

    #[test]
    fn the_weakest_half_inch_tube_is_type_m() {
        assert_eq!(weakest("1/2").map(|size| size.standard), Some(Standard::TypeM));
        let european = tube("22 x 0.9 mm EN 1057").and_then(printed_pressure_to_65_celsius);
        assert!(european.is_some_and(|pressure| (pressure.si() - 51e5).abs() < 1.0));
    }
}
