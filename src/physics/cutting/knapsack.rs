//! The most valuable set of pieces that one bar holds: the pricing step of the relaxation.
//!
//! A bounded knapsack by depth-first search with the fractional bound.

/// More steps than this and the search is given up; no bound is drawn from an unfinished one.
const STEP_LIMIT: u32 = 200_000;

struct Search<'a> {
    /// Items by falling value per weight: (index, value, weight, most).
    items: &'a [(usize, f64, u64, u32)],
    best: f64,
    best_counts: Vec<u32>,
    counts: Vec<u32>,
    steps: u32,
}

/// Greatest Σ value·count with Σ weight·count ≤ capacity and count ≤ most, and its counts. Values of zero and less are
/// left out. `None` when the search did not end within its limit.
pub(super) fn most_valuable(values: &[f64], weights: &[u64], most: &[u32], capacity: u64) -> Option<(f64, Vec<u32>)> {
    let mut items: Vec<(usize, f64, u64, u32)> = (0..values.len())
        .filter(|&i| values[i] > 1e-12 && most[i] > 0 && weights[i] <= capacity)
        .map(|i| (i, values[i], weights[i], most[i]))
        .collect();
    items.sort_by(|a, b| (b.1 * a.2 as f64).total_cmp(&(a.1 * b.2 as f64)).then(a.0.cmp(&b.0)));
    let mut search = Search {
        items: &items,
        best: 0.0,
        best_counts: vec![0; values.len()],
        counts: vec![0; values.len()],
        steps: 0,
    };
    search.go(0, 0.0, capacity)?;
    Some((search.best, search.best_counts))
}

impl Search<'_> {
    fn go(&mut self, depth: usize, value: f64, room: u64) -> Option<()> {
        self.steps += 1;
        if self.steps > STEP_LIMIT {
            return None;
        }
        if value > self.best + 1e-10 {
            self.best = value;
            self.best_counts.clone_from(&self.counts);
        }
        let Some(&(index, each, weight, most)) = self.items.get(depth) else { return Some(()) };
        if value + each * room as f64 / weight as f64 <= self.best + 1e-10 {
            return Some(());
        }
        let fitting = u32::try_from(room / weight).unwrap_or(u32::MAX).min(most);
        for count in (0..=fitting).rev() {
            self.counts[index] = count;
            self.go(depth + 1, value + each * f64::from(count), room - weight * u64::from(count))?;
        }
        self.counts[index] = 0;
        Some(())
    }
}
