//! What an entry, a reading or a figure can hold.

use jiff::civil::Date;

use crate::units::{Quantity, System};

/// A value of any declared thing.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// A number with its kind.
    Quantity(Quantity),
    /// One word of a declared list.
    Choice(String),
    /// Free text.
    Text(String),
    /// Yes or no.
    Flag(bool),
    /// A calendar day.
    Date(Date),
}

impl Value {
    /// The value as people read it, numbers in the given family of units.
    pub fn text(&self, system: System) -> String {
        match self {
            Self::Quantity(quantity) => quantity.text(system),
            Self::Choice(word) | Self::Text(word) => word.clone(),
            Self::Flag(true) => "yes".to_owned(),
            Self::Flag(false) => "no".to_owned(),
            Self::Date(date) => date.to_string(),
        }
    }

    /// The number, if the value is one.
    pub fn quantity(&self) -> Option<Quantity> {
        match self {
            Self::Quantity(quantity) => Some(*quantity),
            _ => None,
        }
    }

    /// Whether two values would be read as the same: numbers within a relative 1e-12.
    pub fn same_as(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Quantity(a), Self::Quantity(b)) => {
                a.kind == b.kind && (a.si - b.si).abs() <= 1e-12 * a.si.abs().max(b.si.abs())
            }
            _ => self == other,
        }
    }
}

impl<Q: Into<Quantity>> From<Q> for Value {
    fn from(quantity: Q) -> Self {
        Self::Quantity(quantity.into())
    }
}
