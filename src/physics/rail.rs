//! The wooden rail beside and above the absorber, heated by the gap and not through the insulation.
//!
//! Lives here: the balance of the rail's inner face. Must not live here: the plate's own temperature, the limit for
//! timber, insulation behind the plate (`layers`). Stub holes and screws as thermal short-cuts are not computed.

use super::domain::{DomainError, not_negative, positive, within};
use super::radiation::STEFAN_BOLTZMANN;
use super::root::{self, Bracket};
use crate::units::si::{Dimension, HeatTransfer, Insulance, Temperature};

/// What a rail sees and how it is built.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rail {
    /// Plate temperature.
    pub plate: Temperature,
    /// Cover temperature.
    pub cover: Temperature,
    /// Air outside.
    pub ambient: Temperature,
    /// Long-wave emittance of the plate.
    pub plate_emittance: f64,
    /// Long-wave emittance of the rail's inner face (wood 0.9, bright metal facing 0.1).
    pub face_emittance: f64,
    /// Share of the face's view taken by the plate, the rest by the cover (0.5 for a rail beside the gap).
    pub view_of_plate: f64,
    /// Convection from the air of the gap to the face.
    pub convection: HeatTransfer,
    /// Lining between face and wood, zero without one.
    pub lining: Insulance,
    /// The wood of the rail.
    pub wood: Insulance,
    /// Outer face to the air.
    pub outside: Insulance,
}

/// Temperatures of a rail.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RailFaces {
    /// The face that looks into the box.
    pub inner: Temperature,
    /// The hot side of the wood: the same as `inner` without a lining.
    pub wood: Temperature,
}

/// Long-wave emittance of the cover's inner face.
const COVER_EMITTANCE: f64 = 0.88;

/// Balance of the rail's inner face.
///
/// h (T_gap − T) + ε_f σ [F ε_p (T_p⁴ − T⁴) + (1 − F) ε_c (T_c⁴ − T⁴)] = (T − T_air)/(R_lining + R_wood + R_out), the
/// air of the gap at the mean of plate and cover. Small grey faces, one reflection. An estimate of this program,
/// without an outside source; plate 100 to 300 °C in still conditions is what it is for.
pub fn rail_faces(rail: Rail) -> Result<RailFaces, DomainError> {
    let (plate, cover) =
        (positive("plate temperature", rail.plate.si())?, positive("cover temperature", rail.cover.si())?);
    let ambient = positive("air temperature", rail.ambient.si())?;
    let plate_emittance = within("emittance of the plate", rail.plate_emittance, 0.0, 1.0)?;
    let face_emittance = within("emittance of the face", rail.face_emittance, 0.0, 1.0)?;
    let view = within("view of the plate", rail.view_of_plate, 0.0, 1.0)?;
    let convection = positive("convection in the gap", rail.convection.si())?;
    let lining = not_negative("resistance of the lining", rail.lining.si())?;
    let beyond =
        not_negative("resistance of the wood", rail.wood.si())? + positive("outer resistance", rail.outside.si())?;
    let gap = 0.5 * (plate + cover);
    let to_plate = face_emittance * STEFAN_BOLTZMANN * view * plate_emittance;
    let to_cover = face_emittance * STEFAN_BOLTZMANN * (1.0 - view) * COVER_EMITTANCE;
    let through = 1.0 / (lining + beyond);
    let gain = |face: f64| {
        convection * (gap - face)
            + to_plate * (plate.powi(4) - face.powi(4))
            + to_cover * (cover.powi(4) - face.powi(4))
            - through * (face - ambient)
    };
    let between = Bracket { low: plate.min(cover).min(ambient), high: plate.max(cover).max(ambient) };
    let unsettled = DomainError::NotSettled { what: "temperature of the rail", residual: gain(ambient) };
    let face = root::find(between, 1e-9, gain).ok_or(unsettled)?;
    let wood = ambient + through * (face - ambient) * beyond;
    Ok(RailFaces { inner: Temperature::from_si(face), wood: Temperature::from_si(wood) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::{celsius, in_celsius};

    fn black() -> Rail {
        Rail {
            plate: celsius(140.0),
            cover: celsius(65.0),
            ambient: celsius(35.0),
            plate_emittance: 0.95,
            face_emittance: 0.9,
            view_of_plate: 0.5,
            convection: HeatTransfer::from_si(3.0),
            lining: Insulance::from_si(0.0),
            wood: Insulance::from_si(0.019 / 0.12),
            outside: Insulance::from_si(0.10),
        }
    }

    /// The project's own estimate by another route: 74 to 97 °C beside a matt black plate.
    #[test]
    fn a_bare_rail_beside_a_black_plate_passes_the_long_term_limit() {
        let faces = rail_faces(black()).unwrap();
        assert!((74.0..97.0).contains(&in_celsius(faces.wood)), "{}", in_celsius(faces.wood));
        assert_eq!(faces.inner, faces.wood);
    }

    #[test]
    fn a_faced_lining_cools_the_wood() {
        let lined = Rail { lining: Insulance::from_si(0.019 / 0.04), face_emittance: 0.1, ..black() };
        let faces = rail_faces(lined).unwrap();
        assert!(in_celsius(faces.wood) < 65.0 && faces.inner > faces.wood);
    }
}
