//! Logger files: a table of times and readings as a data logger wrote it, streamed into a digest.
//!
//! Lives here: finding delimiter, header, units row and columns; reading times and numbers; telling what is wrong with
//! the rows; day sums, steady windows and whole hours. Must not live here: entries, verdicts, the file system, the
//! place of the plant, the liquid in it: sums are kept so that they can be turned into heat later.
//!
//! Times are seconds since 1970-01-01 by the clock of the first row: where the file writes offsets from universal time,
//! later rows are brought to the first row's offset. Rows are kept for one day at a time, so a year needs no more
//! memory than its longest day and its digest.

mod channel;
mod clean;
mod day;
mod error;
mod faults;
mod layout;
mod number;
mod spell;
mod stream;
mod time;
mod window;

pub use channel::{CHANNELS, Channel};
pub use day::{DayLog, QUARTERS};
pub use error::LogError;
pub use faults::{Faults, Gap, Stuck, Tally};
pub use layout::{Columns, NAMES};
pub use spell::Spell;
pub use stream::digest;
pub use time::{civil, stamp};
pub use window::{HourLog, Window};

/// What a logger file told, small enough to be kept with the project's world.
#[derive(Clone, Debug, PartialEq)]
pub struct Log {
    /// Rows below the header.
    pub rows: u64,
    /// Rows whose time could be read and that came in order.
    pub used: u64,
    /// Time of the first and of the last row used.
    pub span: (f64, f64),
    /// Seconds by which the clock of the first row is ahead of universal time, where the file says so.
    pub offset: Option<f64>,
    /// Median step between rows, s.
    pub step: f64,
    /// The channels that were found among the columns.
    pub channels: Vec<Channel>,
    /// Each day with rows, in order.
    pub days: Vec<DayLog>,
    /// Stretches in which everything stood steady in strong sun.
    pub windows: Vec<Window>,
    /// Whole hours in strong sun with the pump running.
    pub hours: Vec<HourLog>,
    /// What was wrong.
    pub faults: Faults,
}

impl Log {
    /// Whether a channel was found among the columns.
    pub fn has(&self, channel: Channel) -> bool {
        self.channels.contains(&channel)
    }
}
