//! The sun's way over a place through many moments, with the long sums of the algorithm made now and then only.

use solar_positioning::PreparedPositions;

use super::{Direction, Observer, SunError, prepare};

/// Prepared moments of a [`Track`] in a day.
const SPANS: f64 = 8.0;
/// Turn of the earth against the stars in a day, degrees (sidereal time; Reda & Andreas 2004, eq. 28).
const STELLAR_TURN: f64 = 360.98564736629;

/// The sun's way over a place, for many moments in their order.
///
/// The long sums of the algorithm give the sun's place among the stars, which moves by a degree a day; they are made
/// eight times a day only. Between two of them right ascension and declination go linearly: each of the two moments is
/// asked from the longitude that has the wanted hour angle, H = ν + longitude − α with ν turning by
/// 360.98564736629° a day, and the two directions are mixed by the time between. Within 0.00002° of
/// [`Observer::apparent`], less than a tenth of the algorithm's own uncertainty; at the elevation of −0.8333° alone,
/// where the report's refraction sets in with a jump, a moment may lie on either side or between. The answer hangs on
/// the moment only, not on what was asked before.
#[derive(Clone, Debug)]
pub struct Track {
    observer: Observer,
    span: Option<Span>,
}

/// The span of time between two prepared moments.
#[derive(Clone, Debug)]
struct Span {
    /// Spans since the epoch of Julian days, a whole number.
    number: f64,
    start: PreparedPositions,
    end: PreparedPositions,
}

impl Track {
    pub(super) fn of(observer: Observer) -> Self {
        Self { observer, span: None }
    }

    /// Apparent direction at a UTC Julian day.
    pub fn apparent(&mut self, julian_day: f64) -> Result<Direction, SunError> {
        let number = (julian_day * SPANS).floor();
        let ahead = |span: &Span| number - span.number;
        let span = match self.span.take() {
            Some(span) if ahead(&span).abs() < 0.5 => span,
            Some(span) if (ahead(&span) - 1.0).abs() < 0.5 => Span::new(number, span.end)?,
            _ => Span::new(number, prepare(number / SPANS)?)?,
        };
        let span = self.span.insert(span);
        let share = julian_day * SPANS - number;
        let drift = (span.end.right_ascension() - span.start.right_ascension()).rem_euclid(360.0);
        let turn = STELLAR_TURN / SPANS - drift;
        let longitude = self.observer.location.longitude;
        let start = self.observer.seen(&span.start, longitude + share * turn)?;
        let end = self.observer.seen(&span.end, longitude - (1.0 - share) * turn)?;
        Ok(start.mixed(end, share))
    }
}

impl Span {
    fn new(number: f64, start: PreparedPositions) -> Result<Self, SunError> {
        Ok(Self { number, start, end: prepare((number + 1.0) / SPANS)? })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::physics::sun::{Air, Place};
    use crate::units::si::{Angle, Dimension, Length};

    fn degrees(value: f64) -> Angle {
        Angle::from_si(value.to_radians())
    }

    /// Two thousand moments of a year at five places, the whole algorithm beside them. 0.00002° are less than a tenth of
    /// what Reda & Andreas 2004 promise.
    #[test]
    fn a_track_stays_within_a_tenth_of_the_algorithms_own_uncertainty() {
        for (latitude, longitude) in [(0.0, 0.0), (36.1, -79.95), (-33.9, 151.2), (71.3, 179.9), (23.4, -180.0)] {
            let altitude = Length::from_si(0.0);
            let place = Place { latitude: degrees(latitude), longitude: degrees(longitude), altitude };
            let observer = Observer::new(place, Air::standard(altitude)).unwrap();
            let mut track = observer.track();
            for step in 0..2000 {
                let moment = 2_455_000.3 + f64::from(step) * 0.1837;
                let (whole, quick) = (observer.apparent(moment).unwrap(), track.apparent(moment).unwrap());
                // Where refraction sets in, at −0.8333°, nobody needs the sun.
                if whole.up > -0.01 {
                    let away = (whole.east - quick.east).hypot(whole.north - quick.north).hypot(whole.up - quick.up);
                    assert!(away.to_degrees() < 2e-5, "{latitude} {longitude} {moment}: {}°", away.to_degrees());
                }
            }
        }
    }

    #[test]
    fn a_track_answers_alike_in_any_order() {
        let place = Place { latitude: degrees(36.1), longitude: degrees(-79.95), altitude: Length::from_si(270.0) };
        let observer = Observer::new(place, Air::standard(place.altitude)).unwrap();
        let moments: Vec<f64> = (0..48).map(|hour| 2_459_000.5 + f64::from(hour) / 24.0).collect();
        let mut track = observer.track();
        let forth: Vec<Direction> = moments.iter().map(|moment| track.apparent(*moment).unwrap()).collect();
        let mut back: Vec<Direction> = moments.iter().rev().map(|moment| track.apparent(*moment).unwrap()).collect();
        back.reverse();
        assert_eq!(forth, back);
    }
}
