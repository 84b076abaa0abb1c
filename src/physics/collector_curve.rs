//! The efficiency curve of a collector as three numbers: power, stagnation, scaling of a measured stagnation.
//!
//! Lives here: what follows from η₀, a₁, a₂. Must not live here: the plate balance that predicts them or finds the
//! worst stagnation; this formula reads 6 to 12 K low there.

use super::domain::{DomainError, not_negative, positive, within};
use crate::units::si::{Dimension, HeatFluxDensity, HeatTransfer, Temperature, TemperatureInterval, difference};

/// η = η₀ − a₁ ΔT/G − a₂ ΔT²/G, area and wind being those of its fit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CollectorCurve {
    /// η₀, 0 to 1.
    pub eta0: f64,
    /// a₁.
    pub a1: HeatTransfer,
    /// a₂, W/(m²·K²), zero or more.
    pub a2: f64,
}

/// Sun and air at a collector.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Weather {
    /// Irradiance G in the collector's plane.
    pub irradiance: HeatFluxDensity,
    /// Air temperature.
    pub air: Temperature,
}

impl CollectorCurve {
    fn check(&self, weather: Weather) -> Result<(f64, f64, f64), DomainError> {
        let eta0 = within("η₀", self.eta0, 0.0, 1.0)?;
        let a1 = positive("a₁", self.a1.si())?;
        let a2 = not_negative("a₂", self.a2)?;
        Ok((eta0 * within("irradiance", weather.irradiance.si(), 0.0, 1500.0)?, a1, a2))
    }

    /// Heat per area at a mean fluid temperature, η₀ G − a₁ ΔT − a₂ ΔT|ΔT|; negative when the panel loses heat.
    ///
    /// The sign of ΔT stays with the quadratic term, so that a panel colder than the air gains.
    pub fn power(&self, weather: Weather, fluid: Temperature) -> Result<HeatFluxDensity, DomainError> {
        let (gain, a1, a2) = self.check(weather)?;
        let excess = difference(fluid, weather.air).si();
        within("fluid over air temperature", excess, -100.0, 350.0)?;
        Ok(HeatFluxDensity::from_si(gain - a1 * excess - a2 * excess * excess.abs()))
    }

    /// Temperature at which the curve yields nothing: η₀ G = a₁ ΔT + a₂ ΔT².
    ///
    /// Fitted at small differences and 3 m/s, the curve reads low here; the plate balance judges, this compares.
    pub fn stagnation(&self, weather: Weather) -> Result<Temperature, DomainError> {
        let (gain, a1, a2) = self.check(weather)?;
        let excess = 2.0 * gain / (a1 + (a1 * a1 + 4.0 * a2 * gain).sqrt());
        Ok(Temperature::from_si(weather.air.si() + excess))
    }
}

/// A stagnation temperature measured on the empty panel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredStagnation {
    /// Sun and air during the measurement.
    pub weather: Weather,
    /// Plate temperature at two thirds of the height and half the width.
    pub plate: Temperature,
}

impl MeasuredStagnation {
    /// Stagnation in stronger sun from a measured one, T_s = T_a + (G/G_m)(T_m − T_am).
    ///
    /// ISO 9806 (from memory). Linear: it reads high where the losses rise with temperature, so it errs to caution
    /// upward only. Scaling down to weaker sun is refused.
    pub fn scaled_to(&self, weather: Weather) -> Result<Temperature, DomainError> {
        let measured = positive("irradiance of the measurement", self.weather.irradiance.si())?;
        let wanted = within("irradiance to scale to", weather.irradiance.si(), measured, 1500.0)?;
        let excess: TemperatureInterval = difference(self.plate, self.weather.air);
        let excess = positive("plate over air temperature", excess.si())?;
        Ok(Temperature::from_si(weather.air.si() + wanted / measured * excess))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    fn weather(irradiance: f64, air: f64) -> Weather {
        Weather { irradiance: HeatFluxDensity::from_si(irradiance), air: celsius(air) }
    }

    #[test]
    fn at_stagnation_the_curve_yields_nothing() {
        let curve = CollectorCurve { eta0: 0.75, a1: HeatTransfer::from_si(6.0), a2: 0.02 };
        let hot = curve.stagnation(weather(1000.0, 30.0)).unwrap();
        assert!(curve.power(weather(1000.0, 30.0), hot).unwrap().si().abs() < 1e-9);
    }

    #[test]
    fn scaling_down_is_refused() {
        let measured = MeasuredStagnation { weather: weather(1000.0, 25.0), plate: celsius(140.0) };
        assert!(measured.scaled_to(weather(900.0, 25.0)).is_err());
    }
}
