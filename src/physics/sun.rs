//! Where the sun stands, and the angle at which it meets a plane.
//!
//! Positions come from the NREL solar position algorithm (SPA); the handbook's short formulas for solar time,
//! declination and day length stand beside it for display and for the monthly method. Irradiance must not live here.

mod track;

pub use track::Track;

use solar_positioning::time::JulianDate;
use solar_positioning::{Horizon, Location, PreparedPositions, RefractionCorrection, SolarEvents, SolarPositions};

use crate::physics::atmosphere;
use crate::units::si::{Angle, Dimension, Length, Pressure, Temperature, Time, celsius};

/// Terrestrial time minus universal time, s; held for all years (an error of 10 s turns the sun by 0.0001°).
const DELTA_T: f64 = 67.0;
/// Julian day of the epoch 2000 January 1, 12:00.
const J2000: f64 = 2451545.0;
/// Air temperature for refraction where none is given, °C.
const REFRACTION_TEMPERATURE: f64 = 12.0;

/// A place on the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// North positive.
    pub latitude: Angle,
    /// East positive.
    pub longitude: Angle,
    /// Above sea level.
    pub altitude: Length,
}

/// The air that bends the light.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Absolute pressure at the place.
    pub pressure: Pressure,
    /// Air temperature.
    pub temperature: Temperature,
}

impl Air {
    /// Pressure of the standard atmosphere at `altitude` and 12 °C: the project's convention for refraction.
    pub fn standard(altitude: Length) -> Self {
        Self { pressure: atmosphere::pressure(altitude), temperature: celsius(REFRACTION_TEMPERATURE) }
    }
}

/// A date outside the algorithm's range, a place off the globe, or air that cannot be.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("the sun's position cannot be computed: {0}")]
pub struct SunError(#[from] solar_positioning::Error);

/// A direction as a unit vector in the frame of the place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Direction {
    /// Component to the east.
    pub east: f64,
    /// Component to true north.
    pub north: f64,
    /// Component upward; of a sun direction the cosine of the zenith angle.
    pub up: f64,
}

impl Direction {
    /// Direction of a point in the sky; `azimuth` clockwise from true north.
    pub fn of_sky(zenith: Angle, azimuth: Angle) -> Self {
        let (sin_zenith, cos_zenith) = zenith.si().sin_cos();
        let (sin_azimuth, cos_azimuth) = azimuth.si().sin_cos();
        Self { east: sin_zenith * sin_azimuth, north: sin_zenith * cos_azimuth, up: cos_zenith }
    }

    /// Outward normal of a plane: `tilt` 0 level, 90° vertical; `azimuth` it faces, clockwise from true north.
    pub fn normal(tilt: Angle, azimuth: Angle) -> Self {
        Self::of_sky(tilt, azimuth)
    }

    /// Direction of the sun from the handbook angles: latitude φ, declination δ, hour angle ω (afternoon positive).
    ///
    /// East −cos δ sin ω, north cos φ sin δ − sin φ cos δ cos ω, up sin φ sin δ + cos φ cos δ cos ω
    /// (Duffie & Beckman eq. 1.6.5). Its product with [`Direction::normal`] is their eq. 1.6.2.
    pub fn of_sun(latitude: Angle, declination: Angle, hour_angle: Angle) -> Self {
        let (sin_phi, cos_phi) = latitude.si().sin_cos();
        let (sin_delta, cos_delta) = declination.si().sin_cos();
        let (sin_omega, cos_omega) = hour_angle.si().sin_cos();
        Self {
            east: -cos_delta * sin_omega,
            north: cos_phi * sin_delta - sin_phi * cos_delta * cos_omega,
            up: sin_phi * sin_delta + cos_phi * cos_delta * cos_omega,
        }
    }

    /// The direction between two that lie close together, at a share of the way to the other.
    fn mixed(self, other: Self, share: f64) -> Self {
        let mix = |a: f64, b: f64| a + share * (b - a);
        Self { east: mix(self.east, other.east), north: mix(self.north, other.north), up: mix(self.up, other.up) }
    }

    /// Angle from the vertical, 0 to 180°.
    pub fn zenith(self) -> Angle {
        Angle::from_si(self.up.clamp(-1.0, 1.0).acos())
    }

    /// Azimuth, clockwise from true north, 0 to 360°.
    pub fn azimuth(self) -> Angle {
        Angle::from_si(self.east.atan2(self.north).rem_euclid(std::f64::consts::TAU))
    }

    /// Cosine of the angle to another direction; of sun and plane the cosine of the angle of incidence.
    pub fn dot(self, other: Self) -> f64 {
        self.east * other.east + self.north * other.north + self.up * other.up
    }

    /// Angle to another direction, 0 to 180°; of sun and plane the angle of incidence θ.
    pub fn angle_to(self, other: Self) -> Angle {
        Angle::from_si(self.dot(other).clamp(-1.0, 1.0).acos())
    }
}

/// Zenith angle and azimuth of the sun.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Position {
    /// From the vertical, without refraction.
    pub zenith: Angle,
    /// From the vertical, with refraction: what an eye or a horizon table sees.
    pub apparent_zenith: Angle,
    /// Clockwise from true north.
    pub azimuth: Angle,
}

/// Rise, set and culmination, as UTC Julian days; `None` where the sun does not cross within the day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DayEvents {
    /// Upper limb on the level horizon, rising.
    pub sunrise: Option<f64>,
    /// Highest point.
    pub transit: Option<f64>,
    /// Upper limb on the level horizon, setting.
    pub sunset: Option<f64>,
}

/// A place made ready for many positions.
#[derive(Clone, Copy, Debug)]
pub struct Observer {
    location: Location,
    altitude: f64,
    refraction: RefractionCorrection,
}

impl Observer {
    /// Prepares a place; fails for a latitude beyond ±90°, a longitude beyond ±180° or impossible air.
    pub fn new(place: Place, air: Air) -> Result<Self, SunError> {
        let location =
            Location { latitude: place.latitude.si().to_degrees(), longitude: place.longitude.si().to_degrees() };
        let celsius = crate::units::si::in_celsius(air.temperature);
        let refraction = RefractionCorrection::new(air.pressure.si() / 100.0, celsius)?;
        let observer = Self { location, altitude: place.altitude.si(), refraction };
        // The algorithm checks the place with each position; the first one is asked for here.
        observer.apparent(J2000)?;
        Ok(observer)
    }

    /// Position at a UTC Julian day ([`julian_day`]), years −2000 to 6000, within 0.0003°.
    ///
    /// Reda & Andreas 2004, NREL/TP-560-34302. Refraction is that report's, applied above −0.8333° elevation.
    pub fn position(&self, julian_day: f64) -> Result<Position, SunError> {
        let prepared = prepare(julian_day)?;
        let plain = prepared.at(self.location, self.altitude, None)?;
        let bent = prepared.at(self.location, self.altitude, Some(self.refraction))?;
        Ok(Position {
            zenith: degrees(plain.zenith_angle()),
            apparent_zenith: degrees(bent.zenith_angle()),
            azimuth: degrees(bent.azimuth()),
        })
    }

    /// Apparent direction alone, for one moment; a year of hours goes through [`Observer::track`].
    pub fn apparent(&self, julian_day: f64) -> Result<Direction, SunError> {
        self.seen(&prepare(julian_day)?, self.location.longitude)
    }

    /// The apparent direction for many moments one after the other.
    pub fn track(&self) -> Track {
        Track::of(*self)
    }

    /// Apparent direction at a prepared moment from another longitude on the same parallel, degrees of any turn.
    fn seen(&self, prepared: &PreparedPositions, longitude: f64) -> Result<Direction, SunError> {
        let longitude = (longitude + 180.0).rem_euclid(360.0) - 180.0;
        let bent = prepared.at(Location { longitude, ..self.location }, self.altitude, Some(self.refraction))?;
        Ok(Direction::of_sky(degrees(bent.zenith_angle()), degrees(bent.azimuth())))
    }

    /// Sunrise, transit and sunset within the 24 hours that begin at a UTC Julian day, such as local midnight.
    ///
    /// The sun's centre stands at −0.8333° at rise and set (conventional refraction and radius, level horizon).
    pub fn events(&self, start: f64) -> Result<DayEvents, SunError> {
        let (events, end) = (SolarEvents::new(), start + 1.0);
        let horizon = Horizon::SunriseSunset;
        Ok(DayEvents {
            sunrise: events.next_rise_from_julian(start, end, self.location, DELTA_T, horizon)?,
            transit: events.next_transit_from_julian(start, end, self.location.longitude, DELTA_T)?,
            sunset: events.next_set_from_julian(start, end, self.location, DELTA_T, horizon)?,
        })
    }
}

fn prepare(julian_day: f64) -> Result<PreparedPositions, SunError> {
    Ok(SolarPositions::new().for_time_from_julian(JulianDate::new(julian_day, DELTA_T)?)?)
}

fn degrees(value: f64) -> Angle {
    Angle::from_si(value.to_radians())
}

/// Julian day at 00:00 of a date of the Gregorian calendar.
///
/// Fliegel & Van Flandern's integer method (1968), from memory; any year after −4000. A day beyond the month's end
/// counts on into the next month.
pub fn julian_day(year: i32, month: u8, day: u8) -> f64 {
    let (y, m, d) = (i64::from(year), i64::from(month), i64::from(day));
    let early = (14 - m) / 12;
    let (y, m) = (y + 4800 - early, m + 12 * early - 3);
    let number = d + (153 * m + 2) / 5 + 365 * y + y.div_euclid(4) - y.div_euclid(100) + y.div_euclid(400) - 32045;
    number as f64 - 0.5
}

/// Equation of time by the solar position algorithm: solar minus clock time at the zone's meridian.
///
/// E = 4 min/° (M − 0.0057183° − α + Δψ cos ε), with M the sun's mean longitude (Reda & Andreas 2004, appendix A.1)
/// and α the apparent right ascension; of Δψ the two largest terms are kept (Meeus, from memory), within 0.1 s.
pub fn equation_of_time(julian_day: f64) -> Result<Time, SunError> {
    let right_ascension = prepare(julian_day)?.right_ascension();
    let t = (julian_day + DELTA_T / 86400.0 - J2000) / 365250.0;
    let mean_longitude = 280.4664567 + t * (360007.6982779 + t * (0.03032028 + t / 49931.0));
    let node = (125.04 - 19341.36 * t).to_radians();
    let nutation = (-17.20 * node.sin() - 1.32 * (2.0 * mean_longitude.to_radians()).sin()) / 3600.0;
    let obliquity = (23.4393 - 0.13 * t).to_radians();
    let turn = mean_longitude - 0.0057183 - right_ascension + nutation * obliquity.cos();
    Ok(Time::from_si(240.0 * (turn + 180.0).rem_euclid(360.0) - 43200.0))
}

/// Equation of time E = 229.2(0.000075 + 0.001868 cos B − 0.032077 sin B − 0.014615 cos 2B − 0.04089 sin 2B) min,
/// B = 360°(n−1)/365, n the day of the year.
///
/// Spencer 1971; Duffie & Beckman eq. 1.5.3. Within about half a minute; for display and checks.
pub fn equation_of_time_spencer(day_of_year: f64) -> Time {
    let b = day_angle(day_of_year);
    Time::from_si(
        60.0 * 229.2
            * (0.000075 + 0.001868 * b.cos()
                - 0.032077 * b.sin()
                - 0.014615 * (2.0 * b).cos()
                - 0.04089 * (2.0 * b).sin()),
    )
}

/// Spencer's day angle B = 360°(n−1)/365 in radians.
pub(crate) fn day_angle(day_of_year: f64) -> f64 {
    (360.0 * (day_of_year - 1.0) / 365.0).to_radians()
}

/// Declination δ = 23.45° sin(360°(284+n)/365).
///
/// Cooper 1969; Duffie & Beckman eq. 1.6.1a. Wrong by up to 1.1° (against SPA): for the monthly method only.
pub fn declination_cooper(day_of_year: f64) -> Angle {
    degrees(23.45 * (360.0 * (284.0 + day_of_year) / 365.0).to_radians().sin())
}

/// Hour angle ω = 15°/h (solar time − 12 h), afternoon positive.
pub fn hour_angle(solar_time: Time) -> Angle {
    degrees(15.0 * (solar_time.si() / 3600.0 - 12.0))
}

/// Hour angle of sunset, cos ω_s = −tan φ tan δ; 0 in the polar night, 180° in the polar day.
///
/// Duffie & Beckman eq. 1.6.10; the sun's centre on a level horizon, no refraction.
pub fn sunset_hour_angle(latitude: Angle, declination: Angle) -> Angle {
    let (sin_phi, cos_phi) = latitude.si().sin_cos();
    let (sin_delta, cos_delta) = declination.si().sin_cos();
    let (level, swing) = (-sin_phi * sin_delta, cos_phi * cos_delta);
    if level.abs() < swing {
        Angle::from_si((level / swing).acos())
    } else if level > 0.0 {
        Angle::from_si(0.0)
    } else {
        Angle::from_si(std::f64::consts::PI)
    }
}

/// Length of the day N = 2 ω_s/(15°/h) (Duffie & Beckman eq. 1.6.11).
pub fn day_length(latitude: Angle, declination: Angle) -> Time {
    Time::from_si(sunset_hour_angle(latitude, declination).si().to_degrees() * 2.0 / 15.0 * 3600.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The Julian day of the SPA report's example and of J2000.
    #[test]
    fn julian_days_are_those_of_the_almanac() {
        assert!((julian_day(2003, 10, 17) + 19.5083333333 / 24.0 - 2452930.312847).abs() < 1e-6);
        assert!((julian_day(2000, 1, 1) + 0.5 - J2000).abs() < 1e-9);
    }

    #[test]
    fn polar_day_and_polar_night_have_no_sunset() {
        assert!((day_length(degrees(90.0), degrees(23.0)).si() - 86400.0).abs() < 1e-6);
        assert!(day_length(degrees(90.0), degrees(-23.0)).si().abs() < 1e-6);
    }

    #[test]
    fn a_place_off_the_globe_is_an_error() {
        let place = Place { latitude: degrees(91.0), longitude: degrees(0.0), altitude: Length::from_si(0.0) };
        assert!(Observer::new(place, Air::standard(place.altitude)).is_err());
    }
}
