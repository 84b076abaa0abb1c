//! The vocabulary of the workbook as plain data.
//!
//! Lives here: ids and addresses, values, declared entries and steps, records, verdicts, demands, the drawing's
//! shapes. Must not live here: how a file is read, how anything is computed, how anything looks.

pub mod address;
pub mod axis;
pub mod chart;
pub mod demand;
pub mod entry;
pub mod fig;
pub mod inputs;
pub mod lines;
pub mod paper;
pub mod reading_text;
pub mod record;
pub mod scene;
pub mod stage;
pub mod step;
pub mod text;
pub mod value;
pub mod verdict;

pub use address::{Address, PanelLetter};
pub use chart::{Band, Chart, ChartAxis, Line, Mark};
pub use demand::{Demand, Shelf};
pub use entry::{Choice, Entry, EntrySpec, Fold, Role, RowKey, Scope, Shape, TradeUnits};
pub use fig::{Fig, Why};
pub use inputs::{Entries, Given, Inputs, Origin};
pub use reading_text::{TypedError, day};
pub use record::{LogEntry, Note, Override, Reading, Records, SignOff};
pub use stage::Stage;
pub use step::{Condition, Evidence, OnlyFor, Step};
pub use value::Value;
pub use verdict::{Judgement, Verdict};
