//! What happened since the last commit, in the words of the workbook.

use crate::model::{Address, Why, text::clean};
use crate::stage;
use crate::tui::ink::{Par, Role};
use crate::tui::state::{State, Subject};
use crate::workbook::Moved;
use crate::workbook::changes::EntryChange;

/// Figures that moved by less are left out.
const WORTH_A_LINE: f64 = 0.01;

/// The sheet.
pub fn pars(state: &State) -> Vec<Par> {
    let Some(changes) = &state.since else { return Vec::new() };
    let mut pars = Vec::new();
    let mut section = |title: &'static str, lines: Vec<Par>| {
        if !lines.is_empty() {
            pars.push(Par::new(Role::Heading, title));
            pars.extend(lines);
        }
    };
    section("entries", changes.entries.iter().map(entry).collect());
    section("panels added", changes.panels.iter().map(|panel| Par::plain(panel.clone()).indented(2)).collect());
    section("records", changes.records.iter().map(|line| Par::plain(clean(line)).indented(2)).collect());
    let moved = super::sheet::differences(state, &changes.differences, is_worth_a_line);
    section("verdicts, steps and figures, from 1 % on", moved);
    if pars.is_empty() {
        pars.push(Par::plain("Nothing has changed since the last commit."));
    }
    pars
}

fn entry((id, was, is): &EntryChange) -> Par {
    let typed = |text: &Option<String>| text.as_ref().map_or_else(|| "nothing".to_owned(), |text| clean(text));
    Par::plain(format!("{}: {} -> ", super::label(id), typed(was)))
        .and(Role::Strong, typed(is))
        .indented(2)
        .leading_to(Subject::Figure(Address::drawn(id.clone())))
}

/// Figures only, and none that a study has still to bring on one side.
fn is_worth_a_line(moved: &Moved) -> bool {
    let is_pending = [&moved.was, &moved.is].contains(&&Err(Why::Pending));
    let is_large = moved.relative().is_none_or(|share| share.abs() >= WORTH_A_LINE);
    stage::figure(&moved.address.id).is_some() && !is_pending && is_large
}
