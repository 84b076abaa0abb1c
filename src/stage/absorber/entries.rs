//! What the absorber stage asks.

use std::sync::LazyLock;

use crate::handbook::{sheet, solder, tube};
use crate::model::{Choice, Entry, EntrySpec, Fold};
use crate::units::Kind;
use crate::units::si::{Length, Ratio};

/// Number of risers.
pub static RISER_COUNT: Entry<usize> = Entry::count("absorber.riser_count", "risers")
    .why("tubes that carry the sheet, between the two headers")
    .hard(2.0, 60.0)
    .usual(4.0, 20.0);

/// Distance between riser axes.
pub static RISER_PITCH: Entry<Length> = Entry::quantity("absorber.riser_pitch", "riser pitch")
    .why("centre to centre; left out it is the sheet's width over the risers, half a pitch at each edge")
    .hard(0.015, 1.0)
    .usual(0.08, 0.16)
    .per_panel()
    .fold(Fold::Mean);

/// Width of the sheet.
pub static SHEET_WIDTH: Entry<Length> = Entry::quantity("absorber.sheet_width", "sheet width")
    .why("across the risers; left out it is risers × pitch, half a pitch at each edge")
    .hard(0.05, 5.0)
    .per_panel();

/// Header beyond the sheet on the left.
pub static STUB_LEFT: Entry<Length> = Entry::quantity("absorber.stub_left", "left stub")
    .why("header beyond the sheet on the left: through the box wall to the hose or the cap")
    .hard(0.0, 0.5)
    .usual(0.05, 0.3)
    .default("100 mm");

/// Header beyond the sheet on the right.
pub static STUB_RIGHT: Entry<Length> = Entry::quantity("absorber.stub_right", "right stub")
    .why("header beyond the sheet on the right")
    .hard(0.0, 0.5)
    .usual(0.05, 0.3)
    .default("100 mm");

/// How the two headers lie to each other.
pub static HEADER_PAIR: Entry<HeaderPair> = Entry::choice("absorber.header_pair", "headers as a pair")
    .why("with unequal stubs and the ends across, the upper header is the lower one turned end for end")
    .default("alike");

/// Centre to centre of the two headers.
pub static HEADER_SPACING: Entry<Length> = Entry::quantity("absorber.header_spacing", "header spacing")
    .why("centre to centre of the two headers; decides the riser length")
    .hard(0.02, 6.0)
    .usual(0.8, 3.0)
    .per_panel();

/// Tube of the risers.
pub static RISER_TUBE: Entry<String> = Entry::listed("absorber.riser_tube", "riser tube", tube_names)
    .why("by its handbook name; nominal sizes are not outside diameters");

/// Tube of the headers.
pub static HEADER_TUBE: Entry<String> = Entry::listed("absorber.header_tube", "header tube", tube_names)
    .why("a header too small for its risers starves some of them");

/// Wall of the riser tube as measured.
pub static RISER_WALL: Entry<Length> = Entry::quantity("absorber.riser_wall", "riser wall")
    .why("with a micrometer; thin walls are sold under the same nominal size")
    .hard(0.0002, 0.01)
    .per_panel()
    .measured(Fold::Smallest);

/// How a riser meets a header.
pub static JOINT: Entry<Joint> =
    Entry::choice("absorber.joint", "riser joint").why("decides the cut length, the hole and what may be soldered");

/// Tee centre to cup shoulder.
pub static TEE_SHOULDER: Entry<Length> = Entry::quantity("absorber.tee_shoulder", "tee centre to shoulder")
    .why("measure one of your tees: from its centre to where the tube stops in the cup")
    .hard(0.003, 0.1);

/// How deep the riser goes in.
pub static INSERTION: Entry<Length> = Entry::quantity("absorber.insertion", "insertion depth")
    .why("from the header's crown; left out it is the least depth that bites all round")
    .hard(0.0, 0.05);

/// How the header joints are closed.
pub static HEADER_FILLER: Entry<Filler> = Entry::choice("absorber.header_filler", "pressure joints")
    .why("header to riser and header to stub: brazed joints keep their strength when the panel stands dry and hot");

/// Alloy of the sheet bond.
pub static SOLDER: Entry<String> = Entry::listed("absorber.solder", "solder of the sheet", solder_names)
    .why("the line that holds sheet to riser; it must stay solid when the panel stands empty in the sun");

/// How the sheet lies on the tube.
pub static SEAT: Entry<Seat> = Entry::choice("absorber.seat", "seat of the tube")
    .why("a grooved sheet is held over the tube's whole width, a flat one only over the solder line")
    .default("flat");

/// Width of the solder line.
pub static BOND_WIDTH: Entry<Length> = Entry::quantity("absorber.bond_width", "solder line width")
    .why("the width of sheet that the solder holds to the tube")
    .hard(0.0005, 0.05)
    .usual(0.003, 0.015)
    .default("6 mm")
    .per_panel()
    .fold(Fold::Mean);

/// Thickness of the solder line.
pub static BOND_FILM: Entry<Length> = Entry::quantity("absorber.bond_film", "solder film")
    .why("mean thickness of solder between tube and sheet; clamp the sheet down to keep it thin")
    .hard(0.00001, 0.005)
    .usual(0.00005, 0.001)
    .default("0.3 mm");

/// Share of the riser's length that is soldered.
pub static BOND_LENGTH: Entry<Ratio> = Entry::percent("absorber.bond_length", "length soldered")
    .why("share of the riser's length with a sound line; gaps cost more than the alloy ever does")
    .hard(0.01, 1.0)
    .usual(0.9, 1.0)
    .default("95 %")
    .per_panel();

/// Metal of the sheet.
pub static SHEET_METAL: Entry<String> = Entry::listed("absorber.sheet_metal", "sheet metal", metal_names)
    .why("two coppers differ by an eighth in conductivity; ask which one is sold");

/// Thickness of the sheet.
pub static SHEET_THICKNESS: Entry<Length> = Entry::quantity("absorber.sheet_thickness", "sheet thickness")
    .why("in mm, or by weight such as 8 oz for copper")
    .hard(0.00005, 0.005)
    .usual(0.0002, 0.001)
    .per_panel()
    .fold(Fold::Mean);

/// Solar absorptance of the coating.
pub static ABSORPTANCE: Entry<Ratio> = Entry::percent("absorber.absorptance", "absorptance")
    .why("share of sunlight the coating takes in; flat black paint about 95 %")
    .hard(0.05, 1.0)
    .usual(0.85, 0.98)
    .default("95 %");

/// Long-wave emittance of the coating.
pub static EMITTANCE: Entry<Ratio> = Entry::percent("absorber.emittance", "emittance")
    .why("flat black paint about 92 %; a selective surface 5 to 20 % and far hotter when it stands empty")
    .hard(0.01, 1.0)
    .default("92 %");

/// Connection of the harp.
pub static CONNECTION: Entry<Ends> = Entry::choice("absorber.connection", "connection of the harp")
    .why("across: in at a lower corner, out at the opposite upper one, where air leaves")
    .default("across");

/// Tube wall as a fin.
pub static TUBE_WALL: Entry<bool> = Entry::flag("absorber.tube_wall", "count the tube wall")
    .why("a thin wall fed only along its solder line costs a little; yes counts it")
    .default("no");

/// Waste of solder.
pub static SOLDER_WASTE: Entry<Ratio> = Entry::percent("absorber.solder_waste", "waste of solder")
    .why("drips, tacks and what is wiped off; 25 % is usual (from memory)")
    .default("25 %");

/// Coats of paint.
pub static PAINT_COATS: Entry<usize> = Entry::count("absorber.paint_coats", "coats")
    .why("two thin coats; thick films peel and insulate")
    .hard(1.0, 6.0)
    .default("2");

/// Coverage of the paint.
pub static PAINT_COVERAGE: Entry<f64> = Entry::plain("absorber.paint_coverage", "paint covers", Kind::Coverage)
    .why("area for each litre of one coat, as the can says; about 8 m² a litre (from memory)")
    .hard(100.0, 100_000.0)
    .default("8 m2/L");

/// First diagonal of the harp.
pub static DIAGONAL_1: Entry<Length> = Entry::quantity("absorber.diagonal_1", "first diagonal")
    .why("corner to corner of the dry-fitted harp")
    .hard(0.1, 10.0)
    .per_panel()
    .measured(Fold::Latest);

/// Second diagonal of the harp.
pub static DIAGONAL_2: Entry<Length> = Entry::quantity("absorber.diagonal_2", "second diagonal")
    .why("the other corners")
    .hard(0.1, 10.0)
    .per_panel()
    .measured(Fold::Latest);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &RISER_COUNT.spec,
    &RISER_PITCH.spec,
    &SHEET_WIDTH.spec,
    &STUB_LEFT.spec,
    &STUB_RIGHT.spec,
    &HEADER_PAIR.spec,
    &HEADER_SPACING.spec,
    &RISER_TUBE.spec,
    &HEADER_TUBE.spec,
    &RISER_WALL.spec,
    &JOINT.spec,
    &TEE_SHOULDER.spec,
    &INSERTION.spec,
    &HEADER_FILLER.spec,
    &SOLDER.spec,
    &SEAT.spec,
    &BOND_WIDTH.spec,
    &BOND_FILM.spec,
    &BOND_LENGTH.spec,
    &SHEET_METAL.spec,
    &SHEET_THICKNESS.spec,
    &ABSORPTANCE.spec,
    &EMITTANCE.spec,
    &CONNECTION.spec,
    &TUBE_WALL.spec,
    &SOLDER_WASTE.spec,
    &PAINT_COATS.spec,
    &PAINT_COVERAGE.spec,
    &DIAGONAL_1.spec,
    &DIAGONAL_2.spec,
];

/// How the two headers lie to each other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum HeaderPair {
    /// Both marked and drilled alike.
    Alike,
    /// The upper one has its stubs the other way round.
    Mirrored,
}

impl Choice for HeaderPair {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Alike, "alike", "both marked and drilled alike"),
        (Self::Mirrored, "mirrored", "the upper one is the lower one turned end for end"),
    ];
}

/// How a riser meets a header.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joint {
    /// A tee fitting with full cups.
    Tee,
    /// A collar drawn out of the header.
    Collar,
    /// A plain drilled hole.
    Drilled,
}

impl Choice for Joint {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Tee, "tee", "a tee fitting with full cups"),
        (Self::Collar, "collar", "a collar drawn out of the header, brazed"),
        (Self::Drilled, "drilled", "a plain drilled hole, brazed"),
    ];
}

/// How a joint is closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Filler {
    /// Soft solder.
    Soldered,
    /// Brazing alloy.
    Brazed,
}

impl Choice for Filler {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Brazed, "brazed", "with a brazing alloy"),
        (Self::Soldered, "soldered", "with soft solder; no rating above 121 °C"),
    ];
}

/// Where the harp's ends are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ends {
    /// In and out at opposite corners.
    Across,
    /// In and out on the same side.
    SameSide,
}

impl Choice for Ends {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Across, "across", "in at a lower corner, out at the opposite upper one"),
        (Self::SameSide, "same side", "in and out on one side, one above the other"),
    ];
}

/// How the sheet lies on the tube.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seat {
    /// A flat sheet on a round tube.
    Flat,
    /// A sheet with grooves that take the tubes.
    Grooved,
}

impl Choice for Seat {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Flat, "flat", "a flat sheet on a round tube"),
        (Self::Grooved, "grooved", "grooves that take the tubes"),
    ];
}

static TUBE_NAMES: LazyLock<Vec<(String, String)>> =
    LazyLock::new(|| tube::all().iter().map(|size| (size.name(), size.standard.label().to_owned())).collect());

/// Copper tubes by their handbook names.
pub fn tube_names() -> Vec<(&'static str, &'static str)> {
    TUBE_NAMES.iter().map(|(name, standard)| (name.as_str(), standard.as_str())).collect()
}

fn solder_names() -> Vec<(&'static str, &'static str)> {
    solder::alloys()
        .all()
        .iter()
        .map(|alloy| (alloy.name.as_str(), if alloy.lead_free { "lead-free" } else { "holds lead" }))
        .collect()
}

fn metal_names() -> Vec<(&'static str, &'static str)> {
    sheet::metals().all().iter().map(|metal| (metal.name.as_str(), metal.note.as_deref().unwrap_or(""))).collect()
}
