//! The bill, line by line: needed, scrap, pieces, on hand, bought, to buy, left over, cost.
//!
//! Pieces are counted by their sum: whether lengths and sheets can be cut out of them so is for the cutting plans.

use jiff::civil::Date;

use super::entries as e;
use crate::model::{Demand, Entry, Fig, Inputs, Shelf, Why};
use crate::stage::Solution;
use crate::stage::demands::{SOURCES, Source};
use crate::units::si::{Dimension, Length};
use crate::units::{Kind, Quantity};

/// The bill of the whole project.
#[derive(Clone, Debug, Default)]
pub struct Bill {
    /// Its lines, in the order of a walk through the shop.
    pub lines: Vec<Line>,
    /// The parts of the project that cannot be counted yet.
    pub open: Vec<(&'static str, Why)>,
}

/// One line.
#[derive(Clone, Debug)]
pub struct Line {
    /// Its key in ids and in the file.
    pub key: String,
    /// What is asked for in the shop.
    pub item: Fig<String>,
    /// Where it lies there.
    pub shelf: Shelf,
    /// What is used, without scrap.
    pub needed: Fig<Quantity>,
    /// What for.
    pub purposes: Vec<&'static str>,
    /// Scrap as a share of what is used.
    pub scrap: Fig<f64>,
    /// What one piece holds, as it is sold.
    pub piece: Fig<Quantity>,
    /// Pieces that lay there before.
    pub on_hand: Fig<f64>,
    /// Pieces bought.
    pub bought: Fig<f64>,
    /// Price of a piece.
    pub price: Fig<f64>,
    /// Money paid for all that was bought, where it was entered.
    pub paid: Fig<Option<f64>>,
    /// Day of the price, where it was entered.
    pub date: Fig<Option<Date>>,
    /// Where it comes from, if that was entered.
    pub source: Fig<Option<String>>,
}

/// A hundred-thousandth of a piece more is no reason to buy another.
const ROUNDING: f64 = 1e-5;

impl Line {
    /// What is used with its scrap.
    pub fn with_scrap(&self) -> Fig<Quantity> {
        let needed = self.needed.clone()?;
        Ok(Quantity::new(needed.kind, needed.si * (1.0 + self.scrap.clone()?)))
    }

    /// The same in pieces.
    pub fn pieces(&self) -> Fig<f64> {
        Ok(self.with_scrap()?.si / self.piece.clone()?.si)
    }

    /// Whole pieces still to be bought.
    pub fn to_buy(&self) -> Fig<usize> {
        let lacking = self.pieces()? - self.on_hand.clone()? - self.bought.clone()?;
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // not negative, and far below the limit
        let whole = (lacking - ROUNDING).ceil().clamp(0.0, 1e9) as usize;
        Ok(whole)
    }

    /// Pieces left over when everything is bought and used.
    pub fn left_over(&self) -> Fig<f64> {
        let all = self.on_hand.clone()? + self.bought.clone()? + self.to_buy()? as f64;
        Ok(all - self.pieces()?)
    }

    /// Money paid so far.
    pub fn spent(&self) -> Fig<f64> {
        match (self.paid.clone()?, self.bought.clone()?) {
            (Some(paid), _) => Ok(paid),
            (None, 0.0) => Ok(0.0),
            (None, bought) => Ok(bought * self.price.clone()?),
        }
    }

    /// What the line costs in all: paid, and what is still to be bought at its price.
    pub fn cost(&self) -> Fig<f64> {
        let spent = self.spent()?;
        match self.to_buy()? {
            0 => Ok(spent),
            pieces => Ok(spent + pieces as f64 * self.price.clone()?),
        }
    }
}

impl Bill {
    /// The line of a key.
    pub fn line(&self, key: &str) -> Fig<&Line> {
        self.lines.iter().find(|line| line.key == key).ok_or_else(|| Why::missing(format!("materials.{key}")))
    }

    /// What all lines cost. Every price that is missing is named.
    pub fn cost(&self) -> Fig<f64> {
        let mut missing = Vec::new();
        let mut sum = 0.0;
        for line in &self.lines {
            match line.cost() {
                Ok(cost) => sum += cost,
                Err(Why::Missing(ids)) => missing.extend(ids),
                Err(why) => return Err(why),
            }
        }
        match self.open.first() {
            _ if !missing.is_empty() => Err(Why::missing_all(missing)),
            Some((_, why)) => Err(why.clone()),
            None => Ok(sum),
        }
    }

    /// Money paid so far and the lines whose cost is known.
    pub fn so_far(&self) -> (f64, usize) {
        let spent = self.lines.iter().filter_map(|line| line.spent().ok()).sum();
        (spent, self.lines.iter().filter(|line| line.cost().is_ok()).count())
    }
}

/// Gathers the bill of a solution.
pub fn bill(s: &Solution) -> Bill {
    gather(s, SOURCES)
}

fn gather(s: &Solution, sources: &[Source]) -> Bill {
    let mut bill = Bill::default();
    for source in sources {
        match (source.demands)(s) {
            Ok(demands) => demands.into_iter().for_each(|demand| put(&mut bill, &s.inputs, demand)),
            Err(why) => bill.open.push((source.name, why)),
        }
    }
    for key in s.inputs.rows("materials") {
        if bill.lines.iter().all(|line| line.key != key) {
            let own = own_line(&s.inputs, key);
            bill.lines.push(own);
        }
    }
    bill.lines.sort_by_key(|line| line.shelf); // stable: lines of a shelf stay in the order of the stages
    bill
}

fn put(bill: &mut Bill, inputs: &Inputs, demand: Demand) {
    let same = |line: &&mut Line| {
        line.key == demand.key && line.needed.as_ref().is_ok_and(|needed| needed.kind == demand.quantity.kind)
    };
    if let Some(line) = bill.lines.iter_mut().find(same) {
        line.needed = line.needed.clone().map(|sum| Quantity::new(sum.kind, sum.si + demand.quantity.si));
        if !line.purposes.contains(&demand.purpose) {
            line.purposes.push(demand.purpose);
        }
        return;
    }
    let key = demand.key.to_owned();
    let scrap = or(inputs.at(&e::SCRAP, &key).map(Dimension::si), demand.scrap);
    let named = or(inputs.at(&e::ITEM, &key), demand.item);
    let shelf = inputs.at(&e::SHELF, &key).unwrap_or(demand.shelf);
    bill.lines.push(line(inputs, key, named, shelf, (Ok(demand.quantity), scrap, vec![demand.purpose])));
}

/// A line that no stage asks for.
fn own_line(inputs: &Inputs, key: String) -> Line {
    let needed = inputs.at(&e::NEEDED, &key).map(|pieces| Quantity::new(Kind::Count, pieces));
    let scrap = or(inputs.at(&e::SCRAP, &key).map(Dimension::si), 0.0);
    let item = or(inputs.at(&e::ITEM, &key), key.clone());
    let shelf = inputs.at(&e::SHELF, &key).unwrap_or(Shelf::Other);
    line(inputs, key, item, shelf, (needed, scrap, Vec::new()))
}

type Wanted = (Fig<Quantity>, Fig<f64>, Vec<&'static str>);

fn line(inputs: &Inputs, key: String, item: Fig<String>, shelf: Shelf, (needed, scrap, purposes): Wanted) -> Line {
    let kind = needed.as_ref().map_or(Kind::Count, |needed| needed.kind);
    Line {
        piece: piece(inputs, &key, kind),
        on_hand: or(inputs.at(&e::ON_HAND, &key), 0.0),
        bought: or(inputs.at(&e::BOUGHT, &key), 0.0),
        price: inputs.at(&e::PRICE, &key),
        paid: given(inputs, &e::PAID, &key),
        date: given(inputs, &e::DATE, &key),
        source: given(inputs, &e::SOURCE, &key),
        key,
        item,
        shelf,
        needed,
        purposes,
        scrap,
    }
}

/// What one piece holds, in the kind that is needed.
fn piece(inputs: &Inputs, key: &str, kind: Kind) -> Fig<Quantity> {
    let length = || inputs.at(&e::LENGTH, key);
    Ok(match kind {
        Kind::Length => length()?.into(),
        Kind::Area => {
            let (length, width): (Length, Length) = (length()?, inputs.at(&e::WIDTH, key)?);
            (length * width).into()
        }
        Kind::Mass => inputs.at(&e::MASS, key)?.into(),
        Kind::Volume => inputs.at(&e::VOLUME, key)?.into(),
        _ => Quantity::new(kind, or(inputs.at(&e::PIECES, key), 1)?.max(1) as f64),
    })
}

/// A value, or what holds while nothing is entered.
fn or<T>(value: Fig<T>, otherwise: T) -> Fig<T> {
    match value {
        Err(Why::Missing(_)) => Ok(otherwise),
        other => other,
    }
}

fn given<T>(inputs: &Inputs, entry: &Entry<T>, key: &str) -> Fig<Option<T>> {
    or(inputs.at(entry, key).map(Some), None)
}
