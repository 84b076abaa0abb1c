//! The texts of sheets.

use super::{detail, explain, mend, of_verdict, records, since, sway};
use crate::model::{Address, Fig, Value, text::clean};
use crate::stage;
use crate::tui::command::{self, Place};
use crate::tui::ink::{Par, Role};
use crate::tui::state::{State, Subject};
use crate::workbook::Moved;
use crate::workbook::compare::Differences;

/// The title of a sheet.
pub fn title(state: &State, subject: &Subject) -> String {
    match subject {
        Subject::Figure(address) => format!("{}{}", super::label(&address.id), super::on_panel(address.panel)),
        Subject::Check(_) => "check".to_owned(),
        Subject::Step(address) => format!("step{}", super::on_panel(address.panel)),
        Subject::Moved => {
            let label = state.last.as_ref().map_or("nothing was changed yet", |last| last.label.as_str());
            format!("moved by: {}", clean(label))
        }
        Subject::SinceCommit => "since the last commit".to_owned(),
        Subject::Faults => "what is wrong in the project file".to_owned(),
        Subject::Help => "keys".to_owned(),
        Subject::Variant(name) => format!("the design beside '{}'", clean(name)),
        Subject::Records(None) => "everything that was recorded".to_owned(),
        Subject::Records(Some(of)) => format!("recorded: {}", super::name(state, of)),
    }
}

/// The paragraphs of a sheet.
pub fn pars(state: &State, subject: &Subject) -> Vec<Par> {
    match subject {
        Subject::Figure(address) => explain::sheet(state, address),
        Subject::Check(id) => check(state, id),
        Subject::Step(address) => step(state, address),
        Subject::Moved => moved(state),
        Subject::SinceCommit => since::pars(state),
        Subject::Faults => faults(state),
        Subject::Help => help(),
        Subject::Variant(name) => sway::variant(state, name),
        Subject::Records(of) => records::pars(state, of.as_ref()),
    }
}

fn check(state: &State, id: &str) -> Vec<Par> {
    let evaluation = state.workbook.evaluation();
    let Some(judged) = state.judged(id) else { return Vec::new() };
    let mut pars = detail::check(state, judged);
    pars.extend(mend::pars(state, judged.check.id));
    pars.push(Par::gap());
    pars.push(Par::tagged(Role::Quiet, "source:", judged.check.source));
    pars.push(Par::new(Role::Heading, "judged by"));
    for needed in judged.check.needs {
        let address = Address { id: (*needed).to_owned(), panel: judged.panel };
        let text = evaluation.text(&address, state.system());
        let par = Par::plain(format!("{} ", super::label(needed))).and(Role::Strong, text).indented(2);
        pars.push(if evaluation.row(&address).is_some() { par.leading_to(Subject::Figure(address)) } else { par });
    }
    pars
}

fn step(state: &State, address: &Address) -> Vec<Par> {
    let evaluation = state.workbook.evaluation();
    let Some(of) = evaluation.step(address) else { return Vec::new() };
    let mut pars = detail::step(state, of);
    if !of.step.relies.is_empty() {
        pars.push(Par::gap());
        pars.push(Par::new(Role::Heading, "relies on"));
    }
    for id in of.step.relies {
        let entry = Address { id: (*id).to_owned(), panel: address.panel };
        let text = evaluation.text(&entry, state.system());
        let par = Par::plain(format!("{} ", super::label(id))).and(Role::Strong, text).indented(2);
        pars.push(par.leading_to(Subject::Figure(entry)));
    }
    pars
}

/// A value, or that there is none.
pub fn fig_text(state: &State, address: &Address, value: &Fig<Value>) -> String {
    match value {
        Ok(value) => super::value(state, address, value),
        Err(_) => "unknown".to_owned(),
    }
}

fn moved(state: &State) -> Vec<Par> {
    let Some(last) = &state.last else {
        return vec![Par::plain("Change an entry, and this sheet lists every figure and verdict that moved with it.")];
    };
    let pars = differences(state, &last.differences, |_| true);
    if pars.is_empty() { vec![Par::plain("Nothing moved.")] } else { pars }
}

/// The verdicts that flipped, the steps that became stale, the figures that moved as far as they are `worth` a line.
pub fn differences(state: &State, found: &Differences, worth: impl Fn(&Moved) -> bool) -> Vec<Par> {
    let mut pars = Vec::new();
    for flip in &found.flips {
        pars.push(
            Par::plain(format!("{}: ", flip.label))
                .and(of_verdict(flip.was), flip.was.word())
                .and(Role::Plain, " -> ")
                .and(of_verdict(flip.is), flip.is.word())
                .leading_to(Subject::Check(flip.check)),
        );
    }
    for address in &found.stale {
        let name = detail::step_name(state, address);
        pars.push(Par::tagged(Role::Stale, "stale", name).leading_to(Subject::Step(address.clone())));
    }
    let moved: Vec<Moved> = found.moved.iter().filter(|moved| worth(moved)).cloned().collect();
    for (moved, rows) in folded(&moved) {
        pars.push(moved_line(state, moved, rows));
    }
    pars
}

/// One line for what moved; of a figure with rows only the row that moved most, with how many did.
fn folded(moved: &[Moved]) -> Vec<(&Moved, usize)> {
    let mut lines: Vec<(&Moved, usize)> = Vec::new();
    let stem = |moved: &Moved| match stage::figure(&moved.address.id) {
        Some((figure, _)) => (figure.id.to_owned(), moved.address.panel),
        None => (moved.address.id.clone(), moved.address.panel),
    };
    for one in moved {
        match lines.iter_mut().find(|(other, _)| stem(other) == stem(one)) {
            Some((_, rows)) => *rows += 1,
            None => lines.push((one, 1)),
        }
    }
    lines
}

fn moved_line(state: &State, moved: &Moved, rows: usize) -> Par {
    let address = &moved.address;
    let was = fig_text(state, address, &moved.was);
    let is = fig_text(state, address, &moved.is);
    let panel = super::on_panel(address.panel);
    let name = match stage::figure(&address.id) {
        Some((figure, _)) if rows > 1 => {
            format!("{}{panel}, {rows} rows, most {}", figure.label, super::row_name(&address.id))
        }
        _ => format!("{}{panel}", super::label(&address.id)),
    };
    let percent = moved.relative().map_or_else(String::new, |relative| format!("  {:+.1} %", relative * 100.0));
    Par::plain(format!("{name}: {was} -> "))
        .and(Role::Strong, is)
        .and(Role::Quiet, percent)
        .leading_to(Subject::Figure(address.clone()))
}

fn faults(state: &State) -> Vec<Par> {
    let mut pars = Vec::new();
    if let Some(reason) = state.workbook.read_only() {
        pars.push(Par::tagged(Role::Caution, "read-only:", clean(&reason.to_string())));
        pars.push(Par::gap());
    }
    for problem in &state.workbook.project().problems {
        let place = format!("line {}, column {}", problem.place.line, problem.place.column);
        pars.push(Par::tagged(Role::Strong, &place, clean(&problem.fault.to_string())));
    }
    if pars.is_empty() {
        pars.push(Par::plain("Nothing is wrong in the file."));
    }
    pars
}

fn help() -> Vec<Par> {
    let mut pars = vec![
        Par::plain(
            "The page of a stage lists what you decide and measure, what follows from it, the checks and the steps. \
             Everything can be reached with the arrows, Tab, Enter and Esc; the letters are shortcuts.",
        ),
        Par::gap(),
        Par::plain("A value is ")
            .and(Role::Assumed, "assumed")
            .and(Role::Plain, " while nothing is entered, ")
            .and(Role::Entered, "entered")
            .and(Role::Plain, " by you, ")
            .and(Role::Measured, "measured")
            .and(Role::Plain, " on the real thing, or ")
            .and(Role::Computed, "computed")
            .and(Role::Plain, "."),
        Par::plain("A check is ")
            .and(Role::Clear, "clear (.)")
            .and(Role::Plain, ", ")
            .and(Role::Caution, "caution (~)")
            .and(Role::Plain, ", ")
            .and(Role::Unknown, "unknown (?)")
            .and(Role::Plain, " while something is missing, or ")
            .and(Role::Stop, "stop (!)")
            .and(Role::Plain, ". The signs stand beside the stages. Clear means only that this check found no fault."),
        Par::plain(
            "A step is open, done, waits for others, is held by a stop, or is stale: signed before something it \
                    relied on was changed.",
        ),
    ];
    for place in Place::ALL {
        pars.push(Par::gap());
        pars.push(Par::new(Role::Heading, place.title()));
        for command in command::at(place) {
            let keys = format!("{:<18}", command.key_words());
            pars.push(Par::new(Role::Key, keys).and(Role::Plain, command.help).indented(2));
        }
    }
    pars
}

/// Whether there is anything to list about the file.
pub fn has_faults(state: &State) -> bool {
    !state.workbook.project().problems.is_empty() || state.workbook.read_only().is_some()
}
