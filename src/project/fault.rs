//! Everything that can be wrong with a project file, each with its place and in plain words.

use std::ops::Range;

use super::merge::Conflict;
use super::place::{Place, whole_characters};
use crate::model::TypedError;

/// One kind of fault. The text says what was read and what is allowed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// The file is not text.
    #[error("this file is not UTF-8 text; byte {0} cannot be read")]
    NotText(usize),
    /// TOML does not allow this.
    #[error("this is not TOML: {0}")]
    Syntax(String),
    /// The format line is missing.
    #[error("the first line must say 'format = 1'; this file has no format")]
    NoFormat,
    /// The format is not a number this program knows.
    #[error("format '{0}' is not known; this program reads format 1")]
    UnknownFormat(String),
    /// Made by a newer program.
    #[error("format {0} is newer than this program, which reads format 1; the file opens read-only")]
    NewerFormat(u64),
    /// Nobody declared this key.
    #[error("nothing is called '{key}'{hint}")]
    UnknownKey {
        /// The key.
        key: String,
        /// The nearest key as a clause, or nothing.
        hint: String,
    },
    /// An entry's text cannot be used.
    #[error("{id}: {error}")]
    Entry {
        /// The entry.
        id: String,
        /// Why not.
        error: TypedError,
    },
    /// The value is of the wrong TOML sort.
    #[error("{key} wants {wanted}, written in quotes")]
    WrongSort {
        /// The key.
        key: String,
        /// What is wanted.
        wanted: String,
    },
    /// The loop of the plumbing stage does not hang together here.
    #[error("{id}: {reason}")]
    Loop {
        /// The entry at which it shows.
        id: String,
        /// What is wrong.
        reason: String,
    },
    /// A measured-only quantity stands among the entries.
    #[error("{0} can only be measured; write it as a reading")]
    OnlyMeasured(String),
    /// A panel's name is not a letter.
    #[error("'{0}' is not a panel; panels are named by one capital letter, A to Z")]
    PanelName(String),
    /// A record names a panel that the project has not.
    #[error("there is no panel {0} in this project; add a line [panel.{0}] or change the letter")]
    NoSuchPanel(String),
    /// A record is about something unknown.
    #[error("there is no {sort} called '{id}'{hint}")]
    NoSuchSubject {
        /// Entry, step or check.
        sort: &'static str,
        /// The id.
        id: String,
        /// The nearest id as a clause, or nothing.
        hint: String,
    },
    /// A record about one panel names none, or the reverse.
    #[error("'{0}' {1}")]
    PanelLetter(String, &'static str),
    /// A record's key is not a day and a number.
    #[error("'{0}' must be a day and a running number, such as 2026-04-18-1")]
    RecordKey(String),
    /// A record lacks a field.
    #[error("this record has no '{0}'")]
    NoField(&'static str),
    /// Two builders changed one thing in different ways.
    #[error("{}", conflict(.0))]
    Conflict(Box<Conflict>),
}

/// What two builders did to one key, and what to do about it.
fn conflict(conflict: &Conflict) -> String {
    let did = |side: &Option<String>| match side {
        Some(text) => format!("wrote '{text}'"),
        None => "took it out".to_owned(),
    };
    let (ours, theirs) = (did(&conflict.ours), did(&conflict.theirs));
    format!("two hands changed {}: one {ours}, the other {theirs}; choose one, then take this table out", conflict.key)
}

impl Fault {
    /// A short stable name of the kind of fault, for tests and for scripts.
    pub fn code(&self) -> &'static str {
        match self {
            Self::NotText(_) => "not-text",
            Self::Syntax(_) => "syntax",
            Self::NoFormat => "no-format",
            Self::UnknownFormat(_) => "unknown-format",
            Self::NewerFormat(_) => "newer-format",
            Self::UnknownKey { .. } => "unknown-key",
            Self::Entry { .. } => "entry",
            Self::WrongSort { .. } => "wrong-sort",
            Self::Loop { .. } => "loop",
            Self::OnlyMeasured(_) => "only-measured",
            Self::PanelName(_) => "panel-name",
            Self::NoSuchPanel(_) => "no-such-panel",
            Self::NoSuchSubject { .. } => "no-such-subject",
            Self::PanelLetter(..) => "panel-letter",
            Self::RecordKey(_) => "record-key",
            Self::NoField(_) => "no-field",
            Self::Conflict(_) => "conflict",
        }
    }

    /// Every code, so that a test can ask for an example of each.
    pub const CODES: [&'static str; 17] = [
        "not-text",
        "syntax",
        "no-format",
        "unknown-format",
        "newer-format",
        "unknown-key",
        "entry",
        "wrong-sort",
        "loop",
        "only-measured",
        "panel-name",
        "no-such-panel",
        "no-such-subject",
        "panel-letter",
        "record-key",
        "no-field",
        "conflict",
    ];

    /// Whether the file must not be written while this stands.
    pub const fn forbids_writing(&self) -> bool {
        matches!(self, Self::NotText(_) | Self::Syntax(_) | Self::UnknownFormat(_) | Self::NewerFormat(_))
    }
}

/// A fault and where it is.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Line and column.
    pub place: Place,
    /// The bytes it is about.
    pub span: Range<usize>,
    /// What is wrong.
    pub fault: Fault,
}

impl Problem {
    /// Faults at bytes of a text, put in the order of the text. Spans are widened to whole characters.
    pub fn all(text: &str, mut found: Vec<(Range<usize>, Fault)>) -> Vec<Self> {
        for (span, _) in &mut found {
            *span = whole_characters(text, span);
        }
        found.sort_by_key(|(span, _)| span.start);
        let places = Place::of_all(text, found.iter().map(|(span, _)| span.start));
        found.into_iter().zip(places).map(|((span, fault), place)| Self { place, span, fault }).collect()
    }
}
