//! The solder fillet of a flat sheet on a round tube: section, metal, conductance.
//!
//! The bond as a fin sees it lives in `fin`; joints of fittings in `harp_shop`.

use super::domain::{DomainError, positive};
use crate::units::si::{Area, Dimension, Length, LineConductance, ThermalConductivity};

/// Solder between a flat sheet and a tube lying on it, symmetric about the line of contact.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fillet {
    /// Outer diameter of the tube, 2R.
    pub tube_outer_diameter: Length,
    /// Width of the fillet b, up to the tube's diameter.
    pub width: Length,
    /// Thickness of the solder film under the line of contact g₀.
    pub film: Length,
}

impl Fillet {
    /// Section of the solder, 2 \[R x − (x √(R² − x²) + R² asin(x/R))/2\] + g₀ b with x = b/2.
    ///
    /// Exact geometry, own derivation. Sizes above zero, b not wider than the tube.
    pub fn section(&self) -> Result<Area, DomainError> {
        let (radius, x, film) = self.sizes()?;
        let under_arc = 0.5 * (x * (radius * radius - x * x).sqrt() + radius * radius * (x / radius).asin());
        Ok(Area::from_si(2.0 * (radius * x - under_arc + film * x)))
    }

    /// Conductance across the fillet per metre of tube, 2 ∫₀^{b/2} k dx/(g₀ + R − √(R² − x²)).
    ///
    /// Parallel paths straight across the solder, own derivation; the integral is taken exactly: with c = g₀ + R and
    /// sin t = b/(2R) it is 2k \[2c/√(c² − R²) · atan(√((c + R)/(c − R)) tan(t/2)) − t\].
    pub fn conductance(&self, solder: ThermalConductivity) -> Result<LineConductance, DomainError> {
        let (radius, x, film) = self.sizes()?;
        let conductivity = positive("solder conductivity", solder.si())?;
        let c = film + radius;
        let t = (x / radius).asin();
        let swing = (((c + radius) / film).sqrt() * (0.5 * t).tan()).atan();
        Ok(LineConductance(2.0 * conductivity * (2.0 * c / (film * (c + radius)).sqrt() * swing - t)))
    }

    /// Radius, half-width and film, m.
    fn sizes(&self) -> Result<(f64, f64, f64), DomainError> {
        let radius = 0.5 * positive("tube_outer_diameter", self.tube_outer_diameter.si())?;
        let half = 0.5 * positive("fillet width", self.width.si())?;
        let film = positive("solder film", self.film.si())?;
        super::domain::within("fillet width", 2.0 * half, 0.0, 2.0 * radius)?;
        Ok((radius, half, film))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fillet(width: f64) -> Fillet {
        let (tube_outer_diameter, film) = (Length::from_si(0.015), Length::from_si(0.0001));
        Fillet { tube_outer_diameter, width: Length::from_si(width), film }
    }

    #[test]
    fn a_narrow_fillet_is_a_plain_film() {
        let solder = ThermalConductivity::from_si(60.0);
        let narrow = fillet(1e-5).conductance(solder).unwrap().si();
        assert!((narrow / (60.0 * 1e-5 / 1e-4) - 1.0).abs() < 1e-4);
        assert!((fillet(1e-5).section().unwrap().si() / 1e-9 - 1.0).abs() < 1e-4);
    }

    #[test]
    fn a_wider_fillet_takes_more_solder_and_carries_more() {
        let solder = ThermalConductivity::from_si(60.0);
        assert!(fillet(0.008).section().unwrap() > fillet(0.006).section().unwrap());
        assert!(fillet(0.008).conductance(solder).unwrap() > fillet(0.006).conductance(solder).unwrap());
    }

    #[test]
    fn a_fillet_wider_than_its_tube_is_refused() {
        assert!(fillet(0.016).section().is_err());
        assert!(fillet(0.0).section().is_err());
    }
}
