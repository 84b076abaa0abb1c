//! Writing: every change of a project file is one or more splices of its bytes.
//!
//! A splice replaces the bytes of one value, or puts new lines in. Comments, spacing, line ends and the byte order
//! mark survive because nothing else is touched. The inverse of a splice is the undo.

use std::ops::Range;

use super::document::{Document, Header, Leaf};
use super::fault::Fault;
use super::read::{Project, SECTIONS};
use crate::model::{Shape, Stage};
use crate::stage;
use crate::units;

/// A replacement of bytes at one place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Splice {
    /// Where, in bytes from the start.
    pub at: usize,
    /// What stands there now.
    pub old: String,
    /// What will stand there.
    pub new: String,
}

/// Why a change was not made. The file is as it was.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum EditError {
    /// The text is not what the splice was made for.
    #[error("the text changed underneath; nothing was written")]
    Moved,
    /// Nobody declared this id.
    #[error("nothing is called '{0}'")]
    Unknown(String),
    /// There is no such key to take away.
    #[error("'{0}' is not in the file")]
    NotThere(String),
    /// Read again, the text would have a fault that it has not now.
    #[error("{0}")]
    Refused(Fault),
    /// Read again, the text would differ in more than was asked for.
    #[error("'{0}' cannot be changed without touching more of the file; change it by hand in an editor")]
    WouldSpill(String),
}

/// One value to be written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Written {
    /// A string.
    Text(String),
    /// A list of strings.
    List(Vec<String>),
    /// Entries with their typed texts.
    Saw(Vec<(String, String)>),
}

impl Splice {
    /// The text after the splice.
    pub fn apply(&self, text: &str) -> Result<String, EditError> {
        let end = self.at + self.old.len();
        if text.get(self.at..end) != Some(self.old.as_str()) {
            return Err(EditError::Moved);
        }
        Ok([&text[..self.at], &self.new, &text[end..]].concat())
    }

    /// The splice that takes this one back.
    #[must_use]
    pub fn inverse(&self) -> Self {
        Self { at: self.at, old: self.new.clone(), new: self.old.clone() }
    }
}

/// The splice that gives an entry a new text; the text has been read as a value before.
pub fn set_entry(text: &str, project: &Project, id: &str, typed: &str) -> Result<Splice, EditError> {
    let spec = stage::entry(id).ok_or_else(|| EditError::Unknown(id.to_owned()))?;
    let bare = match spec.shape {
        Shape::Quantity { kind, .. } => units::is_bare(kind) && typed.trim().parse::<i64>().is_ok(),
        Shape::Date => true,
        _ => false,
    };
    let new = if bare { typed.trim().to_owned() } else { quoted(typed.trim()) };
    let path = spec.path(id);
    let splice = match project.document.leaf(&path) {
        Some(leaf) => Splice { at: leaf.value.start, old: text[leaf.value.clone()].to_owned(), new },
        None => insert_key(text, &project.document, &path, &new),
    };
    checked(splice, text, project, id, |after| differs_only_in(project, after, id))
}

/// The splice that takes an entry's line away, so that its assumed value or nothing holds again.
pub fn unset_entry(text: &str, project: &Project, id: &str) -> Result<Splice, EditError> {
    let path = stage::entry(id).map_or_else(|| id.split('.').collect(), |spec| spec.path(id));
    let leaf = project.document.leaf(&path).ok_or_else(|| EditError::NotThere(id.to_owned()))?;
    let start = line_start(text, leaf.key.start);
    let end = line_end(text, leaf.value.end);
    let end = end + line_break_at(text, end).len();
    let cut = |range: Range<usize>| {
        let splice = Splice { at: range.start, old: text[range].to_owned(), new: String::new() };
        checked(splice, text, project, id, |after| differs_only_in(project, after, id))
    };
    cut(start..end).or_else(|_| cut(between_commas(text, leaf)))
}

/// The splice that puts in a table with its lines at its sorted place, such as a record or a panel.
pub fn add_table(
    text: &str,
    project: &Project,
    path: &[&str],
    fields: &[(&str, Written)],
) -> Result<Splice, EditError> {
    let lines: Vec<String> = fields
        .iter()
        .filter(|(_, value)| !value.is_empty())
        .map(|(key, value)| format!("{} = {}", key_text(key), value.text()))
        .collect();
    let splice = insert_table(text, &project.document, path, &lines);
    checked(splice, text, project, &path.join("."), |after| {
        let added = after.document.headers.len() == project.document.headers.len() + 1;
        added && project.entries == after.entries
    })
}

/// The splice that adds one line to an existing table, such as the reason why a record is withdrawn.
pub fn add_field(text: &str, project: &Project, path: &[&str], value: &str) -> Result<Splice, EditError> {
    if project.document.leaf(path).is_some() {
        return Err(EditError::WouldSpill(path.join(".")));
    }
    let table = &path[..path.len() - 1];
    let is_there = |known: &[String]| known.len() >= table.len() && is_path(&known[..table.len()], table);
    let document = &project.document;
    if !document.headers.iter().any(|header| is_there(&header.path))
        && !document.leaves.iter().any(|leaf| is_there(&leaf.path))
    {
        return Err(EditError::NotThere(table.join(".")));
    }
    let splice = insert_key(text, document, path, &quoted(value));
    checked(splice, text, project, &path.join("."), |after| project.entries == after.entries)
}

/// The splice that takes a table with a header away, such as a settled conflict.
pub fn take_table(text: &str, project: &Project, path: &[&str]) -> Result<Splice, EditError> {
    let name = path.join(".");
    let document = &project.document;
    let header = document.headers.iter().find(|header| is_path(&header.path, path));
    let header = header.ok_or_else(|| EditError::NotThere(name.clone()))?;
    let start = line_start(text, header.key.start);
    let end = line_end(text, last_byte(document, header));
    let end = end + line_break_at(text, end).len();
    let end = end + line_break_at(text, end).len(); // the empty line behind it
    let splice = Splice { at: start, old: text[start..end].to_owned(), new: String::new() };
    checked(splice, text, project, &name, |after| {
        after.document.headers.len() + 1 == document.headers.len() && project.entries == after.entries
    })
}

/// The splice that gives any key of the file another value; an entry is written as its kind wants it.
pub fn set_leaf(text: &str, project: &Project, key: &str, typed: &str) -> Result<Splice, EditError> {
    if stage::entry(key).is_some() {
        return set_entry(text, project, key, typed);
    }
    let leaf = project.document.leaves.iter().find(|leaf| leaf.path.join(".") == key);
    let leaf = leaf.ok_or_else(|| EditError::NotThere(key.to_owned()))?;
    let splice = Splice { at: leaf.value.start, old: text[leaf.value.clone()].to_owned(), new: quoted(typed) };
    checked(splice, text, project, key, |after| project.entries == after.entries)
}

/// The splice, if the text reads without a new fault after it and is as wanted.
fn checked(
    splice: Splice,
    text: &str,
    project: &Project,
    name: &str,
    as_wanted: impl Fn(&Project) -> bool,
) -> Result<Splice, EditError> {
    let after = Project::read(&splice.apply(text)?);
    // Runs and parts are written one after another, so a loop on its way may not hang together yet; it is told, not refused.
    let is_own = |fault: &&Fault| !matches!(fault, Fault::Loop { .. });
    let faults = |project: &Project| -> Vec<Fault> {
        project.problems.iter().map(|problem| &problem.fault).filter(is_own).cloned().collect()
    };
    let (known, now) = (faults(project), faults(&after));
    let new = now.iter().find(|fault| !known.contains(fault));
    match new {
        Some(fault) if !fault.forbids_writing() => Err(EditError::Refused(fault.clone())),
        None if now.len() <= known.len() && as_wanted(&after) => Ok(splice),
        _ => Err(EditError::WouldSpill(name.to_owned())),
    }
}

impl Written {
    fn is_empty(&self) -> bool {
        match self {
            Self::Text(text) => text.is_empty(),
            Self::List(items) => items.is_empty(),
            Self::Saw(items) => items.is_empty(),
        }
    }

    fn text(&self) -> String {
        match self {
            Self::Text(text) => quoted(text),
            Self::List(items) => {
                format!("[{}]", items.iter().map(|item| quoted(item)).collect::<Vec<_>>().join(", "))
            }
            Self::Saw(items) => {
                let pairs: Vec<String> =
                    items.iter().map(|(id, typed)| format!("{} = {}", key_text(id), quoted(typed))).collect();
                format!("{{ {} }}", pairs.join(", "))
            }
        }
    }
}

/// Whether two readings of the file agree in everything but one entry.
fn differs_only_in(before: &Project, after: &Project, id: &str) -> bool {
    let others = |project: &Project| {
        let mut entries = project.entries.clone();
        entries.remove(id);
        entries
    };
    others(before) == others(after)
        && before.records == after.records
        && before.panels == after.panels
        && before.variants == after.variants
}

fn insert_key(text: &str, document: &Document, path: &[&str], value: &str) -> Splice {
    let (table, key) = path.split_at(path.len() - 1);
    let line = format!("{} = {value}", key_text(key[0]));
    if let Some(header) = document.headers.iter().find(|header| is_path(&header.path, table)) {
        let at = line_end(text, last_byte(document, header));
        return Splice { at, old: String::new(), new: format!("{}{line}", line_break(text)) };
    }
    let is_sibling = |leaf: &&Leaf| leaf.path.len() == path.len() && is_path(&leaf.path[..table.len()], table);
    match document.leaves.iter().rev().find(is_sibling) {
        Some(sibling) => insert_beside(text, sibling, &line),
        None => insert_table(text, document, table, &[line]),
    }
}

/// Puts a key beside one of the same table where that has no header: `absorber.riser_count = 11` on a line, or
/// `absorber = { riser_count = 11 }`.
fn insert_beside(text: &str, sibling: &Leaf, line: &str) -> Splice {
    let before = text[line_start(text, sibling.key.start)..sibling.key.start].trim_start_matches('\u{feff}');
    let (at, new) = if before.contains('{') {
        (sibling.value.end, format!(", {line}"))
    } else {
        (line_end(text, sibling.value.end), format!("{}{before}{line}", line_break(text)))
    };
    Splice { at, old: String::new(), new }
}

/// A key of an inline table with its value and one of the commas beside it.
fn between_commas(text: &str, leaf: &Leaf) -> Range<usize> {
    let blank = [' ', '\t'];
    let behind = text[leaf.value.end..].trim_start_matches(blank);
    if let Some(rest) = behind.strip_prefix(',') {
        return leaf.key.start..text.len() - rest.trim_start_matches(blank).len();
    }
    let before = text[..leaf.key.start].trim_end_matches(blank);
    let start = before.strip_suffix(',').map_or(leaf.key.start, |rest| rest.trim_end_matches(blank).len());
    start..leaf.value.end
}

/// The last byte that belongs to a table with a header: its header line or its last own value.
fn last_byte(document: &Document, header: &Header) -> usize {
    let next = document
        .headers
        .iter()
        .map(|other| other.key.start)
        .filter(|start| *start > header.key.start)
        .min()
        .unwrap_or(usize::MAX);
    document
        .leaves
        .iter()
        .filter(|leaf| leaf.key.start > header.key.start && leaf.key.start < next)
        .map(|leaf| leaf.value.end)
        .max()
        .unwrap_or(header.key.end)
}

fn insert_table(text: &str, document: &Document, path: &[&str], lines: &[String]) -> Splice {
    let newline = line_break(text);
    let header = format!("[{}]", path.iter().map(|key| key_text(key)).collect::<Vec<_>>().join("."));
    let body: String = std::iter::once(&header).chain(lines).flat_map(|line| [line.as_str(), newline]).collect();
    let mine = order(path.iter().copied());
    let follower = document.headers.iter().find(|other| order(other.path.iter().map(String::as_str)) > mine);
    if let Some(other) = follower {
        let at = comment_block_start(text, line_start(text, other.key.start));
        return Splice { at, old: String::new(), new: format!("{body}{newline}") };
    }
    let gap = if text.is_empty() || text.ends_with(&newline.repeat(2)) {
        String::new()
    } else if text.ends_with('\n') {
        newline.to_owned()
    } else {
        newline.repeat(2)
    };
    Splice { at: text.len(), old: String::new(), new: format!("{gap}{body}") }
}

/// Where a table sorts: sections in their fixed order, then by name, numbers by their size.
pub(super) fn order<'a>(path: impl Iterator<Item = &'a str>) -> (usize, Vec<(u64, &'a str)>) {
    let path: Vec<&str> = path.collect();
    let stages = Stage::ALL.map(Stage::word);
    let rank = match path.first().copied().unwrap_or_default() {
        first if stages.contains(&first) => 10 + stages.iter().position(|word| *word == first).unwrap_or(0),
        "project" => 1,
        "materials" => 19, // behind the stages, before the panels
        first => 20 + SECTIONS.iter().position(|word| *word == first).unwrap_or(SECTIONS.len()),
    };
    let number = |name: &str| name.parse().unwrap_or(u64::MAX);
    (rank, path.into_iter().map(|name| (number(name), name)).collect())
}

/// The start of the comment lines that stand directly above a line; they belong to it.
fn comment_block_start(text: &str, mut start: usize) -> usize {
    while start > 0 {
        let above = line_start(text, start - 1);
        if !text[above..start].trim_start().starts_with('#') {
            break;
        }
        start = above;
    }
    start
}

fn is_path(path: &[String], wanted: &[&str]) -> bool {
    path.iter().map(String::as_str).eq(wanted.iter().copied())
}

fn line_start(text: &str, at: usize) -> usize {
    text[..at].rfind('\n').map_or(0, |found| found + 1)
}

/// The end of the line that a byte is in, before its line break.
fn line_end(text: &str, at: usize) -> usize {
    let end = text[at..].find('\n').map_or(text.len(), |found| at + found);
    if text[..end].ends_with('\r') { end - 1 } else { end }
}

fn line_break_at(text: &str, at: usize) -> &str {
    let rest = &text[at..];
    if rest.starts_with("\r\n") {
        "\r\n"
    } else if rest.starts_with('\n') {
        "\n"
    } else {
        ""
    }
}

fn line_break(text: &str) -> &'static str {
    if text.contains("\r\n") { "\r\n" } else { "\n" }
}

/// A string in quotes: single ones where it holds an inch mark, so that it stays readable.
pub fn quoted(text: &str) -> String {
    let plain = !text.chars().any(char::is_control);
    if plain && text.contains(['"', '\\']) && !text.contains('\'') {
        return format!("'{text}'");
    }
    let mut out = String::with_capacity(text.len() + 2);
    out.push('"');
    for c in text.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            '\r' => out.push_str("\\r"),
            '\t' => out.push_str("\\t"),
            c if c.is_control() => out.extend(format!("\\u{:04X}", u32::from(c)).chars()),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

/// A key, in quotes where TOML wants them.
pub(super) fn key_text(key: &str) -> String {
    let bare = !key.is_empty() && key.bytes().all(|byte| byte.is_ascii_alphanumeric() || byte == b'_' || byte == b'-');
    if bare { key.to_owned() } else { quoted(key) }
}

#[cfg(test)]
mod tests;
