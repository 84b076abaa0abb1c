//! Opening a project for a command: the file, the sample, today's date, and the id that the user typed.

use std::path::Path;
use std::sync::Arc;

use clap::CommandFactory;
use jiff::civil::Date;

use super::arguments::Arguments;
use super::failure::Failure;
use super::problems;
use crate::model::{Address, text::clean};
use crate::project::Fault;
use crate::project::store::RealDisk;
use crate::stage;
use crate::units;
use crate::workbook::{Workbook, sample as carried};

/// Today where the computer stands; by the UTC calendar if it does not know its time zone.
pub fn today() -> Date {
    jiff::ZonedDateTime::now().date()
}

/// The sample project, not on the disk.
pub fn sample() -> Workbook {
    carried::open(Arc::new(RealDisk), today())
}

/// Opens a project file for looking at it; what is wrong with it comes beside it, ready to be printed.
pub fn project(file: &Path) -> Result<(Workbook, String), Failure> {
    let workbook = Workbook::open(Arc::new(RealDisk), file, today()).map_err(|error| unreadable(file, &error))?;
    let shown = problems::render(&file.display().to_string(), workbook.text(), &workbook.project().problems);
    let broken = |fault: &Fault| matches!(fault, Fault::NotText(_) | Fault::Syntax(_));
    if workbook.project().problems.iter().any(|problem| broken(&problem.fault)) {
        return Err(Failure::file(shown));
    }
    Ok((workbook, shown))
}

/// The same workbook with every study run.
pub fn studied(mut workbook: Workbook) -> Workbook {
    workbook.run_studies();
    workbook
}

fn unreadable(file: &Path, error: &dyn std::error::Error) -> Failure {
    let name = file.display().to_string();
    let commands = Arguments::command();
    let near = units::nearest(&name, commands.get_subcommands().map(clap::Command::get_name));
    let hint = match near {
        Some(command) => format!("; did you mean the command '{command}'?"),
        None if !file.exists() => "; 'sunharp new FILE' begins a project".to_owned(),
        None => String::new(),
    };
    Failure::file(clean(&format!("{error}{hint}")))
}

/// Reads `ID` or `ID@PANEL` and makes sure that the panel is there.
pub fn address(workbook: &Workbook, typed: &str) -> Result<Address, Failure> {
    let Some(address) = Address::parse(typed) else {
        let typed = clean(typed);
        return Err(Failure::usage(format!("'{typed}' is no ID or ID@PANEL; a panel is one capital letter")));
    };
    if let Some(panel) = address.panel
        && !workbook.project().panels.contains(&panel)
    {
        let panels: Vec<String> = workbook.project().panels.iter().map(ToString::to_string).collect();
        let there = if panels.is_empty() { "it has none".to_owned() } else { format!("it has {}", panels.join(", ")) };
        return Err(Failure::usage(format!("there is no panel {panel} in this project; {there}")));
    }
    Ok(address)
}

/// Nothing is called so; names the nearest id.
pub fn unknown(typed: &str) -> Failure {
    let near = units::nearest(typed, every_id());
    let hint = near.map_or_else(
        || "; 'sunharp figures' lists what there is".to_owned(),
        |near| format!("; did you mean '{near}'?"),
    );
    Failure::usage(format!("nothing is called '{}'{hint}", clean(typed)))
}

/// Every declared id.
pub fn every_id() -> impl Iterator<Item = &'static str> {
    let entries = stage::entries().iter().map(|spec| spec.id);
    let figures = stage::figures().iter().map(|figure| figure.id);
    let checks = stage::checks().iter().map(|check| check.id);
    entries.chain(figures).chain(checks).chain(stage::steps().iter().map(|step| step.id))
}
