//! Published cutting instances: each is to be solved and proved within 200 ms.
//!
//! Sources of the instances stand in tests/reference/data/enclosure.toml.

use divan::{Bencher, black_box};
use sunharp::physics::cutting::{Job, Part, Stock, Tenths, cheapest};
use sunharp::physics::guillotine::{Piece, Sheet, Sides, most_valuable};

const GCUT1: [(u32, u32); 10] =
    [(167, 184), (114, 118), (167, 152), (83, 140), (70, 86), (143, 166), (120, 160), (66, 148), (87, 141), (69, 165)];

const CGCUT1: [(u32, u32, u64, u32); 7] =
    [(8, 4, 66, 2), (3, 7, 35, 1), (8, 2, 24, 3), (3, 4, 17, 5), (3, 3, 11, 2), (3, 2, 8, 2), (2, 1, 2, 1)];

fn sides(width: u32, height: u32) -> Sides {
    Sides { width: Tenths(width), height: Tenths(height) }
}

fn gcut1(most: Option<u32>, may_turn: bool) -> Sheet {
    let piece = |&(width, height): &(u32, u32)| Piece {
        sides: sides(width, height),
        value: u64::from(width * height),
        most,
        may_turn,
    };
    Sheet { sides: sides(250, 250), kerf: Tenths(0), pieces: GCUT1.iter().map(piece).collect() }
}

fn cgcut1(limited: bool) -> Sheet {
    let piece = |&(width, height, value, most): &(u32, u32, u64, u32)| Piece {
        sides: sides(width, height),
        value,
        most: limited.then_some(most),
        may_turn: false,
    };
    Sheet { sides: sides(15, 10), kerf: Tenths(0), pieces: CGCUT1.iter().map(piece).collect() }
}

#[divan::bench(sample_count = 10, args = [(None, false), (None, true), (Some(1), false)])]
fn sheet_gcut1(bencher: Bencher, (most, may_turn): (Option<u32>, bool)) {
    let sheet = gcut1(most, may_turn);
    bencher.bench_local(|| most_valuable(black_box(&sheet)).is_ok_and(|layout| layout.proved));
}

#[divan::bench(sample_count = 10, args = [true, false])]
fn sheet_cgcut1(bencher: Bencher, limited: bool) {
    let sheet = cgcut1(limited);
    bencher.bench_local(|| most_valuable(black_box(&sheet)).is_ok_and(|layout| layout.proved));
}

fn bars(stock: u32, kerf: u32, parts: &[(u32, u32)]) -> Job {
    Job {
        parts: parts.iter().map(|&(length, count)| Part { length: Tenths(length), count }).collect(),
        stocks: vec![Stock { length: Tenths(stock), available: None, price: 1 }],
        kerf: Tenths(kerf),
        end_trim: Tenths(0),
    }
}

#[divan::bench(sample_count = 10)]
fn bars_of_5600_mm_rolls(bencher: Bencher) {
    let widths = [1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200];
    let wanted = [22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20];
    let parts: Vec<(u32, u32)> = widths.into_iter().zip(wanted).collect();
    let job = bars(5600, 0, &parts);
    bencher.bench_local(|| cheapest(black_box(&job)).is_ok_and(|plan| plan.is_proved()));
}

#[divan::bench(sample_count = 10)]
fn bars_of_100_in_rolls(bencher: Bencher) {
    let job = bars(100, 0, &[(45, 97), (36, 610), (31, 395), (14, 211)]);
    bencher.bench_local(|| cheapest(black_box(&job)).is_ok_and(|plan| plan.is_proved()));
}

#[divan::bench(sample_count = 10)]
fn bars_with_a_kerf(bencher: Bencher) {
    let job = bars(2438, 3, &[(762, 4), (699, 6), (648, 2), (381, 2)]);
    bencher.bench_local(|| cheapest(black_box(&job)).is_ok_and(|plan| plan.is_proved()));
}
