//! Hoses, plastic pipe and sealants: what temperature and pressure each bears.
//!
//! Whether one of them may sit where a builder put it is judged elsewhere.

use super::{Marks, Provenance, TableError, read};
use crate::physics::customary::{PSI, fahrenheit};
use crate::units::si::{Dimension, Length, Pressure, Temperature, celsius};
use serde::Deserialize;
use std::sync::LazyLock;

const TABLE: (&str, &str) = ("hose_plastics.toml", include_str!("tables/hose_plastics.toml"));

/// A kind of hose.
#[derive(Clone, Debug, PartialEq)]
pub struct Hose {
    /// Kind and, where there is one, class.
    pub name: String,
    /// Coldest it stays flexible at, where known.
    pub coldest: Option<Temperature>,
    /// Hottest it bears for good when dry or in coolant.
    pub hottest: Temperature,
    /// Hottest it bears for good in steam or hot water; the same as `hottest` unless a row says otherwise.
    pub hottest_wet: Temperature,
    /// Hottest it bears for a short time, where known.
    pub peak: Option<Temperature>,
    /// Gauge pressure it bears; the temperature of that rating is not printed, so it is no proof of a rating.
    pub pressure: Pressure,
    /// How the pressure came into the table.
    pub pressure_provenance: Provenance,
    /// What else to know.
    pub note: Option<String>,
    /// How the rest of the row came into the table.
    pub provenance: Provenance,
}

/// A kind of plastic pipe.
#[derive(Clone, Debug, PartialEq)]
pub struct PlasticPipe {
    /// Material.
    pub name: String,
    /// Hottest it may run.
    pub hottest: Temperature,
    /// Gauge pressure it bears and the temperature that goes with it, where printed.
    pub rating: Option<(Pressure, Temperature)>,
    /// What else to know.
    pub note: Option<String>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// A sealant or tape.
#[derive(Clone, Debug, PartialEq)]
pub struct Sealant {
    /// Kind.
    pub name: String,
    /// Hottest it bears for good.
    pub hottest: Temperature,
    /// What else to know.
    pub note: Option<String>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// Every kind of hose.
pub fn hoses() -> &'static [Hose] {
    &goods().hoses
}

/// The hose of this name.
pub fn hose(name: &str) -> Option<&'static Hose> {
    hoses().iter().find(|hose| hose.name == name.trim())
}

/// Every kind of plastic pipe.
pub fn plastic_pipes() -> &'static [PlasticPipe] {
    &goods().pipes
}

/// The plastic pipe of this name.
pub fn plastic_pipe(name: &str) -> Option<&'static PlasticPipe> {
    plastic_pipes().iter().find(|pipe| pipe.name == name.trim())
}

/// Every sealant.
pub fn sealants() -> &'static [Sealant] {
    &goods().sealants
}

/// Shortest length of metal pipe between a panel and the first plastic one, 2 m: a rule of this program.
pub fn metal_run_at_panel() -> Length {
    Length::from_si(2.0)
}

#[derive(Debug, Default)]
struct Goods {
    hoses: Vec<Hose>,
    pipes: Vec<PlasticPipe>,
    sealants: Vec<Sealant>,
}

fn goods() -> &'static Goods {
    static GOODS: LazyLock<Goods> = LazyLock::new(|| load().unwrap_or_default());
    &GOODS
}

#[derive(Deserialize)]
struct Tables {
    hose: Section<HoseRow>,
    pipe: Section<PipeRow>,
    sealant: Section<SealantRow>,
}

#[derive(Deserialize)]
struct Section<Row> {
    rows: Vec<Row>,
}

#[derive(Deserialize)]
struct HoseRow {
    name: String,
    min_c: Option<f64>,
    max_c: f64,
    max_wet_c: Option<f64>,
    peak_c: Option<f64>,
    p_max_bar: f64,
    #[serde(default)]
    p_memory: bool,
    note: Option<String>,
    #[serde(flatten)]
    marks: Marks,
}

#[derive(Deserialize)]
struct PipeRow {
    name: String,
    max_c: f64,
    p_psi: Option<f64>,
    at_f: Option<f64>,
    note: Option<String>,
    #[serde(flatten)]
    marks: Marks,
}

#[derive(Deserialize)]
struct SealantRow {
    name: String,
    max_c: f64,
    note: Option<String>,
    #[serde(flatten)]
    marks: Marks,
}

fn load() -> Result<Goods, TableError> {
    let tables: Tables = read(TABLE.0, TABLE.1)?;
    Ok(Goods {
        hoses: tables.hose.rows.into_iter().map(HoseRow::hose).collect(),
        pipes: tables.pipe.rows.into_iter().map(PipeRow::pipe).collect(),
        sealants: tables.sealant.rows.into_iter().map(SealantRow::sealant).collect(),
    })
}

impl HoseRow {
    fn hose(self) -> Hose {
        let provenance = self.marks.provenance();
        Hose {
            name: self.name,
            coldest: self.min_c.map(celsius),
            hottest: celsius(self.max_c),
            hottest_wet: celsius(self.max_wet_c.unwrap_or(self.max_c)),
            peak: self.peak_c.map(celsius),
            pressure: Pressure::from_si(self.p_max_bar * 1e5),
            pressure_provenance: if self.p_memory { Provenance::Recalled } else { provenance },
            note: self.note,
            provenance,
        }
    }
}

impl PipeRow {
    fn pipe(self) -> PlasticPipe {
        let rating = self.p_psi.zip(self.at_f);
        PlasticPipe {
            name: self.name,
            hottest: celsius(self.max_c),
            rating: rating.map(|(psi, f)| (Pressure::from_si(psi * PSI), fahrenheit(f))),
            note: self.note,
            provenance: self.marks.provenance(),
        }
    }
}

impl SealantRow {
    fn sealant(self) -> Sealant {
        Sealant { name: self.name, hottest: celsius(self.max_c), note: self.note, provenance: self.marks.provenance() }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::in_celsius;

    #[test]
    fn the_table_of_hoses_and_plastics_parses() {
        let goods = load().unwrap();
        assert_eq!((goods.hoses.len(), goods.pipes.len(), goods.sealants.len()), (6, 5, 6));
    }

    #[test]
    fn silicone_bears_less_in_steam_than_dry() {
        let hose = hose("silicone coolant hose (SAE J20 class A)").unwrap();
        assert!((in_celsius(hose.hottest) - 175.0).abs() < 1e-9);
        assert!((in_celsius(hose.hottest_wet) - 120.0).abs() < 1e-9);
        assert_eq!(hose.provenance, Provenance::Recalled);
    }

    /// 100 psi at 180 °F: a pipe association's page.
    #[test]
    fn pex_is_rated_at_a_temperature() {
        let (pressure, temperature) = plastic_pipe("PEX (ASTM F876)").and_then(|pipe| pipe.rating).unwrap();
        assert!((pressure.si() / 689475.7 - 1.0).abs() < 1e-6);
        assert!((in_celsius(temperature) - 82.2).abs() < 0.03);
    }

    #[test]
    fn every_printed_wet_limit_is_at_most_the_dry_one() {
        for hose in hoses() {
            assert!(hose.hottest_wet <= hose.hottest, "{}", hose.name);
        }
    }
}
