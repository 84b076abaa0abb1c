//! What is no reading: sentinels of digital sensors, impossible values, jumps, sensors that stand still.
//!
//! What is thrown out becomes a gap. Nothing is held over from the last good value.

use super::channel::{CHANNELS, Cells, Channel};
use super::day::Row;
use super::faults::{Faults, Stuck};

/// What a digital one-wire sensor says at power-up or after a failed conversion, °C.
const POWER_UP: f64 = 85.0;
/// What its driver says when it is lost, °C.
const LOST: f64 = -127.0;
/// Neighbours so near that 85.0 is believed, K (project rule).
const BELIEVED: f64 = 1.0;
/// Fastest believable change: 5 K in 10 s, K/s (project rule).
const FASTEST: f64 = 0.5;
/// The change that is always believed, K.
const SMALL: f64 = 5.0;
/// Time after a start or stop of the pump in which liquid of another temperature may arrive, s (project rule).
const ARRIVING: f64 = 180.0;
/// Flow that counts as running where no pump is logged, m³/s (0.1 L/min).
const RUNNING: f64 = 0.1e-3 / 60.0;
/// Fewest equal readings that make a stuck sensor.
const FEWEST: usize = 5;

/// Whether the pump runs in a row, if it can be told.
pub(super) fn pump_runs(cells: &Cells) -> Option<bool> {
    match (cells[Channel::Pump.index()], cells[Channel::Flow.index()]) {
        (Some(pump), _) => Some(pump >= 0.5),
        (None, Some(flow)) => Some(flow > RUNNING),
        (None, None) => None,
    }
}

/// Throws out what is no reading from the rows of a day.
pub(super) fn clean(rows: &mut [Row], faults: &mut Faults) {
    let runs: Vec<Option<bool>> = rows.iter().map(|row| pump_runs(&row.cells)).collect();
    let times: Vec<f64> = rows.iter().map(|row| row.at).collect();
    for channel in CHANNELS {
        let index = channel.index();
        let cells: Vec<Option<f64>> = rows.iter().map(|row| row.cells[index]).collect();
        if cells.iter().all(Option::is_none) {
            continue;
        }
        let mut column = Column { channel, times: &times, runs: &runs, cells, thrown: Vec::new() };
        column.clean(faults);
        let Column { thrown, .. } = column;
        for (place, reason) in thrown {
            rows[place].cells[index] = None;
            let tally = match reason {
                Reason::Impossible => &mut faults.impossible[index],
                Reason::Lost => &mut faults.lost[index],
                Reason::PowerUp => &mut faults.power_up[index],
                Reason::Jump => &mut faults.jumps[index],
                Reason::Stuck => continue,
            };
            tally.add(rows[place].line);
        }
    }
}

/// Why a reading is none.
#[derive(Clone, Copy)]
enum Reason {
    Impossible,
    Lost,
    PowerUp,
    Jump,
    /// Told once for the whole stretch.
    Stuck,
}

/// One channel through a day, cells side by side: a day of ten-second rows is walked several times for each channel.
struct Column<'a> {
    channel: Channel,
    times: &'a [f64],
    runs: &'a [Option<bool>],
    cells: Vec<Option<f64>>,
    /// Places of what was thrown out, each rule in the order of time.
    thrown: Vec<(usize, Reason)>,
}

impl Column<'_> {
    fn clean(&mut self, faults: &mut Faults) {
        self.impossible();
        if self.channel.is_temperature() {
            self.jumps();
        }
        if let Some(patience) = self.channel.patience() {
            self.stuck(patience, faults);
        }
    }

    fn throw(&mut self, place: usize, reason: Reason) {
        self.cells[place] = None;
        self.thrown.push((place, reason));
    }

    fn impossible(&mut self) {
        let (low, high) = self.channel.possible();
        for place in 0..self.cells.len() {
            let Some(value) = self.cells[place].filter(|value| !(low..=high).contains(value)) else { continue };
            let is_lost = self.channel.is_temperature() && (value - LOST).abs() < 1e-6;
            self.throw(place, if is_lost { Reason::Lost } else { Reason::Impossible });
        }
    }

    fn jumps(&mut self) {
        let mut last: Option<(f64, f64)> = None;
        let (mut running, mut switched) = (None, f64::NEG_INFINITY);
        for place in 0..self.cells.len() {
            let (at, runs) = (self.times[place], self.runs[place]);
            if runs != running {
                (running, switched) = (runs, at);
            }
            let Some(value) = self.cells[place] else { continue };
            let near = |kelvin: f64| last.is_some_and(|(before, _)| (value - before).abs() <= kelvin);
            if (value - POWER_UP).abs() < 1e-6 && !near(BELIEVED) {
                self.throw(place, Reason::PowerUp);
                continue;
            }
            let allowed = last.map_or(f64::INFINITY, |(_, before)| SMALL.max(FASTEST * (at - before)));
            let arriving = at - switched <= ARRIVING && self.channel != Channel::Air;
            if !near(allowed) && last.is_some() && !arriving {
                self.throw(place, Reason::Jump);
                continue;
            }
            last = Some((value, at));
        }
    }

    fn stuck(&mut self, patience: f64, faults: &mut Faults) {
        let running = |place: usize| self.runs[place] == Some(true);
        let mut runs = Vec::new();
        let mut start = 0;
        while start < self.cells.len() {
            let Some(value) = self.cells[start].filter(|_| running(start)) else {
                start += 1;
                continue;
            };
            let same =
                |place: &usize| self.cells[*place].is_some_and(|other| (other - value).abs() < 1e-9) && running(*place);
            let end = start + (start..self.cells.len()).take_while(same).count();
            if end - start >= FEWEST && self.times[end - 1] - self.times[start] >= patience {
                runs.push(start..end);
            }
            start = end;
        }
        for run in runs {
            let (from, to) = (self.times[run.start], self.times[run.end - 1]);
            faults.stuck(Stuck { channel: self.channel, from, to });
            for place in run {
                self.throw(place, Reason::Stuck);
            }
        }
    }
}
