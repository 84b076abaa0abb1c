//! Wind pressure on a panel and what it does to the mounts.
//!
//! Lives here: velocity pressure and the arithmetic of one uplift model. Must not live here: pressure coefficients,
//! which the builder takes from the code, and verdicts. Screening only: the local code and a licensed engineer decide.

use super::customary::FOOT;
use super::domain::{DomainError, positive, within};
use super::hydrostatics::STANDARD_GRAVITY;
use crate::units::si::{Angle, Area, Dimension, Force, Length, Mass, Pressure, Velocity};

/// Half the density of standard air, kg/m³, in q = 0.613 v².
const HALF_DENSITY: f64 = 0.613;
/// Lowest height of the exposure law, ft; lower panels take the value of this height, as the code prints it.
const LOWEST_FEET: f64 = 15.0;

/// Exposure of the site after ASCE 7.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exposure {
    /// Town, suburb, wood.
    B,
    /// Open country.
    C,
    /// Flat coast and water.
    D,
}

impl Exposure {
    /// K_z = 2.01 (z/z_g)^(2/α), with α and z_g 7.0 and 1200, 9.5 and 900, 11.5 and 700 ft (ASCE 7, verified page).
    ///
    /// Below 15 ft (4.6 m) the value of 15 ft holds, as in the code; an error above z_g.
    pub fn coefficient(self, height: Length) -> Result<f64, DomainError> {
        let (exponent, gradient) = match self {
            Self::B => (7.0, 1200.0),
            Self::C => (9.5, 900.0),
            Self::D => (11.5, 700.0),
        };
        let height = within("height above ground", height.si(), 0.0, gradient * FOOT)? / FOOT;
        Ok(2.01 * (height.max(LOWEST_FEET) / gradient).powf(2.0 / exponent))
    }

    /// K_z = 2.41 (z/z_g)^(2/α), with α and z_g 7.5 and 3280, 9.8 and 2460, 11.5 and 1935 ft (ASCE 7 of 2022, from
    /// memory; it gives 1.00 in open country at 33 ft, where the gust is defined).
    ///
    /// Below 15 ft (4.6 m) the value of 15 ft holds; an error above z_g.
    pub fn coefficient_of_2022(self, height: Length) -> Result<f64, DomainError> {
        let (exponent, gradient) = match self {
            Self::B => (7.5, 3280.0),
            Self::C => (9.8, 2460.0),
            Self::D => (11.5, 1935.0),
        };
        let height = within("height above ground", height.si(), 0.0, gradient * FOOT)? / FOOT;
        Ok(2.41 * (height.max(LOWEST_FEET) / gradient).powf(2.0 / exponent))
    }
}

/// Factors on the dynamic pressure of the wind, all 1 for the bare pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WindFactors {
    /// K_z of the exposure and height.
    pub exposure: f64,
    /// K_zt of hills and escarpments.
    pub topography: f64,
    /// K_d of direction (0.85 for building parts, from memory; newer editions move it elsewhere).
    pub directionality: f64,
    /// K_e of the ground's elevation.
    pub elevation: f64,
}

/// Velocity pressure q = 0.613 K_z K_zt K_d K_e V², V the 3 s gust that the code in force maps.
///
/// ASCE 7; up to 110 m/s, factors 0.3 to 3.
pub fn velocity_pressure(gust: Velocity, factors: WindFactors) -> Result<Pressure, DomainError> {
    let gust = within("gust", gust.si(), 0.0, 110.0)?;
    let WindFactors { exposure, topography, directionality, elevation } = factors;
    let mut product = 1.0;
    for factor in [exposure, topography, directionality, elevation] {
        product *= within("factor on the wind pressure", factor, 0.3, 3.0)?;
    }
    Ok(Pressure::from_si(HALF_DENSITY * product * gust * gust))
}

/// Force of a steady wind on a panel held in the hands, 0.613 v² A C, C a drag coefficient.
pub fn force_on_panel(area: Area, wind: Velocity, drag: f64) -> Result<Force, DomainError> {
    let area = positive("area", area.si())?;
    let wind = within("wind", wind.si(), 0.0, 50.0)?;
    Ok(Force::from_si(HALF_DENSITY * wind * wind * area * positive("drag coefficient", drag)?))
}

/// A panel on its mounts under suction.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Uplift {
    /// Net suction normal to the panel at strength level: q, coefficients and array factors together.
    pub suction: Pressure,
    /// Area of the panel.
    pub area: Area,
    /// Mass of the panel as mounted, empty.
    pub mass: Mass,
    /// Slope of the panel.
    pub tilt: Angle,
    /// Number of mounts that share it equally.
    pub mounts: u32,
}

/// What lifts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UpliftForces {
    /// 0.6 W: suction at the allowable-stress level.
    pub wind: Force,
    /// 0.6 W − 0.6 D cos(tilt); negative when the weight holds the panel down.
    pub net: Force,
    /// Net force on one mount.
    pub per_mount: Force,
}

impl Uplift {
    /// Net uplift of the combination 0.6 D + 0.6 W of allowable stress design (from memory).
    ///
    /// Mounts share equally: where they do not, weigh them by their areas.
    pub fn forces(&self) -> Result<UpliftForces, DomainError> {
        let area = positive("area", self.area.si())?;
        let suction = within("suction", self.suction.si(), 0.0, 50_000.0)?;
        let mass = within("mass", self.mass.si(), 0.0, 1000.0)?;
        let tilt = within("tilt", self.tilt.si(), 0.0, std::f64::consts::FRAC_PI_2)?;
        let mounts = positive("number of mounts", f64::from(self.mounts))?;
        let wind = 0.6 * suction * area;
        let net = wind - 0.6 * mass * STANDARD_GRAVITY * tilt.cos();
        Ok(UpliftForces {
            wind: Force::from_si(wind),
            net: Force::from_si(net),
            per_mount: Force::from_si(net / mounts),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_low_panel_takes_the_lowest_printed_height() {
        let at = |metres| Exposure::C.coefficient(Length::from_si(metres)).unwrap();
        assert!((at(1.0) - at(4.572)).abs() < 1e-12);
        assert!(Exposure::B.coefficient(Length::from_si(500.0)).is_err());
    }

    /// The gust of the map is that of open country at 33 ft, so K_z is 1 there by definition.
    #[test]
    fn open_country_at_ten_metres_is_where_the_gust_is_defined() {
        let height = Length::from_si(33.0 * FOOT);
        assert!((Exposure::C.coefficient_of_2022(height).unwrap() - 1.0).abs() < 0.005);
        assert!((Exposure::C.coefficient(height).unwrap() - 1.0).abs() < 0.01);
        assert!(Exposure::B.coefficient_of_2022(height).unwrap() < Exposure::D.coefficient_of_2022(height).unwrap());
    }

    #[test]
    fn weight_may_outweigh_the_wind() {
        let calm = Uplift {
            suction: Pressure::from_si(50.0),
            area: Area::from_si(2.0),
            mass: Mass::from_si(45.0),
            tilt: Angle::from_si(0.5),
            mounts: 4,
        };
        assert!(calm.forces().unwrap().net.si() < 0.0);
    }
}
