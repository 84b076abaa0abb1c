//! Cutting plans against published instances and against an independent exact solver.
//!
//! The data file names the source of every row.

use serde::Deserialize;
use sunharp::physics::cutting::{Job, Part, Stock, Tenths, cheapest, first_fit_decreasing};

#[derive(Deserialize)]
struct Data {
    cut_1d: Vec<Rolls>,
    cut_bars: Vec<Bars>,
}

/// Lengths in the unit of the source; one unit is taken as a tenth of a millimetre.
#[derive(Deserialize)]
struct Rolls {
    name: String,
    stock: u32,
    kerf: u32,
    length: Vec<u32>,
    demand: Vec<u32>,
    optimum: u64,
    lower_bound: Option<u64>,
    first_fit_decreasing: Option<u64>,
}

#[derive(Deserialize)]
struct Bars {
    name: String,
    items_tenth_mm: Vec<(u32, u32)>,
    stock_tenth_mm: u32,
    kerf_tenth_mm: u32,
    #[serde(rename = "min_bars")]
    fewest: u64,
}

#[allow(clippy::unwrap_used, reason = "a test whose data does not parse shall fail")]
fn data() -> Data {
    toml::from_str(include_str!("data/enclosure.toml")).unwrap()
}

fn job(stock: u32, kerf: u32, parts: impl Iterator<Item = (u32, u32)>) -> Job {
    Job {
        parts: parts.map(|(length, count)| Part { length: Tenths(length), count }).collect(),
        stocks: vec![Stock { length: Tenths(stock), available: None, price: 1 }],
        kerf: Tenths(kerf),
        end_trim: Tenths(0),
    }
}

/// 5600 mm rolls (optimum 73), 100 in rolls (453), the kerf case where first-fit decreasing is wrong, three frames.
#[test]
pub(super) fn published_roll_instances_are_solved_and_proved() {
    for case in data().cut_1d {
        let job = job(case.stock, case.kerf, case.length.into_iter().zip(case.demand));
        let plan = cheapest(&job).unwrap();
        assert_eq!((plan.price, plan.is_proved()), (case.optimum, true), "{}", case.name);
        let quick = first_fit_decreasing(&job).unwrap();
        if let Some(bars) = case.first_fit_decreasing {
            assert_eq!(quick.price, bars, "{}", case.name);
        }
        if let Some(bound) = case.lower_bound {
            assert_eq!(quick.lowest_price, bound, "{}", case.name);
        }
    }
}

#[test]
pub(super) fn bars_of_a_panel_job_need_as_few_as_another_solver_finds() {
    for case in data().cut_bars {
        let plan = cheapest(&job(case.stock_tenth_mm, case.kerf_tenth_mm, case.items_tenth_mm.into_iter())).unwrap();
        assert_eq!((plan.price, plan.is_proved()), (case.fewest, true), "{}", case.name);
    }
}
