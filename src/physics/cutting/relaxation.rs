//! Linear relaxation of a cutting job: patterns may be used in fractions.
//!
//! Revised simplex over patterns made on demand. Rows: Σ pieces ≥ wanted for each part, Σ bars ≤ available for each
//! limited kind of bar. Gilmore and Gomory 1961, Operations Research 9, 849.

use super::{Instance, Pattern, knapsack};

const MAX_PIVOTS: usize = 2000;
const EPSILON: f64 = 1e-9;

/// The optimum of the relaxation.
pub(super) enum Relaxation {
    /// The bars at hand hold not even fractions of all pieces.
    Infeasible,
    /// A solution.
    Solved {
        /// Its price.
        price: f64,
        /// The patterns used and how often.
        uses: Vec<(Pattern, f64)>,
        /// Value of one more piece of each part.
        values: Vec<f64>,
        /// Price of one bar of each kind, scarcity included.
        bar_prices: Vec<f64>,
    },
}

#[derive(Clone)]
enum Column {
    /// A piece that is not made, at a forbidding price.
    Missing,
    /// A piece or a bar too many, free.
    Spare {
        row: usize,
        sign: f64,
    },
    Pattern(Pattern),
}

/// What may come into the basis next.
enum Entering {
    /// A column that lowers the price, with its own price.
    Column(Column, f64),
    /// The basis is the optimum.
    NoneLeft,
    /// The pricing did not end.
    GaveUp,
}

struct Tableau<'a> {
    instance: &'a Instance,
    /// Row of the limit of each kind of bar.
    limit_rows: Vec<Option<usize>>,
    inverse: Vec<Vec<f64>>,
    basis: Vec<(Column, f64)>,
    amounts: Vec<f64>,
}

/// Solves the relaxation for what is still wanted with the bars already used, starting from a pool of known patterns
/// and adding to it. `None` when a limit of the iteration came first: then nothing is known.
pub(super) fn solve(instance: &Instance, wanted: &[u32], used: &[u32], pool: &mut Vec<Pattern>) -> Option<Relaxation> {
    let mut tableau = Tableau::new(instance, wanted, used)?;
    for _ in 0..MAX_PIVOTS {
        let duals = tableau.duals();
        match tableau.entering(&duals, wanted, pool) {
            Entering::Column(column, cost) => tableau.pivot(column, cost)?,
            Entering::NoneLeft => return Some(tableau.relaxation(&duals)),
            Entering::GaveUp => return None,
        }
    }
    None
}

impl<'a> Tableau<'a> {
    fn new(instance: &'a Instance, wanted: &[u32], used: &[u32]) -> Option<Self> {
        let dearest = instance.bars.iter().map(|bar| bar.price).max()?;
        let forbidding = 1e5 * (dearest as f64 + 1.0);
        let mut amounts: Vec<f64> = wanted.iter().map(|&count| f64::from(count)).collect();
        let mut basis = vec![(Column::Missing, forbidding); wanted.len()];
        let mut limit_rows = Vec::new();
        for (bar, &used) in instance.bars.iter().zip(used) {
            limit_rows.push(bar.available.map(|available| {
                let row = amounts.len();
                amounts.push(f64::from(available.saturating_sub(used)));
                basis.push((Column::Spare { row, sign: 1.0 }, 0.0));
                row
            }));
        }
        let size = amounts.len();
        let inverse = (0..size).map(|i| (0..size).map(|j| if i == j { 1.0 } else { 0.0 }).collect()).collect();
        Some(Self { instance, limit_rows, inverse, basis, amounts })
    }

    fn parts(&self) -> usize {
        self.instance.weights.len()
    }

    fn duals(&self) -> Vec<f64> {
        (0..self.amounts.len())
            .map(|row| self.basis.iter().zip(&self.inverse).map(|((_, cost), line)| cost * line[row]).sum())
            .collect()
    }

    /// Price of a bar less the value of its place in a limited supply (which is zero or negative).
    fn bar_price(&self, stock: usize, duals: &[f64]) -> f64 {
        self.instance.bars[stock].price as f64 - self.limit_rows[stock].map_or(0.0, |row| duals[row])
    }

    fn gain(&self, pattern: &Pattern, duals: &[f64]) -> f64 {
        let value: f64 = pattern.counts.iter().zip(duals).map(|(&count, dual)| f64::from(count) * dual).sum();
        value - self.bar_price(pattern.stock, duals)
    }

    fn entering(&self, duals: &[f64], wanted: &[u32], pool: &mut Vec<Pattern>) -> Entering {
        for (row, dual) in duals.iter().enumerate() {
            let sign = if row < self.parts() { -1.0 } else { 1.0 };
            if dual * sign > EPSILON {
                return Entering::Column(Column::Spare { row, sign }, 0.0);
            }
        }
        let fits = |pattern: &&Pattern| pattern.counts.iter().zip(wanted).all(|(count, wanted)| count <= wanted);
        let known = pool.iter().filter(fits).map(|pattern| (self.gain(pattern, duals), pattern));
        if let Some((gain, pattern)) = known.max_by(|a, b| a.0.total_cmp(&b.0))
            && gain > EPSILON
        {
            let cost = self.instance.bars[pattern.stock].price as f64;
            return Entering::Column(Column::Pattern(pattern.clone()), cost);
        }
        let values = &duals[..self.parts()];
        let mut best: Option<(f64, Pattern)> = None;
        for (stock, bar) in self.instance.bars.iter().enumerate() {
            let found = knapsack::most_valuable(values, &self.instance.weights, wanted, bar.capacity);
            let Some((value, counts)) = found else { return Entering::GaveUp };
            let gain = value - self.bar_price(stock, duals);
            if gain > EPSILON && best.as_ref().is_none_or(|(most, _)| gain > *most) {
                best = Some((gain, Pattern { stock, counts }));
            }
        }
        let Some((_, pattern)) = best else { return Entering::NoneLeft };
        pool.push(pattern.clone());
        let cost = self.instance.bars[pattern.stock].price as f64;
        Entering::Column(Column::Pattern(pattern), cost)
    }

    fn column(&self, column: &Column) -> Vec<f64> {
        let mut entries = vec![0.0; self.amounts.len()];
        match column {
            Column::Missing => {}
            Column::Spare { row, sign } => entries[*row] = *sign,
            Column::Pattern(pattern) => {
                for (entry, &count) in entries.iter_mut().zip(&pattern.counts) {
                    *entry = f64::from(count);
                }
                if let Some(row) = self.limit_rows[pattern.stock] {
                    entries[row] = 1.0;
                }
            }
        }
        entries
    }

    /// Brings a column into the basis; `None` when no row limits it, which a bounded job cannot have.
    fn pivot(&mut self, column: Column, cost: f64) -> Option<()> {
        let entries = self.column(&column);
        let direction: Vec<f64> =
            self.inverse.iter().map(|line| line.iter().zip(&entries).map(|(a, b)| a * b).sum()).collect();
        let leaving = (0..direction.len()).filter(|&row| direction[row] > EPSILON).min_by(|&a, &b| {
            (self.amounts[a] / direction[a]).total_cmp(&(self.amounts[b] / direction[b])).then(a.cmp(&b))
        })?;
        let pivot = direction[leaving];
        let line: Vec<f64> = self.inverse[leaving].iter().map(|element| element / pivot).collect();
        let amount = self.amounts[leaving] / pivot;
        for row in (0..direction.len()).filter(|&row| row != leaving) {
            for (element, lead) in self.inverse[row].iter_mut().zip(&line) {
                *element -= direction[row] * lead;
            }
            self.amounts[row] = (self.amounts[row] - direction[row] * amount).max(0.0);
        }
        self.inverse[leaving] = line;
        self.amounts[leaving] = amount;
        self.basis[leaving] = (column, cost);
        Some(())
    }

    fn relaxation(&self, duals: &[f64]) -> Relaxation {
        let mut uses = Vec::new();
        let mut price = 0.0;
        for ((column, cost), &amount) in self.basis.iter().zip(&self.amounts) {
            match column {
                Column::Missing if amount > 1e-6 => return Relaxation::Infeasible,
                Column::Missing | Column::Spare { .. } => {}
                Column::Pattern(pattern) => {
                    price += cost * amount;
                    uses.push((pattern.clone(), amount));
                }
            }
        }
        let bar_prices = (0..self.instance.bars.len()).map(|stock| self.bar_price(stock, duals)).collect();
        Relaxation::Solved { price, uses, values: duals[..self.parts()].to_vec(), bar_prices }
    }
}
