//! The checks of mounts, roof and ground rack. The chain of links has its own.

use super::entries::{self as e, MountKind};
use super::{anchor_forces, ground, ground_weight, lag};
use crate::model::{Fig, Judgement, Verdict};
use crate::stage::enclosure::loads;
use crate::stage::enclosure::loads::HELPING_DEAD;
use crate::stage::worst::worst;
use crate::stage::{Check, Severity, Solution};
use crate::units::si::{Dimension, Length};

/// What no computation of this program can see; the last words of every structural check.
const SCREENING: &str = "screening only; local code and a licensed engineer decide";
/// Whom every structural check asks.
pub const ENGINEER: &str = "a licensed engineer or the building authority";

/// Height to which the code's figures for flush panels hold, m (10 in, verified).
const FLUSH_HEIGHT: f64 = 0.254;
/// Gap that flush panels leave between them for the same, m (1/4 in, verified).
const FLUSH_GAP: f64 = 0.00635;
/// Distance to the roof's edge in heights over the roof for the same (from memory).
const FLUSH_EDGE: f64 = 2.0;
/// Way for service, m (common practice, no source).
const WAY: f64 = 0.6;

fn kind(s: &Solution) -> Fig<MountKind> {
    s.inputs.get(&e::MOUNT_KIND)
}

/// At least so long; the other verdict below.
pub fn at_least(found: Length, limit: Length, part: &str, otherwise: Verdict) -> Judgement {
    let verdict = if found >= limit { Verdict::Clear } else { otherwise };
    Judgement::of(verdict).with(found, limit).margin(found - limit).part(part)
}

fn lag_fit(s: &Solution) -> Fig<Judgement> {
    if kind(s)? == MountKind::Ground {
        return Ok(Judgement::of(Verdict::Clear).part("no lag screws on the ground"));
    }
    let inputs = &s.inputs;
    let half = inputs.get(&e::RAFTER_THICKNESS)? / 2.0;
    let (thread, length) = (inputs.get(&e::LAG_THREAD)?, inputs.get(&e::LAG_LENGTH)?);
    worst([
        Ok(at_least(half, lag::edge(inputs)?, "lag to the edge of the rafter", Verdict::Stop)),
        Ok(at_least(thread, lag::least_thread(inputs)?, "thread in the rafter", Verdict::Stop)),
        Ok(at_least(length, thread, "length of the lag", Verdict::Stop)),
    ])
}

fn flush(s: &Solution) -> Fig<Judgement> {
    if kind(s)? != MountKind::Flush {
        return Ok(Judgement::of(Verdict::Clear).part("not flush"));
    }
    let height = s.inputs.get(&e::STANDOFF)?;
    let most = Length::from_si(FLUSH_HEIGHT);
    let low = Judgement::caution_unless(height <= most).with(height, most).margin(most - height).part("height");
    let edge = s.inputs.get(&e::EDGE_DISTANCE);
    let gap = (s.inputs.panels().len() > 1).then(|| s.inputs.get(&e::PANEL_GAP));
    let mut parts =
        vec![Ok(low), edge.map(|edge| at_least(edge, height * FLUSH_EDGE, "distance to the edge", Verdict::Caution))];
    parts.extend(
        gap.map(|gap| gap.map(|gap| at_least(gap, Length::from_si(FLUSH_GAP), "gap between panels", Verdict::Caution))),
    );
    worst(parts)
}

fn roof(s: &Solution) -> Fig<Judgement> {
    if kind(s)? == MountKind::Ground {
        return Ok(Judgement::of(Verdict::Clear).part("not on a roof"));
    }
    let load = loads::dead(s, loads::mass_wet(s)?)?;
    let limit = s.inputs.get(&e::ROOF_ALLOWANCE)?;
    Ok(Judgement::stop_unless(load <= limit).with(load, limit).margin(limit - load))
}

fn stands(s: &Solution) -> Fig<Judgement> {
    if kind(s)? != MountKind::Ground {
        return Ok(Judgement::of(Verdict::Clear).part("not on the ground"));
    }
    let (there, needed) = (ground_weight(s)?, ground(s)?.needed);
    if s.inputs.get(&e::ANCHORS)? >= 2 {
        let forces = anchor_forces(s)?;
        let held = |force, limit| {
            let judgement = Judgement::stop_unless(force <= limit).with(force, limit);
            judgement.margin(limit - force)
        };
        return worst([
            s.inputs.get(&e::ANCHOR_HOLDS).map(|limit| held(forces.pull, limit).part("pull on a rear anchor")),
            s.inputs.get(&e::ANCHOR_SHEAR).map(|limit| held(forces.shear, limit).part("sideways on an anchor")),
        ]);
    }
    let weighs =
        |limit, part: &str| Judgement::stop_unless(there >= limit).with(there, limit).margin(there - limit).part(part);
    worst([
        Ok(weighs(needed.against_overturning, "weight against overturning")),
        Ok(weighs(needed.against_sliding, "weight against sliding")),
    ])
}

fn way(s: &Solution) -> Fig<Judgement> {
    let way = s.inputs.get(&e::SERVICE_WAY)?;
    Ok(at_least(way, Length::from_si(WAY), "way for service", Verdict::Caution))
}

/// The suction on one pane that is entered must not be less than the rack's own at the allowable level.
fn pane(s: &Solution) -> Fig<Judgement> {
    let entered = s.inputs.get(&crate::stage::enclosure::entries::GLASS_PRESSURE)?;
    let rack = loads::suction(s)?.max(loads::push(s)?) * HELPING_DEAD;
    Ok(Judgement::caution_unless(entered >= rack).with(entered, rack).margin(entered - rack))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("enclosure.pane-pressure", "pressure on the pane against that on the panel", Severity::Serious, pane)
        .says(
            "The design pressure on the glass is {found}; the panel's own coefficients give {limit} at the allowable level.",
            "A single pane gathers less area than a row, so its coefficient is the larger one: look it up again.",
        )
        .blind_to(SCREENING)
        .ask(ENGINEER)
        .source("the code decides")
        .recalls("components with less area have larger coefficients: ASCE 7")
        .needs(&["enclosure.glass_pressure", "enclosure.net_suction", "enclosure.net_push"]),
    Check::new("enclosure.lag-fit", "lag screws in the rafter", Severity::Serious, lag_fit)
        .says(
            "There is {found} ({part}); {limit} is the least.",
            "A thinner or longer lag, a block beside the rafter, or a bracket over two rafters. Screening only.",
        )
        .blind_to("a lag that misses the rafter, splits it or stands in rot: screening only; local code and a licensed \
                   engineer decide")
        .ask(ENGINEER)
        .source("the code of timber decides")
        .recalls("1.5 diameters to the edge, 4 of thread: NDS")
        .needs(&[
            "enclosure.mount_kind",
            "enclosure.rafter_thickness",
            "enclosure.lag_edge",
            "enclosure.lag_thread",
            "enclosure.lag_length",
        ]),
    Check::new("enclosure.flush-limits", "limits of the flush figures", Severity::Injury, flush)
        .says(
            "For panels parallel to the roof the {part} is {found}; the code's figures for them hold with {limit}.",
            "Move the panels, or take the coefficients of a rack that stands free. Screening only.",
        )
        .blind_to(SCREENING)
        .ask(ENGINEER)
        .source("10 in and 1/4 in: ASCE 7-16 29.4.4 (verified)")
        .recalls("twice the height to the edge")
        .needs(&[
            "enclosure.mount_kind",
            "enclosure.standoff",
            "enclosure.edge_distance",
            "enclosure.panel_gap",
        ]),
    Check::new("enclosure.roof-load", "dead load on the roof", Severity::Deadly, roof)
        .says(
            "Panel, liquid and rack weigh {found} on the roof; {limit} is what it may carry in addition.",
            "Fewer or lighter panels, a stronger roof, or a rack on the ground. Screening only.",
        )
        .blind_to("snow, people, point loads, a roof that is already old: screening only; local code and a licensed \
                   engineer decide")
        .ask(ENGINEER)
        .source("weights of the parts")
        .needs(&["enclosure.mount_kind", "enclosure.dead_wet", "enclosure.roof_allowance"]),
    Check::new("enclosure.rack-stands", "rack on the ground against overturning and sliding", Severity::Deadly, stands)
        .says(
            "{part}: {found}, limit {limit}.",
            "Anchors in tested ground rather than more ballast; a wider base; a lower edge closer to the ground. Screening \
             only.",
        )
        .blind_to("frost heave, soft or wet soil, earthquake, the rack's own strength: screening only; local code and a \
                   licensed engineer decide")
        .ask(ENGINEER)
        .source("statics")
        .recalls("0.6 D + 0.6 W of allowable stress design")
        .needs(&[
            "enclosure.mount_kind",
            "enclosure.rack_weight",
            "enclosure.rack_moment_weight",
            "enclosure.rack_slide_weight",
            "enclosure.anchor_pull",
            "enclosure.anchor_side",
            "enclosure.anchor_holds",
            "enclosure.anchor_shear",
        ]),
    Check::new("enclosure.service-way", "way to reach the panels", Severity::Injury, way)
        .says(
            "There is {found} to reach the panels; {limit} lets a person and a ladder through.",
            "Leave a way on every side that needs hands: hoses, vents, mounts. Fire rules may ask for more.",
        )
        .blind_to("fire access rules, fragile roofs, anchor points for a fall line")
        .ask("the fire authority and whoever answers for work at height")
        .source("0.6 m: common practice, no source")
        .needs(&["enclosure.service_way"]),
];
