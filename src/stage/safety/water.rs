//! Water that burns, freezes, breeds or boils.

use super::entries::water as answers;
use super::entries::{self as e, FinalStage, Passive, Second};
use crate::model::{Fig, Judgement, Verdict, Why};
use crate::stage::plumbing::entries::{self as p, LoopType};
use crate::stage::site::entries as site;
use crate::stage::worst::worst;
use crate::stage::{self, Solution};
use crate::units::Quantity;
use crate::units::si::{Dimension, Ratio, Temperature, TemperatureInterval, celsius, difference, in_celsius};

/// Hottest water at an outlet, °C (120 °F; scald literature, verified).
const TAP_LIMIT: f64 = 49.0;
/// Frost mechanisms that water in a panel needs (rating criterion, verified).
const MECHANISMS: usize = 2;
/// Fall of every drainback line, 2 cm for each metre (rating criterion, 1/4 in a foot, verified).
const LEAST_FALL: f64 = 0.02;
/// Kelvin between the record low and the freezing point of the loop (project rule).
const FROST_MARGIN: f64 = 5.0;
/// Storage temperature and the least at which legionella dies, °C (national code of practice, verified).
const STORED: f64 = 60.0;
const DIES: f64 = 50.0;

fn at_most(found: Temperature, limit: Temperature, part: &str) -> Judgement {
    let margin = difference(limit, found);
    Judgement::stop_unless(margin.si() >= 0.0).with(found, limit).margin(margin).part(part)
}

/// Water at the tap, and the mixing valve against its hot supply.
pub fn scald(s: &Solution) -> Fig<Judgement> {
    let tap = s.safety.tap.clone().map(|tap| at_most(tap, celsius(TAP_LIMIT), "water at the tap"));
    let valve = s
        .safety
        .hot_supply
        .clone()
        .and_then(|supply| Ok(at_most(supply, s.inputs.get(&e::MIXING_RATING)?, "hot supply of the mixing valve")));
    worst([tap, valve])
}

/// Air in which the plate freezes: calm air under a clear sky of usual dampness, or warmer air in which it froze in
/// the site's own year, whose sky may be drier.
pub fn freezes_at(s: &Solution) -> Fig<Temperature> {
    let calm = s.safety.freezing.clone()?.calm;
    let here = s.site.frost.as_ref().ok().and_then(|frost| frost.warmest_air);
    Ok(here.map_or(calm, |here| if here > calm { here } else { calm }))
}

/// The coldest air of a place in which the plate does not freeze: the record low that was entered, or the file's coldest
/// hour where that is colder than the record. Nothing where the plate can freeze, or no record is known.
pub fn mild(s: &Solution) -> Fig<Option<Temperature>> {
    let freezes_at = freezes_at(s)?;
    if s.inputs.given(&site::RECORD_LOW)?.is_none() {
        return Ok(None);
    }
    let lowest = s.site.coldest.clone()?;
    Ok((lowest >= freezes_at).then_some(lowest))
}

/// Protection from frost by the type of loop.
pub fn freezing(s: &Solution) -> Fig<Judgement> {
    let freezes_at = freezes_at(s)?;
    let loop_type = s.inputs.get(&p::LOOP)?;
    if let Some(lowest) = mild(s)? {
        let margin = difference(lowest, freezes_at);
        let part = "a place whose record low does not freeze the plate";
        return Ok(Judgement::of(Verdict::Clear).with(lowest, freezes_at).margin(margin).part(part));
    }
    match loop_type {
        LoopType::Direct | LoopType::Thermosiphon => mechanisms(s),
        LoopType::Drainback => worst([fall(s), drained(s)]),
        LoopType::Glycol => glycol(s),
    }
}

fn mechanisms(s: &Solution) -> Fig<Judgement> {
    let passive = s.inputs.get(&e::FROST_PASSIVE)?;
    let second = s.inputs.get(&e::FROST_SECOND)?;
    let count = usize::from(passive != Passive::None) + usize::from(second != Second::None);
    let verdict = match second {
        _ if count < MECHANISMS => Verdict::Stop,
        Second::ByHand => Verdict::Caution,
        Second::None | Second::Recirculation | Second::HeatingCable => Verdict::Clear,
    };
    Ok(Judgement::of(verdict)
        .with(Quantity::count(count), Quantity::count(MECHANISMS))
        .margin(Quantity::number(count as f64 - MECHANISMS as f64))
        .part(if passive == Passive::None { "nothing works without power" } else { "mechanisms" }))
}

fn fall(s: &Solution) -> Fig<Judgement> {
    let fall = s.inputs.get(&e::DRAIN_FALL)?;
    let least = Ratio::from_si(LEAST_FALL);
    let percent = |ratio: Ratio| Quantity::percent(ratio.si());
    Ok(Judgement::stop_unless(fall >= least)
        .with(percent(fall), percent(least))
        .margin(percent(fall - least))
        .part("fall of the lines"))
}

/// The draining test of the commissioning stage, by its own rule.
fn drained(s: &Solution) -> Fig<Judgement> {
    const TEST: &str = "commissioning.drained-litres";
    stage::check(TEST).map_or_else(|| Err(Why::missing(TEST)), |check| (check.judge)(s))
}

fn glycol(s: &Solution) -> Fig<Judgement> {
    let lowest = s.inputs.get(&site::RECORD_LOW).and_then(|_| s.site.coldest.clone())?;
    let limit = lowest - TemperatureInterval::from_si(FROST_MARGIN);
    let planned = s.safety.freezing_point.clone().map(|point| at_most(point, limit, "the mixture as planned"));
    let measured = s.inputs.get(&e::REFRACTOMETER).map(|point| at_most(point, limit, "the mixture as measured"));
    worst([planned, measured])
}

/// The final heating stage.
pub fn legionella(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::FINAL_STAGE)? == FinalStage::None {
        return Ok(Judgement::of(Verdict::Stop).part("no final heating stage"));
    }
    let round = s.inputs.get(&answers::FINAL_BYPASS).map(|round| {
        Judgement::stop_unless(!round).part(if round { "a way round the final stage" } else { "no way round it" })
    });
    worst([final_stage(s), round])
}

fn final_stage(s: &Solution) -> Fig<Judgement> {
    let held = s.inputs.get(&e::FINAL_TEMPERATURE)?;
    let verdict = match in_celsius(held) {
        degrees if degrees >= STORED => Verdict::Clear,
        degrees if degrees >= DIES => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let limit = celsius(STORED);
    Ok(Judgement::of(verdict).with(held, limit).margin(difference(held, limit)).part("final heating stage"))
}

/// Whether any panel can be shut in without relief.
pub fn relief_path(s: &Solution) -> Fig<Judgement> {
    let walked = s.inputs.get(&e::SHUT_IN).map(|shut| {
        Judgement::stop_unless(!shut).part(if shut { "as it was walked" } else { "nothing found on the walk" })
    });
    // The loop as it is written down may show what the walk missed; where it is not written, the walk alone counts.
    let written = s.plumbing.layout.shut_in.as_ref().map_or(Ok(0), |sections| Ok(sections.len()))?;
    let drawn = Judgement::stop_unless(written == 0).part("the loop as it is written down");
    worst([walked, Ok(drawn)])
}

/// Whether the panel boils when the pump stops.
pub fn steam(s: &Solution) -> Fig<Judgement> {
    let hottest = s.absorber.stagnation.clone()?.worst;
    let boiling = s.safety.boiling.clone()?;
    let margin = difference(boiling, hottest);
    Ok(Judgement::caution_unless(margin.si() > 0.0).with(hottest, boiling).margin(margin))
}
