//! Most valuable sheet when some pieces may be made only so many times.
//!
//! Rectangles are joined pair by pair, beside and above (Wang 1983, Operations Research 31, 573). A rectangle is kept
//! when its value and the most that the rest of the sheet could hold reach a target; the target starts at the most
//! conceivable value and falls until a layout reaches it, which proves the layout.

use super::{Grown, Made, Make, Piece, joined};
use std::collections::HashMap;

/// Rectangles kept in one round before it is given up.
const RECTANGLE_LIMIT: usize = 6_000;
/// Share of the value given up from round to round.
const TARGETS: [f64; 8] = [0.0, 0.01, 0.03, 0.07, 0.15, 0.3, 0.6, 1.0];

/// The made rectangles, the index of the best one, and whether no other is worth more.
pub(super) fn best(grown: &Grown, pieces: &[Piece]) -> (Vec<Made>, Option<usize>, bool) {
    let ceiling = ceiling(grown, pieces);
    let mut found: Option<Round> = None;
    for share in TARGETS {
        let target = ceiling * (1.0 - share);
        let mut round =
            Round::new(grown, pieces, target.max(found.as_ref().map_or(0.0, |round| round.best_value as f64)));
        let complete = round.run();
        if found.as_ref().is_none_or(|best| round.best_value > best.best_value) {
            found = Some(round);
        }
        let reached = found.as_ref().is_some_and(|best| best.best_value as f64 >= target - 0.5);
        if reached || !complete {
            return found.map_or((Vec::new(), None, false), |best| (best.made, best.best, complete && reached));
        }
    }
    found.map_or((Vec::new(), None, true), |best| (best.made, best.best, true))
}

/// Most value for each unit of grown area.
fn density(grown: &Grown) -> f64 {
    grown.blocks.iter().map(|block| block.value as f64 / area(block.width, block.height)).fold(0.0, f64::max)
}

fn area(width: u32, height: u32) -> f64 {
    f64::from(width) * f64::from(height)
}

/// The most that the sheet could be worth: by area and by the number of pieces.
fn ceiling(grown: &Grown, pieces: &[Piece]) -> f64 {
    let by_area = density(grown) * area(grown.width, grown.height);
    let by_count: f64 =
        pieces.iter().map(|piece| piece.value as f64 * piece.most.map_or(f64::INFINITY, f64::from)).sum();
    by_area.min(if by_count.is_nan() { by_area } else { by_count })
}

struct Round<'a> {
    grown: &'a Grown,
    most: Vec<u32>,
    density: f64,
    target: f64,
    made: Vec<Made>,
    counts: Vec<Vec<u32>>,
    values: Vec<u64>,
    /// Rectangles by their pieces: only those that no other of the same pieces is inside of are kept.
    known: HashMap<Vec<u32>, Vec<usize>>,
    best: Option<usize>,
    best_value: u64,
}

impl<'a> Round<'a> {
    fn new(grown: &'a Grown, pieces: &[Piece], target: f64) -> Self {
        Self {
            grown,
            most: pieces.iter().map(|piece| piece.most.unwrap_or(u32::MAX)).collect(),
            density: density(grown),
            target,
            made: Vec::new(),
            counts: Vec::new(),
            values: Vec::new(),
            known: HashMap::new(),
            best: None,
            best_value: 0,
        }
    }

    /// Builds all rectangles that may reach the target; false when there are too many.
    fn run(&mut self) -> bool {
        for (index, block) in self.grown.blocks.iter().enumerate() {
            let mut counts = vec![0; self.most.len()];
            counts[block.piece] = 1;
            self.keep(Made { width: block.width, height: block.height, make: Make::Block(index) }, counts, block.value);
        }
        let mut next = 0;
        while next < self.made.len() {
            for other in 0..=next {
                for make in [Make::Beside(next, other), Make::Above(next, other)] {
                    self.join(make, next, other);
                }
                if self.made.len() > RECTANGLE_LIMIT {
                    return false;
                }
            }
            next += 1;
        }
        true
    }

    fn join(&mut self, make: Make, first: usize, second: usize) {
        let made = joined(&self.made, make, first, second);
        if made.width > self.grown.width || made.height > self.grown.height {
            return;
        }
        let value = self.values[first] + self.values[second];
        if !self.may_reach(&made, value) {
            return;
        }
        let counts: Vec<u32> = self.counts[first].iter().zip(&self.counts[second]).map(|(a, b)| a + b).collect();
        if counts.iter().zip(&self.most).all(|(count, most)| count <= most) {
            self.keep(made, counts, value);
        }
    }

    fn may_reach(&self, made: &Made, value: u64) -> bool {
        let rest = area(self.grown.width, self.grown.height) - area(made.width, made.height);
        value as f64 + rest * self.density >= self.target - 0.5
    }

    fn keep(&mut self, made: Made, counts: Vec<u32>, value: u64) {
        let same = self.known.entry(counts.clone()).or_default();
        if same.iter().any(|&index| self.made[index].width <= made.width && self.made[index].height <= made.height) {
            return;
        }
        let index = self.made.len();
        same.push(index);
        if value > self.best_value {
            self.best_value = value;
            self.best = Some(index);
        }
        self.made.push(made);
        self.counts.push(counts);
        self.values.push(value);
    }
}
