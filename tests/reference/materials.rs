//! The bill of materials against sums by hand.

use super::close as near;
use crate::support::Bench;
use sunharp::model::{Address, Why};
use sunharp::units::System;

fn text(bench: &Bench, id: &str) -> String {
    bench.evaluate().text(&Address::drawn(id), System::Si)
}

/// Nine risers of 1837.425 mm are 16.537 m, with 5 % of scrap 17.364 m: three lengths of 6 m; one lies there, so two are
/// bought, and 0.106 of a length is left. Two at 40 are 80.
#[test]
fn pieces_to_buy_and_what_is_left_are_those_of_the_sum_by_hand() {
    let bench = Bench::small()
        .with("materials.riser-tube.length", "6 m")
        .with("materials.riser-tube.on_hand", "1")
        .with("materials.riser-tube.price", "40");
    near(bench.number("enclosure.bill_pieces.riser-tube"), 9.0 * 1.837_425 * 1.05 / 6.0, 1e-9);
    near(bench.number("enclosure.bill_buy.riser-tube"), 2.0, 1e-9);
    near(bench.number("enclosure.bill_left.riser-tube"), 3.0 - 9.0 * 1.837_425 * 1.05 / 6.0, 1e-9);
    near(bench.number("enclosure.bill_cost.riser-tube"), 80.0, 1e-9);
    // Both bought, and haggled down to 70 in all: that is the cost now.
    let bought = bench.with("materials.riser-tube.bought", "2").with("materials.riser-tube.paid", "70");
    near(bought.number("enclosure.bill_buy.riser-tube"), 0.0, 1e-9);
    near(bought.number("enclosure.bill_cost.riser-tube"), 70.0, 1e-9);
    // Without scrap the same three lengths.
    near(
        bought.with("materials.riser-tube.scrap", "0 %").number("enclosure.bill_pieces.riser-tube"),
        2.756_137_5,
        1e-9,
    );
}

/// A sheet of 906 × 1812.03 mm, from tee to tee, is 1.642 m², with 5 % of scrap 1.724 m²; pieces of 1 × 2 m hold 2 m².
#[test]
fn sheets_are_counted_by_area() {
    let sheet =
        Bench::small().with("materials.absorber-sheet.length", "2 m").with("materials.absorber-sheet.width", "1 m");
    near(sheet.number("enclosure.bill_pieces.absorber-sheet"), 0.906 * 1.812_025 * 1.05 / 2.0, 1e-9);
    near(sheet.number("enclosure.bill_buy.absorber-sheet"), 1.0, 1e-9);
}

#[test]
fn a_line_without_size_or_price_is_unknown_and_says_what_it_needs() {
    let bench = Bench::small();
    let evaluation = bench.evaluate();
    let line = evaluation.drawn.bill.line("riser-tube").unwrap();
    assert_eq!(line.to_buy(), Err(Why::missing("materials.riser-tube.length")));
    let priced = bench.with("materials.riser-tube.length", "6 m").evaluate();
    assert_eq!(priced.drawn.bill.line("riser-tube").unwrap().cost(), Err(Why::missing("materials.riser-tube.price")));
    let Err(Why::Missing(ids)) = priced.drawn.bill.cost() else { panic!("the bill has no price") };
    assert!(
        ids.contains(&"materials.riser-tube.price".to_owned()) && ids.contains(&"materials.solder.mass".to_owned())
    );
    // The small project has no rack yet: it is named as not counted.
    assert!(text(&Bench::small(), "enclosure.bill_open").contains("the rack"));
}

#[test]
fn the_builder_adds_lines_of_their_own() {
    let bench = Bench::small()
        .with("materials.pump.item", "circulator")
        .with("materials.pump.shelf", "plumbing")
        .with("materials.pump.needed", "1")
        .with("materials.pump.price", "210");
    assert_eq!(text(&bench, "enclosure.bill_item.pump"), "circulator");
    assert_eq!(text(&bench, "enclosure.bill_shelf.pump"), "Pipe, fittings, plant");
    near(bench.number("enclosure.bill_cost.pump"), 210.0, 1e-9);
}

#[test]
fn lines_stand_in_the_order_of_the_shop_and_no_key_twice() {
    let bill = Bench::small().evaluate().drawn.bill.clone();
    assert!(bill.lines.windows(2).all(|two| two[0].shelf <= two[1].shelf));
    for line in &bill.lines {
        assert_eq!(bill.lines.iter().filter(|other| other.key == line.key).count(), 1, "{}", line.key);
    }
    // Both kinds of rail come from one board of one section: one line.
    assert_eq!(bill.line("rail-timber").unwrap().purposes, ["long rail", "short rail"]);
}

/// By hand: the second layer covers the inside of the box, 0.976 × 1.976 m, with 5 % of scrap; boards of 1.2 × 0.6 m.
#[test]
fn a_second_layer_of_insulation_is_on_the_bill() {
    let one = Bench::small();
    assert!(one.evaluate().drawn.bill.line("second-insulation").is_err());
    let two = one
        .with("enclosure.second_insulation", "phenolic foam C1126")
        .with("enclosure.second_thickness", "25 mm")
        .with("materials.second-insulation.length", "1.2 m")
        .with("materials.second-insulation.width", "0.6 m");
    near(two.number("enclosure.bill_pieces.second-insulation"), 0.976 * 1.976 * 1.05 / 0.72, 1e-9);
}
