//! Folded sheet metal: how long the flat strip is.
//!
//! Only the arc of a bend lives here; profiles and their legs are put together in the stages.

use super::domain::{DomainError, positive, within};
use crate::units::si::{Angle, Dimension, Length};

/// Place of the neutral fibre in the thickness for soft sheet bent sharply over a bar (from memory: 0.33 to 0.5).
pub const K_FACTOR: f64 = 0.42;

/// A bend.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bend {
    /// Angle that the strip is turned by, 0 to 180°.
    pub angle: Angle,
    /// Radius inside; 0 for a closed hem.
    pub inside_radius: Length,
    /// Thickness of the sheet.
    pub thickness: Length,
}

impl Bend {
    /// Length of the neutral fibre in the bend, A (r + K t), A in radians, K = [`K_FACTOR`] (shop formula, from memory).
    pub fn allowance(&self) -> Result<Length, DomainError> {
        let angle = within("angle of the bend", self.angle.si(), 0.0, std::f64::consts::PI)?;
        let radius = within("inside radius", self.inside_radius.si(), 0.0, 1.0)?;
        let thickness = positive("thickness of the sheet", self.thickness.si())?;
        Ok(Length::from_si(angle * (radius + K_FACTOR * thickness)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A neutral fibre between inner and outer face: its arc is longer than the inner one and shorter than the outer.
    #[test]
    fn the_neutral_fibre_lies_between_the_faces() {
        let quarter = std::f64::consts::FRAC_PI_2;
        let bend = |radius: f64| Bend {
            angle: Angle::from_si(quarter),
            inside_radius: Length::from_si(radius),
            thickness: Length::from_si(0.001),
        };
        let arc = bend(0.002).allowance().unwrap().si();
        assert!(quarter * 0.002 < arc && arc < quarter * 0.003);
        assert!(bend(-0.001).allowance().is_err());
    }
}
