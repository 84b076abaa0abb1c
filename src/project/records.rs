//! Reading the records of a project: readings, sign-offs, overrides, notes and the log.
//!
//! A record is a keyed table, `[reading."ID@PANEL".DAY-NUMBER]`; the log is `[log.DAY-NUMBER]`.

use std::collections::BTreeMap;
use std::ops::Range;

use jiff::civil::Date;

use super::document::{Document, Leaf, Literal};
use super::fault::Fault;
use crate::model::{
    self, Address, EntrySpec, LogEntry, Note, Override, PanelLetter, Reading, Records, Scope, SignOff, TypedError,
    Value,
};
use crate::stage;
use crate::units;

/// One record table as it stands in the file.
struct Table<'a> {
    sort: &'a str,
    subject: &'a str,
    key: &'a str,
    span: Range<usize>,
    fields: Vec<&'a Leaf>,
}

/// Reads all records; a record with a fault is reported and left out, the rest stays.
pub fn read(document: &Document, panels: &[PanelLetter]) -> (Records, Vec<(Range<usize>, Fault)>) {
    let mut reader = RecordReader { panels, records: Records::default(), found: Vec::new() };
    for leaf in document.leaves.iter().filter(|leaf| is_too_short(&leaf.path)) {
        let last = leaf.path.last().cloned().unwrap_or_default();
        reader.problem(leaf.key.clone(), Fault::RecordKey(last));
    }
    for table in tables(document) {
        reader.table(&table);
    }
    (reader.records, reader.found)
}

/// The day of a record's key: `2026-04-18-1`.
pub fn day_of_key(key: &str) -> Option<Date> {
    let (day, number) = key.rsplit_once('-')?;
    if number.is_empty() || !number.bytes().all(|byte| byte.is_ascii_alphanumeric()) {
        return None;
    }
    model::day(day)
}

/// Sort, subject and key of the record that a path leads to or into; the log has no subject.
pub(super) fn names(path: &[String]) -> Option<(&str, &str, &str)> {
    match path {
        [sort, key, ..] if sort == "log" => Some((sort, "", key)),
        [sort, subject, key, ..] if RECORDS.contains(&sort.as_str()) => Some((sort, subject, key)),
        _ => None,
    }
}

/// Whether a value stands among the records where only a table may stand: its record has no day, for instance.
fn is_too_short(path: &[String]) -> bool {
    let sort = path[0].as_str();
    let depth = if sort == "log" { 2 } else { 3 };
    (sort == "log" || RECORDS.contains(&sort)) && path.len() <= depth
}

fn tables(document: &Document) -> Vec<Table<'_>> {
    let mut found: BTreeMap<(&str, &str, &str), Table<'_>> = BTreeMap::new();
    for header in &document.headers {
        if let Some(names) = names(&header.path) {
            found.entry(names).or_insert_with(|| Table::empty(names, &header.key));
        }
    }
    for leaf in document.leaves.iter().filter(|leaf| !is_too_short(&leaf.path)) {
        if let Some(names) = names(&leaf.path) {
            found.entry(names).or_insert_with(|| Table::empty(names, &leaf.key)).fields.push(leaf);
        }
    }
    let mut tables: Vec<Table<'_>> = found.into_values().collect();
    tables.sort_by_key(|table| table.span.start);
    tables
}

impl<'a> Table<'a> {
    fn empty((sort, subject, key): (&'a str, &'a str, &'a str), span: &Range<usize>) -> Self {
        Self { sort, subject, key, span: span.clone(), fields: Vec::new() }
    }

    fn depth(&self) -> usize {
        if self.sort == "log" { 2 } else { 3 }
    }

    fn text(&self, field: &str) -> String {
        self.leaf(field).map_or_else(String::new, |leaf| text_of(&leaf.literal))
    }

    fn list(&self, field: &str) -> Vec<String> {
        self.leaf(field).map_or_else(Vec::new, |leaf| match &leaf.literal {
            Literal::List(items) => items.clone(),
            Literal::Text(text) => vec![text.clone()],
            _ => Vec::new(),
        })
    }

    fn saw(&self) -> BTreeMap<String, String> {
        let depth = self.depth();
        self.fields
            .iter()
            .filter(|leaf| leaf.path.len() >= depth + 2 && leaf.path[depth] == "saw")
            .map(|leaf| (leaf.path[depth + 1..].join("."), text_of(&leaf.literal)))
            .collect()
    }

    fn withdrawn(&self) -> Option<String> {
        self.leaf("withdrawn").map(|_| self.text("withdrawn"))
    }

    fn leaf(&self, field: &str) -> Option<&Leaf> {
        let depth = self.depth();
        self.fields.iter().find(|leaf| leaf.path.len() == depth + 1 && leaf.path[depth] == field).copied()
    }
}

fn text_of(literal: &Literal) -> String {
    match literal {
        Literal::Text(text) | Literal::Number(text) | Literal::Moment(text) => text.clone(),
        Literal::Flag(flag) => if *flag { "yes" } else { "no" }.to_owned(),
        Literal::List(items) => items.join(", "),
    }
}

/// The sorts of records that are about something.
const RECORDS: [&str; 4] = ["reading", "sign_off", "override", "note"];
const READING_FIELDS: &[&str] = &["value", "by", "instrument", "note", "withdrawn"];
const SIGN_OFF_FIELDS: &[&str] = &["by", "read_back_by", "evidence", "saw", "withdrawn"];
const OVERRIDE_FIELDS: &[&str] = &["reason", "by", "licensed", "saw", "skips"];
const NOTE_FIELDS: &[&str] = &["by", "text", "file", "sha256"];
const LOG_FIELDS: &[&str] = &["sort", "of", "time", "by", "text"];

struct RecordReader<'a> {
    panels: &'a [PanelLetter],
    records: Records,
    found: Vec<(Range<usize>, Fault)>,
}

impl RecordReader<'_> {
    fn problem(&mut self, span: Range<usize>, fault: Fault) {
        self.found.push((span, fault));
    }

    fn table(&mut self, table: &Table<'_>) {
        self.unknown_fields(table);
        let Some(date) = day_of_key(table.key) else {
            return self.problem(table.span.clone(), Fault::RecordKey(table.key.to_owned()));
        };
        if table.sort == "log" {
            return self.log(table, date);
        }
        let Some(of) = self.subject(table) else { return };
        match table.sort {
            "reading" => self.reading(table, of, date),
            "sign_off" => self.sign_off(table, of, date),
            "override" => self.overruling(table, of, date),
            _ => self.note(table, of, date),
        }
    }

    fn unknown_fields(&mut self, table: &Table<'_>) {
        let fields = match table.sort {
            "reading" => READING_FIELDS,
            "sign_off" => SIGN_OFF_FIELDS,
            "override" => OVERRIDE_FIELDS,
            "log" => LOG_FIELDS,
            _ => NOTE_FIELDS,
        };
        for leaf in &table.fields {
            let name = leaf.path[table.depth()].as_str();
            let too_deep = name != "saw" && leaf.path.len() > table.depth() + 1;
            if !fields.contains(&name) || too_deep {
                let name = &leaf.path[table.depth()..].join(".");
                let near = units::nearest(name, fields.iter().copied());
                let hint = near.map_or_else(String::new, |near| format!("; did you mean '{near}'?"));
                self.problem(leaf.key.clone(), Fault::UnknownKey { key: name.to_owned(), hint });
            }
        }
    }

    /// The address of a record, checked against what is declared and against the panels of the project.
    fn subject(&mut self, table: &Table<'_>) -> Option<Address> {
        let Some(of) = Address::parse(table.subject) else {
            self.problem(table.span.clone(), Fault::PanelName(table.subject.to_owned()));
            return None;
        };
        if let Some(panel) = of.panel
            && !self.panels.contains(&panel)
        {
            self.problem(table.span.clone(), Fault::NoSuchPanel(panel.to_string()));
            return None;
        }
        let (sort, known, per_panel) = match table.sort {
            "reading" => ("entry or figure", stage::is_measurable(&of.id), entry_scope(&of.id)),
            "sign_off" => ("step", stage::step(&of.id).is_some(), stage::step(&of.id).map(|step| step.per_panel)),
            "override" if stage::step(&of.id).is_some() => {
                ("step", true, stage::step(&of.id).map(|step| step.per_panel))
            }
            "override" => ("check", stage::check(&of.id).is_some(), None),
            _ => return Some(of),
        };
        if !known {
            let hint = nearest_subject(table.sort, &of.id);
            self.problem(table.span.clone(), Fault::NoSuchSubject { sort, id: of.id.clone(), hint });
            return None;
        }
        let complaint = match (per_panel, of.panel) {
            (Some(true), None) => "belongs to a panel; add its letter, such as @A",
            (Some(false), Some(_)) => "belongs to the whole project; leave out the panel letter",
            _ => return Some(of),
        };
        self.problem(table.span.clone(), Fault::PanelLetter(of.to_string(), complaint));
        None
    }

    fn reading(&mut self, table: &Table<'_>, of: Address, date: Date) {
        let Some(leaf) = table.leaf("value") else {
            return self.problem(table.span.clone(), Fault::NoField("value"));
        };
        let typed = table.text("value");
        let value = match value_of(&of.id, &typed) {
            Ok(value) => Some(value),
            Err(error) => {
                self.problem(leaf.value.clone(), Fault::Entry { id: of.to_string(), error });
                None
            }
        };
        self.records.readings.push(Reading {
            of,
            key: table.key.to_owned(),
            date,
            typed,
            value,
            by: table.text("by"),
            instrument: table.text("instrument"),
            note: table.text("note"),
            withdrawn: table.withdrawn(),
        });
    }

    fn sign_off(&mut self, table: &Table<'_>, of: Address, date: Date) {
        if table.leaf("by").is_none() {
            return self.problem(table.span.clone(), Fault::NoField("by"));
        }
        self.records.sign_offs.push(SignOff {
            of,
            key: table.key.to_owned(),
            date,
            by: table.text("by"),
            read_back_by: table.text("read_back_by"),
            evidence: table.text("evidence"),
            saw: table.saw(),
            withdrawn: table.withdrawn(),
        });
    }

    fn overruling(&mut self, table: &Table<'_>, of: Address, date: Date) {
        if table.text("reason").trim().is_empty() {
            return self.problem(table.span.clone(), Fault::NoField("reason"));
        }
        if stage::step(&of.id).is_some() && table.leaf("skips").is_none() {
            return self.problem(table.span.clone(), Fault::NoField("skips"));
        }
        let skips = self.skipped(table);
        self.records.overrides.push(Override {
            of,
            key: table.key.to_owned(),
            date,
            reason: table.text("reason"),
            by: table.list("by"),
            licensed: table.text("licensed"),
            saw: table.saw(),
            skips,
        });
    }

    /// The steps that an override lets come later.
    fn skipped(&mut self, table: &Table<'_>) -> Vec<Address> {
        let Some(leaf) = table.leaf("skips") else { return Vec::new() };
        let named = table.list("skips");
        named.iter().filter_map(|typed| self.step_named(leaf, typed)).collect()
    }

    fn note(&mut self, table: &Table<'_>, of: Address, date: Date) {
        let (by, text) = (table.text("by"), table.text("text"));
        let (file, sha256) = (table.text("file"), table.text("sha256"));
        self.records.notes.push(Note { of, key: table.key.to_owned(), date, by, text, file, sha256 });
    }

    fn log(&mut self, table: &Table<'_>, date: Date) {
        let (sort, by, text) = (table.text("sort"), table.text("by"), table.text("text"));
        let of = table.leaf("of").and_then(|leaf| self.step_named(leaf, &table.text("of")));
        let time = table.leaf("time").and_then(|leaf| self.time(leaf, &table.text("time")));
        self.records.log.push(LogEntry { key: table.key.to_owned(), date, sort, of, time, by, text });
    }

    /// The step that a field names.
    fn step_named(&mut self, leaf: &Leaf, typed: &str) -> Option<Address> {
        let known = Address::parse(typed).filter(|of| stage::step(&of.id).is_some());
        if known.is_none() {
            let hint = nearest_subject("sign_off", typed);
            self.problem(leaf.value.clone(), Fault::NoSuchSubject { sort: "step", id: typed.to_owned(), hint });
        }
        known
    }

    fn time(&mut self, leaf: &Leaf, typed: &str) -> Option<f64> {
        match units::parse(units::Kind::Time, typed) {
            Ok(time) => Some(time.si),
            Err(error) => {
                self.problem(leaf.value.clone(), Fault::Entry { id: "time".to_owned(), error: error.into() });
                None
            }
        }
    }
}

/// A typed reading as a value: of an entry as it is declared, of a figure by its kind, else as words.
pub fn value_of(id: &str, typed: &str) -> Result<Value, TypedError> {
    if let Some(spec) = stage::entry(id) {
        return spec.read(typed);
    }
    match stage::figure(id).and_then(|(figure, _)| figure.kind) {
        Some(kind) => Ok(Value::Quantity(units::parse(kind, typed)?)),
        None => Ok(Value::Text(typed.trim().to_owned())),
    }
}

fn entry_scope(id: &str) -> Option<bool> {
    stage::entry(id).map(|spec: &EntrySpec| spec.scope == Scope::Panel)
}

fn nearest_subject(sort: &str, id: &str) -> String {
    let near = match sort {
        "reading" => units::nearest(id, stage::entries().iter().map(|spec| spec.id)),
        "sign_off" => units::nearest(id, stage::steps().iter().map(|step| step.id)),
        _ => units::nearest(id, stage::checks().iter().map(|check| check.id)),
    };
    near.map_or_else(String::new, |near| format!("; did you mean '{near}'?"))
}
