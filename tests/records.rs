//! Readings, overrulings and sign-offs, through the open project in memory.

mod out_of_order;
mod readings;
mod sign_offs;

use std::path::Path;
use std::sync::Arc;

use jiff::civil::date;
use sunharp::model::{Address, PanelLetter, Verdict};
use sunharp::project::store::RealDisk;
use sunharp::workbook::Workbook;
use sunharp::workbook::change::{ChangeError, NewReading, NewSignOff};

/// A harp with three panels and nothing built; no weather, so that it is quick.
const PROJECT: &str = include_str!("records/three-panels.toml");

fn open(more: &str) -> Workbook {
    let text = format!("{PROJECT}{more}");
    let workbook = Workbook::unsaved(Arc::new(RealDisk), Path::new("records.toml"), text, date(2026, 5, 1));
    assert_eq!(workbook.project().problems, []);
    workbook
}

/// `ID` or `ID@PANEL`.
fn at(address: &str) -> Address {
    Address::parse(address).unwrap()
}

fn read(workbook: &mut Workbook, address: &str, typed: &str) -> Result<(), ChangeError> {
    let reading = NewReading { typed: typed.to_owned(), by: "Ines".to_owned(), ..NewReading::default() };
    workbook.add_reading(&at(address), &reading)
}

fn sign(workbook: &mut Workbook, address: &str, evidence: &str) -> Result<(), ChangeError> {
    let sign_off =
        NewSignOff { by: "Ines".to_owned(), read_back_by: "Tomas".to_owned(), evidence: evidence.to_owned() };
    workbook.sign_off(&at(address), &sign_off)
}

fn si(workbook: &Workbook, address: &str) -> f64 {
    workbook.evaluation().value(&at(address)).unwrap().quantity().unwrap().si
}

fn standing(workbook: &Workbook, address: &str) -> &'static str {
    workbook.evaluation().step(&at(address)).unwrap().standing.word()
}

fn verdict(workbook: &Workbook, check: &str) -> (Verdict, Option<PanelLetter>) {
    let judged = workbook.evaluation().verdict(check).unwrap();
    (judged.verdict, judged.panel)
}

/// Undoes everything and finds the first bytes.
fn undoes_to(workbook: &mut Workbook, first: &str) {
    while workbook.undo().is_some() {}
    assert_eq!(workbook.text(), first);
}
