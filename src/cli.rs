//! The command line: one command, one answer, plain lines.
//!
//! Lives here: the arguments, what each command prints, exit codes, the pages of `docs/` that are made from the
//! declared tables. Must not live here: formulas, the screen. Every text that came from outside is cleaned before it
//! is printed. Commands that only look never lock and never write.

mod adopt;
pub mod arguments;
mod book;
mod changes;
mod check;
mod day;
pub mod docs;
mod explain;
mod failure;
mod json;
mod keep;
mod materials;
mod merge;
mod new;
mod office;
mod opening;
mod output;
pub mod problems;
pub mod procedure;
mod report;
mod selection;
mod set;
mod show;
mod tables;
mod verdicts;

use std::ffi::OsString;
use std::path::Path;
use std::process::ExitCode;

use clap::{CommandFactory, Parser};

pub use arguments::Command;
use arguments::{Arguments, Shown};
use failure::{Answer, Failure};
pub use opening::today;

use crate::model::lines::Page;
use crate::project::store::{self, RealDisk};

/// Reads the command line. With a mistake in it, or a wish for help, that is printed and the exit code comes back.
pub fn parse(arguments: impl IntoIterator<Item = OsString>) -> Result<Command, ExitCode> {
    match Arguments::try_parse_from(arguments) {
        Ok(Arguments { command: Some(command), .. }) => Ok(command),
        Ok(Arguments { command: None, file }) => Ok(Command::Open { file }),
        Err(error) => {
            let _ = error.print(); // a closed pipe is nobody left to tell
            Err(ExitCode::from(u8::try_from(error.exit_code()).unwrap_or(failure::USAGE)))
        }
    }
}

/// Answers a command with plain lines. `demo` and `open` are answered with the whole report.
pub fn report(command: &Command) -> ExitCode {
    match answer(command) {
        Ok(answer) => {
            output::notice(&answer.notices);
            output::print(&answer.text, answer.code)
        }
        Err(failure) => {
            output::notice(&failure.text);
            ExitCode::from(failure.code)
        }
    }
}

/// Tells that the screen could not be shown.
pub fn failed(error: &dyn std::error::Error) -> ExitCode {
    output::notice(&format!("the screen cannot be shown: {error}; 'sunharp show FILE' prints plain lines\n"));
    ExitCode::FAILURE
}

fn answer(command: &Command) -> Result<Answer, Failure> {
    match command {
        Command::Demo => Ok(Answer::of(report::whole(&opening::studied(opening::sample()), None))),
        Command::New { file } => new::write(file),
        Command::Open { file: Some(file) } => show::show(file, &[], false, None),
        Command::Open { file: None } => Err(Failure::usage(NEXT)),
        Command::Show { file, ids, json, units } => show::show(file, ids, *json, units.map(Into::into)),
        Command::Explain { file, id, units } => explain::explain(file, id, units.map(Into::into)),
        Command::Check { file, strict, json } => check::check(file, *strict, *json),
        Command::Today { file } => day::day(file),
        Command::Set { file, id, value } => set::set(file, id, value),
        Command::Materials { file, csv, units } => materials::materials(file, *csv, units.map(Into::into)),
        Command::KeepWeather { file } => keep::keep(file),
        Command::Changes { first, second } => changes::changes(first, second.as_deref()),
        Command::Merge { base, ours, theirs } => merge::merge(base, ours, theirs),
        Command::Settle { file, key, side } => merge::settle(file, key, (*side).into()),
        Command::Adopt { old, new, set } => adopt::adopt(old, new, set),
        Command::Procedure { file, name } => procedure::procedure(file, name.as_deref()),
        Command::Trouble { file, symptom, answers } => {
            let answers: Vec<bool> = answers.iter().map(|shown| *shown == Shown::Yes).collect();
            procedure::trouble(file, symptom.as_deref(), &answers)
        }
        Command::Questions { file } => office::questions(file),
        Command::Labels { file } => office::labels(file),
        Command::Book { file, folder, paper } => book::book(file, folder, (*paper).into()),
        Command::Figures => Ok(Answer::of(tables::declared())),
        Command::Completions { shell } => Ok(Answer::of(completions(*shell))),
        Command::Man => manual(),
        Command::Docs { folder } => write_docs(folder),
    }
}

/// What is printed when neither a file nor a command is given.
const NEXT: &str = "\
Which project? Say one of:
  sunharp demo              look around in a sample build
  sunharp new FILE          begin a project of your own
  sunharp FILE              open a project
  sunharp --help            everything else
";

fn completions(shell: clap_complete::Shell) -> String {
    let mut script = Vec::new();
    clap_complete::generate(shell, &mut Arguments::command(), "sunharp", &mut script);
    String::from_utf8_lossy(&script).into_owned()
}

fn manual() -> Result<Answer, Failure> {
    let mut page = Vec::new();
    clap_mangen::Man::new(Arguments::command()).render(&mut page).map_err(|error| Failure::file(error.to_string()))?;
    Ok(Answer::of(String::from_utf8_lossy(&page).into_owned()))
}

fn write_docs(folder: &Path) -> Result<Answer, Failure> {
    let mut page = Page::default();
    for (name, text) in docs::pages() {
        let path = folder.join(name);
        let seen = store::load(&RealDisk, &path).ok().map(|(_, stamp)| stamp);
        store::save(&RealDisk, &path, text.as_bytes(), seen.as_ref())
            .map_err(|error| Failure::file(error.to_string()))?;
        page.fact(0, &format!("{} written", path.display()));
    }
    Ok(Answer::of(page.text()))
}
