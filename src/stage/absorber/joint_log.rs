//! The joint log: one row for each riser end, so that a leak years later leads to a hand, a day and an alloy.
//!
//! The row's key is what is painted or stamped beside the joint, such as `A-lower-4`.

use std::fmt::Write;

use jiff::civil::Date;

use super::suits::fillers;
use crate::model::{Entry, EntrySpec, Fig, Inputs, Judgement, Value, Verdict, Why};
use crate::stage::{Axis, Check, Figure, Group, Severity, Solution};
use crate::units::{Kind, Quantity};

/// The table of the rows.
const TABLE: &str = "absorber.joint_log";

/// The panel.
pub static PANEL: Entry<String> =
    Entry::text("absorber.joint_log.*.panel", "panel").why("the letter of the panel that the joint is in");

/// The day.
pub static DATE: Entry<Date> = Entry::date("absorber.joint_log.*.date", "day").why("when it was closed");

/// Who.
pub static BY: Entry<String> = Entry::text("absorber.joint_log.*.by", "who").why("whose hand held the torch");

/// The filler.
pub static ALLOY: Entry<String> =
    Entry::listed("absorber.joint_log.*.alloy", "filler", fillers).why("as the rod or the reel says");

/// The flux.
pub static FLUX: Entry<String> =
    Entry::text("absorber.joint_log.*.flux", "flux").why("its name, or none; copper to copper with Cu-P needs none");

/// Looked at.
pub static LOOKED: Entry<bool> =
    Entry::flag("absorber.joint_log.*.looked", "looked at").why("filler seen all round, with a mirror");

/// Tested.
pub static TESTED: Entry<bool> =
    Entry::flag("absorber.joint_log.*.tested", "tested").why("dry under pressure, tissue on it");

/// Reworked.
pub static REWORKED: Entry<usize> =
    Entry::count("absorber.joint_log.*.reworked", "reworked").why("how often it was closed again").default("0");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] =
    &[&PANEL.spec, &DATE.spec, &BY.spec, &ALLOY.spec, &FLUX.spec, &LOOKED.spec, &TESTED.spec, &REWORKED.spec];

static LOG: Group = Group {
    name: "joint log",
    entries: &[
        "absorber.joint_log.*.panel",
        "absorber.joint_log.*.date",
        "absorber.joint_log.*.by",
        "absorber.joint_log.*.alloy",
        "absorber.joint_log.*.flux",
        "absorber.joint_log.*.looked",
        "absorber.joint_log.*.tested",
        "absorber.joint_log.*.reworked",
    ],
    groups: &[],
};

/// Marks of the log that are counted.
static MARKS: Group = Group {
    name: "marks of the joint log",
    entries: &["absorber.joint_log.*.looked", "absorber.joint_log.*.tested", "absorber.joint_log.*.reworked"],
    groups: &[],
};

/// How many rows there are.
pub fn rows(s: &Solution) -> usize {
    s.inputs.rows(TABLE).len()
}

/// How many rows satisfy a condition; a project without a log has no count.
fn count(inputs: &Inputs, holds: impl Fn(&str) -> bool) -> Fig<usize> {
    let rows = inputs.rows(TABLE);
    if rows.is_empty() {
        return Err(Why::missing(DATE.spec.id));
    }
    Ok(rows.iter().filter(|row| holds(row)).count())
}

fn is_yes(inputs: &Inputs, entry: &Entry<bool>, row: &str) -> bool {
    inputs.at(entry, row).unwrap_or(false)
}

/// Rows with a day: the others are only begun.
fn logged(inputs: &Inputs) -> Fig<usize> {
    count(inputs, |row| inputs.at(&DATE, row).is_ok())
}

fn looked(inputs: &Inputs) -> Fig<usize> {
    count(inputs, |row| is_yes(inputs, &LOOKED, row))
}

fn tested(inputs: &Inputs) -> Fig<usize> {
    count(inputs, |row| is_yes(inputs, &TESTED, row))
}

fn reworked(inputs: &Inputs) -> Fig<usize> {
    count(inputs, |row| inputs.at(&REWORKED, row).is_ok_and(|times| times > 0))
}

/// One row in words: what a leak leads to.
fn line(inputs: &Inputs, row: &str) -> String {
    let word = |entry: &Entry<String>| inputs.at(entry, row).unwrap_or_else(|_| "?".to_owned());
    let day = inputs.at(&DATE, row).map_or_else(|_| "?".to_owned(), |day| day.to_string());
    let mut text = format!("{row}: panel {}, {day}, {}, {}", word(&PANEL), word(&BY), word(&ALLOY));
    if let Ok(flux) = inputs.at(&FLUX, row) {
        let _ = write!(text, ", flux {flux}");
    }
    for (entry, done, open) in [(&LOOKED, "looked at", "not looked at"), (&TESTED, "tested", "not tested")] {
        let _ = write!(text, ", {}", if is_yes(inputs, entry, row) { done } else { open });
    }
    match inputs.at(&REWORKED, row) {
        Ok(0) | Err(_) => {}
        Ok(times) => {
            let _ = write!(text, ", reworked {times}×");
        }
    }
    text
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.joints_logged", "joints in the log", Kind::Count, &LOG_KEYS, |s, _| {
        Ok(Quantity::count(logged(&s.inputs)?).into())
    })
    .by("joint-log", "rows of the log with a day, each a riser end", &[]),
    Figure::new("absorber.joints_looked", "joints looked at", Kind::Count, &MARKS, |s, _| {
        Ok(Quantity::count(looked(&s.inputs)?).into())
    })
    .by("joint-log", "rows with looked = yes", &[]),
    Figure::new("absorber.joints_tested", "joints tested", Kind::Count, &MARKS, |s, _| {
        Ok(Quantity::count(tested(&s.inputs)?).into())
    })
    .by("joint-log", "rows with tested = yes", &[]),
    Figure::new("absorber.joints_reworked", "joints reworked", Kind::Count, &MARKS, |s, _| {
        Ok(Quantity::count(reworked(&s.inputs)?).into())
    })
    .by("joint-log", "rows with reworked above 0", &[]),
    Figure::word("absorber.joint_line", "joint", &LOG, |s, key| {
        let index: usize = key.parse().map_err(|_| Why::missing(DATE.spec.id))?;
        let rows = s.inputs.rows(TABLE);
        let row = index.checked_sub(1).and_then(|index| rows.get(index));
        row.map(|row| Value::Text(line(&s.inputs, row)))
            .ok_or_else(|| Why::out_of_range(format_args!("the log has no row {key}")))
    })
    .axis(Axis::Joint)
    .by("joint-log", "one row of the log", &[]),
];

/// The rows themselves.
static LOG_KEYS: Group = Group { name: "rows of the joint log", entries: &["absorber.joint_log.*.date"], groups: &[] };

/// Every joint of all panels in the log, looked at and tested.
fn log(s: &Solution) -> Fig<Judgement> {
    let harp = s.absorber.harp.as_ref().map_err(Clone::clone)?;
    let wanted = harp.riser_count * 2 * s.inputs.panels().len().max(1);
    let logged = logged(&s.inputs)?;
    let closed = looked(&s.inputs)?.min(tested(&s.inputs)?);
    let (found, part) = match () {
        () if closed < logged => (closed, "looked at and tested"),
        () => (logged, "logged"),
    };
    let judgement = Judgement::of(if found >= wanted { Verdict::Clear } else { Verdict::Caution });
    Ok(judgement.with(Quantity::count(found), Quantity::count(wanted)).part(part))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[Check::new("absorber.joint-log", "joint log", Severity::Nuisance, log)
    .says(
        "{found} of {limit} riser ends of all panels are {part}.",
        "A row for each: number, panel, day, who, filler, flux, looked at, tested, reworked.",
    )
    .blind_to("rows written from memory, numbers that nobody stamped beside the joint")
    .source("common practice, no source")
    .needs(&["absorber.joints_logged", "absorber.joints_looked", "absorber.joints_tested", "absorber.joint_count"])];
