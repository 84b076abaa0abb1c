//! Riser meets header: hole and collar by joint kind, depth marks, laps, joint gaps, pieces between tees, the pair.
//!
//! How deep a riser may stand in the bore lives in `fits`; what was done to each joint in `joint_log`.

use super::entries::{self as e, Ends, Filler, HeaderPair, Joint};
use super::geometry::Harp;
use super::{CUT, HARP};
use crate::handbook::{fittings, tube};
use crate::model::{Entry, EntrySpec, Fig, Fold, Inputs, Judgement, Value, Verdict, Why};
use crate::physics::harp_shop::TeeFitting;
use crate::stage::{Check, Figure, Group, Severity, Solution};
use crate::units::Kind::{Count, Length as LengthKind, Number};
use crate::units::si::{Dimension, Length};
use crate::units::{HasKind, Quantity};

/// Tee centre to the shoulder of a run cup.
pub static TEE_RUN_SHOULDER: Entry<Length> = Entry::quantity("absorber.tee_run_shoulder", "tee centre to run shoulder")
    .why("measure one of your tees along the header: from its centre to where the header tube stops in the cup")
    .hard(0.003, 0.1);

/// Depth of a cup for the riser.
pub static CUP_DEPTH: Entry<Length> = Entry::quantity("absorber.cup_depth", "cup depth, riser")
    .why("how far the riser goes into its cup; left out it is the handbook's for inch sizes")
    .hard(0.002, 0.1);

/// Depth of a cup for the header.
pub static HEADER_CUP_DEPTH: Entry<Length> = Entry::quantity("absorber.header_cup_depth", "cup depth, header")
    .why("how far the header goes into a tee's run cup; left out it is the handbook's for inch sizes")
    .hard(0.002, 0.1);

/// Gap between riser and hole.
pub static JOINT_GAP: Entry<Length> = Entry::quantity("absorber.joint_gap", "joint gap")
    .why("between tube and hole or collar, on each side; 0.05 to 0.13 mm draws filler in (from memory)")
    .hard(0.0, 0.001)
    .usual(0.00005, 0.00013)
    .default("0.1 mm");

/// Outside diameter of the riser tube as measured.
pub static RISER_OUTSIDE: Entry<Length> = Entry::quantity("absorber.riser_outside", "riser outside, measured")
    .why("with a caliper at a cut end; 15 mm tube slips about in a 5/8 in cup")
    .hard(0.003, 0.1)
    .per_panel()
    .measured(Fold::Smallest);

/// Bore of cup, collar or hole as measured.
pub static SOCKET_BORE: Entry<Length> = Entry::quantity("absorber.socket_bore", "cup, collar or hole, measured")
    .why("inside diameter with a caliper; the widest one counts")
    .hard(0.003, 0.1)
    .per_panel()
    .measured(Fold::Largest);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &TEE_RUN_SHOULDER.spec,
    &CUP_DEPTH.spec,
    &HEADER_CUP_DEPTH.spec,
    &JOINT_GAP.spec,
    &RISER_OUTSIDE.spec,
    &SOCKET_BORE.spec,
];

/// Hole, cup and lap of one joint.
static LAP: Group = Group { name: "lap of the riser joints", entries: &["absorber.cup_depth"], groups: &[&CUT] };

/// Pieces of header between tees.
pub static PIECES: Group = Group {
    name: "pieces of header between tees",
    entries: &["absorber.joint", "absorber.tee_run_shoulder"],
    groups: &[&HARP],
};

/// Joints to be closed.
static JOINTS: Group = Group { name: "joints of one panel", entries: &["absorber.joint"], groups: &[&HARP] };

/// Hole of a collar or a drilled header.
static HOLE: Group =
    Group { name: "holes in the headers", entries: &["absorber.joint", "absorber.joint_gap"], groups: &[&HARP] };

/// Gap of a joint by measured diameters.
static GAP: Group = Group {
    name: "joint gap by measured diameters",
    entries: &["absorber.riser_outside", "absorber.socket_bore"],
    groups: &[],
};

fn harp(s: &Solution) -> Fig<&Harp> {
    s.absorber.harp.as_ref().map_err(Clone::clone)
}

/// Depth of the cup of a tube: entered, or the handbook's.
fn cup(inputs: &Inputs, entry: &Entry<Length>, name: &str) -> Fig<Length> {
    if let Some(depth) = inputs.given(entry)? {
        return Ok(depth);
    }
    let nominal = tube::tube(name).filter(|size| is_inch_water_tube(size)).map(|size| size.nominal.as_str());
    let cup = nominal.and_then(fittings::solder_cup);
    cup.map(|cup| cup.depth).ok_or_else(|| Why::missing(entry.spec.id))
}

/// Whether the handbook's cups are meant for this tube: ASTM B88 by its inch name.
fn is_inch_water_tube(size: &tube::TubeSize) -> bool {
    use tube::Standard::{TypeK, TypeL, TypeM};
    matches!(size.standard, TypeK | TypeL | TypeM)
}

/// Depth of the riser's cup.
pub fn riser_cup(inputs: &Inputs) -> Fig<Length> {
    cup(inputs, &CUP_DEPTH, &inputs.get(&e::RISER_TUBE)?)
}

/// Depth of the run cups of a tee.
pub fn header_cup(inputs: &Inputs) -> Fig<Length> {
    cup(inputs, &HEADER_CUP_DEPTH, &inputs.get(&e::HEADER_TUBE)?)
}

/// How far tube and header overlap where the filler holds them.
fn lap(s: &Solution) -> Fig<Length> {
    match s.inputs.get(&e::JOINT)? {
        Joint::Tee => riser_cup(&s.inputs),
        Joint::Collar => Ok(fittings::least_collar(harp(s)?.header.wall)),
        Joint::Drilled => Ok(harp(s)?.header.wall),
    }
}

/// Wall of the riser by its handbook name.
fn riser_wall(s: &Solution) -> Fig<Length> {
    let name = s.inputs.get(&e::RISER_TUBE)?;
    tube::tube(&name).map(|size| size.wall).ok_or_else(|| Why::Invalid(vec![e::RISER_TUBE.spec.id.to_owned()]))
}

fn tees_only(inputs: &Inputs) -> Fig<()> {
    match inputs.get(&e::JOINT)? {
        Joint::Tee => Ok(()),
        Joint::Collar | Joint::Drilled => Err(Why::out_of_range("the header is one tube; only tees part it")),
    }
}

/// Header tube between two tees.
pub fn middle_piece(inputs: &Inputs, harp: &Harp) -> Fig<Length> {
    tees_only(inputs)?;
    let tee = TeeFitting {
        centre_to_shoulder: inputs.get(&TEE_RUN_SHOULDER)?,
        tube_outer_diameter: harp.header.od,
        cup_depth: Length::from_si(0.0),
    };
    tee.cut_length(harp.riser_pitch).map_err(Why::out_of_range)
}

/// Header tube from the outermost tee to an end.
pub fn end_piece(inputs: &Inputs, harp: &Harp, stub: Length) -> Fig<Length> {
    tees_only(inputs)?;
    let shoulder = inputs.get(&TEE_RUN_SHOULDER)?;
    let piece = stub + harp.edge_width - shoulder;
    if piece.si() <= 0.0 {
        return Err(Why::out_of_range("stub and edge strip are shorter than the tee: no header is left beyond it"));
    }
    Ok(piece)
}

/// Filler joints of one panel: three cups of a tee, or one for each end of a riser.
pub fn filler_joints(inputs: &Inputs, harp: &Harp) -> Fig<usize> {
    Ok(match inputs.get(&e::JOINT)? {
        Joint::Tee => harp.riser_count * 6,
        Joint::Collar | Joint::Drilled => harp.riser_count * 2,
    })
}

/// The gap on each side, of measured diameters.
fn gap(s: &Solution) -> Fig<Length> {
    Ok((s.inputs.get(&SOCKET_BORE)? - s.inputs.get(&RISER_OUTSIDE)?) / 2.0)
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.hole_size", "hole or collar bore for a riser", LengthKind, &HOLE, |s, _| {
        match s.inputs.get(&e::JOINT)? {
            Joint::Tee => Err(Why::out_of_range("tees need no holes")),
            Joint::Collar | Joint::Drilled => {
                Ok((harp(s)?.riser_outer_diameter + s.inputs.get(&JOINT_GAP)? * 2.0).into())
            }
        }
    })
    .by("joint-by-kind", "riser outside diameter + 2 × {gap}", &[("gap", "absorber.joint_gap")]),
    Figure::word("absorber.header_work", "work on the headers", &JOINTS, |s, _| {
        let work = match s.inputs.get(&e::JOINT)? {
            Joint::Tee => "tees, no holes: cut the pieces between the marks",
            Joint::Collar => "punch, drill, draw the collars, deburr, blow out",
            Joint::Drilled => "punch, pilot, step drill, deburr, blow out swarf",
        };
        Ok(Value::Text(work.to_owned()))
    })
    .by("joint-by-kind", "by the kind of joint", &[]),
    Figure::new("absorber.lap", "lap of a riser joint", LengthKind, &LAP, |s, _| Ok(lap(s)?.into())).by(
        "joint-by-kind",
        "tee: depth of the cup; collar: three walls of the header; drilled hole: one wall",
        &[],
    ),
    Figure::new("absorber.lap_walls", "the same in walls of the riser", Number, &LAP, |s, _| {
        Ok(Quantity::number((lap(s)? / riser_wall(s)?).si()).into())
    })
    .by("joint-by-kind", "{lap} / wall", &[("lap", "absorber.lap")]),
    Figure::new("absorber.depth_mark", "depth ring from the riser's end", LengthKind, &LAP, |s, _| {
        match s.inputs.get(&e::JOINT)? {
            Joint::Tee => Ok(riser_cup(&s.inputs)?.into()),
            Joint::Collar | Joint::Drilled => Ok(super::fits::depth(s)?.into()),
        }
    })
    .tape()
    .by("joint-by-kind", "tee: depth of the cup; collar or hole: insertion from the crown", &[]),
    Figure::new("absorber.header_piece", "header between two tees", LengthKind, &PIECES, |s, _| {
        Ok(middle_piece(&s.inputs, harp(s)?)?.into())
    })
    .tape()
    .by("joint-by-kind", "{W} − 2 × {run}", &[("W", "absorber.pitch"), ("run", "absorber.tee_run_shoulder")]),
    Figure::new("absorber.header_end_left", "header from the left tee to its end", LengthKind, &PIECES, |s, _| {
        Ok(end_piece(&s.inputs, harp(s)?, s.inputs.get(&e::STUB_LEFT)?)?.into())
    })
    .tape()
    .by(
        "joint-by-kind",
        "{stub} + {edge} − {run}",
        &[("stub", "absorber.stub_left"), ("edge", "absorber.edge_strip"), ("run", "absorber.tee_run_shoulder")],
    ),
    Figure::new("absorber.header_end_right", "header from the right tee to its end", LengthKind, &PIECES, |s, _| {
        Ok(end_piece(&s.inputs, harp(s)?, s.inputs.get(&e::STUB_RIGHT)?)?.into())
    })
    .tape()
    .by(
        "joint-by-kind",
        "{stub} + {edge} − {run}",
        &[("stub", "absorber.stub_right"), ("edge", "absorber.edge_strip"), ("run", "absorber.tee_run_shoulder")],
    ),
    Figure::new("absorber.filler_joints", "places that take filler, one panel", Count, &JOINTS, |s, _| {
        Ok(Quantity::count(filler_joints(&s.inputs, harp(s)?)?).into())
    })
    .by(
        "joint-by-kind",
        "three cups of each tee, else one at each end of {n} risers",
        &[("n", "absorber.riser_count")],
    ),
    Figure::new("absorber.joint_gap_found", "joint gap as measured", LengthKind, &GAP, |s, _| Ok(gap(s)?.into())).by(
        "joint-by-kind",
        "({socket} − {riser})/2",
        &[("socket", "absorber.socket_bore"), ("riser", "absorber.riser_outside")],
    ),
];

/// Walls of the thinner tube that a joint must overlap (guide on brazed tubular joints, verified).
const WALLS_WANTED: f64 = 3.0;

/// Kind of joint against how it is closed.
fn joint_kind(s: &Solution) -> Fig<Judgement> {
    let (joint, filler) = (s.inputs.get(&e::JOINT)?, s.inputs.get(&e::HEADER_FILLER)?);
    let (verdict, part) = match (joint, filler) {
        (Joint::Tee, _) => return Ok(Judgement::of(Verdict::Clear)),
        (Joint::Collar, Filler::Brazed) => (Verdict::Clear, "a drawn collar, brazed"),
        (Joint::Drilled, Filler::Brazed) => (Verdict::Caution, "a drilled hole, brazed: a lap of one header wall"),
        (Joint::Collar, Filler::Soldered) => (Verdict::Stop, "a drawn collar, soldered: its lap is too thin"),
        (Joint::Drilled, Filler::Soldered) => (Verdict::Stop, "a drilled hole, soldered: its lap is too thin"),
    };
    let thinner = riser_wall(s)?.min(harp(s)?.header.wall);
    let (found, wanted) = (lap(s)?, thinner * WALLS_WANTED);
    Ok(Judgement::of(verdict).with(found, wanted).margin(found - wanted).part(part))
}

/// Room between two tees for both cups.
fn tee_room(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::JOINT)? != Joint::Tee {
        return Ok(Judgement::of(Verdict::Clear).part("no tees"));
    }
    let wanted = header_cup(&s.inputs)? * 2.0;
    let shoulder = s.inputs.get(&TEE_RUN_SHOULDER)?;
    let found = harp(s)?.riser_pitch - shoulder * 2.0;
    let margin = Quantity::new(Length::KIND, found.si() - wanted.si());
    Ok(Judgement::stop_unless(found >= wanted).with(found, wanted).margin(margin))
}

/// Gaps that draw filler in, and the widest that is bridged at all, m.
const GAP_WANTED: (f64, f64) = (0.000_05, 0.000_13);
const GAP_WIDEST: f64 = 0.000_25;

fn joint_gap(s: &Solution) -> Fig<Judgement> {
    let found = gap(s)?;
    let verdict = match found.si() {
        gap if gap <= 0.0 || gap > GAP_WIDEST => Verdict::Stop,
        gap if (GAP_WANTED.0..=GAP_WANTED.1).contains(&gap) => Verdict::Clear,
        _ => Verdict::Caution,
    };
    let limit = Length::from_si(GAP_WANTED.1);
    Ok(Judgement::of(verdict).with(found, limit).margin(limit - found))
}

/// Unequal stubs must lie where the hoses come.
fn pair(s: &Solution) -> Fig<Judgement> {
    let (left, right) = (s.inputs.get(&e::STUB_LEFT)?, s.inputs.get(&e::STUB_RIGHT)?);
    let wanted = match s.inputs.get(&e::CONNECTION)? {
        Ends::Across => HeaderPair::Mirrored,
        Ends::SameSide => HeaderPair::Alike,
    };
    let matches = left == right || s.inputs.get(&e::HEADER_PAIR)? == wanted;
    let part = if wanted == HeaderPair::Mirrored { "mirrored" } else { "alike" };
    Ok(Judgement::caution_unless(matches).with(left, right).part(part))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("absorber.joint-kind", "riser joint and how it is closed", Severity::Serious, joint_kind)
        .says(
            "This joint is {part}: {found} of overlap where {limit} is wanted.",
            "Use tee fittings or drawn collars, and braze; a drilled hole wants a collar.",
        )
        .blind_to("how well the end is coped, and how far it goes in")
        .source(
            "three walls of the thinner tube at least; drawn collars are brazed, not soldered: copper handbook and brazing notes",
        )
        .needs(&["absorber.lap", "absorber.joint", "absorber.header_filler", "absorber.riser_tube"]),
    Check::new("absorber.tee-room", "room between the tees", Severity::Nuisance, tee_room)
        .says(
            "Between two tees {found} of header is left; both cups together take {limit}.",
            "A wider pitch, or a header with drawn collars.",
        )
        .blind_to("fittings of another maker; measure one")
        .source("geometry; cup depths: copper handbook (verified)")
        .needs(&["absorber.header_piece", "absorber.header_cup_depth", "absorber.header_tube", "absorber.joint"]),
    Check::new("absorber.joint-gap", "joint gap by measured diameters", Severity::Injury, joint_gap)
        .per_panel()
        .says(
            "The gap on each side is {found}: 0.05 to {limit} draws filler in, above 0.25 mm or below zero does not.",
            "Another tube or fitting of the same standard, or an adapter.",
        )
        .blind_to("ends out of round, a riser off the middle of its hole")
        .source("0.25 mm: project rule")
        .recalls("the capillary gap")
        .needs(&["absorber.joint_gap_found"]),
    Check::new("absorber.header-pair", "stubs and the ends that are used", Severity::Nuisance, pair)
        .says(
            "The stubs differ, {found} left and {limit} right: with these ends the headers should be {part}.",
            "Set the headers as a pair, or make both stubs equal.",
        )
        .blind_to("which of the stubs gets the hose and which the cap")
        .source("geometry")
        .needs(&["absorber.stub_left", "absorber.stub_right", "absorber.header_pair", "absorber.connection"]),
];
