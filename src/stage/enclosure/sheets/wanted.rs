//! The rectangles that a project wants of each material: back boards, tiles of insulation, edge strips, absorber sheet.
//!
//! How they are laid on sheets lives in `sheets`.

use super::super::entries as e;
use super::super::timber::TimberBox;
use crate::model::{Fig, Inputs, Why};
use crate::physics::guillotine::{Piece, Sides};
use crate::stage::absorber::geometry::Harp;
use crate::stage::stock::{counted, tenths};
use crate::units::si::{Dimension, Length};

/// A rectangle that is wanted: name, along the sheet, across it, how many.
pub(super) type Wanted = (&'static str, Length, Length, usize);

pub(super) fn area(sides: Sides) -> u64 {
    u64::from(sides.width.0) * u64::from(sides.height.0)
}

pub(super) fn pieces(wanted: &[Wanted], may_turn: bool) -> Fig<Vec<Piece>> {
    let piece = |&(_, width, height, count): &Wanted| {
        let sides = Sides { width: tenths(width)?, height: tenths(height)? };
        let most = Some(counted(count));
        Ok(Piece { sides, value: area(sides), most, may_turn })
    };
    wanted.iter().map(piece).collect()
}

pub(super) fn back_boards(timber_box: &TimberBox, panels: usize) -> Vec<Wanted> {
    let boards = timber_box.parts.iter().filter(|part| part.is_board());
    boards.map(|part| (part.name, part.length, part.width, part.count * panels)).collect()
}

/// Pieces shorter than this are not cut: the fit takes them up, m.
const SLIVER: f64 = 0.001;
/// Most whole boards along one side.
const MOST_TILES: f64 = 200.0;

/// How often a length goes into another, and what is left.
fn times(whole: Length, one: Length) -> (usize, Length) {
    let count = ((whole.si() + SLIVER) / one.si()).floor().clamp(0.0, MOST_TILES);
    let left = whole - one * count;
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // clamped above
    let count = count as usize;
    (count, if left.si() > SLIVER { left } else { Length::from_si(0.0) })
}

/// The inside of the box laid with boards: whole ones, and what is left at two sides.
pub(super) fn tiles(timber_box: &TimberBox, board: Sides, panels: usize) -> Vec<Wanted> {
    let (along, across) = (board.width.length(), board.height.length());
    let (rows, row_left) = times(timber_box.inside_length, along);
    let (columns, column_left) = times(timber_box.inside_width, across);
    let wanted = [
        ("whole board", along, across, rows * columns),
        ("board cut to width", along, column_left, rows),
        ("board cut to length", row_left, across, columns),
        ("corner board", row_left, column_left, 1),
    ];
    let mut list: Vec<Wanted> = Vec::new();
    for (name, length, width, count) in wanted {
        if length.si() > 0.0 && width.si() > 0.0 && count > 0 {
            list.push((name, length, width, count * panels));
        }
    }
    list
}

/// Strips around the plate, up to the glass.
pub(super) fn edge_strips(
    inputs: &Inputs,
    harp: &Harp,
    timber_box: &TimberBox,
    board: Sides,
    panels: usize,
) -> Fig<Vec<Wanted>> {
    let around = inputs.get(&e::EDGE_THICKNESS)?;
    let height = inputs.get(&e::AIR_GAP)? + harp.header.od;
    let long = board.width.max(board.height).length();
    let mut list: Vec<Wanted> = Vec::new();
    if around.si() <= 0.0 {
        return Ok(list);
    }
    let sides =
        [("long edge strip", timber_box.inside_length), ("short edge strip", timber_box.inside_width - around * 2.0)];
    for (name, side) in sides {
        let (whole, left) = times(side, long);
        if whole > 0 {
            list.push(("whole edge strip", long, height, 2 * whole * panels));
        }
        if left.si() > 0.0 {
            list.push((name, left, height, 2 * panels));
        }
    }
    Ok(list)
}

/// The absorber's sheet, whole or in pieces that meet midway between risers.
pub(super) fn absorber_sheets(harp: &Harp, sheet: Sides, panels: usize) -> Fig<Vec<Wanted>> {
    let (long, wide) = (sheet.width.max(sheet.height).length(), sheet.width.min(sheet.height).length());
    let name = "absorber sheet";
    if harp.plate_length.max(harp.sheet_width) <= long && harp.plate_length.min(harp.sheet_width) <= wide {
        return Ok(vec![(name, harp.plate_length, harp.sheet_width, panels)]);
    }
    let edge = |risers: usize| harp.edge_width + harp.riser_pitch * (risers as f64 - 0.5);
    let most = (1..harp.riser_count)
        .take_while(|&risers| harp.riser_pitch * risers as f64 <= wide && edge(risers) <= wide)
        .last()
        .ok_or_else(|| Why::out_of_range("no sheet holds one riser's share of the absorber"))?;
    // Outer pieces first, the middle in pieces of as many risers as a sheet takes.
    let outer = most.min(harp.riser_count / 2);
    let middle = harp.riser_count - 2 * outer;
    let mut list: Vec<Wanted> = vec![("outer strip of the absorber", harp.plate_length, edge(outer), 2 * panels)];
    let (full, rest) = (middle / most, middle % most);
    for (risers, count) in [(most, full), (rest, usize::from(rest > 0))] {
        if count > 0 {
            list.push((
                "inner strip of the absorber",
                harp.plate_length,
                harp.riser_pitch * risers as f64,
                count * panels,
            ));
        }
    }
    Ok(list)
}
