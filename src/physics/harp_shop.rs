//! Bench geometry of a harp: hole rows, risers in plain drilled headers, cuts between fittings, solder of cups.
//!
//! The sheet's solder line lives in `fillet`, the plan of cutting bars elsewhere. Limits on these figures are checks
//! and do not live here.

use super::domain::{DomainError, not_negative, positive, within};
use crate::units::si::{Dimension, Length, Volume};
use std::f64::consts::PI;

/// One sixteenth of an inch, m.
const SIXTEENTH: f64 = 0.0254 / 16.0;

/// Risers spread evenly over a sheet, half a pitch at each edge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EvenRow {
    /// Width of the sheet.
    pub sheet_width: Length,
    /// The pitch that is wished for.
    pub wished_pitch: Length,
}

impl EvenRow {
    /// Number of risers, the sheet's width over the wished pitch rounded and at least one, and the pitch that follows.
    pub fn risers(&self) -> Result<(usize, Length), DomainError> {
        let width = positive("sheet_width", self.sheet_width.si())?;
        let wished = positive("wished_pitch", self.wished_pitch.si())?;
        let count = within("number of risers", (width / wished).round().max(1.0), 1.0, 1000.0)?;
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole and within 1 to 1000")]
        Ok((count as usize, self.sheet_width / count))
    }
}

/// A row of holes along a header, marked from one end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoleRow {
    /// Distance from the datum end to the first hole.
    pub first: Length,
    /// Distance between holes.
    pub pitch: Length,
    /// Number of holes.
    pub count: usize,
}

/// A hole's place on the rule.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hole {
    /// Distance from the datum end.
    pub position: Length,
    /// The same on an inch rule, whole sixteenths.
    pub sixteenths: u32,
}

impl Hole {
    /// A position rounded to the nearest sixteenth of an inch, halves upward.
    fn at(metres: f64) -> Result<Self, DomainError> {
        let sixteenths = within("hole position", (metres / SIXTEENTH + 0.5).floor(), 0.0, 1e6)?;
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole and within 0 to 1e6")]
        Ok(Self { position: Length::from_si(metres), sixteenths: sixteenths as u32 })
    }

    /// What the inch rule shows more than the true place; at most 1/32 in.
    pub fn rule_error(&self) -> Length {
        Length::from_si(f64::from(self.sixteenths) * SIXTEENTH) - self.position
    }
}

impl HoleRow {
    /// The row in the middle of a header: the first hole at (length − (n − 1) pitch)/2.
    ///
    /// Refused when the row is longer than the header.
    pub fn centred(header_length: Length, row: Self) -> Result<Self, DomainError> {
        let rest = header_length.si() - row.run()?;
        let first = not_negative("header_length beyond the row of holes", rest)? / 2.0;
        Ok(Self { first: Length::from_si(first), ..row })
    }

    /// The holes as running dimensions from the datum end, each rounded by itself so that no error adds up.
    pub fn holes(&self) -> Result<Vec<Hole>, DomainError> {
        self.run()?;
        let first = not_negative("first hole", self.first.si())?;
        (0..self.count).map(|i| Hole::at(first + i as f64 * self.pitch.si())).collect()
    }

    /// Where the last hole would lie off its place if a pitch rounded to sixteenths were stepped from the first hole.
    pub fn stepping_error(&self) -> Result<Length, DomainError> {
        self.run()?;
        let step = Hole::at(self.pitch.si())?;
        let last = self.count as f64 - 1.0;
        Ok(Hole::at(self.first.si())?.rule_error() + step.rule_error() * last)
    }

    /// From the first hole to the last, m.
    fn run(&self) -> Result<f64, DomainError> {
        let pitch = positive("riser_pitch", self.pitch.si())?;
        let count = within("number of holes", self.count as f64, 1.0, 1000.0)?;
        Ok((count - 1.0) * pitch)
    }
}

/// A square-cut riser in a plain hole of a header, axes crossing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RiserInHeader {
    /// Outer diameter of the header, 2Ro.
    pub header_outer_diameter: Length,
    /// Bore of the header, 2Ri.
    pub header_bore: Length,
    /// Outer diameter of the riser, 2r.
    pub riser_outer_diameter: Length,
}

/// A riser pushed a given way into its header.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Insertion {
    /// Depth s from the header's crown.
    pub depth: Length,
    /// Whether the square end has reached the inner wall all round.
    pub full_bite: bool,
    /// Share of the header's bore that the riser hides.
    pub blockage: f64,
    /// How far the riser stands into the bore at the crown.
    pub protrusion: Length,
}

impl RiserInHeader {
    /// Least insertion s_min = Ro − √(Ri² − r²), where the square end has passed the wall all round.
    ///
    /// Exact geometry, own derivation. The riser must be narrower than the header's bore.
    pub fn least_insertion(&self) -> Result<Length, DomainError> {
        let [outer, inner, riser] = self.radii()?;
        Ok(Length::from_si(outer - (inner * inner - riser * riser).sqrt()))
    }

    /// What an insertion of `depth` s does; s from 0 to the header's axis.
    ///
    /// Blockage \[w √(Ri² − w²) + Ri² asin(w/Ri) − 2 w y\]/(π Ri²), y = Ro − s, w = min(r, √(Ri² − y²)); 0 while the
    /// end is still in the wall. Exact geometry, own derivation.
    pub fn inserted(&self, depth: Length) -> Result<Insertion, DomainError> {
        let [outer, inner, riser] = self.radii()?;
        let s = within("insertion", depth.si(), 0.0, outer)?;
        let y = outer - s;
        let w = riser.min((inner * inner - y * y).max(0.0).sqrt());
        let hidden = w * (inner * inner - w * w).sqrt() + inner * inner * (w / inner).asin() - 2.0 * w * y;
        let full = outer - (inner * inner - riser * riser).sqrt();
        Ok(Insertion {
            depth,
            full_bite: s >= full * (1.0 - 1e-12),
            blockage: hidden.max(0.0) / (PI * inner * inner),
            protrusion: Length::from_si((inner - y).max(0.0)),
        })
    }

    /// Length a riser is cut to: header centre distance − header outer diameter + 2 s.
    pub fn cut_length(&self, centre_distance: Length, insertion: &Insertion) -> Result<Length, DomainError> {
        let cut = centre_distance - self.header_outer_diameter + insertion.depth * 2.0;
        positive("riser cut length", cut.si()).map(Length::from_si)
    }

    /// Ro, Ri, r in m.
    fn radii(&self) -> Result<[f64; 3], DomainError> {
        let outer = positive("header_outer_diameter", self.header_outer_diameter.si())? / 2.0;
        let inner = positive("header_bore", self.header_bore.si())? / 2.0;
        let riser = positive("riser_outer_diameter", self.riser_outer_diameter.si())? / 2.0;
        within("header_bore", 2.0 * inner, 0.0, 2.0 * outer)?;
        within("riser_outer_diameter", 2.0 * riser, 0.0, 2.0 * inner)?;
        Ok([outer, inner, riser])
    }
}

/// A tee with cups.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TeeFitting {
    /// From the tee's centre to the shoulder inside a cup.
    pub centre_to_shoulder: Length,
    /// Outer diameter of the tube that goes into the cup.
    pub tube_outer_diameter: Length,
    /// Depth of the cup.
    pub cup_depth: Length,
}

impl TeeFitting {
    /// Tube between two tees whose centres lie `distance` apart: distance − 2 × centre to shoulder.
    ///
    /// The riser for the distance of the headers, the stub of header for the pitch.
    pub fn cut_length(&self, distance: Length) -> Result<Length, DomainError> {
        not_negative("centre_to_shoulder", self.centre_to_shoulder.si())?;
        positive("cut length between tees", (distance - self.centre_to_shoulder * 2.0).si()).map(Length::from_si)
    }

    /// Filler in one cup, π · outer diameter · depth · `clearance`.
    ///
    /// Half the 0.010 in of the handbook's column (Copper Tube Handbook, Table 14.10) is an ordinary joint; the
    /// handbook allows the double for waste.
    pub fn filler(&self, clearance: Length) -> Result<Volume, DomainError> {
        positive("tube_outer_diameter", self.tube_outer_diameter.si())?;
        positive("cup_depth", self.cup_depth.si())?;
        positive("clearance", clearance.si())?;
        Ok(self.tube_outer_diameter * self.cup_depth * clearance * PI)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(value: f64) -> Length {
        Length::from_si(value / 1000.0)
    }

    #[test]
    fn hole_positions_never_accumulate_rounding() {
        for tenth in 600..1600 {
            let row = HoleRow { first: mm(37.3), pitch: mm(f64::from(tenth) / 10.0), count: 30 };
            for hole in row.holes().unwrap() {
                assert!(hole.rule_error().si().abs() <= SIXTEENTH / 2.0 + 1e-12);
            }
        }
    }

    #[test]
    fn an_even_row_fills_its_sheet() {
        let (count, pitch) = EvenRow { sheet_width: mm(1000.0), wished_pitch: mm(120.0) }.risers().unwrap();
        assert_eq!(count, 8);
        assert!((pitch.si() - 0.125).abs() < 1e-12);
        assert_eq!(EvenRow { sheet_width: mm(50.0), wished_pitch: mm(120.0) }.risers().unwrap().0, 1);
        assert!(EvenRow { sheet_width: mm(50.0), wished_pitch: mm(0.0) }.risers().is_err());
    }

    #[test]
    fn a_row_longer_than_its_header_is_refused() {
        let row = HoleRow { first: mm(0.0), pitch: mm(120.0), count: 10 };
        assert!(HoleRow::centred(mm(1000.0), row).is_err());
        assert!(HoleRow { count: 0, ..row }.holes().is_err());
        assert!(HoleRow { pitch: mm(f64::NAN), ..row }.holes().is_err());
    }

    #[test]
    fn a_riser_only_in_the_wall_hides_nothing_and_one_to_the_axis_at_most_half() {
        let joint =
            RiserInHeader { header_outer_diameter: mm(22.0), header_bore: mm(20.2), riser_outer_diameter: mm(15.0) };
        assert!(joint.inserted(mm(0.5)).unwrap().blockage < 1e-15);
        let mut before = 0.0;
        for tenth in 0..=110 {
            let here = joint.inserted(mm(f64::from(tenth) / 10.0)).unwrap();
            assert!(here.blockage >= before && here.blockage < 0.5);
            assert_eq!(here.full_bite, here.depth >= joint.least_insertion().unwrap());
            before = here.blockage;
        }
        assert!(joint.inserted(mm(12.0)).is_err());
        assert!(RiserInHeader { riser_outer_diameter: mm(21.0), ..joint }.least_insertion().is_err());
    }

    #[test]
    fn tees_that_overlap_leave_no_stub() {
        let tee = TeeFitting { centre_to_shoulder: mm(11.5), tube_outer_diameter: mm(22.0), cup_depth: mm(15.0) };
        assert!(tee.cut_length(mm(20.0)).is_err());
    }
}
