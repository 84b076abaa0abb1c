//! A project file cut into sections and lines, comments included, so that it can be put together again byte by byte.
//!
//! Lives here: where a line begins and ends and which comment belongs to it. Must not live here: what a key means.

use toml::de::{DeTable, DeValue};

use super::document::{Document, Leaf};

/// One key with its value: a whole line, or several where the value runs on.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// The keys from the root, unquoted.
    pub path: Vec<String>,
    /// Empty lines and comments above it.
    pub lead: String,
    /// The line up to the value.
    pub key: String,
    /// The value as written.
    pub value: String,
    /// What follows the value: a comment, and the line break.
    pub trail: String,
}

/// A table with a header line and its own lines; the first section of a file has no header.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Section {
    /// The keys from the root, unquoted; empty for the first section.
    pub path: Vec<String>,
    /// Empty lines and comments above the header.
    pub lead: String,
    /// The header as written, up to its closing bracket.
    pub header: String,
    /// What follows the header: a comment, and the line break.
    pub trail: String,
    /// Its lines.
    pub items: Vec<Item>,
}

/// A file, cut up.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Outline {
    /// The sections in the order of the file.
    pub sections: Vec<Section>,
    /// What stands below the last line.
    pub tail: String,
}

/// Where something begins that the text is cut at.
enum Cut {
    Header(Vec<String>),
    Item(usize),
}

impl Outline {
    /// Cuts a text up; none if it could not be put together again as it was.
    pub fn of(text: &str, document: &Document) -> Option<Self> {
        let mut outline = Self { sections: vec![Section::default()], tail: String::new() };
        let mut done = 0;
        for (start, cut) in cuts(text, document) {
            if start < done {
                return None;
            }
            let lead = text[done..start].to_owned();
            done = match cut {
                Cut::Header(path) => outline.add_header(text, start, path, lead)?,
                Cut::Item(last) => outline.add_item(text, start, last, lead)?,
            };
        }
        text[done..].clone_into(&mut outline.tail);
        (outline.text() == text).then_some(outline)
    }

    /// The text of the whole.
    pub fn text(&self) -> String {
        let mut text = String::new();
        for section in &self.sections {
            for part in [&section.lead, &section.header, &section.trail] {
                text.push_str(part);
            }
            for item in &section.items {
                for part in [&item.lead, &item.key, &item.value, &item.trail] {
                    text.push_str(part);
                }
            }
        }
        text + &self.tail
    }

    /// All lines with a key.
    pub fn items(&self) -> impl Iterator<Item = &Item> {
        self.sections.iter().flat_map(|section| &section.items)
    }

    /// The line of a key.
    pub fn item(&self, path: &[String]) -> Option<&Item> {
        self.items().find(|item| item.path == path)
    }

    /// The section with a header of this path.
    pub fn section(&self, path: &[String]) -> Option<&Section> {
        self.sections.iter().find(|section| section.path == path)
    }

    fn add_header(&mut self, text: &str, start: usize, path: Vec<String>, lead: String) -> Option<usize> {
        let line = &text[start..line_after(text, start)];
        let length = closing_bracket(line)? + 1;
        let (header, trail) = line.split_at(length);
        let (header, trail) = (header.to_owned(), trail.to_owned());
        self.sections.push(Section { path, lead, header, trail, items: Vec::new() });
        Some(start + line.len())
    }

    fn add_item(&mut self, text: &str, start: usize, last: usize, lead: String) -> Option<usize> {
        let end = line_after(text, last);
        let equals = first_outside_quotes(&text[start..end], '=')? + 1;
        let blank = text[start + equals..].len() - text[start + equals..].trim_start_matches([' ', '\t']).len();
        let value_start = start + equals + blank;
        let closing = text[last..end].split('#').next().unwrap_or_default().trim_end();
        let value_end = last + closing.len();
        let section = self.sections.last_mut()?;
        let own = key_path(&text[start..start + equals - 1])?;
        section.items.push(Item {
            path: section.path.iter().cloned().chain(own).collect(),
            lead,
            key: text[start..value_start].to_owned(),
            value: text.get(value_start..value_end)?.to_owned(),
            trail: text[value_end..end].to_owned(),
        });
        Some(end)
    }
}

/// The starts of all header lines and of all lines with keys, in order. Leaves of one inline table are one line.
fn cuts(text: &str, document: &Document) -> Vec<(usize, Cut)> {
    let mut cuts: Vec<(usize, Cut)> = document
        .headers
        .iter()
        .map(|header| (line_start(text, header.key.start), Cut::Header(header.path.clone())))
        .collect();
    let mut lines: Vec<(usize, usize)> = Vec::new();
    for Leaf { key, value, .. } in &document.leaves {
        let start = line_start(text, key.start);
        match lines.last_mut() {
            Some((_, end)) if start < *end => *end = (*end).max(value.end),
            _ => lines.push((start, value.end)),
        }
    }
    cuts.extend(lines.into_iter().map(|(start, end)| (start, Cut::Item(end))));
    cuts.sort_by_key(|(start, _)| *start);
    cuts
}

/// The keys of `a."b c".d`.
fn key_path(text: &str) -> Option<Vec<String>> {
    let line = format!("{} = 0", text.trim_start_matches('\u{feff}').trim());
    let tree = DeTable::parse(&line).ok()?;
    let mut path = Vec::new();
    let mut table = tree.get_ref();
    while let Some((key, value)) = table.iter().next() {
        path.push(key.get_ref().to_string());
        match value.get_ref() {
            DeValue::Table(inner) => table = inner,
            _ => return Some(path),
        }
    }
    None
}

fn closing_bracket(line: &str) -> Option<usize> {
    first_outside_quotes(line, ']')
}

/// Where a character stands that is not inside quotes.
fn first_outside_quotes(text: &str, wanted: char) -> Option<usize> {
    let mut quote = None;
    let mut escaped = false;
    for (at, c) in text.char_indices() {
        match quote {
            _ if escaped => escaped = false,
            Some('"') if c == '\\' => escaped = true,
            Some(open) if c == open => quote = None,
            None if c == wanted => return Some(at),
            None if c == '"' || c == '\'' => quote = Some(c),
            _ => {}
        }
    }
    None
}

fn line_start(text: &str, at: usize) -> usize {
    text[..at].rfind('\n').map_or(0, |found| found + 1)
}

/// The start of the line behind the one that a byte is in.
fn line_after(text: &str, at: usize) -> usize {
    text[at..].find('\n').map_or(text.len(), |found| at + found + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn outline(text: &str) -> Outline {
        Outline::of(text, &Document::parse(text).unwrap()).unwrap()
    }

    #[test]
    fn any_file_is_put_together_again_byte_by_byte() {
        let texts = [
            "\u{feff}format = 1\r\n\r\n# above\r\n[absorber] # beside\r\nriser_pitch = '4 1/2\"' # tape\r\n# end",
            "a.b = { c = 1, d = { e = 2 } } # x\n[q.\"r = ] # s\"]\nt = [\n  1, # one\n  2,\n] # two\n\n",
            "",
            "# only words\n",
        ];
        for text in texts {
            assert_eq!(outline(text).text(), text);
        }
    }

    #[test]
    fn a_comment_belongs_to_the_line_below_or_beside_it() {
        let cut = outline("format = 1\n# of the pitch\npitch = \"4 in\" # by tape\n\n# of the table\n[a]\n");
        let pitch = cut.item(&["pitch".to_owned()]).unwrap();
        assert_eq!((pitch.lead.as_str(), pitch.trail.as_str()), ("# of the pitch\n", " # by tape\n"));
        assert_eq!(cut.section(&["a".to_owned()]).unwrap().lead, "\n# of the table\n");
    }

    #[test]
    fn an_inline_table_is_one_line_whatever_it_holds() {
        let cut = outline("[s.\"x@A\".2026-04-18-1]\nsaw = { \"a.b\" = \"1\", \"c#d\" = \"2 # 3\" }\n");
        let paths: Vec<String> = cut.items().map(|item| item.path.join("/")).collect();
        assert_eq!(paths, ["s/x@A/2026-04-18-1/saw"]);
        assert_eq!(cut.items().next().unwrap().value, "{ \"a.b\" = \"1\", \"c#d\" = \"2 # 3\" }");
    }
}
