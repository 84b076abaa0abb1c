//! Sheet layouts against published instances.
//!
//! gcut1 (Beasley 1985) and cgcut1 (Christofides and Whitlock 1977); the data file names the source of every value.

use serde::Deserialize;
use sunharp::physics::cutting::Tenths;
use sunharp::physics::guillotine::{Piece, Sheet, Sides, most_valuable};

#[derive(Deserialize)]
struct Data {
    cut_2d: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    name: String,
    sheet: [u32; 2],
    kerf: u32,
    pieces: Option<Vec<[u32; 2]>>,
    values: Option<Vec<u64>>,
    limits: Option<Vec<u32>>,
    optimum_unlimited_fixed: Option<u64>,
    optimum_unlimited_rotated: Option<u64>,
    optimum_one_each_fixed: Option<u64>,
    optimum_limited: Option<u64>,
    optimum_unlimited: Option<u64>,
}

#[allow(clippy::unwrap_used, reason = "a test whose data does not parse shall fail")]
fn cases() -> Vec<Case> {
    let data: Data = toml::from_str(include_str!("data/enclosure.toml")).unwrap();
    data.cut_2d
}

fn best(case: &Case, pieces: &[[u32; 2]], limits: Option<&[u32]>, may_turn: bool) -> u64 {
    let sheet = Sheet {
        sides: Sides { width: Tenths(case.sheet[0]), height: Tenths(case.sheet[1]) },
        kerf: Tenths(case.kerf),
        pieces: pieces
            .iter()
            .enumerate()
            .map(|(index, &[width, height])| Piece {
                sides: Sides { width: Tenths(width), height: Tenths(height) },
                value: case.values.as_ref().map_or(u64::from(width * height), |values| values[index]),
                most: limits.map(|limits| limits[index]),
                may_turn,
            })
            .collect(),
    };
    let layout = most_valuable(&sheet);
    assert!(layout.as_ref().is_ok_and(|layout| layout.proved), "{}", case.name);
    layout.map_or(0, |layout| layout.value)
}

/// 56460 unlimited, 58136 turned, 48368 one of each; with a kerf of 3: 56460, 56687, 46516; cgcut1 244 and 249.
#[test]
pub(super) fn published_sheet_instances_are_solved_and_proved() {
    let cases = cases();
    let gcut1 = cases[0].pieces.clone().unwrap();
    let mut checked = 0;
    for case in &cases {
        let pieces = case.pieces.as_ref().unwrap_or(&gcut1);
        let ones = vec![1; pieces.len()];
        let limits = case.limits.as_deref();
        for (expected, limits, may_turn) in [
            (case.optimum_unlimited_fixed, None, false),
            (case.optimum_unlimited_rotated, None, true),
            (case.optimum_one_each_fixed, Some(&ones[..]), false),
            (case.optimum_limited, limits, false),
            (case.optimum_unlimited, None, false),
        ] {
            if let Some(expected) = expected {
                assert_eq!(best(case, pieces, limits, may_turn), expected, "{}", case.name);
                checked += 1;
            }
        }
    }
    assert_eq!(checked, 8);
}
