//! Small dense systems of linear equations.
//!
//! Only the numerical method lives here.

/// Pivots below this share of the largest element make a matrix count as singular when it is inverted.
const LEAST_PIVOT: f64 = 1e-12;

/// Solves rows · x = right by elimination with row exchange; `None` when the system is singular or not finite.
///
/// `rows` holds as many rows as `right` has values, each as long.
pub fn solve(mut rows: Vec<Vec<f64>>, right: &[f64]) -> Option<Vec<f64>> {
    rows.iter_mut().zip(right).for_each(|(row, value)| row.push(*value));
    eliminate(&mut rows, 0.0)?;
    substitute(&rows, right.len())
}

/// Inverse of a square matrix by the same elimination; `None` when it is singular within rounding or not finite.
pub fn inverse(mut rows: Vec<Vec<f64>>) -> Option<Vec<Vec<f64>>> {
    let n = rows.len();
    let largest = rows.iter().flatten().fold(0.0_f64, |most, element| most.max(element.abs()));
    for (i, row) in rows.iter_mut().enumerate() {
        row.extend((0..n).map(|j| if i == j { 1.0 } else { 0.0 }));
    }
    eliminate(&mut rows, LEAST_PIVOT * largest)?;
    let columns = (0..n).map(|j| substitute(&rows, n + j)).collect::<Option<Vec<_>>>()?;
    Some((0..n).map(|i| columns.iter().map(|column| column[i]).collect()).collect())
}

/// Brings rows with one or more right sides to triangular form; `None` for a pivot of `least` or less.
fn eliminate(rows: &mut [Vec<f64>], least: f64) -> Option<()> {
    let n = rows.len();
    for column in 0..n {
        let best = (column..n).max_by(|&a, &b| rows[a][column].abs().total_cmp(&rows[b][column].abs()))?;
        rows.swap(column, best);
        let pivot = rows[column].clone();
        if pivot[column].abs() <= least || !pivot[column].is_finite() {
            return None;
        }
        for row in &mut rows[column + 1..] {
            let share = row[column] / pivot[column];
            row[column..].iter_mut().zip(&pivot[column..]).for_each(|(value, above)| *value -= share * above);
        }
    }
    Some(())
}

/// Solution of a triangular system for the right side in a column.
fn substitute(rows: &[Vec<f64>], right: usize) -> Option<Vec<f64>> {
    let n = rows.len();
    let mut solution = vec![0.0; n];
    for i in (0..n).rev() {
        let known: f64 = (i + 1..n).map(|k| rows[i][k] * solution[k]).sum();
        solution[i] = (rows[i][right] - known) / rows[i][i];
    }
    solution.iter().all(|value| value.is_finite()).then_some(solution)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_system_that_needs_its_rows_exchanged_is_solved() {
        let rows = vec![vec![0.0, 2.0, 1.0], vec![1.0, 0.0, 0.0], vec![3.0, 0.0, 1.0]];
        let solution = solve(rows, &[7.0, 1.0, 6.0]).unwrap();
        for (got, want) in solution.iter().zip([1.0, 2.0, 3.0]) {
            assert!((got - want).abs() < 1e-12);
        }
    }

    #[test]
    fn a_matrix_times_its_inverse_is_one() {
        let matrix = vec![vec![0.0, 2.0, 1.0], vec![1.0, 0.0, 4.0], vec![3.0, 0.0, 1.0]];
        let inverse = inverse(matrix.clone()).unwrap();
        for (i, row) in matrix.iter().enumerate() {
            let product = |j: usize| row.iter().zip(&inverse).map(|(a, b)| a * b[j]).sum::<f64>();
            assert!((0..3).all(|j| (product(j) - f64::from(u8::from(i == j))).abs() < 1e-12));
        }
    }

    #[test]
    fn equal_rows_have_neither_solution_nor_inverse() {
        assert_eq!(solve(vec![vec![1.0, 1.0], vec![1.0, 1.0]], &[1.0, 2.0]), None);
        assert_eq!(inverse(vec![vec![0.1, 0.3], vec![0.1 / 3.0, 0.1]]), None);
        assert_eq!(inverse(vec![vec![f64::NAN]]), None);
    }
}
