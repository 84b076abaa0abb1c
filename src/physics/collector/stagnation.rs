//! A dry or standing collector: the temperature at which it loses all that it absorbs.
//!
//! What a temperature does to solder, timber or liquid is judged elsewhere.

use super::check::not_settled;
use super::{Collector, CollectorError, Surroundings};
use crate::physics::domain::not_negative;
use crate::physics::optics::Sunlight;
use crate::physics::root::{self, Bracket};
use crate::units::si::{Dimension, HeatFluxDensity, HeatTransfer, Temperature, Velocity, celsius};

/// Hottest plate that is looked for, K.
const HOTTEST_PLATE: f64 = 1500.0;

/// What a collector without flow is exposed to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Exposure {
    /// Beam at normal incidence; zero for a night.
    pub irradiance: HeatFluxDensity,
    /// Air temperature.
    pub ambient: Temperature,
    /// Effective sky temperature.
    pub sky: Temperature,
    /// Wind at the collector.
    pub wind: Velocity,
}

impl Exposure {
    /// 1000 W/m², air and sky at 30 °C, 1 m/s: the standard stagnation point (ISO 9806, from memory; the sky at air
    /// temperature is this project's convention).
    pub fn standard() -> Self {
        Self::clear(1000.0, 30.0)
    }

    /// 1100 W/m², air and sky at 35 °C, 1 m/s: a hot day in high sun (project rule).
    pub fn severe() -> Self {
        Self::clear(1100.0, 35.0)
    }

    fn clear(irradiance: f64, degrees: f64) -> Self {
        Self {
            irradiance: HeatFluxDensity::from_si(irradiance),
            ambient: celsius(degrees),
            sky: celsius(degrees),
            wind: Velocity::from_si(1.0),
        }
    }
}

/// The balance of a collector without flow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stagnation {
    /// The plate, taken as isothermal.
    pub plate: Temperature,
    /// The cover, if there is one.
    pub cover: Option<Temperature>,
    /// Absorbed sun S, the extra loss to a cold sky subtracted.
    pub absorbed: HeatFluxDensity,
    /// U_L at the plate temperature.
    pub total_loss: HeatTransfer,
}

impl Collector {
    /// Plate temperature without flow, see [`Collector::stagnate`].
    pub fn stagnation(&self, exposure: &Exposure) -> Result<Temperature, CollectorError> {
        self.stagnate(exposure).map(|balance| balance.plate)
    }

    /// The balance without flow: S(T_p) = U_L(T_p)(T_p − T_a), solved to 1e-9 K for one isothermal plate.
    ///
    /// The bond plays no part: without flow the sheet has nothing to give to the tube. With no irradiance it is the
    /// plate of a clear night, which may fall below the air. Refused when the plate would pass 1500 K.
    pub fn stagnate(&self, exposure: &Exposure) -> Result<Stagnation, CollectorError> {
        self.check()?;
        let Exposure { irradiance, ambient, sky, wind } = *exposure;
        let surroundings = Surroundings { ambient, sky, wind };
        surroundings.check()?;
        not_negative("irradiance", irradiance.si())?;
        let outside = self.outside(surroundings);
        let caught = self.optics().catch(&Sunlight::normal(irradiance), self.tilt);
        let surplus = |plate: f64| {
            self.losses(plate, &outside)
                .map_or(f64::NAN, |losses| losses.absorbed(&caught) - losses.total() * (plate - outside.ambient))
        };
        let bracket = Bracket { low: outside.ambient.min(outside.sky), high: HOTTEST_PLATE };
        let plate = root::find(bracket, 1e-9, surplus).ok_or(not_settled("stagnation temperature", f64::NAN))?;
        let losses = self.losses(plate, &outside).ok_or(not_settled("cover temperature", f64::NAN))?;
        Ok(Stagnation {
            plate: Temperature::from_si(plate),
            cover: losses.top.cover.map(|cover| Temperature::from_si(cover.temperature)),
            absorbed: HeatFluxDensity::from_si(losses.absorbed(&caught)),
            total_loss: HeatTransfer::from_si(losses.total()),
        })
    }
}
