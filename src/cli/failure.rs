//! What a command brings back: an answer with its exit code, or the reason why there is none.

/// Exit code: a check says stop.
pub const STOP: u8 = 1;
/// Exit code: wrong use.
pub const USAGE: u8 = 2;
/// Exit code: a file cannot be read or written.
pub const FILE: u8 = 3;

/// What a command prints.
#[derive(Debug, Default)]
pub struct Answer {
    /// For the standard error: what is wrong with the file.
    pub notices: String,
    /// For the standard output.
    pub text: String,
    /// The exit code.
    pub code: u8,
}

impl Answer {
    /// An answer with nothing to complain about.
    pub fn of(text: impl Into<String>) -> Self {
        Self { text: text.into(), ..Self::default() }
    }
}

/// Why a command has no answer; the text is printed on the standard error.
#[derive(Debug)]
pub struct Failure {
    /// What to print, with its line breaks.
    pub text: String,
    /// The exit code.
    pub code: u8,
}

impl Failure {
    /// Wrong use.
    pub fn usage(text: impl Into<String>) -> Self {
        Self { text: ended(text.into()), code: USAGE }
    }

    /// A file cannot be read or written.
    pub fn file(text: impl Into<String>) -> Self {
        Self { text: ended(text.into()), code: FILE }
    }
}

fn ended(text: String) -> String {
    if text.ends_with('\n') { text } else { text + "\n" }
}
