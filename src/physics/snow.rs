//! Snow on a panel.
//!
//! Only the arithmetic lives here; ground snow and factors come from the code in force. Drifts behind panels and snow
//! that slides onto people are not computed. Screening only.

use super::domain::{DomainError, within};
use crate::units::si::{Angle, Dimension, Pressure};

/// Snow of the site and the factors of the code.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Snow {
    /// Ground snow load p_g.
    pub ground: Pressure,
    /// Exposure factor C_e.
    pub exposure: f64,
    /// Thermal factor C_t.
    pub thermal: f64,
    /// Importance factor I_s.
    pub importance: f64,
    /// Slope factor C_s, 0 to 1. Glass is slippery, so it falls with the tilt; take it from the code.
    pub slope: f64,
}

/// Snow pressures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SnowPressures {
    /// On the flat, p_f = 0.7 C_e C_t I_s p_g.
    pub flat: Pressure,
    /// On the slope, per horizontal area, p_s = C_s p_f.
    pub sloped: Pressure,
    /// Normal to the glass, per area of glass, p_s cos²(tilt).
    pub normal_to_glass: Pressure,
}

/// Snow pressures on a panel after ASCE 7 (from memory; the normal part is geometry). Tilt 0 to 90°.
pub fn pressures(snow: Snow, tilt: Angle) -> Result<SnowPressures, DomainError> {
    let ground = within("ground snow load", snow.ground.si(), 0.0, 50_000.0)?;
    let tilt = within("tilt", tilt.si(), 0.0, std::f64::consts::FRAC_PI_2)?;
    let mut flat = 0.7 * ground;
    for factor in [snow.exposure, snow.thermal, snow.importance] {
        flat *= within("factor on the snow load", factor, 0.5, 2.0)?;
    }
    let sloped = flat * within("slope factor", snow.slope, 0.0, 1.0)?;
    Ok(SnowPressures {
        flat: Pressure::from_si(flat),
        sloped: Pressure::from_si(sloped),
        normal_to_glass: Pressure::from_si(sloped * tilt.cos().powi(2)),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_steep_pane_feels_little_of_its_snow() {
        let snow = Snow { ground: Pressure::from_si(2000.0), exposure: 1.0, thermal: 1.2, importance: 1.0, slope: 0.5 };
        let pressures = pressures(snow, Angle::from_si(60.0_f64.to_radians())).unwrap();
        assert!((pressures.flat.si() - 1680.0).abs() < 1e-9);
        assert!((pressures.normal_to_glass.si() - 210.0).abs() < 1e-9);
    }
}
