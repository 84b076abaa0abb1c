//! The timber box in millimetres: depth budget, inside, outside, and the parts to cut.
//!
//! Heights run from the back edge of the rails towards the glass. Holes lie in `openings`, screws in `screws`.

use super::entries::{self as e, Corner};
use super::joinery::{self as j, BackSeat};
use super::second_layer as second;
use crate::model::{Fig, Inputs, Why};
use crate::stage::absorber::geometry::Harp;
use crate::units::si::{Dimension, Length};

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
    /// Thickness of the rails.
    pub rail_thickness: Length,
    /// What lies over each other, from the back of the box to the top of the rails.
    pub depth: Vec<DepthLayer>,
    /// From the back edge of a rail to the face on which the insulation lies; zero for a board behind the rails.
    pub floor: Length,
    /// From the back edge of a rail to its top.
    pub rail_width: Length,
    /// From the top of a rail down to the ledge of the glass seat.
    pub seat_depth: Length,
    /// How the back board is held.
    pub back_seat: BackSeat,
    /// How far the back board reaches into each rail; zero where it does not.
    pub board_seat: Length,
    /// Parts to cut.
    pub parts: Vec<Part>,
}

impl TimberBox {
    /// From the back edge of a rail to the axis of a header.
    pub fn header_height(&self, inputs: &Inputs, harp: &Harp) -> Fig<Length> {
        Ok(self.floor
            + inputs.get(&second::THICKNESS)?
            + inputs.get(&e::BACK_THICKNESS)?
            + inputs.get(&j::UNDER)?
            + harp.header.od * 0.5)
    }

    /// From the back edge of a rail to the ledge of the glass seat.
    pub fn ledge(&self) -> Length {
        self.rail_width - self.seat_depth
    }
}

/// One layer of the depth budget.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DepthLayer {
    /// What it is.
    pub name: &'static str,
    /// How thick it is.
    pub thickness: Length,
    /// From the back of the box to its upper face.
    pub up_to: Length,
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
/// Free space on each side of a back board in its rebate or groove, so that it can swell, m (3 mm between panels, from
/// memory).
const BOARD_PLAY: f64 = 0.0015;
/// Wood left behind a groove, m (project rule).
const GROOVE_LIP: f64 = 0.010;

/// Sizes the box around the harp.
///
/// Depth from the back board up: insulation, free space, header, air gap. Plan: plate, clearance and edge insulation on
/// each side.
pub fn timber_box(inputs: &Inputs, harp: &Fig<Harp>) -> Fig<TimberBox> {
    let harp = harp.as_ref().map_err(Why::clone)?;
    let around = (inputs.get(&e::CLEARANCE)? + inputs.get(&e::EDGE_THICKNESS)?) * 2.0;
    let rail = inputs.get(&e::RAIL_THICKNESS)?;
    let board = inputs.get(&e::BACK_BOARD)?;
    let inside_width = harp.sheet_width + around;
    let inside_length = harp.header_spacing + harp.header.od + around;
    let (outside_width, outside_length) = (inside_width + rail * 2.0, inside_length + rail * 2.0);
    let depth = depth(inputs, harp)?;
    let zero = Length::from_si(0.0);
    let behind: Length = depth
        .iter()
        .take_while(|layer| layer.name == LIP || layer.name == BACK_BOARD)
        .fold(zero, |sum, layer| sum + layer.thickness);
    let top = depth.last().map_or(zero, |layer| layer.up_to);
    let back_seat = inputs.get(&j::BACK_SEAT)?;
    let floor = if back_seat == BackSeat::On { zero } else { behind };
    let board_seat = board_seat(inputs, back_seat, rail)?;
    let board_grows = match back_seat {
        BackSeat::Between => zero,
        BackSeat::On => rail * 2.0,
        BackSeat::Rebate | BackSeat::Groove => (board_seat - Length::from_si(BOARD_PLAY)) * 2.0,
    };
    let rail_width = top - behind + floor;
    let short = match inputs.get(&e::CORNER)? {
        Corner::Butt => inside_width,
        Corner::Rabbet => inside_width + corner_rabbet(inputs, rail)? * 2.0,
        Corner::Mitre | Corner::HalfLap => outside_width,
    };
    let part = |name, count, length, width, thickness| Part { name, count, length, width, thickness };
    let tape = inputs.get(&j::TAPE)?;
    let glass = inputs.get(&e::GLASS_THICKNESS)?;
    Ok(TimberBox {
        inside_width,
        inside_length,
        inside_height: inputs.get(&second::THICKNESS)?
            + inputs.get(&e::BACK_THICKNESS)?
            + inputs.get(&j::UNDER)?
            + harp.header.od
            + inputs.get(&e::AIR_GAP)?,
        outside_width,
        outside_length,
        rail_thickness: rail,
        floor,
        rail_width,
        seat_depth: glass + tape * 2.0,
        back_seat,
        board_seat,
        parts: vec![
            part("long rail", 2, outside_length, rail_width, rail),
            part("short rail", 2, short, rail_width, rail),
            part(BACK_BOARD, 1, inside_length + board_grows, inside_width + board_grows, board),
        ],
        depth,
    })
}

const INSULATION: &str = "insulation";
const LIP: &str = "lip behind the groove";

/// The depth budget, from the back of the box to the top of the rails. The lower tape lies within the air gap.
fn depth(inputs: &Inputs, harp: &Harp) -> Fig<Vec<DepthLayer>> {
    let lip = match inputs.get(&j::BACK_SEAT)? {
        BackSeat::Groove => Length::from_si(GROOVE_LIP),
        BackSeat::Between | BackSeat::Rebate | BackSeat::On => Length::from_si(0.0),
    };
    let tape = inputs.get(&j::TAPE)?;
    let layers = [
        (LIP, lip),
        (BACK_BOARD, inputs.get(&e::BACK_BOARD)?),
        ("second insulation", inputs.get(&second::THICKNESS)?),
        (INSULATION, inputs.get(&e::BACK_THICKNESS)?),
        ("free space", inputs.get(&j::UNDER)?),
        ("header", harp.header.od),
        ("air gap", inputs.get(&e::AIR_GAP)?),
        ("glass", inputs.get(&e::GLASS_THICKNESS)?),
        ("tape over the glass", tape),
    ];
    let mut up_to = Length::from_si(0.0);
    let mut depth = Vec::with_capacity(layers.len());
    for (name, thickness) in layers {
        up_to += thickness;
        if thickness.si() > 0.0 || name == INSULATION {
            depth.push(DepthLayer { name, thickness, up_to });
        }
    }
    Ok(depth)
}

/// How far the back board reaches into a rail: as entered, or half the rail in a rebate and a third in a groove.
fn board_seat(inputs: &Inputs, seat: BackSeat, rail: Length) -> Fig<Length> {
    let usual = match seat {
        BackSeat::Between | BackSeat::On => return Ok(Length::from_si(0.0)),
        BackSeat::Rebate => rail * 0.5,
        BackSeat::Groove => rail / 3.0,
    };
    Ok(inputs.given(&j::BOARD_SEAT)?.unwrap_or(usual))
}

/// How far a short rail reaches into a long one: as entered, or half the rail.
pub fn corner_rabbet(inputs: &Inputs, rail: Length) -> Fig<Length> {
    Ok(inputs.given(&j::CORNER_RABBET)?.unwrap_or(rail * 0.5))
}
