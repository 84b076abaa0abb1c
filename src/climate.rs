//! A typical year of weather at a place, hour by hour, made ready for every later question.
//!
//! Lives here: readers of weather files (from bytes, never from the file system), their audit, the year of a plane,
//! monthly and yearly statistics. Must not live here: entries, verdicts, collectors.
//!
//! Conventions: local standard time, never daylight saving; row h of a day covers h−1 to h; the sun stands where it
//! does at h − ½ in the row's own year; temperature, humidity and wind are the row's own; 8760 rows; months by the
//! row's own month.

mod audit;
mod calendar;
mod epw;
mod error;
mod plane;
mod prepare;
mod raw;
mod scan;
mod statistics;
mod synthetic;
mod tmy2;
mod tmy3;

#[cfg(test)]
mod hostile;

pub use audit::{Audit, ClockCheck, ClockMethod, Doubt, Warning};
pub use calendar::{HOURS, HourOfYear};
pub use error::ClimateError;
pub use plane::{Albedo, BestTilt, Plane, PlaneYear};
pub use raw::{Format, Station};
pub use scan::{BestOrientation, Scan};
pub use statistics::{Extreme, MonthlySummary};
pub use synthetic::{Ground, MonthlyMeans, SyntheticError};

use crate::physics::sky::{self, SkyLaw};
use crate::physics::transposition::Sunlight;
use crate::units::si::{Dimension, HeatFluxDensity, Temperature};

/// One prepared hour. Numbers in SI base units.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hour {
    /// Irradiance on level ground, facing the sun, from the sky (W/m²), and the sun's direction at mid-hour.
    pub sunlight: Sunlight,
    /// Azimuth of the sun at mid-hour, clockwise from true north, rad.
    pub sun_azimuth: f64,
    /// Air temperature, K.
    pub dry_bulb: f64,
    /// Dew point, K; `None` where the file gives no moisture.
    pub dew_point: Option<f64>,
    /// Wind speed at the station's height (10 m as a rule), m/s.
    pub wind: f64,
    /// Air pressure, Pa.
    pub pressure: f64,
    /// Infrared from the sky on a level plane, W/m².
    pub infrared: Option<f64>,
    /// Opaque cloud, tenths.
    pub opaque_cloud: Option<f64>,
}

/// A year of weather at a station.
#[derive(Clone, Debug, PartialEq)]
pub struct Climate {
    station: Station,
    hours: Vec<Hour>,
    albedo: Option<[f64; 12]>,
    audit: Audit,
    instead_of: Vec<String>,
}

impl Climate {
    /// Reads a weather file: TMY3 csv (whole or with only the needed columns), TMY2 or EPW, told apart by content.
    ///
    /// `name` labels the source in reports. Nothing is read from the file system.
    pub fn from_bytes(name: &str, bytes: &[u8]) -> Result<Self, ClimateError> {
        Self::with_clock_shift(name, bytes, 0.0)
    }

    /// Reads a weather file whose clock is wrong: the sun is taken `minutes` later than the stamps say.
    ///
    /// The audit of a first reading tells the shift.
    pub fn with_clock_shift(name: &str, bytes: &[u8], minutes: f64) -> Result<Self, ClimateError> {
        prepare::prepare(raw::read(name, bytes)?, minutes)
    }

    /// Notes the better sources that could not be used, each with the reason.
    #[must_use]
    pub fn instead_of(mut self, reasons: Vec<String>) -> Self {
        self.instead_of = reasons;
        self
    }

    /// The better sources that could not be used, each with the reason.
    pub fn passed_over(&self) -> &[String] {
        &self.instead_of
    }

    /// Where and what the file is.
    pub fn station(&self) -> &Station {
        &self.station
    }

    /// What was found wrong or doubtful in the file, and what was filled in.
    pub fn audit(&self) -> &Audit {
        &self.audit
    }

    /// The 8760 hours in calendar order.
    pub fn hours(&self) -> &[Hour] {
        &self.hours
    }

    /// Monthly means of the ground's reflectance, if the file gives believable ones (0.05 to 0.9).
    pub fn albedo(&self) -> Option<[f64; 12]> {
        self.albedo
    }

    /// Sky temperature of an hour by the best law the file allows, and which law that was.
    pub fn sky_temperature(&self, at: HourOfYear) -> (Temperature, SkyLaw) {
        let hour = &self.hours[at.index()];
        sky::temperature(sky::Known {
            air: Temperature::from_si(hour.dry_bulb),
            dew_point: hour.dew_point.map(Temperature::from_si),
            infrared: hour.infrared.map(HeatFluxDensity::from_si),
            opaque_tenths: hour.opaque_cloud,
            hours: at.clock_hours(),
        })
    }
}
