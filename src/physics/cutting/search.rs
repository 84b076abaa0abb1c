//! Branch and bound for the cheapest cutting plan.
//!
//! At every node one bar is cut that holds the longest piece still wanted, filled so that no further piece fits (a
//! piece moved over from another bar never makes a plan dearer, so such plans suffice). The relaxation gives the bound
//! and, rounded down, good whole plans.

use super::relaxation::{self, Relaxation};
use super::{Instance, Pattern};
use std::collections::HashMap;

/// Nodes after which the search ends unproved.
const NODE_LIMIT: u32 = 2000;
/// Fillings of one bar after which a node is left incomplete.
const FILLING_LIMIT: usize = 5000;

/// Cheapest patterns and the lowest price that any plan can have; `None` when none was found.
pub(super) fn cheapest(instance: &Instance) -> Option<(Vec<Pattern>, u64)> {
    let used = vec![0; instance.bars.len()];
    let step = instance.bars.iter().fold(0, |step, bar| gcd(step, bar.price)).max(1);
    let mut search = Search {
        instance,
        step,
        best: instance.best_first_fit(&instance.demand, &used),
        floor: 0,
        pool: Vec::new(),
        seen: HashMap::new(),
        nodes: 0,
        complete: true,
    };
    search.floor = instance.material_bound(&instance.demand).next_multiple_of(step);
    let root = Node { wanted: instance.demand.clone(), used, price: 0, path: Vec::new() };
    search.visit(&root);
    let best = search.best?;
    let price = instance.price(&best);
    let lowest = if search.complete { price } else { search.floor.min(price) };
    Some((best, lowest))
}

fn gcd(a: u64, b: u64) -> u64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

struct Search<'a> {
    instance: &'a Instance,
    /// Prices are multiples of this.
    step: u64,
    best: Option<Vec<Pattern>>,
    /// Lowest price of any plan, proved at the root.
    floor: u64,
    pool: Vec<Pattern>,
    /// Price at which each state was reached.
    seen: HashMap<(Vec<u32>, Vec<u32>), u64>,
    nodes: u32,
    complete: bool,
}

#[derive(Clone)]
struct Node {
    wanted: Vec<u32>,
    used: Vec<u32>,
    price: u64,
    path: Vec<Pattern>,
}

impl Node {
    fn take(&mut self, instance: &Instance, pattern: Pattern) {
        for (wanted, count) in self.wanted.iter_mut().zip(&pattern.counts) {
            *wanted -= count;
        }
        self.used[pattern.stock] += 1;
        self.price += instance.bars[pattern.stock].price;
        self.path.push(pattern);
    }

    fn may_take(&self, instance: &Instance, pattern: &Pattern) -> bool {
        let left = instance.bars[pattern.stock].available.is_none_or(|available| self.used[pattern.stock] < available);
        left && self.wanted.iter().zip(&pattern.counts).all(|(wanted, count)| count <= wanted)
    }
}

impl Search<'_> {
    fn best_price(&self) -> u64 {
        self.best.as_ref().map_or(u64::MAX, |best| self.instance.price(best))
    }

    fn offer(&mut self, node: &Node, rest: Vec<Pattern>) {
        if node.price + self.instance.price(&rest) < self.best_price() {
            let mut patterns = node.path.clone();
            patterns.extend(rest);
            self.best = Some(patterns);
        }
    }

    fn visit(&mut self, node: &Node) {
        let Some(longest) = node.wanted.iter().position(|&count| count > 0) else {
            self.offer(node, Vec::new());
            return;
        };
        if self.best_price() <= self.floor {
            return;
        }
        if self.nodes >= NODE_LIMIT {
            self.complete = false;
            return;
        }
        self.nodes += 1;
        let state = (node.wanted.clone(), node.used.clone());
        if self.seen.get(&state).is_some_and(|&price| price <= node.price) {
            return;
        }
        self.seen.insert(state, node.price);
        let mut bound = self.instance.material_bound(&node.wanted).next_multiple_of(self.step);
        let mut values = None;
        match relaxation::solve(self.instance, &node.wanted, &node.used, &mut self.pool) {
            Some(Relaxation::Infeasible) => return,
            Some(Relaxation::Solved { price, uses, values: piece_values, bar_prices }) => {
                bound = bound.max(self.round_up(price));
                self.round_down(node, &uses);
                values = Some((piece_values, bar_prices));
            }
            None => {}
        }
        if node.path.is_empty() {
            self.floor = self.floor.max(bound);
        }
        if node.price + bound >= self.best_price() {
            return;
        }
        let (piece_values, bar_prices) = values.unwrap_or_else(|| self.values_by_length());
        let mut fillings = self.fillings(node, longest);
        fillings.sort_by_cached_key(|pattern| {
            let value: f64 = pattern.counts.iter().zip(&piece_values).map(|(&c, value)| f64::from(c) * value).sum();
            Loss(bar_prices[pattern.stock] - value)
        });
        for pattern in fillings {
            let mut child = node.clone();
            child.take(self.instance, pattern);
            self.visit(&child);
        }
    }

    /// A relaxed price as the least whole price not below it.
    fn round_up(&self, price: f64) -> u64 {
        let steps = (price * (1.0 - 1e-9) / self.step as f64 - 1e-6).ceil().max(0.0);
        // A price is a sum of u32 prices over the bars of a shop: far below 2⁵³.
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let steps = steps as u64;
        steps * self.step
    }

    /// Takes the patterns of the relaxation in whole numbers and fits what is left first-fit.
    fn round_down(&mut self, node: &Node, uses: &[(Pattern, f64)]) {
        let mut rounded = node.clone();
        for (pattern, amount) in uses {
            let mut left = amount + 1e-6;
            while left >= 1.0 && rounded.may_take(self.instance, pattern) {
                rounded.take(self.instance, pattern.clone());
                left -= 1.0;
            }
        }
        if let Some(rest) = self.instance.best_first_fit(&rounded.wanted, &rounded.used) {
            self.offer(&rounded, rest);
        }
    }

    fn values_by_length(&self) -> (Vec<f64>, Vec<f64>) {
        let values = self.instance.weights.iter().map(|&weight| weight as f64).collect();
        (values, self.instance.bars.iter().map(|bar| bar.capacity as f64).collect())
    }

    /// Every way to fill a bar of every kind at hand that holds the piece named and leaves no room for another.
    fn fillings(&mut self, node: &Node, longest: usize) -> Vec<Pattern> {
        let mut patterns = Vec::new();
        for (stock, bar) in self.instance.bars.iter().enumerate() {
            let left = bar.available.is_none_or(|available| node.used[stock] < available);
            let weight = self.instance.weights[longest];
            if !left || weight > bar.capacity {
                continue;
            }
            let mut counts = vec![0; node.wanted.len()];
            counts[longest] = 1;
            let mut filler = Filler { instance: self.instance, wanted: &node.wanted, stock, patterns: &mut patterns };
            self.complete &= filler.fill(longest, &mut counts, bar.capacity - weight);
        }
        patterns
    }
}

struct Filler<'a> {
    instance: &'a Instance,
    wanted: &'a [u32],
    stock: usize,
    patterns: &'a mut Vec<Pattern>,
}

impl Filler<'_> {
    /// Fills the room with parts from an index on; false when there are too many ways.
    fn fill(&mut self, from: usize, counts: &mut Vec<u32>, room: u64) -> bool {
        if self.patterns.len() >= FILLING_LIMIT {
            return false;
        }
        let weights = &self.instance.weights;
        if from == weights.len() {
            let full = (0..from).all(|part| counts[part] == self.wanted[part] || weights[part] > room);
            if full {
                self.patterns.push(Pattern { stock: self.stock, counts: counts.clone() });
            }
            return true;
        }
        let before = counts[from];
        let fitting = u32::try_from(room / weights[from]).unwrap_or(u32::MAX).min(self.wanted[from] - before);
        let mut complete = true;
        for more in (0..=fitting).rev() {
            counts[from] = before + more;
            complete &= self.fill(from + 1, counts, room - u64::from(more) * weights[from]);
        }
        counts[from] = before;
        complete
    }
}

/// A float that sorts.
#[derive(PartialEq)]
struct Loss(f64);

impl Eq for Loss {}

impl PartialOrd for Loss {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Loss {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        self.0.total_cmp(&other.0)
    }
}
