//! The sample project that the program carries, so that a first look needs no file.

use std::path::Path;

use jiff::civil::Date;

use super::{SharedDisk, Workbook};

/// The text of the sample.
pub const TEXT: &str = include_str!("../../sample-projects/garden-washroom.toml");

/// The name under which it would be saved, in the current folder.
pub const FILE_NAME: &str = "garden-washroom.toml";

/// Opens the sample; nothing is on the disk until it is saved.
pub fn open(disk: SharedDisk, today: Date) -> Workbook {
    Workbook::unsaved(disk, Path::new(FILE_NAME), TEXT, today)
}
