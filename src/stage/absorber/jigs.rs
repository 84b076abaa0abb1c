//! Jigs that follow from the design: line marker, header cradles, square board with stops, clamps for the sheet.
//!
//! What they are made of goes to the shop's list; how they are used stands in the steps.

use super::HARP;
use super::geometry::Harp;
use crate::model::{Demand, Entry, EntrySpec, Fig, Shelf};
use crate::stage::{Figure, Group, Solution};
use crate::units::si::{Area, Dimension, Length};
use crate::units::{Kind, Quantity};

/// Distance of the clamps along a riser.
pub static CLAMP_SPACING: Entry<Length> = Entry::quantity("absorber.clamp_spacing", "clamps along a riser")
    .why("a bar across all risers every 150 mm keeps the film thin (common practice, no source)")
    .hard(0.02, 2.0)
    .usual(0.05, 0.3)
    .default("150 mm");

/// Board beyond the harp on each side.
pub static BOARD_RIM: Entry<Length> = Entry::quantity("absorber.board_rim", "rim of the square board")
    .why("board beyond sheet and headers, where stops and clamps are screwed on")
    .hard(0.0, 0.5)
    .default("100 mm");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[&CLAMP_SPACING.spec, &BOARD_RIM.spec];

static CLAMPS: Group = Group { name: "clamps", entries: &["absorber.clamp_spacing"], groups: &[&HARP] };
static BOARD: Group = Group { name: "square board", entries: &["absorber.board_rim"], groups: &[&HARP] };

/// Play of a riser in its slot, m (common practice, no source).
const SLOT_PLAY: f64 = 0.0005;

fn harp(s: &Solution) -> Fig<&Harp> {
    s.absorber.harp.as_ref().map_err(Clone::clone)
}

/// Length and width of the square board.
fn board(s: &Solution) -> Fig<(Length, Length)> {
    let (harp, rim) = (harp(s)?, s.inputs.get(&BOARD_RIM)? * 2.0);
    Ok((harp.header_spacing + harp.header.od + rim, harp.sheet_width + rim))
}

/// Bars across the risers: one at each end and one in every spacing.
fn bars(s: &Solution) -> Fig<usize> {
    let spans = (harp(s)?.sheet_length / s.inputs.get(&CLAMP_SPACING)?).si().ceil();
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // 6 m / 0.02 m at most
    Ok(spans as usize + 1)
}

/// What the list of the jigs reads.
pub static DEMANDS: Group = Group { name: "what the jigs need", entries: &[], groups: &[&CLAMPS, &BOARD] };

/// What the jigs take, once for all panels.
pub fn demands(s: &Solution) -> Fig<Vec<Demand>> {
    let (length, width) = board(s)?;
    let across = harp(s)?.sheet_width;
    let area: Area = length * width;
    let demand = |key, item: &str, quantity: Quantity, purpose| Demand {
        key,
        item: item.to_owned(),
        shelf: Shelf::Timber,
        quantity,
        purpose,
        scrap: 0.0,
    };
    Ok(vec![
        demand("jig-board", "plywood, 18 mm, for the jig", area.into(), "square board with stops"),
        demand("jig-bars", "batten, 20 × 40 mm", (across * bars(s)? as f64).into(), "clamp bars over the sheet"),
        Demand {
            shelf: Shelf::Metal,
            ..demand("jig-marker", "steel angle, 20 mm", harp(s)?.header_length.into(), "line marker for the headers")
        },
    ])
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.jig_marker", "line marker, angle", Kind::Length, &HARP, |s, _| {
        Ok(harp(s)?.header_length.into())
    })
    .by(
        "jigs",
        "as long as {header}; laid on a tube both its edges run true to the axis",
        &[("header", "absorber.header_length")],
    ),
    Figure::new("absorber.jig_cradles", "header cradles apart", Kind::Length, &HARP, |s, _| {
        Ok(harp(s)?.header_spacing.into())
    })
    .tape()
    .by("jigs", "{c}, centre to centre", &[("c", "absorber.header_spacing")]),
    Figure::new("absorber.jig_groove", "depth of the cradles' V-groove", Kind::Length, &HARP, |s, _| {
        Ok((harp(s)?.header.od * std::f64::consts::FRAC_1_SQRT_2).into())
    })
    .by("jigs", "header diameter / √2: a groove of 90° that brings the header's axis to the board's face", &[]),
    Figure::new("absorber.jig_shim", "riser above the board", Kind::Length, &HARP, |s, _| {
        let harp = harp(s)?;
        Ok(((harp.header.od - harp.riser_outer_diameter) / 2.0).into())
    })
    .by("jigs", "(header − riser diameter)/2 under each riser, where the headers lie on the board", &[]),
    Figure::new("absorber.jig_slot", "slot of a riser stop", Kind::Length, &HARP, |s, _| {
        Ok((harp(s)?.riser_outer_diameter + Length::from_si(SLOT_PLAY)).into())
    })
    .by("jigs", "riser diameter + 0.5 mm, at every hole's place", &[]),
    Figure::new("absorber.jig_board_length", "square board, length", Kind::Length, &BOARD, |s, _| {
        Ok(board(s)?.0.into())
    })
    .tape()
    .by("jigs", "{c} + header + 2 × {rim}", &[("c", "absorber.header_spacing"), ("rim", "absorber.board_rim")]),
    Figure::new("absorber.jig_board_width", "square board, width", Kind::Length, &BOARD, |s, _| Ok(board(s)?.1.into()))
        .tape()
        .by("jigs", "{sheet} + 2 × {rim}", &[("sheet", "absorber.sheet_across"), ("rim", "absorber.board_rim")]),
    Figure::new("absorber.clamp_bars", "clamp bars over the sheet", Kind::Count, &CLAMPS, |s, _| {
        Ok(Quantity::count(bars(s)?).into())
    })
    .by(
        "jigs",
        "riser between the headers / {spacing}, rounded up, + 1",
        &[("spacing", "absorber.clamp_spacing")],
    ),
];
