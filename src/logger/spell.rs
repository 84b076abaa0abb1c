//! The quarter hours of a day in which liquid was moved: what the sun gave and how warm the liquid was then.
//!
//! Kept so that the day's heat can be held against what a computed panel would have given in the same conditions.

use super::channel::Channel;
use super::clean::pump_runs;
use super::day::{GAP_STEPS, QUARTER, Row};

/// Means over the part of a quarter hour in which liquid was moved. Temperatures K, the rest SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spell {
    /// Middle of the quarter hour, on the log's clock.
    pub at: f64,
    /// How long of it liquid was moved, s.
    pub seconds: f64,
    /// Irradiance in the plane.
    pub sun: f64,
    /// Mean of inlet and outlet over the air.
    pub excess: f64,
}

/// Sun and excess of a row in which liquid was moved; none where that cannot be told.
fn moved(row: &Row) -> Option<(f64, f64)> {
    let cell = |channel: Channel| row.cells[channel.index()];
    let flows = cell(Channel::Flow)? > 0.0 && pump_runs(&row.cells) != Some(false);
    let mean = 0.5 * (cell(Channel::Inlet)? + cell(Channel::Outlet)?);
    flows.then_some((cell(Channel::Sun)?, mean - cell(Channel::Air)?))
}

/// The spells of a day that begins at `start`; a row counts for the time since the one before, never for a gap.
pub(super) fn spells(rows: &[Row], start: f64, step: f64) -> Vec<Spell> {
    let mut found: Vec<Spell> = Vec::new();
    for pair in rows.windows(2) {
        let seconds = pair[1].at - pair[0].at;
        if seconds > GAP_STEPS * step {
            continue;
        }
        let Some((sun, excess)) = moved(&pair[1]) else { continue };
        let at = start + (((pair[1].at - start) / QUARTER).floor() + 0.5) * QUARTER;
        if found.last().is_none_or(|last| last.at < at) {
            found.push(Spell { at, seconds: 0.0, sun: 0.0, excess: 0.0 });
        }
        if let Some(last) = found.last_mut() {
            last.sun += sun * seconds;
            last.excess += excess * seconds;
            last.seconds += seconds;
        }
    }
    for spell in &mut found {
        spell.sun /= spell.seconds;
        spell.excess /= spell.seconds;
    }
    found.retain(|spell| spell.seconds > 0.0);
    found
}
