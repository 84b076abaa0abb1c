//! Steady windows and whole hours, from means over minutes.
//!
//! The limits are a home relaxation of the collector standards (project rule): over ten minutes the sun within
//! ± 50 W/m², air ± 1.5 K, inlet ± 0.5 K, flow ± 2 %, after ten minutes of settling; at 700 W/m² or more.

use super::channel::{CHANNELS, Channel};
use super::clean::pump_runs;
use super::day::Row;

/// Length of a window and of the settling before it, s.
const WINDOW: f64 = 600.0;
/// Least sun of a window, W/m².
const LEAST_SUN: f64 = 700.0;
/// Widest span of sun, W/m²; air, K; inlet, K; flow, of its mean.
const SPANS: [(Channel, f64); 3] = [(Channel::Sun, 100.0), (Channel::Air, 3.0), (Channel::Inlet, 1.0)];
const FLOW_SPAN: f64 = 0.04;
/// How far sun may be from the window's mean while settling, of it.
const SETTLING: f64 = 0.15;
/// Least rise from inlet to outlet, K (ISO 9806-1:1994 as reported).
const LEAST_RISE: f64 = 1.5;
/// Least sun of an hour that is kept, W/m².
const HOUR_SUN: f64 = 600.0;
/// Least part of an hour that must be there.
const HOUR_COVER: f64 = 0.9;

/// Means over a steady window. Temperatures °C, the rest SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Window {
    /// Its middle.
    pub at: f64,
    /// Its length.
    pub seconds: f64,
    /// Irradiance in the plane.
    pub sun: f64,
    /// Inlet.
    pub inlet: f64,
    /// Outlet.
    pub outlet: f64,
    /// Air.
    pub air: f64,
    /// Flow.
    pub flow: f64,
    /// Wind, where it was logged.
    pub wind: Option<f64>,
    /// Rate of change of the mean of inlet and outlet, K/s.
    pub drift: f64,
    /// Standard uncertainty of the mean of q (T_out − T_in)/G by its scatter, of it.
    pub scatter: f64,
}

/// Means over a whole hour with the pump running.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HourLog {
    /// Its middle.
    pub at: f64,
    /// Irradiance in the plane.
    pub sun: f64,
    /// Inlet.
    pub inlet: f64,
    /// Outlet.
    pub outlet: f64,
    /// Air.
    pub air: f64,
    /// Mean of q (T_out − T_in), m³·K/s.
    pub heat: f64,
    /// Wind, where it was logged.
    pub wind: Option<f64>,
    /// Rate of change of the mean of inlet and outlet, K/s.
    pub drift: f64,
}

/// Means over one minute, or one step where steps are longer.
#[derive(Clone)]
struct Bin {
    sums: [f64; CHANNELS.len()],
    counts: [u32; CHANNELS.len()],
    stopped: bool,
}

impl Bin {
    fn mean(&self, channel: Channel) -> Option<f64> {
        let count = self.counts[channel.index()];
        (count > 0).then(|| self.sums[channel.index()] / f64::from(count))
    }

    /// Sun, inlet, outlet, air and flow with the pump running; none if one is missing.
    fn whole(&self) -> Option<[f64; 5]> {
        if self.stopped {
            return None;
        }
        let [sun, inlet, outlet, air, flow] =
            [Channel::Sun, Channel::Inlet, Channel::Outlet, Channel::Air, Channel::Flow]
                .map(|channel| self.mean(channel));
        Some([sun?, inlet?, outlet?, air?, flow.filter(|flow| *flow > 0.0)?])
    }
}

/// The steady windows and the whole hours of a day.
pub(super) fn steady(rows: &[Row], start: f64, step: f64) -> (Vec<Window>, Vec<HourLog>) {
    let length = step.max(60.0);
    let bins = bins(rows, start, length);
    (windows(&bins, start, length), hours(&bins, start, length))
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a place within one day
fn bins(rows: &[Row], start: f64, length: f64) -> Vec<Bin> {
    let empty = Bin { sums: [0.0; CHANNELS.len()], counts: [0; CHANNELS.len()], stopped: false };
    let mut bins = vec![empty; (86_400.0 / length).ceil() as usize];
    for row in rows {
        let place = ((row.at - start) / length) as usize;
        let Some(bin) = bins.get_mut(place) else { continue };
        for (index, cell) in row.cells.iter().enumerate() {
            if let Some(value) = cell {
                bin.sums[index] += value;
                bin.counts[index] += 1;
            }
        }
        bin.stopped |= pump_runs(&row.cells) == Some(false);
    }
    bins
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a small count
fn windows(bins: &[Bin], start: f64, length: f64) -> Vec<Window> {
    let count = ((WINDOW / length).ceil() as usize).max(3);
    let mut found = Vec::new();
    let mut at = count;
    while at + count <= bins.len() {
        match window(&bins[at - count..at], &bins[at..at + count]) {
            Some(window) => {
                let seconds = count as f64 * length;
                let middle = start + at as f64 * length + 0.5 * seconds;
                found.push(Window { at: middle, seconds, drift: window.drift / (0.5 * seconds), ..window });
                at += count;
            }
            None => at += 1,
        }
    }
    found
}

/// The window over these bins, if they stand steady after the bins before them; drift in K over half its length.
fn window(before: &[Bin], bins: &[Bin]) -> Option<Window> {
    if bins.first()?.mean(Channel::Sun)? < LEAST_SUN - 100.0 {
        return None;
    }
    let values: Vec<[f64; 5]> = bins.iter().map(Bin::whole).collect::<Option<_>>()?;
    let count = values.len() as f64;
    let [sun, inlet, outlet, air, flow] =
        std::array::from_fn(|i| values.iter().map(|value| value[i]).sum::<f64>() / count);
    if sun < LEAST_SUN || outlet - inlet < LEAST_RISE {
        return None;
    }
    let span = |channel: Channel| {
        let means = bins.iter().filter_map(|bin| bin.mean(channel));
        let (low, high) = means.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), v| (l.min(v), h.max(v)));
        high - low
    };
    let wide = SPANS.iter().any(|(channel, widest)| span(*channel) > *widest) || span(Channel::Flow) > FLOW_SPAN * flow;
    let unsettled = before.iter().any(|bin| bin.whole().is_none_or(|value| (value[0] / sun - 1.0).abs() > SETTLING));
    if wide || unsettled {
        return None;
    }
    let ratios: Vec<f64> = values.iter().map(|[sun, inlet, outlet, _, flow]| flow * (outlet - inlet) / sun).collect();
    let mean = ratios.iter().sum::<f64>() / count;
    let variance = ratios.iter().map(|ratio| (ratio - mean).powi(2)).sum::<f64>() / (count - 1.0);
    let winds: Vec<f64> = bins.iter().filter_map(|bin| bin.mean(Channel::Wind)).collect();
    Some(Window {
        at: 0.0,
        seconds: 0.0,
        sun,
        inlet,
        outlet,
        air,
        flow,
        wind: (!winds.is_empty()).then(|| winds.iter().sum::<f64>() / winds.len() as f64),
        drift: rise(&values),
        scatter: (variance / count).sqrt() / mean,
    })
}

/// Rise of the mean of inlet and outlet from the first half to the second.
fn rise(values: &[[f64; 5]]) -> f64 {
    let half = values.len() / 2;
    let mean = |part: &[[f64; 5]]| {
        part.iter().map(|[_, inlet, outlet, ..]| 0.5 * (inlet + outlet)).sum::<f64>() / part.len() as f64
    };
    mean(&values[values.len() - half..]) - mean(&values[..half])
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // a small count
fn hours(bins: &[Bin], start: f64, length: f64) -> Vec<HourLog> {
    let count = (3600.0 / length).round().max(1.0) as usize;
    let mut found = Vec::new();
    for (hour, bins) in bins.chunks_exact(count).enumerate() {
        let values: Vec<[f64; 5]> = bins.iter().filter_map(Bin::whole).collect();
        let n = values.len() as f64;
        if n < HOUR_COVER * count as f64 || bins.iter().any(|bin| bin.stopped) || values.len() < 2 {
            continue;
        }
        let [sun, inlet, outlet, air] = std::array::from_fn(|i| values.iter().map(|value| value[i]).sum::<f64>() / n);
        if sun < HOUR_SUN {
            continue;
        }
        let winds: Vec<f64> = bins.iter().filter_map(|bin| bin.mean(Channel::Wind)).collect();
        found.push(HourLog {
            at: start + (hour as f64 + 0.5) * count as f64 * length,
            sun,
            inlet,
            outlet,
            air,
            heat: values.iter().map(|[_, inlet, outlet, _, flow]| flow * (outlet - inlet)).sum::<f64>() / n,
            wind: (!winds.is_empty()).then(|| winds.iter().sum::<f64>() / winds.len() as f64),
            drift: rise(&values) / (0.5 * count as f64 * length),
        });
    }
    found
}
