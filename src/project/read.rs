//! From text to project: entries, panels, variants and records, with every problem at once.
//!
//! Reading walks the declared entries. A bad value opens: that entry is invalid and what needs it is unknown.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use super::document::{Document, Leaf, Literal};
use super::fault::{Fault, Problem};
use super::merge::{self, Conflict};
use super::records;
use crate::model::{Entries, EntrySpec, Inputs, PanelLetter, Records, Role, Shape, Stage, Why, day, inputs::Given};
use crate::stage;
use crate::units;

/// The format that this program reads and writes.
pub const FORMAT: u64 = 1;

/// The first words of keys and tables that may stand in a project file, besides the stages.
pub const SECTIONS: [&str; 11] = [
    "format",
    "project",
    "materials",
    "panel",
    "variant",
    "reading",
    "sign_off",
    "override",
    "note",
    "log",
    merge::SECTION,
];

/// A project file, read.
#[derive(Clone, Debug, Default)]
pub struct Project {
    /// The leaves and headers with their places, for writing.
    pub document: Document,
    /// What the builder decided.
    pub entries: Entries,
    /// The panels being built, in order of their letters.
    pub panels: Vec<PanelLetter>,
    /// Named overlays of entries.
    pub variants: BTreeMap<String, Entries>,
    /// What has happened.
    pub records: Records,
    /// What two builders changed in different ways and nobody has settled yet, by the name of its table.
    pub conflicts: BTreeMap<String, Conflict>,
    /// Everything that is wrong, in the order of the file.
    pub problems: Vec<Problem>,
}

impl Project {
    /// Reads the bytes of a file.
    pub fn read_bytes(bytes: &[u8]) -> (String, Self) {
        match std::str::from_utf8(bytes) {
            Ok(text) => (text.to_owned(), Self::read(text)),
            Err(error) => {
                let text = String::from_utf8_lossy(bytes).into_owned();
                let at = error.valid_up_to();
                let problems = Problem::all(&text, vec![(at..at + 1, Fault::NotText(at))]);
                (text, Self { problems, ..Self::default() })
            }
        }
    }

    /// Reads a text.
    pub fn read(text: &str) -> Self {
        let document = match Document::parse(text) {
            Ok(document) => document,
            Err(problems) => return Self { problems, ..Self::default() },
        };
        let mut reader = Reader { text, project: Self::default(), found: Vec::new(), hints: HINTS };
        reader.format(&document);
        reader.panels(&document);
        for leaf in &document.leaves {
            reader.leaf(leaf);
        }
        reader.empty_tables(&document);
        reader.pipework(&document);
        reader.conflicts(&document);
        let (records, found) = records::read(&document, &reader.project.panels);
        let mut project = reader.project;
        project.records = records;
        project.problems = Problem::all(text, [reader.found, found].concat());
        project.document = document;
        project
    }

    /// Why the file may only be looked at; none if it may be written.
    pub fn read_only(&self) -> Option<&Problem> {
        self.problems.iter().find(|problem| problem.fault.forbids_writing())
    }
}

/// How many unknown keys are compared with the known ones; a file with more is not a project file.
const HINTS: usize = 100;

/// Collects the project while walking the leaves.
struct Reader<'a> {
    text: &'a str,
    project: Project,
    found: Vec<(Range<usize>, Fault)>,
    hints: usize,
}

impl Reader<'_> {
    fn problem(&mut self, span: Range<usize>, fault: Fault) {
        self.found.push((span, fault));
    }

    fn unknown(&mut self, span: Range<usize>, path: &[String]) {
        let hint = match path {
            [first] if is_table(first) => format!("; it is a table, written [{first}]"),
            _ if self.hints > 0 => nearest_key(&path.join(".")),
            _ => String::new(),
        };
        let shown = path.iter().map(|key| if key.contains('.') { format!("\"{key}\"") } else { key.clone() });
        let key = shown.collect::<Vec<_>>().join(".");
        self.hints = self.hints.saturating_sub(1);
        self.problem(span, Fault::UnknownKey { key, hint });
    }

    /// Tables without a single key that nothing would be looked for in: most likely a slip in the header.
    fn empty_tables(&mut self, document: &Document) {
        for header in &document.headers {
            let path = &header.path;
            let is_known = match path[0].as_str() {
                "panel" | "log" | "variant" | merge::SECTION => path.len() <= 2,
                "reading" | "sign_off" | "override" | "note" => path.len() <= 3,
                first => is_table(first),
            };
            let is_empty = || {
                let after = document.leaves.partition_point(|leaf| leaf.key.start < header.key.start);
                document.leaves.get(after).is_none_or(|leaf| !leaf.path.starts_with(path))
            };
            if !is_known && is_empty() {
                self.unknown(header.key.clone(), path);
            }
        }
    }

    fn format(&mut self, document: &Document) {
        let Some(leaf) = document.leaf(&["format"]) else {
            return self.problem(0..0, Fault::NoFormat);
        };
        let written = self.text[leaf.value.clone()].to_owned();
        match written.parse::<u64>() {
            Ok(FORMAT) => {}
            Ok(newer) if newer > FORMAT => self.problem(leaf.value.clone(), Fault::NewerFormat(newer)),
            _ => self.problem(leaf.value.clone(), Fault::UnknownFormat(written)),
        }
    }

    fn panels(&mut self, document: &Document) {
        let headers = document.headers.iter().map(|header| (&header.path, &header.key));
        let leaves = document.leaves.iter().map(|leaf| (&leaf.path, &leaf.key));
        let mut seen = BTreeSet::new();
        for (path, span) in headers.chain(leaves) {
            if path.len() < 2 || path[0] != "panel" || !seen.insert(path[1].clone()) {
                continue;
            }
            match PanelLetter::parse(&path[1]) {
                Some(letter) => self.project.panels.push(letter),
                None => self.problem(span.clone(), Fault::PanelName(path[1].clone())),
            }
        }
        self.project.panels.sort_unstable();
    }

    fn leaf(&mut self, leaf: &Leaf) {
        let first = leaf.path[0].as_str();
        match first {
            "format" if leaf.path.len() == 1 => {}
            "reading" | "sign_off" | "override" | "note" | "log" => {}
            "panel" if leaf.path.len() == 3 && leaf.path[2] == "started" => self.started(leaf),
            "variant" if leaf.path.len() == 3 => self.variant(leaf),
            merge::SECTION if leaf.path.len() == 3 => self.conflict(leaf),
            _ => {
                // A quoted "absorber.riser_pitch" would be one entry at two places; `*` only stands in declarations.
                let id = leaf.path.join(".");
                let stands = stage::entry(&id).is_some_and(|spec| !id.contains('*') && spec.path(&id) == leaf.path);
                if !stands {
                    self.unknown(leaf.key.clone(), &leaf.path);
                } else if let Some(given) = self.entry(&id, leaf) {
                    self.project.entries.insert(id, given);
                }
            }
        }
    }

    /// The runs and parts of the loop must hang together; each fault is shown at its own line.
    fn pipework(&mut self, document: &Document) {
        let none = Entries::new();
        let inputs = Inputs::resolve(stage::entries(), &self.project.entries, &none, &self.project.panels);
        for fault in stage::plumbing::network::faults(&inputs) {
            // An entry that is left out has no line; then the row that it belongs to is shown.
            let row = fault.id.rsplit_once('.').map_or("", |(row, _)| row);
            let leaf = document.leaf(&fault.id.splitn(4, '.').collect::<Vec<_>>());
            let leaf = leaf.or_else(|| document.leaves.iter().find(|leaf| leaf.path.join(".").starts_with(row)));
            let span = leaf.map_or(0..0, |leaf| leaf.value.clone());
            self.problem(span, Fault::Loop { id: fault.id, reason: fault.reason });
        }
    }

    fn started(&mut self, leaf: &Leaf) {
        let is_day = matches!(&leaf.literal, Literal::Text(text) | Literal::Moment(text) if day(text).is_some());
        if !is_day {
            let wanted = "a day, such as 2026-04-18".to_owned();
            self.problem(leaf.value.clone(), Fault::WrongSort { key: leaf.path.join("."), wanted });
        }
    }

    fn variant(&mut self, leaf: &Leaf) {
        if let Some(given) = self.entry(&leaf.path[2], leaf) {
            self.project.variants.entry(leaf.path[1].clone()).or_default().insert(leaf.path[2].clone(), given);
        }
    }

    fn conflict(&mut self, leaf: &Leaf) {
        let name = &leaf.path[1];
        let key = name.split('#').next().unwrap_or_default().to_owned();
        let conflict =
            self.project.conflicts.entry(name.clone()).or_insert_with(|| Conflict { key, ..Conflict::default() });
        let side = match leaf.path[2].as_str() {
            "base" => &mut conflict.base,
            "ours" => &mut conflict.ours,
            "theirs" => &mut conflict.theirs,
            _ => return self.unknown(leaf.key.clone(), &leaf.path),
        };
        *side = match &leaf.literal {
            Literal::Text(text) | Literal::Number(text) | Literal::Moment(text) => Some(text.clone()),
            _ => Some(self.text[leaf.value.clone()].to_owned()),
        };
    }

    /// Each conflict that nobody has settled is a fault of the file.
    fn conflicts(&mut self, document: &Document) {
        for header in document.headers.iter().filter(|header| header.path[0] == merge::SECTION) {
            let Some(conflict) = header.path.get(1).and_then(|name| self.project.conflicts.get(name)) else { continue };
            let fault = Fault::Conflict(Box::new(conflict.clone()));
            self.problem(header.key.clone(), fault);
        }
    }

    fn entry(&mut self, id: &str, leaf: &Leaf) -> Option<Given> {
        let Some(spec) = stage::entry(id).filter(|_| !id.contains('*')) else {
            self.unknown(leaf.key.clone(), &leaf.path);
            return None;
        };
        if spec.role == Role::Measure {
            self.problem(leaf.key.clone(), Fault::OnlyMeasured(id.to_owned()));
            return None;
        }
        let invalid = |typed: String| Given { typed, value: Err(Why::Invalid(vec![id.to_owned()])) };
        let Some(typed) = typed_text(spec, &leaf.literal) else {
            self.problem(leaf.value.clone(), Fault::WrongSort { key: id.to_owned(), wanted: wanted(spec) });
            return Some(invalid(self.text[leaf.value.clone()].to_owned()));
        };
        match spec.read(&typed) {
            Ok(value) => Some(Given { typed, value: Ok(value) }),
            Err(error) => {
                self.problem(leaf.value.clone(), Fault::Entry { id: id.to_owned(), error });
                Some(invalid(typed))
            }
        }
    }
}

/// The text that an entry reads from a literal; none if the literal is of the wrong sort.
pub fn typed_text(spec: &EntrySpec, literal: &Literal) -> Option<String> {
    match (spec.shape, literal) {
        (Shape::Quantity { kind, .. }, Literal::Number(number)) if units::is_bare(kind) => Some(number.clone()),
        (Shape::Flag, Literal::Flag(flag)) => Some(if *flag { "yes" } else { "no" }.to_owned()),
        (Shape::Date, Literal::Moment(day)) => Some(day.clone()),
        (_, Literal::Text(text)) => Some(text.clone()),
        _ => None,
    }
}

fn wanted(spec: &EntrySpec) -> String {
    match spec.shape {
        Shape::Quantity { kind, .. } => format!("a number with its unit, such as \"{}\"", units::example(kind)),
        Shape::Choice(_) => "one of its words".to_owned(),
        Shape::Text => "words".to_owned(),
        Shape::Flag => "yes or no".to_owned(),
        Shape::Date => "a day, such as 2026-04-18".to_owned(),
    }
}

/// Whether a first word names a table: a stage, or a section other than the format.
fn is_table(first: &str) -> bool {
    first != "format" && (SECTIONS.contains(&first) || Stage::ALL.iter().any(|stage| stage.word() == first))
}

/// The longest key that is compared with the known ones.
const LONGEST_KEY: usize = 100;

/// The nearest known key as a clause; empty if nothing is near.
fn nearest_key(id: &str) -> String {
    if id.len() > LONGEST_KEY {
        return String::new();
    }
    let known = stage::entries().iter().map(|spec| spec.id).chain(SECTIONS);
    units::nearest(id, known).map_or_else(String::new, |near| format!("; did you mean '{near}'?"))
}

#[cfg(test)]
mod tests;
