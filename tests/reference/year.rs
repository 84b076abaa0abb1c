//! The year against years computed elsewhere.
//!
//! `data/year_systems.json` and `data/year_inputs_P*.csv`: three plants by explicit steps of 5 s in another language,
//! sunlight by pvlib; conventions and tolerances stand in the file. The weather files are those of the site's checks.
//! `data/year_tank.json`: a published table, the Poisson solution, pooling by another code.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test helper that cannot read its case must fail the test")]

pub mod plain;
mod plants;
mod systems;
mod tank;
