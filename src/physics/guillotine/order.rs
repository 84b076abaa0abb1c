//! An order of pieces cut from several sheets, of one or more kinds.
//!
//! Every plan is cut as it stands: kerfs counted, every piece made. `lowest` tells how few sheets could do at all.

use super::shelves::{self, Lie};
use super::{Grown, GuillotineError, Layout, Piece, Sheet, Sides, most_valuable};
use crate::physics::cutting::Tenths;

/// Most sheets of one order.
const MOST_SHEETS: usize = 1000;
/// Most copies of one piece that the search for one sheet is given.
const MOST_COPIES: u32 = 12;

/// A kind of sheet: on hand, or to be bought.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StockSheet {
    /// Usable size, edges trimmed.
    pub sides: Sides,
    /// How many there are; `None` for as many as needed.
    pub available: Option<u32>,
}

/// Pieces wanted and the sheets to cut them from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Order {
    /// Kinds of sheet, in the order in which they are to be used: offcuts and what lies there first.
    pub stocks: Vec<StockSheet>,
    /// Width of a cut.
    pub kerf: Tenths,
    /// The pieces; each needs its number in `most`.
    pub pieces: Vec<Piece>,
}

/// One sheet of a plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kind {
    /// Index of its kind in the order.
    pub stock: usize,
    /// How it is cut up.
    pub layout: Layout,
}

/// A plan for a whole order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OrderPlan {
    /// The sheets.
    pub sheets: Vec<Kind>,
    /// No plan can do with fewer sheets than this.
    pub lowest: u64,
}

impl OrderPlan {
    /// The number of sheets is proved to be the least.
    pub fn is_proved(&self) -> bool {
        self.sheets.len() as u64 <= self.lowest
    }
}

type Fill = fn(&Sheet) -> Result<Layout, GuillotineError>;

/// A plan at once: pieces on shelves, the better of two ways to lay them.
pub fn first_fit(order: &Order) -> Result<OrderPlan, GuillotineError> {
    let as_given = plan(order, |sheet| Ok(shelves::fill(sheet, &Grown::new(sheet)?, Lie::AsGiven)));
    let long = plan(order, |sheet| Ok(shelves::fill(sheet, &Grown::new(sheet)?, Lie::Long)));
    fewer(as_given, long)
}

/// A better plan: each sheet filled by [`most_valuable`] with what is left; the quick plan where that is as good.
///
/// Proved the least number of sheets only where [`OrderPlan::is_proved`] says so; else the best found, and `lowest`
/// tells by how much it could still be beaten.
pub fn best(order: &Order) -> Result<OrderPlan, GuillotineError> {
    let quick = first_fit(order);
    if quick.as_ref().is_ok_and(OrderPlan::is_proved) {
        return quick;
    }
    fewer(quick, plan(order, full))
}

/// The fullest layout of one sheet; of very many equal pieces some are enough for one sheet.
fn full(sheet: &Sheet) -> Result<Layout, GuillotineError> {
    let mut some = sheet.clone();
    for piece in &mut some.pieces {
        piece.most = piece.most.map(|most| most.min(MOST_COPIES));
    }
    most_valuable(&some)
}

fn fewer(
    a: Result<OrderPlan, GuillotineError>,
    b: Result<OrderPlan, GuillotineError>,
) -> Result<OrderPlan, GuillotineError> {
    match (a, b) {
        (Ok(a), Ok(b)) => Ok(if b.sheets.len() < a.sheets.len() { b } else { a }),
        (Ok(one), Err(_)) | (Err(_), Ok(one)) => Ok(one),
        (Err(error), Err(_)) => Err(error),
    }
}

fn plan(order: &Order, fill: Fill) -> Result<OrderPlan, GuillotineError> {
    let mut left: Vec<Piece> = order.pieces.clone();
    let mut used = vec![0_u32; order.stocks.len()];
    let mut sheets: Vec<Kind> = Vec::new();
    while left.iter().any(|piece| piece.most != Some(0)) {
        let taken = (0..order.stocks.len())
            .filter(|&stock| order.stocks[stock].available.is_none_or(|available| used[stock] < available))
            .find_map(|stock| {
                let sheet = holding(order, stock, &left)?;
                Some(fill(&sheet).map(|layout| Kind { stock, layout }))
            });
        let taken = match taken {
            Some(taken) => taken?,
            None => return Err(too_large(order).unwrap_or(GuillotineError::TooFewSheets)),
        };
        if taken.layout.placed.is_empty() || sheets.len() >= MOST_SHEETS {
            return Err(GuillotineError::TooFewSheets);
        }
        used[taken.stock] += 1;
        for placed in &taken.layout.placed {
            let piece = &mut left[placed.piece];
            piece.most = piece.most.map(|most| most.saturating_sub(1));
        }
        sheets.push(taken);
    }
    Ok(OrderPlan { sheets, lowest: lowest(order) })
}

/// The sheet of a kind with the pieces that it can hold; none when it can hold none of them.
fn holding(order: &Order, stock: usize, left: &[Piece]) -> Option<Sheet> {
    let sides = order.stocks[stock].sides;
    let pieces: Vec<Piece> = left
        .iter()
        .map(|piece| Piece { most: if fits(sides, piece) { piece.most.or(Some(0)) } else { Some(0) }, ..*piece })
        .collect();
    pieces.iter().any(|piece| piece.most != Some(0)).then_some(Sheet { sides, kerf: order.kerf, pieces })
}

fn fits(sheet: Sides, piece: &Piece) -> bool {
    let lies = |sides: Sides| sides.width <= sheet.width && sides.height <= sheet.height;
    lies(piece.sides) || (piece.may_turn && lies(piece.sides.turned()))
}

fn too_large(order: &Order) -> Option<GuillotineError> {
    let held = |piece: &Piece| order.stocks.iter().any(|stock| fits(stock.sides, piece));
    let index = order.pieces.iter().position(|piece| piece.most != Some(0) && !held(piece))?;
    Some(GuillotineError::PieceTooLarge(index))
}

/// The larger of two bounds: grown area over the area of the largest sheet, and the number of pieces of which no two fit
/// one sheet because each, in every way that it fits at all, takes more than half of both sides.
fn lowest(order: &Order) -> u64 {
    let kerf = u64::from(order.kerf.0);
    let grown = |sides: Sides| (u64::from(sides.width.0) + kerf, u64::from(sides.height.0) + kerf);
    let area = |sides: Sides| u128::from(grown(sides).0) * u128::from(grown(sides).1);
    let wanted = |piece: &Piece| u64::from(piece.most.unwrap_or(0));
    let all: u128 = order.pieces.iter().map(|piece| area(piece.sides) * u128::from(wanted(piece))).sum();
    let largest = order.stocks.iter().map(|stock| area(stock.sides)).max().unwrap_or(1).max(1);
    let by_area = u64::try_from(all.div_ceil(largest)).unwrap_or(u64::MAX);
    let fills = |piece: &&Piece| {
        order.stocks.iter().all(|stock| {
            let sheet = grown(stock.sides);
            let alone = |sides: Sides| {
                let (width, height) = grown(sides);
                let lies = width <= sheet.0 && height <= sheet.1;
                !lies || (2 * width > sheet.0 && 2 * height > sheet.1)
            };
            alone(piece.sides) && (!piece.may_turn || alone(piece.sides.turned()))
        })
    };
    by_area.max(order.pieces.iter().filter(fills).map(wanted).sum())
}
