//! One sheet filled at once: pieces side by side on shelves, shelves one above the other.
//!
//! First fit by falling height (Coffman, Garey, Johnson, Tarjan 1980, SIAM J. Comput. 9, 808; from memory). Never proved.

use super::{Grown, Layout, Made, Make, Piece, Sheet, joined};

/// How a piece that may lie both ways is laid.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Lie {
    /// As given where that fits.
    AsGiven,
    /// On its longer side where that fits.
    Long,
}

struct Shelf {
    width: u32,
    height: u32,
    blocks: Vec<usize>,
}

/// Fills one sheet with what is wanted, as far as it goes.
pub(super) fn fill(sheet: &Sheet, grown: &Grown, lie: Lie) -> Layout {
    let mut shelves: Vec<Shelf> = Vec::new();
    let mut used = 0;
    for block in in_order(grown, &sheet.pieces, lie) {
        let (width, height) = (grown.blocks[block].width, grown.blocks[block].height);
        let fits = |shelf: &&mut Shelf| shelf.height >= height && grown.width - shelf.width >= width;
        if let Some(shelf) = shelves.iter_mut().find(fits) {
            shelf.width += width;
            shelf.blocks.push(block);
        } else if grown.height - used >= height {
            used += height;
            shelves.push(Shelf { width, height, blocks: vec![block] });
        }
    }
    let mut made = Vec::new();
    let mut whole: Option<usize> = None;
    for shelf in &shelves {
        let mut row: Option<usize> = None;
        for &block in &shelf.blocks {
            let place = &grown.blocks[block];
            made.push(Made { width: place.width, height: place.height, make: Make::Block(block) });
            row = chain(&mut made, row, Make::Beside);
        }
        if let Some(row) = row {
            whole = match whole {
                None => Some(row),
                Some(below) => {
                    let make = Make::Above(below, row);
                    made.push(joined(&made, make, below, row));
                    Some(made.len() - 1)
                }
            };
        }
    }
    grown.layout(sheet, &made, whole, false)
}

/// Puts the last made rectangle to what was there.
fn chain(made: &mut Vec<Made>, before: Option<usize>, make: fn(usize, usize) -> Make) -> Option<usize> {
    let last = made.len().checked_sub(1)?;
    let Some(before) = before else { return Some(last) };
    let make = make(before, last);
    made.push(joined(made, make, before, last));
    Some(made.len() - 1)
}

/// Blocks by falling height, each as often as its piece is wanted.
fn in_order(grown: &Grown, pieces: &[Piece], lie: Lie) -> Vec<usize> {
    let mut order = Vec::new();
    for (index, piece) in pieces.iter().enumerate() {
        let ways = grown.blocks.iter().enumerate().filter(|(_, block)| block.piece == index).map(|(block, _)| block);
        let chosen = match lie {
            Lie::AsGiven => ways.min_by_key(|&block| grown.blocks[block].turned),
            Lie::Long => ways.min_by_key(|&block| grown.blocks[block].height),
        };
        if let Some(block) = chosen {
            order.extend(std::iter::repeat_n(block, piece.most.unwrap_or(0) as usize));
        }
    }
    order.sort_by_key(|&block| std::cmp::Reverse((grown.blocks[block].height, grown.blocks[block].width)));
    order
}
