//! Friction of a liquid in a straight run of pipe or hose with its fittings.
//!
//! Heat loss of pipes lives in `pipe_loss`, single fittings in `fittings`, the balance with a pump in `pump`.

use super::customary::{FOOT, GALLON_PER_MINUTE, INCH, PSI};
use super::domain::{DomainError, finite, not_negative, positive, within};
use super::fittings::FittingCount;
use super::fluid::Properties;
use crate::units::si::{Dimension, Length, Pressure, Velocity, VolumeRate};
use std::f64::consts::PI;

/// Roughness of drawn copper or brass tube, m (tables of a general-purpose fluids library).
pub const DRAWN_TUBE_ROUGHNESS: f64 = 1.5e-6;
/// Roughness of a rubber or EPDM hose, m (from memory).
pub const HOSE_ROUGHNESS: f64 = 1e-5;
/// Roughness of tube that has carried hard water for years, m (from memory).
pub const AGED_TUBE_ROUGHNESS: f64 = 5e-5;

/// Greatest height of roughness over bore for which friction was measured.
const ROUGHEST: f64 = 0.05;
/// Below this Reynolds number the friction factor is held: the pressure drop vanishes there with v².
const REYNOLDS_FLOOR: f64 = 1e-6;

/// Darcy friction factor f of a round pipe in every regime.
///
/// f = 8 \[(8/Re)¹² + (A + B)^−1.5\]^(1/12), A = {−2.457 ln\[(7/Re)^0.9 + 0.27 ε/D\]}¹⁶, B = (37530/Re)¹⁶
/// (Churchill, Chemical Engineering 7 Nov. 1977, 91). `reynolds` ≥ 0, `relative_roughness` ε/D from 0 to 0.05.
/// One formula without a seam, so that a solver sees a smooth curve; within 2.7 % of Colebrook for Re 4e3 to 1e6
/// and small roughness; 64/Re when laminar; between 2000 and 4000 real flow is undecided and so is any number.
/// Below Re = 1e-6 the value of 1e-6 is returned: finite, and without weight because the speed is zero.
pub fn friction_factor(reynolds: f64, relative_roughness: f64) -> f64 {
    let re = reynolds.max(REYNOLDS_FLOOR);
    let a = (-2.457 * ((7.0 / re).powf(0.9) + 0.27 * relative_roughness).ln()).powi(16);
    let b = (37530.0 / re).powi(16);
    8.0 * ((8.0 / re).powi(12) + (a + b).powf(-1.5)).powf(1.0 / 12.0)
}

/// Reynolds number Re = ρ v D/μ of a flow with `velocity` in m/s through a `bore` in m.
pub fn reynolds(liquid: &Properties, velocity: f64, bore: f64) -> f64 {
    liquid.density * velocity * bore / liquid.viscosity
}

/// Mean speed v = 4 Q/(π D²) of a `flow` in m³/s through a `bore` in m, in m/s.
pub fn mean_velocity(flow: f64, bore: f64) -> f64 {
    4.0 * flow / (PI * bore * bore)
}

/// A run of pipe or hose of one bore, with its fittings.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Inner diameter D.
    pub bore: Length,
    /// Developed length L.
    pub length: Length,
    /// Height ε of the wall's roughness.
    pub roughness: Length,
    /// The fittings, each with its count.
    pub fittings: Vec<FittingCount>,
    /// Further loss coefficients that do not change with the flow: barbs, meters, a wide-open balancing valve.
    pub plain_loss: f64,
}

/// What a flow costs in one run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RunDrop {
    /// Mean speed v.
    pub velocity: Velocity,
    /// Reynolds number.
    pub reynolds: f64,
    /// Darcy friction factor f.
    pub friction_factor: f64,
    /// Lost along the wall.
    pub friction: Pressure,
    /// Lost in the fittings.
    pub fittings: Pressure,
}

impl RunDrop {
    /// Whole pressure drop of the run.
    pub fn total(&self) -> Pressure {
        self.friction + self.fittings
    }
}

impl Run {
    /// Pressure drop Δp = (f L/D + Σ K) ρ v²/2 (Darcy and Weisbach), f by [`friction_factor`], K by the two-K method.
    ///
    /// `flow` ≥ 0; nothing flows, nothing is lost. Bore and liquid must be positive, the rest not negative, the
    /// roughness at most a twentieth of the bore.
    pub fn pressure_drop(&self, liquid: &Properties, flow: VolumeRate) -> Result<RunDrop, DomainError> {
        positive("bore", self.bore.si())?;
        not_negative("length", self.length.si())?;
        not_negative("roughness", self.roughness.si())?;
        within("roughness over bore", self.roughness.si() / self.bore.si(), 0.0, ROUGHEST)?;
        not_negative("plain loss coefficient", self.plain_loss)?;
        not_negative("flow", flow.si())?;
        positive("density", liquid.density)?;
        positive("viscosity", liquid.viscosity)?;
        let drop = self.drop_at(liquid, flow.si());
        finite("pressure drop", drop.total().si())?;
        Ok(drop)
    }

    /// The same for inputs already known to be in order; flow in m³/s.
    pub(super) fn drop_at(&self, liquid: &Properties, flow: f64) -> RunDrop {
        let bore = self.bore.si();
        let velocity = mean_velocity(flow, bore);
        let re = reynolds(liquid, velocity, bore);
        let factor = friction_factor(re, self.roughness.si() / bore);
        let dynamic = 0.5 * liquid.density * velocity * velocity;
        let fittings = if dynamic > 0.0 { self.loss_coefficient(re) * dynamic } else { 0.0 };
        RunDrop {
            velocity: Velocity::from_si(velocity),
            reynolds: re,
            friction_factor: factor,
            friction: Pressure::from_si(factor * self.length.si() / bore * dynamic),
            fittings: Pressure::from_si(fittings),
        }
    }

    fn loss_coefficient(&self, reynolds: f64) -> f64 {
        let bore = self.bore.si();
        let fitted = |f: &FittingCount| f64::from(f.count) * f.fitting.loss_coefficient(reynolds, bore);
        self.plain_loss + self.fittings.iter().map(fitted).sum::<f64>()
    }
}

/// A plain pipe asked for by the handbook's rule of thumb of Hazen and Williams.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HazenWilliams {
    /// Inner diameter d.
    pub bore: Length,
    /// Roughness constant C; 150 for copper in engineering pages, 133 to 145 in printed tables.
    pub constant: f64,
}

impl HazenWilliams {
    /// Pressure gradient in Pa/m: 4.52 Q^1.85/(C^1.85 d^4.87) psi/ft with Q in US gal/min and d in inches.
    ///
    /// Cold water, turbulent; it knows neither temperature nor glycol. For comparison with printed tables only:
    /// [`Run::pressure_drop`] decides.
    pub fn gradient(self, flow: VolumeRate) -> Result<f64, DomainError> {
        let inches = positive("bore", self.bore.si())? / INCH;
        let constant = positive("Hazen-Williams constant", self.constant)?;
        let gallons = not_negative("flow", flow.si())? / GALLON_PER_MINUTE;
        Ok(4.52 * (gallons / constant).powf(1.85) / inches.powf(4.87) * PSI / FOOT)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::fittings::Fitting;
    use crate::physics::fluid::Fluid;
    use crate::units::si::celsius;

    fn run() -> Run {
        Run {
            bore: Length::from_si(0.0206),
            length: Length::from_si(30.0),
            roughness: Length::from_si(DRAWN_TUBE_ROUGHNESS),
            fittings: vec![FittingCount { fitting: Fitting::Elbow90, count: 8 }],
            plain_loss: 1.5,
        }
    }

    #[test]
    fn friction_is_laminar_at_the_low_end_and_finite_at_rest() {
        assert!((friction_factor(100.0, 0.0) / 0.64 - 1.0).abs() < 1e-6);
        assert!(friction_factor(0.0, 0.0).is_finite());
    }

    #[test]
    fn pressure_drop_rises_with_flow_without_a_jump() {
        let liquid = Fluid::Water.properties_at(celsius(40.0).si());
        let at = |step: u32| run().drop_at(&liquid, f64::from(step) * 1e-7).total().si();
        assert!(at(0).abs() < f64::MIN_POSITIVE);
        for step in 1..8000 {
            let (before, here) = (at(step - 1), at(step));
            assert!(here > before, "falls at step {step}");
            assert!(step < 50 || here / before < 1.0 + 6.0 / f64::from(step), "jumps at step {step}");
        }
    }

    #[test]
    fn a_pipe_without_bore_and_a_backward_flow_are_refused() {
        let liquid = Fluid::Water.properties_at(celsius(40.0).si());
        let flow = VolumeRate::from_si(1e-4);
        assert!(Run { bore: Length::from_si(0.0), ..run() }.pressure_drop(&liquid, flow).is_err());
        assert!(run().pressure_drop(&liquid, -flow).is_err());
        assert!(Run { roughness: Length::from_si(0.002), ..run() }.pressure_drop(&liquid, flow).is_err());
    }
}
