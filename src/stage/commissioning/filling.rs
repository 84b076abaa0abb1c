//! Flush, fill, purge and charge: speeds and litres wanted, what was read, and how much air is left.

pub mod entries;

use super::control::TOP_HEIGHT;
use crate::model::{Entry, Fig, Judgement, Verdict, Why};
use crate::physics::atmosphere::{self, SEA_LEVEL_PRESSURE};
use crate::physics::flow_measurement::FloatMeter;
use crate::physics::fluid::Fluid;
use crate::physics::pressure_test::{Reading, Squeeze, air_pressure_at};
use crate::stage::plumbing::{self, circuit, entries as pipes};
use crate::stage::{Check, Figure, Group, Severity, Solution, site};
use crate::units::Kind::{Flow, Number, Percent, Pressure as Bar, Volume as Litres};
use crate::units::Quantity;
use crate::units::si::{Dimension, Pressure, TemperatureInterval, Volume, VolumeRate, celsius};
use entries::{
    FILLED, FLOAT_DENSITY, FLOAT_READ, FLUSHED, GLYCOL_READ, LIQUID_PH, OUTLETS, RISERS, SQUEEZE_ADDED, SQUEEZE_AFTER,
    SQUEEZE_BEFORE, VESSEL_TEMPERATURE,
};

static FLUSH_FLOW: Group = Group { name: "flow that moves air", entries: &["plumbing.pipe"], groups: &[] };

static GLYCOL: Group =
    Group { name: "glycol to pour in", entries: &[], groups: &[&plumbing::CONTENTS, &plumbing::LIQUID] };

static COLD: Group =
    Group { name: "cold pressures", entries: &["commissioning.top_height", "site.altitude"], groups: &[] };

static PRECHARGE: Group =
    Group { name: "precharge today", entries: &["commissioning.vessel_temperature"], groups: &[&COLD] };

static AIR: Group = Group {
    name: "air left",
    entries: &[
        "commissioning.squeeze_added",
        "commissioning.squeeze_before",
        "commissioning.squeeze_after",
        "site.altitude",
    ],
    groups: &[],
};

static AIR_SHARE: Group = Group { name: "share of air left", entries: &[], groups: &[&AIR, &plumbing::CONTENTS] };

static FLOAT: Group = Group {
    name: "flow by float meter",
    entries: &["commissioning.float_read", "commissioning.float_density"],
    groups: &[&plumbing::LIQUID],
};

/// Speed that carries air downward, m/s (facility criteria, verified).
const MOVES_AIR: f64 = 0.6;
/// Contents that a flush wants (project rule).
const FLUSHES: f64 = 10.0;
/// Litres that may differ from the computed content: clear, caution (project rules).
const LITRES: (f64, f64) = (0.05, 0.10);
/// Air that may be left: clear, caution (project rules).
const AIR_LEFT: (f64, f64) = (0.005, 0.015);
/// Samples of glycol agree within (project rule).
const SAMPLES: f64 = 0.01;
/// pH: caution below, stop below (project rules; sources differ).
const PH: (f64, f64) = (7.5, 7.0);
/// Panels and risers, K (navy manual, verified; project rule).
const OUTLET_SPREAD: f64 = 2.8;
const RISER_SPREAD: f64 = 3.0;
/// Pressure at the top of a cold loop, and for each metre below it, Pa (a maker's sheet, verified).
const AT_TOP: f64 = 1e5;
const PER_METRE: f64 = 1e4;
/// Filling over, precharge under the loop's cold pressure, Pa (the same sheet).
const FILL_OVER: f64 = 0.1e5;
const PRECHARGE_UNDER: f64 = 0.3e5;

fn flush_flow(s: &Solution) -> Fig<VolumeRate> {
    let bore = circuit::tube(&s.inputs)?.bore().si();
    Ok(VolumeRate::from_si(MOVES_AIR * std::f64::consts::FRAC_PI_4 * bore * bore))
}

fn flush_volume(s: &Solution) -> Fig<Volume> {
    Ok(s.plumbing.contents.clone()?.total() * FLUSHES)
}

fn glycol(s: &Solution) -> Fig<Volume> {
    match s.inputs.get(&pipes::LOOP)? {
        pipes::LoopType::Glycol => Ok(s.plumbing.contents.clone()?.total() * s.inputs.get(&pipes::GLYCOL)?.si()),
        _ => Err(Why::out_of_range("there is no glycol in this loop")),
    }
}

/// 1.0 bar and 0.1 bar/m, and what the air lacks at altitude, so that it boils no earlier.
fn cold_pressure(s: &Solution) -> Fig<Pressure> {
    let height = s.inputs.get(&TOP_HEIGHT)?.si();
    let thin = SEA_LEVEL_PRESSURE - atmosphere::pressure(s.inputs.get(&site::entries::ALTITUDE)?).si();
    Ok(Pressure::from_si(AT_TOP + PER_METRE * height + thin.max(0.0)))
}

fn precharge(s: &Solution) -> Fig<Pressure> {
    Ok(cold_pressure(s)? - Pressure::from_si(PRECHARGE_UNDER))
}

fn precharge_today(s: &Solution) -> Fig<Pressure> {
    at_todays_temperature(s, precharge(s)?)
}

/// A pressure of 20 °C as the vessel's gas follows its temperature; what the liquid shrinks meanwhile is left out (0.2 %
/// of it for 15 K).
fn at_todays_temperature(s: &Solution, pressure: Pressure) -> Fig<Pressure> {
    let start = Reading { pressure, temperature: celsius(20.0) };
    let around = atmosphere::pressure(s.inputs.get(&site::entries::ALTITUDE)?);
    air_pressure_at(start, s.inputs.get(&VESSEL_TEMPERATURE)?, around).map_err(Why::out_of_range)
}

fn air_left(s: &Solution) -> Fig<Volume> {
    let around = atmosphere::pressure(s.inputs.get(&site::entries::ALTITUDE)?);
    let squeeze = Squeeze {
        added: s.inputs.get(&SQUEEZE_ADDED)?,
        before: s.inputs.get(&SQUEEZE_BEFORE)? + around,
        after: s.inputs.get(&SQUEEZE_AFTER)? + around,
    };
    squeeze.trapped_air().map_err(Why::out_of_range)
}

fn air_share(s: &Solution) -> Fig<f64> {
    Ok(air_left(s)?.si() / s.plumbing.contents.clone()?.total().si())
}

fn float_flow(s: &Solution) -> Fig<VolumeRate> {
    let meter = FloatMeter {
        float: s.inputs.get(&FLOAT_DENSITY)?,
        scale: Fluid::Water.density(celsius(20.0)),
        liquid: s.plumbing.fluid.clone()?.density(celsius(20.0)),
    };
    Ok(s.inputs.get(&FLOAT_READ)? * meter.correction().map_err(Why::out_of_range)?)
}

fn flushed(s: &Solution) -> Fig<Judgement> {
    let (found, wanted) = (s.inputs.get(&FLUSHED)?, flush_volume(s)?);
    Ok(Judgement::caution_unless(found >= wanted).with(found, wanted).margin(found - wanted))
}

fn filled(s: &Solution) -> Fig<Judgement> {
    let (found, wanted) = (s.inputs.get(&FILLED)?, s.plumbing.contents.clone()?.total());
    let off = found.si() / wanted.si() - 1.0;
    let verdict = match off.abs() {
        share if share <= LITRES.0 => Verdict::Clear,
        share if share <= LITRES.1 => Verdict::Caution,
        _ => Verdict::Stop,
    };
    let part = if off < 0.0 { "some of the loop is still full of air" } else { "more than the loop should hold" };
    Ok(Judgement::of(verdict).with(found, wanted).margin(Quantity::percent(LITRES.0 - off.abs())).part(part))
}

fn air(s: &Solution) -> Fig<Judgement> {
    let share = air_share(s)?;
    let verdict = if share <= AIR_LEFT.0 { Verdict::Clear } else { Verdict::Caution };
    let part = if share <= AIR_LEFT.1 { "bleed again" } else { "purge again" };
    let (found, limit) = (Quantity::percent(share), Quantity::percent(AIR_LEFT.0));
    Ok(Judgement::of(verdict).with(found, limit).margin(Quantity::percent(AIR_LEFT.0 - share)).part(part))
}

fn has_glycol(s: &Solution) -> Fig<bool> {
    Ok(s.inputs.get(&pipes::LOOP)? == pipes::LoopType::Glycol)
}

fn no_glycol() -> Judgement {
    Judgement::of(Verdict::Clear).part("no glycol in this loop")
}

fn samples(s: &Solution) -> Fig<Judgement> {
    if !has_glycol(s)? && s.inputs.given(&GLYCOL_READ)?.is_none() {
        return Ok(no_glycol());
    }
    let (mean, wanted) = (s.inputs.get(&GLYCOL_READ)?, s.inputs.get(&pipes::GLYCOL)?);
    let samples = s.inputs.repeats(&GLYCOL_READ);
    if samples.len() < 2 {
        return Err(Why::out_of_range("one sample does not tell that the liquid is mixed: read another in 15 minutes"));
    }
    let shares = || samples.iter().map(|share| share.si());
    let spread = shares().fold(0.0, f64::max) - shares().fold(1.0, f64::min);
    let (verdict, part) = match (spread <= SAMPLES + 1e-9, mean.si() + SAMPLES >= wanted.si()) {
        (true, true) => (Verdict::Clear, "mixed, and as much as wanted"),
        (false, _) => (Verdict::Caution, "the samples differ: not mixed yet"),
        (true, false) => (Verdict::Stop, "less glycol than wanted"),
    };
    Ok(Judgement::of(verdict).with(mean, wanted).part(part))
}

fn acid(s: &Solution) -> Fig<Judgement> {
    if !has_glycol(s)? && s.inputs.given(&LIQUID_PH)?.is_none() {
        return Ok(no_glycol());
    }
    let found = s.inputs.get(&LIQUID_PH)?;
    let verdict = match found {
        ph if ph >= PH.0 => Verdict::Clear,
        ph if ph >= PH.1 => Verdict::Caution,
        _ => Verdict::Stop,
    };
    Ok(Judgement::of(verdict)
        .with(Quantity::number(found), Quantity::number(PH.0))
        .margin(Quantity::number(found - PH.0)))
}

fn spread(s: &Solution, entry: &Entry<TemperatureInterval>, most: f64) -> Fig<Judgement> {
    let (found, limit) = (s.inputs.get(entry)?, TemperatureInterval::from_si(most));
    Ok(Judgement::caution_unless(found <= limit).with(found, limit).margin(limit - found))
}

fn outlets(s: &Solution) -> Fig<Judgement> {
    spread(s, &OUTLETS, OUTLET_SPREAD)
}

fn risers(s: &Solution) -> Fig<Judgement> {
    spread(s, &RISERS, RISER_SPREAD)
}

/// The figures of this file.
pub static FIGURES: &[Figure] =
    &[
        Figure::new("commissioning.flush_flow", "flow that moves air downward", Flow, &FLUSH_FLOW, |s, _| {
            Ok(flush_flow(s)?.into())
        })
        .by("flush", "0.6 m/s × bore of {pipe}", &[("pipe", "plumbing.pipe")]),
        Figure::new("commissioning.flush_volume", "litres to flush", Litres, &plumbing::CONTENTS, |s, _| {
            Ok(flush_volume(s)?.into())
        })
        .by("flush", "10 × {V}", &[("V", "plumbing.loop_content")]),
        Figure::new("commissioning.glycol_volume", "glycol to pour in", Litres, &GLYCOL, |s, _| Ok(glycol(s)?.into()))
            .by("fill", "{V} × {share}", &[("V", "plumbing.loop_content"), ("share", "plumbing.glycol")]),
        Figure::new("commissioning.cold_pressure", "cold pressure on the gauge", Bar, &COLD, |s, _| {
            Ok(cold_pressure(s)?.into())
        })
        .by(
            "fill",
            "1.0 bar + 0.1 bar/m × {h} + what the air lacks at altitude",
            &[("h", "commissioning.top_height")],
        ),
        Figure::new("commissioning.cold_today", "cold pressure at its temperature", Bar, &PRECHARGE, |s, _| {
            Ok(at_todays_temperature(s, cold_pressure(s)?)?.into())
        })
        .by(
            "fill",
            "({p} + p_atm) {T}/293 − p_atm",
            &[("p", "commissioning.cold_pressure"), ("T", "commissioning.vessel_temperature")],
        ),
        Figure::new("commissioning.fill_pressure", "filling pressure on the gauge", Bar, &COLD, |s, _| {
            Ok((cold_pressure(s)? + Pressure::from_si(FILL_OVER)).into())
        })
        .by("fill", "{p} + 0.1 bar", &[("p", "commissioning.cold_pressure")]),
        Figure::new("commissioning.precharge", "precharge of the vessel at 20 °C", Bar, &COLD, |s, _| {
            Ok(precharge(s)?.into())
        })
        .by("fill", "{p} − 0.3 bar, loop empty or vessel shut off", &[("p", "commissioning.cold_pressure")]),
        Figure::new("commissioning.precharge_today", "precharge at its temperature", Bar, &PRECHARGE, |s, _| {
            Ok(precharge_today(s)?.into())
        })
        .by(
            "fill",
            "({p} + p_atm) {T}/293 − p_atm",
            &[("p", "commissioning.precharge"), ("T", "commissioning.vessel_temperature")],
        ),
        Figure::new("commissioning.air_left", "air left in the loop", Litres, &AIR, |s, _| Ok(air_left(s)?.into())).by(
            "squeeze",
            "{ΔV}/(1 − p₁/p₂), absolute",
            &[("ΔV", "commissioning.squeeze_added")],
        ),
        Figure::new("commissioning.air_share", "air left over content", Percent, &AIR_SHARE, |s, _| {
            Ok(Quantity::percent(air_share(s)?).into())
        })
        .by("squeeze", "{air} / {V}", &[("air", "commissioning.air_left"), ("V", "plumbing.loop_content")]),
        Figure::new("commissioning.float_flow", "flow by float meter", Flow, &FLOAT, |s, _| Ok(float_flow(s)?.into()))
            .by(
                "float-meter",
                "{q} √((ρf − ρ) ρw / ((ρf − ρw) ρ)), ρf = {f}",
                &[("q", "commissioning.float_read"), ("f", "commissioning.float_density")],
            ),
        Figure::new(
            "commissioning.flush_speed",
            "speed at the design flow over 0.6 m/s",
            Number,
            &plumbing::PIPE,
            |s, _| {
                let runs = s.plumbing.pipe.clone()?.runs;
                let speed = runs.iter().map(|run| run.drop.velocity.si()).fold(0.0, f64::max);
                Ok(Quantity::number(speed / MOVES_AIR).into())
            },
        )
        .by("flush", "{v} / 0.6 m/s: below 1 the purge wants a pump of its own", &[("v", "plumbing.velocity")]),
    ];

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("commissioning.flush-litres", "water flushed through", Severity::Nuisance, flushed)
        .says("{found} went through; {limit} are wanted.", "Go on, panel by panel and the other way round.")
        .blind_to("a dead leg that no flush goes through; whether the cloth stayed clean")
        .source("ten contents: project rule")
        .needs(&["commissioning.flushed", "commissioning.flush_volume"]),
    Check::new("commissioning.filled-litres", "liquid filled in", Severity::Injury, filled)
        .says(
            "{found} went in, panels and pipe hold {limit}: {part}.",
            "Vent the highest points; look for a valve that was left shut.",
        )
        .blind_to("what went into vessel, exchanger or reservoir if it was counted as well")
        .source("5 % and 10 %: project rules")
        .needs(&["commissioning.filled", "plumbing.loop_content"]),
    Check::new("commissioning.air-left", "air left in the loop", Severity::Nuisance, air)
        .says(
            "{found} of the content is air; {limit} is allowed: {part}.",
            "Purge at {commissioning.flush_flow}, then bleed after 1, 7 and 30 days.",
        )
        .blind_to("air in the vessel's line, which was shut off")
        .source("0.5 %: project rule; squeeze: Boyle")
        .needs(&["commissioning.air_share"]),
    Check::new("commissioning.glycol-samples", "glycol, two samples", Severity::Injury, samples)
        .says(
            "The refractometer says {found}, {limit} is wanted: {part}.",
            "Pump on for a quarter of an hour, zero on distilled water, use the propylene scale.",
        )
        .blind_to("the wrong scale: it reads wrong by several kelvins")
        .source("1 %: project rule; scale: standard test method (verified)")
        .needs(&["commissioning.glycol_read", "plumbing.glycol", "plumbing.loop"]),
    Check::new("commissioning.liquid-ph", "pH of the liquid", Severity::Injury, acid)
        .says(
            "pH {found}; below {limit} it begins to eat the loop, below 7.0 it must go.",
            "Change the liquid; old liquid goes to the waste site.",
        )
        .blind_to("reserve alkalinity: a fresh look with a test kit tells more")
        .source("7.0 degraded, 8 act, new 8.5 to 9 (verified; sources differ); 7.5 and 7.0: project rules")
        .needs(&["commissioning.liquid_ph", "plumbing.loop"]),
    Check::new("commissioning.panels-balance", "panels equally warm", Severity::Nuisance, outlets)
        .says(
            "The panels' outlets differ by {found}; {limit} is allowed. The hotter one has less flow.",
            "Valve of the colder one a little shut; look for air in the hotter one.",
        )
        .blind_to("panels that see different sun")
        .source("2.8 K: navy manual (verified)")
        .needs(&["commissioning.outlets_spread"]),
    Check::new("commissioning.risers-balance", "risers equally warm", Severity::Nuisance, risers)
        .says(
            "The risers differ by {found}; {limit} is allowed.",
            "A cold riser holds air or a plug of solder: flush the panel alone, the other way round.",
        )
        .blind_to("a riser whose sheet has come off: it is cold as well")
        .source("3 K: project rule")
        .needs(&["commissioning.risers_spread"]),
];
