//! The wording of screens: rows, details, sheets and echoes as paragraphs with roles. No drawing, no keys.

pub mod bench;
pub mod detail;
pub mod echo;
pub mod explain;
pub mod mend;
pub mod records;
pub mod row;
pub mod sheet;
pub mod since;
pub mod summary;
pub mod sway;

use super::ink::Role;
use super::state::State;
use crate::model::{Address, Origin, PanelLetter, Stage, Value, Verdict, Why, text::clean};
use crate::solve::{progress::Standing, rows};
use crate::stage;
use crate::units::{Quantity, System};

/// The role of a verdict.
pub const fn of_verdict(verdict: Verdict) -> Role {
    match verdict {
        Verdict::Clear => Role::Clear,
        Verdict::Caution => Role::Caution,
        Verdict::Unknown => Role::Unknown,
        Verdict::Stop => Role::Stop,
    }
}

/// The sign of a verdict where there is room for one character.
pub const fn sign(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Clear => ".",
        Verdict::Caution => "~",
        Verdict::Unknown => "?",
        Verdict::Stop => "!",
    }
}

/// The role of an origin.
pub const fn of_origin(origin: Origin) -> Role {
    match origin {
        Origin::Default => Role::Assumed,
        Origin::Entry => Role::Entered,
        Origin::Reading => Role::Measured,
        Origin::Result => Role::Computed,
    }
}

/// The role of a step's state.
pub const fn of_standing(standing: &Standing) -> Role {
    match standing {
        Standing::Done(_) => Role::Done,
        Standing::Stale(..) => Role::Stale,
        Standing::Open => Role::Strong,
        Standing::Waiting(_) => Role::Waits,
        Standing::Held(_) => Role::Stop,
    }
}

/// The name that people read for an id, the row's key included.
pub fn label(id: &str) -> String {
    if let Some((figure, key)) = stage::figure(id) {
        return if key.is_empty() { figure.label.to_owned() } else { format!("{} {}", figure.label, row_name(id)) };
    }
    if let Some(spec) = stage::entry(id) {
        return match spec.id.split_once('*') {
            Some((before, after)) => {
                let key = id.strip_prefix(before).and_then(|rest| rest.strip_suffix(after)).unwrap_or_default();
                format!("{} {}", spec.label, clean(key))
            }
            None => spec.label.to_owned(),
        };
    }
    stage::check(id).map_or_else(|| clean(id), |check| check.label.to_owned())
}

/// The name that people read for anything with an address: a step by its words, the rest by its label.
pub fn name(state: &State, of: &Address) -> String {
    if stage::step(&of.id).is_some() {
        return detail::step_name(state, of);
    }
    format!("{}{}", label(&of.id), on_panel(of.panel))
}

/// The name of one row of a figure that runs over an axis.
pub fn row_name(id: &str) -> String {
    let Some((figure, key)) = stage::figure(id) else { return clean(id) };
    match figure.axis {
        Some(stage::Axis::Hole) => format!("hole {}", clean(key)),
        _ => rows::key(id),
    }
}

/// Why there is no value, with the labels that people know.
pub fn why(why: &Why) -> String {
    let names = |ids: &[String]| ids.iter().map(|id| label(id)).collect::<Vec<_>>().join(", ");
    match why {
        Why::Missing(ids) => format!("needs {}", names(ids)),
        Why::Invalid(ids) => format!("cannot use {}", names(ids)),
        Why::OutOfRange(reason) => clean(reason),
        Why::Pending => "being computed".to_owned(),
    }
}

/// Where the entries stand that are missing or cannot be used.
pub fn where_to_find(why: &Why) -> Option<String> {
    let (Why::Missing(ids) | Why::Invalid(ids)) = why else { return None };
    let places: Vec<String> =
        ids.iter().map(|id| format!("{} ({})", label(id), Stage::of_id(id).map_or("site", Stage::word))).collect();
    (!places.is_empty()).then(|| places.join(", "))
}

/// A value as printed in the units that are shown.
pub fn value(state: &State, address: &Address, value: &Value) -> String {
    state.workbook.evaluation().value_text(address, value, state.system())
}

/// A length as a mark on the tape where the page shows inches, else in millimetres.
pub fn tape_length(state: &State, length: Quantity) -> String {
    state.workbook.evaluation().mark(length, state.system())
}

/// A value in both families of units; once if they agree.
pub fn both_units(state: &State, address: &Address, value: &Value) -> String {
    let evaluation = state.workbook.evaluation();
    let own = evaluation.value_text(address, value, state.system());
    let other_system = if state.system() == System::Us { System::Si } else { System::Us };
    let plain = value.text(state.system());
    let other = value.text(other_system);
    let mut parts = vec![own];
    for text in [plain, other] {
        if !parts.contains(&text) {
            parts.push(clean(&text));
        }
    }
    parts.join(" = ")
}

/// What was signed or measured where: the panel, or nothing.
pub fn on_panel(panel: Option<PanelLetter>) -> String {
    panel.map_or_else(String::new, |panel| format!(" on panel {panel}"))
}

/// A count with its noun in the right number.
pub fn count(number: usize, noun: &str) -> String {
    let plural = if number == 1 { "" } else { "s" };
    format!("{number} {noun}{plural}")
}
