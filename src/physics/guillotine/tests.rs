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

/// Makes the cuts of the order on a whole sheet, one after the other: each piece must come out at its exact size, and
/// what is cut away, offcuts and kerfs are all that is left.
fn frees_every_piece(sheet: &Sheet, layout: &Layout) {
    let made = sequence::sequence(sheet, layout).unwrap();
    let mut parts = vec![[0, 0, sheet.sides.width.0, sheet.sides.height.0]];
    for cut in &made.cuts {
        let (axis, across) = if cut.upright { (0, 1) } else { (1, 0) };
        let hit = |part: &[u32; 4]| {
            part[axis] <= cut.at.0
                && cut.at.0 < part[axis + 2]
                && part[across] == cut.from.0
                && part[across + 2] == cut.to.0
        };
        let part = parts.remove(parts.iter().position(hit).unwrap());
        let (mut lower, mut upper) = (part, part);
        lower[axis + 2] = cut.at.0;
        upper[axis] = (cut.at.0 + sheet.kerf.0).min(part[axis + 2]);
        parts.extend([lower, upper]);
    }
    for placed in &layout.placed {
        let piece = corners(sheet, placed);
        let at = parts.iter().position(|part| *part == piece);
        parts.swap_remove(at.unwrap());
    }
}

fn keeps_the_rules(sheet: &Sheet, layout: &Layout) {
    let rectangles: Vec<[u32; 4]> = layout.placed.iter().map(|placed| corners(sheet, placed)).collect();
    assert!(rectangles.iter().all(|r| r[2] <= sheet.sides.width.0 && r[3] <= sheet.sides.height.0));
    assert!(parts(&rectangles, sheet.kerf.0), "{rectangles:?}");
    assert_eq!(layout.cuts.len() + 1, layout.placed.len().max(1));
    frees_every_piece(sheet, layout);
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

fn order(stocks: &[(u32, u32, Option<u32>)], kerf: u32, pieces: Vec<Piece>) -> Order {
    let stock = |&(width, height, available): &(u32, u32, Option<u32>)| StockSheet {
        sides: Sides { width: Tenths(width), height: Tenths(height) },
        available,
    };
    Order { stocks: stocks.iter().map(stock).collect(), kerf: Tenths(kerf), pieces }
}

/// Every sheet keeps the rules of a sheet, no kind is used more often than it is there, every piece is made.
fn serves(order: &Order, plan: &OrderPlan) {
    for kind in &plan.sheets {
        let sides = order.stocks[kind.stock].sides;
        keeps_the_rules(&Sheet { sides, kerf: order.kerf, pieces: order.pieces.clone() }, &kind.layout);
    }
    for (index, stock) in order.stocks.iter().enumerate() {
        let used = plan.sheets.iter().filter(|kind| kind.stock == index).count();
        assert!(stock.available.is_none_or(|available| used <= available as usize));
    }
    for (index, piece) in order.pieces.iter().enumerate() {
        let placed = plan.sheets.iter().flat_map(|kind| &kind.layout.placed).filter(|placed| placed.piece == index);
        assert_eq!(placed.count(), piece.most.unwrap() as usize);
    }
    assert!(plan.sheets.len() as u64 >= plan.lowest);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn every_plan_of_an_order_can_be_cut_and_makes_every_piece(
        sides in prop::collection::vec((15_u32..70, 15_u32..64, 1_u32..5), 1..5),
        offcut in (20_u32..70, 20_u32..64),
        kerf in 0_u32..4,
        may_turn: bool,
    ) {
        let pieces = sides.iter().map(|&(w, h, most)| piece(w, h, Some(most), may_turn)).collect();
        let job = order(&[(offcut.0, offcut.1, Some(1)), (70, 64, None)], kerf, pieces);
        let quick = first_fit(&job).unwrap();
        serves(&job, &quick);
        let found = best(&job).unwrap();
        serves(&job, &found);
        prop_assert!(found.sheets.len() <= quick.sheets.len());
    }
}

#[test]
fn strips_for_a_harp_come_off_the_fewest_sheets() {
    let job = |available| order(&[(6000, 20000, available)], 0, vec![piece(1200, 19500, Some(30), false)]);
    for plan in [first_fit(&job(None)).unwrap(), best(&job(None)).unwrap()] {
        serves(&job(None), &plan);
        assert_eq!((plan.sheets.len(), plan.is_proved()), (6, true));
    }
    assert_eq!(best(&job(Some(3))), Err(GuillotineError::TooFewSheets));
}

#[test]
fn pieces_of_which_no_two_fit_a_sheet_prove_their_number_of_sheets() {
    let job = order(&[(24400, 12200, None)], 32, vec![piece(20000, 9000, Some(3), false)]);
    let plan = best(&job).unwrap();
    assert_eq!((plan.sheets.len(), plan.lowest), (3, 3));
    let larger = order(&[(24400, 12200, None)], 32, vec![piece(20000, 13000, Some(1), false)]);
    assert_eq!(first_fit(&larger), Err(GuillotineError::PieceTooLarge(0)));
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
