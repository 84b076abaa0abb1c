//! Figures of pressure and heat: steam, vessel, relief, hoses, exchanger, potable side, lock-out.
//!
//! The sums are in `closed`, `steam`, `exchange` and `working`; the checks in `pressure_checks`.

use super::closed::{self, Closed, Fitted};
use super::entries::{self as e, LoopType};
use super::layout::{HEIGHTS, NETWORK};
use super::network::Network;
use super::pipework::LINES;
use super::steam::Steam;
use super::{CONTENTS, LIQUID, ROW, exchange, working};
use crate::model::{Fig, TradeUnits, Value, Why};
use crate::stage::{Figure, Group, Solution, absorber, site};
use crate::units::Kind::{
    self, Conductance, Energy, Length as Metres, Mass, Percent, Power, Pressure as Pascals, Volume,
};
use crate::units::Quantity;
use crate::units::si::{Dimension, Pressure, Ratio, Temperature};

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

/// The effectiveness that counts.
pub static EFFECTIVENESS: Group = Group {
    name: "what the exchanger keeps",
    entries: &["plumbing.exchanger_effectiveness", "plumbing.loop"],
    groups: &[&EXCHANGE],
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

pub(super) fn known<T>(fig: &Fig<T>) -> Fig<&T> {
    fig.as_ref().map_err(Clone::clone)
}

pub(super) fn network(s: &Solution) -> Fig<&Network> {
    known(&s.plumbing.layout.network)
}

pub(super) fn steam_of(s: &Solution) -> Fig<&Steam> {
    known(&s.plumbing.working.steam)
}

pub(super) fn closed_of(s: &Solution) -> Fig<&Closed> {
    if s.inputs.get(&e::LOOP)? != LoopType::Glycol {
        return Err(Why::out_of_range("only a glycol loop has an expansion vessel"));
    }
    known(&s.plumbing.working.closed)
}

pub(super) fn fitted(s: &Solution) -> Fig<Fitted> {
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

fn computed_effectiveness(s: &Solution) -> Fig<Ratio> {
    let found = s.plumbing.computed_effectiveness.clone()?;
    found.ok_or_else(|| Why::missing("plumbing.coil_tube"))
}

fn effectiveness(s: &Solution) -> Fig<Ratio> {
    let found = s.plumbing.effectiveness.clone()?;
    found.ok_or_else(|| Why::out_of_range("the panels' water is the tank's"))
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
    Figure::new(
        "plumbing.steam_power",
        "steam in the worst sun, pump stopped, for its reach",
        Power,
        &STEAM,
        |s, _| Ok(steam_of(s)?.power.into()),
    )
    .by(
        "steam-reach",
        "A max(0, η₀ G − a₁ ΔT − a₂ ΔT²) at {T}, ΔT shortened so that nothing is left at {Ts}",
        &[("T", "plumbing.saturation"), ("Ts", "absorber.stagnation_worst")],
    ),
    Figure::new("plumbing.steam_reach", "steam goes onward", Metres, &STEAM, |s, _| {
        Ok(steam_of(s)?.onward.length.into())
    })
    .shown_in(TradeUnits::SITE)
    .by(
        "steam-reach",
        "length of pipe with Σ U′ ({T} − T_air) L = {P}; an upper bound",
        &[("P", "plumbing.steam_power"), ("T", "plumbing.saturation")],
    ),
    Figure::new("plumbing.steam_reach_back", "steam goes backward", Metres, &STEAM, |s, _| {
        Ok(steam_of(s)?.backward.length.into())
    })
    .shown_in(TradeUnits::SITE)
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
        |s, _| Ok(Quantity::percent(computed_effectiveness(s)?.si()).into()),
    )
    .by(
        "exchanger",
        "coil: 1 − e^(−UA/C); plate: counterflow with {Q} on the panels' side",
        &[("Q", "plumbing.flow")],
    ),
    Figure::new("plumbing.exchanger_used", "effectiveness that the year goes by", Percent, &EFFECTIVENESS, |s, _| {
        Ok(Quantity::percent(effectiveness(s)?.si()).into())
    })
    .by("exchanger", "as entered, else {computed}", &[("computed", "plumbing.exchanger_computed")]),
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
