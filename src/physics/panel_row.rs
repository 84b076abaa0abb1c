//! Several panels together: how the flow divides between parallel ones, what a series of them amounts to.
//!
//! The resistance of one panel and the heat of one panel come from elsewhere.

use super::domain::{DomainError, finite, not_negative, positive, within};
use crate::units::si::{Area, Dimension, HeatTransfer, Pressure, VolumeRate};

/// Most panels that one row may have.
pub const MOST_PANELS: usize = 64;

/// Newton steps before the division of flow is given up.
const MOST_STEPS: usize = 100;

/// How the return header runs back.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ReturnMode {
    /// Supply and return at the same end: the first panel has the shortest way.
    Direct,
    /// Return at the far end: every panel has the same length of way.
    Reverse,
}

/// A row of equal panels between two headers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// Number of panels.
    pub panels: usize,
    /// Panel: Δp = a q + b q|q|; a in Pa/(m³/s).
    pub panel_linear: f64,
    /// Panel: b in Pa/(m³/s)²; greater than zero unless a is.
    pub panel_quadratic: f64,
    /// Header between two neighbours, supply and return each: Δp = c Q|Q|; c in Pa/(m³/s)².
    pub segment_quadratic: f64,
    /// Way of the return header.
    pub return_mode: ReturnMode,
}

/// How a flow divides over a row.
#[derive(Clone, Debug, PartialEq)]
pub struct Division {
    /// Flow of each panel from the supply end on.
    pub flows: Vec<VolumeRate>,
    /// Least flow over mean flow; 1 is even, below 0.9 is worth a warning.
    pub least_over_mean: f64,
    /// Pressure drop between the two connections of the row.
    pub pressure_drop: Pressure,
}

impl Row {
    /// Divides a total flow over the row.
    ///
    /// Unknown are the flows S_i of the supply header between panel i and i + 1; each loop of two neighbours gives
    /// p(q_i) − p(q_{i+1}) = c(S_i) + c(S_i) (direct) or c(S_i) − c(Q − S_i) (reverse). This is the lowest point of a
    /// convex power function, so Newton's method with a shortened step finds it; at most 100 steps, left to a
    /// residual of 1e-10 of the row's drop. Total flow > 0, 1 to 64 panels.
    pub fn divide(&self, total: VolumeRate) -> Result<Division, DomainError> {
        within("number of panels", self.panels as f64, 1.0, MOST_PANELS as f64)?;
        not_negative("linear panel resistance", self.panel_linear)?;
        not_negative("quadratic panel resistance", self.panel_quadratic)?;
        positive("panel resistance", self.panel_linear + self.panel_quadratic)?;
        not_negative("header resistance", self.segment_quadratic)?;
        let total = positive("total flow", total.si())?;
        let segments = self.segment_flows(total)?;
        let flows = panel_flows(total, &segments);
        let mut drop = self.panel_drop(flows[0]);
        if self.return_mode == ReturnMode::Reverse {
            drop += segments.iter().map(|s| self.segment_drop(total - s)).sum::<f64>();
        }
        let least = flows.iter().copied().fold(f64::INFINITY, f64::min);
        Ok(Division {
            least_over_mean: least * self.panels as f64 / total,
            pressure_drop: Pressure::from_si(finite("pressure drop of the row", drop)?),
            flows: flows.into_iter().map(VolumeRate::from_si).collect(),
        })
    }

    fn segment_flows(&self, total: f64) -> Result<Vec<f64>, DomainError> {
        let count = self.panels - 1;
        let mut segments: Vec<f64> = (1..=count).map(|i| total * (1.0 - i as f64 / self.panels as f64)).collect();
        let scale = self.panel_drop(total) + count as f64 * self.segment_drop(total);
        let mut residuals = self.residuals(total, &segments);
        for _ in 0..MOST_STEPS {
            if norm(&residuals) <= 1e-10 * scale {
                return Ok(segments);
            }
            let step = self.newton_step(total, &segments, &residuals);
            let mut part = 1.0;
            loop {
                let trial: Vec<f64> = segments.iter().zip(&step).map(|(s, d)| s - part * d).collect();
                let left = self.residuals(total, &trial);
                if norm(&left) < norm(&residuals) || part < 1e-6 {
                    (segments, residuals) = (trial, left);
                    break;
                }
                part *= 0.5;
            }
        }
        Err(DomainError::NotSettled { what: "division of the flow", residual: norm(&residuals) })
    }

    /// What each loop lacks, Pa.
    fn residuals(&self, total: f64, segments: &[f64]) -> Vec<f64> {
        let flows = panel_flows(total, segments);
        let loop_drop = |(i, s): (usize, &f64)| {
            let headers = match self.return_mode {
                ReturnMode::Direct => 2.0 * self.segment_drop(*s),
                ReturnMode::Reverse => self.segment_drop(*s) - self.segment_drop(total - s),
            };
            self.panel_drop(flows[i]) - self.panel_drop(flows[i + 1]) - headers
        };
        segments.iter().enumerate().map(loop_drop).collect()
    }

    /// Solves the three-banded linear system of one Newton step (Thomas's algorithm; the band is dominant).
    fn newton_step(&self, total: f64, segments: &[f64], residuals: &[f64]) -> Vec<f64> {
        let flows = panel_flows(total, segments);
        // A small slope stands in at rest, where q|q| is flat, so that the band never becomes singular.
        let floor = 1e-9 * self.panel_slope(total);
        let slope = |i: usize| self.panel_slope(flows[i]) + floor;
        let count = segments.len();
        let (mut above, mut right) = (vec![0.0; count], vec![0.0; count]);
        for i in 0..count {
            let headers = match self.return_mode {
                ReturnMode::Direct => 2.0 * self.segment_slope(segments[i]),
                ReturnMode::Reverse => self.segment_slope(segments[i]) + self.segment_slope(total - segments[i]),
            };
            let below = if i > 0 { slope(i) } else { 0.0 };
            let (previous_above, previous_right) = if i > 0 { (above[i - 1], right[i - 1]) } else { (0.0, 0.0) };
            let pivot = -slope(i) - slope(i + 1) - headers - below * previous_above;
            above[i] = slope(i + 1) / pivot;
            right[i] = (residuals[i] - below * previous_right) / pivot;
        }
        for i in (0..count.saturating_sub(1)).rev() {
            right[i] -= above[i] * right[i + 1];
        }
        right
    }

    fn panel_drop(&self, flow: f64) -> f64 {
        self.panel_linear * flow + self.panel_quadratic * flow * flow.abs()
    }

    fn panel_slope(&self, flow: f64) -> f64 {
        self.panel_linear + 2.0 * self.panel_quadratic * flow.abs()
    }

    fn segment_drop(&self, flow: f64) -> f64 {
        self.segment_quadratic * flow * flow.abs()
    }

    fn segment_slope(&self, flow: f64) -> f64 {
        2.0 * self.segment_quadratic * flow.abs()
    }
}

/// Panel flows from the flows of the supply header between them.
fn panel_flows(total: f64, segments: &[f64]) -> Vec<f64> {
    let before = std::iter::once(total).chain(segments.iter().copied());
    let after = segments.iter().copied().chain(std::iter::once(0.0));
    before.zip(after).map(|(a, b)| a - b).collect()
}

fn norm(values: &[f64]) -> f64 {
    values.iter().fold(0.0, |largest, value| value.abs().max(largest))
}

/// Equal panels one after another, each at the full flow.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Series {
    /// Number of panels.
    pub panels: u32,
    /// Area of each.
    pub area_each: Area,
    /// F_R (τα) of one panel at this flow.
    pub optical_gain: f64,
    /// F_R U_L of one panel at this flow.
    pub loss: HeatTransfer,
    /// Heat capacity rate C = ṁ c_p, W/K.
    pub capacity_rate: f64,
}

/// A series seen as one collector of the whole area.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SeriesEquivalent {
    /// The whole area.
    pub area: Area,
    /// g by which both figures of one panel are multiplied.
    pub factor: f64,
    /// F_R (τα) of the whole.
    pub optical_gain: f64,
    /// F_R U_L of the whole.
    pub loss: HeatTransfer,
}

impl Series {
    /// One collector that stands for the series.
    ///
    /// K = A₁ F_R U_L/C, g = \[1 − (1 − K)ⁿ\]/(n K) (Duffie & Beckman's two-collector formula, carried on panel by
    /// panel). K must lie in 0 to 1: a larger one breaks the energy balance of the panel. n ≥ 1.
    pub fn equivalent(&self) -> Result<SeriesEquivalent, DomainError> {
        within("number of panels", f64::from(self.panels), 1.0, MOST_PANELS as f64)?;
        let area = positive("panel area", self.area_each.si())?;
        let loss = positive("collector loss coefficient", self.loss.si())?;
        let optical_gain = positive("collector optical gain", self.optical_gain)?;
        let rate = positive("capacity rate", self.capacity_rate)?;
        let count = f64::from(self.panels);
        let k = within("loss over capacity rate of one panel", area * loss / rate, 0.0, 1.0)?;
        let factor = (1.0 - (1.0 - k).powf(count)) / (count * k);
        Ok(SeriesEquivalent {
            area: self.area_each * count,
            factor: finite("series factor", factor)?,
            optical_gain: factor * optical_gain,
            loss: self.loss * factor,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(panels: usize, return_mode: ReturnMode) -> Row {
        let per_litre_minute = 60_000.0_f64.powi(2);
        Row {
            panels,
            panel_linear: 0.0,
            panel_quadratic: 60.0 * per_litre_minute,
            segment_quadratic: 8.0 * per_litre_minute,
            return_mode,
        }
    }

    #[test]
    fn the_parts_add_up_to_the_whole_flow() {
        for mode in [ReturnMode::Direct, ReturnMode::Reverse] {
            for panels in [1, 2, 5, 20] {
                let total = VolumeRate::from_si(3e-4);
                let division = row(panels, mode).divide(total).unwrap();
                let sum: f64 = division.flows.iter().map(|q| q.si()).sum();
                assert!((sum / 3e-4 - 1.0).abs() < 1e-12, "{panels} panels {mode:?}");
                assert!(division.least_over_mean <= 1.0 + 1e-9);
            }
        }
    }

    #[test]
    fn even_hopeless_headers_are_divided() {
        for mode in [ReturnMode::Direct, ReturnMode::Reverse] {
            for panels in [2, 3, 7, 20, MOST_PANELS] {
                for ratio in [1e-6, 1e-2, 1.0, 100.0] {
                    let plain = row(panels, mode);
                    let bad = Row { segment_quadratic: ratio * plain.panel_quadratic, ..plain };
                    let division = bad.divide(VolumeRate::from_si(3e-4));
                    assert!(division.is_ok(), "{panels} panels, {mode:?}, {ratio}: {division:?}");
                }
            }
        }
    }

    #[test]
    fn reverse_return_is_symmetric() {
        let flows = row(7, ReturnMode::Reverse).divide(VolumeRate::from_si(3e-4)).unwrap().flows;
        for i in 0..7 {
            assert!((flows[i].si() / flows[6 - i].si() - 1.0).abs() < 1e-6);
        }
    }

    #[test]
    fn without_header_loss_every_panel_gets_the_same() {
        let even = Row { segment_quadratic: 0.0, ..row(6, ReturnMode::Direct) };
        assert!((even.divide(VolumeRate::from_si(3e-4)).unwrap().least_over_mean - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_row_of_none_and_a_flow_of_none_are_refused() {
        assert!(row(0, ReturnMode::Direct).divide(VolumeRate::from_si(3e-4)).is_err());
        assert!(row(3, ReturnMode::Direct).divide(VolumeRate::from_si(0.0)).is_err());
    }

    #[test]
    fn one_panel_in_series_is_itself() {
        let one = Series {
            panels: 1,
            area_each: Area::from_si(2.0),
            optical_gain: 0.7,
            loss: HeatTransfer::from_si(5.0),
            capacity_rate: 180.0,
        };
        assert!((one.equivalent().unwrap().factor - 1.0).abs() < 1e-12);
        assert!(Series { capacity_rate: 9.0, ..one }.equivalent().is_err());
    }
}
