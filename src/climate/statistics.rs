//! Monthly and yearly figures of a climate.

use super::calendar::{HourOfYear, months};
use super::{Climate, Hour};
use crate::physics::mains::Mains;
use crate::units::si::{Dimension, RadiantExposure, Temperature, TemperatureInterval, Velocity};

/// An extreme of the air and when it comes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extreme {
    /// The air's temperature.
    pub temperature: Temperature,
    /// The first hour that has it.
    pub at: HourOfYear,
}

/// What a project keeps of a climate, to work on without the file.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MonthlySummary {
    /// Irradiation of level ground, each whole month.
    pub global: [RadiantExposure; 12],
    /// Mean air temperature of each month.
    pub temperature: [Temperature; 12],
}

impl Climate {
    /// Mean air temperature of the year.
    pub fn mean_temperature(&self) -> Temperature {
        Temperature::from_si(mean(self.hours(), |hour| hour.dry_bulb))
    }

    /// Mean air temperature of each month.
    pub fn monthly_temperature(&self) -> [Temperature; 12] {
        months().map(|month| Temperature::from_si(mean(&self.hours()[month], |hour| hour.dry_bulb)))
    }

    /// Irradiation of level ground, each whole month, as the file gives it.
    pub fn monthly_global(&self) -> [RadiantExposure; 12] {
        months().map(|month| {
            let sum: f64 = self.hours()[month].iter().map(|hour| hour.sunlight.global).sum();
            RadiantExposure::from_si(sum * 3600.0)
        })
    }

    /// Irradiation and temperature by month, for the project file.
    pub fn monthly_summary(&self) -> MonthlySummary {
        MonthlySummary { global: self.monthly_global(), temperature: self.monthly_temperature() }
    }

    /// Mean wind speed of the year at the station's height.
    pub fn mean_wind(&self) -> Velocity {
        Velocity::from_si(mean(self.hours(), |hour| hour.wind))
    }

    /// The coldest hour. A typical year is not an extreme one: ask for the record low as well.
    pub fn coldest(&self) -> Extreme {
        self.extreme(|new, old| new < old)
    }

    /// The hottest hour.
    pub fn hottest(&self) -> Extreme {
        self.extreme(|new, old| new > old)
    }

    /// Temperature of the coldest hour.
    pub fn lowest_temperature(&self) -> Temperature {
        self.coldest().temperature
    }

    /// Temperature of the hottest hour.
    pub fn highest_temperature(&self) -> Temperature {
        self.hottest().temperature
    }

    fn extreme(&self, beats: fn(f64, f64) -> bool) -> Extreme {
        let first = (HourOfYear::FIRST, self.hours()[0].dry_bulb);
        let (at, kelvin) = HourOfYear::all()
            .zip(self.hours())
            .fold(first, |best, (at, hour)| if beats(hour.dry_bulb, best.1) { (at, hour.dry_bulb) } else { best });
        Extreme { temperature: Temperature::from_si(kelvin), at }
    }

    /// Days whose coldest hour is at or below a temperature.
    ///
    /// Count 0 °C and 4 °C: under a clear sky a glazed plate freezes with the air still above zero.
    pub fn days_at_or_below(&self, limit: Temperature) -> usize {
        self.hours().chunks(24).filter(|day| day.iter().any(|hour| hour.dry_bulb <= limit.si())).count()
    }

    /// Hours at or below a temperature.
    pub fn hours_at_or_below(&self, limit: Temperature) -> usize {
        self.hours().iter().filter(|hour| hour.dry_bulb <= limit.si()).count()
    }

    /// What the mains water's temperature follows from.
    pub fn mains(&self) -> Mains {
        let monthly = self.monthly_temperature().map(Dimension::si);
        let warmest = monthly.into_iter().fold(f64::NEG_INFINITY, f64::max);
        let coldest = monthly.into_iter().fold(f64::INFINITY, f64::min);
        Mains {
            annual_mean: self.mean_temperature(),
            monthly_spread: TemperatureInterval::from_si(warmest - coldest),
            southern: self.station().place.latitude.si() < 0.0,
        }
    }
}

fn mean(hours: &[Hour], value: fn(&Hour) -> f64) -> f64 {
    hours.iter().map(value).sum::<f64>() / hours.len() as f64
}
