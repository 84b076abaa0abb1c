//! How anything in the workbook is named: `ID` or `ID@PANEL`.

use std::fmt;

/// The letter of one panel being built.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PanelLetter(char);

impl PanelLetter {
    /// Takes a single capital letter A to Z.
    pub fn new(letter: char) -> Option<Self> {
        letter.is_ascii_uppercase().then_some(Self(letter))
    }

    /// Reads a text that is exactly one capital letter.
    pub fn parse(text: &str) -> Option<Self> {
        let mut letters = text.chars();
        let first = letters.next()?;
        if letters.next().is_some() { None } else { Self::new(first) }
    }
}

impl fmt::Display for PanelLetter {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

/// An id, and the panel it is meant for if any.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Address {
    /// The id, such as `absorber.riser_pitch` or `absorber.hole.7`.
    pub id: String,
    /// The panel, or none for the design or the whole project.
    pub panel: Option<PanelLetter>,
}

impl Address {
    /// The design's or the project's own thing of this id.
    pub fn drawn(id: impl Into<String>) -> Self {
        Self { id: id.into(), panel: None }
    }

    /// The thing of this id on one panel.
    pub fn on(id: impl Into<String>, panel: PanelLetter) -> Self {
        Self { id: id.into(), panel: Some(panel) }
    }

    /// Reads `ID` or `ID@PANEL`; none if the part behind `@` is not one capital letter.
    pub fn parse(text: &str) -> Option<Self> {
        match text.split_once('@') {
            None if text.is_empty() => None,
            None => Some(Self::drawn(text)),
            Some(("", _)) => None,
            Some((id, letter)) => Some(Self::on(id, PanelLetter::parse(letter)?)),
        }
    }
}

impl fmt::Display for Address {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.panel {
            None => write!(f, "{}", self.id),
            Some(panel) => write!(f, "{}@{panel}", self.id),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_survive_printing_and_reading() {
        for text in ["absorber.riser_pitch", "absorber.hole.7@B"] {
            assert_eq!(Address::parse(text).unwrap().to_string(), text);
        }
        for text in ["", "@A", "a@", "a@b", "a@AB", "a@A@B"] {
            assert_eq!(Address::parse(text), None);
        }
    }
}
