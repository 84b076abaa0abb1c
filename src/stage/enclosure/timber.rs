//! The timber box in millimetres: inside, outside, and the parts to cut.

use super::entries::{self as e, Corner};
use crate::model::{Fig, Inputs, Why};
use crate::stage::absorber::geometry::Harp;
use crate::units::si::Length;

/// The box.
#[derive(Clone, Debug)]
pub struct TimberBox {
    /// Inside, across the risers.
    pub inside_width: Length,
    /// Inside, along the risers.
    pub inside_length: Length,
    /// Inside, back board to underside of the glass.
    pub inside_height: Length,
    /// Outside, across the risers.
    pub outside_width: Length,
    /// Outside, along the risers.
    pub outside_length: Length,
    /// Parts to cut.
    pub parts: Vec<Part>,
}

/// One kind of part to cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// What it is.
    pub name: &'static str,
    /// How many.
    pub count: usize,
    /// Its length.
    pub length: Length,
    /// Its width.
    pub width: Length,
    /// Its thickness.
    pub thickness: Length,
}

impl Part {
    /// Whether it is cut from a sheet of plywood and not from a length of timber.
    pub fn is_board(&self) -> bool {
        self.name == BACK_BOARD
    }
}

const BACK_BOARD: &str = "back board";

/// Sizes the box around the harp.
///
/// Depth from the back board up: insulation, riser, air gap. Plan: plate, clearance and edge insulation on each side.
pub fn timber_box(inputs: &Inputs, harp: &Fig<Harp>) -> Fig<TimberBox> {
    let harp = harp.as_ref().map_err(Why::clone)?;
    let around = (inputs.get(&e::CLEARANCE)? + inputs.get(&e::EDGE_THICKNESS)?) * 2.0;
    let rail = inputs.get(&e::RAIL_THICKNESS)?;
    let board = inputs.get(&e::BACK_BOARD)?;
    let inside_width = harp.sheet_width + around;
    let inside_length = harp.header_spacing + harp.header.od + around;
    let inside_height = inputs.get(&e::BACK_THICKNESS)? + harp.header.od + inputs.get(&e::AIR_GAP)?;
    let outside_width = inside_width + rail * 2.0;
    let outside_length = inside_length + rail * 2.0;
    let rail_width = inside_height + board + inputs.get(&e::GLASS_THICKNESS)?;
    let short = match inputs.get(&e::CORNER)? {
        Corner::Butt => inside_width,
        Corner::Mitre | Corner::HalfLap => outside_width,
    };
    let part = |name, count, length, width, thickness| Part { name, count, length, width, thickness };
    Ok(TimberBox {
        inside_width,
        inside_length,
        inside_height,
        outside_width,
        outside_length,
        parts: vec![
            part("long rail", 2, outside_length, rail_width, rail),
            part("short rail", 2, short, rail_width, rail),
            part(BACK_BOARD, 1, inside_length, inside_width, board),
        ],
    })
}
