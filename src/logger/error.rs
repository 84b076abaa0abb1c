//! Why a logger file cannot be used at all.

use super::layout::SHOWN;

/// A file that gives no log.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LogError {
    /// The system could not read it.
    #[error("it cannot be read: {0}")]
    Unreadable(String),
    /// Not a text of single bytes.
    #[error("it is no plain text table; save it as UTF-8 text with separators")]
    NotText,
    /// No column has the wanted name of the time.
    #[error("no column '{wanted}' for the time; the file has {}", listed(found))]
    NoTime {
        /// The name that was asked for.
        wanted: String,
        /// The names that are there.
        found: Vec<String>,
    },
    /// No row could be used.
    #[error("none of its {rows} rows has a time that can be read")]
    NoRows {
        /// Rows below the header.
        rows: u64,
    },
}

fn listed(names: &[String]) -> String {
    let shown: Vec<String> = names.iter().take(SHOWN).map(|name| format!("'{name}'")).collect();
    if shown.is_empty() { "no columns".to_owned() } else { shown.join(", ") }
}
