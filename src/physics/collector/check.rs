//! What a collector and its conditions must be before a balance is tried.
//!
//! Only the admission of numbers lives here; whether a design is wise does not.

use super::{Collector, CollectorError, Insulation, Stream, Surroundings};
use crate::physics::domain::{DomainError, finite, not_negative, positive, within};
use crate::physics::fluid::Fluid;
use crate::units::si::{Dimension, Ratio};
use std::f64::consts::FRAC_PI_2;

/// Most risers of one harp: its flows are found with a matrix of the square of this number.
const MOST_RISERS: f64 = 200.0;
/// Sizes of parts that are taken, m.
const SIZES: (f64, f64) = (1e-6, 1000.0);
/// Thickest cover, m, and strongest extinction, 1/m: beyond them no light is left to speak of.
const DARKEST_COVER: (f64, f64) = (0.1, 1000.0);

impl Collector {
    /// Refuses a collector whose numbers are impossible, naming the first field that is.
    pub fn check(&self) -> Result<(), CollectorError> {
        within("riser_count", self.riser_count as f64, 1.0, MOST_RISERS)?;
        self.check_sizes()?;
        self.check_surfaces()?;
        self.back.check(["back.thickness", "back.conductivity", "back.temperature_factor", "back.board"])?;
        self.edge.check(["edge.thickness", "edge.conductivity", "edge.temperature_factor", "edge.board"])?;
        within("tilt", self.tilt.si(), 0.0, FRAC_PI_2 + 1e-9)?;
        within("altitude", self.altitude.si(), -500.0, 9000.0)?;
        not_negative("harp.riser_loss", self.harp.riser_loss)?;
        not_negative("harp.dividing_momentum", self.harp.dividing_momentum)?;
        not_negative("harp.combining_momentum", self.harp.combining_momentum)?;
        Ok(())
    }

    fn check_sizes(&self) -> Result<(), CollectorError> {
        let sizes = [
            ("riser_pitch", self.riser_pitch),
            ("riser_length", self.riser_length),
            ("riser_outer_diameter", self.riser_outer_diameter),
            ("riser_bore", self.riser_bore),
            ("header_outer_diameter", self.header_outer_diameter),
            ("header_bore", self.header_bore),
            ("header_length", self.header_length),
            ("sheet_thickness", self.sheet_thickness),
            ("edge_width", self.edge_width),
            ("bond.width", self.bond.width),
            ("bond.thickness", self.bond.thickness),
        ];
        for (field, size) in sizes {
            within(field, positive(field, size.si())?, SIZES.0, SIZES.1)?;
        }
        not_negative("fin_base", self.fin_base.si())?;
        not_negative("edge_height", self.edge_height.si())?;
        positive("gross_area", self.gross_area.si())?;
        let row = self.riser_pitch * ((self.riser_count as f64 - 1.0) * (1.0 - 1e-9));
        let relations = [
            ("riser_pitch", "wider than fin_base", self.riser_pitch > self.fin_base),
            ("edge_width", "at least half of fin_base", self.edge_width * 2.0 >= self.fin_base),
            ("riser_bore", "smaller than riser_outer_diameter", self.riser_bore < self.riser_outer_diameter),
            ("header_bore", "smaller than header_outer_diameter", self.header_bore < self.header_outer_diameter),
            ("header_bore", "larger than riser_bore", self.header_bore > self.riser_bore),
            ("header_length", "long enough for its risers", self.header_length >= row),
            ("gross_area", "at least the absorber's area", self.gross_area * (1.0 + 1e-9) >= self.absorber_area()),
        ];
        match relations.into_iter().find(|relation| !relation.2) {
            Some((field, relation, _)) => Err(contradiction(field, relation)),
            None => Ok(()),
        }
    }

    fn check_surfaces(&self) -> Result<(), CollectorError> {
        positive("tube_conductivity", self.tube_conductivity.si())?;
        positive("sheet_conductivity", self.sheet_conductivity.si())?;
        positive("bond.conductivity", self.bond.conductivity.si())?;
        fraction("bond.soldered_fraction", self.bond.soldered_fraction)?;
        fraction("absorptance", self.absorptance)?;
        fraction("emittance", self.emittance)?;
        if let Some(cover) = self.cover {
            within("cover.refractive_index", cover.refractive_index, 1.0, 4.0)?;
            within("cover.extinction", cover.extinction, 0.0, DARKEST_COVER.1)?;
            within("cover.thickness", positive("cover.thickness", cover.thickness.si())?, 0.0, DARKEST_COVER.0)?;
            fraction("cover.emittance", cover.emittance)?;
            positive("cover.gap", cover.gap.si())?;
        }
        Ok(())
    }
}

impl Insulation {
    /// `names` stand for thickness, conductivity, temperature factor and board with outer face.
    fn check(&self, names: [&'static str; 4]) -> Result<(), CollectorError> {
        not_negative(names[0], self.thickness.si())?;
        positive(names[1], self.conductivity_at_ten.si())?;
        within(names[2], self.temperature_factor, -0.02, 0.02)?;
        not_negative(names[3], self.board_thickness.si())?;
        if self.board_thickness.si() > 0.0 {
            positive(names[3], self.board_conductivity.si())?;
        }
        not_negative(names[3], self.outside_resistance.si())?;
        let resistance = self.thickness.si() + self.board_thickness.si() + self.outside_resistance.si();
        if resistance > 0.0 { Ok(()) } else { Err(contradiction(names[0], "above zero when nothing else insulates")) }
    }
}

impl Surroundings {
    pub(super) fn check(&self) -> Result<(), CollectorError> {
        within("ambient", self.ambient.si(), 150.0, 400.0)?;
        within("sky", self.sky.si(), 100.0, 400.0)?;
        not_negative("wind", self.wind.si())?;
        Ok(())
    }
}

impl Stream {
    pub(super) fn check(&self) -> Result<(), CollectorError> {
        positive("mass_flow", self.mass_flow.si())?;
        check_fluid(self.fluid)
    }
}

/// Refuses a mixture beyond the glycol data.
pub(super) fn check_fluid(fluid: Fluid) -> Result<(), CollectorError> {
    if let Fluid::PropyleneGlycol { mass_fraction } = fluid {
        within("fluid mass_fraction", mass_fraction, 0.0, 0.6)?;
    }
    Ok(())
}

fn fraction(field: &'static str, value: Ratio) -> Result<(), CollectorError> {
    positive(field, value.si())?;
    within(field, value.si(), 0.0, 1.0)?;
    Ok(())
}

pub(super) fn contradiction(field: &'static str, relation: &'static str) -> CollectorError {
    CollectorError::Contradiction { field, relation }
}

/// The error of a balance that did not settle.
pub(super) fn not_settled(what: &'static str, residual: f64) -> CollectorError {
    CollectorError::Domain(match finite("residual", residual) {
        Ok(residual) => DomainError::NotSettled { what, residual },
        Err(error) => error,
    })
}
