//! Pressure along a header that hands flow out or gathers it, with its slopes by every riser's share.
//!
//! The balance of both headers and the risers lives one level up.

use super::HarpNetwork;
use std::cmp::Ordering;

/// Step for slopes, in shares of the whole flow.
const NUDGE: f64 = 1e-7;

/// Pressures along a header for a given split: mean at each junction, and its slopes by every riser's share.
pub(super) struct Header {
    pub(super) pressure: Vec<f64>,
    pub(super) slopes: Vec<Vec<f64>>,
}

impl HarpNetwork {
    /// The header that gathers shares in the order given: pressure above its exit at each junction.
    fn gathering(&self, shares: &[f64]) -> Header {
        let n = shares.len();
        let head = self.combining_momentum * self.header_head();
        let after: Vec<f64> = shares
            .iter()
            .scan(0.0, |sum, share| {
                *sum += share;
                Some(*sum)
            })
            .collect();
        let before = |i: usize| if i == 0 { 0.0 } else { after[i - 1] };
        let whole = after.last().copied().unwrap_or_default();
        let line = self.segment();
        let mut pressure = vec![0.0; n];
        let mut slopes = vec![vec![0.0; n]; n];
        let mut tail = 0.0;
        let mut tail_slopes = vec![0.0; n];
        for i in (0..n).rev() {
            if i + 1 < n {
                let slope = slope(after[i], |share| self.drop(line, share));
                tail += self.drop(line, after[i]);
                tail_slopes[..=i].iter_mut().for_each(|sum| *sum += slope);
            }
            pressure[i] = tail + head * (whole * whole - 0.5 * (after[i] * after[i] + before(i) * before(i)));
            for (k, slope) in slopes[i].iter_mut().enumerate() {
                let gathered = passed(k, i, after[i], before(i));
                *slope = tail_slopes[k] + head * (2.0 * whole - gathered);
            }
        }
        Header { pressure, slopes }
    }

    /// The header that hands shares out: pressure below its entry at each junction.
    pub(super) fn dividing(&self, shares: &[f64]) -> Header {
        let n = shares.len();
        let head = self.dividing_momentum * self.header_head();
        let after: Vec<f64> = shares
            .iter()
            .scan(1.0, |rest, share| {
                *rest -= share;
                Some(*rest)
            })
            .collect();
        let before = |i: usize| if i == 0 { 1.0 } else { after[i - 1] };
        let line = self.segment();
        let mut pressure = vec![0.0; n];
        let mut slopes = vec![vec![0.0; n]; n];
        let mut lost = 0.0;
        let mut lost_slopes = vec![0.0; n];
        for i in 0..n {
            if i > 0 {
                let slope = slope(after[i - 1], |share| self.drop(line, share));
                lost += self.drop(line, after[i - 1]);
                lost_slopes[..i].iter_mut().for_each(|sum| *sum -= slope);
            }
            pressure[i] = head * (1.0 - 0.5 * (after[i] * after[i] + before(i) * before(i))) - lost;
            for (k, slope) in slopes[i].iter_mut().enumerate() {
                let handed = passed(k, i, after[i], before(i));
                *slope = head * handed - lost_slopes[k];
            }
        }
        Header { pressure, slopes }
    }

    /// The combining header numbered from the inlet end.
    pub(super) fn combining(&self, shares: &[f64]) -> Header {
        if self.same_direction {
            return self.gathering(shares);
        }
        let backwards: Vec<f64> = shares.iter().rev().copied().collect();
        let mut header = self.gathering(&backwards);
        header.pressure.reverse();
        header.slopes.reverse();
        header.slopes.iter_mut().for_each(|row| row.reverse());
        header
    }
}

/// Sum of the header flows on both sides of junction `i` that riser `k` has a part in.
fn passed(k: usize, i: usize, after: f64, before: f64) -> f64 {
    match k.cmp(&i) {
        Ordering::Less => after + before,
        Ordering::Equal => after,
        Ordering::Greater => 0.0,
    }
}

/// Slope of a function of a share.
pub(super) fn slope(share: f64, f: impl Fn(f64) -> f64) -> f64 {
    (f(share + NUDGE) - f(share - NUDGE)) / (2.0 * NUDGE)
}
