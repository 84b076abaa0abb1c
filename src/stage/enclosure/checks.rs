//! The checks of the enclosure stage.

use super::entries::{self as e, Glass};
use super::heat::{self, WOOD_CLEAR, WOOD_STOP};
use super::mass;
use super::openings::FIXED_AT;
use crate::model::{Choice, Fig, Judgement, Verdict};
use crate::stage::absorber;
use crate::stage::worst::worst;
use crate::stage::{Check, Severity, Solution};
use crate::units::Quantity;
use crate::units::si::{Dimension, Length, Temperature, TemperatureInterval, celsius, difference, in_celsius};

/// Margin that insulation keeps to its limit, K (project rule).
const INSULATION_MARGIN: f64 = 20.0;
/// Least bite of the glass, m (glazing practice, from memory).
const LEAST_BITE: f64 = 0.010;
/// Air gap within which the cover does its work, m (common practice, no source).
const LEAST_GAP: f64 = 0.010;
const LARGEST_GAP: f64 = 0.050;
/// Difference of the diagonals that a tempered pane may lie in, m (project rule).
const SQUARE: f64 = 0.003;

fn wood(face: Temperature, part: &str) -> Judgement {
    let verdict = match in_celsius(face) {
        degrees if degrees <= WOOD_CLEAR => Verdict::Clear,
        degrees if degrees <= WOOD_STOP => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let limit = celsius(WOOD_STOP);
    Judgement::of(verdict).with(face, limit).margin(difference(limit, face)).part(part)
}

fn behind(s: &Solution) -> Fig<Judgement> {
    let faces = s.enclosure.behind.clone()?;
    let mut parts =
        vec![Ok(wood(faces.back, "the back board")), Ok(wood(faces.edge, "the rail behind the edge insulation"))];
    parts.extend(faces.strip.map(|face| Ok(wood(face, "the support strips"))));
    worst(parts)
}

fn rail(s: &Solution) -> Fig<Judgement> {
    Ok(wood(s.enclosure.rail_face.clone()?, "the rail above the plate"))
}

fn insulation(s: &Solution) -> Fig<Judgement> {
    let hottest = s.absorber.stagnation.clone()?.worst;
    let limit = s.enclosure.insulation_limit.clone()?;
    let margin = difference(limit, hottest) - TemperatureInterval::from_si(INSULATION_MARGIN);
    let name = s.inputs.get(&e::INSULATION)?;
    let judgement = Judgement::stop_unless(margin.si() >= 0.0).with(hottest, limit).margin(margin).part(name);
    Ok(judgement.resting_on(heat::insulation_limit_provenance(&s.inputs)?))
}

fn glass_kind(s: &Solution) -> Fig<Judgement> {
    let glass = s.inputs.get(&e::GLASS)?;
    Ok(Judgement::stop_unless(glass != Glass::Annealed).part(glass.word()))
}

/// Copper that a hose or cap needs outside the box, m (common practice, no source).
const OUTSIDE_STUB: f64 = 0.025;

/// The shorter stub against the way through clearance, insulation and rail, and a grip outside.
fn stub_reach(s: &Solution) -> Fig<Judgement> {
    let stub = |entry| s.inputs.get(entry);
    let left = stub(&absorber::entries::STUB_LEFT)?;
    let right = stub(&absorber::entries::STUB_RIGHT)?;
    let shorter = if right < left { right } else { left };
    let wall = s.inputs.get(&e::CLEARANCE)? + s.inputs.get(&e::EDGE_THICKNESS)? + s.inputs.get(&e::RAIL_THICKNESS)?;
    let wanted = wall + Length::from_si(OUTSIDE_STUB);
    let part = if right < left { "right stub" } else { "left stub" };
    Ok(Judgement::stop_unless(shorter >= wanted).with(shorter, wanted).margin(shorter - wanted).part(part))
}

fn air_gap(s: &Solution) -> Fig<Judgement> {
    let gap = s.inputs.get(&e::AIR_GAP)?;
    let limit = Length::from_si(if gap.si() < LEAST_GAP { LEAST_GAP } else { LARGEST_GAP });
    let margin = (gap.si() - LEAST_GAP).min(LARGEST_GAP - gap.si());
    Ok(Judgement::caution_unless(margin >= 0.0).with(gap, limit).margin(Length::from_si(margin)))
}

fn glass_seat(s: &Solution) -> Fig<Judgement> {
    let entered = s.inputs.get(&e::GLASS_CLEARANCE)?;
    let bite = s.inputs.get(&e::GLASS_BITE)?;
    let shoulder = s.enclosure.pane.clone()?.shoulder;
    let zero = Length::from_si(0.0);
    let clearance = s.enclosure.least_clearance.clone().map(|needed| {
        let margin = entered - needed;
        Judgement::stop_unless(margin >= zero).with(entered, needed).margin(margin).part("clearance at each edge")
    });
    let least = Length::from_si(LEAST_BITE);
    let held = Judgement::caution_unless(bite >= least).with(bite, least).margin(bite - least).part("bite");
    let fits = Judgement::stop_unless(shoulder >= zero)
        .with(shoulder, zero)
        .margin(shoulder)
        .part("rail left outside the seat");
    worst([clearance, Ok(held), Ok(fits)])
}

fn growth_gap(s: &Solution) -> Fig<Judgement> {
    let growth = s.enclosure.growth.clone()?;
    let share = s.inputs.get(&FIXED_AT)?.share();
    let needed = growth.header.max(growth.riser) * share + crate::physics::expansion::end_play();
    let gap = s.inputs.get(&e::CLEARANCE)?;
    Ok(Judgement::stop_unless(gap >= needed).with(gap, needed).margin(gap - needed))
}

fn square(s: &Solution) -> Fig<Judgement> {
    let found = (s.inputs.get(&e::DIAGONAL_1)? - s.inputs.get(&e::DIAGONAL_2)?).abs();
    let limit = Length::from_si(SQUARE);
    Ok(Judgement::stop_unless(found <= limit).with(found, limit).margin(limit - found))
}

fn lift(s: &Solution) -> Fig<Judgement> {
    let needed = mass::people(s.enclosure.masses.clone()?.dry())?;
    if s.inputs.get(&e::HOIST)? {
        return Ok(Judgement::does_not_apply("a hoist lifts it"));
    }
    let there = s.inputs.get(&e::LIFTERS)?;
    let margin = Quantity::number(there as f64 - needed as f64);
    Ok(Judgement::stop_unless(there >= needed)
        .with(Quantity::count(there), Quantity::count(needed))
        .margin(margin)
        .part("hands"))
}

fn pressure(s: &Solution) -> Fig<Judgement> {
    let pressed = s.enclosure.under_pressure.clone()?;
    let stress = pressed.bending.stress;
    let carries = Judgement::stop_unless(stress <= pressed.allowable)
        .with(stress, pressed.allowable)
        .margin(pressed.allowable - stress)
        .part("stress");
    let deflection = pressed.bending.deflection;
    let bends = Judgement::caution_unless(deflection <= pressed.deflection_limit)
        .with(deflection, pressed.deflection_limit)
        .margin(pressed.deflection_limit - deflection)
        .part("deflection");
    Ok(if carries.verdict < bends.verdict { bends } else { carries })
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("enclosure.timber-behind", "timber behind the insulation", Severity::Serious, behind)
        .says(
            "Empty in full sun the face of {part} can reach {found}; {limit} for years has started fires.",
            "Thicker insulation: {enclosure.back_thickness_least} behind the plate keeps the back board at 65 °C. No wood \
             within 25 mm of copper; a mineral sleeve at every stub.",
        )
        .blind_to("heat along stubs, clips and screws; gaps, sagging and damp insulation; a plate that touches wood")
        .ask("the fire authority or a licensed engineer, where the panel stands on a house")
        .source("77 °C: Fire and Materials 2007, abstract (verified); caution from 65 °C: project rule")
        .needs(&["enclosure.back_face", "enclosure.edge_face", "enclosure.strip_height"]),
    Check::new("enclosure.timber-rail", "timber beside and above the plate", Severity::Serious, rail)
        .says(
            "Empty in full sun the wood of {part} can reach {found}; {limit} for years has started fires.",
            "Line the rails up to the glass seat with 12 to 25 mm of mineral board, metal face inward.",
        )
        .blind_to(
            "an estimate, good to perhaps 12 K; stubs and screws as thermal short-cuts and sun on the rail itself are not \
             computed",
        )
        .ask("the fire authority or a licensed engineer, where the panel stands on a house")
        .source("77 °C: Fire and Materials 2007, abstract (verified); balance: an estimate of this program")
        .needs(&["enclosure.rail_face"]),
    Check::new("enclosure.insulation-limit", "insulation against stagnation", Severity::Serious, insulation)
        .says(
            "{part} stands {limit}; next to the plate it can see {found}, and 20 K must be left between.",
            "Put fibre with a higher limit next to the plate; foam never touches it.",
        )
        .blind_to("binder that bakes off and fogs the glass; a product other than its label; ageing")
        .source("lowest published limits, see the handbook table; margin of 20 K: project rule")
        .recalls_beside("some rows of that table")
        .needs(&["absorber.stagnation_worst", "enclosure.insulation_stands"]),
    Check::new("enclosure.glass-kind", "kind of glass", Severity::Serious, glass_kind)
        .says(
            "{part} breaks from its own heat: 30 K between its hot middle and its shaded edge make 19 MPa, all that it \
             may carry.",
            "Tempered glass, ordered to size, with its mark at a corner.",
        )
        .blind_to("whether the pane is what was ordered: look for the mark")
        .source("0.62 MPa per K and 19 MPa: technical bulletin on float glass (verified)")
        .needs(&["enclosure.glass"]),
    Check::new("enclosure.stub-reach", "stubs through the box wall", Severity::Nuisance, stub_reach)
        .says(
            "The {part} is {found} long; to come through clearance, insulation and rail and still take a hose it needs \
             {limit}.",
            "Longer stubs: they are cut with the header, not added later.",
        )
        .blind_to("a hose or cap that needs more than 25 mm of copper; a stub that is capped inside on purpose")
        .source("25 mm outside: common practice, no source")
        .needs(&[
            "absorber.stub_left",
            "absorber.stub_right",
            "enclosure.clearance",
            "enclosure.edge_thickness",
            "enclosure.rail_thickness",
        ]),
    Check::new("enclosure.air-gap", "air gap under the glass", Severity::Nuisance, air_gap)
        .says(
            "The gap is {found}; the limit is {limit}: below 10 mm heat leaks through, above 50 mm the frame shades.",
            "20 to 30 mm between plate and glass is usual.",
        )
        .blind_to("a plate that bows towards the glass when it is hot")
        .source("common practice, no source")
        .needs(&["enclosure.air_gap"]),
    Check::new("enclosure.glass-seat", "seat and clearance of the glass", Severity::Injury, glass_seat)
        .says(
            "Glass seat, {part}: {found} against {limit}.",
            "A wider rail, or a seat of 10 to 13 mm with 3 to 6 mm free all round, blocks at the quarter points of the \
             lower edge, no screw or metal against the glass.",
        )
        .blind_to("a frame out of square or twisted; blocks that are missing")
        .source("growth: technical bulletin (verified); 3 mm of play: project rule")
        .recalls("bite: glazing practice")
        .needs(&[
            "enclosure.glass_clearance_least",
            "enclosure.glass_clearance",
            "enclosure.glass_bite",
            "enclosure.glass_shoulder",
        ]),
    Check::new("enclosure.growth-gap", "room for the plate to grow", Severity::Injury, growth_gap)
        .says(
            "The plate has {found} free at each edge; it needs {limit}.",
            "More clearance, or the plate held in its middle and free at every edge.",
        )
        .blind_to("clips that jam; a plate that is held at more than one point")
        .source("17.3e-6 /K to 200 °C, 17.64e-6 /K to 300 °C: copper handbook (verified); all of the growth, or half if held in the middle, and 3 mm: project rule")
        .needs(&["enclosure.header_growth", "enclosure.riser_growth", "enclosure.clearance", "enclosure.fixed_at"]),
    Check::new("enclosure.square", "glass seat square", Severity::Injury, square)
        .says(
            "The diagonals of the seat differ by {found}; {limit} is allowed: tempered glass breaks in a twisted frame.",
            "Rack the frame until the diagonals agree, then fix the corners.",
        )
        .blind_to("a twist out of the plane: lay winding sticks across it")
        .source("project rule; out-of-square frames break glass: federal maintenance manual MO-405 (verified)")
        .needs(&["enclosure.diagonal_1", "enclosure.diagonal_2"])
        .per_panel(),
    Check::new("enclosure.lift", "lift of one panel", Severity::Serious, lift)
        .says(
            "{enclosure.mass_dry} dry asks for {limit} people on level ground; {found} are named.",
            "More people, handles, or a hoist. Never carry a panel up a ladder, never lift it full or in wind.",
        )
        .blind_to("ladders, slippery ground, wind and stairs: the equation holds for none of them; a team lifts less than its sum")
        .ask("whoever answers for safety at work, on shared premises or at a workplace")
        .source("revised NIOSH lifting equation (formula verified)")
        .recalls("its coupling factor, and two thirds for a team")
        .needs(&["enclosure.people", "enclosure.lifters", "enclosure.hoist"]),
    Check::new("enclosure.wind-on-glass", "design pressure on the glass", Severity::Serious, pressure)
        .says(
            "Under the design pressure the glass comes to {found} ({part}); the limit is {limit}.",
            "Thicker glass or a smaller pane. Screening only: local code and a licensed engineer decide.",
        )
        .blind_to(
            "pressure coefficients, edge zones, drifts and the mounts: screening only; local code and a licensed engineer \
             decide",
        )
        .ask("a licensed engineer or the building authority for the design pressure")
        .source("design stress: technical bulletin on float glass (verified); deflection: project rule")
        .recalls("least thickness: ASTM E1300")
        .needs(&["enclosure.glass_stress", "enclosure.glass_deflection"]),
];
