//! Speed of a drill.

use super::customary::FOOT;
use super::domain::{DomainError, positive, within};
use crate::units::si::{Dimension, Length, Velocity};
use std::f64::consts::PI;

/// Cutting speed for copper with high-speed steel, 70 ft/min (verified table of machine tool speeds; its column was
/// read as drilling).
pub fn copper_cutting_speed() -> Velocity {
    Velocity::from_si(70.0 * FOOT / 60.0)
}

/// Turns a minute of a drill, n = 60 v/(π d), for a cutting speed v up to 5 m/s.
pub fn turns_per_minute(diameter: Length, cutting_speed: Velocity) -> Result<f64, DomainError> {
    let diameter = positive("drill diameter", diameter.si())?;
    let speed = within("cutting speed", cutting_speed.si(), 0.0, 5.0)?;
    Ok(60.0 * speed / (PI * diameter))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_larger_drill_turns_slower() {
        let turns = |metres| turns_per_minute(Length::from_si(metres), copper_cutting_speed()).unwrap();
        assert!(turns(0.016) < turns(0.006));
        assert!(turns_per_minute(Length::from_si(0.0), copper_cutting_speed()).is_err());
    }
}
