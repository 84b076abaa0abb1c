//! A row of figures or entries in words.

use super::words::trade_units;
use super::{Evaluation, Row};
use crate::model::{Address, Origin, Role, Value, text::clean};
use crate::stage::{self, Axis};
use crate::units::{System, table};

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// The short name for people, with the key of a repeated row and the panel.
pub fn label(row: &Row) -> String {
    label_of(&row.address, row.label)
}

/// The same for an address and the label of its declaration.
pub fn label_of(address: &Address, declared: &str) -> String {
    let key = key(&address.id);
    let label = if key.is_empty() { declared.to_owned() } else { format!("{declared} {key}") };
    match address.panel {
        Some(panel) => format!("{label}, panel {panel}"),
        None => label,
    }
}

/// The name of the row that an id stands for; empty for what has no rows.
pub fn key(id: &str) -> String {
    if let Some((figure, key)) = stage::figure(id) {
        let month = key.parse::<usize>().ok().and_then(|month| MONTHS.get(month.checked_sub(1)?));
        return match (figure.axis, month) {
            (Some(Axis::Month), Some(month)) => (*month).to_owned(),
            _ => clean(key),
        };
    }
    let declared = stage::entry(id).and_then(|spec| spec.id.split_once('*'));
    declared.and_then(|(before, after)| id.strip_prefix(before)?.strip_suffix(after)).map_or_else(String::new, clean)
}

/// The value in words: as typed and as printed, with where it came from, or why there is none.
pub fn value(evaluation: &Evaluation, row: &Row, system: System) -> String {
    let printed = match &row.value {
        Ok(value) => evaluation.value_text(&row.address, value, system),
        Err(_) => return missing(row),
    };
    if row.origin == Origin::Result {
        return printed;
    }
    let shown = match typed(evaluation, &row.address) {
        Some(typed) if row.origin != Origin::Reading && is_in_printed_unit(row, &typed, system) => typed,
        Some(typed) if row.origin != Origin::Reading && typed != printed => format!("{typed} = {printed}"),
        _ => printed,
    };
    format!("{shown}, {}", row.origin.word())
}

/// Whether what was typed is in the unit that would be printed, so that printing it again says nothing new.
fn is_in_printed_unit(row: &Row, typed: &str, system: System) -> bool {
    let Some(quantity) = row.value.as_ref().ok().and_then(Value::quantity) else { return false };
    let of_kind = || quantity.value_and_unit(system).1;
    let symbol = trade_units(&row.address.id).map_or_else(of_kind, |units| units.symbol(system));
    let unit = table::of(quantity.kind).by_symbol(symbol);
    unit.is_some_and(|unit| {
        unit.spellings().any(|spelling| {
            let before = typed.strip_suffix(spelling).and_then(|number| number.chars().next_back());
            before.is_some_and(|c| !c.is_alphabetic())
        })
    })
}

/// The text of an entry as it was typed, made fit to be shown.
pub fn typed(evaluation: &Evaluation, address: &Address) -> Option<String> {
    evaluation.solution(address.panel).inputs.typed(&address.id).map(clean)
}

fn missing(row: &Row) -> String {
    let spec = stage::figure(&row.address.id).map_or_else(|| stage::entry(&row.address.id), |_| None);
    match (&row.value, spec) {
        (Err(crate::model::Why::Missing(_)), Some(spec)) if spec.role == Role::Measure => "not measured yet".to_owned(),
        (Err(crate::model::Why::Missing(_)), Some(_)) => "not entered yet".to_owned(),
        (Err(why), _) => format!("not known: {}", clean(&why.to_string())),
        (Ok(_), _) => String::new(),
    }
}

/// A row of the design and behind it those of the panels as built that differ, or of every panel with readings.
pub fn with_panels(evaluation: &Evaluation, drawn: &Row, every_panel: bool) -> Vec<Row> {
    let mut rows = vec![drawn.clone()];
    for panel in evaluation.built.keys() {
        let built = evaluation.row(&Address::on(drawn.address.id.clone(), *panel));
        rows.extend(built.filter(|built| every_panel || differs(drawn, built)));
    }
    rows
}

fn differs(drawn: &Row, built: &Row) -> bool {
    match (&drawn.value, &built.value) {
        (Ok(drawn_value), Ok(value)) => drawn.origin != built.origin || !drawn_value.same_as(value),
        (Err(_), Err(_)) => false,
        _ => true,
    }
}
