//! What must stay fast: climate load, reading the project, evaluation, the preview of an edit, one
//! frame.
//!
//! An edit is to be evaluated and drawn within 16 ms; the first frame with real figures within 100 ms of the start.

mod cutting;
mod log;
mod screen;
mod year;

use std::sync::Arc;

use divan::{Bencher, black_box};
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use sunharp::climate::{Climate, Plane, Scan};
use sunharp::physics::horizon::Horizon;
use sunharp::physics::transposition::SkyModel;
use sunharp::project::Project;
use sunharp::project::store::RealDisk;
use sunharp::solve::{Snapshot, evaluate};
use sunharp::stage::absorber;
use sunharp::stage::site::{basis, frost};
use sunharp::tui::event::{Input, Key};
use sunharp::tui::{self, Setup, theme::Theme};
use sunharp::units::si::{Angle, Dimension};
use sunharp::workbook::{Workbook, sample};

const WEATHER: &[u8] = include_bytes!("../../sample-projects/weather/greensboro-tmy3-reduced.csv");

fn main() {
    divan::main();
}

fn workbook() -> Workbook {
    sample::open(Arc::new(RealDisk), jiff::civil::date(2026, 5, 1))
}

#[divan::bench(sample_count = 20)]
fn climate_load() -> bool {
    Climate::from_bytes("sample", black_box(WEATHER)).is_ok()
}

#[divan::bench]
fn read_the_project() -> Project {
    Project::read(black_box(sample::TEXT))
}

#[divan::bench(sample_count = 20)]
fn open_the_sample() -> Workbook {
    workbook()
}

#[divan::bench(sample_count = 50)]
fn evaluate_from_nothing(bencher: Bencher) {
    let snapshot = Snapshot { earlier: None, ..workbook().snapshot() };
    bencher.bench_local(|| evaluate(black_box(&snapshot)));
}

#[divan::bench(sample_count = 50)]
fn evaluate_after_an_edit(bencher: Bencher) {
    let snapshot = workbook().snapshot();
    bencher.bench_local(|| evaluate(black_box(&snapshot)));
}

/// The absorber's share: curve, stagnation, network, first-fit plan with its bound.
#[divan::bench(sample_count = 50)]
fn absorber_as_drawn(bencher: Bencher) {
    let workbook = workbook();
    let drawn = &workbook.evaluation().drawn;
    bencher.bench_local(|| {
        let harp = absorber::geometry::harp(black_box(&drawn.inputs));
        absorber::solve(&drawn.inputs, &drawn.site, harp, &drawn.enclosure.timber_box)
    });
}

#[divan::bench(sample_count = 50)]
fn absorber_of_a_further_panel(bencher: Bencher) {
    let workbook = workbook();
    let Some(built) = workbook.evaluation().built.values().next() else { return };
    bencher.bench_local(|| {
        let harp = absorber::geometry::harp(black_box(&built.inputs));
        absorber::solve(&built.inputs, &built.site, harp, &built.enclosure.timber_box)
    });
}

#[divan::bench(sample_count = 50)]
fn preview_of_an_edit(bencher: Bencher) {
    let workbook = workbook();
    bencher.bench_local(|| workbook.preview("absorber.riser_pitch", black_box("5 in")).is_ok());
}

#[divan::bench(sample_count = 50)]
fn edit_and_undo(bencher: Bencher) {
    let mut workbook = workbook();
    bencher.bench_local(|| {
        let changed = workbook.set("absorber.riser_pitch", black_box("5 in")).is_ok();
        changed && workbook.undo().is_some()
    });
}

#[divan::bench(sample_count = 10)]
fn all_studies(bencher: Bencher) {
    bencher.with_inputs(workbook).bench_local_values(|mut workbook| {
        workbook.run_studies();
        workbook
    });
}

#[divan::bench(sample_count = 50, args = [(80, 24), (250, 80)])]
fn one_frame(bencher: Bencher, size: (u16, u16)) {
    let theme = Theme { colors: true, ascii: false };
    let state = tui::start(workbook(), Setup { theme, size, drafts: None, demo: true });
    let Ok(mut terminal) = Terminal::new(TestBackend::new(size.0, size.1));
    bencher.bench_local(|| terminal.draw(|frame| tui::draw(&state, frame)).is_ok());
}

/// From a key to the frame that answers it: down a line, at the bench along a row.
#[divan::bench(sample_count = 50, args = ["", "b"])]
fn key_to_frame(bencher: Bencher, way: &str) {
    let theme = Theme { colors: true, ascii: false };
    let mut state = tui::start(workbook(), Setup { theme, size: (80, 24), drafts: None, demo: true });
    let press = |state: &mut tui::State, key: Key| tui::update(state, [Input::Key(key)]);
    for key in Key::script(&format!("<Right><Right>{way}")) {
        press(&mut state, key);
    }
    let Ok(mut terminal) = Terminal::new(TestBackend::new(80, 24));
    bencher.bench_local(|| {
        press(&mut state, Key::Down);
        terminal.draw(|frame| tui::draw(&state, frame)).is_ok()
    });
}

fn climate() -> Climate {
    Climate::from_bytes("sample", WEATHER)
        .unwrap_or_else(|error| unreachable!("the sample's weather is whole: {error}"))
}

#[divan::bench(sample_count = 50)]
fn one_more_plane(bencher: Bencher) {
    let climate = climate();
    let plane = Plane { tilt: Angle::from_si(0.7), azimuth: Angle::from_si(3.3), albedo: 0.2.into() };
    bencher.bench_local(|| climate.plane(black_box(&plane), SkyModel::HayDavies));
}

#[divan::bench(sample_count = 20)]
fn best_tilt_and_way_to_face(bencher: Bencher) {
    let climate = climate();
    bencher.bench_local(|| {
        let scan = climate.scan(black_box(&Horizon::default()), &0.2.into());
        (
            Scan::best_of(&scan.tilt_curve(Angle::from_si(std::f64::consts::PI), [true; 12])),
            scan.best_orientation([true; 12]),
        )
    });
}

#[divan::bench(sample_count = 20)]
fn frost_of_a_year(bencher: Bencher) {
    let workbook = workbook();
    let drawn = &workbook.evaluation().drawn;
    bencher.bench_local(|| frost::solve(black_box(&drawn.inputs), &drawn.world));
}

#[divan::bench(sample_count = 20)]
fn a_year_from_twelve_means(bencher: Bencher) {
    let climate = climate();
    let lines = basis::summary_lines(&climate.monthly_summary());
    let mut workbook = workbook();
    for (id, typed) in lines {
        workbook.set(&id, &typed).unwrap_or_else(|error| unreachable!("{id}: {error}"));
    }
    let inputs = workbook.evaluation().drawn.inputs.clone();
    bencher.bench_local(|| basis::made(black_box(&inputs), Vec::new()));
}
