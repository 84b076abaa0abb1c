//! Losses of single fittings: bends, tees, valves, tank ports, hose barbs.
//!
//! Pipe walls live in `pipe`. Dimensions of fittings as goods live in the handbook.

use super::customary::INCH;
use super::domain::{DomainError, within};
use crate::units::si::{Dimension, Length};

/// A fitting with a two-K loss (Hooper), or a tank port with a constant one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Fitting {
    /// 90° elbow of short radius, screwed or soldered (r/D = 1).
    Elbow90,
    /// 90° elbow of long radius (r/D = 1.5).
    Elbow90Long,
    /// 45° elbow.
    Elbow45,
    /// 180° return bend.
    Return180,
    /// Tee passed straight through, of the same bore.
    TeeRun,
    /// Tee used as an elbow.
    TeeBranch,
    /// Gate or ball valve with full bore.
    FullBoreValve,
    /// Globe valve.
    GlobeValve,
    /// Swing check valve.
    SwingCheck,
    /// Lift check valve.
    LiftCheck,
    /// Pipe opening into a tank.
    TankInlet,
    /// Pipe leaving a tank, flush and sharp.
    TankOutlet,
}

/// How many of one fitting sit in a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FittingCount {
    /// The fitting.
    pub fitting: Fitting,
    /// How many of it.
    pub count: u32,
}

impl Fitting {
    /// Every fitting, in the order of a list to pick from.
    pub const ALL: [Self; 12] = [
        Self::Elbow90,
        Self::Elbow90Long,
        Self::Elbow45,
        Self::Return180,
        Self::TeeRun,
        Self::TeeBranch,
        Self::FullBoreValve,
        Self::GlobeValve,
        Self::SwingCheck,
        Self::LiftCheck,
        Self::TankInlet,
        Self::TankOutlet,
    ];

    /// Loss coefficient K on the dynamic pressure of the pipe, Δp = K ρ v²/2.
    ///
    /// K = K₁/Re + K∞ (1 + 1 in/D), with Re and the bore D of the pipe (Hooper, Chemical Engineering 24 Aug. 1981,
    /// 96; coefficients as carried by a general-purpose fluids library). All Re > 0; at Re = 0 K is infinite, so
    /// ask for it only while something flows. Tank ports: K = 1.0 in, 0.5 out, of classical hydraulics and
    /// independent of Re.
    pub fn loss_coefficient(self, reynolds: f64, bore_m: f64) -> f64 {
        match self {
            Self::TankInlet => 1.0,
            Self::TankOutlet => 0.5,
            other => {
                let (laminar, turbulent) = other.two_k();
                laminar / reynolds + turbulent * (1.0 + INCH / bore_m)
            }
        }
    }

    /// K₁ and K∞ of Hooper's table.
    const fn two_k(self) -> (f64, f64) {
        match self {
            Self::Elbow90 => (800.0, 0.25),
            Self::Elbow90Long => (800.0, 0.20),
            Self::Elbow45 => (500.0, 0.20),
            Self::Return180 => (1000.0, 0.35),
            Self::TeeRun => (150.0, 0.05),
            Self::TeeBranch => (800.0, 0.80),
            Self::FullBoreValve => (300.0, 0.10),
            Self::GlobeValve => (1500.0, 4.0),
            Self::SwingCheck => (1500.0, 1.5),
            Self::LiftCheck => (2000.0, 10.0),
            Self::TankInlet | Self::TankOutlet => (0.0, 0.0),
        }
    }
}

/// A hose barb set in a line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoseBarb {
    /// Bore of the line on both sides, D.
    pub line_bore: Length,
    /// Bore through the barb, b ≤ D.
    pub barb_bore: Length,
}

impl HoseBarb {
    /// Loss coefficient on the dynamic pressure of the line.
    ///
    /// K = [0.5 (1 − β²) + (1 − β²)²]/β⁴ with β = b/D: a sharp contraction and the Borda–Carnot widening behind it
    /// (classical hydraulics, turbulent flow). A barb wider than its line is refused.
    pub fn loss_coefficient(self) -> Result<f64, DomainError> {
        let line = super::domain::positive("line bore", self.line_bore.si())?;
        let barb = super::domain::positive("barb bore", self.barb_bore.si())?;
        let square = within("barb bore over line bore", barb / line, 0.0, 1.0)?.powi(2);
        Ok((0.5 * (1.0 - square) + (1.0 - square).powi(2)) / square.powi(2))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_barb_of_the_same_bore_costs_nothing() {
        let barb = HoseBarb { line_bore: Length::from_si(0.02), barb_bore: Length::from_si(0.02) };
        assert_eq!(barb.loss_coefficient(), Ok(0.0));
    }

    #[test]
    fn a_barb_wider_than_its_line_is_refused() {
        let barb = HoseBarb { line_bore: Length::from_si(0.02), barb_bore: Length::from_si(0.021) };
        assert!(matches!(barb.loss_coefficient(), Err(DomainError::Outside { .. })));
    }

    #[test]
    fn every_fitting_loses_more_in_slow_flow() {
        for fitting in Fitting::ALL {
            assert!(fitting.loss_coefficient(500.0, 0.02) >= fitting.loss_coefficient(50_000.0, 0.02));
        }
    }
}
