//! Where a value lies in a table of rising abscissae.
//!
//! Only the place and the two ways between neighbours; what a table does outside its ends is its own affair.

/// A place between two neighbours of a table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Place {
    /// Index of the lower neighbour; the upper one follows it.
    pub lower: usize,
    /// Share of the way from the lower to the upper neighbour, 0 to 1.
    pub share: f64,
}

impl Place {
    /// Finds `x` in rising abscissae; `None` outside their ends, for fewer than two of them, or for not-a-number.
    pub fn find(rising: impl IntoIterator<Item = f64>, x: f64) -> Option<Self> {
        let mut before: Option<f64> = None;
        for (index, here) in rising.into_iter().enumerate() {
            if let Some(low) = before
                && low <= x
                && x <= here
            {
                return Some(Self { lower: index - 1, share: (x - low) / (here - low) });
            }
            before = Some(here);
        }
        None
    }

    /// Along a straight line.
    pub fn linear(self, low: f64, high: f64) -> f64 {
        low + self.share * (high - low)
    }

    /// Along a straight line in the logarithm; both values above zero.
    pub fn logarithmic(self, low: f64, high: f64) -> f64 {
        low * (high / low).powf(self.share)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TABLE: [f64; 3] = [1.0, 2.0, 4.0];

    #[test]
    fn a_place_is_found_between_its_neighbours_and_at_them() {
        assert_eq!(Place::find(TABLE, 3.0), Some(Place { lower: 1, share: 0.5 }));
        assert_eq!(Place::find(TABLE, 1.0), Some(Place { lower: 0, share: 0.0 }));
        assert_eq!(Place::find(TABLE, 4.0), Some(Place { lower: 1, share: 1.0 }));
    }

    #[test]
    fn nothing_is_found_outside_the_table() {
        for x in [0.9, 4.1, f64::NAN] {
            assert_eq!(Place::find(TABLE, x), None);
        }
        assert_eq!(Place::find([1.0], 1.0), None);
    }

    #[test]
    fn half_way_is_the_arithmetic_or_the_geometric_mean() {
        let half = Place { lower: 0, share: 0.5 };
        assert!((half.linear(1.0, 4.0) - 2.5).abs() < 1e-15);
        assert!((half.logarithmic(1.0, 4.0) - 2.0).abs() < 1e-15);
    }
}
