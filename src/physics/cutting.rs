//! Cutting plans for bars: tubes, rails, boards cut to length.
//!
//! Lives here: the job, the plan, first-fit decreasing and the entry point. The exact search lies in the folder.
//! Must not live here: which parts a panel needs, how a plan is printed, sheets (`guillotine`).

mod knapsack;
mod relaxation;
mod search;
pub mod stretches;

use super::domain::{DomainError, within};
use crate::units::si::{Dimension, Length};

/// A length in whole tenths of a millimetre, so that sums are exact.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Tenths(pub u32);

impl Tenths {
    /// The nearest tenth of a millimetre of a length from 0 to 100 m.
    pub fn rounded(length: Length) -> Result<Self, DomainError> {
        let tenths = (within("length to be cut", length.si(), 0.0, 100.0)? * 1e4).round();
        // The check above leaves 0 to 1 000 000, which a u32 holds.
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        Ok(Self(tenths as u32))
    }

    /// The length.
    pub fn length(self) -> Length {
        Length::from_si(f64::from(self.0) * 1e-4)
    }
}

/// Equal pieces that are wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Part {
    /// Finished length.
    pub length: Tenths,
    /// How many.
    pub count: u32,
}

/// A kind of bar to cut from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stock {
    /// Length as bought.
    pub length: Tenths,
    /// How many there are; `None` for as many as needed.
    pub available: Option<u32>,
    /// What one costs, in any whole unit. Equal prices make the plan use the fewest bars; prices in proportion to
    /// length the least material; a low price for what lies in the shop uses that first.
    pub price: u32,
}

/// What is to be cut from what.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Job {
    /// The parts.
    pub parts: Vec<Part>,
    /// The kinds of bar.
    pub stocks: Vec<Stock>,
    /// Width of a cut.
    pub kerf: Tenths,
    /// Lost at each end of every bar before the first part, its own cut included.
    pub end_trim: Tenths,
}

/// One bar of a plan.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Bar {
    /// Index of its kind in the job.
    pub stock: usize,
    /// Number of pieces of each part of the job.
    pub pieces: Vec<u32>,
    /// What is left usable at the end, the trim and the cuts taken off.
    pub offcut: Tenths,
}

/// A cutting plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plan {
    /// The bars, equal ones together.
    pub bars: Vec<Bar>,
    /// Sum of the prices.
    pub price: u64,
    /// No plan can cost less than this.
    pub lowest_price: u64,
}

impl Plan {
    /// The plan is proved to be the cheapest one.
    pub fn is_proved(&self) -> bool {
        self.price == self.lowest_price
    }
}

/// Why there is no plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CuttingError {
    /// A part of length zero, or a bar shorter than its trim.
    #[error("a part or a bar has no length")]
    NoLength,
    /// No kind of bar holds this part.
    #[error("part {0} is longer than every bar")]
    PartTooLong(usize),
    /// The bars at hand do not hold all parts, or no way to fit them was found.
    #[error("the bars at hand do not hold all parts")]
    TooFewBars,
}

/// The job as the algorithms see it: a bar holds a set of pieces when Σ (length + kerf) ≤ length + kerf − 2 trim,
/// since the last piece of a bar needs no cut after it.
#[derive(Debug)]
struct Instance {
    /// Piece length plus kerf, longest first.
    weights: Vec<u64>,
    /// Pieces wanted, in the same order.
    demand: Vec<u32>,
    /// Index in the job of each of them.
    parts: Vec<usize>,
    bars: Vec<BarKind>,
}

#[derive(Debug)]
struct BarKind {
    capacity: u64,
    available: Option<u32>,
    price: u64,
}

/// Pieces taken from one bar of a kind, in the order of [`Instance::weights`].
#[derive(Clone, Debug, PartialEq, Eq)]
struct Pattern {
    stock: usize,
    counts: Vec<u32>,
}

impl Instance {
    fn new(job: &Job) -> Result<Self, CuttingError> {
        let kerf = u64::from(job.kerf.0);
        let mut bars = Vec::new();
        for stock in &job.stocks {
            let usable = u64::from(stock.length.0).checked_sub(2 * u64::from(job.end_trim.0));
            let usable = usable.filter(|&usable| usable > 0).ok_or(CuttingError::NoLength)?;
            bars.push(BarKind { capacity: usable + kerf, available: stock.available, price: u64::from(stock.price) });
        }
        let longest = bars.iter().map(|bar| bar.capacity).max().unwrap_or(0);
        let mut parts: Vec<usize> = (0..job.parts.len()).filter(|&part| job.parts[part].count > 0).collect();
        for &part in &parts {
            let length = u64::from(job.parts[part].length.0);
            if length == 0 {
                return Err(CuttingError::NoLength);
            }
            if length + kerf > longest {
                return Err(CuttingError::PartTooLong(part));
            }
        }
        parts.sort_by_key(|&part| std::cmp::Reverse(job.parts[part].length));
        Ok(Self {
            weights: parts.iter().map(|&part| u64::from(job.parts[part].length.0) + kerf).collect(),
            demand: parts.iter().map(|&part| job.parts[part].count).collect(),
            parts,
            bars,
        })
    }

    fn weight(&self, counts: &[u32]) -> u64 {
        self.weights.iter().zip(counts).map(|(weight, &count)| weight * u64::from(count)).sum()
    }

    fn price(&self, patterns: &[Pattern]) -> u64 {
        patterns.iter().map(|pattern| self.bars[pattern.stock].price).sum()
    }

    /// First-fit decreasing for what is wanted, new bars being taken by an order of preference.
    ///
    /// `None` when the bars at hand run out before the pieces do.
    fn first_fit(&self, wanted: &[u32], used: &[u32], preference: &[usize]) -> Option<Vec<Pattern>> {
        let mut used = used.to_vec();
        let mut patterns: Vec<Pattern> = Vec::new();
        let mut rooms: Vec<u64> = Vec::new();
        for (index, (&weight, &count)) in self.weights.iter().zip(wanted).enumerate() {
            for _ in 0..count {
                let bar = if let Some(bar) = rooms.iter().position(|&room| room >= weight) {
                    bar
                } else {
                    let stock = *preference.iter().find(|&&stock| {
                        let kind = &self.bars[stock];
                        kind.capacity >= weight && kind.available.is_none_or(|available| used[stock] < available)
                    })?;
                    used[stock] += 1;
                    patterns.push(Pattern { stock, counts: vec![0; self.weights.len()] });
                    rooms.push(self.bars[stock].capacity);
                    patterns.len() - 1
                };
                rooms[bar] -= weight;
                patterns[bar].counts[index] += 1;
            }
        }
        Some(patterns)
    }

    /// The cheapest of a few first-fit plans: new bars by price per length, longest first, shortest first.
    fn best_first_fit(&self, wanted: &[u32], used: &[u32]) -> Option<Vec<Pattern>> {
        let mut preference: Vec<usize> = (0..self.bars.len()).collect();
        let mut plans = Vec::new();
        preference.sort_by(|&a, &b| {
            let (a, b) = (&self.bars[a], &self.bars[b]);
            (a.price * b.capacity, b.capacity).cmp(&(b.price * a.capacity, a.capacity))
        });
        plans.extend(self.first_fit(wanted, used, &preference));
        preference.sort_by_key(|&stock| std::cmp::Reverse(self.bars[stock].capacity));
        plans.extend(self.first_fit(wanted, used, &preference));
        preference.sort_by_key(|&stock| self.bars[stock].capacity);
        plans.extend(self.first_fit(wanted, used, &preference));
        plans.into_iter().min_by_key(|plan| self.price(plan))
    }

    /// Lowest price by length alone: all pieces at the lowest price per length, rounded up.
    fn material_bound(&self, wanted: &[u32]) -> u64 {
        let weight = u128::from(self.weight(wanted));
        let price = |bar: &BarKind| (weight * u128::from(bar.price)).div_ceil(u128::from(bar.capacity));
        self.bars.iter().map(price).min().and_then(|price| u64::try_from(price).ok()).unwrap_or(0)
    }

    fn plan(&self, job: &Job, patterns: Vec<Pattern>, lowest_price: u64) -> Plan {
        let price = self.price(&patterns);
        let mut bars: Vec<Bar> = patterns
            .into_iter()
            .map(|pattern| {
                let mut pieces = vec![0; job.parts.len()];
                for (&part, &count) in self.parts.iter().zip(&pattern.counts) {
                    pieces[part] = count;
                }
                let room = self.bars[pattern.stock].capacity - self.weight(&pattern.counts);
                let offcut = room.saturating_sub(u64::from(job.kerf.0));
                Bar { stock: pattern.stock, pieces, offcut: Tenths(u32::try_from(offcut).unwrap_or(u32::MAX)) }
            })
            .collect();
        bars.sort_by(|a, b| a.stock.cmp(&b.stock).then_with(|| b.pieces.cmp(&a.pieces)));
        Plan { bars, price, lowest_price }
    }
}

/// First-fit decreasing: the longest part goes into the first bar that still holds it.
///
/// Quick, never proved beyond its bound (length alone). Of several kinds of bar the cheapest of three orders of
/// preference is given.
pub fn first_fit_decreasing(job: &Job) -> Result<Plan, CuttingError> {
    let instance = Instance::new(job)?;
    let used = vec![0; instance.bars.len()];
    let patterns = instance.best_first_fit(&instance.demand, &used).ok_or(CuttingError::TooFewBars)?;
    let bound = instance.material_bound(&instance.demand);
    Ok(instance.plan(job, patterns, bound))
}

/// The cheapest plan, exact where the search ends within its limit.
///
/// Branch and bound over filled patterns with the linear relaxation over all patterns as bound (column generation;
/// Gilmore and Gomory 1961). Deterministic. Where [`Plan::is_proved`] is false the limit of nodes came first: the
/// plan is good, and `lowest_price` tells by how much it could still be beaten.
pub fn cheapest(job: &Job) -> Result<Plan, CuttingError> {
    let instance = Instance::new(job)?;
    let (patterns, lowest_price) = search::cheapest(&instance).ok_or(CuttingError::TooFewBars)?;
    Ok(instance.plan(job, patterns, lowest_price))
}

#[cfg(test)]
mod tests;
