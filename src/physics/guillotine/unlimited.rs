//! Most valuable sheet when every piece may be made any number of times.
//!
//! Dynamic programming over the sums of piece sides that fit the sheet.

use super::{Block, Grown, Made, Make, joined};

/// Divisions of all places of the grid together beyond which the search is not begun.
const STEP_LIMIT: usize = 100_000_000;

/// Value of the best filling of a place in the grid, and how it is made.
#[derive(Clone, Copy)]
struct Cell {
    value: u64,
    choice: Choice,
}

#[derive(Clone, Copy)]
enum Choice {
    Waste,
    Block(usize),
    /// Left part of this column index, the rest beside it.
    Beside(usize),
    /// Lower part of this row index, the rest above it.
    Above(usize),
}

/// Sums of sides up to a length, rising, zero included.
fn sums(sides: impl Iterator<Item = u32>, length: u32) -> Vec<u32> {
    let mut reached = std::collections::BTreeSet::from([0]);
    let mut sides: Vec<u32> = sides.collect();
    sides.sort_unstable();
    sides.dedup();
    for side in sides {
        let mut fresh: Vec<u32> = reached.iter().copied().collect();
        while !fresh.is_empty() {
            fresh = fresh.iter().filter_map(|sum| sum.checked_add(side)).filter(|&sum| sum <= length).collect();
            fresh.retain(|&sum| reached.insert(sum));
        }
    }
    reached.into_iter().collect()
}

/// Index of the largest sum that is not above a length; zero is always among the sums.
fn floor(sums: &[u32], length: u32) -> usize {
    sums.partition_point(|&sum| sum <= length).saturating_sub(1)
}

/// The made rectangles of the best layout and the index of the whole; no index when nothing fits, nothing at all when
/// the sums are too many.
pub(super) fn best(grown: &Grown) -> Option<(Vec<Made>, Option<usize>)> {
    let columns = sums(grown.blocks.iter().map(|block| block.width), grown.width);
    let rows = sums(grown.blocks.iter().map(|block| block.height), grown.height);
    if columns.len() * rows.len() * (columns.len() + rows.len()) > STEP_LIMIT {
        return None;
    }
    let mut cells: Vec<Vec<Cell>> = Vec::with_capacity(columns.len());
    for (x, &width) in columns.iter().enumerate() {
        cells.push(Vec::with_capacity(rows.len()));
        for (y, &height) in rows.iter().enumerate() {
            let mut cell = Cell { value: 0, choice: Choice::Waste };
            for (index, block) in grown.blocks.iter().enumerate() {
                if block.width <= width && block.height <= height && block.value > cell.value {
                    cell = Cell { value: block.value, choice: Choice::Block(index) };
                }
            }
            for left in 1..=floor(&columns, width / 2) {
                let value = cells[left][y].value + cells[floor(&columns, width - columns[left])][y].value;
                if value > cell.value {
                    cell = Cell { value, choice: Choice::Beside(left) };
                }
            }
            for lower in 1..=floor(&rows, height / 2) {
                let value = cells[x][lower].value + cells[x][floor(&rows, height - rows[lower])].value;
                if value > cell.value {
                    cell = Cell { value, choice: Choice::Above(lower) };
                }
            }
            cells[x].push(cell);
        }
    }
    let mut made = Vec::new();
    let grid = Grid { grown, columns: &columns, rows: &rows, cells: &cells };
    let whole = grid.trace(columns.len() - 1, rows.len() - 1, &mut made);
    Some((made, whole))
}

struct Grid<'a> {
    grown: &'a Grown,
    columns: &'a [u32],
    rows: &'a [u32],
    cells: &'a [Vec<Cell>],
}

impl Grid<'_> {
    /// Makes the rectangle of a cell; none where it is waste. A part keeps the size of its cell, so that the next part
    /// lies where the cut is.
    fn trace(&self, x: usize, y: usize, made: &mut Vec<Made>) -> Option<usize> {
        let (width, height) = (self.columns[x], self.rows[y]);
        let (first, second, beside) = match self.cells[x][y].choice {
            Choice::Waste => return None,
            Choice::Block(block) => {
                let Block { width, height, .. } = self.grown.blocks[block];
                made.push(Made { width, height, make: Make::Block(block) });
                return Some(made.len() - 1);
            }
            Choice::Beside(left) => {
                let first = self.trace(left, y, made);
                (first, self.trace(floor(self.columns, width - self.columns[left]), y, made), true)
            }
            Choice::Above(lower) => {
                let first = self.trace(x, lower, made);
                (first, self.trace(x, floor(self.rows, height - self.rows[lower]), made), false)
            }
        };
        let (Some(first), Some(second)) = (first, second) else { return first.or(second) };
        let make = if beside { Make::Beside(first, second) } else { Make::Above(first, second) };
        made.push(joined(made, make, first, second));
        Some(made.len() - 1)
    }
}
