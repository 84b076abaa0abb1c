//! Sections of a table: rows of one kind under the source they share.
//!
//! Lives here: looking rows up by name, and the two plainest kinds of row. What any row means lives in the file of
//! its table.

use super::{Marks, Provenance};
use serde::Deserialize;

/// A row that can be asked for by name.
pub trait Named {
    /// The name within the section.
    fn name(&self) -> &str;
}

/// Rows of one kind.
#[derive(Clone, Debug, Deserialize)]
pub struct Section<Row> {
    /// Where the rows were found, and which of their columns were not.
    source: String,
    rows: Vec<Row>,
}

impl<Row> Default for Section<Row> {
    fn default() -> Self {
        Self { source: String::new(), rows: Vec::new() }
    }
}

impl<Row> Section<Row> {
    /// Every row, in the table's order.
    pub fn all(&self) -> &[Row] {
        &self.rows
    }

    /// Where the rows were found, and which of their columns were not.
    pub fn source(&self) -> &str {
        &self.source
    }
}

impl<Row: Named> Section<Row> {
    /// The row of this name.
    pub fn get(&self, name: &str) -> Option<&Row> {
        self.rows.iter().find(|row| row.name() == name.trim())
    }
}

/// A named number; its unit ends the name or stands with the section.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "ValueRow")]
pub struct Value {
    /// Name within the section.
    pub name: String,
    /// The number.
    pub value: f64,
    /// What else to know.
    pub note: Option<String>,
    /// How the row came into the table.
    pub provenance: Provenance,
}

/// A named practice in words.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(from = "PracticeRow")]
pub struct Practice {
    /// Name within the section.
    pub name: String,
    /// What is done.
    pub text: String,
    /// How the row came into the table.
    pub provenance: Provenance,
}

#[derive(Deserialize)]
struct ValueRow {
    name: String,
    value: f64,
    note: Option<String>,
    #[serde(flatten)]
    marks: Marks,
}

impl From<ValueRow> for Value {
    fn from(row: ValueRow) -> Self {
        Self { name: row.name, value: row.value, note: row.note, provenance: row.marks.provenance() }
    }
}

#[derive(Deserialize)]
struct PracticeRow {
    name: String,
    text: String,
    #[serde(flatten)]
    marks: Marks,
}

impl From<PracticeRow> for Practice {
    fn from(row: PracticeRow) -> Self {
        Self { name: row.name, text: row.text, provenance: row.marks.provenance() }
    }
}

impl Named for Value {
    fn name(&self) -> &str {
        &self.name
    }
}

impl Named for Practice {
    fn name(&self) -> &str {
        &self.name
    }
}
