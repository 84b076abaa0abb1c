//! Plans checked against brute force, and against the rules that any plan must keep.

use super::*;
use proptest::prelude::*;

fn job(parts: &[(u32, u32)], stocks: &[(u32, Option<u32>, u32)], kerf: u32, trim: u32) -> Job {
    Job {
        parts: parts.iter().map(|&(length, count)| Part { length: Tenths(length), count }).collect(),
        stocks: stocks
            .iter()
            .map(|&(length, available, price)| Stock { length: Tenths(length), available, price })
            .collect(),
        kerf: Tenths(kerf),
        end_trim: Tenths(trim),
    }
}

/// Every part is made as often as wanted, every bar holds its pieces, no more bars are used than there are.
fn keeps_the_rules(job: &Job, plan: &Plan) {
    for (part, wanted) in job.parts.iter().enumerate() {
        assert_eq!(plan.bars.iter().map(|bar| bar.pieces[part]).sum::<u32>(), wanted.count);
    }
    for bar in &plan.bars {
        let stock = &job.stocks[bar.stock];
        let pieces: u32 = bar.pieces.iter().sum();
        let length: u32 = bar.pieces.iter().zip(&job.parts).map(|(count, part)| count * part.length.0).sum();
        assert!(length + (pieces - 1) * job.kerf.0 + 2 * job.end_trim.0 <= stock.length.0);
    }
    for (index, stock) in job.stocks.iter().enumerate() {
        let used = plan.bars.iter().filter(|bar| bar.stock == index).count();
        assert!(stock.available.is_none_or(|available| used <= available as usize));
    }
    let price: u64 = plan.bars.iter().map(|bar| u64::from(job.stocks[bar.stock].price)).sum();
    assert_eq!(price, plan.price);
}

/// Cheapest price by trying every piece in every open bar and in a new one of every kind.
fn brute_force(job: &Job) -> Option<u64> {
    let mut pieces: Vec<u32> =
        job.parts.iter().flat_map(|part| std::iter::repeat_n(part.length.0, part.count as usize)).collect();
    pieces.sort_unstable_by(|a, b| b.cmp(a));
    let mut best = None;
    place(job, &pieces, &mut Vec::new(), 0, &mut best);
    best
}

fn place(job: &Job, pieces: &[u32], bars: &mut Vec<(usize, u32)>, price: u64, best: &mut Option<u64>) {
    if best.is_some_and(|best| price >= best) {
        return;
    }
    let Some((&piece, rest)) = pieces.split_first() else {
        *best = Some(price);
        return;
    };
    let need = piece + job.kerf.0;
    for bar in 0..bars.len() {
        if bars[bar].1 >= need {
            bars[bar].1 -= need;
            place(job, rest, bars, price, best);
            bars[bar].1 += need;
        }
    }
    for (stock, kind) in job.stocks.iter().enumerate() {
        let used = bars.iter().filter(|bar| bar.0 == stock).count();
        let room = kind.length.0 + job.kerf.0 - 2 * job.end_trim.0;
        if kind.available.is_none_or(|available| used < available as usize) && room >= need {
            bars.push((stock, room - need));
            place(job, rest, bars, price + u64::from(kind.price), best);
            bars.pop();
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn no_plan_is_cheaper_than_the_search_says(
        parts in prop::collection::vec((10_u32..60, 1_u32..4), 1..4),
        kerf in 0_u32..4,
        trim in 0_u32..3,
        extra in 0_u32..3,
    ) {
        let stocks = [(100, None, 10), (70, Some(extra), 6), (66, Some(1), 0)];
        let job = job(&parts, &stocks, kerf, trim);
        let plan = cheapest(&job).unwrap();
        keeps_the_rules(&job, &plan);
        prop_assert!(plan.is_proved());
        prop_assert_eq!(Some(plan.price), brute_force(&job));
    }
}

#[test]
fn what_lies_in_the_shop_is_used_before_bars_are_bought() {
    let job = job(&[(1000, 3)], &[(3100, None, 30), (1100, Some(2), 1)], 10, 0);
    let plan = cheapest(&job).unwrap();
    keeps_the_rules(&job, &plan);
    assert_eq!(plan.price, 30);
    let fewer = Job { parts: vec![Part { length: Tenths(1000), count: 2 }], ..job };
    assert_eq!(cheapest(&fewer).unwrap().price, 2);
}

#[test]
fn a_part_longer_than_every_bar_and_a_short_supply_are_refused() {
    assert_eq!(cheapest(&job(&[(500, 1)], &[(500, None, 1)], 0, 10)), Err(CuttingError::PartTooLong(0)));
    assert_eq!(cheapest(&job(&[(400, 3)], &[(500, Some(2), 1)], 0, 0)), Err(CuttingError::TooFewBars));
    assert_eq!(cheapest(&job(&[(0, 3)], &[(500, None, 1)], 0, 0)), Err(CuttingError::NoLength));
    assert_eq!(cheapest(&job(&[], &[(500, None, 1)], 0, 0)).map(|plan| plan.bars.len()), Ok(0));
}

#[test]
fn the_same_job_gives_the_same_plan() {
    let job = job(&[(18190, 8), (12700, 2), (4100, 9)], &[(60960, None, 1), (30000, None, 1)], 16, 100);
    assert_eq!(cheapest(&job), cheapest(&job));
    keeps_the_rules(&job, &cheapest(&job).unwrap());
}

#[test]
fn an_offcut_is_what_remains_after_the_last_cut() {
    let plan = cheapest(&job(&[(700, 1)], &[(1000, None, 1)], 30, 50)).unwrap();
    assert_eq!(plan.bars[0].offcut, Tenths(170));
    let exact = cheapest(&job(&[(900, 1)], &[(1000, None, 1)], 30, 50)).unwrap();
    assert_eq!(exact.bars[0].offcut, Tenths(0));
}
