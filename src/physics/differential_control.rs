//! A controller that compares two temperatures: whether its settings keep a pump running.
//!
//! What the controller does through a year lives in `year`.

use super::domain::{DomainError, not_negative, positive};
use crate::units::si::{Area, Dimension, HeatTransfer, TemperatureInterval};

/// Differences at which a controller starts and stops a pump, and the plant that it serves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DifferentialControl {
    /// Collector area A.
    pub area: Area,
    /// F_R U_L.
    pub loss: HeatTransfer,
    /// ε C_min of the exchanger, W/K; C of a loop without one.
    pub exchanged_rate: f64,
    /// Panel above tank at which the pump starts.
    pub start: TemperatureInterval,
    /// Panel above tank at which it stops.
    pub stop: TemperatureInterval,
}

/// Whether the settings suit the plant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ControlStability {
    /// Largest stop difference at which the pump stays on after a start.
    pub greatest_stop: TemperatureInterval,
    /// Smallest start difference that suits the stop difference.
    pub least_start: TemperatureInterval,
    /// The pump stays on. Otherwise it cycles in the morning, which costs little.
    pub stays_on: bool,
}

impl DifferentialControl {
    /// Limits of the differences: ΔT_off ≤ (A F_R U_L/ε C_min) ΔT_on (Duffie & Beckman 10.4, derived anew).
    ///
    /// The still plate is ΔT_on above the tank at the start, so the sun then pays for a rise of
    /// A F_R U_L ΔT_on/C while running. Usual settings (8 and 3 K) break the limit, and short cycling is normal.
    pub fn stability(&self) -> Result<ControlStability, DomainError> {
        let loss = positive("collector area", self.area.si())? * positive("collector loss", self.loss.si())?;
        let ratio = loss / positive("exchanged capacity rate", self.exchanged_rate)?;
        let start = positive("start difference", self.start.si())?;
        let stop = not_negative("stop difference", self.stop.si())?;
        let greatest = ratio * start;
        Ok(ControlStability {
            greatest_stop: TemperatureInterval::from_si(greatest),
            least_start: TemperatureInterval::from_si(stop / ratio),
            stays_on: stop <= greatest,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_two_limits_are_one_limit_seen_from_both_sides() {
        let control = DifferentialControl {
            area: Area::from_si(4.0),
            loss: HeatTransfer::from_si(5.0),
            exchanged_rate: 125.0,
            start: TemperatureInterval::from_si(8.0),
            stop: TemperatureInterval::from_si(1.0),
        };
        let limits = control.stability().unwrap();
        let edge = DifferentialControl { stop: limits.greatest_stop, ..control }.stability().unwrap();
        assert!((edge.least_start.si() - 8.0).abs() < 1e-12);
        assert!(limits.stays_on);
    }
}
