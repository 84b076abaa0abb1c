//! Cold water from the street through the year.

use crate::units::si::{Dimension, Temperature, TemperatureInterval, celsius, in_celsius};

/// Lowest temperature given, °C: water in a buried main does not freeze.
const FLOOR: f64 = 1.0;

/// What the street's water depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mains {
    /// Mean air temperature of the year.
    pub annual_mean: Temperature,
    /// Warmest less coldest monthly mean of the air: a difference.
    pub monthly_spread: TemperatureInterval,
    /// South of the equator.
    pub southern: bool,
}

/// Temperature of the supply on a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Supply {
    /// Of the water.
    pub temperature: Temperature,
    /// The formula gave less than 1 °C and 1 °C was taken.
    pub held: bool,
}

/// Temperature of mains water on a day of the year (1 to 365).
///
/// T = T̄ + 10/3 + r (ΔT/2) sin(0.986°(n − 15 − lag) − 90°), r = 0.4 + 0.018(T̄ − 20/3), lag = 35 − 1.8(T̄ − 20/3)
/// days, T̄ in °C; +90° south of the equator. Burch & Christensen 2007, "Towards development of an algorithm for mains
/// water temperature", here turned from °F to °C; fitted to towns of the United States. Held at 1 °C from below. A
/// well is another case: nearly constant, the annual mean air plus 1 to 2 K (from memory).
pub fn temperature(mains: Mains, day_of_year: f64) -> Supply {
    let mean = in_celsius(mains.annual_mean);
    let ratio = 0.4 + 0.018 * (mean - 20.0 / 3.0);
    let lag = 35.0 - 1.8 * (mean - 20.0 / 3.0);
    let phase = if mains.southern { 90.0 } else { -90.0 };
    let swing = (0.986 * (day_of_year - 15.0 - lag) + phase).to_radians().sin();
    let value = mean + 10.0 / 3.0 + ratio * 0.5 * mains.monthly_spread.si() * swing;
    Supply { temperature: celsius(value.max(FLOOR)), held: value < FLOOR }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_very_cold_town_is_held_above_freezing() {
        let mains =
            Mains { annual_mean: celsius(-8.0), monthly_spread: TemperatureInterval::from_si(40.0), southern: false };
        let supply = temperature(mains, 60.0);
        assert!(supply.held && (in_celsius(supply.temperature) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn the_south_is_half_a_year_away() {
        let north =
            Mains { annual_mean: celsius(15.0), monthly_spread: TemperatureInterval::from_si(14.0), southern: false };
        let south = Mains { southern: true, ..north };
        let half_a_year = 180.0 / 0.986;
        let (a, b) = (temperature(north, 20.0), temperature(south, 20.0 + half_a_year));
        assert!((a.temperature.si() - b.temperature.si()).abs() < 1e-9);
    }
}
