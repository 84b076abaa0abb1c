//! The program: picks the face and nothing else.

use std::process::ExitCode;
use std::sync::Arc;

use sunharp::cli::{self, Command};
use sunharp::project::draft::Drafts;
use sunharp::project::store::RealDisk;
use sunharp::tui::{self, Options};
use sunharp::workbook::{Workbook, sample};

fn main() -> ExitCode {
    let command = match cli::parse(std::env::args_os()) {
        Ok(command) => command,
        Err(code) => return code,
    };
    match workbook(&command) {
        Some(workbook) => show(workbook, matches!(command, Command::Demo)),
        None => cli::report(&command),
    }
}

/// The workbook for the screen; none if the command or the terminal wants plain lines, or the file cannot be read.
fn workbook(command: &Command) -> Option<Workbook> {
    if !tui::is_possible() {
        return None;
    }
    let disk = Arc::new(RealDisk);
    match command {
        Command::Demo => Some(sample::open(disk, cli::today())),
        Command::Open { file: Some(file) } => Workbook::open(disk, file, cli::today()).ok(),
        _ => None,
    }
}

fn show(workbook: Workbook, demo: bool) -> ExitCode {
    let options = Options { drafts: Drafts::of_user(), demo, ..Options::default() };
    match tui::run(workbook, options) {
        Ok(ended) => ExitCode::from(ended.code()),
        Err(error) => cli::failed(&error),
    }
}
