//! Published pressure ratings of soldered and brazed joints, by filler and size.
//!
//! Two sets are in use and disagree for tin-antimony; both are kept. How they are read between their points, and
//! which counts, lives in `physics::solder_joint`.

use super::{TableError, read};
use crate::physics::customary::{PSI, fahrenheit};
use crate::physics::solder_joint::RatingPoint;
use crate::units::si::{Dimension, Pressure};
use serde::Deserialize;
use std::sync::LazyLock;

const TABLE: (&str, &str) = ("solder.toml", include_str!("tables/solder.toml"));

/// Nominal tube size that a rating is printed for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SizeGroup {
    /// Up to nominal 1 (outside diameter 28.6 mm).
    UpTo1,
    /// Nominal 1¼ to 2 (outside diameter 54 mm).
    UpTo2,
    /// Nominal 2½ to 4.
    UpTo4,
}

/// The ratings of one filler in one published set.
#[derive(Clone, Debug, PartialEq)]
pub struct JointRating {
    /// ASTM B32 grade of the solder, or `brazed`.
    pub filler: String,
    /// The published set.
    pub source: String,
    points: [Vec<RatingPoint>; 3],
}

impl JointRating {
    /// The printed points of a size, by rising temperature.
    pub fn points(&self, size: SizeGroup) -> &[RatingPoint] {
        &self.points[size as usize]
    }
}

/// Every rating of every set.
pub fn all() -> &'static [JointRating] {
    static RATINGS: LazyLock<Vec<JointRating>> = LazyLock::new(|| load().unwrap_or_default());
    &RATINGS
}

/// The printed points for a filler and size, one list for each set that rates it; empty where none does.
pub fn tables(filler: &str, size: SizeGroup) -> Vec<&'static [RatingPoint]> {
    all().iter().filter(|rating| rating.filler == filler.trim()).map(|rating| rating.points(size)).collect()
}

#[derive(Deserialize)]
struct Tables {
    joint_rating: Set,
    joint_rating_b31_9: Set,
}

#[derive(Deserialize)]
struct Set {
    source: String,
    rows: Vec<Row>,
}

#[derive(Deserialize)]
struct Row {
    joint: String,
    temp_f: f64,
    psi: [f64; 3],
}

fn load() -> Result<Vec<JointRating>, TableError> {
    let tables: Tables = read(TABLE.0, TABLE.1)?;
    Ok([tables.joint_rating, tables.joint_rating_b31_9].into_iter().flat_map(Set::ratings).collect())
}

impl Set {
    fn ratings(self) -> Vec<JointRating> {
        let mut ratings: Vec<JointRating> = Vec::new();
        for row in self.rows {
            let found = ratings.iter().position(|rating| rating.filler == row.joint);
            let index = found.unwrap_or_else(|| {
                let points = [Vec::new(), Vec::new(), Vec::new()];
                ratings.push(JointRating { filler: row.joint.clone(), source: self.source.clone(), points });
                ratings.len() - 1
            });
            for (points, psi) in ratings[index].points.iter_mut().zip(row.psi) {
                let temperature = fahrenheit(row.temp_f);
                points.push(RatingPoint { temperature, pressure: Pressure::from_si(psi * PSI) });
            }
        }
        ratings
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ratings_parse_and_fall_with_temperature_and_size() {
        let ratings = load().unwrap();
        assert_eq!(ratings.len(), 7);
        for rating in &ratings {
            for size in [SizeGroup::UpTo1, SizeGroup::UpTo2, SizeGroup::UpTo4] {
                for pair in rating.points(size).windows(2) {
                    assert!(pair[0].temperature < pair[1].temperature, "{}", rating.filler);
                    assert!(pair[0].pressure > pair[1].pressure, "{}", rating.filler);
                }
            }
        }
    }

    #[test]
    fn tin_antimony_has_two_sets_and_tin_silver_none() {
        assert_eq!(tables("Sb5", SizeGroup::UpTo1).len(), 2);
        assert!(tables("Sn96", SizeGroup::UpTo1).is_empty());
    }
}
