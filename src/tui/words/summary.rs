//! Templates of summaries and captions, filled with the numbers that the page shows.

use super::row_name;
use crate::model::{Address, Value, Why};
use crate::solve::words::{GAP, fill_with};
use crate::stage;
use crate::tui::state::State;

/// What stands for a number that is being computed.
const PENDING: &str = "...";

/// Fills a template as the page would show its numbers.
pub fn fill(state: &State, template: &str) -> String {
    fill_with(template, |id| Some(ends(state, id).unwrap_or_else(|| number(state, &state.shown(id)))))
}

/// The first and the last row of a figure that has rows.
fn ends(state: &State, id: &str) -> Option<String> {
    let (figure, _) = stage::figure(id).filter(|(_, key)| key.is_empty())?;
    let keys = state.workbook.evaluation().keys(figure.axis?);
    let row = |key: &String| {
        let id = format!("{id}.{key}");
        format!("{} at {}", row_name(&id), number(state, &state.shown(&id)))
    };
    match (keys.first(), keys.last()) {
        (Some(first), Some(last)) => Some(format!("{} to {}", row(first), row(last))),
        _ => Some(GAP.to_owned()),
    }
}

fn number(state: &State, address: &Address) -> String {
    match state.workbook.evaluation().value(address) {
        // A number stays with its unit when lines are broken.
        Ok(value @ Value::Quantity(_)) => super::value(state, address, &value).replace(' ', "\u{a0}"),
        Ok(value) => super::value(state, address, &value),
        Err(Why::Pending) => PENDING.to_owned(),
        Err(_) => GAP.to_owned(),
    }
}
