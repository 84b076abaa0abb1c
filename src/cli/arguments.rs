//! The arguments, declared once: help, completions and the manual page come from here.

use std::path::PathBuf;

use clap::{Parser, Subcommand, ValueEnum};

use crate::model::paper::Paper;
use crate::project::merge::Side;
use crate::units::System;

/// A workbook for building flat-plate solar water-heating panels by hand.
#[derive(Debug, Parser)]
#[command(
    name = "sunharp",
    version,
    about,
    args_conflicts_with_subcommands = true,
    max_term_width = 80,
    after_help = "Everything in a project is named ID or ID@PANEL: absorber.riser_pitch, absorber.hole.7@B.\n\
                  Exit codes: 0 done, 1 a check says stop, 2 wrong use, 3 a file cannot be read or written."
)]
pub struct Arguments {
    /// What to do.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// The project file to open; the same as 'open FILE'
    pub file: Option<PathBuf>,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Look around in a sample build; nothing is written unless you save
    Demo,
    /// Begin a project: writes a short file with the entries that matter first
    New {
        /// The file to make; it must not exist
        file: PathBuf,
    },
    /// Open a project on the screen; without a terminal, print the whole report
    Open {
        /// The project file
        file: Option<PathBuf>,
    },
    /// Print entries, figures, checks and steps
    Show {
        /// The project file
        file: PathBuf,
        /// What to print: ID, ID@PANEL, or the beginning of ids such as 'absorber'; all if none is given
        #[arg(value_name = "ID")]
        ids: Vec<String>,
        /// Print JSON, as docs/json.md describes it
        #[arg(long)]
        json: bool,
        /// Print results in these units instead of the project's
        #[arg(long, value_enum)]
        units: Option<Units>,
    },
    /// Explain a figure: its formula with the project's numbers, its source, what it hangs on
    Explain {
        /// The project file
        file: PathBuf,
        /// ID or ID@PANEL of a figure, an entry, a check or a step
        id: String,
        /// Print results in these units instead of the project's
        #[arg(long, value_enum)]
        units: Option<Units>,
    },
    /// Judge a project: exit code 1 if a check says stop
    Check {
        /// The project file
        file: PathBuf,
        /// Take a check that is unknown for a stop
        #[arg(long)]
        strict: bool,
        /// Print JSON, as docs/json.md describes it
        #[arg(long)]
        json: bool,
    },
    /// Print what can be done now: open steps and what they need, stale ones, stops, what is missing
    Today {
        /// The project file
        file: PathBuf,
    },
    /// Change one entry and save; prints what moved
    Set {
        /// The project file
        file: PathBuf,
        /// ID of an entry
        id: String,
        /// The value with its unit, such as '4 1/2 in'
        #[arg(allow_hyphen_values = true)]
        value: String,
    },
    /// Print the bill of materials: what the shop must still deliver
    Materials {
        /// The project file
        file: PathBuf,
        /// Print comma-separated values, one line for each item
        #[arg(long)]
        csv: bool,
        /// Print results in these units instead of the project's
        #[arg(long, value_enum)]
        units: Option<Units>,
    },
    /// Keep the weather file's monthly means in the project, so that it opens without that file
    KeepWeather {
        /// The project file
        file: PathBuf,
    },
    /// Tell what changed since the last commit, or between two files or revisions
    Changes {
        /// A file, a revision of the other file, or REVISION:FILE
        first: String,
        /// The same; the file now, if left out
        second: Option<String>,
    },
    /// Merge another builder's file into ours; exit code 1 if something must be settled
    Merge {
        /// What both began from
        base: PathBuf,
        /// Our file; the result is written here
        ours: PathBuf,
        /// Their file
        theirs: PathBuf,
    },
    /// Decide what two builders changed in different ways
    Settle {
        /// The project file
        file: PathBuf,
        /// The key, as in the table [conflict."KEY"]
        key: String,
        /// Whose value stands
        side: Whose,
    },
    /// Begin a project with another one's design, for another place
    Adopt {
        /// The project whose design is taken
        old: PathBuf,
        /// The file to make; it must not exist
        new: PathBuf,
        /// An entry of the new place, such as site.latitude=52.1°
        #[arg(long, value_name = "ID=VALUE")]
        set: Vec<String>,
    },
    /// Print a procedure with the project's numbers: acceptance, hand-over, repair, lay-up and others
    Procedure {
        /// The project file
        file: PathBuf,
        /// Its name; lists them if none is given
        name: Option<String>,
    },
    /// Find a fault: one measurement at a time, with the value that this project should show
    Trouble {
        /// The project file
        file: PathBuf,
        /// What is seen; lists the symptoms if none is given
        symptom: Option<String>,
        /// Whether each measurement so far showed what it should
        #[arg(value_enum)]
        answers: Vec<Shown>,
    },
    /// Print the questions for authority, plumber and electrician, with the answers so far
    Questions {
        /// The project file
        file: PathBuf,
    },
    /// Print the emergency card, the labels and what a second person reads back
    Labels {
        /// The project file
        file: PathBuf,
    },
    /// Print the book: everything on paper, the same as plain text, and a drilling template at 1:1
    Book {
        /// The project file
        file: PathBuf,
        /// The folder for book.html, book.txt and header-template.pdf; made if it is not there
        #[arg(short = 'o', long = "out", value_name = "DIR")]
        folder: PathBuf,
        /// The paper that it is printed on
        #[arg(long, value_enum, default_value_t = Sheet::A4)]
        paper: Sheet,
    },
    /// List everything that is declared: entries, figures, checks and steps
    Figures,
    /// Print the completions for a shell
    #[command(hide = true)]
    Completions {
        /// The shell
        shell: clap_complete::Shell,
    },
    /// Print the manual page
    #[command(hide = true)]
    Man,
    /// Write the pages of docs/ that are made from the declared tables
    #[command(hide = true)]
    Docs {
        /// The folder to write them to
        folder: PathBuf,
    },
}

/// Whose value stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Whose {
    /// As in our file
    Ours,
    /// As in their file
    Theirs,
    /// As it was before both
    Base,
}

impl From<Whose> for Side {
    fn from(whose: Whose) -> Self {
        match whose {
            Whose::Ours => Self::Ours,
            Whose::Theirs => Self::Theirs,
            Whose::Base => Self::Base,
        }
    }
}

/// Whether a measurement showed what it should.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Shown {
    /// It did
    Yes,
    /// It did not
    No,
}

/// The paper that the book is printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Sheet {
    /// 210 mm × 297 mm
    A4,
    /// 8.5 in × 11 in
    Letter,
}

impl From<Sheet> for Paper {
    fn from(sheet: Sheet) -> Self {
        match sheet {
            Sheet::A4 => Self::A4,
            Sheet::Letter => Self::Letter,
        }
    }
}

/// The family of units that results are printed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub enum Units {
    /// Inches, gallons, psi, °F
    Us,
    /// Millimetres, litres, bar, °C
    Si,
}

impl From<Units> for System {
    fn from(units: Units) -> Self {
        match units {
            Units::Us => Self::Us,
            Units::Si => Self::Si,
        }
    }
}
