//! Lifting by hand: the load that one person should lift.
//!
//! Only the revised NIOSH lifting equation lives here. It does not cover ladders, one-handed lifts, slippery ground or
//! wind.

use super::domain::{DomainError, positive, within};
use crate::units::si::{Angle, Dimension, Length, Mass};

/// Load constant, kg.
const LOAD_CONSTANT: f64 = 23.0;

/// How well hands hold the load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Coupling {
    /// Handles.
    Good,
    /// Edges that fingers flex around.
    Fair,
    /// Bulky, sharp or slippery, as a bare panel is.
    Poor,
}

/// Geometry of a lift.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lift {
    /// Horizontal distance of the hands from the ankles H; below 25 cm the equation takes 25 cm.
    pub horizontal: Length,
    /// Height of the hands above the floor V, 0 to 175 cm.
    pub vertical: Length,
    /// Vertical travel D; below 25 cm the equation takes 25 cm, at most 175 cm.
    pub travel: Length,
    /// Twist of the body A, 0 to 135°.
    pub twist: Angle,
    /// Frequency multiplier FM of the equation's own table, 1 for a lift every few minutes.
    pub frequency: f64,
    /// Hold on the load.
    pub coupling: Coupling,
}

/// Recommended load of one person, RWL = LC HM VM DM AM FM CM.
///
/// LC 23 kg, HM 25/H, VM 1 − 0.003 |V − 75|, DM 0.82 + 4.5/D (cm; verified page), AM 1 − 0.0032 A, CM 1, 0.95 below and
/// 1 from 75 cm up, 0.90 (from memory). H beyond 63 cm is outside the equation: nobody should lift so.
pub fn recommended_weight(lift: Lift) -> Result<Mass, DomainError> {
    let horizontal = within("horizontal distance of the hands", lift.horizontal.si(), 0.0, 0.63)? * 100.0;
    let vertical = within("height of the hands", lift.vertical.si(), 0.0, 1.75)? * 100.0;
    let travel = within("vertical travel", lift.travel.si(), 0.0, 1.75)? * 100.0;
    let twist = within("twist", lift.twist.si(), 0.0, 135.0_f64.to_radians())?.to_degrees();
    let frequency = within("frequency multiplier", lift.frequency, 0.0, 1.0)?;
    let coupling = match lift.coupling {
        Coupling::Fair if vertical < 75.0 => 0.95,
        Coupling::Good | Coupling::Fair => 1.0,
        Coupling::Poor => 0.90,
    };
    let distance = 25.0 / horizontal.max(25.0);
    let height = 1.0 - 0.003 * (vertical - 75.0).abs();
    let path = 0.82 + 4.5 / travel.max(25.0);
    Ok(Mass::from_si(LOAD_CONSTANT * distance * height * path * (1.0 - 0.0032 * twist) * frequency * coupling))
}

/// Lifting index, load over recommended weight; above 1 the lift needs more people or a hoist.
pub fn lifting_index(load: Mass, lift: Lift) -> Result<f64, DomainError> {
    Ok(positive("load", load.si())? / positive("recommended weight", recommended_weight(lift)?.si())?)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lift(horizontal: f64) -> Lift {
        Lift {
            horizontal: Length::from_si(horizontal),
            vertical: Length::from_si(0.75),
            travel: Length::from_si(0.25),
            twist: Angle::from_si(0.0),
            frequency: 1.0,
            coupling: Coupling::Good,
        }
    }

    #[test]
    fn the_best_lift_is_the_load_constant() {
        assert!((recommended_weight(lift(0.25)).unwrap().si() - 23.0).abs() < 1e-9);
        assert!((recommended_weight(lift(0.2)).unwrap().si() - 23.0).abs() < 1e-9);
        assert!(recommended_weight(lift(0.7)).is_err());
    }
}
