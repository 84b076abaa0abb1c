//! Legionella in warm water: where it grows, how fast heat kills it.
//!
//! Lives here: bands and decimal reduction. Must not live here: tanks, logs, verdicts. The times are for free water,
//! not for slime or dead legs.

use super::domain::{DomainError, not_negative, within};
use crate::units::si::{Dimension, Temperature, Time, celsius, in_celsius};

/// Decimal reduction time at 60 °C, s (2 min; a secondary source quotes it beside 80 to 124 min at 50 °C).
const AT_SIXTY: f64 = 120.0;
/// Temperature step that changes the time tenfold, K (computed from the two quoted times).
const TENFOLD: f64 = 5.86;
/// Below this no kill is counted, °C.
const KILL_FROM: f64 = 50.0;
/// Above this the time is not shortened further, °C.
const KILL_HELD: f64 = 70.0;

/// How water of a temperature treats legionella.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Band {
    /// Below 20 °C: little or no growth.
    Dormant,
    /// 20 to 25 °C and 45 to 50 °C: neither growth to speak of nor kill.
    Idle,
    /// 25 to 45 °C: grows, best from 32 to 42 °C.
    Grows,
    /// From 50 °C: dies.
    Dies,
}

/// Band of a temperature (values of a national code of practice and of a world health text, verified). Not-a-number is
/// counted as growth.
pub fn band(water: Temperature) -> Band {
    let degrees = in_celsius(water);
    if degrees >= KILL_FROM {
        Band::Dies
    } else if degrees < 20.0 {
        Band::Dormant
    } else if (20.0..25.0).contains(&degrees) || degrees > 45.0 {
        Band::Idle
    } else {
        Band::Grows
    }
}

/// Decimal reduction time D = 2 min · 10^((60 − T)/5.86), 50 to 70 °C; an error outside.
pub fn decimal_reduction(water: Temperature) -> Result<Time, DomainError> {
    within("water temperature", water.si(), celsius(KILL_FROM).si(), celsius(KILL_HELD).si())?;
    Ok(Time::from_si(AT_SIXTY * 10.0_f64.powf((60.0 - in_celsius(water)) / TENFOLD)))
}

/// Powers of ten killed over a history, Σ Δt/D(T).
///
/// Time below 50 °C counts nothing; above 70 °C the time of 70 °C counts, both on the cautious side.
pub fn log_reduction(history: &[(Temperature, Time)]) -> Result<f64, DomainError> {
    let mut sum = 0.0;
    for &(water, time) in history {
        within("water temperature", water.si(), celsius(-50.0).si(), celsius(250.0).si())?;
        let time = not_negative("time at a temperature", time.si())?;
        if in_celsius(water) >= KILL_FROM {
            let counted = celsius(in_celsius(water).min(KILL_HELD));
            sum += time / decimal_reduction(counted)?.si();
        }
    }
    Ok(sum)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lukewarm_water_kills_nothing() {
        let day = Time::from_si(86400.0);
        assert!(log_reduction(&[(celsius(45.0), day), (celsius(20.0), day)]).unwrap().abs() < 1e-12);
        let hot = |degrees| log_reduction(&[(celsius(degrees), Time::from_si(60.0))]).unwrap();
        assert!((hot(70.0) - hot(90.0)).abs() < 1e-9);
    }

    #[test]
    fn a_missing_temperature_is_an_error_and_not_a_kill() {
        assert!(log_reduction(&[(celsius(f64::NAN), Time::from_si(60.0))]).is_err());
    }
}
