//! A pane under uniform load: deflection, stress, allowable stress, thickness, mass.
//!
//! Lives here: plate theory for a pane held on four sides, and what glass stands for how long. Must not live here:
//! delivered thicknesses (`handbook`), wind and snow (`wind`, `snow`), verdicts. Screening only: a glazier or the
//! printed charts of the standard confirm.

mod large_deflection;

pub use large_deflection::large_deflection;

use super::domain::{DomainError, positive, within};
use crate::units::si::{Area, Dimension, Length, Mass, Pressure, Time};
use std::f64::consts::PI;

/// Young's modulus of soda-lime float glass, Pa (verified technical bulletin).
pub const GLASS_MODULUS: f64 = 72e9;
/// Density of glass, kg/m³ (same bulletin): 2.5 kg/m² for each millimetre.
pub const GLASS_DENSITY: f64 = 2500.0;
/// Poisson's ratio that the large-deflection table was computed with; the bulletin prints 0.23.
pub const GLASS_POISSON: f64 = 0.22;

/// Mass of a pane, ρ A t, with its nominal thickness.
pub fn mass(area: Area, nominal_thickness: Length) -> Mass {
    Mass::from_si(GLASS_DENSITY * area.si() * nominal_thickness.si())
}

/// A rectangular pane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pane {
    /// One side, between the supports.
    pub width: Length,
    /// The other side.
    pub height: Length,
    /// Least thickness that may be delivered (2.92 mm for nominal 3 mm), not the nominal one.
    pub thickness: Length,
}

/// A plate material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Elasticity {
    /// Young's modulus E.
    pub modulus: Pressure,
    /// Poisson's ratio ν.
    pub poisson: f64,
}

impl Elasticity {
    /// Float glass.
    pub fn glass() -> Self {
        Self { modulus: Pressure::from_si(GLASS_MODULUS), poisson: GLASS_POISSON }
    }
}

/// What a pane does under its load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bending {
    /// Deflection of the middle.
    pub deflection: Length,
    /// Largest tensile stress.
    pub stress: Pressure,
}

/// Short side, ratio of the sides (≥ 1), thickness: checked.
fn shape(pane: &Pane) -> Result<(f64, f64, f64), DomainError> {
    let width = positive("width of the pane", pane.width.si())?;
    let height = positive("height of the pane", pane.height.si())?;
    let thickness = positive("thickness of the pane", pane.thickness.si())?;
    Ok((width.min(height), width.max(height) / width.min(height), thickness))
}

/// Coefficients of a simply supported rectangular plate under uniform load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlateCoefficients {
    /// α in w = α q a⁴/D.
    pub deflection: f64,
    /// β in M = β q a², the moment across the short span in the middle.
    pub moment: f64,
}

/// α and β for a ratio of sides b/a from 1 to 20, by Lévy's series.
///
/// α = (4/π⁵) Σ s (1 − (α_m tanh α_m + 2)/(2 cosh α_m))/m⁵, α_m = mπb/2a, m odd, s = ±1 in turn. Timoshenko and
/// Woinowsky-Krieger, Theory of Plates and Shells, chapter 5 (from memory); α(1) = 0.00406, β(1) = 0.0479 at ν = 0.3.
pub fn plate_coefficients(ratio: f64, poisson: f64) -> Result<PlateCoefficients, DomainError> {
    const TERMS: i32 = 25;
    within("ratio of the sides", ratio, 1.0, 20.0)?;
    within("Poisson's ratio", poisson, 0.0, 0.5)?;
    let mut deflection = 0.0;
    let mut moment = 0.125;
    for index in 0..TERMS {
        let m = f64::from(2 * index + 1);
        let sign = if index % 2 == 0 { 1.0 } else { -1.0 };
        let angle = m * PI * ratio / 2.0;
        let by_cosh = 1.0 / angle.cosh();
        let fifth = PI.powi(5) * m.powi(5);
        let a = -2.0 * (angle * angle.tanh() + 2.0) * by_cosh / fifth;
        let b = 2.0 * by_cosh / fifth;
        deflection += sign * (4.0 / fifth + a);
        moment += sign * m * m * PI * PI * ((1.0 - poisson) * a - 2.0 * poisson * b);
    }
    Ok(PlateCoefficients { deflection, moment })
}

/// Small-deflection bending of a simply supported pane: w = α q a⁴/D, σ = 6 β q a²/t², D = E t³/12(1 − ν²).
///
/// Valid to w of about t/2. Beyond, membrane forces carry load: the stress is then an upper bound, often two to three
/// times too high, and [`large_deflection`] says more. (In a pane four times as long as wide the pull of its free edges
/// makes it 1 % too low at w of t.) Load of either sign counts by its size.
pub fn small_deflection(pane: &Pane, material: Elasticity, load: Pressure) -> Result<Bending, DomainError> {
    let (short, ratio, thickness) = shape(pane)?;
    let modulus = positive("modulus", material.modulus.si())?;
    let coefficients = plate_coefficients(ratio, material.poisson)?;
    let load = within("size of the load", load.si().abs(), 0.0, f64::MAX)?;
    let rigidity = modulus * thickness.powi(3) / (12.0 * (1.0 - material.poisson.powi(2)));
    Ok(Bending {
        deflection: Length::from_si(coefficients.deflection * load * short.powi(4) / rigidity),
        stress: Pressure::from_si(6.0 * coefficients.moment * load * (short / thickness).powi(2)),
    })
}

/// Heat treatment of the glass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Treatment {
    /// Float as it comes. Not for collectors: 30 K between middle and shaded edge already make 19 MPa.
    Annealed,
    /// Heat-strengthened.
    HeatStrengthened,
    /// Fully tempered.
    Tempered,
}

impl Treatment {
    /// Design stress for a load of 60 s at 0.8 % breakage: 19, 39, 77 MPa (verified technical bulletin).
    pub fn design_60_seconds(self) -> Pressure {
        Pressure::from_si(match self {
            Self::Annealed => 19e6,
            Self::HeatStrengthened => 39e6,
            Self::Tempered => 77e6,
        })
    }

    /// Exponent of the fall with duration. Annealed 1/16; the others from their 30-day values of 1.3 and 3.0 times the
    /// 3 s strength of annealed glass, 23.3 MPa (all from memory).
    fn duration_exponent(self) -> f64 {
        const THREE_SECONDS: f64 = 23.3e6;
        let from_thirty_days =
            |factor: f64| (self.design_60_seconds().si() / (factor * THREE_SECONDS)).ln() / (30.0 * 1440.0_f64).ln();
        match self {
            Self::Annealed => 1.0 / 16.0,
            Self::HeatStrengthened => from_thirty_days(1.3),
            Self::Tempered => from_thirty_days(3.0),
        }
    }

    /// Allowable stress for a load that lasts a time, σ = σ₆₀ (t/60 s)^−p, from 3 s (gust) to one year (snow).
    pub fn allowable(self, duration: Time) -> Result<Pressure, DomainError> {
        let seconds = within("duration of the load", duration.si(), 3.0, 366.0 * 86400.0)?;
        Ok(self.design_60_seconds() * (seconds / 60.0).powf(-self.duration_exponent()))
    }
}

/// What a pane must meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PaneLimits {
    /// Highest stress.
    pub stress: Pressure,
    /// Largest deflection: the least of a sixtieth of the short side, 25 mm and the gap less 5 mm (project rule).
    pub deflection: Length,
}

/// The first of several thicknesses, thin to thick, with which a pane meets its limits; `None` if none does.
///
/// A thickness too thin for the table of [`large_deflection`] is passed over: it is far beyond both limits.
pub fn least_thickness(
    pane: &Pane,
    load: Pressure,
    limits: PaneLimits,
    thicknesses: &[Length],
) -> Result<Option<Length>, DomainError> {
    for &thickness in thicknesses {
        match large_deflection(&Pane { thickness, ..*pane }, load) {
            Ok(bending) if bending.stress <= limits.stress && bending.deflection <= limits.deflection => {
                return Ok(Some(thickness));
            }
            Ok(_) | Err(DomainError::Outside { what: large_deflection::LOAD, .. }) => {}
            Err(error) => return Err(error),
        }
    }
    Ok(None)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pane(width: f64, height: f64, millimetres: f64) -> Pane {
        Pane {
            width: Length::from_si(width),
            height: Length::from_si(height),
            thickness: Length::from_si(millimetres / 1000.0),
        }
    }

    #[test]
    fn a_long_plate_bends_like_a_beam() {
        let coefficients = plate_coefficients(15.0, 0.3).unwrap();
        assert!((coefficients.deflection - 5.0 / 384.0).abs() < 1e-6);
        assert!((coefficients.moment - 0.125).abs() < 1e-6);
    }

    #[test]
    fn a_pane_bends_alike_whichever_side_is_called_width() {
        let load = Pressure::from_si(1000.0);
        assert_eq!(large_deflection(&pane(1.0, 2.0, 3.78), load), large_deflection(&pane(2.0, 1.0, 3.78), load));
    }

    #[test]
    fn a_faint_load_bends_a_pane_as_small_deflection_says() {
        let load = Pressure::from_si(5.0);
        let pane = pane(1.0, 1.5, 5.56);
        let linear = small_deflection(&pane, Elasticity::glass(), load).unwrap();
        let table = large_deflection(&pane, load).unwrap();
        assert!((table.deflection.si() / linear.deflection.si() - 1.0).abs() < 0.02);
        assert!((table.stress.si() / linear.stress.si() - 1.0).abs() < 0.02);
    }

    #[test]
    fn a_load_beyond_the_table_is_refused_and_a_thicker_pane_found() {
        let load = Pressure::from_si(3000.0);
        assert!(large_deflection(&pane(1.0, 2.0, 2.0), load).is_err());
        let limits = PaneLimits { stress: Pressure::from_si(77e6), deflection: Length::from_si(0.0167) };
        let stock = [0.00216, 0.00292, 0.00378, 0.00457, 0.00556, 0.00742, 0.00902].map(Length::from_si);
        let found = least_thickness(&pane(1.0, 2.0, 1.0), load, limits, &stock).unwrap().unwrap();
        assert!(found > stock[2]);
        assert_eq!(least_thickness(&pane(1.0, 2.0, 1.0), load, limits, &stock[..2]), Ok(None));
    }

    #[test]
    fn thirty_days_weaken_annealed_glass_most() {
        let ratio = |treatment: Treatment| {
            treatment.allowable(Time::from_si(30.0 * 86400.0)).unwrap().si() / treatment.design_60_seconds().si()
        };
        assert!(ratio(Treatment::Annealed) < ratio(Treatment::HeatStrengthened));
        assert!(ratio(Treatment::HeatStrengthened) < ratio(Treatment::Tempered));
    }
}
