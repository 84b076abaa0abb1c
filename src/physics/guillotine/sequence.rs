//! The cuts of one sheet in the order in which they are made, those that only trim included.
//!
//! Every cut goes through the whole of the part that is in hand. Own method: any plan that can be cut edge to edge has a
//! cut that meets no piece; the part nearer to the datum is finished first.

use super::{Layout, Sheet};
use crate::physics::cutting::Tenths;

/// One cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct SheetCut {
    /// True for a cut that runs upward and parts left from right.
    pub upright: bool,
    /// Where it begins, from the left or lower edge of the sheet; the kerf lies beyond it.
    pub at: Tenths,
    /// Where the part in hand begins, along the cut.
    pub from: Tenths,
    /// Where it ends, along the cut.
    pub to: Tenths,
}

/// A rectangle left over, larger than a kerf both ways.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Offcut {
    /// Along the first side of the sheet.
    pub width: Tenths,
    /// Across it.
    pub height: Tenths,
}

/// All cuts and offcuts of a sheet.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Sequence {
    /// The cuts, in order.
    pub cuts: Vec<SheetCut>,
    /// What is left over.
    pub offcuts: Vec<Offcut>,
}

/// Edges of a rectangle: left, bottom, right, top.
type Edges = [u32; 4];

/// The order of cuts of a layout; none when its pieces cannot be parted edge to edge, which no plan of this module gives.
pub fn sequence(sheet: &Sheet, layout: &Layout) -> Option<Sequence> {
    let edges = |placed: &super::Placed| {
        let sides = sheet.pieces[placed.piece].sides;
        let sides = if placed.turned { sides.turned() } else { sides };
        [placed.left.0, placed.bottom.0, placed.left.0 + sides.width.0, placed.bottom.0 + sides.height.0]
    };
    let pieces: Vec<Edges> = layout.placed.iter().map(edges).collect();
    let mut made = Sequence::default();
    free(&pieces, [0, 0, sheet.sides.width.0, sheet.sides.height.0], sheet.kerf.0, &mut made).then_some(made)
}

/// Cuts a part until every piece in it is free.
fn free(pieces: &[Edges], part: Edges, kerf: u32, made: &mut Sequence) -> bool {
    if pieces.is_empty() {
        leave(part, kerf, made);
        return true;
    }
    for axis in [0, 1] {
        for at in pieces.iter().map(|piece| piece[axis + 2]).filter(|&at| at < part[axis + 2]) {
            let (low, high): (Vec<Edges>, Vec<Edges>) = pieces.iter().partition(|piece| piece[axis + 2] <= at);
            if high.iter().any(|piece| piece[axis] < at + kerf) || (pieces.len() > 1 && high.is_empty()) {
                continue;
            }
            // Just before the next piece, so that it begins at the edge of its part.
            let before = high.iter().map(|piece| piece[axis] - kerf).min().unwrap_or(at);
            return cut(axis, before, (&low, &high), part, kerf, made);
        }
    }
    // Nothing parts the pieces: trim the outside of all of them together, or they are one and free.
    for axis in [0, 1] {
        let last = pieces.iter().map(|piece| piece[axis + 2]).max().unwrap_or(0);
        if last < part[axis + 2] {
            return cut(axis, last, (pieces, &[]), part, kerf, made);
        }
    }
    pieces.len() == 1
}

fn cut(axis: usize, at: u32, (low, high): (&[Edges], &[Edges]), part: Edges, kerf: u32, made: &mut Sequence) -> bool {
    let across = 1 - axis;
    made.cuts.push(SheetCut {
        upright: axis == 0,
        at: Tenths(at),
        from: Tenths(part[across]),
        to: Tenths(part[across + 2]),
    });
    let (mut lower, mut upper) = (part, part);
    lower[axis + 2] = at;
    upper[axis] = (at + kerf).min(part[axis + 2]);
    free(low, lower, kerf, made) && free(high, upper, kerf, made)
}

fn leave(part: Edges, kerf: u32, made: &mut Sequence) {
    let (width, height) = (part[2] - part[0], part[3] - part[1]);
    if width > kerf && height > kerf {
        made.offcuts.push(Offcut { width: Tenths(width), height: Tenths(height) });
    }
}
