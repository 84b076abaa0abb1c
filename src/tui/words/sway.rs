//! What moves a figure, and a variant beside the design.

use std::collections::BTreeSet;

use crate::model::{Address, Value, Why, text::clean};
use crate::stage;
use crate::tui::ink::{Par, Role, fit};
use crate::tui::state::{State, Subject};
use crate::workbook::desk::Errand;
use crate::workbook::sway::Nudge;
use crate::workbook::{Moved, compare};

/// Columns of a value in a comparison.
const VALUE: usize = 15;
/// Columns of a label in a comparison.
const LABEL: usize = 34;

/// The part of a figure's sheet about what moves it; nothing until it is asked for.
pub fn pars(state: &State, address: &Address) -> Vec<Par> {
    if state.errand != Some(Errand::Sway(address.clone())) {
        return Vec::new();
    }
    let heading = |text: String| vec![Par::gap(), Par::new(Role::Heading, text)];
    let Some(sway) = state.sway.as_ref().filter(|sway| sway.of == *address) else {
        return heading("what moves it: beginning ...".to_owned());
    };
    let so_far = if sway.tried < sway.all {
        format!(", {} of {} entries tried ...", sway.tried, sway.all)
    } else {
        format!(", all {} entries tried", sway.all)
    };
    let mut pars = heading(format!("what moves it{so_far}"));
    pars.push(
        Par::new(Role::Quiet, "each 5 % less or more (a temperature 5 K), or the next word of its list").indented(2),
    );
    if sway.nudges.is_empty() && sway.tried == sway.all {
        pars.push(Par::plain("Nothing that was tried moves it.").indented(2));
    }
    pars.extend(sway.nudges.iter().map(|nudge| nudge_line(state, address, nudge)));
    if !sway.left_out.is_empty() {
        let names: Vec<String> = sway.left_out.iter().map(|id| super::label(id)).collect();
        let text = format!("not tried, since the weather hangs on them: {}", names.join(", "));
        pars.push(Par::new(Role::Quiet, text).indented(2));
    }
    pars
}

fn nudge_line(state: &State, of: &Address, nudge: &Nudge) -> Par {
    let entry = Address::drawn(nudge.entry.clone());
    let to = super::value(state, &entry, &nudge.to);
    let is = super::sheet::fig_text(state, of, &nudge.value);
    let change =
        if nudge.change.is_finite() { format!("{:>+7.1} %", nudge.change * 100.0) } else { "  other".to_owned() };
    Par::new(Role::Strong, change)
        .and(Role::Plain, format!("  {} ", super::label(&nudge.entry)))
        .and(Role::Quiet, format!("to {to}: {is}"))
        .indented(2)
        .leading_to(Subject::Figure(entry))
}

/// A variant beside the design: its own entries, the verdicts that differ, every figure that differs.
pub fn variant(state: &State, name: &str) -> Vec<Par> {
    let Some(entries) = state.workbook.variant(name) else {
        return vec![Par::plain("There is no such variant any more.")];
    };
    let theme = state.theme();
    let columns = |label: &str, drawn: &str, other: &str| {
        format!("{}  {}  {}", fit(label, LABEL, theme), fit(drawn, VALUE, theme), fit(other, VALUE, theme))
    };
    let mut pars = vec![Par::new(Role::Heading, columns("what it changes", "as drawn", &clean(name)))];
    for (id, given) in entries {
        let address = Address::drawn(id.clone());
        let drawn = state.workbook.evaluation().text(&address, state.system());
        let line = columns(&super::label(id), &drawn, &clean(&given.typed));
        pars.push(Par::plain(line).leading_to(Subject::Figure(address)));
    }
    pars.push(Par::gap());
    let Some((_, _, after)) =
        state.variant.as_ref().filter(|(known, of, _)| known == name && *of == state.workbook.revision())
    else {
        pars.push(Par::new(Role::Unknown, "being computed ..."));
        return pars;
    };
    let differences = compare::differences(state.workbook.evaluation(), after);
    for flip in &differences.flips {
        pars.push(
            Par::plain(format!("{}: ", flip.label))
                .and(super::of_verdict(flip.was), flip.was.word())
                .and(Role::Plain, " | ")
                .and(super::of_verdict(flip.is), flip.is.word())
                .leading_to(Subject::Check(flip.check)),
        );
    }
    pars.push(Par::new(Role::Heading, columns("what differs", "as drawn", &clean(name))));
    let mut seen = BTreeSet::new();
    let is_pending = |moved: &&Moved| [&moved.was, &moved.is].contains(&&Err(Why::Pending));
    let moved = differences.moved.iter().filter(|moved| !entries.contains_key(&moved.address.id));
    for moved in moved.filter(|moved| !is_pending(moved)) {
        let stem = stage::figure(&moved.address.id).map_or(moved.address.id.as_str(), |(figure, _)| figure.id);
        if moved.address.panel.is_none() && seen.insert(stem.to_owned()) {
            pars.push(moved_line(state, moved, &columns));
        }
    }
    pars
}

fn moved_line(state: &State, moved: &Moved, columns: &dyn Fn(&str, &str, &str) -> String) -> Par {
    let text = |value| super::sheet::fig_text(state, &moved.address, value);
    let is_long = |value: &Result<Value, _>| matches!(value, Ok(Value::Text(_)));
    let percent = match moved.relative() {
        Some(relative) if !is_long(&moved.is) => format!("  {:+.1} %", relative * 100.0),
        _ => String::new(),
    };
    let line = columns(&super::label(&moved.address.id), &text(&moved.was), &text(&moved.is));
    Par::plain(line).and(Role::Quiet, percent).leading_to(Subject::Figure(moved.address.clone()))
}
