//! Dangers at the torch and the bench: fume, dust, fire, cylinders, a harp that is wet or closed.

use super::entries::shop::{self as e, Flux, Torch};
use super::entries::{self as answers, Fume};
use super::fillers;
use crate::handbook::solder::{self, BrazingFiller};
use crate::model::{Fig, Judgement, Verdict};
use crate::stage::worst::worst;
use crate::stage::{Check, Severity, Solution};
use crate::units::Quantity;
use crate::units::si::{Dimension, Length, Time};

/// Fire watch after a torch, s: 60 min is a project rule, 30 min the shortest that trades use (from memory).
const WATCH_CLEAR: f64 = 3600.0;
const WATCH_LEAST: f64 = 1800.0;
/// Distance of what burns from the flame, m (project rule; codes for hot work name far more, 11 m from memory).
const CLEAR_OF_FLAME: f64 = 1.0;
/// Joints of one session beside an open window and a fan, with rosin and with other fluxes (project rule).
const JOINTS_ROSIN: usize = 20;
const JOINTS_OTHER: usize = 30;

fn fume(s: &Solution) -> Fig<Judgement> {
    worst([air(s), filler(s)])
}

/// Where the smoke goes: a closed room stops whatever the flux.
fn air(s: &Solution) -> Fig<Judgement> {
    let joints = s.inputs.get(&e::JOINTS);
    let flux = s.inputs.get(&e::FLUX);
    match s.inputs.get(&answers::FUME)? {
        Fume::Closed => Ok(Judgement::of(Verdict::Stop).part("a closed room")),
        Fume::Outdoors => joints.and(flux).map(|_| Judgement::of(Verdict::Clear).part("outdoors")),
        Fume::Fan => {
            let most = if flux? == Flux::Rosin { JOINTS_ROSIN } else { JOINTS_OTHER };
            let joints = joints?;
            Ok(Judgement::caution_unless(joints <= most)
                .with(Quantity::count(joints), Quantity::count(most))
                .margin(Quantity::number(most as f64 - joints as f64))
                .part("indoors, with window and fan"))
        }
    }
}

/// A brazing filler with cadmium, planned or in the joint log; soft solder holds none.
fn filler(s: &Solution) -> Fig<Judgement> {
    let names = fillers::of_joints(&s.inputs)?;
    let brazing: Vec<&BrazingFiller> = names.iter().filter_map(|name| solder::brazing_fillers().get(name)).collect();
    if brazing.is_empty() {
        return Ok(Judgement::does_not_apply("no joint is brazed"));
    }
    let with_cadmium =
        |filler: &&&BrazingFiller| filler.composition.split_whitespace().any(|part| part.ends_with("Cd"));
    Ok(match brazing.iter().find(with_cadmium) {
        Some(filler) => Judgement::of(Verdict::Stop).part(format!("cadmium in {}", filler.name)),
        None => Judgement::of(Verdict::Clear).part("no cadmium in the filler"),
    })
}

fn dust(s: &Solution) -> Fig<Judgement> {
    let treated = s.inputs.get(&e::TREATED)?;
    let wood = Judgement::stop_unless(!treated).part(if treated { "treated or painted wood" } else { "bare wood" });
    let worn = s.inputs.get(&e::DUST).map(|worn| {
        Judgement::stop_unless(worn).part(if worn { "mask, goggles, gloves" } else { "no mask, goggles or gloves" })
    });
    worst([Ok(wood), worn])
}

fn torch_place(s: &Solution) -> Fig<Judgement> {
    let limit = Length::from_si(CLEAR_OF_FLAME);
    let extinguisher =
        s.inputs.get(&e::EXTINGUISHER).map(|there| Judgement::stop_unless(there).part("no extinguisher within reach"));
    let cleared = s.inputs.get(&e::CLEARED).and_then(|cleared| {
        let (verdict, part) = if cleared >= limit {
            (Verdict::Clear, "nothing that burns near the flame")
        } else if s.inputs.get(&e::SHIELD)? {
            (Verdict::Caution, "what burns is near, behind a shield")
        } else {
            (Verdict::Stop, "what burns is near, without a shield")
        };
        Ok(Judgement::of(verdict).with(cleared, limit).margin(cleared - limit).part(part))
    });
    worst([extinguisher, cleared])
}

fn cylinders(s: &Solution) -> Fig<Judgement> {
    let secured =
        || s.inputs.get(&e::CYLINDERS).map(|secured| Judgement::stop_unless(secured).part("a cylinder that can fall"));
    match s.inputs.get(&e::TORCH)? {
        Torch::Hand => Ok(Judgement::does_not_apply("a hand torch has its cartridge in the hand")),
        Torch::AirFuel => secured(),
        Torch::OxyFuel => {
            let arrestors = s.inputs.get(&e::ARRESTORS);
            worst([secured(), arrestors.map(|fitted| Judgement::stop_unless(fitted).part("no flashback arrestors"))])
        }
    }
}

fn harp_open(s: &Solution) -> Fig<Judgement> {
    let open = s.inputs.get(&e::HARP_OPEN)?;
    Ok(Judgement::stop_unless(open).part(if open { "seen open and dry" } else { "wet or closed" }))
}

fn fire_watch(s: &Solution) -> Fig<Judgement> {
    let watch = s.inputs.get(&answers::FIRE_WATCH)?;
    let verdict = match watch.si() {
        seconds if seconds >= WATCH_CLEAR => Verdict::Clear,
        seconds if seconds >= WATCH_LEAST => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let limit = Time::from_si(WATCH_CLEAR);
    Ok(Judgement::of(verdict).with(watch, limit).margin(watch - limit))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("safety.harp-open", "harp empty and open before the flame", Severity::Deadly, harp_open)
        .per_panel()
        .says(
            "The harp is {part}. Under a torch a wet or closed harp is a steam bomb.",
            "Drain it, blow it through, take off every cap and plug, look through it from end to end; then record it anew.",
        )
        .blind_to("water that stays in a low header, and what was done after the look: look again before each session")
        .source("project rule; expansion of water to steam 1602 : 1 at 1 atm, steam tables")
        .needs(&["safety.harp_open"]),
    Check::new("safety.fume", "fume of flux and torch", Severity::Injury, fume)
        .says(
            "Fume, {part}: {safety.joints_session} joints a session, flux {safety.flux}. Rosin smoke causes asthma, active \
             flux burns eyes and skin, cadmium fume kills.",
            "Outdoors, or an open window and a fan and fewer joints at a time; goggles; a filler without cadmium; wash hands \
             before food; rinse the harp inside and out. Never heat galvanised metal.",
        )
        .blind_to("wind, paint and plating on what is heated, and the flux that is really used: read its safety sheet")
        .source(
            "rosin 0.05 mg/m³ in 8 h and 0.15 in 15 min, zinc chloride 2 mg/m³ in 15 min, ammonium chloride 20 mg/m³: \
             health authority and school sheets (verified); in 8 h lead 0.05, antimony 0.5, silver 0.01, zinc oxide \
             5 mg/m³: limits of a workplace authority (verified); joints a session: project rule",
        )
        .needs(&[
            "safety.fume",
            "safety.joints_session",
            "safety.flux",
            "safety.brazing_filler",
            "safety.joint_solder",
            "absorber.header_filler",
            "absorber.header_alloy",
            "absorber.joint_log.*.alloy",
        ]),
    Check::new("safety.dust", "dust of wood and wool", Severity::Injury, dust)
        .says(
            "Dust: {part}. Treated wood in the box smokes onto the glass when it is hot, its dust is poison.",
            "Bare untreated wood inside; P2 or N95 mask, goggles and gloves when you saw it and cut wool; offcuts are never \
             burned.",
        )
        .blind_to("old paint, which may hold lead; the dust that stays in clothes")
        .source("project rule")
        .recalls_beside("arsenic in old treated stock")
        .needs(&["safety.treated_timber", "safety.dust_protection"]),
    Check::new("safety.torch-place", "what burns near the torch", Severity::Serious, torch_place)
        .says(
            "At the torch: {part}. {safety.hot_work_clear} are clear around the flame; 1 m is the least.",
            "Move the work or what burns; a metal shield with an air gap; an extinguisher and a bucket within reach.",
        )
        .blind_to("what lies behind the wall, below the floor and in the gutter; sparks; a flame that slips")
        .ask("the fire authority, for hot work on a building")
        .source("1 m: project rule")
        .recalls_beside("codes for hot work on buildings ask for more")
        .needs(&["safety.extinguisher", "safety.hot_work_clear", "safety.torch_shield"]),
    Check::new("safety.cylinders", "gas cylinders", Severity::Deadly, cylinders)
        .says(
            "Torch: {part}.",
            "Cylinders upright, chained, aired, shut at every break, joints tested with soap; arrestors on both hoses of an \
             oxygen torch; no oil or grease on oxygen.",
        )
        .blind_to("leaks, heat on a cylinder, hoses out of date")
        .ask("the supplier of the gas; the fire authority for more than one cylinder")
        .source("common practice, no source")
        .needs(&["safety.torch", "safety.cylinders_secured", "safety.flashback_arrestors"]),
    Check::new("safety.fire-watch", "fire watch after the torch", Severity::Serious, fire_watch)
        .says(
            "{found} of fire watch; {limit} is asked for: heat-soaked wood and wool glow long after the flame.",
            "Someone with an extinguisher stays for 60 minutes; timber and insulation out of reach or shielded.",
        )
        .blind_to("what lies behind the wall")
        .ask("the fire authority, for hot work on a building")
        .source("60 min: project rule")
        .recalls_beside("trade practice 30 to 60 min")
        .needs(&["safety.fire_watch"]),
];
