//! The year of a plane: sunlight on it hour by hour, with or without a skyline.

use super::calendar::{HOURS, HourOfYear, months};
use super::{Climate, Hour};
use crate::physics::horizon::Horizon;
use crate::physics::transposition::{PlaneIrradiance, SkyModel, Surface, on_plane};
use crate::units::si::{Angle, Dimension, RadiantExposure};

/// Seconds of an hour: W/m² held for an hour become J/m².
const HOUR: f64 = 3600.0;
/// Tilts of a scan, degrees.
const SCAN: std::ops::RangeInclusive<u8> = 0..=90;

/// Reflectance of the ground by month.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Albedo(pub [f64; 12]);

impl From<f64> for Albedo {
    fn from(all_year: f64) -> Self {
        Self([all_year; 12])
    }
}

/// A plane in its surroundings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plane {
    /// 0 level to 90° vertical.
    pub tilt: Angle,
    /// Where it faces, clockwise from true north.
    pub azimuth: Angle,
    /// Of the ground in front; 0.2 for grass or bare soil.
    pub albedo: Albedo,
}

/// Sunlight on a plane in every hour of the year.
#[derive(Clone, Debug, PartialEq)]
pub struct PlaneYear {
    hours: Vec<PlaneIrradiance>,
    month_totals: [f64; 12],
}

impl PlaneYear {
    /// Irradiance of an hour, W/m².
    pub fn hour(&self, at: HourOfYear) -> PlaneIrradiance {
        self.hours[at.index()]
    }

    /// All 8760 hours.
    pub fn hours(&self) -> &[PlaneIrradiance] {
        &self.hours
    }

    /// Irradiation of each month.
    pub fn month_totals(&self) -> [RadiantExposure; 12] {
        self.month_totals.map(RadiantExposure::from_si)
    }

    /// Irradiation of month 1 to 12; zero for a month that is none.
    pub fn month_total(&self, month: usize) -> RadiantExposure {
        let total = month.checked_sub(1).and_then(|index| self.month_totals.get(index));
        RadiantExposure::from_si(total.copied().unwrap_or_default())
    }

    /// Irradiation of the year.
    pub fn year_total(&self) -> RadiantExposure {
        RadiantExposure::from_si(self.month_totals.iter().sum())
    }

    /// Takes a share of beam and circumsolar light out of each hour: the shade of what stands near.
    pub fn shade(&mut self, share: impl Fn(HourOfYear) -> f64) {
        for (month, total) in months().into_iter().zip(&mut self.month_totals) {
            for index in month {
                let light = &mut self.hours[index];
                let direct = light.beam + light.circumsolar;
                if let Some(at) = HourOfYear::new(index).filter(|_| direct > 0.0) {
                    let left = 1.0 - share(at);
                    light.beam *= left;
                    light.circumsolar *= left;
                    *total -= (1.0 - left) * direct * HOUR;
                }
            }
        }
    }

    /// The hour with the most light on the plane.
    pub fn brightest(&self) -> HourOfYear {
        let total = |at: HourOfYear| self.hour(at).total();
        HourOfYear::all().fold(HourOfYear::FIRST, |best, at| if total(at) > total(best) { at } else { best })
    }
}

/// The best tilt of a scan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BestTilt {
    /// Most irradiation in the months asked for, whole degrees.
    pub tilt: Angle,
    /// That irradiation.
    pub total: RadiantExposure,
    /// Flattest tilt within 1 % of it.
    pub flattest: Angle,
    /// Steepest tilt within 1 % of it.
    pub steepest: Angle,
}

impl Climate {
    /// Sunlight on a plane with a free view.
    pub fn plane(&self, plane: &Plane, model: SkyModel) -> PlaneYear {
        self.plane_behind(plane, model, &Horizon::default())
    }

    /// Sunlight on a plane behind a skyline: beam and circumsolar light are cut while the sun is hidden, the isotropic
    /// part is scaled by the visible share of the sky, light from the ground is kept.
    pub fn plane_behind(&self, plane: &Plane, model: SkyModel, horizon: &Horizon) -> PlaneYear {
        let surface = Surface::new(plane.tilt, plane.azimuth);
        let share = if horizon.is_level() { 1.0 } else { horizon.sky_share(plane.tilt, plane.azimuth) };
        let mut hours = Vec::with_capacity(HOURS);
        let mut month_totals = [0.0; 12];
        for ((month, total), albedo) in months().into_iter().zip(&mut month_totals).zip(plane.albedo.0) {
            for hour in &self.hours()[month] {
                let mut light = on_plane(model, &hour.sunlight, &surface, albedo);
                light.sky_isotropic *= share;
                if hidden(horizon, hour) {
                    light.beam = 0.0;
                    light.circumsolar = 0.0;
                }
                *total += light.total() * HOUR;
                hours.push(light);
            }
        }
        PlaneYear { hours, month_totals }
    }

    /// Scans tilts 0 to 90° in whole degrees for the most irradiation in the `months` marked.
    ///
    /// A scan cannot fail, and the optimum is flat: tell its width with it.
    pub fn best_tilt(&self, plane: &Plane, model: SkyModel, months: [bool; 12]) -> BestTilt {
        let total = |degrees: u8| {
            let tilt = Angle::from_si(f64::from(degrees).to_radians());
            let year = self.plane(&Plane { tilt, ..*plane }, model);
            let wanted = year.month_totals.iter().zip(months).filter(|(_, wanted)| *wanted);
            (tilt, wanted.map(|(total, _)| *total).sum::<f64>())
        };
        let scan: Vec<(Angle, f64)> = SCAN.map(total).collect();
        let best = scan
            .iter()
            .copied()
            .fold((Angle::from_si(0.0), f64::NEG_INFINITY), |best, tilt| if tilt.1 > best.1 { tilt } else { best });
        let near = || scan.iter().filter(|tilt| tilt.1 >= 0.99 * best.1).map(|tilt| tilt.0);
        BestTilt {
            tilt: best.0,
            total: RadiantExposure::from_si(best.1),
            flattest: near().next().unwrap_or(best.0),
            steepest: near().next_back().unwrap_or(best.0),
        }
    }
}

pub(super) fn hidden(horizon: &Horizon, hour: &Hour) -> bool {
    hour.sunlight.sun.up > 0.0 && horizon.hides(hour.sunlight.sun, Angle::from_si(hour.sun_azimuth))
}
