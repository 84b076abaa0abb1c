//! What stands between a plane and the sky: the horizon table and rows of collectors.

use std::f64::consts::{FRAC_PI_2, PI};

use crate::physics::sun::Direction;
use crate::units::si::{Angle, Dimension, Length};

/// Steps of the azimuth integral of the sky view.
const AZIMUTH_STEPS: u32 = 720;

/// A table of azimuth and elevation cannot be used.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum HorizonError {
    /// An azimuth or elevation is not a number, or an elevation is outside 0 to 90°.
    #[error("a horizon point needs an azimuth and an elevation from 0 to 90 degrees; got {elevation} at {azimuth}")]
    Point {
        /// As given, degrees.
        azimuth: f64,
        /// As given, degrees.
        elevation: f64,
    },
    /// Two points have the same azimuth.
    #[error("the horizon has two elevations at azimuth {azimuth} degrees")]
    Twice {
        /// Degrees.
        azimuth: f64,
    },
}

/// One sighting along the horizon.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HorizonPoint {
    /// Clockwise from true north.
    pub azimuth: Angle,
    /// Above the level.
    pub elevation: Angle,
}

/// The skyline around a place: linear between its points, closed at 360°. Without points it is level.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Horizon {
    /// Azimuth (0 to 2π) and elevation in radians, by azimuth.
    points: Vec<(f64, f64)>,
}

impl Horizon {
    /// Sorts and checks sightings; azimuths beyond a full turn are wrapped.
    pub fn new(points: &[HorizonPoint]) -> Result<Self, HorizonError> {
        let mut table = Vec::with_capacity(points.len());
        for point in points {
            let (azimuth, elevation) = (point.azimuth.si(), point.elevation.si());
            if !azimuth.is_finite() || !(0.0..=FRAC_PI_2 + 1e-9).contains(&elevation) {
                let (azimuth, elevation) = (azimuth.to_degrees(), elevation.to_degrees());
                return Err(HorizonError::Point { azimuth, elevation });
            }
            table.push((azimuth.rem_euclid(2.0 * PI), elevation));
        }
        table.sort_by(|a, b| a.0.total_cmp(&b.0));
        match table.windows(2).find(|pair| (pair[1].0 - pair[0].0).abs() < 1e-9) {
            Some(pair) => Err(HorizonError::Twice { azimuth: pair[0].0.to_degrees() }),
            None => Ok(Self { points: table }),
        }
    }

    /// Whether no point was given.
    pub fn is_level(&self) -> bool {
        self.points.is_empty()
    }

    /// Elevation of the skyline at an azimuth (clockwise from true north).
    pub fn elevation(&self, azimuth: Angle) -> Angle {
        Angle::from_si(self.elevation_at(azimuth.si()))
    }

    fn elevation_at(&self, azimuth: f64) -> f64 {
        let (Some(first), Some(last)) = (self.points.first(), self.points.last()) else {
            return 0.0;
        };
        let azimuth = azimuth.rem_euclid(2.0 * PI);
        let after = self.points.partition_point(|point| point.0 <= azimuth);
        let low = match after {
            0 => (last.0 - 2.0 * PI, last.1),
            _ => self.points[after - 1],
        };
        let high = self.points.get(after).copied().unwrap_or((first.0 + 2.0 * PI, first.1));
        low.1 + (high.1 - low.1) * (azimuth - low.0) / (high.0 - low.0)
    }

    /// Whether the skyline hides the sun: apparent elevation at or below the table.
    pub fn hides(&self, sun: Direction, azimuth: Angle) -> bool {
        !self.is_level() && sun.up.clamp(-1.0, 1.0).asin() <= self.elevation_at(azimuth.si())
    }

    /// Share of an isotropic sky's light that reaches a plane, F = (1/π)∬ max(cos θ, 0) cos ε dε dα over the sky
    /// above the skyline; (1 + cos β)/2 without points.
    ///
    /// The elevation integral is closed, the azimuth one is a sum of half-degree steps (within 1e-5). Tilt β from 0
    /// to 90°.
    pub fn sky_view(&self, tilt: Angle, azimuth: Angle) -> f64 {
        let (sine, cosine) = tilt.si().sin_cos();
        if self.is_level() {
            return f64::midpoint(1.0, cosine);
        }
        let step = 2.0 * PI / f64::from(AZIMUTH_STEPS);
        let sum: f64 = (0..AZIMUTH_STEPS)
            .map(|index| {
                let along = (f64::from(index) + 0.5) * step;
                let sideways = sine * (along - azimuth.si()).cos();
                let behind = (-sideways).atan2(cosine);
                let low = self.elevation_at(along).max(behind).max(0.0);
                0.5 * cosine * low.cos().powi(2) + sideways * (0.5 * (FRAC_PI_2 - low) - 0.25 * (2.0 * low).sin())
            })
            .sum();
        sum * step / PI
    }

    /// [`Horizon::sky_view`] over the view without obstacles: what the isotropic part is multiplied by.
    pub fn sky_share(&self, tilt: Angle, azimuth: Angle) -> f64 {
        self.sky_view(tilt, azimuth) / f64::midpoint(1.0, tilt.si().cos())
    }
}

/// Elevation of an obstacle, atan(height above the collector/distance).
pub fn obstacle_elevation(height_above_collector: Length, distance: HorizontalDistance) -> Angle {
    Angle::from_si(height_above_collector.si().atan2(distance.0.si()))
}

/// A distance measured level over the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HorizontalDistance(pub Length);

/// Parallel rows of collectors on level ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rows {
    /// Slope of the collectors.
    pub tilt: Angle,
    /// Where they face, clockwise from true north.
    pub azimuth: Angle,
    /// Length L of the collectors up the slope.
    pub slope_length: Length,
}

impl Rows {
    /// Profile angle: the sun's elevation projected on the vertical plane across the rows,
    /// tan α_p = tan α/cos(γ_sun − γ). Above 90° the sun stands behind the rows.
    ///
    /// Duffie & Beckman section 1.9.
    pub fn profile_angle(&self, sun: Direction) -> Angle {
        let (east, north) = self.azimuth.si().sin_cos();
        Angle::from_si(sun.up.atan2(sun.east * east + sun.north * north))
    }

    /// Share of the slope in the shadow of the row in front, max(0, 1 − (P/L) sin α_p/sin(β + α_p)).
    ///
    /// `pitch` P from front edge to front edge. Zero with the sun behind the rows, one with the sun down.
    pub fn shaded_fraction(&self, pitch: Length, sun: Direction) -> f64 {
        let profile = self.profile_angle(sun).si();
        if profile <= 0.0 {
            return 1.0;
        }
        if profile >= FRAC_PI_2 {
            return 0.0;
        }
        let clear = pitch.si() / self.slope_length.si() * profile.sin() / (self.tilt.si() + profile).sin();
        (1.0 - clear).clamp(0.0, 1.0)
    }

    /// Smallest pitch without shadow at a sun position, L(sin β/tan α_p + cos β); `None` with the sun down.
    ///
    /// With the sun behind the rows it is the rows' own footprint, L cos β.
    pub fn pitch_without_shade(&self, sun: Direction) -> Option<Length> {
        let profile = self.profile_angle(sun).si();
        let (sine, cosine) = self.tilt.si().sin_cos();
        let reach = if profile >= FRAC_PI_2 { 0.0 } else { sine / profile.tan() };
        (profile > 0.0).then(|| Length::from_si(self.slope_length.si() * (reach + cosine)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::sun::{declination_cooper, hour_angle};
    use crate::units::si::Time;

    fn degrees(value: f64) -> Angle {
        Angle::from_si(value.to_radians())
    }

    #[test]
    fn one_point_stands_for_the_whole_circle() {
        let point = HorizonPoint { azimuth: degrees(180.0), elevation: degrees(20.0) };
        let horizon = Horizon::new(&[point]).unwrap();
        assert!((horizon.elevation(degrees(17.0)).si() - 20f64.to_radians()).abs() < 1e-12);
    }

    /// A level skyline of height h leaves a level plane cos² h of the sky (closed form).
    #[test]
    fn an_even_skyline_leaves_the_square_of_its_cosine() {
        let point = HorizonPoint { azimuth: degrees(0.0), elevation: degrees(20.0) };
        let view = Horizon::new(&[point]).unwrap().sky_view(degrees(0.0), degrees(180.0));
        assert!((view - 20f64.to_radians().cos().powi(2)).abs() < 1e-9);
    }

    #[test]
    fn two_elevations_at_one_azimuth_are_an_error() {
        let point = |azimuth| HorizonPoint { azimuth: degrees(azimuth), elevation: degrees(5.0) };
        assert!(matches!(Horizon::new(&[point(10.0), point(370.0)]), Err(HorizonError::Twice { .. })));
        let nonsense = HorizonPoint { azimuth: degrees(f64::NAN), elevation: degrees(5.0) };
        assert!(matches!(Horizon::new(&[nonsense]), Err(HorizonError::Point { .. })));
    }

    /// Pitch without shade at the winter solstice, 2 m slope at 45° (computed with a script from the handbook's
    /// profile angle): latitude 36: 3.81 m at noon, 4.83 m at 9 h.
    #[test]
    fn rows_at_the_solstice() {
        let rows = Rows { tilt: degrees(45.0), azimuth: degrees(180.0), slope_length: Length::from_si(2.0) };
        for (hour, metres) in [(12.0, 3.81), (9.0, 4.83), (15.0, 4.83)] {
            let omega = hour_angle(Time::from_si(hour * 3600.0));
            let sun = Direction::of_sun(degrees(36.0), declination_cooper(355.0), omega);
            assert!((rows.pitch_without_shade(sun).unwrap().si() - metres).abs() < 0.01);
        }
    }
}
