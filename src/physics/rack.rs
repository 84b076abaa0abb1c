//! A free-standing rack in the wind: overturning and sliding.
//!
//! Only the balance of a rigid rack lives here. Soil bearing, frost heave, earthquake and the rack's own strength are
//! not computed. Screening only: a ground rack is anchored, not just weighed down.

use super::domain::{DomainError, positive, within};
use crate::units::si::{Dimension, Force, Length};

/// Forces on a rack at the allowable-stress level, and its size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rack {
    /// Horizontal force of the wind H.
    pub horizontal: Force,
    /// Lifting force of the wind U; negative when it presses down.
    pub uplift: Force,
    /// Height of the panel's middle above the feet h_c.
    pub height: Length,
    /// Distance of the lift from the foot that the rack turns about x_c.
    pub arm: Length,
    /// Distance between the feet B, the weight acting in its middle.
    pub base: Length,
    /// Friction μ between feet and ground (0.4, from memory).
    pub friction: f64,
}

/// What holds the rack down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NeededWeight {
    /// Overturning moment, N·m.
    pub overturning_moment: f64,
    /// Weight of rack, panels and ballast against overturning.
    pub against_overturning: Force,
    /// Weight against sliding.
    pub against_sliding: Force,
}

impl NeededWeight {
    /// The larger of the two.
    pub fn governing(&self) -> Force {
        self.against_overturning.max(self.against_sliding)
    }
}

impl Rack {
    /// Least weight W: H h_c + U x_c ≤ 0.6 W B/2 about the foot, and H ≤ μ (0.6 W − U).
    ///
    /// The 0.6 is the dead-load factor of allowable stress design (from memory). Zero where the wind holds it down.
    pub fn needed_weight(&self) -> Result<NeededWeight, DomainError> {
        let horizontal = within("horizontal force", self.horizontal.si(), 0.0, 1e6)?;
        let uplift = within("lifting force", self.uplift.si(), -1e6, 1e6)?;
        let height = within("height of the middle", self.height.si(), 0.0, 20.0)?;
        let arm = within("arm of the lift", self.arm.si(), 0.0, 20.0)?;
        let base = positive("distance between the feet", self.base.si())?;
        let friction = within("friction", self.friction, 0.05, 1.0)?;
        let moment = horizontal * height + uplift * arm;
        Ok(NeededWeight {
            overturning_moment: moment,
            against_overturning: Force::from_si((2.0 * moment / (0.6 * base)).max(0.0)),
            against_sliding: Force::from_si(((horizontal / friction + uplift) / 0.6).max(0.0)),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wind_that_presses_down_needs_less_weight() {
        let lifted = Rack {
            horizontal: Force::from_si(1500.0),
            uplift: Force::from_si(1500.0),
            height: Length::from_si(1.0),
            arm: Length::from_si(0.7),
            base: Length::from_si(1.4),
            friction: 0.4,
        };
        let pressed = Rack { uplift: Force::from_si(-1500.0), ..lifted };
        assert!(pressed.needed_weight().unwrap().governing() < lifted.needed_weight().unwrap().governing());
    }
}
