//! The workbook on a terminal: stage pages, forms, sheets and questions, driven by plain keys.
//!
//! Lives here: keys and what they do, what is laid out where, the wording of screens, the care of the terminal. Must
//! not live here: formulas, the file format, commands of the shell. Drawing only reads; sizes come from `layout`,
//! which input handling and drawing share.

mod bench;
pub mod command;
pub mod event;
mod form;
mod ink;
mod layout;
mod lessons;
mod page;
mod run;
mod state;
pub mod terminal;
pub mod theme;
mod typeface;
mod update;
mod view;
mod words;

use std::io::IsTerminal;

use crate::project::draft::Drafts;

pub use ink::Role;
pub use layout::{LEAST_COLUMNS, LEAST_ROWS};
pub use run::run;
pub use state::{Setup, State, Want};
pub use update::{start, update};
pub use view::draw;

/// How the workbook is to be shown, and where unsaved work is kept.
#[derive(Clone, Debug, Default)]
pub struct Options {
    /// Colours.
    pub color: theme::Color,
    /// The characters that lines and marks are drawn with.
    pub glyphs: theme::Glyphs,
    /// Where drafts of unsaved work are kept; none if they are not kept.
    pub drafts: Option<Drafts>,
    /// The project is the sample: nothing is lost if it is never saved.
    pub demo: bool,
}

/// How a session ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ended {
    /// The builder left.
    Quit,
    /// A signal asked the program to end; the terminal was given back.
    Signal(i32),
    /// The terminal is gone; nothing may be written to it any more.
    Hangup,
}

impl Ended {
    /// The exit code of the program.
    pub fn code(self) -> u8 {
        const HANGUP: u8 = 129;
        match self {
            Self::Quit => 0,
            Self::Signal(number) => u8::try_from(128 + number).unwrap_or(1),
            Self::Hangup => HANGUP,
        }
    }
}

/// Why the workbook could not be shown.
#[derive(Debug, thiserror::Error)]
pub enum TuiError {
    /// The terminal refused.
    #[error("the terminal cannot be used: {0}")]
    Terminal(#[from] std::io::Error),
}

/// Whether a workbook can be shown here: both ends are a terminal that can place text.
pub fn is_possible() -> bool {
    let capable = std::env::var("TERM").is_ok_and(|term| !term.is_empty() && term != "dumb");
    capable && std::io::stdin().is_terminal() && std::io::stdout().is_terminal()
}
