//! How the box is put together: depth budget, seat of the back board, corners, boards of the trade, moisture.
//!
//! Sizes are computed in `timber`; this file asks, shows and judges.

use super::entries::{self as e, Corner};
use super::timber::{DepthLayer, TimberBox, corner_rabbet};
use super::{BOX, Results};
use crate::handbook::timber::{self, Lumber};
use crate::model::{Choice, Entry, EntrySpec, Fig, Inputs, Judgement, Value, Verdict, Why};
use crate::physics::timber::{MoistureChange, movement};
use crate::stage::worst::worst;
use crate::stage::{Axis, Check, Figure, Group, Severity, Solution};
use crate::units::Kind;
use crate::units::si::{Dimension, Length, Ratio};

/// Free space under the tubes.
pub static UNDER: Entry<Length> = Entry::quantity("enclosure.under_clearance", "free space under the tubes")
    .why("between insulation and tubes; 0 mm where they lie on it")
    .hard(0.0, 0.1)
    .usual(0.0, 0.02)
    .default("0 mm");

/// Tape of the glass.
pub static TAPE: Entry<Length> = Entry::quantity("enclosure.glazing_tape", "glazing tape")
    .why("under and over the glass, as it lies compressed; glass must not touch wood or metal")
    .hard(0.0, 0.02)
    .usual(0.001, 0.006)
    .default("3 mm");

/// Seat of the back board.
pub static BACK_SEAT: Entry<BackSeat> = Entry::choice("enclosure.back_seat", "seat of the back board")
    .why("decides the size of the board, the width of the rails and where screws can go")
    .default("between");

/// Depth of that seat.
pub static BOARD_SEAT: Entry<Length> = Entry::quantity("enclosure.board_seat", "board reaches into a rail")
    .why("width of the rebate, or depth of the groove; half or a third of the rail if left out")
    .hard(0.001, 0.1);

/// Depth of a corner rabbet.
pub static CORNER_RABBET: Entry<Length> = Entry::quantity("enclosure.corner_rabbet", "depth of the corner rabbet")
    .why("how far a short rail reaches into a long one; half the rail if left out")
    .hard(0.001, 0.1);

/// The board of the trade for the rails.
pub static RAIL_BOARD: Entry<String> = Entry::listed("enclosure.rail_board", "board for the rails", lumber_names)
    .why("the name it is sold under; a 1x6 is 3/4 by 5-1/2 in when it is dressed");

/// Driest that the rails become.
pub static DRY: Entry<Ratio> = Entry::percent("enclosure.moisture_dry", "timber at its driest")
    .why("moisture after a hot summer: 6 % from memory")
    .hard(0.06, 0.14)
    .default("6 %");

/// Wettest that the rails become.
pub static WET: Entry<Ratio> = Entry::percent("enclosure.moisture_wet", "timber at its wettest")
    .why("moisture in the shop or after a wet winter: 12 % from memory")
    .hard(0.06, 0.14)
    .default("12 %");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &UNDER.spec,
    &TAPE.spec,
    &BACK_SEAT.spec,
    &BOARD_SEAT.spec,
    &CORNER_RABBET.spec,
    &RAIL_BOARD.spec,
    &DRY.spec,
    &WET.spec,
];

/// How the back board is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BackSeat {
    /// Between the rails.
    Between,
    /// In a rebate at the back of the rails.
    Rebate,
    /// In a groove of the rails.
    Groove,
    /// Behind the rails, to the outside.
    On,
}

impl Choice for BackSeat {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Between, "between", "stands between the rails, screwed through them into its edge"),
        (Self::Rebate, "rebate", "lies in a rebate at the back of the rails, screwed from behind"),
        (Self::Groove, "groove", "slides in a groove of the rails, no screws; goes in with the last rail"),
        (Self::On, "on", "lies on the back of the rails, screwed from behind"),
    ];
}

fn lumber_names() -> Vec<(&'static str, &'static str)> {
    timber::us_lumber().all().iter().chain(timber::metric_lumber().all()).map(|row| (row.name.as_str(), "")).collect()
}

/// The board of the trade, where one is named.
fn lumber(inputs: &Inputs) -> Fig<&'static Lumber> {
    let name = inputs.get(&RAIL_BOARD)?;
    let found = timber::us_lumber().get(&name).or_else(|| timber::metric_lumber().get(&name));
    found.ok_or_else(|| Why::Invalid(vec![RAIL_BOARD.spec.id.to_owned()]))
}

/// The board of the trade.
pub static BOARD: Group = Group { name: "board of the trade", entries: &["enclosure.rail_board"], groups: &[] };

/// Movement of the rails.
pub static MOISTURE: Group = Group {
    name: "movement of the rails",
    entries: &["enclosure.timber", "enclosure.moisture_dry", "enclosure.moisture_wet"],
    groups: &[&BOX],
};

/// Movement of dressed softwood for which no row of its own is known, 1/%: the fall of PS 20's shrinkage with moisture,
/// 0.215 % of the width a percent (FPL-RP-489, verified).
const SOFTWOOD_MOVEMENT: f64 = 0.002_15;

/// Movement along the rings of the species entered, 1/%.
fn movement_coefficient(inputs: &Inputs) -> Fig<f64> {
    let row = match inputs.get(&e::TIMBER)?.as_str() {
        "Southern pine" => "southern pine loblolly",
        "Douglas fir-larch" => "Douglas-fir coast",
        "Western cedars" => "western redcedar",
        _ => return Ok(SOFTWOOD_MOVEMENT),
    };
    Ok(timber::species().get(row).map_or(SOFTWOOD_MOVEMENT, |species| species.tangential))
}

/// What a rail's width moves between its driest and its wettest.
fn rail_movement(inputs: &Inputs, results: &Results) -> Fig<Length> {
    let width = results.timber_box.as_ref().map_err(Why::clone)?.rail_width;
    let change =
        MoistureChange { from_percent: inputs.get(&DRY)?.si() * 100.0, to_percent: inputs.get(&WET)?.si() * 100.0 };
    Ok(movement(width, movement_coefficient(inputs)?, change).map_err(Why::out_of_range)?.abs())
}

fn timber_box(s: &Solution) -> Fig<&TimberBox> {
    s.enclosure.timber_box.as_ref().map_err(Clone::clone)
}

fn layer<'a>(s: &'a Solution, key: &str) -> Fig<&'a DepthLayer> {
    let row: usize = key.parse().map_err(|_| Why::missing("enclosure.depth_name"))?;
    row.checked_sub(1)
        .and_then(|row| timber_box(s).ok()?.depth.get(row))
        .ok_or_else(|| Why::missing("enclosure.depth_name"))
}

/// Difference within which a thickness is that of the board, m.
const SAME_BOARD: f64 = 0.001;
/// Least wood beside a rebate, a groove or a rabbet, m (project rule).
const LEAST_WOOD: f64 = 0.005;

fn board_of_the_trade(s: &Solution) -> Fig<Judgement> {
    let board = lumber(&s.inputs)?;
    let timber_box = timber_box(s)?;
    let off = (timber_box.rail_thickness - board.thickness).abs();
    let same = Judgement::caution_unless(off.si() <= SAME_BOARD)
        .with(timber_box.rail_thickness, board.thickness)
        .margin(Length::from_si(SAME_BOARD) - off)
        .part("thickness");
    let wide = Judgement::stop_unless(board.width >= timber_box.rail_width)
        .with(timber_box.rail_width, board.width)
        .margin(board.width - timber_box.rail_width)
        .part("width");
    worst([Ok(same), Ok(wide)])
}

fn joints(s: &Solution) -> Fig<Judgement> {
    let timber_box = timber_box(s)?;
    let rail = timber_box.rail_thickness;
    let least = Length::from_si(LEAST_WOOD);
    let leaves = |seat: Length, part: &str| {
        let left = rail - seat;
        Judgement::stop_unless(left >= least).with(left, least).margin(left - least).part(part)
    };
    let seat = timber_box.board_seat;
    let board = match timber_box.back_seat {
        BackSeat::Groove => {
            let third = rail / 3.0;
            Judgement::caution_unless(seat.si() <= third.si() + 1e-9)
                .with(seat, third)
                .margin(third - seat)
                .part("groove of the back board")
        }
        BackSeat::Rebate => leaves(seat, "rail beside the rebate of the back board"),
        BackSeat::Between | BackSeat::On => Judgement::of(Verdict::Clear).part("back board without rebate"),
    };
    let corner = match s.inputs.get(&e::CORNER)? {
        Corner::Rabbet => leaves(corner_rabbet(&s.inputs, rail)?, "long rail beside the corner rabbet"),
        Corner::Butt | Corner::Mitre | Corner::HalfLap => Judgement::of(Verdict::Clear).part("corner without rabbet"),
    };
    worst([Ok(board), Ok(corner)])
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::word("enclosure.depth_name", "layer of the depth", &BOX, |s, key| {
        Ok(Value::Text(layer(s, key)?.name.to_owned()))
    })
    .axis(Axis::DepthLayer)
    .by("box-sizes", "from the back of the box to the top of the rails", &[]),
    Figure::new("enclosure.depth_of", "thickness of the layer", Kind::Length, &BOX, |s, key| {
        Ok(layer(s, key)?.thickness.into())
    })
    .axis(Axis::DepthLayer)
    .tape()
    .by("box-sizes", "as entered, the header by its tube", &[]),
    Figure::new("enclosure.depth_up_to", "from the back to its upper face", Kind::Length, &BOX, |s, key| {
        Ok(layer(s, key)?.up_to.into())
    })
    .axis(Axis::DepthLayer)
    .tape()
    .by("box-sizes", "sum of the layers so far", &[]),
    Figure::new("enclosure.rail_width", "width of the rails", Kind::Length, &BOX, |s, _| {
        Ok(timber_box(s)?.rail_width.into())
    })
    .tape()
    .by(
        "box-sizes",
        "back board or not by {seat}, {height} to the glass, {glass} and {tape} over it",
        &[
            ("seat", "enclosure.back_seat"),
            ("height", "enclosure.inside_height"),
            ("glass", "enclosure.glass_thickness"),
            ("tape", "enclosure.glazing_tape"),
        ],
    ),
    Figure::new("enclosure.seat_depth", "depth of the glass seat", Kind::Length, &BOX, |s, _| {
        Ok(timber_box(s)?.seat_depth.into())
    })
    .tape()
    .by(
        "box-sizes",
        "{glass} + 2 × {tape}",
        &[("glass", "enclosure.glass_thickness"), ("tape", "enclosure.glazing_tape")],
    ),
    Figure::new("enclosure.board_in_rail", "board reaches into each rail", Kind::Length, &BOX, |s, _| {
        Ok(timber_box(s)?.board_seat.into())
    })
    .tape()
    .by(
        "cut-list",
        "{seat}: half the rail in a rebate, a third in a groove, unless entered",
        &[("seat", "enclosure.back_seat")],
    ),
    Figure::new("enclosure.outside_diagonal", "diagonal of the outside", Kind::Length, &BOX, |s, _| {
        let timber_box = timber_box(s)?;
        Ok(timber_box.outside_width.hypot(timber_box.outside_length).into())
    })
    .tape()
    .by("square-check", "√({a}² + {b}²)", &[("a", "enclosure.outside_width"), ("b", "enclosure.outside_length")]),
    Figure::new("enclosure.board_width", "real width of the board", Kind::Length, &BOARD, |s, _| {
        Ok(lumber(&s.inputs)?.width.into())
    })
    .tape()
    .by("timber-table", "handbook row of {name}", &[("name", "enclosure.rail_board")]),
    Figure::new("enclosure.board_thickness", "real thickness of the board", Kind::Length, &BOARD, |s, _| {
        Ok(lumber(&s.inputs)?.thickness.into())
    })
    .tape()
    .by("timber-table", "handbook row of {name}", &[("name", "enclosure.rail_board")]),
    Figure::new("enclosure.rail_movement", "rail's width moves", Kind::Length, &MOISTURE, |s, _| {
        Ok(rail_movement(&s.inputs, &s.enclosure)?.into())
    })
    .by(
        "timber-movement",
        "{width} × C × ({wet} − {dry})",
        &[("width", "enclosure.rail_width"), ("wet", "enclosure.moisture_wet"), ("dry", "enclosure.moisture_dry")],
    ),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("enclosure.rail-board", "board of the trade for the rails", Severity::Nuisance, board_of_the_trade)
        .says(
            "The {part} of the rails is {found}; the board of the trade has {limit}.",
            "Another board; what is wider is ripped to {enclosure.rail_width}. Enter the thickness that the board really \
             has.",
        )
        .blind_to("what was really bought: measure it; warp, knots and wane")
        .source("dressed sizes: trade page (verified)")
        .recalls("metric sections")
        .needs(&["enclosure.rail_width", "enclosure.board_width", "enclosure.board_thickness"]),
    Check::new("enclosure.joints", "rebates, grooves and corners", Severity::Injury, joints)
        .says(
            "{part}: {found} against {limit}.",
            "A thicker rail, a shallower rebate, or a groove of a third of the rail at most.",
        )
        .blind_to("glue, screws and the run of the grain; a butt corner holds by its screws in end grain alone")
        .source("5 mm of wood left: project rule")
        .recalls("a third for grooves: shop practice")
        .needs(&["enclosure.board_in_rail", "enclosure.rail_thickness", "enclosure.corner", "enclosure.corner_rabbet"]),
];
