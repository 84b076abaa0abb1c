//! Many planes under one sky: the year's light taken apart once, so that each further plane costs one product an hour.
//!
//! Hay & Davies only: its circumsolar light falls as beam does, so an hour needs one vector.

use super::calendar::months;
use super::plane::hidden;
use super::{Albedo, BestTilt, Climate};
use crate::physics::horizon::Horizon;
use crate::physics::sun::Direction;
use crate::physics::transposition::hay_davies_beam;
use crate::units::si::{Angle, Dimension, RadiantExposure};

const HOUR: f64 = 3600.0;
/// Steps of the search over azimuths and tilts: coarse, degrees.
const COARSE: u8 = 5;

/// A year of light, ready for many planes behind one skyline.
#[derive(Clone, Debug)]
pub struct Scan {
    /// Beam and circumsolar light as vectors toward the sun, W/m², by month.
    rays: [Vec<Direction>; 12],
    /// Even sky light and global light of each month, W·h/m²: the sky's while the sun is up or down.
    even: [f64; 12],
    ground: [f64; 12],
    horizon: Horizon,
    southern: bool,
}

/// The best plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BestOrientation {
    /// Tilt.
    pub tilt: Angle,
    /// Azimuth, clockwise from true north.
    pub azimuth: Angle,
    /// Irradiation in the months asked for.
    pub total: RadiantExposure,
}

impl Climate {
    /// Takes the year apart for a scan of planes.
    pub fn scan(&self, horizon: &Horizon, albedo: &Albedo) -> Scan {
        let mut rays: [Vec<Direction>; 12] = Default::default();
        let (mut even, mut ground) = ([0.0; 12], [0.0; 12]);
        for (month, hours) in months().into_iter().enumerate() {
            for hour in &self.hours()[hours] {
                let light = &hour.sunlight;
                ground[month] += light.global * albedo.0[month];
                let (strength, anisotropy) = hay_davies_beam(light);
                even[month] += light.diffuse * (1.0 - anisotropy);
                if strength > 0.0 && !hidden(horizon, hour) {
                    let Direction { east, north, up } = light.sun;
                    rays[month].push(Direction { east: east * strength, north: north * strength, up: up * strength });
                }
            }
        }
        let southern = self.station().place.latitude.si() < 0.0;
        Scan { rays, even, ground, horizon: horizon.clone(), southern }
    }
}

impl Scan {
    /// Irradiation of each month on a plane: the same as [`Climate::plane_behind`] by Hay & Davies.
    pub fn month_totals(&self, tilt: Angle, azimuth: Angle) -> [RadiantExposure; 12] {
        let normal = Direction::normal(tilt, azimuth);
        let sky = self.horizon.sky_view(tilt, azimuth);
        let below = f64::midpoint(1.0, -tilt.si().cos());
        std::array::from_fn(|month| {
            let beam: f64 = self.rays[month].iter().map(|ray| ray.dot(normal).max(0.0)).sum();
            RadiantExposure::from_si((beam + self.even[month] * sky + self.ground[month] * below) * HOUR)
        })
    }

    /// Irradiation in the `months` marked.
    pub fn total(&self, tilt: Angle, azimuth: Angle, months: [bool; 12]) -> RadiantExposure {
        let totals = self.month_totals(tilt, azimuth);
        RadiantExposure::from_si(
            totals.iter().zip(months).filter(|(_, wanted)| *wanted).map(|(total, _)| total.si()).sum(),
        )
    }

    /// Irradiation at each tilt from 0 to 90° in whole degrees.
    pub fn tilt_curve(&self, azimuth: Angle, months: [bool; 12]) -> Vec<(Angle, RadiantExposure)> {
        (0..=90).map(degrees).map(|tilt| (tilt, self.total(tilt, azimuth, months))).collect()
    }

    /// The best of a [`Scan::tilt_curve`] and the range within 1 % of it.
    pub fn best_of(curve: &[(Angle, RadiantExposure)]) -> Option<BestTilt> {
        let (tilt, total) = curve.iter().copied().reduce(|best, next| if next.1 > best.1 { next } else { best })?;
        let near = || curve.iter().filter(|point| point.1.si() >= 0.99 * total.si()).map(|point| point.0);
        Some(BestTilt { tilt, total, flattest: near().next()?, steepest: near().next_back()? })
    }

    /// The best plane that faces the sun's side, azimuth 90 to 270° (north of the equator) or 270 to 90°.
    ///
    /// Every 5° of tilt and azimuth first, then every degree around the best of these.
    pub fn best_orientation(&self, months: [bool; 12]) -> BestOrientation {
        let middle: i32 = if self.southern { 0 } else { 180 };
        let whole = [middle - 90, middle + 90];
        let (azimuth, tilt, _) = self.best_among(whole, [0, 90], COARSE, months);
        let near = i32::from(COARSE);
        let azimuths = [(azimuth - near).max(whole[0]), (azimuth + near).min(whole[1])];
        let fine = self.best_among(azimuths, [(tilt - near).max(0), (tilt + near).min(90)], 1, months);
        BestOrientation { tilt: degrees(fine.1), azimuth: degrees(fine.0.rem_euclid(360)), total: fine.2 }
    }

    fn best_among(
        &self,
        azimuths: [i32; 2],
        tilts: [i32; 2],
        step: u8,
        months: [bool; 12],
    ) -> (i32, i32, RadiantExposure) {
        (azimuths[0]..=azimuths[1])
            .step_by(usize::from(step))
            .flat_map(|azimuth| (tilts[0]..=tilts[1]).step_by(usize::from(step)).map(move |tilt| (azimuth, tilt)))
            .map(|(azimuth, tilt)| (azimuth, tilt, self.total(degrees(tilt), degrees(azimuth), months)))
            .reduce(|best, next| if next.2 > best.2 { next } else { best })
            .unwrap_or((180, 0, RadiantExposure::from_si(0.0)))
    }
}

fn degrees(value: i32) -> Angle {
    Angle::from_si(f64::from(value).to_radians())
}
