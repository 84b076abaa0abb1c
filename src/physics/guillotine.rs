//! Cutting plans for sheets: every cut runs from edge to edge.
//!
//! Lives here: one sheet and its layout. In the folder lie the two searches, the quick filling by shelves, and the order
//! of several sheets.
//! Must not live here: bars (`cutting`), which parts a panel needs, how a plan is drawn.

mod limited;
mod order;
pub mod sequence;
mod shelves;
mod unlimited;

pub use order::{Kind, Order, OrderPlan, StockSheet, best, first_fit};

use super::cutting::Tenths;

/// Width and height of a rectangle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Sides {
    /// Along the grain, or along the sheet's first side.
    pub width: Tenths,
    /// Across it.
    pub height: Tenths,
}

impl Sides {
    fn turned(self) -> Self {
        Self { width: self.height, height: self.width }
    }
}

/// Equal rectangles that are wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Piece {
    /// Finished size.
    pub sides: Sides,
    /// Worth of one, in any whole unit; the area in square tenths of a millimetre makes the plan waste least.
    pub value: u64,
    /// How many may be made; `None` for any number.
    pub most: Option<u32>,
    /// It may be turned by a quarter: yes for sheet metal and foam, mostly no for faced plywood.
    pub may_turn: bool,
}

/// A sheet and what to cut from it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Sheet {
    /// Usable size, edges trimmed.
    pub sides: Sides,
    /// Width of a cut.
    pub kerf: Tenths,
    /// The pieces.
    pub pieces: Vec<Piece>,
}

/// A piece where it lies on its sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Placed {
    /// Index of the piece in the job.
    pub piece: usize,
    /// Distance from the left edge.
    pub left: Tenths,
    /// Distance from the lower edge.
    pub bottom: Tenths,
    /// It lies turned by a quarter.
    pub turned: bool,
}

/// A cut from edge to edge of the part that is in hand at that moment.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cut {
    /// True for a cut that runs upward and parts left from right; false for one that parts lower from upper.
    pub upright: bool,
    /// Where the cut begins, from the left or lower edge of the sheet: the kerf lies beyond it.
    pub at: Tenths,
}

/// One sheet cut up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Layout {
    /// Sum of the values.
    pub value: u64,
    /// The pieces.
    pub placed: Vec<Placed>,
    /// The cuts in order: the first goes through the whole sheet, each later one through a part already cut off.
    pub cuts: Vec<Cut>,
    /// No other layout is worth more.
    pub proved: bool,
}

/// Why there is no layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum GuillotineError {
    /// A piece or the sheet has a side of length zero.
    #[error("a piece or the sheet has no size")]
    NoSize,
    /// The sheet does not hold this piece either way.
    #[error("piece {0} is larger than the sheet")]
    PieceTooLarge(usize),
    /// The sheets at hand do not hold all pieces, or more than a thousand would be needed.
    #[error("the sheets at hand do not hold all pieces")]
    TooFewSheets,
    /// Small pieces of many sizes on a large sheet: more places for cuts than the search takes. Limit the numbers.
    #[error("too many places for cuts")]
    TooManyPlaces,
    /// The sum of the values is too large to count.
    #[error("the values are too large")]
    ValuesTooLarge,
}

/// A rectangle to be placed, grown by the kerf, in one orientation.
#[derive(Clone, Copy, Debug)]
struct Block {
    piece: usize,
    turned: bool,
    width: u32,
    height: u32,
    value: u64,
}

/// How a rectangle is made up. Growing pieces and sheet by the kerf makes every cut cost nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Make {
    /// One block, its lower left corner in that of the rectangle.
    Block(usize),
    /// Two made rectangles side by side.
    Beside(usize, usize),
    /// Two made rectangles one above the other.
    Above(usize, usize),
}

/// A rectangle made of blocks.
#[derive(Clone, Copy, Debug)]
struct Made {
    width: u32,
    height: u32,
    make: Make,
}

/// The rectangle around two made ones, put together as `make` says.
fn joined(made: &[Made], make: Make, first: usize, second: usize) -> Made {
    let (first, second) = (&made[first], &made[second]);
    let (width, height) = match make {
        Make::Above(..) => (first.width.max(second.width), first.height.saturating_add(second.height)),
        Make::Beside(..) | Make::Block(_) => {
            (first.width.saturating_add(second.width), first.height.max(second.height))
        }
    };
    Made { width, height, make }
}

/// The grown sheet and blocks.
struct Grown {
    width: u32,
    height: u32,
    blocks: Vec<Block>,
}

impl Grown {
    fn new(sheet: &Sheet) -> Result<Self, GuillotineError> {
        let kerf = sheet.kerf.0;
        let grow = |tenths: Tenths| tenths.0.checked_add(kerf).filter(|_| tenths.0 > 0).ok_or(GuillotineError::NoSize);
        let (width, height) = (grow(sheet.sides.width)?, grow(sheet.sides.height)?);
        let mut blocks = Vec::new();
        for (index, piece) in sheet.pieces.iter().enumerate().filter(|(_, piece)| piece.most != Some(0)) {
            if piece.value > u64::MAX / 1_000_000 {
                return Err(GuillotineError::ValuesTooLarge);
            }
            let before = blocks.len();
            for turned in [false, true] {
                let sides = if turned { piece.sides.turned() } else { piece.sides };
                let block = (grow(sides.width)?, grow(sides.height)?);
                let wanted = !turned || (piece.may_turn && block.0 != block.1);
                if wanted && block.0 <= width && block.1 <= height {
                    blocks.push(Block { piece: index, turned, width: block.0, height: block.1, value: piece.value });
                }
            }
            if blocks.len() == before {
                return Err(GuillotineError::PieceTooLarge(index));
            }
        }
        Ok(Self { width, height, blocks })
    }

    /// Walks a made rectangle from its corner, noting pieces and, kerfs taken off, cuts.
    fn lay(&self, made: &[Made], index: usize, corner: (u32, u32), layout: &mut Layout) {
        let (left, bottom) = corner;
        match made[index].make {
            Make::Block(block) => {
                let Block { piece, turned, .. } = self.blocks[block];
                layout.placed.push(Placed { piece, turned, left: Tenths(left), bottom: Tenths(bottom) });
            }
            Make::Beside(first, second) => {
                let at = left + made[first].width;
                layout.cuts.push(Cut { upright: true, at: Tenths(at) });
                self.lay(made, first, corner, layout);
                self.lay(made, second, (at, bottom), layout);
            }
            Make::Above(first, second) => {
                let at = bottom + made[first].height;
                layout.cuts.push(Cut { upright: false, at: Tenths(at) });
                self.lay(made, first, corner, layout);
                self.lay(made, second, (left, at), layout);
            }
        }
    }

    fn layout(&self, sheet: &Sheet, made: &[Made], best: Option<usize>, proved: bool) -> Layout {
        let mut layout = Layout { value: 0, placed: Vec::new(), cuts: Vec::new(), proved };
        if let Some(best) = best {
            self.lay(made, best, (0, 0), &mut layout);
        }
        layout.value = layout.placed.iter().map(|placed| sheet.pieces[placed.piece].value).sum();
        for cut in &mut layout.cuts {
            cut.at.0 -= sheet.kerf.0;
        }
        layout
    }
}

/// The most valuable layout of one sheet.
///
/// With no limit on any piece: dynamic programming over the sums of widths and heights (Gilmore and Gomory 1966, Herz
/// 1972). With limits: all rectangles that can be built up are joined pair by pair, those that cannot reach the best
/// value being dropped (Wang 1983). Pieces and sheet are grown by the kerf, which makes the kerf exact. `proved` is
/// false when the number of rectangles reached its limit first. Cuts that only trim the outside of the pieces to the
/// sheet's waste are not listed.
pub fn most_valuable(sheet: &Sheet) -> Result<Layout, GuillotineError> {
    let grown = Grown::new(sheet)?;
    if sheet.pieces.iter().all(|piece| piece.most.is_none()) {
        let (made, best) = unlimited::best(&grown).ok_or(GuillotineError::TooManyPlaces)?;
        return Ok(grown.layout(sheet, &made, best, true));
    }
    let (made, best, proved) = limited::best(&grown, &sheet.pieces);
    Ok(grown.layout(sheet, &made, best, proved))
}

#[cfg(test)]
mod tests;
