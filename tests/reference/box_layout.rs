//! Joints by sums of carpentry, and screws of 10 000 random boxes against their holes as solid bodies.
//!
//! The bodies are built here from the sizes of the box alone, another way than along the line of screws.

use super::close as near;
use crate::support::Bench;
use crate::support::Dice;
use sunharp::model::Verdict::{Caution, Clear, Stop, Unknown};
use sunharp::physics::screw_layout::{ScrewLayoutError, ScrewLine, Span, equally_spaced};
use sunharp::stage::enclosure::entries::Corner;
use sunharp::stage::enclosure::joinery::BackSeat;
use sunharp::stage::enclosure::openings::Opening;
use sunharp::stage::enclosure::screws::{self, Line, Screws, Wood, lay_out};
use sunharp::units::si::{Dimension, Length};

fn random_box(dice: &mut Dice) -> (Wood, Screws) {
    let back_seat = dice.pick(&[BackSeat::Rebate, BackSeat::On, BackSeat::Between]);
    let mut mm = |low: f64, high: f64| Length::from_si(dice.between(low, high) * 1e-3);
    let rail_thickness = mm(18.0, 40.0);
    let board = mm(6.0, 18.0);
    let floor = if back_seat == BackSeat::On { Length::from_si(0.0) } else { board };
    let (tube, gap, glass) = (mm(22.0, 42.0), mm(15.0, 40.0), mm(8.0, 12.0));
    let stub_height = floor + mm(20.0, 80.0) + tube * 0.5;
    let ledge = stub_height + tube * 0.5 + gap;
    let half = tube * 0.5 + mm(6.0, 18.0);
    let long = mm(900.0, 2600.0);
    let end = rail_thickness + mm(20.0, 60.0) + tube * 0.5;
    let cut = |middle| Opening { middle, along: half * 2.0, bottom: stub_height - half, top: stub_height + half };
    let stub_cuts = vec![cut(end), cut(long - end)];
    let weep = mm(6.0, 10.0);
    let short = mm(500.0, 1400.0);
    let bottom = floor + Length::from_si(0.002);
    let weeps =
        [0.15, 0.5, 0.85].map(|at| Opening { middle: short * at, along: weep, bottom, top: bottom + weep }).to_vec();
    let strips = [0.3, 0.6].map(|at| Span::around(long * at, mm(10.0, 30.0))).to_vec();
    let wood = Wood {
        long,
        short,
        rail_thickness,
        rail_width: ledge + glass,
        floor,
        ledge,
        seat_width: rail_thickness * 0.6,
        board,
        back_seat,
        corner: Corner::Butt,
        stub_cuts,
        weeps,
        strips,
    };
    let screws = Screws {
        length: mm(30.0, 80.0),
        diameter: mm(3.0, 5.0),
        cap_length: mm(10.0, 18.0),
        cap_line: mm(14.0, 60.0),
        spacing: mm(100.0, 250.0),
        end: mm(25.0, 60.0),
    };
    (wood, screws)
}

/// A body between two corners: along the rail, and up from its back edge.
#[derive(Clone, Copy)]
struct Body {
    along: (f64, f64),
    up: (f64, f64),
}

impl Body {
    fn meets(self, other: Self) -> bool {
        let cross = |a: (f64, f64), b: (f64, f64)| a.0 < b.1 - 1e-9 && b.0 < a.1 - 1e-9;
        cross(self.along, other.along) && cross(self.up, other.up)
    }

    fn of(opening: &Opening) -> Self {
        let (middle, half) = (opening.middle.si(), opening.along.si() / 2.0);
        Self { along: (middle - half, middle + half), up: (opening.bottom.si(), opening.top.si()) }
    }
}

/// The screw itself as a body, in the rail that its line is named after.
fn body(wood: &Wood, screws: &Screws, line: &Line, at: Length) -> Body {
    let half = screws.diameter.si() / 2.0;
    let along = (at.si() - half, at.si() + half);
    let flat = |height: f64| (height - half, height + half);
    let up = if line.name.starts_with("glass cap") {
        flat(wood.rail_width.si() - screws.cap_line.si())
    } else {
        match wood.back_seat {
            BackSeat::On => (0.0, screws.length.si() - wood.board.si()),
            BackSeat::Between => flat(wood.board.si() / 2.0),
            BackSeat::Rebate | BackSeat::Groove => (0.0, screws.length.si()),
        }
    };
    Body { along, up }
}

fn openings<'a>(wood: &'a Wood, line: &Line) -> &'a [Opening] {
    match line.name {
        "back board, long side" | "glass cap, long side" => &wood.stub_cuts,
        "back board, lower side" => &wood.weeps,
        _ => &[],
    }
}

fn hits(wood: &Wood, screws: &Screws, line: &Line, positions: &[Length]) -> bool {
    let meets =
        |at: &Length| openings(wood, line).iter().any(|hole| body(wood, screws, line, *at).meets(Body::of(hole)));
    positions.iter().any(meets)
}

#[test]
fn no_screw_meets_a_hole_in_ten_thousand_random_boxes_where_equal_spacing_often_does() {
    let mut dice = Dice(0x5eed_cafe_f00d_0001);
    let (mut equal_collides, mut without_layout) = (0, 0);
    for _ in 0..10_000 {
        let (wood, screws) = random_box(&mut dice);
        let mut this_collides = false;
        for line in lay_out(&wood, &screws) {
            match &line.positions {
                Ok(found) => {
                    assert!(!hits(&wood, &screws, &line, found), "{} of {wood:?} {screws:?}", line.name);
                    assert!(found.iter().all(|at| line.obstacles.iter().all(|obstacle| !obstacle.span.holds(*at))));
                }
                Err(error) => {
                    assert_eq!(*error, ScrewLayoutError::NoLayout, "{}", line.name);
                    without_layout += 1;
                }
            }
            if line.name.starts_with("corner") {
                continue;
            }
            let naive = equally_spaced(&ScrewLine {
                length: line.length,
                end_distance: screws.end,
                least_spacing: screws.diameter,
                most_spacing: screws.spacing,
                kept_clear: &[],
            });
            this_collides |= hits(&wood, &screws, &line, &naive.unwrap());
        }
        equal_collides += i32::from(this_collides);
    }
    assert!(equal_collides >= 2000, "{equal_collides} of 10000 boxes collide with equal spacing");
    assert!(without_layout > 0, "boxes without a layout occur, and the program says so");
}

#[test]
fn no_screw_meets_a_hole_in_any_sample() {
    for sample in ["garden-washroom", "harbour-laundry", "boatyard-shower"] {
        let path = format!("{}/sample-projects/{sample}.toml", env!("CARGO_MANIFEST_DIR"));
        let drawn = Bench::of(&std::fs::read_to_string(path).unwrap()).evaluate().drawn.clone();
        let (timber_box, openings) = (&drawn.enclosure.timber_box, &drawn.enclosure.openings);
        let wood = screws::wood(&drawn.inputs, timber_box.as_ref().unwrap(), openings.as_ref().unwrap()).unwrap();
        let used = screws::screws(&drawn.inputs).unwrap();
        let lines = drawn.enclosure.screws.as_ref().unwrap();
        assert!(lines.iter().any(|line| line.positions.as_ref().is_ok_and(|found| !found.is_empty())), "{sample}");
        for line in lines {
            let Ok(found) = &line.positions else { continue };
            assert!(!hits(&wood, &used, line, found), "{sample}: {}", line.name);
        }
    }
}

/// Carpentry by hand for a box of 976 × 1976 mm inside with rails of 19 mm: a rabbet of half the rail on each side, a
/// rebate of half the rail less 1.5 mm on each side, a groove of a third.
#[test]
fn short_rails_and_back_boards_have_the_lengths_of_their_joints() {
    let bench = Bench::small();
    let part = |bench: &Bench, row: u8| bench.number(&format!("enclosure.part_length.{row}")) * 1e3;
    for (corner, short) in [("butt", 976.0), ("rabbet", 976.0 + 19.0), ("half-lap", 1014.0), ("mitre", 1014.0)] {
        let joined = bench.clone().with("enclosure.corner", corner);
        near(part(&joined, 2), short, 1e-6);
        near(part(&joined, 1), 2014.0, 1e-6);
    }
    let given = bench.clone().with("enclosure.corner", "rabbet").with("enclosure.corner_rabbet", "6 mm");
    near(part(&given, 2), 988.0, 1e-6);
    for (seat, board, rail) in [
        ("between", 1976.0, 122.575),
        ("rebate", 1976.0 + 19.0 - 3.0, 122.575),
        ("groove", 1976.0 + 38.0 / 3.0 - 3.0, 132.575),
        ("on", 2014.0, 110.575),
    ] {
        let seated = bench.clone().with("enclosure.back_seat", seat);
        near(part(&seated, 3), board, 1e-6);
        near(seated.number("enclosure.rail_width") * 1e3, rail, 1e-6);
    }
}

/// The budget adds up: 12 + 50 + 28.575 + 25 + 4 + 3 mm; the seat is glass and two tapes.
#[test]
fn the_depth_budget_adds_up_to_the_rail() {
    let bench = Bench::small();
    near(bench.number("enclosure.depth_up_to.6") * 1e3, 122.575, 1e-6);
    near(bench.number("enclosure.depth_of.3") * 1e3, 28.575, 1e-6);
    near(bench.number("enclosure.seat_depth") * 1e3, 10.0, 1e-9);
    let free = bench.with("enclosure.under_clearance", "5 mm");
    near(free.number("enclosure.depth_up_to.7") * 1e3, 127.575, 1e-6);
}

/// A 1x6 is 3/4 by 5-1/2 in dressed (trade page); southern pine moves 0.259 % a percent (Wood Handbook table 13-5): 6 %
/// of 122.6 mm are 1.9 mm.
#[test]
fn boards_of_the_trade_are_judged_by_their_real_size() {
    let bench = Bench::small();
    assert_eq!(bench.verdict("enclosure.rail-board"), Unknown);
    let named = |name: &str| bench.clone().with("enclosure.rail_board", name);
    assert_eq!(named("1x6").verdict("enclosure.rail-board"), Clear);
    assert_eq!(named("1x4").verdict("enclosure.rail-board"), Stop);
    assert_eq!(named("2x6").verdict("enclosure.rail-board"), Caution);
    near(named("1x6").number("enclosure.board_width") * 1e3, 139.7, 0.5);
    let pine = bench.with("enclosure.timber", "Southern pine").number("enclosure.rail_movement");
    near(pine * 1e3, 0.122_575 * 0.00259 * 6.0 * 1e3, 1e-6);
}

/// By hand: 19 + 25 + 10 + 28.575/2 from the lower end; the upper header a spacing further, shifted by half its growth.
#[test]
fn stub_holes_lie_on_the_headers_and_the_sliding_one_is_longer() {
    let bench = Bench::small();
    let growth = bench.number("enclosure.riser_growth") * 1e3;
    near(bench.number("enclosure.stub_hole_lower") * 1e3, 68.2875, 1e-6);
    near(bench.number("enclosure.stub_hole_upper") * 1e3, 68.2875 + 1877.425 + growth / 2.0, 1e-6);
    near(bench.number("enclosure.stub_hole_height") * 1e3, 12.0 + 50.0 + 14.2875, 1e-6);
    near(bench.number("enclosure.stub_cut_length") * 1e3, 28.575 + 6.0 + 24.0 + growth, 1e-6);
    let far = bench.number("enclosure.header_growth").hypot(bench.number("enclosure.riser_growth")) * 1e3;
    near(bench.number("enclosure.clip_way") * 1e3, far + 3.0, 1e-6);
    let held = bench.clone().with("enclosure.fixed_at", "middle");
    near(held.number("enclosure.stub_hole_lower") * 1e3, 68.2875 - growth / 4.0, 1e-6);
    // Twelve millimetres of sleeve are the default and the rule; wood on bare copper is a stop.
    assert_eq!(bench.verdict("enclosure.stub-hole"), Clear);
    assert_eq!(bench.clone().with("enclosure.sleeve", "11.9 mm").verdict("enclosure.stub-hole"), Caution);
    assert_eq!(bench.clone().with("enclosure.sleeve", "0 mm").verdict("enclosure.stub-hole"), Stop);
    assert_eq!(bench.clone().with("enclosure.sleeve", "22 mm").verdict("enclosure.stub-hole"), Stop);
    // A harp that is wider than high: the header's own growth decides, and the lower slot is never shorter than it.
    let wide = bench.clone().with("absorber.header_spacing", "600 mm");
    let own = wide.number("enclosure.header_growth") * 1e3;
    near(wide.number("enclosure.stub_cut_length") * 1e3, 28.575 + 6.0 + 24.0 + own, 1e-6);
    near(wide.number("enclosure.stub_hole_length") * 1e3, 28.575 + 6.0 + own, 1e-6);
    let roomy = bench.with("enclosure.sleeve", "22.1 mm").with("enclosure.air_gap", "45 mm");
    assert_eq!(roomy.verdict("enclosure.stub-hole"), Clear);
}

#[test]
fn a_line_without_any_layout_is_a_stop_and_says_which() {
    let bench = Bench::small().with("enclosure.back_seat", "rebate").with("enclosure.screw_length", "75 mm");
    assert_eq!(bench.verdict("enclosure.screw-layout"), Clear);
    let tight = bench.clone().with("enclosure.screw_spacing", "80 mm");
    assert_eq!(tight.verdict("enclosure.screw-layout"), Stop);
    assert_eq!(tight.part("enclosure.screw-layout"), "back board, long side");
    let into_glass = bench.with("enclosure.cap_screw_line", "8 mm");
    assert_eq!(into_glass.part("enclosure.screw-layout"), "glass cap, long side");
}
