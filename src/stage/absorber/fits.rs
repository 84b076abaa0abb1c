//! What must fit: insertion, blocked bores, nearly equal tube standards, sensible sizes, growth of the harp.

use super::entries as e;
use super::geometry::Harp;
use super::{CUT, HARP, STAGNATION};
use crate::handbook::tube;
use crate::model::{Fig, Judgement, Verdict, Why};
use crate::physics::expansion::{Swing, copper_growth};
use crate::physics::harp_shop::{Insertion, RiserInHeader};
use crate::stage::{Check, Figure, Group, Severity, Solution};
use crate::units::Kind::{Length, Percent};
use crate::units::si::{self, Dimension, celsius};
use crate::units::{HasKind, Quantity};

fn harp(s: &Solution) -> Fig<&Harp> {
    s.absorber.harp.as_ref().map_err(Clone::clone)
}

/// The riser as it sits in the header; only without fittings.
fn insertion(s: &Solution) -> Fig<(RiserInHeader, Insertion)> {
    let harp = harp(s)?;
    if s.inputs.get(&e::JOINT)? == e::Joint::Tee {
        return Err(Why::out_of_range("a tee fitting stops the riser at its shoulder"));
    }
    let joint = RiserInHeader {
        header_outer_diameter: harp.header.od,
        header_bore: harp.header.bore(),
        riser_outer_diameter: harp.riser_outer_diameter,
    };
    let depth = match s.inputs.given(&e::INSERTION)? {
        Some(depth) => depth,
        None => joint.least_insertion().map_err(Why::out_of_range)?,
    };
    Ok((joint, joint.inserted(depth).map_err(Why::out_of_range)?))
}

/// How deep the riser goes in, from the crown.
pub fn depth(s: &Solution) -> Fig<si::Length> {
    Ok(insertion(s)?.1.depth)
}

/// Growth of a copper length from the bench at 20 °C to stagnation.
fn growth(s: &Solution, length: si::Length) -> Fig<si::Length> {
    let hot = s.absorber.stagnation.as_ref().map_err(Clone::clone)?.worst;
    copper_growth(length, Swing { from: celsius(20.0), to: hot }).map_err(Why::out_of_range)
}

static GROWTH: Group = Group { name: "growth of the harp", entries: &[], groups: &[&HARP, &STAGNATION] };

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.insertion_depth", "insertion from the crown", Length, &CUT, |s, _| {
        Ok(insertion(s)?.1.depth.into())
    })
    .by("riser-cut", "entered, or the least that bites all round: R_o − √(R_i² − r²)", &[]),
    Figure::new("absorber.bore_blocked", "header bore blocked by a riser", Percent, &CUT, |s, _| {
        Ok(Quantity::percent(insertion(s)?.1.blockage).into())
    })
    .by("riser-cut", "share of the bore behind the riser's end plane", &[]),
    Figure::new("absorber.header_growth", "header grows by", Length, &GROWTH, |s, _| {
        Ok(growth(s, harp(s)?.header_length)?.into())
    })
    .by(
        "growth",
        "17.3e-6/K (17.64e-6/K above 200 °C) × {L} × ({T} − 20 °C)",
        &[("L", "absorber.header_length"), ("T", "absorber.stagnation_worst")],
    ),
    Figure::new("absorber.riser_growth", "riser grows by", Length, &GROWTH, |s, _| {
        Ok(growth(s, harp(s)?.header_spacing)?.into())
    })
    .by(
        "growth",
        "17.3e-6/K (17.64e-6/K above 200 °C) × {L} × ({T} − 20 °C)",
        &[("L", "absorber.header_spacing"), ("T", "absorber.stagnation_worst")],
    ),
];

/// Blocked share of the bore that is a caution and a stop (from memory).
const BLOCKED_CAUTION: f64 = 0.10;
const BLOCKED_STOP: f64 = 0.20;

fn blocked(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::JOINT)? == e::Joint::Tee {
        return Ok(Judgement::does_not_apply("the risers end in tee fittings"));
    }
    let (joint, insertion) = insertion(s)?;
    if !insertion.full_bite {
        let least = joint.least_insertion().map_err(Why::out_of_range)?;
        return Ok(Judgement::of(Verdict::Stop).with(insertion.depth, least).part("too shallow to bite all round"));
    }
    let verdict = match insertion.blockage {
        share if share <= BLOCKED_CAUTION => Verdict::Clear,
        share if share <= BLOCKED_STOP => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let (found, limit) = (Quantity::percent(insertion.blockage), Quantity::percent(BLOCKED_CAUTION));
    let margin = Quantity::percent(BLOCKED_CAUTION - insertion.blockage);
    Ok(Judgement::of(verdict).with(found, limit).margin(margin).part("too deep in the header"))
}

/// Two outer diameters closer than this are taken for one another at the bench.
const LOOKS_ALIKE: f64 = 0.0012;

/// Riser and header tubes of two systems whose sizes look alike: 15 against 15.88 mm, 22 against 22.2, 28 against 28.6.
fn standards(s: &Solution) -> Fig<Judgement> {
    let riser = tube::tube(&s.inputs.get(&e::RISER_TUBE)?);
    let header = tube::tube(&s.inputs.get(&e::HEADER_TUBE)?);
    let (Some(riser), Some(header)) = (riser, header) else {
        return Err(Why::Invalid(vec![e::RISER_TUBE.spec.id.to_owned(), e::HEADER_TUBE.spec.id.to_owned()]));
    };
    let inch = |size: &tube::TubeSize| !size.name().contains("mm");
    if inch(riser) == inch(header) {
        return Ok(Judgement::of(Verdict::Clear));
    }
    let near = tube::all().iter().find(|other| {
        inch(other) != inch(riser) && other.od != riser.od && (other.od - riser.od).abs().si() < LOOKS_ALIKE
    });
    Ok(Judgement::of(Verdict::Caution).part(near.map_or_else(|| header.name(), tube::TubeSize::name)))
}

/// Length to which the edge strips may depart from half a pitch before it costs heat, as a share of the pitch.
const EDGE_SHARE: f64 = 0.6;

fn edge_strip(s: &Solution) -> Fig<Judgement> {
    let harp = harp(s)?;
    let limit = harp.riser_pitch * EDGE_SHARE;
    Ok(Judgement::caution_unless(harp.edge_width <= limit).with(harp.edge_width, limit).margin(limit - harp.edge_width))
}

/// Clearance each end wants beside its growth (project rule, enclosure notes), m.
const END_PLAY: f64 = 0.003;

fn room_to_grow(s: &Solution) -> Fig<Judgement> {
    let clearance = s.inputs.get(&crate::stage::enclosure::entries::CLEARANCE)?;
    let wanted = growth(s, harp(s)?.header_spacing)? + si::Length::from_si(END_PLAY);
    let margin = Quantity::new(si::Length::KIND, clearance.si() - wanted.si());
    Ok(Judgement::stop_unless(clearance >= wanted).with(clearance, wanted).margin(margin))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("absorber.insertion", "riser in the header", Severity::Nuisance, blocked)
        .says(
            "The riser is {part}: {found} against {limit}.",
            "Set the depth ring anew, cope the end, or take a wider header.",
        )
        .blind_to("filler that runs into the bore; look through the header against the light")
        .source("geometry derived here")
        .recalls("10 % and 20 % of the bore")
        .needs(&["absorber.bore_blocked", "absorber.insertion_depth", "absorber.joint"]),
    Check::new("absorber.tube-standards", "tube standards that nearly fit", Severity::Injury, standards)
        .says(
            "Riser and header come from inch and metric systems; {part} looks alike and does not fit: 15 against 15.88 mm, \
             22 against 22.2, 28 against 28.6.",
            "Measure both diameters; the joint gap must be 0.05 to 0.13 mm, else use an adapter.",
        )
        .blind_to("fittings of a third standard in the box")
        .source("ASTM B88, EN 1057 dimensions (verified)")
        .recalls("the capillary gap")
        .needs(&["absorber.riser_tube", "absorber.header_tube"]),
    Check::new("absorber.edge-strip", "sheet at the edges", Severity::Nuisance, edge_strip)
        .says(
            "The edge strips are {found} wide from the outermost riser; up to {limit} keeps their heat.",
            "One riser more, or a narrower sheet.",
        )
        .blind_to("a sheet that is cut out of square")
        .source("project rule")
        .needs(&["absorber.riser_pitch", "absorber.sheet_across", "absorber.riser_count"]),
    Check::new("absorber.room-to-grow", "room for the harp to grow", Severity::Injury, room_to_grow)
        .says(
            "The plate has {found} of free space at each edge; growth to stagnation and 3 mm of play want {limit}.",
            "More clearance, and fix the harp at one corner only.",
        )
        .blind_to("clips that bind, a stub that is held fast by its sleeve")
        .source("17.3e-6/K to 200 °C, 17.64e-6/K to 300 °C: copper handbook (verified); 3 mm: project rule")
        .needs(&["absorber.riser_growth", "enclosure.clearance"]),
];
