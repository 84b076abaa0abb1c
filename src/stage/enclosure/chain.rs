//! The chain from the glass to rafter or soil: what pulls at each link, what it holds, which one is weakest. Screening
//! only.
//!
//! Lives here: the comparison of all links by one uplift model. Must not live here: where loads and strengths come from.

use super::capping;
use super::entries as own;
use super::loads;
use super::rack::entries::{self as e, MountKind};
use super::rack::{self, lag};
use crate::model::{Fig, Judgement, Value, Verdict, Why};
use crate::stage::method::Method;
use crate::stage::worst::worst;
use crate::stage::{Axis, Check, Figure, Group, Severity, Solution};
use crate::units::Kind;
use crate::units::Quantity;
use crate::units::si::{Dimension, Force};

/// Loads and strengths of all links.
pub static CHAIN: Group = Group {
    name: "the chain from glass to rafter or soil",
    entries: &[
        "enclosure.mount_kind",
        "enclosure.clamps",
        "enclosure.clamp_holds",
        "enclosure.bracket_holds",
        "enclosure.rail_holds",
        "enclosure.base_holds",
        "enclosure.anchor_holds",
    ],
    groups: &[&super::PRESSURE, &capping::CAP_SCREWS, &loads::UP, &rack::MOUNT_UP, &lag::LAG, &rack::ANCHORS],
};

/// Share of what a link holds from which on it is a caution (project rule).
const CAUTION: f64 = 0.8;

/// The links on a roof and on the ground, from the glass down.
const ON_ROOF: [&str; 7] = ["glass", "cap", "frame", "rail", "bracket", "lag", "rafter"];
const ON_GROUND: [&str; 7] = ["glass", "cap", "frame", "rail", "bracket", "anchor", "soil"];

/// The links of this project; those of a roof while nothing is entered.
pub fn links(s: &Solution) -> [&'static str; 7] {
    match s.inputs.get(&e::MOUNT_KIND) {
        Ok(MountKind::Ground) => ON_GROUND,
        _ => ON_ROOF,
    }
}

/// What pulls at a link.
fn load(s: &Solution, link: &str) -> Fig<Force> {
    match link {
        "glass" => glass_load(s),
        "cap" => capping::screw_load(s),
        "frame" => {
            let clamps = s.inputs.get(&e::CLAMPS)?.max(1);
            Ok(loads::up(s)? * loads::area(s)? / clamps as f64)
        }
        "rail" | "bracket" | "lag" | "rafter" => rack::mount_up(s),
        "anchor" | "soil" => Ok(rack::anchor_forces(s)?.pull),
        other => Err(Why::missing(other)),
    }
}

/// What a link holds.
fn holds(s: &Solution, link: &str) -> Fig<Force> {
    match link {
        "glass" => {
            let pressed = s.enclosure.under_pressure.as_ref().map_err(Clone::clone)?;
            Ok(glass_load(s)? * (pressed.allowable / pressed.bending.stress).si())
        }
        "cap" => capping::screw_holds(&s.inputs),
        "frame" => s.inputs.get(&e::CLAMP_HOLDS),
        "rail" => s.inputs.get(&e::RAIL_HOLDS),
        "bracket" => s.inputs.get(&e::BRACKET_HOLDS),
        "lag" => lag::holds(&s.inputs),
        "anchor" => s.inputs.get(&e::ANCHOR_HOLDS),
        "rafter" | "soil" => s.inputs.get(&e::BASE_HOLDS),
        other => Err(Why::missing(other)),
    }
}

fn glass_load(s: &Solution) -> Fig<Force> {
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Clone::clone)?;
    Ok(s.inputs.get(&own::GLASS_PRESSURE)? * timber_box.inside_width * timber_box.inside_length)
}

/// Load over strength; nothing where the weight holds the link down.
fn used(s: &Solution, link: &str) -> Fig<f64> {
    let load = load(s, link)?.si().max(0.0);
    Ok(load / holds(s, link)?.si())
}

fn weakest(s: &Solution) -> Fig<Value> {
    let mut worst: Option<(&str, f64)> = None;
    let (mut unknown, mut missing) = (Vec::new(), Vec::new());
    for link in links(s) {
        match used(s, link) {
            Ok(share) if worst.is_none_or(|(_, so_far)| share > so_far) => worst = Some((link, share)),
            Ok(_) => {}
            Err(why) => {
                unknown.push(link);
                if let Why::Missing(ids) = why {
                    missing.extend(ids);
                }
            }
        }
    }
    let Some((link, share)) = worst else { return Err(Why::missing_all(missing)) };
    let known = format!("{link}, {:.0} % used", share * 100.0);
    let text = if unknown.is_empty() { known } else { format!("{known}; not known: {}", unknown.join(", ")) };
    Ok(Value::Text(text))
}

fn judge(s: &Solution) -> Fig<Judgement> {
    worst(links(s).into_iter().map(|link| {
        let (load, holds, used) = (load(s, link)?, holds(s, link)?, used(s, link)?);
        let verdict = match used {
            share if share > 1.0 => Verdict::Stop,
            share if share > CAUTION => Verdict::Caution,
            _ => Verdict::Clear,
        };
        Ok(Judgement::of(verdict).with(load, holds).margin(Quantity::percent(1.0 - used)).part(link))
    }))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("enclosure.link_load", "pull at the link", Kind::Force, &CHAIN, |s, link| Ok(load(s, link)?.into()))
        .axis(Axis::Link)
        .by(
            "chain",
            "glass {p} × opening; cap {screw}; frame {up} × panel / clamps; rail, bracket, lag, rafter {mount}; anchor and \
             soil {pull}",
            &[
                ("p", "enclosure.glass_pressure"),
                ("screw", "enclosure.cap_screw_load"),
                ("up", "enclosure.net_up"),
                ("mount", "enclosure.mount_up"),
                ("pull", "enclosure.anchor_pull"),
            ],
        ),
    Figure::new("enclosure.link_holds", "the link holds", Kind::Force, &CHAIN, |s, link| Ok(holds(s, link)?.into()))
        .axis(Axis::Link)
        .by(
            "chain",
            "glass: load × allowable stress / stress; cap {cap}; lag {lag}; the others as entered",
            &[("cap", "enclosure.cap_screw_holds"), ("lag", "enclosure.lag_holds")],
        ),
    Figure::new("enclosure.link_used", "share of the link that is used", Kind::Percent, &CHAIN, |s, link| {
        Ok(Quantity::percent(used(s, link)?).into())
    })
    .axis(Axis::Link)
    .by("chain", "pull at the link / what it holds", &[]),
    Figure::word("enclosure.weakest_link", "weakest link", &CHAIN, |s, _| weakest(s)).by(
        "chain",
        "the link with the largest share used, of those that are known",
        &[],
    ),
];

/// The checks of this file.
pub static CHECKS: &[Check] = &[Check::new("enclosure.chain", "weakest link under uplift", Severity::Deadly, judge)
    .says(
        "Uplift pulls with {found} at the {part}; it holds {limit}.",
        "Strengthen the {part} first: closer mounts, longer thread, thicker glass. Screening only.",
    )
    .blind_to(
        "sideways load, prying, corrosion, rot, fatigue, the building itself: screening only; local code and a licensed \
         engineer decide",
    )
    .ask("a licensed engineer or the building authority")
    .source("one uplift model for all links, each with its own source; caution from 80 %: project rule")
    .needs(&["enclosure.link_used"])];

/// The methods of this file.
pub static METHODS: &[Method] = &[Method {
    id: "chain",
    title: "The chain from glass to rafter or soil",
    what: "The same uplift is carried through glass, cap, frame, rail, bracket and lag into rafter or soil; each link's \
           pull is held against what it holds by computation or as entered from a sheet, a test or an engineer. A link \
           without strength makes the check unknown. Screening only: local code and a licensed engineer decide.",
    source: "statics; strengths as each link names them",
    code: "stage::enclosure::chain",
}];
