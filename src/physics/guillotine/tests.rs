//! Layouts checked against the rules that any layout must keep.

use super::*;
use proptest::prelude::*;

fn piece(width: u32, height: u32, most: Option<u32>, may_turn: bool) -> Piece {
    let sides = Sides { width: Tenths(width), height: Tenths(height) };
    Piece { sides, value: u64::from(width) * u64::from(height), most, may_turn }
}

fn sheet(width: u32, height: u32, kerf: u32, pieces: Vec<Piece>) -> Sheet {
    Sheet { sides: Sides { width: Tenths(width), height: Tenths(height) }, kerf: Tenths(kerf), pieces }
}

/// Left, bottom, right, top of a placed piece.
fn corners(sheet: &Sheet, placed: &Placed) -> [u32; 4] {
    let sides = sheet.pieces[placed.piece].sides;
    let sides = if placed.turned { sides.turned() } else { sides };
    [placed.left.0, placed.bottom.0, placed.left.0 + sides.width.0, placed.bottom.0 + sides.height.0]
}

/// Whether straight cuts from edge to edge, a kerf wide, part all pieces from each other.
fn parts(rectangles: &[[u32; 4]], kerf: u32) -> bool {
    if rectangles.len() < 2 {
        return true;
    }
    for axis in [0, 1] {
        for at in rectangles.iter().map(|rectangle| rectangle[axis + 2]) {
            let (low, high): (Vec<_>, Vec<_>) = rectangles.iter().partition(|rectangle| rectangle[axis + 2] <= at);
            let clear = high.iter().all(|rectangle: &[u32; 4]| rectangle[axis] >= at + kerf);
            if !high.is_empty() && clear && parts(&low, kerf) && parts(&high, kerf) {
                return true;
            }
        }
    }
    false
}

fn keeps_the_rules(sheet: &Sheet, layout: &Layout) {
    let rectangles: Vec<[u32; 4]> = layout.placed.iter().map(|placed| corners(sheet, placed)).collect();
    assert!(rectangles.iter().all(|r| r[2] <= sheet.sides.width.0 && r[3] <= sheet.sides.height.0));
    assert!(parts(&rectangles, sheet.kerf.0), "{rectangles:?}");
    assert_eq!(layout.cuts.len() + 1, layout.placed.len().max(1));
    for (index, piece) in sheet.pieces.iter().enumerate() {
        let made = layout.placed.iter().filter(|placed| placed.piece == index);
        assert!(made.clone().all(|placed| piece.may_turn || !placed.turned));
        assert!(piece.most.is_none_or(|most| made.count() <= most as usize));
    }
    let value: u64 = layout.placed.iter().map(|placed| sheet.pieces[placed.piece].value).sum();
    assert_eq!(value, layout.value);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn both_searches_keep_the_rules_and_agree_where_limits_do_not_bind(
        sides in prop::collection::vec((15_u32..60, 15_u32..60), 1..4),
        kerf in 0_u32..4,
        may_turn: bool,
    ) {
        let with = |most| sheet(70, 64, kerf, sides.iter().map(|&(w, h)| piece(w, h, most, may_turn)).collect());
        let free = most_valuable(&with(None)).unwrap();
        keeps_the_rules(&with(None), &free);
        let many = most_valuable(&with(Some(20))).unwrap();
        keeps_the_rules(&with(Some(20)), &many);
        prop_assert!(many.proved);
        prop_assert_eq!(free.value, many.value);
        let one = most_valuable(&with(Some(1))).unwrap();
        keeps_the_rules(&with(Some(1)), &one);
        prop_assert!(one.value <= many.value);
    }
}

#[test]
fn a_piece_that_only_fits_turned_is_turned_or_refused() {
    let wide = |may_turn| sheet(1000, 2000, 30, vec![piece(1800, 900, Some(1), may_turn)]);
    let layout = most_valuable(&wide(true)).unwrap();
    assert!(layout.placed[0].turned);
    assert_eq!(most_valuable(&wide(false)), Err(GuillotineError::PieceTooLarge(0)));
}

#[test]
fn strips_for_a_harp_come_off_the_fewest_sheets() {
    let job = sheet(6000, 20000, 0, vec![piece(1200, 19500, Some(30), false)]);
    let sheets = all_pieces(&job, 20).unwrap();
    assert_eq!((sheets.layouts.len(), sheets.is_proved()), (6, true));
    for layout in &sheets.layouts {
        keeps_the_rules(&job, layout);
    }
    assert_eq!(all_pieces(&job, 3), Err(GuillotineError::TooManySheets(3)));
}

#[test]
fn a_search_that_would_not_end_is_refused() {
    let pieces = [(401, 309), (517, 613), (733, 829), (919, 1021)].map(|(w, h)| piece(w, h, None, true)).to_vec();
    assert_eq!(most_valuable(&sheet(24400, 12200, 32, pieces)), Err(GuillotineError::TooManyPlaces));
}

#[test]
fn the_first_cut_lies_where_the_first_piece_ends() {
    let job = sheet(1000, 500, 10, vec![piece(480, 500, Some(2), false)]);
    let layout = most_valuable(&job).unwrap();
    assert_eq!(layout.cuts, vec![Cut { upright: true, at: Tenths(480) }]);
}
