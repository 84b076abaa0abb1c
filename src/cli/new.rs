//! `new`: a project file to begin with.

use std::path::Path;

use super::failure::{Answer, Failure};
use crate::model::text::clean;
use crate::project::store::{self, RealDisk};

/// The text that a new project begins with.
pub const STARTER: &str = include_str!("starter.toml");

/// Writes the starter to a file that must not exist.
pub fn write(file: &Path) -> Result<Answer, Failure> {
    store::save(&RealDisk, file, STARTER.as_bytes(), None).map_err(|error| Failure::file(clean(&error.to_string())))?;
    let name = clean(&file.display().to_string());
    Ok(Answer::of(format!("{name} made. 'sunharp {name}' opens it; it can be edited by hand, too.\n")))
}
