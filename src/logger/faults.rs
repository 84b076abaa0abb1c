//! What was wrong with a log, counted: a million bad rows are one line.

use super::channel::{CHANNELS, Channel};
use super::time::stamp;

/// Most single events of one sort that are kept with their place.
pub(super) const KEPT: usize = 50;

/// How often something happened, and the first line of the file where it did.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// How often.
    pub count: u64,
    /// The first line, counted from 1; 0 if never.
    pub first_line: u64,
}

impl Tally {
    pub(super) fn add(&mut self, line: u64) {
        if self.count == 0 {
            self.first_line = line;
        }
        self.count += 1;
    }

    /// Whether it happened at all.
    pub fn any(&self) -> bool {
        self.count > 0
    }
}

/// A stretch without rows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Last row before.
    pub from: f64,
    /// First row after.
    pub to: f64,
}

/// A sensor that stood still while the pump ran.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stuck {
    /// Which.
    pub channel: Channel,
    /// Since when.
    pub from: f64,
    /// Until when.
    pub to: f64,
}

/// Everything that was wrong.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Faults {
    /// Rows whose time cannot be read.
    pub unreadable_times: Tally,
    /// Rows with fewer cells than the columns need.
    pub short_rows: Tally,
    /// Cells that are no number, by channel.
    pub unreadable_cells: [Tally; CHANNELS.len()],
    /// Rows with the time of the row before: the later one counts.
    pub doubled: Tally,
    /// Rows that are earlier than one before them: left out.
    pub backward: Tally,
    /// Times at which the clock jumped by an hour on a Sunday.
    pub summer_time: Vec<f64>,
    /// 85.0 °C as a digital sensor says at power-up or after a failed reading.
    pub power_up: [Tally; CHANNELS.len()],
    /// −127 °C as a digital sensor says when it is lost.
    pub lost: [Tally; CHANNELS.len()],
    /// Readings that are physically impossible.
    pub impossible: [Tally; CHANNELS.len()],
    /// Temperatures that moved faster than 5 K in 10 s.
    pub jumps: [Tally; CHANNELS.len()],
    /// The longest stretches in which a sensor stood still while the pump ran, in order of time.
    pub stuck: Vec<Stuck>,
    /// How many such stretches there were.
    pub stuck_count: u64,
    /// The longest gaps, in order of time.
    pub gaps: Vec<Gap>,
    /// How many gaps there were.
    pub gap_count: u64,
    /// Seconds in all gaps.
    pub gap_seconds: f64,
    /// Units that are not known: taken as °C, W/m², L/min, bar or m/s.
    pub unknown_units: Vec<(Channel, String)>,
    /// The dates can be read as day or as month first; month first was taken.
    pub date_order_guessed: bool,
}

impl Faults {
    pub(super) fn gap(&mut self, gap: Gap) {
        self.gap_count += 1;
        self.gap_seconds += gap.to - gap.from;
        self.gaps.push(gap);
        keep_longest(&mut self.gaps, |gap| gap.to - gap.from);
    }

    pub(super) fn stuck(&mut self, stuck: Stuck) {
        self.stuck_count += 1;
        self.stuck.push(stuck);
        keep_longest(&mut self.stuck, |stuck| stuck.to - stuck.from);
    }

    /// Each sort of fault in one sentence, none if there is none.
    pub fn sentences(&self) -> Vec<String> {
        let mut told = Vec::new();
        let rows = [
            (self.unreadable_times, "without a time that can be read"),
            (self.short_rows, "with too few cells"),
            (self.doubled, "doubled: the later one counts"),
            (self.backward, "going back in time: left out"),
        ];
        for (tally, words) in rows.into_iter().filter(|(tally, _)| tally.any()) {
            told.push(format!("{} {words}, first at line {}", rows_of(tally.count), tally.first_line));
        }
        told.extend(
            self.summer_time
                .iter()
                .map(|at| format!("the clock jumped an hour at {}: it keeps summer time", stamp(*at))),
        );
        for channel in CHANNELS {
            self.tell_channel(channel, &mut told);
        }
        for stuck in &self.stuck {
            let (from, to) = (stamp(stuck.from), stamp(stuck.to));
            told.push(format!(
                "{} stood still from {from} to {to} with the pump running: left out",
                stuck.channel.word()
            ));
        }
        if self.gap_count > 0 {
            let longest = self.gaps.iter().max_by(|a, b| (a.to - a.from).total_cmp(&(b.to - b.from)));
            let longest = longest
                .map_or_else(String::new, |gap| format!(", the longest from {} to {}", stamp(gap.from), stamp(gap.to)));
            let gaps = if self.gap_count == 1 { "1 gap".to_owned() } else { format!("{} gaps", self.gap_count) };
            told.push(format!("{gaps}, {:.1} h in all{longest}", self.gap_seconds / 3600.0));
        }
        for (channel, unit) in &self.unknown_units {
            told.push(format!("the unit '{unit}' of {} is not known: taken as the usual one", channel.word()));
        }
        if self.date_order_guessed {
            told.push("the dates can be read both ways: the month was taken to come first".to_owned());
        }
        told
    }

    fn tell_channel(&self, channel: Channel, told: &mut Vec<String>) {
        let (at, word) = (channel.index(), channel.word());
        let sorts = [
            (self.power_up[at], "readings of exactly 85.0, a digital sensor's power-up value"),
            (self.lost[at], "readings of -127, a lost digital sensor"),
            (self.impossible[at], "impossible readings"),
            (self.jumps[at], "readings that jump faster than 5 K in 10 s"),
            (self.unreadable_cells[at], "cells that are no number"),
        ];
        for (tally, words) in sorts.into_iter().filter(|(tally, _)| tally.any()) {
            told.push(format!("{word}: {} {words}, first at line {}: left out", tally.count, tally.first_line));
        }
    }
}

fn rows_of(count: u64) -> String {
    if count == 1 { "1 row".to_owned() } else { format!("{count} rows") }
}

/// Drops the shortest where there are too many.
fn keep_longest<T>(all: &mut Vec<T>, length: impl Fn(&T) -> f64) {
    if all.len() > KEPT {
        let shortest = (0..all.len()).min_by(|a, b| length(&all[*a]).total_cmp(&length(&all[*b])));
        if let Some(shortest) = shortest {
            all.remove(shortest);
        }
    }
}
