//! Still columns of liquid: gravity, the pressure under a height, the height that makes a pressure.
//!
//! Moving liquid lives in `pipe` and `pump`, the air's own pressure with the site.

use super::domain::{DomainError, positive};
use crate::units::si::{Dimension, Length, MassDensity, Pressure};

/// Standard acceleration of gravity, m/s² (CGPM 1901).
pub const STANDARD_GRAVITY: f64 = 9.80665;

/// Pressure Δp = ρ g h under a column of liquid of height h; a negative height gives a negative pressure.
pub fn column_pressure(density: MassDensity, height: Length) -> Pressure {
    Pressure::from_si(density.si() * STANDARD_GRAVITY * height.si())
}

/// Height h = Δp/(ρ g) of the column that makes a pressure.
pub fn head(pressure: Pressure, density: MassDensity) -> Result<Length, DomainError> {
    Ok(Length::from_si(pressure.si() / (positive("density", density.si())? * STANDARD_GRAVITY)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn head_and_column_are_inverse() {
        let density = MassDensity::from_si(983.2);
        let height = head(column_pressure(density, Length::from_si(5.0)), density).unwrap();
        assert!((height.si() - 5.0).abs() < 1e-12);
    }
}
