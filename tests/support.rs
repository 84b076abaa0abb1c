//! Projects for tests, from their text.

mod bench;
mod dice;

use std::path::Path;
use std::sync::Arc;

pub use bench::{Bench, SMALL, crossing};
pub use dice::Dice;

use sunharp::model::{Address, Value};
use sunharp::project::store::RealDisk;
use sunharp::workbook::Workbook;

/// A project that was never saved, evaluated with its studies back. It must be read without a problem; the line with
/// the format is put before it.
pub fn workbook(text: &str) -> Workbook {
    let text = format!("format = 1\n{text}");
    let mut workbook =
        Workbook::unsaved(Arc::new(RealDisk), Path::new("test.toml"), text, jiff::civil::date(2026, 6, 1));
    let problems: Vec<String> = workbook.project().problems.iter().map(|problem| problem.fault.to_string()).collect();
    assert!(problems.is_empty(), "{problems:?}");
    workbook.run_studies();
    workbook
}

/// The value of an entry or figure, `id` or `id@PANEL`; its reason when there is none.
pub fn value(workbook: &Workbook, address: &str) -> Result<Value, String> {
    let address = Address::parse(address).expect("an address");
    workbook.evaluation().value(&address).map_err(|why| why.to_string())
}

/// The number of an entry or figure in SI base units.
pub fn si(workbook: &Workbook, address: &str) -> f64 {
    let value = value(workbook, address).unwrap_or_else(|why| panic!("{address}: {why}"));
    value.quantity().unwrap_or_else(|| panic!("{address} is no number")).si
}

/// The verdict of a check as its word.
pub fn verdict(workbook: &Workbook, check: &str) -> &'static str {
    workbook.evaluation().verdict(check).unwrap_or_else(|| panic!("no check {check}")).verdict.word()
}
