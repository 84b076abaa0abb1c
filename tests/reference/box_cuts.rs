//! Cut plans of the project, from stock to marks: they can be cut as they stand and give every part.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::close as near;
use crate::support::{Bench, SMALL};
use sunharp::model::Why;
use sunharp::project::store::RealDisk;
use sunharp::stage::enclosure::cutting::{self, TimberCut, marks};
use sunharp::stage::enclosure::sheets::{self, SheetCutting};
use sunharp::stage::study::{Cancel, Outcome};
use sunharp::units::si::Dimension;
use sunharp::workbook::sample;

const STOCK: &str = r#"
[enclosure.timber_stock.a-short]
length = "2.44 m"
count = 3
defects = "1.2 m to 1.26 m"

[enclosure.timber_stock.b-long]
length = "4.2 m"

[enclosure.sheet_stock.a-ply]
length = "2.44 m"
width = "1.22 m"

[enclosure.sheet_stock.b-wool]
material = "insulation behind"
length = "1.2 m"
width = "0.6 m"

[enclosure.sheet_stock.c-strips]
material = "insulation around"
length = "1.2 m"
width = "0.6 m"

[enclosure.sheet_stock.d-copper]
material = "absorber sheet"
length = "2 m"
width = "0.61 m"

[panel.A]

[panel.B]
"#;

fn stocked() -> Bench {
    Bench::of(&SMALL.replace("\n[panel.A]\n", STOCK))
}

fn timber(bench: &Bench) -> (Arc<Vec<TimberCut>>, Arc<Vec<TimberCut>>) {
    let drawn = bench.evaluate().drawn.clone();
    let Some(Outcome::TimberCuts(exact)) = cutting::study(&drawn, &Cancel::default()) else { panic!("cancelled") };
    (drawn.enclosure.timber_cuts.clone().unwrap(), exact.unwrap())
}

fn sheet(bench: &Bench) -> (Arc<Vec<SheetCutting>>, Arc<Vec<SheetCutting>>) {
    let drawn = bench.evaluate().drawn.clone();
    let Some(Outcome::SheetCuts(full)) = sheets::study(&drawn, &Cancel::default()) else { panic!("cancelled") };
    (drawn.enclosure.sheet_cuts.clone().unwrap(), full.unwrap())
}

/// The marks of a plan: parts of their length, apart by the kerf, within the usable stretch; every part there.
fn can_be_cut(cuts: &[TimberCut], wanted: &[(&str, f64, usize)], kerf: f64) {
    let marks = marks(cuts);
    let mut made: BTreeMap<&str, usize> = BTreeMap::new();
    let mut last: BTreeMap<&str, f64> = BTreeMap::new();
    for mark in &marks {
        let (from, at) = (mark.from.si() * 1e3, mark.at.si() * 1e3);
        let length = wanted.iter().find(|(name, ..)| *name == mark.part).unwrap().1;
        near(at - from, length, 0.051);
        if let Some(before) = last.insert(&mark.bar, at) {
            near(from - before, kerf, 1e-6);
        }
        *made.entry(mark.part).or_default() += 1;
        let bar = cuts.iter().flat_map(|cut| &cut.job.bars);
        let on = |bar: &&cutting::Bar| {
            mark.bar.starts_with(&bar.name)
                && bar.stretch.from.length().si() * 1e3 <= from + 1e-6
                && at <= bar.stretch.to.length().si() * 1e3 + 1e-6
        };
        assert!(bar.into_iter().any(|bar| on(&bar)), "{mark:?} lies in a defect or in the trim");
    }
    for (name, _, count) in wanted {
        assert_eq!(made.get(name), Some(count), "{name}");
    }
}

/// By hand: each short board has two stretches, 10 to 1200 and 1260 to 2430 mm: one short rail of 976 mm in each. Four
/// short rails come from two of them; four long rails of 2014 mm come two by two from boards of 4200 mm, since
/// 2 × 2014 + 3.2 is less than 4180.
#[test]
fn rails_of_two_panels_come_from_the_boards_worked_out_by_hand() {
    let (first, exact) = timber(&stocked());
    for cuts in [&first, &exact] {
        can_be_cut(cuts, &[("long rail", 2014.0, 4), ("short rail", 976.0, 4)], 3.2);
    }
    assert!(exact.iter().all(|cut| cut.plan.is_proved()));
    assert_eq!(exact[0].plan.bars.len(), 6);
    let long = |cut: &TimberCut| cut.plan.bars.iter().filter(|bar| cut.job.bars[bar.stock].name == "b-long").count();
    assert_eq!(long(&exact[0]), 2);
}

#[test]
fn strips_of_wood_are_cut_from_boards_of_their_own() {
    let bench = stocked().with("enclosure.strip_height", "20 mm");
    let Err(Why::Missing(ids)) = bench.evaluate().drawn.enclosure.timber_cuts.clone() else {
        panic!("there are boards")
    };
    assert_eq!(ids, ["enclosure.timber_stock.*.length"]);
}

#[test]
fn defects_that_cannot_be_read_are_named_and_a_rail_too_long_is_told() {
    let evaluation = |bench: Bench| bench.evaluate().drawn.enclosure.timber_cuts.clone();
    let odd = stocked().with("enclosure.timber_stock.a-short.defects", "near the middle");
    let Err(Why::Invalid(ids)) = evaluation(odd) else { panic!("it was read") };
    assert_eq!(ids, ["enclosure.timber_stock.a-short.defects"]);
    let short = stocked().with("enclosure.timber_stock.b-long.length", "2 m");
    let Err(Why::OutOfRange(told)) = evaluation(short) else { panic!("it was cut") };
    assert!(told.contains("long rail"), "{told}");
}

/// Area of all pieces, m².
fn area(cut: &SheetCutting) -> f64 {
    let of = |piece: &sunharp::physics::guillotine::Piece| {
        piece.sides.width.length().si() * piece.sides.height.length().si() * f64::from(piece.most.unwrap())
    };
    cut.job.order.pieces.iter().map(of).sum()
}

/// By hand: two back boards of 1976 × 976 mm need a sheet each; the inside of 0.976 × 1.976 m is covered twice; the
/// absorber of 906 × 1812.03 mm (between the mouths of the tees, 20 + 12.7 mm from each header's axis) comes in strips
/// that meet midway between risers.
#[test]
fn sheets_of_two_panels_give_every_piece_and_cover_what_they_shall() {
    let (first, full) = sheet(&stocked());
    for cuts in [&first, &full] {
        assert_eq!(cuts.len(), 4);
        near(area(&cuts[0]), 2.0 * 1.976 * 0.976, 1e-4);
        near(area(&cuts[1]), 2.0 * 1.976 * 0.976, 1e-4);
        near(area(&cuts[2]), 2.0 * 2.0 * (1.976 + 0.926) * 0.053_575, 1e-3);
        near(area(&cuts[3]), 2.0 * 0.906 * 1.812_025, 1e-3);
        for cut in cuts.iter() {
            for (index, piece) in cut.job.order.pieces.iter().enumerate() {
                let placed = cut.plan.sheets.iter().flat_map(|kind| &kind.layout.placed);
                let made = placed.filter(|placed| placed.piece == index).count();
                assert_eq!(made, piece.most.unwrap() as usize);
            }
            for number in 0..cut.plan.sheets.len() {
                assert!(cut.sequence(number).is_some());
            }
        }
    }
    assert_eq!((first[0].plan.sheets.len(), first[0].plan.is_proved()), (2, true));
    assert!(full.iter().zip(first.iter()).all(|(a, b)| a.plan.sheets.len() <= b.plan.sheets.len()));
}

#[test]
fn a_back_board_wider_than_every_sheet_is_told() {
    let narrow = stocked().with("enclosure.sheet_stock.a-ply.width", "900 mm");
    let Err(Why::OutOfRange(told)) = narrow.evaluate().drawn.enclosure.sheet_cuts.clone() else { panic!("it was cut") };
    assert!(told.contains("back board"), "{told}");
}

/// A change of glass thickness, tilt or stub size shows at once which checks, cuts and cards move.
#[test]
fn a_change_shows_at_once_which_checks_cuts_and_cards_move() {
    let workbook = sample::open(Arc::new(RealDisk), jiff::civil::date(2026, 5, 1));
    let moved = |id: &str, typed: &str| {
        let (_, differences) = workbook.preview(id, typed).unwrap();
        let figures: Vec<String> = differences.moved.iter().map(|moved| moved.address.id.clone()).collect();
        let cards: Vec<&str> = differences.cards().iter().map(|card| card.id).collect();
        let flips: Vec<&str> = differences.flips.iter().map(|flip| flip.check).collect();
        (figures, cards, flips)
    };
    let (figures, cards, _) = moved("enclosure.glass_thickness", "1/4 in");
    for id in ["enclosure.rail_width", "enclosure.glass_mass", "enclosure.mass_dry", "enclosure.part_width.1"] {
        assert!(figures.iter().any(|moved| moved == id), "{id} of {figures:?}");
    }
    assert!(cards.contains(&"enclosure.box"), "{cards:?}");

    let (figures, _, _) = moved("site.tilt", "3/12");
    for id in ["absorber.stagnation_worst", "enclosure.back_face", "enclosure.rail_face", "enclosure.riser_growth"] {
        assert!(figures.iter().any(|moved| moved == id), "{id} of {figures:?}");
    }

    let (figures, cards, _) = moved("absorber.header_tube", "1-1/2 in type M");
    for id in ["enclosure.stub_hole_width", "enclosure.stub_cut_length"] {
        assert!(figures.iter().any(|moved| moved == id), "{id} of {figures:?}");
    }
    assert!(cards.contains(&"enclosure.stub-slots"), "{cards:?}");
    let (_, _, wide) = moved("enclosure.sleeve", "1 1/4 in");
    assert!(wide.contains(&"enclosure.stub-hole"), "{wide:?}");
}
