//! Figures and checks of pressure and heat: steam, vessel, relief, hoses, exchanger, potable side, lock-out.
//!
//! The sums are in `closed`, `steam`, `exchange` and `working`.

use super::closed::{self, Closed, Fitted};
use super::entries::part::{self, PartKind};
use super::entries::run;
use super::entries::service::{self, SlugProtection};
use super::entries::{self as e, LoopType};
use super::layout::{HEIGHTS, NETWORK};
use super::network::Network;
use super::pipework::{LINES, given_at};
use super::steam::{self, Steam};
use super::year::entries as y;
use super::{CONTENTS, LIQUID, ROW, exchange, working};
use crate::handbook::hose;
use crate::model::{Fig, Judgement, Value, Verdict, Why};
use crate::physics::glycol::INHIBITOR_LEAST_VOLUME_FRACTION;
use crate::stage::worst::worst;
use crate::stage::{Check, Figure, Group, Severity, Solution, absorber, site};
use crate::units::Kind::{
    self, Conductance, Energy, Length as Metres, Mass, Percent, Power, Pressure as Pascals, Volume,
};
use crate::units::Quantity;
use crate::units::si::{Dimension, Pressure, Ratio, Temperature, celsius, difference};

/// How far a precharge may be from the wanted one, Pa (project rule).
const PRECHARGE_OFF: f64 = 0.2e5;

/// Relief and saturation.
pub static RELIEF: Group = Group {
    name: "relief of the loop",
    entries: &["plumbing.relief_setting", "plumbing.part.*.setting", "site.altitude"],
    groups: &[&LIQUID, &NETWORK],
};

/// Steam and its reach.
pub static STEAM: Group = Group {
    name: "steam in the loop",
    entries: &["plumbing.run.*.insulation", "plumbing.run.*.thickness", "plumbing.run.*.place"],
    groups: &[&RELIEF, &LINES, &absorber::STAGNATION, &absorber::HEAT],
};

/// The expansion vessel.
pub static VESSEL: Group = Group {
    name: "the expansion vessel",
    entries: &["plumbing.top_pressure", "plumbing.part.*.volume"],
    groups: &[&STEAM, &HEIGHTS, &CONTENTS, &site::COLDEST],
};

/// Filling the loop.
pub static FILL: Group = Group { name: "filling the loop", entries: &[], groups: &[&VESSEL, &site::WEATHER] };

/// Glycol to buy.
pub static GLYCOL: Group =
    Group { name: "glycol to buy", entries: &["plumbing.glycol", "plumbing.loop"], groups: &[&VESSEL] };

/// Effectiveness of the exchanger.
pub static EXCHANGE: Group = Group {
    name: "the exchanger",
    entries: &["plumbing.coil_tube", "plumbing.coil_length", "plumbing.exchanger_conductance", "plumbing.storage_flow"],
    groups: &[&ROW, &LIQUID],
};

/// Heat of the pipe.
pub static PIPE_HEAT: Group = Group {
    name: "heat of the pipe",
    entries: &["plumbing.run.*.insulation", "plumbing.run.*.thickness", "plumbing.run.*.place"],
    groups: &[&LINES, &LIQUID],
};

/// Growth of the tank's water.
pub static GROWTH: Group =
    Group { name: "growth of the tank's water", entries: &["plumbing.tank", "plumbing.tank_limit"], groups: &[] };

/// Vessel of the potable side.
pub static POTABLE: Group = Group {
    name: "vessel of the potable side",
    entries: &["plumbing.mains_pressure", "plumbing.tank_relief", "site.altitude"],
    groups: &[&GROWTH],
};

/// Lock-out of the pump.
pub static LOCKOUT: Group = Group {
    name: "lock-out of the pump",
    entries: &[
        "plumbing.top_pressure",
        "plumbing.mains_pressure",
        "plumbing.part.*.limit",
        "plumbing.run.*.rated_at",
        "plumbing.run.*.hose",
        "site.altitude",
    ],
    groups: &[&LIQUID, &HEIGHTS, &super::pipework::LINES],
};

fn known<T>(fig: &Fig<T>) -> Fig<&T> {
    fig.as_ref().map_err(Clone::clone)
}

fn network(s: &Solution) -> Fig<&Network> {
    known(&s.plumbing.layout.network)
}

fn steam_of(s: &Solution) -> Fig<&Steam> {
    known(&s.plumbing.working.steam)
}

fn closed_of(s: &Solution) -> Fig<&Closed> {
    if s.inputs.get(&e::LOOP)? != LoopType::Glycol {
        return Err(Why::out_of_range("only a glycol loop has an expansion vessel"));
    }
    known(&s.plumbing.working.closed)
}

fn fitted(s: &Solution) -> Fig<Fitted> {
    closed_of(s)?.fitted.clone()
}

/// Mean air of this month: what the loop stands at when it is filled.
fn today(s: &Solution) -> Fig<Temperature> {
    let month = usize::try_from(s.world.today.month()).unwrap_or(1);
    Ok(known(&s.site.weather)?.monthly[(month - 1) % 12])
}

fn fill_today(s: &Solution) -> Fig<Pressure> {
    closed_of(s)?;
    working::fill_at(&s.plumbing, &s.inputs, s.site.coldest.clone()?, today(s)?)
}

fn effectiveness(s: &Solution) -> Fig<Ratio> {
    let found = s.plumbing.working.effectiveness.clone()?;
    found.ok_or_else(|| Why::missing("plumbing.coil_tube"))
}

fn glycol(s: &Solution) -> Fig<(crate::units::si::Volume, crate::units::si::Mass)> {
    let reserve = closed_of(s)?.vessel.reserve;
    closed::glycol_to_buy(&s.inputs, known(&s.plumbing.contents)?.total(), reserve)
}

fn reach_words(s: &Solution) -> Fig<Value> {
    let mut parts: Vec<&str> = Vec::new();
    for part in steam_of(s)?.parts() {
        if !parts.contains(&part.as_str()) {
            parts.push(part);
        }
    }
    Ok(Value::Text(if parts.is_empty() { "none".to_owned() } else { parts.join(", ") }))
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("plumbing.relief_lowest", "lowest relief setting of the loop", Pascals, &RELIEF, |s, _| {
        Ok(closed::relief(&s.inputs, network(s)?)?.into())
    })
    .by("relief-chain", "least setting among its relief valves, else {p}", &[("p", "plumbing.relief_setting")]),
    Figure::new("plumbing.final_pressure", "pressure that it may come to", Pascals, &RELIEF, |s, _| {
        Ok(closed::final_pressure(closed::relief(&s.inputs, network(s)?)?).into())
    })
    .by("relief-chain", "{relief} − max(0.5 bar, 10 %)", &[("relief", "plumbing.relief_lowest")]),
    Figure::new("plumbing.saturation", "it boils then at", Kind::Temperature, &RELIEF, |s, _| {
        Ok(closed::saturation(&s.inputs, s.plumbing.fluid.clone()?, network(s)?)?.into())
    })
    .by("relief-chain", "boiling point at {p} and the air's pressure", &[("p", "plumbing.final_pressure")]),
    Figure::new("plumbing.steam_power", "power that makes steam", Power, &STEAM, |s, _| Ok(steam_of(s)?.power.into()))
        .by(
            "steam-reach",
            "A max(0, η₀ G − a₁ ΔT − a₂ ΔT²) at {T}, ΔT shortened so that nothing is left at {Ts}",
            &[("T", "plumbing.saturation"), ("Ts", "absorber.stagnation_worst")],
        ),
    Figure::new("plumbing.steam_reach", "steam goes onward", Metres, &STEAM, |s, _| {
        Ok(steam_of(s)?.onward.length.into())
    })
    .by(
        "steam-reach",
        "length of pipe with Σ U′ ({T} − T_air) L = {P}; an upper bound",
        &[("P", "plumbing.steam_power"), ("T", "plumbing.saturation")],
    ),
    Figure::new("plumbing.steam_reach_back", "steam goes backward", Metres, &STEAM, |s, _| {
        Ok(steam_of(s)?.backward.length.into())
    })
    .by("steam-reach", "the same against the flow, all {P} that way", &[("P", "plumbing.steam_power")]),
    Figure::word("plumbing.steam_parts", "parts that steam can reach", &STEAM, |s, _| reach_words(s)).by(
        "steam-reach",
        "what sits within reach, either way",
        &[],
    ),
    Figure::new("plumbing.vessel_needed", "expansion vessel that the loop needs", Volume, &VESSEL, |s, _| {
        Ok(closed_of(s)?.vessel.least_volume.into())
    })
    .by(
        "vessel",
        "(V_e + V_steam + V_reserve)({pe} + p_atm)/({pe} − {p0})",
        &[("pe", "plumbing.final_pressure"), ("p0", "plumbing.precharge_wanted")],
    ),
    Figure::new("plumbing.vessel_growth", "growth of the liquid", Volume, &VESSEL, |s, _| {
        Ok(closed_of(s)?.vessel.expansion_volume.into())
    })
    .by(
        "vessel",
        "{V} (ρ({cold})/ρ({hot}) − 1)",
        &[("V", "plumbing.loop_content"), ("cold", "site.coldest_air"), ("hot", "plumbing.saturation")],
    ),
    Figure::new("plumbing.vessel_steam", "liquid that steam pushes out", Volume, &VESSEL, |s, _| {
        Ok(closed_of(s)?.vessel.vapour_volume.into())
    })
    .by("vessel", "{panels} + pipe within the steam's reach", &[("panels", "plumbing.panels_content")]),
    Figure::new("plumbing.vessel_reserve", "reserve in the vessel", Volume, &VESSEL, |s, _| {
        Ok(closed_of(s)?.vessel.reserve.into())
    })
    .by("vessel", "max(2 % of {V}, 3 L)", &[("V", "plumbing.loop_content")]),
    Figure::new("plumbing.precharge_wanted", "precharge of the vessel", Pascals, &VESSEL, |s, _| {
        Ok(closed_of(s)?.vessel.precharge.into())
    })
    .by("vessel", "ρ g h up to the top + {top}", &[("top", "plumbing.top_pressure")]),
    Figure::new("plumbing.vessel_greatest", "highest pressure with the vessel fitted", Pascals, &VESSEL, |s, _| {
        let greatest = fitted(s)?.greatest;
        Ok(greatest.ok_or_else(|| Why::out_of_range("the vessel cannot hold what comes"))?.into())
    })
    .by(
        "vessel",
        "(p₀ + p_atm) V/(V − {growth} − {steam} − {reserve}) − p_atm",
        &[
            ("growth", "plumbing.vessel_growth"),
            ("steam", "plumbing.vessel_steam"),
            ("reserve", "plumbing.vessel_reserve"),
        ],
    ),
    Figure::new("plumbing.cold_fill", "fill to, at this month's air", Pascals, &FILL, |s, _| Ok(fill_today(s)?.into()))
        .by(
            "vessel",
            "(p₀ + p_atm) V/(V − {reserve} − growth from {cold} to now) − p_atm",
            &[("reserve", "plumbing.vessel_reserve"), ("cold", "site.coldest_air")],
        ),
    Figure::new("plumbing.glycol_volume", "glycol to buy", Volume, &GLYCOL, |s, _| Ok(glycol(s)?.0.into())).by(
        "loop-content",
        "{share} of {V} and of the vessel's reserve",
        &[("share", "plumbing.glycol"), ("V", "plumbing.loop_content")],
    ),
    Figure::new("plumbing.glycol_mass", "it weighs", Mass, &GLYCOL, |s, _| Ok(glycol(s)?.1.into())).by(
        "loop-content",
        "{V} × 1036 kg/m³ at 20 °C",
        &[("V", "plumbing.glycol_volume")],
    ),
    Figure::new(
        "plumbing.exchanger_computed",
        "effectiveness of coil or plate, computed",
        Percent,
        &EXCHANGE,
        |s, _| Ok(Quantity::percent(effectiveness(s)?.si()).into()),
    )
    .by(
        "exchanger",
        "coil: 1 − e^(−UA/C); plate: counterflow with {Q} on the panels' side",
        &[("Q", "plumbing.flow")],
    ),
    Figure::new("plumbing.pipe_loss", "heat lost by the pipe, running", Power, &PIPE_HEAT, |s, _| {
        Ok(known(&s.plumbing.working.pipe_heat)?.running.into())
    })
    .by("pipe-heat", "Σ U′ L (45 °C − air), air 20 °C indoors, 10 °C outdoors", &[]),
    Figure::new("plumbing.pipe_conductance", "heat loss of the pipe", Conductance, &PIPE_HEAT, |s, _| {
        Ok(known(&s.plumbing.working.pipe_heat)?.conductance.into())
    })
    .by("pipe-heat", "Σ L/(ln(r₂/r₁)/(2π k) + 1/(2π r₂ h))", &[]),
    Figure::new("plumbing.pipe_night", "heat left in the pipe each night", Energy, &PIPE_HEAT, |s, _| {
        Ok(known(&s.plumbing.working.pipe_heat)?.nightly.into())
    })
    .by("pipe-heat", "Σ (liquid and copper) (45 °C − air)", &[]),
    Figure::new("plumbing.potable_growth", "growth of the tank's water", Volume, &GROWTH, |s, _| {
        Ok(exchange::potable_growth(&s.inputs)?.into())
    })
    .by("potable-growth", "{V} (ρ(10 °C)/ρ({T}) − 1)", &[("V", "plumbing.tank"), ("T", "plumbing.tank_limit")]),
    Figure::new("plumbing.potable_vessel_needed", "potable vessel needed", Volume, &POTABLE, |s, _| {
        Ok(exchange::potable_vessel(&s.inputs)?.into())
    })
    .by(
        "potable-growth",
        "{grows} (p_e + p_atm)/(p_e − {mains}), p_e = {relief} − max(0.5 bar, 10 %)",
        &[
            ("grows", "plumbing.potable_growth"),
            ("mains", "plumbing.mains_pressure"),
            ("relief", "plumbing.tank_relief"),
        ],
    ),
    Figure::new("plumbing.lockout_limit", "pump must stand from there on", Kind::Temperature, &LOCKOUT, |s, _| {
        Ok(s.plumbing.working.lockout_limit.clone()?.into())
    })
    .by(
        "lockout",
        "min(120 °C, boiling at the top − 10 K, weakest wet part − 10 K); drainback at most 85 °C",
        &[],
    ),
];

fn vessel_size(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::LOOP)? != LoopType::Glycol {
        return Ok(Judgement::does_not_apply("this loop needs no expansion vessel"));
    }
    let needs = closed_of(s)?.vessel.least_volume;
    let has = fitted(s)?.volume;
    Ok(Judgement::stop_unless(has >= needs).with(has, needs).margin(has - needs))
}

fn precharge(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::LOOP)? != LoopType::Glycol {
        return Ok(Judgement::does_not_apply("this loop needs no expansion vessel"));
    }
    let wanted = closed_of(s)?.vessel.precharge;
    let has = fitted(s)?.precharge;
    let off = (has - wanted).abs();
    let limit = Pressure::from_si(PRECHARGE_OFF);
    Ok(Judgement::caution_unless(off <= limit).with(has, wanted).margin(limit - off))
}

/// Every pressure in its order: precharge, fill, final, relief, weakest part.
fn relief_chain(s: &Solution) -> Fig<Judgement> {
    let network = network(s)?;
    let relief = closed::relief(&s.inputs, network)?;
    let below = |rating: Pressure, part: &str| {
        Judgement::stop_unless(relief <= rating).with(relief, rating).margin(rating - relief).part(part)
    };
    let mut parts = vec![s.inputs.get(&e::WEAKEST).map(|rating| below(rating, "weakest part under test"))];
    for name in network.parts.keys() {
        if let Some(rating) = given_at(&s.inputs, &part::RATING, name)? {
            parts.push(Ok(below(rating, name)));
        }
    }
    for stretch in &network.circuit {
        if let Some(rating) = given_at(&s.inputs, &run::RATING, &stretch.run)? {
            parts.push(Ok(below(rating, &stretch.run)));
        }
    }
    if s.inputs.get(&e::LOOP)? == LoopType::Glycol {
        let last = closed::final_pressure(relief);
        parts.push(closed_of(s).map(|closed| {
            let first = closed.vessel.precharge;
            Judgement::stop_unless(last > first).with(last, first).margin(last - first).part("precharge")
        }));
    }
    worst(parts)
}

/// Hoses and plastic where heat and steam can come.
fn hoses(s: &Solution) -> Fig<Judgement> {
    let network = network(s)?;
    let hottest = s.absorber.stagnation.clone()?.worst;
    let relief = closed::relief(&s.inputs, network)?;
    let potable = matches!(s.inputs.get(&e::LOOP)?, LoopType::Direct | LoopType::Thermosiphon);
    let mut judged: Vec<Fig<Judgement>> = Vec::new();
    for line in known(&s.plumbing.lines)? {
        let at_panels = network.circuit.iter().any(|stretch| {
            let touches = |place: &str| network.kind(place) == Some(PartKind::Panels);
            stretch.run == line.name && (touches(&stretch.from) || touches(&stretch.to))
        });
        if let Some(kind) = line.hose() {
            if potable && kind.name.contains("coolant") {
                let words = format!("{}: a coolant hose on drinking water", line.name);
                judged.push(Ok(Judgement::of(Verdict::Stop).with(relief, kind.pressure).part(words)));
            }
            let rating = s.inputs.at(&run::RATING, &line.name);
            let rated_at = s.inputs.at(&run::RATED_AT, &line.name);
            judged.push(
                rating.map(|bears| Judgement::stop_unless(bears >= relief).with(relief, bears).part(line.name.clone())),
            );
            let sees = if at_panels { hottest } else { steam_of(s)?.saturation };
            judged.push(rated_at.map(|at| {
                Judgement::stop_unless(at >= sees).with(sees, at).margin(difference(at, sees)).part(line.name.clone())
            }));
        }
        if let Some(plastic) = line.plastic() {
            if steam_of(s)?.reaches_run(&line.name) {
                let words = format!("{}: within reach of steam", line.name);
                let sees = steam_of(s)?.saturation;
                judged.push(Ok(Judgement::of(Verdict::Stop).with(sees, plastic.hottest).part(words)));
            } else if at_panels {
                let words =
                    format!("{}: less than {} m of metal from the panel", line.name, hose::metal_run_at_panel().si());
                judged.push(Ok(Judgement::of(Verdict::Stop).with(hottest, plastic.hottest).part(words)));
            }
        }
    }
    if judged.is_empty() {
        return Ok(Judgement::does_not_apply("the loop has no hose and no plastic"));
    }
    worst(judged)
}

/// Seals and membranes within reach of steam.
fn steam_parts(s: &Solution) -> Fig<Judgement> {
    let (network, steam) = (network(s)?, steam_of(s)?);
    if s.inputs.get(&e::LOOP)? == LoopType::Drainback {
        let words = "a panel that stands empty while the pump stands";
        return Ok(Judgement::does_not_apply(words));
    }
    if steam.power.si() <= 0.0 {
        return Ok(Judgement::does_not_apply("the panel does not boil"));
    }
    let exposed = steam::exposed(&s.inputs, network, steam)?;
    if exposed.is_empty() {
        return Ok(Judgement::does_not_apply("steam reaches nothing that it would harm"));
    }
    worst(exposed.into_iter().map(|(name, limit)| {
        let limit = limit.ok_or_else(|| Why::missing(part::LIMIT.spec.id.replacen('*', &name, 1)))?;
        let margin = difference(limit, steam.saturation);
        Ok(Judgement::stop_unless(margin.si() >= 0.0).with(steam.saturation, limit).margin(margin).part(name))
    }))
}

fn cold_slug(s: &Solution) -> Fig<Judgement> {
    let outside = network(s)?.part_of(PartKind::Exchanger).is_some();
    if s.inputs.get(&e::LOOP)? != LoopType::Glycol || !outside {
        return Ok(Judgement::does_not_apply("the loop has no exchanger outside the tank"));
    }
    let cold = s.site.coldest.clone()?;
    if cold >= celsius(0.0) {
        return Ok(Judgement::does_not_apply("the place has no frost"));
    }
    let has_check = network(s)?.part_of(PartKind::CheckValve).is_some();
    let protected = s.inputs.get(&service::SLUG)? != SlugProtection::None;
    let words = match (protected, has_check) {
        (false, _) => "nothing leads the cold slug past the exchanger",
        (true, false) => "no check valve holds the loop at night",
        (true, true) => "bypass or potable flow, and a check valve",
    };
    Ok(Judgement::stop_unless(protected && has_check).with(cold, celsius(5.0)).part(words))
}

fn potable_expansion(s: &Solution) -> Fig<Judgement> {
    if !s.inputs.get(&service::FEED_CLOSED)? {
        return Ok(Judgement::does_not_apply("the feed is open to the mains"));
    }
    let needs = exchange::potable_vessel(&s.inputs)?;
    let has = s.inputs.get(&service::POTABLE_VESSEL)?;
    Ok(Judgement::stop_unless(has >= needs).with(has, needs).margin(has - needs).part("the feed holds pressure"))
}

fn lockout(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::LOOP)? == LoopType::Thermosiphon {
        return Ok(Judgement::does_not_apply("this loop has no pump"));
    }
    let limit = s.plumbing.working.lockout_limit.clone()?;
    let set = s.inputs.get(&y::LOCK_OUT)?;
    let margin = difference(limit, set);
    Ok(Judgement::stop_unless(margin.si() >= 0.0).with(set, limit).margin(margin))
}

fn inhibitor(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::LOOP)? != LoopType::Glycol {
        return Ok(Judgement::does_not_apply("this loop holds water"));
    }
    let has = s.inputs.get(&e::GLYCOL)?.si();
    let least = INHIBITOR_LEAST_VOLUME_FRACTION;
    Ok(Judgement::caution_unless(has >= least).with(Quantity::percent(has), Quantity::percent(least)))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("plumbing.vessel-size", "size of the expansion vessel", Severity::Serious, vessel_size)
        .says(
            "The vessel holds {found}; {limit} is needed. A small one lets the relief valve blow glycol in every power \
             cut, and the loop runs short.",
            "A larger vessel, a higher relief setting where every part bears it, or a lower loop.",
        )
        .blind_to("a lost precharge, a torn membrane, pipe that steam reaches but is not written")
        .source("practice of central-European planning manuals; one manual's worked example is a test (verified)")
        .needs(&["plumbing.vessel_needed", "plumbing.loop"]),
    Check::new("plumbing.precharge", "precharge of the vessel", Severity::Injury, precharge)
        .says(
            "The precharge is {found}; {limit} fits this height. Too much leaves no reserve, too little fills the vessel \
             with cold liquid.",
            "Set it while the loop is empty, and write the reading down.",
        )
        .blind_to("a gauge that is off; gas that leaves through the membrane within a year")
        .source("height and pressure at the top: planning manuals (verified); 0.2 bar: project rule")
        .needs(&["plumbing.precharge_wanted", "plumbing.part.*.setting", "plumbing.loop"]),
    Check::new("plumbing.relief-chain", "relief against every part", Severity::Deadly, relief_chain)
        .says(
            "{part}: {found} against {limit}. The relief valve must open before any part gives, and above what the vessel \
             starts with.",
            "A lower relief setting, or a part that bears more.",
        )
        .blind_to("a rating that falls with heat; parts whose rating is not entered")
        .ask("a licensed plumber")
        .source("order of pressures: planning manuals (verified)")
        .needs(&[
            "plumbing.relief_lowest",
            "plumbing.weakest_rating",
            "plumbing.part.*.rating",
            "plumbing.run.*.rating",
            "plumbing.vessel_needed",
            "plumbing.loop",
        ]),
    Check::new("plumbing.hose-rating", "hoses and plastic in the loop", Severity::Deadly, hoses)
        .says(
            "{part}: {found} against {limit}. A hose that bursts at a hot panel scalds whoever stands below.",
            "A hose with a pressure at that heat printed on it, or metal; no plastic where steam can come.",
        )
        .blind_to("age, kinks, clamps; what is really printed on the hose")
        .ask("a licensed plumber, on drinking water")
        .source("project rules; temperatures: handbook of hoses and plastics")
        .needs(&[
            "plumbing.relief_lowest",
            "plumbing.steam_reach",
            "plumbing.run.*.rating",
            "plumbing.run.*.rated_at",
            "plumbing.loop",
        ]),
    Check::new("plumbing.steam-parts", "parts that steam can reach", Severity::Serious, steam_parts)
        .says(
            "Steam of {found} can reach {part}, which stands {limit}.",
            "Move it to the cold leg, beyond the reach of steam; or leave more bare pipe before it; or a part that stands it.",
        )
        .blind_to("the reach is an upper bound each way; parts off the loop; sensors and cables")
        .source("power of steam against the loss of the pipe: balance; limits: the parts' own plates")
        .needs(&["plumbing.steam_parts", "plumbing.part.*.limit", "plumbing.loop"]),
    Check::new("plumbing.cold-slug", "cold slug at an outside exchanger", Severity::Serious, cold_slug)
        .says(
            "{part}: the coldest night is {found}; glycol that cold freezes the potable side and bursts it.",
            "A bypass until the loop is above {limit}, or the potable pump first; and a check valve.",
        )
        .blind_to("a bypass that sticks; gravity flow past a leaking check valve")
        .ask("a licensed plumber")
        .source("project rule")
        .needs(&["plumbing.loop_order", "plumbing.loop", "plumbing.slug_protection", "site.coldest_air"]),
    Check::new("plumbing.potable-expansion", "room for heated drinking water", Severity::Serious, potable_expansion)
        .says(
            "{part}: the potable vessel holds {found}, {limit} is needed. The water of the tank grows {plumbing.potable_growth}; \
             without room the relief valve weeps every day and scales shut.",
            "A potable vessel of that size in the cold feed, behind the check valve.",
        )
        .blind_to("a vessel without precharge; a relief valve that is scaled already")
        .ask("a licensed plumber")
        .source("growth of water: IAPWS; gas law")
        .needs(&["plumbing.potable_vessel_needed", "plumbing.potable_vessel", "plumbing.feed_closed"]),
    Check::new("plumbing.lockout", "pump locked out while hot", Severity::Serious, lockout)
        .says(
            "The pump is locked out above {found}; {limit} is the limit. A pump that starts into steam hammers the pipe \
             and drives steam to the tank.",
            "Set the lock-out lower.",
        )
        .blind_to("a sensor that reads low or sits outside the box; a lock-out that a power cut resets")
        .source("project rule: 120 °C, 10 K below boiling at the top, 10 K below the weakest wet part; drainback 85 °C")
        .needs(&["plumbing.lockout_limit", "plumbing.lock_out", "plumbing.loop"]),
    Check::new("plumbing.inhibitor", "enough glycol for its inhibitors", Severity::Injury, inhibitor)
        .says(
            "The mixture holds {found} glycol; below {limit} the inhibitors no longer protect copper and solder.",
            "More glycol, even where no frost asks for it.",
        )
        .blind_to("age and acidity of the liquid: test its pH every year")
        .source("25 to 30 %: from memory; the jug's own sheet wins")
        .needs(&["plumbing.glycol", "plumbing.loop"]),
];
