//! Large deflection of a glass pane: a computed table of the von Kármán plate, and how it is read.
//!
//! Only the table and its reading live here; small deflection and strength live in the parent.

use super::{Bending, GLASS_MODULUS, Pane, shape};
use crate::physics::domain::{DomainError, within};
use crate::physics::interpolation::Place;
use crate::units::si::{Dimension, Length, Pressure};

/// Name of the load in the errors of [`large_deflection`].
pub(super) const LOAD: &str = "reduced load q a⁴/(E t⁴)";

/// Reduced loads q̂ = q a⁴/(E t⁴) of the columns.
const LOADS: [f64; 10] = [1.0, 3.0, 6.0, 10.0, 20.0, 35.0, 60.0, 100.0, 175.0, 300.0];

/// From this reduced load on the corners carry the largest stress, which the mesh of the computation still
/// understates by 4 to 8 %.
const CORNERS_GOVERN: f64 = 100.0;
/// Allowance on the stress for that.
const CORNER_ALLOWANCE: f64 = 1.10;

/// One ratio of sides, a value for each of [`LOADS`].
struct Row {
    /// Long side over short side.
    ratio: f64,
    /// w/t.
    deflection: [f64; 10],
    /// ŝ = σ a²/(E t²), the largest principal tension on either face.
    stress: [f64; 10],
}

/// Von Kármán plate, simply supported, edges free to move in their plane, ν = 0.22; finite differences with 48 cells
/// on the short side (own computation). Deflections agree with the recalled polynomial of the glass standard within
/// 4 % for q̂ ≥ 20 up to ratio 2 and within 10 % to ratio 3. A second program of another hand (Newton's method, the same
/// mesh) gives every row to ratio 3 again, and gave the rows of ratio 4 and 5.
const TABLE: [Row; 8] = [
    Row {
        ratio: 1.0,
        deflection: [0.0464, 0.1386, 0.2743, 0.4465, 0.8215, 1.2556, 1.7812, 2.3841, 3.1904, 4.1551],
        stress: [0.272, 0.823, 1.658, 2.747, 5.161, 7.9, 11.445, 16.85, 27.3, 43.9],
    },
    Row {
        ratio: 1.25,
        deflection: [0.0688, 0.205, 0.4017, 0.6428, 1.1341, 1.6695, 2.3048, 3.0356, 4.0219, 5.2054],
        stress: [0.383, 1.154, 2.292, 3.699, 6.51, 9.344, 12.857, 19.7, 32.2, 52.0],
    },
    Row {
        ratio: 1.5,
        deflection: [0.0881, 0.2622, 0.5116, 0.8124, 1.413, 2.0607, 2.8307, 3.7205, 4.9222, 6.3564],
        stress: [0.475, 1.426, 2.801, 4.453, 7.62, 10.725, 14.355, 22.1, 36.5, 59.4],
    },
    Row {
        ratio: 2.0,
        deflection: [0.1156, 0.3443, 0.6739, 1.0767, 1.9011, 2.8119, 3.9041, 5.162, 6.8447, 8.8319],
        stress: [0.602, 1.797, 3.519, 5.601, 9.73, 14.046, 18.836, 26.1, 43.6, 72.0],
    },
    Row {
        ratio: 2.5,
        deflection: [0.1312, 0.3921, 0.7743, 1.256, 2.2934, 3.4871, 4.9358, 6.6011, 8.8143, 11.412],
        stress: [0.672, 2.008, 3.96, 6.412, 11.627, 17.44, 24.092, 31.1, 49.2, 82.3],
    },
    Row {
        ratio: 3.0,
        deflection: [0.1397, 0.4185, 0.8325, 1.3691, 2.5834, 4.0511, 5.8752, 7.9823, 10.773, 14.031],
        stress: [0.71, 2.124, 4.222, 6.943, 13.077, 20.334, 28.97, 38.3, 53.6, 93.3],
    },
    Row {
        ratio: 4.0,
        deflection: [0.1464, 0.4397, 0.8811, 1.4711, 2.9085, 4.8293, 7.3946, 10.4514, 14.5158, 19.2321],
        stress: [0.74, 2.219, 4.446, 7.426, 14.699, 24.355, 36.952, 51.327, 69.115, 107.8],
    },
    Row {
        ratio: 5.0,
        deflection: [0.1482, 0.4449, 0.8923, 1.4952, 3.0202, 5.2222, 8.4099, 12.4191, 17.8695, 24.2083],
        stress: [0.748, 2.244, 4.499, 7.538, 15.245, 26.378, 42.317, 61.827, 87.052, 117.3],
    },
];

/// Deflection and stress of a simply supported glass pane whose edges may slide inward.
///
/// Reads the table in the logarithms of load, deflection and stress, and linearly in the ratio of the sides. Ratio 1 to
/// 5, as far as the glass standard's charts go (from memory); q̂ up to 300, an error above. Below q̂ = 1 the plate is
/// linear and the first column is scaled. From q̂ = 100 the stress carries 10 % more for the corners, brought in
/// gradually from q̂ = 60. Load of either sign counts by its size.
pub fn large_deflection(pane: &Pane, load: Pressure) -> Result<Bending, DomainError> {
    let (short, ratio, thickness) = shape(pane)?;
    within("ratio of the sides", ratio, TABLE[0].ratio, TABLE[TABLE.len() - 1].ratio)?;
    let place = Place::find(TABLE.iter().map(|row| row.ratio), ratio)
        .ok_or(DomainError::NotFinite { what: "ratio of the sides" })?;
    let reduced = load.si().abs() * short.powi(4) / (GLASS_MODULUS * thickness.powi(4));
    let (mut deflection, mut stress) = (0.0, 0.0);
    for (row, share) in [(place.lower, 1.0 - place.share), (place.lower + 1, place.share)] {
        let read = TABLE[row].at(reduced)?;
        deflection += share * read.0;
        stress += share * read.1;
    }
    Ok(Bending {
        deflection: Length::from_si(deflection * thickness),
        stress: Pressure::from_si(stress * GLASS_MODULUS * (thickness / short).powi(2)),
    })
}

impl Row {
    /// w/t and ŝ at a reduced load.
    fn at(&self, reduced: f64) -> Result<(f64, f64), DomainError> {
        within(LOAD, reduced, 0.0, LOADS[LOADS.len() - 1])?;
        if reduced <= LOADS[0] {
            return Ok((self.deflection[0] * reduced, self.stress[0] * reduced));
        }
        let place = Place::find(LOADS.iter().map(|load| load.ln()), reduced.ln())
            .ok_or(DomainError::NotFinite { what: LOAD })?;
        let (lower, upper) = (place.lower, place.lower + 1);
        Ok((
            place.logarithmic(self.deflection[lower], self.deflection[upper]),
            place.logarithmic(self.stress_at(lower), self.stress_at(upper)),
        ))
    }

    /// ŝ of a column with the allowance for the corners.
    fn stress_at(&self, column: usize) -> f64 {
        self.stress[column] * if LOADS[column] >= CORNERS_GOVERN { CORNER_ALLOWANCE } else { 1.0 }
    }
}
