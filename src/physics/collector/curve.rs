//! The efficiency curve of a collector as a test would fit it.
//!
//! A curve measured in the field or scaled to it is the business of the commissioning stage.

use super::check::{contradiction, not_settled};
use super::operating::Known;
use super::{Collector, CollectorError, Operating};
use crate::physics::collector_curve::CollectorCurve;
use crate::physics::domain::within;
use crate::physics::fluid::Fluid;
use crate::physics::optics::Sunlight;
use crate::physics::statistics::{Point, Weighting, fit_polynomial};
use crate::units::si::{Dimension, HeatFluxDensity, HeatTransfer, MassRate, TemperatureInterval, Velocity, celsius};

/// Irradiance of the test, W/m².
const IRRADIANCE: f64 = 1000.0;
/// Air and sky of the test, °C.
const AIR: f64 = 20.0;
/// Wind of the test, m/s.
const WIND: f64 = 3.0;
/// Flow of the test per gross area, kg/(s·m²).
const FLOW: f64 = 0.02;

/// One solved point of a curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurvePoint {
    /// Middle of inlet and outlet above the air.
    pub difference: TemperatureInterval,
    /// Efficiency η.
    pub efficiency: f64,
}

/// η = η₀ − a₁ ΔT/G − a₂ ΔT²/G with ΔT = (T_in + T_out)/2 − T_a.
#[derive(Clone, Debug, PartialEq)]
pub struct EfficiencyCurve {
    /// η₀, on the area the curve refers to.
    pub eta0: f64,
    /// a₁.
    pub a1: HeatTransfer,
    /// a₂, W/(m²·K²).
    pub a2: f64,
    /// The points it was fitted to.
    pub points: Vec<CurvePoint>,
    /// Root mean square of the residuals of η.
    pub rms: f64,
}

impl EfficiencyCurve {
    /// Efficiency at a difference and an irradiance above zero; not a stagnation estimate (6 to 12 K low there).
    pub fn efficiency(&self, difference: TemperatureInterval, irradiance: HeatFluxDensity) -> f64 {
        let (dt, g) = (difference.si(), irradiance.si());
        self.eta0 - self.a1.si() * dt / g - self.a2 * dt * dt / g
    }

    /// The same curve on another area; `ratio` is the old reference area over the new one.
    #[must_use]
    pub fn on_area(&self, ratio: f64) -> Self {
        let scale = |point: &CurvePoint| CurvePoint { efficiency: point.efficiency * ratio, ..*point };
        Self {
            eta0: self.eta0 * ratio,
            a1: self.a1 * ratio,
            a2: self.a2 * ratio,
            points: self.points.iter().map(scale).collect(),
            rms: self.rms * ratio,
        }
    }
}

impl Collector {
    /// Differences a curve of this collector is fitted to: 0 to 60 K by 10, a bare one 0 to 30 K by 5.
    pub fn curve_differences(&self) -> Vec<TemperatureInterval> {
        let step = if self.cover.is_some() { 10.0 } else { 5.0 };
        (0..7).map(|i| TemperatureInterval::from_si(step * f64::from(i))).collect()
    }

    /// Efficiency curve on absorber area.
    ///
    /// Each point is solved at 1000 W/m² normal beam, air and sky 20 °C, wind 3 m/s, 0.02 kg/(s·m²) of gross area, so
    /// that (T_in + T_out)/2 = T_a + ΔT; unweighted least squares. ISO 9806 reports at 3 m/s; the sky at air
    /// temperature is this project's convention. At least three different `differences` in −15 to 150 K are needed. a₂
    /// is ill-conditioned: 5 %.
    pub fn curve(&self, fluid: Fluid, differences: &[TemperatureInterval]) -> Result<EfficiencyCurve, CollectorError> {
        let conditions = Operating {
            sun: Sunlight::normal(HeatFluxDensity::from_si(IRRADIANCE)),
            ambient: celsius(AIR),
            sky: celsius(AIR),
            wind: Velocity::from_si(WIND),
            inlet: celsius(AIR),
            mass_flow: MassRate::from_si(FLOW * self.gross_area.si()),
            fluid,
        };
        let mut points = Vec::with_capacity(differences.len());
        for &difference in differences {
            within("difference", difference.si(), -15.0, 150.0)?;
            let middle = conditions.ambient.si() + difference.si();
            let efficiency = self.solve(&conditions, Known::Middle(middle))?.efficiency;
            points.push(CurvePoint { difference, efficiency: efficiency.unwrap_or_default() });
        }
        fit(points)
    }
}

/// Unweighted least squares of η = c₀ + c₁ ΔT + c₂ ΔT².
fn fit(points: Vec<CurvePoint>) -> Result<EfficiencyCurve, CollectorError> {
    let plain: Vec<Point> =
        points.iter().map(|p| Point { x: p.difference.si(), y: p.efficiency, uncertainty: 1.0 }).collect();
    let fitted = fit_polynomial(&plain, 2, Weighting::ByUncertainty)
        .map_err(|_| contradiction("differences", "at least three different ones"))?;
    let [eta0, slope, bend] = fitted.coefficients[..] else {
        return Err(not_settled("efficiency curve", fitted.sum_of_squares));
    };
    let (a1, a2) = (HeatTransfer::from_si(-slope * IRRADIANCE), -bend * IRRADIANCE);
    let rms = (fitted.sum_of_squares / points.len() as f64).sqrt();
    Ok(EfficiencyCurve { eta0, a1, a2, points, rms })
}

impl From<&EfficiencyCurve> for CollectorCurve {
    /// The three numbers without the points they were fitted to.
    fn from(curve: &EfficiencyCurve) -> Self {
        Self { eta0: curve.eta0, a1: curve.a1, a2: curve.a2 }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::collector_curve::Weather;

    #[test]
    fn points_on_a_parabola_give_it_back() {
        let at = |dt: f64| CurvePoint {
            difference: TemperatureInterval::from_si(dt),
            efficiency: 0.75 - 0.006 * dt - 0.000017 * dt * dt,
        };
        let curve = fit((0..7).map(|i| at(10.0 * f64::from(i))).collect()).unwrap();
        assert!((curve.eta0 - 0.75).abs() < 1e-12);
        assert!((curve.a1.si() - 6.0).abs() < 1e-9);
        assert!((curve.a2 - 0.017).abs() < 1e-11);
        assert!(curve.rms < 1e-12);
    }

    /// Where a panel is warmer than the air both ways of reading the three numbers are the same.
    #[test]
    fn a_fitted_curve_and_its_three_numbers_yield_the_same() {
        let at = |dt: f64| CurvePoint { difference: TemperatureInterval::from_si(dt), efficiency: 0.75 - 0.006 * dt };
        let curve = fit((0..4).map(|i| at(10.0 * f64::from(i))).collect()).unwrap();
        let irradiance = HeatFluxDensity::from_si(800.0);
        let weather = Weather { irradiance, air: celsius(20.0) };
        let numbers = CollectorCurve { a2: 0.01, ..CollectorCurve::from(&curve) };
        let curve = EfficiencyCurve { a2: 0.01, ..curve };
        let power = numbers.power(weather, celsius(60.0)).unwrap().si();
        assert!((curve.efficiency(TemperatureInterval::from_si(40.0), irradiance) * 800.0 - power).abs() < 1e-9);
    }

    #[test]
    fn two_points_make_no_curve() {
        let point = CurvePoint { difference: TemperatureInterval::from_si(10.0), efficiency: 0.7 };
        assert!(fit(vec![point, point, point]).is_err());
        assert!(fit(Vec::new()).is_err());
    }
}
