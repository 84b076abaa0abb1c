//! The distance of two places on the globe.

use crate::physics::sun::Place;
use crate::units::si::{Dimension, Length};

/// Mean radius of the earth, m (IUGG, from memory).
const EARTH_RADIUS: f64 = 6_371_000.0;

/// Distance along the ground of two places at sea level, 2R asin √(sin²(Δφ/2) + cos φ₁ cos φ₂ sin²(Δλ/2)).
///
/// The haversine formula on a sphere: within 0.6 % of the ellipsoid (from memory). Heights are left out.
pub fn distance(from: Place, to: Place) -> Length {
    let half = |a: f64, b: f64| (0.5 * (b - a)).sin().powi(2);
    let (from_latitude, to_latitude) = (from.latitude.si(), to.latitude.si());
    let chord = half(from_latitude, to_latitude)
        + from_latitude.cos() * to_latitude.cos() * half(from.longitude.si(), to.longitude.si());
    Length::from_si(2.0 * EARTH_RADIUS * chord.clamp(0.0, 1.0).sqrt().asin())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::Angle;

    fn place(latitude: f64, longitude: f64) -> Place {
        let degrees = |value: f64| Angle::from_si(value.to_radians());
        Place { latitude: degrees(latitude), longitude: degrees(longitude), altitude: Length::from_si(0.0) }
    }

    /// A quarter of a meridian is 10 000 km by the old definition of the metre (10 002 km today).
    #[test]
    fn from_the_equator_to_the_pole_it_is_ten_thousand_kilometres() {
        let quarter = distance(place(0.0, 13.0), place(90.0, -50.0)).si() / 1000.0;
        assert!((quarter / 10_002.0 - 1.0).abs() < 0.001, "{quarter}");
        assert!(distance(place(36.1, -79.95), place(36.1, -79.95)).si() < 1e-6);
    }
}
