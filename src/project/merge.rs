//! Two builders' files and what both began from, made one: no entry, reading, record or comment of either side is lost.
//!
//! Lives here: the decision line by line. Must not live here: the files, the git program, words for people. What both
//! sides changed in different ways is a conflict: one value stands, all of them are written into a table
//! `[conflict."KEY"]` that stays until somebody settles it.

mod renumber;
mod words;

use std::collections::BTreeSet;

use super::document::Document;
use super::edit::{key_text, order, quoted};
use super::fault::Problem;
use super::outline::{Item, Outline, Section};

/// What two sides made of one key.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Conflict {
    /// The key, from the root, joined by points.
    pub key: String,
    /// The value both began from, without quotes; none if there was none.
    pub base: Option<String>,
    /// The value of our side; none if it took the key out.
    pub ours: Option<String>,
    /// The value of their side; none if it took the key out.
    pub theirs: Option<String>,
}

/// One file made of two.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Merged {
    /// The text.
    pub text: String,
    /// What must be settled by hand; each is marked in the text.
    pub conflicts: Vec<Conflict>,
}

/// One of the three texts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// What both began from.
    Base,
    /// Ours.
    Ours,
    /// Theirs.
    Theirs,
}

/// Why two files were not made one. Nothing was written.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MergeError {
    /// One of the texts is not TOML.
    #[error("line {}: {}", .1.place, .1.fault)]
    Broken(Side, Box<Problem>),
    /// A text cannot be cut into lines, such as one with a table in a list.
    #[error("this file is written in a way that cannot be merged by itself")]
    Tangled(Side),
    /// The merged text would not be TOML, such as with one table written in two ways.
    #[error("the two files write one table in two ways; merge them by hand: {0}")]
    TwoWays(String),
}

/// Merges the changes that two sides made to one text.
///
/// # Errors
/// [`MergeError`] if one of the texts cannot be read, or if the result could not be.
pub fn merge(base: &str, ours: &str, theirs: &str) -> Result<Merged, MergeError> {
    let mark = if ours.starts_with(MARK) { MARK } else { "" };
    let line_break = if ours.contains("\r\n") { "\r\n" } else { "\n" };
    let cut = |side: Side, text: &str| cut(side, &with_line_breaks(text.trim_start_matches(MARK), line_break));
    let mut sides =
        Sides { base: cut(Side::Base, base)?, ours: cut(Side::Ours, ours)?, theirs: cut(Side::Theirs, theirs)? };
    renumber::records(&sides.base, &mut sides.ours, &mut sides.theirs);
    let mut merging = Merging { result: sides.ours.clone(), conflicts: Vec::new(), line_break };
    merging.close_last_line();
    merging.sections(&sides);
    merging.items(&sides);
    merging.forget_emptied(&sides);
    let tails = [&sides.base.tail, &sides.ours.tail, &sides.theirs.tail];
    merging.result.tail = words::merged(tails[0], tails[1], tails[2]) + &merging.result.tail[sides.ours.tail.len()..];
    merging.mark_conflicts();
    let text = format!("{mark}{}", merging.result.text());
    if let Err(problems) = Document::parse(&text) {
        return Err(MergeError::TwoWays(
            problems.first().map_or_else(String::new, |problem| problem.fault.to_string()),
        ));
    }
    Ok(Merged { text, conflicts: merging.conflicts })
}

/// The byte order mark.
const MARK: &str = "\u{feff}";

struct Sides {
    base: Outline,
    ours: Outline,
    theirs: Outline,
}

struct Merging {
    result: Outline,
    conflicts: Vec<Conflict>,
    line_break: &'static str,
}

fn cut(side: Side, text: &str) -> Result<Outline, MergeError> {
    let broken = |problems: Vec<Problem>| match problems.into_iter().next() {
        Some(problem) => MergeError::Broken(side, Box::new(problem)),
        None => MergeError::Tangled(side),
    };
    let document = Document::parse(text).map_err(broken)?;
    Outline::of(text, &document).ok_or(MergeError::Tangled(side))
}

fn with_line_breaks(text: &str, line_break: &str) -> String {
    text.replace("\r\n", "\n").replace('\n', line_break)
}

/// Whether two values as written mean the same.
fn same(a: &str, b: &str) -> bool {
    let read = |value: &str| format!("x = {value}").parse::<toml::Table>();
    a == b || matches!((read(a), read(b)), (Ok(a), Ok(b)) if a == b)
}

impl Merging {
    /// The last line of the file gets a line break, so that another can follow.
    fn close_last_line(&mut self) {
        for section in &mut self.result.sections {
            let trails = section.items.iter_mut().map(|item| &mut item.trail);
            let own = (!section.header.is_empty()).then_some(&mut section.trail);
            for trail in trails.chain(own).filter(|trail| !trail.ends_with('\n')) {
                trail.push_str(self.line_break);
            }
        }
    }

    /// Headers: theirs are added, comments of both are kept.
    fn sections(&mut self, sides: &Sides) {
        for theirs in sides.theirs.sections.iter().filter(|section| !section.path.is_empty()) {
            let base = sides.base.section(&theirs.path);
            match self.result.sections.iter_mut().find(|section| section.path == theirs.path) {
                Some(ours) => {
                    let was = base.map_or(("", ""), |base| (&base.lead, &base.trail));
                    ours.lead = words::merged(was.0, &ours.lead, &theirs.lead);
                    (ours.trail, ours.lead) = words::beside(was.1, (&ours.trail, &ours.lead), &theirs.trail);
                }
                None if base.is_none() => self.add_section(Section { items: Vec::new(), ..theirs.clone() }),
                None => {}
            }
        }
    }

    fn items(&mut self, sides: &Sides) {
        let paths = sides.ours.items().chain(sides.theirs.items()).map(|item| item.path.clone());
        let mut seen = BTreeSet::new();
        for path in paths {
            if seen.insert(path.clone()) {
                self.item(sides, &path);
            }
        }
    }

    fn item(&mut self, sides: &Sides, path: &[String]) {
        let base = sides.base.item(path);
        match (sides.ours.item(path), sides.theirs.item(path)) {
            (Some(ours), Some(theirs)) => self.both(base, ours, theirs),
            (Some(ours), None) => match base {
                None => {}
                Some(base) if is_untouched(base, ours) => self.take_out(path),
                Some(base) => self.conflict(path, Some(base), Some(ours), None),
            },
            (None, Some(theirs)) => match base {
                Some(base) if is_untouched(base, theirs) => {}
                _ => {
                    self.put_in(&sides.theirs, theirs);
                    if base.is_some() {
                        self.conflict(path, base, None, Some(theirs));
                    }
                }
            },
            (None, None) => {}
        }
    }

    fn both(&mut self, base: Option<&Item>, ours: &Item, theirs: &Item) {
        let is_base = |item: &Item| base.is_some_and(|base| same(&base.value, &item.value));
        let agree = same(&ours.value, &theirs.value);
        if !agree && !is_base(ours) && !is_base(theirs) {
            self.conflict(&ours.path, base, Some(ours), Some(theirs));
        }
        let was = base.map_or(("", ""), |base| (&base.lead, &base.trail));
        let lead = words::merged(was.0, &ours.lead, &theirs.lead);
        let (trail, lead) = words::beside(was.1, (&ours.trail, &lead), &theirs.trail);
        let theirs_counts = !agree && is_base(ours);
        let mut items = self.result.sections.iter_mut().flat_map(|section| &mut section.items);
        if let Some(item) = items.find(|item| item.path == ours.path) {
            if theirs_counts {
                item.value.clone_from(&theirs.value);
            }
            (item.lead, item.trail) = (lead, closed(trail, self.line_break));
        }
    }

    fn take_out(&mut self, path: &[String]) {
        for section in &mut self.result.sections {
            section.items.retain(|item| item.path != path);
        }
    }

    /// Puts their line into the table it belongs to, behind the line that it follows there.
    fn put_in(&mut self, theirs: &Outline, item: &Item) {
        let table = &item.path[..item.path.len() - 1];
        let mut item = Item { trail: closed(item.trail.clone(), self.line_break), ..item.clone() };
        let Some(home) =
            theirs.sections.iter().find(|section| section.items.iter().any(|other| other.path == item.path))
        else {
            return;
        };
        let place = if self.result.section(table).is_some() && home.path != table {
            item.key = format!("{} = ", key_text(item.path.last().map_or("", String::as_str)));
            table.to_owned()
        } else {
            if self.result.section(&home.path).is_none() {
                self.add_section(Section { items: Vec::new(), ..home.clone() });
            }
            home.path.clone()
        };
        let before: Vec<&[String]> =
            home.items.iter().take_while(|other| other.path != item.path).map(|other| other.path.as_slice()).collect();
        if let Some(section) = self.result.sections.iter_mut().find(|section| section.path == place) {
            let behind = section.items.iter().rposition(|other| before.contains(&other.path.as_slice()));
            section.items.insert(behind.map_or(0, |at| at + 1), item);
        }
    }

    /// Puts a section at its sorted place.
    fn add_section(&mut self, mut section: Section) {
        section.trail = closed(section.trail, self.line_break);
        if !section.lead.starts_with(self.line_break) {
            section.lead.insert_str(0, self.line_break);
        }
        let rank = |path: &[String]| order(path.iter().map(String::as_str)).0;
        let mine = order(section.path.iter().map(String::as_str));
        let follower = self
            .result
            .sections
            .iter()
            .position(|other| !other.path.is_empty() && order(other.path.iter().map(String::as_str)) > mine);
        let last = self.result.sections.iter().rposition(|other| rank(&other.path) <= mine.0);
        let at = follower.or(last.map(|at| at + 1)).unwrap_or(self.result.sections.len());
        self.result.sections.insert(at.max(1), section);
    }

    /// Headers that one side took out go when nothing stands under them any more; new comments above them stay.
    fn forget_emptied(&mut self, sides: &Sides) {
        let mut orphaned = String::new();
        let gone = |section: &Section| {
            let is_old = sides.base.section(&section.path).is_some();
            is_old && section.items.is_empty() && sides.theirs.section(&section.path).is_none()
        };
        self.result.sections.retain(|section| {
            let goes = !section.path.is_empty() && gone(section);
            if goes {
                orphaned += &words::new_lines(lead_in(&sides.base, &section.path), &section.lead);
            }
            !goes
        });
        for theirs in &sides.theirs.sections {
            if self.result.section(&theirs.path).is_none() {
                orphaned += &words::new_lines(lead_in(&sides.base, &theirs.path), &theirs.lead);
            }
        }
        self.result.tail.push_str(&orphaned);
    }

    fn conflict(&mut self, path: &[String], base: Option<&Item>, ours: Option<&Item>, theirs: Option<&Item>) {
        let bare = |item: Option<&Item>| item.map(|item| without_quotes(&item.value));
        let (base, ours, theirs) = (bare(base), bare(ours), bare(theirs));
        self.conflicts.push(Conflict { key: path.join("."), base, ours, theirs });
    }

    /// Writes each conflict into a table of its own.
    fn mark_conflicts(&mut self) {
        for conflict in self.conflicts.clone() {
            let numbers = std::iter::once(String::new()).chain((2..1000).map(|number| format!("#{number}")));
            let names = numbers.map(|number| format!("{}{number}", conflict.key));
            let path = |name: String| vec![SECTION.to_owned(), name];
            let Some(path) = names.map(path).find(|path| self.result.section(path).is_none()) else { continue };
            let header = format!("[{SECTION}.{}]", key_text(&path[1]));
            let fields = [("base", &conflict.base), ("ours", &conflict.ours), ("theirs", &conflict.theirs)];
            let items = fields.iter().filter_map(|(name, value)| {
                let value = quoted(value.as_ref()?);
                let path = [path.clone(), vec![(*name).to_owned()]].concat();
                let trail = self.line_break.to_owned();
                Some(Item { path, lead: String::new(), key: format!("{name} = "), value, trail })
            });
            let items = items.collect();
            let trail = self.line_break.to_owned();
            self.add_section(Section { path, lead: self.line_break.to_owned(), header, trail, items });
        }
    }
}

/// The first word of the tables that conflicts stand in.
pub const SECTION: &str = "conflict";

fn closed(mut trail: String, line_break: &str) -> String {
    if !trail.ends_with('\n') {
        trail.push_str(line_break);
    }
    trail
}

fn lead_in<'a>(outline: &'a Outline, path: &[String]) -> &'a str {
    outline.section(path).map_or("", |section| &section.lead)
}

/// Whether a side left a line as it was, its comments included.
fn is_untouched(base: &Item, item: &Item) -> bool {
    same(&base.value, &item.value)
        && words::new_lines(&base.lead, &item.lead).is_empty()
        && base.trail.trim() == item.trail.trim()
}

/// A value as a person would type it.
fn without_quotes(value: &str) -> String {
    let table = format!("x = {value}").parse::<toml::Table>().ok();
    let text = table.as_ref().and_then(|table| table.get("x")).and_then(toml::Value::as_str).map(str::to_owned);
    text.unwrap_or_else(|| value.to_owned())
}

#[cfg(test)]
mod tests;
