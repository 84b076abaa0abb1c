//! Centrifugal pumps: the curve through the label's points, the point where it meets the loop, suction head.
//!
//! The loop's own resistance lives in `pipe`; filling a drainback loop lives in `drainback`.

use super::domain::{DomainError, not_negative, positive};
use super::fluid::Properties;
use super::hydrostatics::STANDARD_GRAVITY;
use super::pipe::Run;
use super::root::{self, Bracket};
use super::statistics::{Point, Weighting, fit_polynomial};
use crate::units::si::{Dimension, Length, Power, Pressure, VolumeRate};
use thiserror::Error;

/// Why no pump curve can be drawn, or no duty found on it.
#[derive(Clone, Copy, Debug, PartialEq, Error)]
pub enum PumpError {
    /// An input that no pump has.
    #[error(transparent)]
    Domain(#[from] DomainError),
    /// Fewer than three different flows do not fix a quadratic.
    #[error("a pump curve needs points at three different flows, but has {0}")]
    TooFewPoints(usize),
    /// The points do not bend downward as a centrifugal pump's do.
    #[error("the points do not make a falling pump curve")]
    NotFalling,
}

/// A flow and a head that belong together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurvePoint {
    /// Volume flow Q.
    pub flow: VolumeRate,
    /// Head H.
    pub head: Length,
}

/// A pump curve H(Q) = h₀ + h₁ Q + h₂ Q².
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PumpCurve {
    /// h₀, m; greater than zero.
    shutoff: f64,
    /// h₁, m/(m³/s).
    linear: f64,
    /// h₂, m/(m³/s)²; less than zero.
    quadratic: f64,
}

/// The three coefficients of a curve, for a maker who prints them. SI units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CurveCoefficients {
    /// h₀, m.
    pub shutoff: f64,
    /// h₁, m/(m³/s).
    pub linear: f64,
    /// h₂, m/(m³/s)².
    pub quadratic: f64,
}

impl PumpCurve {
    /// Curve from its coefficients; h₀ > 0 and h₂ < 0.
    pub fn from_coefficients(given: CurveCoefficients) -> Result<Self, PumpError> {
        let CurveCoefficients { shutoff, linear, quadratic } = given;
        positive("shut-off head", shutoff)?;
        super::domain::finite("linear coefficient", linear)?;
        super::domain::finite("quadratic coefficient", quadratic)?;
        if quadratic < 0.0 { Ok(Self { shutoff, linear, quadratic }) } else { Err(PumpError::NotFalling) }
    }

    /// Parabola with its top at no flow through the two numbers printed on most labels, H = h₀ \[1 − (Q/Q₀)²\].
    ///
    /// A common first guess where no curve is printed (common practice, no source).
    pub fn from_ends(shutoff: Length, greatest_flow: VolumeRate) -> Result<Self, PumpError> {
        let shutoff = positive("shut-off head", shutoff.si())?;
        let flow = positive("greatest flow", greatest_flow.si())?;
        Self::from_coefficients(CurveCoefficients { shutoff, linear: 0.0, quadratic: -shutoff / (flow * flow) })
    }

    /// Least-squares quadratic through three or more points of the label; exact for three.
    pub fn through(points: &[CurvePoint]) -> Result<Self, PumpError> {
        let mut flows: Vec<f64> = Vec::with_capacity(points.len());
        for point in points {
            let flow = not_negative("flow", point.flow.si())?;
            not_negative("head", point.head.si())?;
            if !flows.contains(&flow) {
                flows.push(flow);
            }
        }
        if flows.len() < 3 {
            return Err(PumpError::TooFewPoints(flows.len()));
        }
        let points: Vec<Point> =
            points.iter().map(|point| Point { x: point.flow.si(), y: point.head.si(), uncertainty: 1.0 }).collect();
        let fit = fit_polynomial(&points, 2, Weighting::ByUncertainty)?;
        let [shutoff, linear, quadratic] = fit.coefficients[..] else { return Err(PumpError::NotFalling) };
        Self::from_coefficients(CurveCoefficients { shutoff, linear, quadratic })
    }

    /// Head at no flow.
    pub fn shutoff_head(&self) -> Length {
        Length::from_si(self.shutoff)
    }

    /// Flow at which the head is gone.
    pub fn greatest_flow(&self) -> VolumeRate {
        let discriminant = self.linear * self.linear - 4.0 * self.quadratic * self.shutoff;
        VolumeRate::from_si((-self.linear - discriminant.sqrt()) / (2.0 * self.quadratic))
    }

    /// Head at a flow; negative beyond [`PumpCurve::greatest_flow`], where the pump is dragged.
    pub fn head(&self, flow: VolumeRate) -> Length {
        Length::from_si(self.head_at(flow.si()))
    }

    fn head_at(&self, flow: f64) -> f64 {
        self.shutoff + flow * (self.linear + flow * self.quadratic)
    }

    /// The same pump at a speed over its label speed: Q ~ n, H ~ n² (affinity laws), so h₀ n², h₁ n, h₂.
    ///
    /// Good for about 0.5 to 1.2 (from memory); power follows n³ ([`affine_power`]).
    pub fn at_speed(&self, speed_ratio: f64) -> Result<Self, PumpError> {
        let n = positive("speed over label speed", speed_ratio)?;
        Ok(Self { shutoff: self.shutoff * n * n, linear: self.linear * n, quadratic: self.quadratic })
    }
}

/// Shaft power of a pump at another speed, P ~ n³ (affinity laws).
pub fn affine_power(power_at_label_speed: Power, speed_ratio: f64) -> Result<Power, DomainError> {
    let n = positive("speed over label speed", speed_ratio)?;
    Ok(power_at_label_speed * n.powi(3))
}

/// Everything a pump has to overcome.
#[derive(Clone, Debug, PartialEq)]
pub struct Circuit {
    /// Runs of pipe and hose in series.
    pub runs: Vec<Run>,
    /// Parts whose drop grows with the flow itself: Δp = a Q, a in Pa/(m³/s). Laminar risers.
    pub linear_resistance: f64,
    /// Parts known by a test point only: Δp = r Q², r in Pa/(m³/s)². Panels, a meter, a plate exchanger.
    pub quadratic_resistance: f64,
    /// Height the liquid is lifted to, zero in a closed full loop.
    pub lift: Length,
}

impl Circuit {
    /// Head that a flow takes: H = lift + (Σ Δp + a Q + r Q²)/(ρ g). Errors for a run that has none.
    pub fn head(&self, liquid: &Properties, flow: VolumeRate) -> Result<Length, DomainError> {
        self.admit(liquid)?;
        not_negative("flow", flow.si())?;
        Ok(Length::from_si(self.head_at(liquid, flow.si())))
    }

    fn admit(&self, liquid: &Properties) -> Result<(), DomainError> {
        not_negative("linear resistance", self.linear_resistance)?;
        not_negative("quadratic resistance", self.quadratic_resistance)?;
        not_negative("lift", self.lift.si())?;
        for run in &self.runs {
            run.pressure_drop(liquid, VolumeRate::from_si(0.0))?;
        }
        positive("density", liquid.density)?;
        Ok(())
    }

    fn head_at(&self, liquid: &Properties, flow: f64) -> f64 {
        let runs: f64 = self.runs.iter().map(|run| run.drop_at(liquid, flow).total().si()).sum();
        self.lift.si()
            + (runs + self.linear_resistance * flow + self.quadratic_resistance * flow * flow)
                / (liquid.density * STANDARD_GRAVITY)
    }
}

/// Where a pump runs in a circuit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Duty {
    /// It runs here.
    Runs(OperatingPoint),
    /// Its shut-off head does not reach the lift: nothing flows.
    CannotLift {
        /// Head of the pump at no flow.
        shutoff_head: Length,
        /// Height to be lifted.
        lift: Length,
    },
}

/// The crossing of pump curve and circuit curve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OperatingPoint {
    /// Volume flow Q.
    pub flow: VolumeRate,
    /// Head H.
    pub head: Length,
    /// Power that reaches the liquid, ρ g H Q.
    pub hydraulic_power: Power,
    /// Pump head less circuit head at this flow: what the search left.
    pub residual: Length,
}

/// Finds where a pump meets its circuit.
///
/// Root of the surplus of head between no flow and the pump's greatest flow. A pump curve that rises at first (h₁ > 0)
/// can meet a circuit with much lift twice: then one of the crossings is found.
pub fn operating_point(pump: &PumpCurve, circuit: &Circuit, liquid: &Properties) -> Result<Duty, PumpError> {
    circuit.admit(liquid)?;
    if pump.shutoff <= circuit.lift.si() {
        return Ok(Duty::CannotLift { shutoff_head: pump.shutoff_head(), lift: circuit.lift });
    }
    let surplus = |flow: f64| pump.head_at(flow) - circuit.head_at(liquid, flow);
    let greatest = pump.greatest_flow().si();
    // A circuit without any resistance takes the greatest flow, where rounding may leave a surplus of either sign.
    let found = root::find(Bracket { low: 0.0, high: greatest }, 0.0, surplus);
    let flow = found.unwrap_or(greatest);
    let residual = surplus(flow);
    if !residual.is_finite() || residual.abs() > 1e-6 * pump.shutoff {
        return Err(DomainError::NotSettled { what: "operating point", residual }.into());
    }
    let head = pump.head_at(flow);
    Ok(Duty::Runs(OperatingPoint {
        flow: VolumeRate::from_si(flow),
        head: Length::from_si(head),
        hydraulic_power: Power::from_si(liquid.density * STANDARD_GRAVITY * head * flow),
        residual: Length::from_si(residual),
    }))
}

/// What stands on the suction side of a pump.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Suction {
    /// Absolute pressure on the liquid's surface, or at the point where the loop's pressure is held.
    pub surface_pressure: Pressure,
    /// Lost in the suction pipe.
    pub loss: Pressure,
    /// Vapour pressure of the liquid at the pump.
    pub vapour_pressure: Pressure,
    /// Height of the surface above the pump; negative when the pump sits above it.
    pub flooded_height: Length,
    /// Density ρ of the liquid, kg/m³.
    pub density: f64,
}

impl Suction {
    /// Net positive suction head available, (p_surface − Δp − p_vapour)/(ρ g) + z; negative when it boils.
    ///
    /// To be compared with the label's required head plus 0.5 m (project rule).
    pub fn net_positive_head(&self) -> Result<Length, DomainError> {
        let density = positive("density", self.density)?;
        positive("absolute surface pressure", self.surface_pressure.si())?;
        not_negative("suction loss", self.loss.si())?;
        not_negative("vapour pressure", self.vapour_pressure.si())?;
        super::domain::finite("flooded height", self.flooded_height.si())?;
        let pressure = self.surface_pressure - self.loss - self.vapour_pressure;
        Ok(Length::from_si(pressure.si() / (density * STANDARD_GRAVITY)) + self.flooded_height)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::fluid::Fluid;
    use crate::physics::pipe::DRAWN_TUBE_ROUGHNESS;
    use crate::units::si::celsius;

    fn point(flow: f64, head: f64) -> CurvePoint {
        CurvePoint { flow: VolumeRate::from_si(flow), head: Length::from_si(head) }
    }

    fn circuit(lift: f64) -> Circuit {
        let run = Run {
            bore: Length::from_si(0.02),
            length: Length::from_si(40.0),
            roughness: Length::from_si(DRAWN_TUBE_ROUGHNESS),
            fittings: Vec::new(),
            plain_loss: 6.0,
        };
        Circuit { runs: vec![run], linear_resistance: 0.0, quadratic_resistance: 1e11, lift: Length::from_si(lift) }
    }

    #[test]
    fn the_curve_passes_through_its_three_points() {
        let points = [point(0.0, 6.0), point(2e-4, 4.6), point(5e-4, 0.9)];
        let pump = PumpCurve::through(&points).unwrap();
        for p in points {
            assert!((pump.head(p.flow).si() - p.head.si()).abs() < 1e-9);
        }
        assert!(pump.head(pump.greatest_flow()).si().abs() < 1e-9);
    }

    #[test]
    fn two_flows_and_rising_points_make_no_curve() {
        let twice = [point(0.0, 6.0), point(0.0, 6.1), point(2e-4, 4.6)];
        assert_eq!(PumpCurve::through(&twice), Err(PumpError::TooFewPoints(2)));
        let rising = [point(0.0, 1.0), point(2e-4, 2.0), point(5e-4, 9.0)];
        assert_eq!(PumpCurve::through(&rising), Err(PumpError::NotFalling));
    }

    #[test]
    fn the_operating_point_lies_on_both_curves() {
        let liquid = Fluid::Water.properties_at(celsius(50.0).si());
        let pump = PumpCurve::from_ends(Length::from_si(7.0), VolumeRate::from_si(8e-4)).unwrap();
        for lift in [0.0, 2.0, 6.9] {
            let Duty::Runs(duty) = operating_point(&pump, &circuit(lift), &liquid).unwrap() else {
                panic!("lift {lift} is below the shut-off head");
            };
            assert!((pump.head(duty.flow).si() - duty.head.si()).abs() < 1e-9);
            assert!((circuit(lift).head(&liquid, duty.flow).unwrap().si() - duty.head.si()).abs() < 1e-9);
        }
    }

    #[test]
    fn a_pump_below_the_lift_moves_nothing() {
        let liquid = Fluid::Water.properties_at(celsius(20.0).si());
        let pump = PumpCurve::from_ends(Length::from_si(4.0), VolumeRate::from_si(8e-4)).unwrap();
        assert!(matches!(operating_point(&pump, &circuit(5.2), &liquid), Ok(Duty::CannotLift { .. })));
    }

    #[test]
    fn half_speed_gives_half_the_flow_at_a_quarter_of_the_head() {
        let pump = PumpCurve::from_coefficients(CurveCoefficients { shutoff: 6.0, linear: -1e3, quadratic: -9e6 });
        let full = pump.unwrap();
        let half = full.at_speed(0.5).unwrap();
        let flow = VolumeRate::from_si(3e-4);
        assert!((half.head(flow * 0.5).si() - 0.25 * full.head(flow).si()).abs() < 1e-12);
        assert!((affine_power(Power::from_si(40.0), 0.5).unwrap().si() - 5.0).abs() < 1e-12);
    }
}
