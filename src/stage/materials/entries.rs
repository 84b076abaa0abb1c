//! What the builder says of a line of the bill: how it is sold, what lies there, what was bought.
//!
//! A line is a table `[materials.KEY]`. The keys of what the stages need are fixed; any other key is a line of the
//! builder's own, such as a pump.

use jiff::civil::Date;

use crate::model::{Choice, Entry, EntrySpec, Shelf};
use crate::units::Kind;
use crate::units::si::{Length, Mass, Ratio, Volume};

/// Name in the shop.
pub static ITEM: Entry<String> =
    Entry::text("materials.*.item", "sold as").why("its name in the shop, where that is not the program's");

/// Shelf.
pub static SHELF: Entry<Shelf> =
    Entry::choice("materials.*.shelf", "shelf in the shop").why("where it lies in the shop; sorts the bill");

/// How many pieces of a line of the builder's own.
pub static NEEDED: Entry<f64> = Entry::plain("materials.*.needed", "pieces needed", Kind::Number)
    .why("of a line of your own; of the program's lines it is computed")
    .hard(0.0, 1e6);

/// Share that goes to scrap.
pub static SCRAP: Entry<Ratio> = Entry::percent("materials.*.scrap", "scrap share")
    .why("on top of what is used; left out, the usual share of the trade holds");

/// Length of a piece.
pub static LENGTH: Entry<Length> = Entry::quantity("materials.*.length", "length of a piece")
    .why("as it is sold: a tube, a board, a sheet, a roll")
    .hard(0.01, 500.0);

/// Width of a piece.
pub static WIDTH: Entry<Length> = Entry::quantity("materials.*.width", "width of a piece")
    .why("of a sheet or a roll, as it is sold")
    .hard(0.01, 20.0);

/// Mass of a piece.
pub static MASS: Entry<Mass> = Entry::quantity("materials.*.mass", "mass of a piece")
    .why("what one spool, bag or tin holds, where it is sold by mass")
    .hard(0.001, 5000.0);

/// Volume of a piece.
pub static VOLUME: Entry<Volume> = Entry::quantity("materials.*.volume", "volume of a piece")
    .why("what one tin or can holds, where it is sold by volume")
    .hard(1e-6, 10.0);

/// Things in a piece.
pub static PIECES: Entry<usize> =
    Entry::count("materials.*.pieces", "things in a pack").why("screws in a box; one while nothing is entered");

/// Pieces that lie there.
pub static ON_HAND: Entry<f64> = Entry::plain("materials.*.on_hand", "pieces on hand", Kind::Number)
    .why("that lay there before anything was bought; a part of a piece counts as a part")
    .hard(0.0, 1e6);

/// Pieces bought.
pub static BOUGHT: Entry<f64> =
    Entry::plain("materials.*.bought", "pieces bought", Kind::Number).why("for this project so far").hard(0.0, 1e6);

/// Price of a piece.
pub static PRICE: Entry<f64> = Entry::plain("materials.*.price", "price of a piece", Kind::Number)
    .why("in your own money, with tax, as you would pay it today")
    .hard(0.0, 1e7);

/// Money paid.
pub static PAID: Entry<f64> = Entry::plain("materials.*.paid", "paid", Kind::Number)
    .why("for all that was bought; left out it is pieces times price; 0 for what was given")
    .hard(0.0, 1e8);

/// Day of the price.
pub static DATE: Entry<Date> =
    Entry::date("materials.*.date", "day of the price").why("prices age: when it was asked or paid");

/// Shop.
pub static SOURCE: Entry<String> =
    Entry::text("materials.*.source", "source").why("the shop, the yard, a neighbour's shed");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &ITEM.spec,
    &SHELF.spec,
    &NEEDED.spec,
    &SCRAP.spec,
    &LENGTH.spec,
    &WIDTH.spec,
    &MASS.spec,
    &VOLUME.spec,
    &PIECES.spec,
    &ON_HAND.spec,
    &BOUGHT.spec,
    &PRICE.spec,
    &PAID.spec,
    &DATE.spec,
    &SOURCE.spec,
];

impl Choice for Shelf {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Metal, "metal", "tube and sheet"),
        (Self::Soldering, "soldering", "solder, brazing rod, flux"),
        (Self::Timber, "timber", "timber and boards"),
        (Self::Insulation, "insulation", "insulation"),
        (Self::Glazing, "glazing", "glass, caps, blocks, tapes"),
        (Self::Paint, "paint", "paint and sealant"),
        (Self::Fastenings, "fastenings", "screws, lags, anchors, brackets"),
        (Self::Plumbing, "plumbing", "pipe, fittings, valves, hoses, pump, tank"),
        (Self::Electrical, "electrical", "sensors, wire, controller"),
        (Self::Other, "other", "everything else"),
    ];
}
