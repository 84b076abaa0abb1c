//! Pages of `docs/` against the tables that they describe.

mod json;
mod made;
mod project_file;
mod units;
