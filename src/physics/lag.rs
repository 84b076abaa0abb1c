//! Withdrawal of screws from timber.
//!
//! Lives here: lag and wood screws pulled out of side grain. Must not live here: specific gravities and factors
//! (`handbook`), lateral and combined loads, the rafter itself. Screening only.

use super::customary::{INCH, POUND_FORCE};
use super::domain::{DomainError, positive, within};
use crate::units::si::{Dimension, Force, Length};

/// Adjustments of the allowable value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Adjustments {
    /// C_D of load duration (1.6 wind, 1.15 snow, from memory).
    pub duration: f64,
    /// C_M of wet service (0.7, from memory).
    pub moisture: f64,
    /// C_t of temperature.
    pub temperature: f64,
    /// C_eg of end grain (0.75 for lag screws, verified).
    pub end_grain: f64,
}

impl Adjustments {
    /// Dry, warm side grain under a load of normal duration.
    pub fn none() -> Self {
        Self { duration: 1.0, moisture: 1.0, temperature: 1.0, end_grain: 1.0 }
    }

    fn product(&self) -> Result<f64, DomainError> {
        let duration = within("duration factor", self.duration, 0.9, 2.0)?;
        let moisture = within("moisture factor", self.moisture, 0.1, 1.0)?;
        let temperature = within("temperature factor", self.temperature, 0.1, 1.0)?;
        Ok(duration * moisture * temperature * within("end grain factor", self.end_grain, 0.1, 1.0)?)
    }
}

/// A screw in a piece of timber.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screw {
    /// Diameter of the shank.
    pub diameter: Length,
    /// Thread in the holding piece, without the tip.
    pub thread: Length,
    /// Specific gravity of the timber, 0.31 to 0.73.
    pub specific_gravity: f64,
}

impl Screw {
    fn check(&self) -> Result<(f64, f64, f64), DomainError> {
        let inches = self.diameter.si() / INCH;
        let thread = positive("thread length", self.thread.si())? / INCH;
        Ok((inches, thread, within("specific gravity", self.specific_gravity, 0.31, 0.73)?))
    }

    /// Allowable withdrawal of a lag screw, W = 1800 G^1.5 D^0.75 lb for each inch of thread, times the adjustments.
    ///
    /// NDS table 12.2A (verified; all its entries for 1/4 to 1/2 in within rounding). Diameter 6.3 to 32 mm (1/4 to
    /// 1¼ in).
    pub fn lag_withdrawal(&self, adjustments: Adjustments) -> Result<Force, DomainError> {
        within("diameter of the lag screw", self.diameter.si(), 0.0063, 0.032)?;
        let (inches, thread, gravity) = self.check()?;
        let per_inch = 1800.0 * gravity.powf(1.5) * inches.powf(0.75);
        Ok(Force::from_si(per_inch * thread * adjustments.product()? * POUND_FORCE))
    }

    /// Allowable withdrawal of a wood screw from side grain, W = 2850 G² D lb for each inch of thread (NDS, from
    /// memory). Diameter 2.4 to 9.5 mm. End grain is not allowed and must not be asked for.
    pub fn wood_screw_withdrawal(&self, adjustments: Adjustments) -> Result<Force, DomainError> {
        within("diameter of the wood screw", self.diameter.si(), 0.0024, 0.0095)?;
        within("end grain factor of a wood screw", adjustments.end_grain, 1.0, 1.0)?;
        let (inches, thread, gravity) = self.check()?;
        Ok(Force::from_si(2850.0 * gravity * gravity * inches * thread * adjustments.product()? * POUND_FORCE))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wood_screw_in_end_grain_is_refused() {
        let screw = Screw { diameter: Length::from_si(0.005), thread: Length::from_si(0.03), specific_gravity: 0.42 };
        assert!(screw.wood_screw_withdrawal(Adjustments { end_grain: 0.75, ..Adjustments::none() }).is_err());
        assert!(screw.wood_screw_withdrawal(Adjustments::none()).is_ok());
        assert!(screw.lag_withdrawal(Adjustments::none()).is_err());
    }
}
