//! The runs of the loop: rows by name, each from one place to the next in the direction of flow.

use crate::handbook::{hose, insulation};
use crate::model::{Choice, Entry, EntrySpec, TradeUnits};
use crate::units::Kind;
use crate::units::si::{Length, Pressure, Temperature, ZERO_CELSIUS};

/// Where a run begins.
pub static FROM: Entry<String> =
    Entry::text("plumbing.run.*.from", "run begins at").why("a part of the loop, or any name for a joint of runs");

/// Where a run ends.
pub static TO: Entry<String> = Entry::text("plumbing.run.*.to", "run ends at")
    .why("a part, or a joint; runs are written in the direction of flow");

/// What sits along a run.
pub static ALONG: Entry<String> = Entry::text("plumbing.run.*.along", "parts along the run")
    .why("names of parts with commas, in the order of flow; the first sits at the run's start, the last at its end");

/// Pipe of a run.
pub static PIPE: Entry<String> = Entry::listed("plumbing.run.*.pipe", "pipe of the run", super::super::tube_names)
    .why("copper by its handbook name; left out it is the loop pipe");

/// Length of a run.
pub static LENGTH: Entry<Length> = Entry::quantity("plumbing.run.*.length", "length of the run")
    .shown_in(TradeUnits::SITE)
    .why("as walked, one way")
    .hard(0.01, 500.0);

/// Rise of a run.
pub static RISE: Entry<Length> = Entry::quantity("plumbing.run.*.rise", "rise of the run")
    .why("its end above its start; a run that falls has a minus")
    .hard(-50.0, 50.0)
    .default("0 m");

/// Elbows of a run.
pub static ELBOWS: Entry<usize> =
    Entry::count("plumbing.run.*.elbows", "elbows of the run").why("of 90°, short").default("0");

/// Tees of a run that the flow passes straight.
pub static TEES: Entry<usize> = Entry::count("plumbing.run.*.tees", "tees of the run")
    .why("passed straight through, besides those of the parts along it")
    .default("0");

/// Further losses of a run.
pub static LOSS: Entry<f64> = Entry::plain("plumbing.run.*.loss", "further losses ΣK", Kind::Number)
    .why("sum of the loss coefficients of all else that narrows or turns the flow")
    .hard(0.0, 1e4)
    .default("0");

/// Hose or plastic pipe of a run.
pub static HOSE: Entry<String> = Entry::listed("plumbing.run.*.hose", "hose or plastic", hose_names)
    .why("where the run is no copper: what it is made of, so that its heat is judged");

/// Bore of a hose.
pub static BORE: Entry<Length> =
    Entry::quantity("plumbing.run.*.bore", "bore of the hose").why("inside, of hose or plastic pipe").hard(0.003, 0.2);

/// Bore of the barbs of a hose.
pub static BARB: Entry<Length> = Entry::quantity("plumbing.run.*.barb", "bore of its barbs")
    .why("inside; a barb pair can cost as much as metres of pipe")
    .hard(0.002, 0.2);

/// Pressure that a hose bears.
pub static RATING: Entry<Pressure> = Entry::quantity("plumbing.run.*.rating", "pressure it bears")
    .why("printed on it or on its sheet, together with the temperature it holds at")
    .hard(0.0, 1e8);

/// Temperature at which a hose bears its pressure.
pub static RATED_AT: Entry<Temperature> = Entry::quantity("plumbing.run.*.rated_at", "at this temperature")
    .why("a pressure without its temperature proves nothing near a panel")
    .hard(ZERO_CELSIUS - 60.0, ZERO_CELSIUS + 400.0);

/// Insulation of a run.
pub static INSULATION: Entry<String> =
    Entry::listed("plumbing.run.*.insulation", "insulation of the run", material_names)
        .why("by its handbook name; left out the run is bare");

/// Thickness of the insulation.
pub static THICKNESS: Entry<Length> =
    Entry::quantity("plumbing.run.*.thickness", "its thickness").why("of the wall of the insulation").hard(0.001, 0.3);

/// Where a run lies.
pub static PLACE: Entry<Place> = Entry::choice("plumbing.run.*.place", "where it lies")
    .why("decides what it loses by night and day")
    .default("indoors");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &FROM.spec,
    &TO.spec,
    &ALONG.spec,
    &PIPE.spec,
    &LENGTH.spec,
    &RISE.spec,
    &ELBOWS.spec,
    &TEES.spec,
    &LOSS.spec,
    &HOSE.spec,
    &BORE.spec,
    &BARB.spec,
    &RATING.spec,
    &RATED_AT.spec,
    &INSULATION.spec,
    &THICKNESS.spec,
    &PLACE.spec,
];

/// Where a run lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Indoors.
    Indoors,
    /// Outdoors.
    Outdoors,
}

impl Choice for Place {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Indoors, "indoors", "in a heated or frost-free room"),
        (Self::Outdoors, "outdoors", "in the open, an attic or a crawl space"),
    ];
}

fn hose_names() -> Vec<(&'static str, &'static str)> {
    let hoses = hose::hoses().iter().map(|hose| (hose.name.as_str(), "hose"));
    hoses.chain(hose::plastic_pipes().iter().map(|pipe| (pipe.name.as_str(), "plastic pipe"))).collect()
}

fn material_names() -> Vec<(&'static str, &'static str)> {
    let outgas = |material: &'static insulation::Material| material.outgas.as_deref().unwrap_or("");
    insulation::materials().all().iter().map(|material| (material.name.as_str(), outgas(material))).collect()
}
