//! Dangers of the work outdoors: heights, ladders, wind, roof, glass in the hands, hot metal within reach.

use super::entries::outdoors::{self as e, Access, GlassHands};
use super::entries::{self as answers, FallProtection};
use crate::model::{Choice, Fig, Judgement, Verdict, Why};
use crate::physics::wind::force_on_panel;
use crate::stage::enclosure::entries::HOIST;
use crate::stage::enclosure::rack::entries::{MOUNT_KIND, MountKind};
use crate::stage::enclosure::rack::{self, DRAG};
use crate::stage::worst::worst;
use crate::stage::{Check, Figure, Group, Severity, Solution, enclosure};
use crate::units::Kind;
use crate::units::Quantity;
use crate::units::si::{Angle, Dimension, Force, Length, Velocity, celsius, difference};

/// Height from which a fall is arrested at work, m (6 ft; work rules of one country, from memory).
const FALL_HEIGHT: f64 = 1.8288;
/// Height to foot of a ladder (ladder guide of a work authority, verified: 4 to 1), and how far off is still clear and
/// still a caution (project rule).
const LADDER_RATIO: f64 = 4.0;
const LADDER_CLEAR: f64 = 0.5;
const LADDER_LEAST: f64 = 1.0;
/// Ladder above the edge, m (3 ft, same guide, verified).
const LADDER_ABOVE: f64 = 0.9144;
/// Wind in which nobody carries a panel, m/s (project rule).
const HANDLING_WIND: f64 = 10.0;
/// Metal that burns at a short touch, °C (project rule; the standard on touchable surfaces is from memory).
const TOUCH: f64 = 60.0;

/// The leaning ladder.
pub static LADDER: Group =
    Group { name: "slope of the ladder", entries: &["safety.ladder_height", "safety.ladder_foot"], groups: &[] };

/// Wind on a panel in the hands.
pub static HANDLING: Group =
    Group { name: "wind on a carried panel", entries: &["safety.handling_wind"], groups: &[&enclosure::BOX] };

fn ladder_ratio(s: &Solution) -> Fig<f64> {
    Ok(s.inputs.get(&e::LADDER_HEIGHT)?.si() / s.inputs.get(&e::LADDER_FOOT)?.si())
}

fn ladder_angle(s: &Solution) -> Fig<Angle> {
    Ok(Angle::from_si(ladder_ratio(s)?.atan()))
}

/// Force of the wind on one panel that stands broadside, with the drag coefficient of the wind at a lift.
fn handling_force(s: &Solution) -> Fig<Force> {
    let timber_box = s.enclosure.timber_box.clone()?;
    let area = timber_box.outside_width * timber_box.outside_length;
    force_on_panel(area, s.inputs.get(&e::HANDLING_WIND)?, DRAG).map_err(Why::out_of_range)
}

/// Whether the mounts stand on a roof, as far as somebody said how they stand.
fn is_on_roof(s: &Solution) -> Fig<bool> {
    Ok(s.inputs.given(&MOUNT_KIND)?.is_some_and(|kind| kind != MountKind::Ground))
}

fn height(s: &Solution) -> Fig<Judgement> {
    let height = s.inputs.get(&answers::HEIGHT)?;
    if height.si() <= 0.0 {
        if is_on_roof(s)? {
            return Err(Why::out_of_range("the panels stand on a roof, and the height of the work is nothing"));
        }
        return Ok(Judgement::does_not_apply("all work is done standing on the ground"));
    }
    let limit = Length::from_si(FALL_HEIGHT);
    let alone = s.inputs.get(&answers::SECOND_PERSON).map(|second| {
        let part = if second { "a second person is there" } else { "nobody else is there" };
        Judgement::stop_unless(second).with(height, limit).part(part)
    });
    let caught = s.inputs.get(&answers::FALL_PROTECTION).map(|protection| {
        let (verdict, part) = match protection {
            FallProtection::GuardRail | FallProtection::Harness => (Verdict::Clear, protection.word()),
            FallProtection::Ladder | FallProtection::None if height >= limit => {
                (Verdict::Stop, "nothing catches a fall")
            }
            FallProtection::Ladder | FallProtection::None => (Verdict::Caution, "nothing catches a fall"),
        };
        Judgement::of(verdict).with(height, limit).part(part)
    });
    worst([alone, caught])
}

fn ladder(s: &Solution) -> Fig<Judgement> {
    match s.inputs.get(&e::ACCESS)? {
        Access::Ground if s.inputs.get(&answers::HEIGHT)?.si() > 0.0 || is_on_roof(s)? => {
            return Err(Why::out_of_range("the way up is the ground, and one could fall from the work"));
        }
        Access::Ground => return Ok(Judgement::does_not_apply("all work is done standing on the ground")),
        Access::Platform => return Ok(Judgement::does_not_apply("stairs or a platform lead up")),
        Access::Ladder => {}
    }
    let slope = ladder_ratio(s).map(|ratio| {
        let off = (ratio - LADDER_RATIO).abs();
        let verdict = match off {
            off if off <= LADDER_CLEAR => Verdict::Clear,
            off if off <= LADDER_LEAST => Verdict::Caution,
            _ => Verdict::Stop,
        };
        let angle = |ratio: f64| Angle::from_si(ratio.atan());
        Judgement::of(verdict)
            .with(angle(ratio), angle(LADDER_RATIO))
            .margin(Quantity::number(LADDER_CLEAR - off))
            .part("slope of the ladder")
    });
    let least = Length::from_si(LADDER_ABOVE);
    let above = s.inputs.get(&e::LADDER_ABOVE).map(|above| {
        Judgement::stop_unless(above >= least).with(above, least).margin(above - least).part("ladder above the edge")
    });
    let tied = s.inputs.get(&e::LADDER_TIED).map(|tied| {
        Judgement::stop_unless(tied).part(if tied { "the ladder is tied" } else { "the ladder is not tied" })
    });
    worst([slope, above, tied])
}

fn handling_wind(s: &Solution) -> Fig<Judgement> {
    let found = s.inputs.get(&e::HANDLING_WIND)?;
    handling_force(s)?;
    let judge = |limit: Velocity, part: &str| {
        Judgement::stop_unless(found <= limit).with(found, limit).margin(limit - found).part(part)
    };
    let whoever = Ok(judge(Velocity::from_si(HANDLING_WIND), "whoever carries it"));
    if s.inputs.get(&HOIST)? {
        return whoever;
    }
    let carried = rack::lift_wind(s).map(|limit| judge(limit, "with as many people as are named for the lift"));
    worst([whoever, carried])
}

fn roof_holes(s: &Solution) -> Fig<Judgement> {
    let holes = s.inputs.get(&e::ROOF_HOLES)?;
    if holes == 0 && is_on_roof(s)? {
        return Ok(Judgement::of(Verdict::Caution).part("none is counted, though the panels stand on it"));
    }
    if holes == 0 {
        return Ok(Judgement::does_not_apply("no hole is made in a roof"));
    }
    let flashed = s.inputs.get(&e::FLASHED).map(|flashed| {
        Judgement::stop_unless(flashed).part(if flashed { "every hole is flashed" } else { "a hole without flashing" })
    });
    let named = s.inputs.get(&e::ROOFER).map(|_| Judgement::of(Verdict::Clear).part("someone answers for the roof"));
    worst([flashed, named])
}

fn glass_handling(s: &Solution) -> Fig<Judgement> {
    let hands = s.inputs.get(&e::GLASS_HANDS)?;
    Ok(Judgement::stop_unless(hands != GlassHands::Alone).part(hands.word()))
}

fn hot_surfaces(s: &Solution) -> Fig<Judgement> {
    if !s.inputs.get(&e::REACHABLE)? {
        return Ok(Judgement::of(Verdict::Clear).part("no bare hot metal within reach"));
    }
    if s.inputs.get(&e::GUARDED)? {
        return Ok(Judgement::of(Verdict::Clear).part("insulated, guarded or labelled"));
    }
    let (found, limit) = (s.absorber.stagnation.clone()?.worst, celsius(TOUCH));
    let margin = difference(limit, found);
    Ok(Judgement::caution_unless(margin.si() >= 0.0).with(found, limit).margin(margin).part("stubs and pipe"))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("safety.ladder_angle", "slope of the ladder", Kind::Angle, &LADDER, |s, _| Ok(ladder_angle(s)?.into()))
        .by("ladder", "atan({height} / {foot})", &[("height", "safety.ladder_height"), ("foot", "safety.ladder_foot")]),
    Figure::new("safety.handling_force", "wind pushes a carried panel with", Kind::Force, &HANDLING, |s, _| {
        Ok(handling_force(s)?.into())
    })
    .by(
        "handling-wind",
        "0.613 × 1.2 × {v}² × {width} × {length}",
        &[("v", "safety.handling_wind"), ("width", "enclosure.outside_width"), ("length", "enclosure.outside_length")],
    ),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("safety.height", "work at height", Severity::Deadly, height)
        .says(
            "Work at {found}: {part}.",
            "Guard rail, scaffold or platform, or a harness on a proven anchor; a second person on the ground. Not today \
             if it is wet, icy or windy.",
        )
        .blind_to("the roof itself, the weather of the day, power lines, how an anchor is fixed")
        .ask("whoever is licensed for roof work; at a workplace the safety authority")
        .source("no work at height without what catches a fall: project rule")
        .recalls_beside("6 ft: work rules of one country")
        .needs(&[
            "safety.work_height",
            "safety.fall_protection",
            "safety.second_person",
            "enclosure.mount_kind",
        ]),
    Check::new("safety.ladder", "ladder", Severity::Deadly, ladder)
        .says(
            "Ladder, {part}. It stands at {safety.ladder_angle}; 4 to 1 is 76°.",
            "Foot a quarter of the height out, three feet above the edge, tied at the top, on firm ground; three points of \
             contact, nothing in the hands.",
        )
        .blind_to("the ground it stands on, its state, power lines, doors that open into it")
        .ask("at a workplace the safety authority")
        .source("4 to 1 and 3 ft: ladder guide of a work safety authority (verified); how far off: project rule")
        .needs(&[
            "safety.access",
            "safety.work_height",
            "enclosure.mount_kind",
            "safety.ladder_angle",
            "safety.ladder_above",
            "safety.ladder_tied",
        ]),
    Check::new("safety.handling-wind", "wind while a panel is carried", Severity::Serious, handling_wind)
        .says(
            "The plan lets a panel be carried up to {found}; {limit} is the most, {part}. At the plan's wind it pushes with \
             {safety.handling_force}.",
            "Set the limit lower, more people, carry edge-on, tag lines on a hoist; in gusts the panel stays on the ground.",
        )
        .blind_to("gusts at a roof edge, which are stronger than the wind below; who reads the wind")
        .source("10 m/s, 20 N for each person: project rule; 0.613 v²: any wind code")
        .recalls_beside("drag coefficient 1.2 of a plate broadside")
        .needs(&["safety.handling_wind", "safety.handling_force", "enclosure.lift_wind", "enclosure.hoist"]),
    Check::new("safety.roof-holes", "holes in the roof", Severity::Injury, roof_holes)
        .says(
            "{safety.roof_holes} holes in the roof, and {part}. Each is a leak unless it is flashed.",
            "Flashing at each, no plain wood below a mount, sensor wire through a sealed gland; list the holes and who \
             seals them.",
        )
        .blind_to("the state of the roof below, leaves that dam water, snow that slides")
        .ask("a roofer, the building authority, and whoever gave a warranty for the roof")
        .source("project rule; plain wood found decaying after 7 years: survey of old systems (verified)")
        .needs(&[
            "safety.roof_holes",
            "safety.roof_flashed",
            "safety.roofer",
            "enclosure.mount_kind",
        ]),
    Check::new("safety.glass-handling", "glass in the hands", Severity::Serious, glass_handling)
        .says(
            "The pane of {enclosure.glass_mass} is carried {part}.",
            "Two people or a lifter, gloves and goggles, on edge, never over a head; edges on wood, never on stone. Tempered \
             glass cannot be cut or drilled.",
        )
        .blind_to("a chipped edge, which breaks the pane later; wind")
        .source("project rule")
        .needs(&["safety.glass_hands"]),
    Check::new("safety.hot-surfaces", "hot metal within reach", Severity::Injury, hot_surfaces)
        .says(
            "{part} can reach {found} within reach; {limit} burns at a short touch.",
            "Insulate, guard or label; put stubs and valves out of a child's reach.",
        )
        .blind_to("how long a hand stays, a child's skin, steam from a discharge")
        .source("60 °C: project rule, below the 65 °C for half a second of a note on the standard (verified)")
        .recalls_beside("the standard on touchable surfaces itself")
        .needs(&["safety.hot_within_reach", "safety.hot_guarded", "absorber.stagnation_worst"]),
];
