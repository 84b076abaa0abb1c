//! Everything that was measured, signed, overruled, noted and logged, also what was taken back.

use super::{Block, Section, Table, Tone};
use crate::book::Source;
use crate::model::{Override, Records, text::clean};

/// All records.
pub fn section(source: Source<'_>) -> Section {
    let records = &source.project.records;
    let counts = |record: &Override| {
        let evaluation = source.evaluation;
        let of_check = evaluation.verdicts.iter().filter_map(|judged| judged.overruled.as_ref());
        let of_step = evaluation.steps.iter().flat_map(|state| &state.out_of_order);
        of_check.chain(of_step).any(|it| it == record)
    };
    let blocks = [
        ("Readings", readings(records)),
        ("Signatures", signatures(records)),
        ("Stops overruled, steps let come before others", overrulings(records, counts)),
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
        let now = match (counts(record), record.skips.is_empty()) {
            (true, _) => "counts",
            (false, true) => "does not count: no such stop, or not as the check asks for",
            (false, false) => "does not count: not two people, or not the licensed one",
        };
        vec![
            clean(&record.of.to_string()),
            record.date.to_string(),
            names.join(" and "),
            clean(&record.licensed),
            clean(&record.reason),
            record.skips.iter().map(ToString::to_string).collect::<Vec<_>>().join(", "),
            now.to_owned(),
        ]
    };
    let head = ["check or step", "day", "by", "licensed", "reason", "before", "now"];
    table(&head, records.overrides.iter().map(row).collect())
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
