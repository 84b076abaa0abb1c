//! What an hour brings: sun through the glass, air, cold supply, draw; and the year of them from a climate.

use std::ops::RangeInclusive;

use super::YearError;
use super::tank::WATER_DENSITY;
use crate::climate::{Climate, HourOfYear};
use crate::physics::cover::{ground_equivalent_angle, sky_equivalent_angle};
use crate::physics::domain::{not_negative, within};
use crate::physics::optics::PlateOptics;
use crate::physics::transposition::PlaneIrradiance;
use crate::units::si::{Angle, Dimension, Temperature, Volume};

/// Seconds of an hour.
pub(super) const HOUR: f64 = 3600.0;

/// What stays constant for an hour or less. Plain numbers in SI: there are 8760 of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Conditions {
    /// Irradiance on the collector's plane, each part weighted by the incidence modifier, W/m².
    pub irradiance: f64,
    /// Outside air, K.
    pub air: f64,
    /// Cold supply, K.
    pub mains: f64,
    /// Mixed water drawn at the tap temperature, kg/s.
    pub draw: f64,
    /// Whether pump and heaters have electricity.
    pub powered: bool,
}

impl Conditions {
    pub(super) fn check(&self) -> Result<(), YearError> {
        within("irradiance", self.irradiance, -50.0, 2500.0)?;
        within("air", self.air, 173.15, 373.15)?;
        within("cold supply", self.mains, 263.15, 373.15)?;
        not_negative("draw", self.draw)?;
        Ok(())
    }
}

/// How (τα) falls with the angle of incidence, over its value at normal incidence.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Incidence {
    /// K = 1 − b₀(1/cos θ − 1), cut to 0 to 1.
    Factor {
        /// b₀, about 0.1 for one pane.
        b0: f64,
    },
    /// K = (τα)(θ)/(τα)(0) of plate and pane.
    Plate(PlateOptics),
}

impl Incidence {
    /// K against the cosine of the angle of incidence; 0 at and behind grazing.
    fn modifier(&self, normal: f64, cosine: f64) -> f64 {
        if cosine <= 0.0 {
            return 0.0;
        }
        match self {
            Self::Factor { b0 } => (1.0 - b0 * (cosine.recip() - 1.0)).clamp(0.0, 1.0),
            Self::Plate(optics) => optics.product(Angle::from_si(cosine.min(1.0).acos())) / normal,
        }
    }

    fn normal(&self) -> f64 {
        match self {
            Self::Factor { .. } => 1.0,
            Self::Plate(optics) => optics.product(Angle::from_si(0.0)),
        }
    }
}

/// Irradiance on a plane of a tilt, each part weighted by the modifier at its own angle, hour by hour, W/m².
///
/// Beam and circumsolar light come at the beam's angle, the rest of the sky and the ground at the angles of Brandemuehl
/// & Beckman 1980.
pub fn absorbed_irradiance(light: &[PlaneIrradiance], tilt: Angle, incidence: &Incidence) -> Vec<f64> {
    let normal = incidence.normal();
    let at = |angle: Angle| incidence.modifier(normal, angle.si().cos());
    let (sky, ground) = (at(sky_equivalent_angle(tilt)), at(ground_equivalent_angle(tilt)));
    let weighted = |hour: &PlaneIrradiance| {
        let direct = hour.beam + hour.circumsolar;
        let beam = if direct > 0.0 { direct * incidence.modifier(normal, hour.incidence_cosine) } else { 0.0 };
        beam + sky * (hour.sky_isotropic + hour.horizon) + ground * hour.ground
    };
    light.iter().map(weighted).collect()
}

/// Hot water of a household through the year.
#[derive(Clone, Copy)]
pub struct Service<'a> {
    /// Mixed water of a day.
    pub daily: Volume,
    /// Share of the day's volume in each hour; they sum to one.
    pub profile: [f64; 24],
    /// Days of the year (1 to 365) without any draw.
    pub away: &'a [RangeInclusive<u16>],
    /// Temperature of the cold supply on a day of the year.
    pub supply: &'a dyn Fn(u16) -> Temperature,
}

/// The conditions of all hours: sunlight of the plane as `absorbed_irradiance` gives it, air of the climate, the
/// household's draw and supply.
pub fn hourly(climate: &Climate, irradiance: &[f64], service: &Service) -> Result<Vec<Conditions>, YearError> {
    let daily = not_negative("daily hot water", service.daily.si())? * WATER_DENSITY;
    let whole: f64 = service.profile.iter().sum();
    within("sum of the draw profile", whole, 1.0 - 1e-9, 1.0 + 1e-9)?;
    let hours = HourOfYear::all().zip(climate.hours()).zip(irradiance);
    let conditions = hours.map(|((at, hour), &irradiance)| {
        let day = at.day_of_year();
        let away = service.away.iter().any(|days| days.contains(&day));
        Conditions {
            irradiance,
            air: hour.dry_bulb,
            mains: (service.supply)(day).si(),
            draw: if away { 0.0 } else { daily * service.profile[at.index() % 24] / HOUR },
            powered: true,
        }
    });
    Ok(conditions.collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::optics::Pane;

    #[test]
    fn both_modifiers_start_at_one_and_end_at_zero() {
        let pane = Some(Pane { refractive_index: 1.526, optical_depth: 0.05 });
        for incidence in [Incidence::Factor { b0: 0.1 }, Incidence::Plate(PlateOptics { absorptance: 0.95, pane })] {
            let at = |degrees: f64| incidence.modifier(incidence.normal(), degrees.to_radians().cos());
            assert!((at(0.0) - 1.0).abs() < 1e-12);
            assert!(at(40.0) > at(60.0) && at(60.0) > at(80.0));
            assert!(at(89.9) < 0.05 && at(95.0) == 0.0);
        }
    }
}
