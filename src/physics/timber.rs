//! Movement of timber with its moisture.
//!
//! Lives here: swelling and shrinkage across the grain. Must not live here: species (`handbook`), growth with
//! temperature (`expansion`), heat limits.

use super::domain::{DomainError, positive, within};
use crate::units::si::{Dimension, Length};

/// Moisture contents, percent of dry mass, before and after.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MoistureChange {
    /// When the part was cut.
    pub from_percent: f64,
    /// What it comes to.
    pub to_percent: f64,
}

/// Change of a dimension across the grain, ΔD = D C (M₂ − M₁), negative for shrinkage.
///
/// C is the radial or tangential coefficient of the species, 1/%. For 6 to 14 % moisture. Wood Handbook, FPL-GTR-190,
/// table 13-5 (verified for hardwoods). Along the grain the movement is neglected.
pub fn movement(dimension: Length, coefficient: f64, change: MoistureChange) -> Result<Length, DomainError> {
    let size = positive("dimension", dimension.si())?;
    within("coefficient of movement", coefficient, 0.0, 0.01)?;
    within("moisture before, %", change.from_percent, 6.0, 14.0)?;
    within("moisture after, %", change.to_percent, 6.0, 14.0)?;
    Ok(Length::from_si(size * coefficient * (change.to_percent - change.from_percent)))
}

/// Total shrinkage of a species, green to dry.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TotalShrinkage {
    /// S, percent of the green dimension.
    pub percent: f64,
    /// Fibre saturation f, percent of moisture.
    pub fibre_saturation_percent: f64,
}

/// Coefficient of movement from the total shrinkage, C = (S/f)/(1 − S (f − 10)/f), S as a fraction.
///
/// Refers the change to the dimension at 10 % moisture. Reproduces the Wood Handbook's table 13-5 from its table 4-3.
pub fn coefficient(total: TotalShrinkage) -> Result<f64, DomainError> {
    let shrinkage = within("total shrinkage, %", total.percent, 0.0, 20.0)? / 100.0;
    let saturation = within("fibre saturation, %", total.fibre_saturation_percent, 15.0, 40.0)?;
    Ok(shrinkage / saturation / (1.0 - shrinkage * (saturation - 10.0) / saturation))
}

/// Shrinkage of dressed softwood from green, percent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LumberShrinkage {
    /// Of the width.
    pub width_percent: f64,
    /// Of the thickness.
    pub thickness_percent: f64,
}

/// Shrinkage of PS 20 lumber from green (28 %) to a moisture M: 6.031 − 0.215 M of the width, 5.062 − 0.181 M of the
/// thickness, percent; M from 8 to 19 %. FPL-RP-489 (verified abstract).
pub fn lumber_shrinkage(moisture_percent: f64) -> Result<LumberShrinkage, DomainError> {
    let moisture = within("moisture, %", moisture_percent, 8.0, 19.0)?;
    Ok(LumberShrinkage { width_percent: 6.031 - 0.215 * moisture, thickness_percent: 5.062 - 0.181 * moisture })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drying_board_shrinks() {
        let change = MoistureChange { from_percent: 12.0, to_percent: 6.0 };
        let moved = movement(Length::from_si(0.14), 0.00259, change).unwrap();
        assert!((moved.si() + 0.002176).abs() < 1e-6);
        let wet = MoistureChange { from_percent: 28.0, to_percent: 10.0 };
        assert!(movement(Length::from_si(0.14), 0.00259, wet).is_err());
    }
}
