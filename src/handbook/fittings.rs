//! Fittings as goods: cups of soldered joints, equivalent lengths, collars drawn from a header.
//!
//! What a fitting costs in pressure lives in `physics::fittings`, alloys in the table of solders.

use super::{Marks, Provenance, TableError, read};
use crate::physics::customary::{FOOT, INCH};
use crate::units::si::{Dimension, Length, Mass, Volume};
use serde::Deserialize;
use std::f64::consts::PI;
use std::sync::LazyLock;

const TABLE: (&str, &str) = ("fittings.toml", include_str!("tables/fittings.toml"));

/// Solder that fills a cubic metre: the printed masses stand for 0.2658 lb/in³.
const SOLDER_DENSITY: f64 = 0.2658 * 0.45359237 / (INCH * INCH * INCH);

/// The cup of a solder-joint fitting.
#[derive(Clone, Debug, PartialEq)]
pub struct SolderCup {
    /// Nominal size of the tube.
    pub nominal: String,
    /// Outer diameter of the tube.
    pub tube_od: Length,
    /// Depth of the cup.
    pub depth: Length,
    /// Narrowest and widest bore of the cup, where printed.
    pub bore: Option<CupBore>,
    /// Mass of solder of one joint with a gap of 0.010 in as printed; equal to the bare gap, without waste.
    pub printed_solder: Mass,
}

/// Limits of a cup's bore.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CupBore {
    /// Narrowest.
    pub least: Length,
    /// Widest.
    pub greatest: Length,
}

/// Straight tube that loses as much as a fitting.
#[derive(Clone, Debug, PartialEq)]
pub struct EquivalentLength {
    /// Nominal size of the tube.
    pub nominal: String,
    /// 90° elbow.
    pub elbow_90: Length,
    /// 45° elbow.
    pub elbow_45: Length,
    /// Tee, through its branch.
    pub tee_branch: Length,
    /// Tee, straight through; none printed for small sizes.
    pub tee_run: Option<Length>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// How much longer than the tube's wall the collar of an extruded tee must be.
const COLLAR_WALLS: f64 = 3.0;

/// Every cup.
pub fn solder_cups() -> &'static [SolderCup] {
    &goods().cups
}

/// The cup of a nominal size.
pub fn solder_cup(nominal: &str) -> Option<&'static SolderCup> {
    solder_cups().iter().find(|cup| cup.nominal == nominal.trim())
}

/// Every row of equivalent lengths.
pub fn equivalent_lengths() -> &'static [EquivalentLength] {
    &goods().equivalents
}

/// Shortest collar of a tee drawn out of a header, three walls (guide specification for extracted joints).
///
/// Such a joint is brazed, never soft-soldered; the branch is notched to the header's bore and stopped by two dimples.
pub fn least_collar(header_wall: Length) -> Length {
    header_wall * COLLAR_WALLS
}

impl SolderCup {
    /// Room between tube and cup, π d depth gap.
    pub fn gap_volume(&self, gap: Length) -> Volume {
        Volume::from_si(PI * self.tube_od.si() * self.depth.si() * gap.si())
    }

    /// Mass of solder that fills the gap all round; no waste. Twice as much is bought (common practice,
    /// no source).
    pub fn solder(&self, gap: Length) -> Mass {
        Mass::from_si(self.gap_volume(gap).si() * SOLDER_DENSITY)
    }
}

#[derive(Debug, Default)]
struct Goods {
    cups: Vec<SolderCup>,
    equivalents: Vec<EquivalentLength>,
}

fn goods() -> &'static Goods {
    static GOODS: LazyLock<Goods> = LazyLock::new(|| load().unwrap_or_default());
    &GOODS
}

#[derive(Deserialize)]
struct Tables {
    solder_cup: Section<CupRow>,
    equivalent_length: Section<LengthRow>,
}

#[derive(Deserialize)]
struct Section<Row> {
    rows: Vec<Row>,
}

#[derive(Deserialize)]
struct CupRow {
    nominal: String,
    tube_od_in: f64,
    cup_depth_in: f64,
    solder_lb_per_100_joints_at_010: f64,
    cup_id_min_in: Option<f64>,
    cup_id_max_in: Option<f64>,
}

#[derive(Deserialize)]
struct LengthRow {
    nominal: String,
    ell90_ft: f64,
    ell45_ft: f64,
    tee_branch_ft: f64,
    tee_run_ft: Option<f64>,
    #[serde(flatten)]
    marks: Marks,
}

fn load() -> Result<Goods, TableError> {
    let tables: Tables = read(TABLE.0, TABLE.1)?;
    Ok(Goods {
        cups: tables.solder_cup.rows.into_iter().map(CupRow::cup).collect(),
        equivalents: tables.equivalent_length.rows.into_iter().map(LengthRow::equivalent).collect(),
    })
}

impl CupRow {
    fn cup(self) -> SolderCup {
        let inches = |value: f64| Length::from_si(value * INCH);
        let bore = self.cup_id_min_in.zip(self.cup_id_max_in);
        SolderCup {
            nominal: self.nominal,
            tube_od: inches(self.tube_od_in),
            depth: inches(self.cup_depth_in),
            bore: bore.map(|(least, greatest)| CupBore { least: inches(least), greatest: inches(greatest) }),
            printed_solder: Mass::from_si(self.solder_lb_per_100_joints_at_010 * 0.45359237 / 100.0),
        }
    }
}

impl LengthRow {
    fn equivalent(self) -> EquivalentLength {
        let feet = |value: f64| Length::from_si(value * FOOT);
        EquivalentLength {
            nominal: self.nominal,
            elbow_90: feet(self.ell90_ft),
            elbow_45: feet(self.ell45_ft),
            tee_branch: feet(self.tee_branch_ft),
            tee_run: self.tee_run_ft.map(feet),
            provenance: self.marks.provenance(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::tube::{Standard, find};

    #[test]
    fn the_table_of_fittings_parses() {
        let goods = load().unwrap();
        assert_eq!((goods.cups.len(), goods.equivalents.len()), (11, 4));
    }

    /// Copper tube handbook, table 14.10: pounds of solder for 100 joints with a gap of 0.010 in.
    #[test]
    fn the_gap_filled_with_solder_weighs_what_the_handbook_prints() {
        for cup in solder_cups() {
            let got = cup.solder(Length::from_si(0.010 * INCH)).si();
            assert!((got / cup.printed_solder.si() - 1.0).abs() < 0.01, "{}: {got}", cup.nominal);
        }
    }

    #[test]
    fn every_cup_takes_the_tube_of_its_size() {
        for cup in solder_cups() {
            let tube = find(Standard::TypeL, &cup.nominal).unwrap();
            assert!((tube.od.si() - cup.tube_od.si()).abs() < 1e-9);
            if let Some(bore) = cup.bore {
                assert!(bore.least > tube.od && bore.greatest > bore.least);
            }
        }
    }

    #[test]
    fn a_collar_is_three_walls_long() {
        assert!((least_collar(Length::from_si(0.001)).si() - 0.003).abs() < 1e-12);
    }
}
