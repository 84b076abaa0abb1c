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
    for channel in CHANNELS {
        impossible(rows, channel, faults);
        if channel.is_temperature() {
            jumps(rows, channel, faults);
        }
        if let Some(patience) = channel.patience() {
            stuck(rows, channel, patience, faults);
        }
    }
}

fn impossible(rows: &mut [Row], channel: Channel, faults: &mut Faults) {
    let (index, (low, high)) = (channel.index(), channel.possible());
    for row in rows {
        let Some(value) = row.cells[index].filter(|value| !(low..=high).contains(value)) else { continue };
        row.cells[index] = None;
        let is_lost = channel.is_temperature() && (value - LOST).abs() < 1e-6;
        let tally = if is_lost { &mut faults.lost[index] } else { &mut faults.impossible[index] };
        tally.add(row.line);
    }
}

fn jumps(rows: &mut [Row], channel: Channel, faults: &mut Faults) {
    let index = channel.index();
    let mut last: Option<(f64, f64)> = None;
    let (mut running, mut switched) = (None, f64::NEG_INFINITY);
    for row in rows {
        let runs = pump_runs(&row.cells);
        if runs != running {
            (running, switched) = (runs, row.at);
        }
        let Some(value) = row.cells[index] else { continue };
        let near = |kelvin: f64| last.is_some_and(|(before, _)| (value - before).abs() <= kelvin);
        if (value - POWER_UP).abs() < 1e-6 && !near(BELIEVED) {
            row.cells[index] = None;
            faults.power_up[index].add(row.line);
            continue;
        }
        let allowed = last.map_or(f64::INFINITY, |(_, at)| SMALL.max(FASTEST * (row.at - at)));
        let arriving = row.at - switched <= ARRIVING && channel != Channel::Air;
        if !near(allowed) && last.is_some() && !arriving {
            row.cells[index] = None;
            faults.jumps[index].add(row.line);
            continue;
        }
        last = Some((value, row.at));
    }
}

fn stuck(rows: &mut [Row], channel: Channel, patience: f64, faults: &mut Faults) {
    let index = channel.index();
    let mut start = 0;
    while start < rows.len() {
        let Some(value) = rows[start].cells[index].filter(|_| pump_runs(&rows[start].cells) == Some(true)) else {
            start += 1;
            continue;
        };
        let same = |row: &Row| {
            row.cells[index].is_some_and(|other| (other - value).abs() < 1e-9) && pump_runs(&row.cells) == Some(true)
        };
        let count = rows[start..].iter().take_while(|row| same(row)).count();
        let run = &mut rows[start..start + count];
        let (from, to) = (run[0].at, run[count - 1].at);
        if count >= FEWEST && to - from >= patience {
            faults.stuck(Stuck { channel, from, to });
            for row in run {
                row.cells[index] = None;
            }
        }
        start += count;
    }
}
