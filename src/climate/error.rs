//! Why a weather file could not be read.

use crate::physics::sun::SunError;

/// A weather file cannot be used; names the line and the column.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ClimateError {
    /// Neither TMY3, TMY2 nor EPW.
    #[error("{name} is no weather file of a known kind (TMY3 csv, TMY2, EPW)")]
    UnknownFormat {
        /// The source's label.
        name: String,
    },
    /// The fields are parted by something else than commas.
    #[error("the fields of {name} are parted by {found}, not by commas: write it again with commas")]
    Delimiter {
        /// The source's label.
        name: String,
        /// What parts them, in words.
        found: &'static str,
    },
    /// The first lines say something else than the format asks for.
    #[error("line {line}, {column}: {text:?} cannot be read in the header")]
    Header {
        /// Line number from 1.
        line: u64,
        /// What should stand there.
        column: &'static str,
        /// What stands there.
        text: String,
    },
    /// A needed column is not in the file.
    #[error("the column {column:?} is missing")]
    MissingColumn {
        /// Name as the format has it.
        column: &'static str,
    },
    /// A line ends before a needed column.
    #[error("line {line} is too short: {column} is not there")]
    ShortLine {
        /// Line number from 1.
        line: u64,
        /// The column.
        column: &'static str,
    },
    /// A field is no number, or no number that weather can have.
    #[error("line {line}, {column}: {text:?} cannot be read")]
    Value {
        /// Line number from 1.
        line: u64,
        /// The column.
        column: &'static str,
        /// What stands there.
        text: String,
    },
    /// A date or hour that no calendar has.
    #[error("line {line}: {text:?} is no date and whole hour")]
    Time {
        /// Line number from 1.
        line: u64,
        /// What stands there.
        text: String,
    },
    /// Two rows for the same hour.
    #[error("line {line}: a second row for {hour}")]
    Duplicate {
        /// Line number from 1.
        line: u64,
        /// The hour.
        hour: super::HourOfYear,
    },
    /// Hours without a row.
    #[error("{missing} of 8760 hours have no row; the first is {first}")]
    Incomplete {
        /// How many.
        missing: usize,
        /// The first of them.
        first: super::HourOfYear,
    },
    /// A needed column has too many gaps to be filled.
    #[error("{column} is missing in {hours} hours, too many to fill")]
    Gaps {
        /// What the column holds.
        column: &'static str,
        /// Hours without a value.
        hours: usize,
    },
    /// The station or the dates are beyond the sun's algorithm.
    #[error(transparent)]
    Sun(#[from] SunError),
}
