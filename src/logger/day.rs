//! One day of rows and its sums.

use super::channel::{CHANNELS, Cells, Channel};
use super::clean::{clean, pump_runs};
use super::faults::{Faults, Gap};
use super::spell::{Spell, spells};
use super::window::{HourLog, Window, steady};

/// Quarter hours of a day.
pub const QUARTERS: usize = 96;
/// A quarter hour, s.
pub(super) const QUARTER: f64 = 900.0;
const DAY: f64 = 86_400.0;
/// Steps after which a stretch without rows is a gap (project rule).
pub(super) const GAP_STEPS: f64 = 3.0;
/// Ten-minute means by which the smoothness of a day's sun is judged.
const SMOOTH: f64 = 600.0;

/// One row of readings.
#[derive(Clone, Debug)]
pub(super) struct Row {
    pub at: f64,
    pub line: u64,
    pub cells: Cells,
}

/// The sums of one day.
#[derive(Clone, Debug, PartialEq)]
pub struct DayLog {
    /// Midnight at its beginning, on the log's clock.
    pub start: f64,
    /// Rows.
    pub rows: u64,
    /// ∫ q (T_out − T_in) dt where the outlet is the warmer, m³·K: times ρ c_p it is heat.
    pub gained: f64,
    /// The same where the outlet is the colder, as a positive number: heat sent to the sky.
    pub lost: f64,
    /// Liquid moved, m³.
    pub volume: f64,
    /// Mean of inlet and outlet weighted by flow, °C; none without flow.
    pub temperature: Option<f64>,
    /// ∫ G dt, J/m².
    pub irradiation: f64,
    /// Middle of the day's sun, ∫ G t dt/∫ G dt, s after midnight; none without sun.
    pub sun_middle: Option<f64>,
    /// Rise and fall of the sun in ten-minute means over twice its peak: 1 for a day without a cloud.
    pub roughness: Option<f64>,
    /// Seconds of each quarter hour in which everything needed was there.
    pub covered: [u16; QUARTERS],
    /// Seconds in which the pump ran.
    pub pump_seconds: f64,
    /// Starts of the pump.
    pub starts: u32,
    /// Hottest reading of the panel's sensor, °C.
    pub hottest_panel: Option<f64>,
    /// Highest pressure, Pa.
    pub highest_pressure: Option<f64>,
    /// The quarter hours in which liquid was moved.
    pub spells: Vec<Spell>,
}

impl DayLog {
    /// Adds another part of the same day.
    pub(super) fn join(&mut self, other: &Self) {
        let (own, more) = (self.volume, other.volume);
        self.temperature = match (self.temperature, other.temperature) {
            (Some(a), Some(b)) => Some((a * own + b * more) / (own + more)),
            (a, b) => a.or(b),
        };
        let sun = (self.irradiation, other.irradiation);
        self.sun_middle = match (self.sun_middle, other.sun_middle) {
            (Some(a), Some(b)) => Some((a * sun.0 + b * sun.1) / (sun.0 + sun.1)),
            (a, b) => a.or(b),
        };
        self.roughness = None;
        self.rows += other.rows;
        self.gained += other.gained;
        self.lost += other.lost;
        self.volume += other.volume;
        self.irradiation += other.irradiation;
        self.pump_seconds += other.pump_seconds;
        self.starts += other.starts;
        self.hottest_panel = higher(self.hottest_panel, other.hottest_panel);
        self.highest_pressure = higher(self.highest_pressure, other.highest_pressure);
        self.spells.extend(&other.spells);
        for (own, more) in self.covered.iter_mut().zip(&other.covered) {
            *own = own.saturating_add(*more);
        }
    }
}

/// What a day gives.
pub(super) struct Closed {
    pub day: DayLog,
    pub step: f64,
    pub windows: Vec<Window>,
    pub hours: Vec<HourLog>,
}

/// Cleans the rows of a day and sums them; none for a day without rows.
pub(super) fn close(rows: &mut [Row], before: Option<f64>, faults: &mut Faults) -> Option<Closed> {
    let start = (rows.first()?.at / DAY).floor() * DAY;
    let step = median_step(rows);
    gaps(rows, before, step, faults);
    clean(rows, faults);
    let windows = steady(rows, start, step);
    Some(Closed { day: sums(rows, start, step), step, windows: windows.0, hours: windows.1 })
}

fn median_step(rows: &[Row]) -> f64 {
    let mut steps: Vec<f64> = rows.windows(2).map(|pair| pair[1].at - pair[0].at).collect();
    if steps.is_empty() {
        return 60.0;
    }
    let middle = steps.len() / 2;
    *steps.select_nth_unstable_by(middle, f64::total_cmp).1
}

fn gaps(rows: &[Row], before: Option<f64>, step: f64, faults: &mut Faults) {
    let mut last = before;
    for row in rows {
        if let Some(from) = last.filter(|from| row.at - from > GAP_STEPS * step) {
            faults.gap(Gap { from, to: row.at });
        }
        last = Some(row.at);
    }
}

fn higher(a: Option<f64>, b: Option<f64>) -> Option<f64> {
    a.into_iter().chain(b).reduce(f64::max)
}

/// A quantity integrated from reading to reading, never over a gap.
struct Integral {
    last: Option<(f64, f64)>,
    longest: f64,
}

impl Integral {
    fn new(step: f64) -> Self {
        Self { last: None, longest: GAP_STEPS * step }
    }

    /// Mean of the value since the last reading, the middle of that time, and its length.
    fn next(&mut self, at: f64, value: f64) -> Option<(f64, f64, f64)> {
        let (from, before) = self.last.replace((at, value))?;
        let seconds = at - from;
        (seconds <= self.longest).then_some((0.5 * (before + value), 0.5 * (from + at), seconds))
    }
}

fn sums(rows: &[Row], start: f64, step: f64) -> DayLog {
    let mut day = DayLog {
        start,
        rows: rows.len() as u64,
        gained: 0.0,
        lost: 0.0,
        volume: 0.0,
        temperature: None,
        irradiation: 0.0,
        sun_middle: None,
        roughness: roughness(rows, start),
        covered: [0; QUARTERS],
        pump_seconds: 0.0,
        starts: 0,
        hottest_panel: None,
        highest_pressure: None,
        spells: spells(rows, start, step),
    };
    let [mut heat, mut flow, mut warm, mut sun, mut pump, mut whole] = std::array::from_fn(|_| Integral::new(step));
    let (mut warmth, mut moment, mut ran) = (0.0, 0.0, None);
    let needed = needed(rows);
    for Row { at, cells, .. } in rows {
        let cell = |channel: Channel| cells[channel.index()];
        if let (Some(q), Some(inlet), Some(outlet)) = (cell(Channel::Flow), cell(Channel::Inlet), cell(Channel::Outlet))
        {
            if let Some((mean, _, seconds)) = heat.next(*at, q * (outlet - inlet)) {
                if mean >= 0.0 { day.gained += mean * seconds } else { day.lost -= mean * seconds }
            }
            if let Some((mean, _, seconds)) = flow.next(*at, q) {
                day.volume += mean * seconds;
            }
            if let Some((mean, _, seconds)) = warm.next(*at, q * 0.5 * (outlet + inlet)) {
                warmth += mean * seconds;
            }
        }
        if let Some((mean, middle, seconds)) = cell(Channel::Sun).and_then(|g| sun.next(*at, g)) {
            day.irradiation += mean * seconds;
            moment += mean * seconds * (middle - start);
        }
        if let Some(runs) = pump_runs(cells) {
            day.starts += u32::from(runs && ran == Some(false));
            ran = Some(runs);
            if let Some((mean, _, seconds)) = pump.next(*at, f64::from(u8::from(runs))) {
                day.pump_seconds += mean * seconds;
            }
        }
        if needed.iter().all(|channel| cell(*channel).is_some())
            && let Some((_, middle, seconds)) = whole.next(*at, 0.0)
        {
            cover(&mut day.covered, middle - start, seconds);
        }
        day.hottest_panel = higher(day.hottest_panel, cell(Channel::Panel));
        day.highest_pressure = higher(day.highest_pressure, cell(Channel::Pressure));
    }
    day.temperature = (day.volume > 0.0).then(|| warmth / day.volume);
    day.sun_middle = (day.irradiation > 0.0).then(|| moment / day.irradiation);
    day
}

/// What a counted moment needs: sun, inlet, outlet and flow, as far as the file has them at all.
fn needed(rows: &[Row]) -> Vec<Channel> {
    let has = |channel: &Channel| rows.iter().any(|row| row.cells[channel.index()].is_some());
    let wanted = [Channel::Sun, Channel::Inlet, Channel::Outlet, Channel::Flow];
    let found: Vec<Channel> = wanted.into_iter().filter(has).collect();
    if found.is_empty() { CHANNELS.into_iter().filter(has).collect() } else { found }
}

#[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // both are small and not negative
fn cover(covered: &mut [u16; QUARTERS], middle: f64, seconds: f64) {
    let quarter = (middle / QUARTER).max(0.0) as usize;
    if let Some(slot) = covered.get_mut(quarter) {
        *slot = slot.saturating_add(seconds.round() as u16);
    }
}

/// Σ |ΔG| of ten-minute means over twice the highest.
fn roughness(rows: &[Row], start: f64) -> Option<f64> {
    let mut last_bin = None;
    let mut means: Vec<(f64, f64)> = Vec::new();
    for row in rows {
        let Some(sun) = row.cells[Channel::Sun.index()] else { continue };
        let bin = ((row.at - start) / SMOOTH).floor();
        match means.last_mut().filter(|_| last_bin == Some(bin)) {
            Some((sum, count)) => {
                *sum += sun;
                *count += 1.0;
            }
            None => means.push((sun, 1.0)),
        }
        last_bin = Some(bin);
    }
    let means: Vec<f64> = means.into_iter().map(|(sum, count)| sum / count).collect();
    let highest = means.iter().copied().reduce(f64::max).filter(|highest| *highest > 0.0)?;
    let moved: f64 = means.windows(2).map(|pair| (pair[1] - pair[0]).abs()).sum();
    Some(moved / (2.0 * highest))
}
