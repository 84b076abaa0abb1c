//! Soldered and brazed joints: pressure rating against temperature, solder needed.
//!
//! Lives here: how published ratings are read between their points, and where no rating exists. Must not live here:
//! the published tables (`handbook`), which alloy melts when, what a verdict makes of a rating.

use super::customary::PSI;
use super::domain::{DomainError, positive, within};
use super::interpolation::Place;
use crate::units::si::{Dimension, Length, Pressure, Temperature, Volume, celsius, in_celsius};

/// Highest service temperature of a soldered pressure joint, °C (250 °F; verified application data sheet on soldering
/// and brazing copper tube).
pub const SOLDERED_LIMIT_CELSIUS: f64 = 121.0;
/// Highest service temperature of a brazed pressure joint, °C (350 °F; same sheet).
pub const BRAZED_LIMIT_CELSIUS: f64 = 177.0;

/// How the joint is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Method {
    /// Filler that melts below 449 °C.
    Soldered,
    /// Filler that melts above 538 °C (1000 °F).
    Brazed,
}

impl Method {
    /// Highest temperature for which a rating exists at all, °C.
    pub fn limit_celsius(self) -> f64 {
        match self {
            Self::Soldered => SOLDERED_LIMIT_CELSIUS,
            Self::Brazed => BRAZED_LIMIT_CELSIUS,
        }
    }

    /// Highest gauge pressure of saturated steam: 15 psi soldered, 120 psi brazed (copper trade handbook, verified).
    pub fn steam_rating(self) -> Pressure {
        Pressure::from_si(PSI * if self == Self::Soldered { 15.0 } else { 120.0 })
    }
}

/// One printed point of a rating table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RatingPoint {
    /// Temperature of the liquid.
    pub temperature: Temperature,
    /// Rated gauge pressure.
    pub pressure: Pressure,
}

/// A rating read from one or several tables.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rating {
    /// Rated gauge pressure: the lowest that any table gives.
    pub pressure: Pressure,
    /// Index of the table that gave it.
    pub table: usize,
    /// The tables disagree at this temperature.
    pub conflict: bool,
}

/// Why no rating can be given.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum JointError {
    /// No code rates such a joint so hot.
    #[error("no rating exists above {limit_celsius} °C for a {method:?} joint")]
    NoRating {
        /// How the joint is made.
        method: Method,
        /// The highest rated temperature, °C.
        limit_celsius: f64,
    },
    /// No table, or a table without points or with falling temperatures.
    #[error("the rating table is empty or out of order")]
    BadTable,
    /// An input is outside the law.
    #[error(transparent)]
    Domain(#[from] DomainError),
}

/// Rated pressure of a joint at a temperature, the lowest of several tables.
///
/// Each table is read linearly between its points (rising temperatures). Below its first point the first pressure
/// holds, as the codes print it ("up to 100 °F"); between its last point and the service limit of the method the
/// last pressure holds (0.3 K for the brazed row at 350 °F). Above the limit there is no rating and none is
/// extrapolated. From −40 °C up.
pub fn rated_pressure(
    method: Method,
    tables: &[&[RatingPoint]],
    temperature: Temperature,
) -> Result<Rating, JointError> {
    within("temperature of the joint", temperature.si(), celsius(-40.0).si(), f64::MAX)?;
    let limit_celsius = method.limit_celsius();
    if in_celsius(temperature) > limit_celsius {
        return Err(JointError::NoRating { method, limit_celsius });
    }
    let readings = tables.iter().map(|table| read(table, temperature)).collect::<Result<Vec<_>, _>>()?;
    let (table, pressure) = readings
        .iter()
        .copied()
        .enumerate()
        .min_by(|left, right| left.1.total_cmp(&right.1))
        .ok_or(JointError::BadTable)?;
    let conflict = readings.iter().any(|reading| (reading - pressure).abs() > 1.0);
    Ok(Rating { pressure: Pressure::from_si(pressure), table, conflict })
}

fn read(table: &[RatingPoint], temperature: Temperature) -> Result<f64, JointError> {
    let (Some(first), Some(last)) = (table.first(), table.last()) else { return Err(JointError::BadTable) };
    if table.windows(2).any(|pair| pair[0].temperature.si() >= pair[1].temperature.si()) {
        return Err(JointError::BadTable);
    }
    if temperature.si() <= first.temperature.si() {
        return Ok(first.pressure.si());
    }
    let place = Place::find(table.iter().map(|point| point.temperature.si()), temperature.si());
    Ok(place.map_or(last.pressure.si(), |place| {
        place.linear(table[place.lower].pressure.si(), table[place.lower + 1].pressure.si())
    }))
}

/// Length of wire that holds a volume of solder, l = 4 V/(π d²).
pub fn wire_length(volume: Volume, wire_diameter: Length) -> Result<Length, DomainError> {
    let diameter = positive("wire diameter", wire_diameter.si())?;
    Ok(Length::from_si(4.0 * volume.si() / (std::f64::consts::PI * diameter * diameter)))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn point(degrees: f64, bar: f64) -> RatingPoint {
        RatingPoint { temperature: celsius(degrees), pressure: Pressure::from_si(bar * 1e5) }
    }

    #[test]
    fn the_lower_of_two_tables_governs_and_the_conflict_is_told() {
        let high = [point(40.0, 75.0), point(121.1, 18.0)];
        let low = [point(40.0, 34.0), point(121.1, 14.0)];
        let rating = rated_pressure(Method::Soldered, &[&high, &low], celsius(121.0)).unwrap();
        assert_eq!((rating.table, rating.conflict), (1, true));
        assert!((rating.pressure.si() / 1e5 - 14.0).abs() < 0.05);
    }

    #[test]
    fn nothing_is_rated_above_the_service_limit() {
        let table = [point(40.0, 34.0), point(121.1, 14.0)];
        assert!(rated_pressure(Method::Soldered, &[&table], celsius(121.2)).is_err());
        assert!(rated_pressure(Method::Brazed, &[&table], celsius(177.0)).is_ok());
        assert!(rated_pressure(Method::Brazed, &[&table], celsius(177.1)).is_err());
        assert_eq!(rated_pressure(Method::Brazed, &[], celsius(20.0)), Err(JointError::BadTable));
    }
}
