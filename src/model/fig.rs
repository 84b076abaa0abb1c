//! A number that may be missing, and why.

use std::fmt;

/// Any figure, result or input: the value, or the reason why there is none.
///
/// `?` carries the reason through a computation, so that what is missing at the bench is named at the check.
pub type Fig<T> = Result<T, Why>;

/// Why there is no value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Why {
    /// These entries or readings are not in the file yet.
    Missing(Vec<String>),
    /// These entries are in the file but cannot be read or are physically impossible.
    Invalid(Vec<String>),
    /// The inputs are readable but the method does not hold for them; the sentence says which and why.
    OutOfRange(String),
    /// A study has not come back yet.
    Pending,
}

impl Why {
    /// One missing entry.
    pub fn missing(id: impl Into<String>) -> Self {
        Self::Missing(vec![id.into()])
    }

    /// Several missing entries, each named once, in the order in which they were met.
    pub fn missing_all(ids: impl IntoIterator<Item = String>) -> Self {
        let mut named: Vec<String> = Vec::new();
        for id in ids {
            if !named.contains(&id) {
                named.push(id);
            }
        }
        Self::Missing(named)
    }

    /// A method that cannot answer, in one plain sentence.
    pub fn out_of_range(reason: impl fmt::Display) -> Self {
        Self::OutOfRange(reason.to_string())
    }
}

impl fmt::Display for Why {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Missing(ids) => write!(f, "needs {}", ids.join(", ")),
            Self::Invalid(ids) => write!(f, "cannot use {}", ids.join(", ")),
            Self::OutOfRange(reason) => write!(f, "{reason}"),
            Self::Pending => write!(f, "being computed"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_entry_that_several_parts_lack_is_named_once() {
        let why = Why::missing_all(["b", "a", "b"].map(str::to_owned));
        assert_eq!(why.to_string(), "needs b, a");
    }
}
