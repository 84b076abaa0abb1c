//! Everything that was measured, signed, overruled, noted and logged, also what was taken back.

use super::{Block, Section, Table, Tone};
use crate::book::Source;
use crate::model::{Override, Records, text::clean};

/// All records.
pub fn section(source: Source<'_>) -> Section {
    let records = &source.project.records;
    let counts = |record: &Override| {
        let overrules = source.evaluation.verdicts.iter().any(|judged| judged.overruled.as_ref() == Some(record));
        overrules || source.evaluation.steps.iter().any(|state| state.out_of_order.contains(record))
    };
    let blocks = [
        ("Readings", readings(records)),
        ("Signatures", signatures(records)),
        ("Stops overruled, steps out of order", overrulings(records, counts)),
        ("Notes", notes(records)),
        ("Log", log(records)),
    ];
    let blocks = blocks.into_iter().flat_map(|(heading, table)| {
        let none = || Block::Par(Tone::Quiet, "none".to_owned());
        let body = if table.rows.is_empty() { none() } else { Block::Table(table) };
        [Block::Heading(heading.to_owned()), body]
    });
    Section::of("records", "Records", blocks.collect())
}

fn table(head: &[&str], rows: Vec<Vec<String>>) -> Table {
    Table { head: head.iter().map(|&name| name.to_owned()).collect(), rows, notes: Vec::new() }
}

fn taken_back(withdrawn: Option<&String>) -> String {
    withdrawn.map_or_else(String::new, |why| format!("taken back: {}", clean(why)))
}

fn readings(records: &Records) -> Table {
    let row = |record: &crate::model::Reading| {
        vec![
            clean(&record.of.to_string()),
            clean(&record.typed),
            record.date.to_string(),
            clean(&record.by),
            clean(&record.instrument),
            [clean(&record.note), taken_back(record.withdrawn.as_ref())].join(" ").trim().to_owned(),
        ]
    };
    table(&["of", "value", "day", "by", "with", "note"], records.readings.iter().map(row).collect())
}

fn signatures(records: &Records) -> Table {
    let row = |record: &crate::model::SignOff| {
        vec![
            clean(&record.of.to_string()),
            record.date.to_string(),
            clean(&record.by),
            clean(&record.read_back_by),
            clean(&record.evidence),
            taken_back(record.withdrawn.as_ref()),
        ]
    };
    table(&["step", "day", "by", "read back by", "evidence", "later"], records.sign_offs.iter().map(row).collect())
}

fn overrulings(records: &Records, counts: impl Fn(&Override) -> bool) -> Table {
    let row = |record: &Override| {
        let names: Vec<String> = record.by.iter().map(|name| clean(name)).collect();
        let now = if counts(record) {
            "counts"
        } else {
            "does not count: no such stop or order, or not signed as it must be"
        };
        vec![
            clean(&record.of.to_string()),
            record.date.to_string(),
            names.join(" and "),
            clean(&record.licensed),
            clean(&record.reason),
            now.to_owned(),
        ]
    };
    table(&["check or step", "day", "by", "licensed", "reason", "now"], records.overrides.iter().map(row).collect())
}

fn notes(records: &Records) -> Table {
    let row = |record: &crate::model::Note| {
        vec![
            clean(&record.of.to_string()),
            record.date.to_string(),
            clean(&record.by),
            clean(&record.text),
            clean(&record.file),
            clean(&record.sha256),
        ]
    };
    table(&["about", "day", "by", "words", "file", "SHA-256"], records.notes.iter().map(row).collect())
}

fn log(records: &Records) -> Table {
    let row = |record: &crate::model::LogEntry| {
        vec![
            record.date.to_string(),
            clean(&record.sort),
            record.of.as_ref().map_or_else(String::new, |of| clean(&of.to_string())),
            record.time.map_or_else(String::new, |seconds| format!("{:.2} h", seconds / 3600.0)),
            clean(&record.by),
            clean(&record.text),
        ]
    };
    table(&["day", "what", "step", "time", "by", "words"], records.log.iter().map(row).collect())
}
