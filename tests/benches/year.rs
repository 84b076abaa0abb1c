//! The year of the three reference plants (coil, one tank with an element, drainback) and of the three samples.
//!
//! Wanted: 6 ms, with an element in the tank 12 ms.

#![allow(clippy::unwrap_used, clippy::panic, clippy::cast_possible_truncation, clippy::cast_sign_loss)]

#[path = "../reference/year/plain.rs"]
mod plain;
#[path = "../reference/year/plants.rs"]
mod plants;

use std::path::Path;
use std::sync::Arc;

use divan::Bencher;
use plants::systems;
use sunharp::climate::Climate;
use sunharp::project::store::RealDisk;
use sunharp::stage::plumbing::year::{hours, plant};
use sunharp::stage::study::{Cancel, STUDIES};
use sunharp::workbook::Workbook;
use sunharp::year::{Conditions, Plant, simulate};

const SAMPLES: [&str; 3] = ["garden-washroom", "harbour-laundry", "boatyard-shower"];

fn sample(name: &str) -> Workbook {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("sample-projects/{name}.toml"));
    Workbook::open(Arc::new(RealDisk), &path, jiff::civil::date(2026, 6, 1)).unwrap()
}

fn plant_of(name: &str) -> (Plant, Vec<Conditions>) {
    let book = sample(name);
    let drawn = &book.evaluation().drawn;
    (plant::plant(drawn).unwrap(), hours::hours(drawn).unwrap())
}

/// The year of each sample.
#[divan::bench(args = SAMPLES)]
fn sample_simulation(bencher: Bencher, name: &str) {
    let (plant, hours) = plant_of(name);
    bencher.bench_local(|| simulate(&plant, &hours, &|| false));
}

/// The same by plain explicit steps of 60 s, for the ratio.
#[divan::bench(args = SAMPLES, sample_count = 20)]
fn sample_plain_minutes(bencher: Bencher, name: &str) {
    let (plant, hours) = plant_of(name);
    bencher.bench_local(|| plain::run(&plant, &hours, 60.0));
}

/// Every study of each sample, one after the other: sun on the plane, hours and all.
#[divan::bench(args = SAMPLES, sample_count = 10)]
fn all_studies(bencher: Bencher, name: &str) {
    let book = sample(name);
    let drawn = &book.evaluation().drawn;
    bencher.bench_local(|| STUDIES.iter().filter_map(|study| (study.run)(drawn, &Cancel::default())).count());
}

/// Weather of the plants.
const WEATHER: [(&str, &[u8]); 3] = [
    ("greensboro", include_bytes!("../../sample-projects/weather/greensboro-tmy3-reduced.csv")),
    ("miami", include_bytes!("../../sample-projects/weather/miami-tmy2.tm2")),
    ("sandpoint", include_bytes!("../../sample-projects/weather/sand-point-tmy3-reduced.csv")),
];

fn climate(index: usize) -> Climate {
    Climate::from_bytes(WEATHER[index].0, WEATHER[index].1).unwrap()
}

fn case(index: usize) -> (Plant, Vec<Conditions>) {
    (systems()[index].plant(), systems()[index].given_conditions(&climate(index)))
}

#[divan::bench(args = [0, 1, 2])]
fn simulation(bencher: Bencher, index: usize) {
    let (plant, hours) = case(index);
    bencher.bench_local(|| simulate(&plant, &hours, &|| false));
}

/// Sunlight through the glass, from a loaded climate.
#[divan::bench(args = [0, 1, 2])]
fn conditions(bencher: Bencher, index: usize) {
    let climate = climate(index);
    bencher.bench_local(|| systems()[index].computed_conditions(&climate));
}

/// The same plants by plain explicit steps of 60 s, for the ratio.
#[divan::bench(args = [0, 1, 2], sample_count = 20)]
fn plain_minutes(bencher: Bencher, index: usize) {
    let (plant, hours) = case(index);
    bencher.bench_local(|| plain::run(&plant, &hours, 60.0));
}
