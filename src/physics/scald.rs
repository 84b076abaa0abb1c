//! How long hot water takes to burn the skin of an adult.
//!
//! Only the published table and its reading live here; tap settings and verdicts live in the safety stage.

use super::interpolation::Place;
use crate::units::si::{Dimension, Temperature, Time, in_celsius};

/// One row: water temperature, °C, and the times in seconds to a second-degree and a third-degree burn.
type Row = (f64, f64, f64);

/// Exposure times of adults, as the scald literature prints them after Moritz and Henriques 1947 (verified page
/// "Exposure time to receive a severe burn").
pub const BURN_TABLE: [Row; 7] = [
    (45.0, 7200.0, 10800.0),
    (47.0, 1200.0, 2700.0),
    (48.0, 900.0, 1200.0),
    (49.0, 480.0, 600.0),
    (51.0, 120.0, 252.0),
    (55.0, 17.0, 30.0),
    (60.0, 3.0, 5.0),
];

/// What the table says for a water temperature. The times are those of adults; a child burns sooner, and no time
/// for children is derived from them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BurnTime {
    /// Cooler than the table begins: longer than its longest times (2 h and 3 h at 45 °C).
    BelowTable,
    /// Read from the table.
    Within {
        /// Time to a second-degree burn.
        second_degree: Time,
        /// Time to a third-degree burn.
        third_degree: Time,
    },
    /// Hotter than the table ends: shorter than its shortest times, "under 3 s" (60 °C).
    AboveTable,
}

/// Reads [`BURN_TABLE`]: straight lines in the logarithm of time against temperature, 45 to 60 °C.
///
/// Outside nothing is extrapolated; the ends are reported as such. A temperature that is not a number reads as above
/// the table.
pub fn burn_time(water: Temperature) -> BurnTime {
    let degrees = in_celsius(water);
    if degrees < BURN_TABLE[0].0 {
        return BurnTime::BelowTable;
    }
    let Some(place) = Place::find(BURN_TABLE.map(|row| row.0), degrees) else { return BurnTime::AboveTable };
    let (cool, hot) = (BURN_TABLE[place.lower], BURN_TABLE[place.lower + 1]);
    BurnTime::Within {
        second_degree: Time::from_si(place.logarithmic(cool.1, hot.1)),
        third_degree: Time::from_si(place.logarithmic(cool.2, hot.2)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    #[test]
    fn the_ends_are_told_and_not_extrapolated() {
        assert_eq!(burn_time(celsius(44.9)), BurnTime::BelowTable);
        assert_eq!(burn_time(celsius(60.1)), BurnTime::AboveTable);
        assert_eq!(burn_time(celsius(f64::NAN)), BurnTime::AboveTable);
    }
}
