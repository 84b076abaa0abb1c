//! Figures and checks of the flow: run by run, panel by panel, pump, draining, flow by weight.
//!
//! The sums are in `hydraulics`, `emptying` and `working`.

use super::entries::{self as e, LoopType, service};
use super::hydraulics::{LoopCost, PanelCost, PumpDuty, RunCost};
use super::year::entries as y;
use super::{LIQUID, LOOP, PIPE, ROW, emptying::Emptying, layout::HEIGHTS, pipework::LINES};
use crate::model::{Fig, Judgement, TradeUnits, Value, Verdict, Why};
use crate::physics::drainback::{Return, can_fill};
use crate::physics::pump::{Duty, OperatingPoint};
use crate::physics::thermosiphon::NaturalFlow;
use crate::stage::{Axis, Check, Figure, Group, Severity, Solution, absorber};
use crate::units::Kind::{
    Flow, Length as Metres, MassFlow, Number, Percent, Power, Pressure as Pascals, Speed, Temperature, Volume,
};
use crate::units::si::{Dimension, Length, TemperatureInterval, VolumeRate};
use crate::units::{Quantity, System};

/// Least over mean flow of the groups that is even enough (project rule).
const EVEN: f64 = 0.9;
/// Head that a pump must have over what its suction needs, m (project rule).
const SUCTION_RESERVE: f64 = 0.5;
/// Distance of the water at the top of a siphon from boiling, K (project rule).
const SIPHON_MARGIN: f64 = 5.0;
/// Least natural flow of a thermosiphon, kg/s per m² (low flow of published systems, from memory).
const NATURAL: f64 = 0.002;

/// How the panels share the flow.
pub static PANEL_FLOW: Group = Group {
    name: "flow of the panels",
    entries: &["plumbing.in_series", "plumbing.return_way"],
    groups: &[&ROW, &LIQUID, &absorber::COLLECTOR],
};

/// The pump in the loop.
pub static PUMP: Group = Group {
    name: "the pump in the loop",
    entries: &["plumbing.pump_point.*.flow", "plumbing.pump_point.*.head", "plumbing.pump_power"],
    groups: &[&LOOP, &DRAINBACK],
};

/// A loop that drains back.
pub static DRAINBACK: Group = Group {
    name: "a loop that drains back",
    entries: &["plumbing.tank_limit", "site.altitude"],
    groups: &[&PANEL_FLOW, &PIPE, &HEIGHTS, &super::CONTENTS],
};

/// Suction of the pump.
pub static SUCTION: Group = Group {
    name: "suction of the pump",
    entries: &["plumbing.part.*.setting", "plumbing.mains_pressure", "plumbing.tank_limit"],
    groups: &[&PUMP, &super::pressure_rows::VESSEL],
};

/// Flow by weight alone.
pub static NATURAL_FLOW: Group =
    Group { name: "flow by weight alone", entries: &[], groups: &[&absorber::HEAT, &HEIGHTS, &LINES, &LIQUID] };

fn known<T>(fig: &Fig<T>) -> Fig<&T> {
    fig.as_ref().map_err(Clone::clone)
}

fn run_of<'a>(s: &'a Solution, key: &str) -> Fig<&'a RunCost> {
    let index: usize = key.parse().map_err(|_| Why::missing("plumbing.run.*.from"))?;
    let runs = &known(&s.plumbing.pipe)?.runs;
    index.checked_sub(1).and_then(|index| runs.get(index)).ok_or_else(|| Why::missing("plumbing.run.*.from"))
}

fn panels(s: &Solution) -> Fig<&PanelCost> {
    known(&s.plumbing.working.panels)
}

fn cost(s: &Solution) -> Fig<&LoopCost> {
    known(&s.plumbing.working.cost)
}

pub(super) fn pump(s: &Solution) -> Fig<&PumpDuty> {
    known(&s.plumbing.working.pump)
}

pub(super) fn point(s: &Solution) -> Fig<OperatingPoint> {
    match pump(s)?.duty {
        Duty::Runs(point) => Ok(point),
        Duty::CannotLift { shutoff_head, lift } => {
            let text = |length: Length| Quantity::from(length).text(System::Si);
            Err(Why::out_of_range(format!("the pump lifts {} at most, the loop {}", text(shutoff_head), text(lift))))
        }
    }
}

fn drain(s: &Solution) -> Fig<&Emptying> {
    if s.inputs.get(&e::LOOP)? != LoopType::Drainback {
        return Err(Why::out_of_range("only a drainback loop empties itself"));
    }
    known(&s.plumbing.working.emptying)
}

fn natural(s: &Solution) -> Fig<NaturalFlow> {
    if s.inputs.get(&e::LOOP)? != LoopType::Thermosiphon {
        return Err(Why::out_of_range("only a thermosiphon runs by its own weight"));
    }
    s.plumbing.working.natural.clone()?.ok_or_else(|| Why::out_of_range("the sun does not make up the losses"))
}

pub(super) fn flow_of(s: &Solution) -> Fig<VolumeRate> {
    Ok(known(&s.plumbing.row)?.flow)
}

fn return_words(state: Return) -> &'static str {
    match state {
        Return::Siphon => "fills: a siphon carries the lift",
        Return::Undecided => "may fill or not",
        Return::SelfVenting => "stays open: the pump carries the full lift",
    }
}

const DESIGN: (&str, &str) = ("Q", "plumbing.flow");

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::word("plumbing.run_name", "run", &LINES, |s, key| {
        let lines = known(&s.plumbing.lines)?;
        let index: usize = key.parse().map_err(|_| Why::missing("plumbing.run.*.from"))?;
        let line = index.checked_sub(1).and_then(|index| lines.get(index));
        Ok(Value::Text(line.ok_or_else(|| Why::missing("plumbing.run.*.from"))?.name.clone()))
    })
    .axis(Axis::Run)
    .by("pipe-friction", "in the order of flow", &[]),
    Figure::new("plumbing.run_speed", "speed in the run", Speed, &PIPE, |s, key| {
        Ok(run_of(s, key)?.drop.velocity.into())
    })
    .shown_in(TradeUnits::WATER_SPEED)
    .axis(Axis::Run)
    .by("pipe-friction", "v = 4 {Q}/(π D²)", &[DESIGN]),
    Figure::new("plumbing.run_drop", "pressure drop of the run", Pascals, &PIPE, |s, key| {
        Ok(run_of(s, key)?.drop.total().into())
    })
    .axis(Axis::Run)
    .by("pipe-friction", "Δp = (f L/D + ΣK) ρ v²/2 at {Q} and 45 °C", &[DESIGN]),
    Figure::new("plumbing.run_rule_of_thumb", "drop of the run by Hazen-Williams", Pascals, &PIPE, |s, key| {
        Ok(run_of(s, key)?.rule_of_thumb.into())
    })
    .axis(Axis::Run)
    .by("hazen-williams", "4.52 {Q}^1.85/(150^1.85 d^4.87) psi/ft, cold water; a cross-check only", &[DESIGN]),
    Figure::new("plumbing.pipe_total", "length of all runs of the loop", Metres, &LINES, |s, _| {
        let lines = known(&s.plumbing.lines)?;
        Ok(lines.iter().map(|line| line.run.length).fold(Length::default(), |sum, next| sum + next).into())
    })
    .shown_in(TradeUnits::SITE)
    .by("pipe-friction", "sum of the runs, or the loop length where no run is written", &[]),
    Figure::new("plumbing.group_flow", "flow of the group of panels", Flow, &PANEL_FLOW, |s, key| {
        let index: usize = key.parse().map_err(|_| Why::missing("panel.A"))?;
        let flows = &panels(s)?.division.flows;
        let flow = index.checked_sub(1).and_then(|index| flows.get(index).copied());
        Ok(flow.ok_or_else(|| Why::out_of_range("there is no such group"))?.into())
    })
    .axis(Axis::PanelGroup)
    .by(
        "panel-division",
        "q of each group such that p(q) is alike around every loop of two neighbours; sum {Q}",
        &[DESIGN],
    ),
    Figure::new("plumbing.group_evenness", "least over mean flow of the groups", Percent, &PANEL_FLOW, |s, _| {
        Ok(Quantity::percent(panels(s)?.division.least_over_mean).into())
    })
    .by("panel-division", "least q / mean q", &[]),
    Figure::new("plumbing.panels_drop", "pressure drop of all panels", Pascals, &PANEL_FLOW, |s, _| {
        Ok(panels(s)?.division.pressure_drop.into())
    })
    .by("panel-division", "between the two connections of the row at {Q}", &[DESIGN]),
    Figure::new("plumbing.coil_drop", "pressure drop of the coil", Pascals, &LOOP, |s, _| Ok(cost(s)?.coil.into())).by(
        "pipe-friction",
        "as a straight tube; curvature adds some",
        &[],
    ),
    Figure::new("plumbing.parts_drop", "pressure drop of parts and check valves", Pascals, &LOOP, |s, _| {
        Ok(cost(s)?.parts.into())
    })
    .by("pipe-friction", "Σ Δp₀ ({Q}/Q₀)² of test points, and the opening pressure of check valves", &[DESIGN]),
    Figure::word("plumbing.dominates", "what costs most pressure", &LOOP, |s, _| {
        Ok(Value::Text(cost(s)?.dominates.clone()))
    })
    .by("pipe-friction", "largest part of {drop}", &[("drop", "plumbing.loop_drop")]),
    Figure::word("plumbing.uncounted_parts", "parts without a test point", &LOOP, |s, _| {
        let list = &cost(s)?.uncounted;
        Ok(Value::Text(if list.is_empty() { "none".to_owned() } else { list.join(", ") }))
    })
    .by("pipe-friction", "exchanger, filter and meter whose drop nobody entered", &[]),
    Figure::new("plumbing.pump_flow", "flow that the pump gives", Flow, &PUMP, |s, _| Ok(point(s)?.flow.into())).by(
        "pump-point",
        "H(Q) = lift + ΣΔp(Q)/(ρ g), solved between no flow and the pump's greatest",
        &[],
    ),
    Figure::new("plumbing.pump_head", "head of the pump at its flow", Metres, &PUMP, |s, _| Ok(point(s)?.head.into()))
        .shown_in(TradeUnits::SITE)
        .by("pump-point", "H = h₀ + h₁ Q + h₂ Q² through the label's points at {Q}", &[("Q", "plumbing.pump_flow")]),
    Figure::new("plumbing.pump_share", "pump's flow over the design flow", Percent, &PUMP, |s, _| {
        Ok(Quantity::percent(point(s)?.flow.si() / flow_of(s)?.si()).into())
    })
    .by("pump-point", "{got} / {Q}", &[("got", "plumbing.pump_flow"), DESIGN]),
    Figure::new("plumbing.pump_hydraulic", "power that reaches the liquid", Power, &PUMP, |s, _| {
        Ok(point(s)?.hydraulic_power.into())
    })
    .shown_in(TradeUnits::ELECTRIC_POWER)
    .by("pump-point", "ρ g {H} {Q}", &[("H", "plumbing.pump_head"), ("Q", "plumbing.pump_flow")]),
    Figure::new("plumbing.pump_efficiency", "pump power that reaches the liquid", Percent, &PUMP, |s, _| {
        let electrical = s.inputs.get(&y::PUMP_POWER)?.si();
        Ok(Quantity::percent(point(s)?.hydraulic_power.si() / electrical).into())
    })
    .by(
        "pump-point",
        "{P} / {label}; 5 to 20 % is usual for small circulators (from memory)",
        &[("P", "plumbing.pump_hydraulic"), ("label", "plumbing.pump_power")],
    ),
    Figure::new("plumbing.drain_lift", "height that the pump lifts to", Metres, &DRAINBACK, |s, _| {
        Ok(drain(s)?.lift.into())
    })
    .shown_in(TradeUnits::SITE)
    .by("drainback", "top of the loop over the reservoir's lower port", &[]),
    Figure::new("plumbing.fill_head", "head to fill the loop", Metres, &DRAINBACK, |s, _| {
        Ok(drain(s)?.state.fill_head.into())
    })
    .shown_in(TradeUnits::SITE)
    .by("drainback", "{z} + Δp of the up leg and panels/(ρ g) at {Q}", &[("z", "plumbing.drain_lift"), DESIGN]),
    Figure::word("plumbing.return_state", "what the return pipe does", &DRAINBACK, |s, _| {
        Ok(Value::Text(return_words(drain(s)?.state.return_state).to_owned()))
    })
    .by("drainback", "siphon from 0.3 m/s and Fr = v/√(g D) ≥ 0.6, self-venting below Fr 0.31", &[]),
    Figure::new("plumbing.return_froude", "Froude number in the return", Number, &DRAINBACK, |s, _| {
        Ok(Quantity::number(drain(s)?.state.froude).into())
    })
    .by("drainback", "v/√(g D) of the slowest run", &[]),
    Figure::new("plumbing.siphon_boils", "water boils at the top of the siphon", Temperature, &DRAINBACK, |s, _| {
        let top = drain(s)?.state.top_boiling.ok_or_else(|| Why::out_of_range("no liquid can stand that high"))?;
        Ok(top.temperature.into())
    })
    .by("drainback", "saturation at p_atm − ρ g {z} + Δp of the return", &[("z", "plumbing.drain_lift")]),
    Figure::new("plumbing.reservoir_needed", "reservoir that the loop needs", Volume, &DRAINBACK, |s, _| {
        Ok(drain(s)?.needs.into())
    })
    .by(
        "drainback",
        "({panels} + pipe above its lower port) × 1.1 + 5 L over the pump's suction",
        &[("panels", "plumbing.panels_content")],
    ),
    Figure::new("plumbing.suction_head", "suction head at the pump, hot", Metres, &SUCTION, |s, _| {
        Ok(s.plumbing.working.suction.clone()?.into())
    })
    .shown_in(TradeUnits::SITE)
    .by(
        "suction-head",
        "(p − Δp − p_vap({T}))/(ρ g) + height over the pump, p where the loop's pressure is held",
        &[("T", "plumbing.tank_limit")],
    ),
    Figure::new("plumbing.natural_flow", "flow by its own weight", MassFlow, &NATURAL_FLOW, |s, _| {
        Ok(natural(s)?.flow.into())
    })
    .by("thermosiphon", "weight of the cold column less the warm one = friction, at the working point", &[]),
    Figure::new("plumbing.natural_outlet", "panels' outlet then", Temperature, &NATURAL_FLOW, |s, _| {
        Ok(natural(s)?.outlet.into())
    })
    .by("thermosiphon", "inlet + heat/(ṁ c_p), ṁ {flow}", &[("flow", "plumbing.natural_flow")]),
];

fn group_balance(s: &Solution) -> Fig<Judgement> {
    let found = panels(s)?.division.least_over_mean;
    Ok(Judgement::caution_unless(found >= EVEN)
        .with(Quantity::percent(found), Quantity::percent(EVEN))
        .margin(Quantity::percent(found - EVEN)))
}

pub(super) fn is_pumped(s: &Solution) -> Fig<bool> {
    Ok(s.inputs.get(&e::LOOP)? != LoopType::Thermosiphon)
}

fn fills(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::LOOP)? != LoopType::Drainback {
        return Ok(Judgement::does_not_apply("this loop stays full"));
    }
    let fill = drain(s)?.state.fill_head;
    let has = pump(s)?.curve.head(flow_of(s)? * 0.5);
    Ok(Judgement::stop_unless(can_fill(has, fill)).with(has, fill).margin(has - fill - Length::from_si(1.0)))
}

fn siphon(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::LOOP)? != LoopType::Drainback {
        return Ok(Judgement::does_not_apply("this loop stays full"));
    }
    let state = drain(s)?.state;
    let Some(top) = state.top_boiling else {
        return Ok(Judgement::of(Verdict::Caution).part("no liquid can stand that high"));
    };
    let limit = TemperatureInterval::from_si(SIPHON_MARGIN);
    let holds = state.return_state != Return::Siphon || top.margin >= limit;
    Ok(Judgement::caution_unless(holds)
        .with(top.margin, limit)
        .margin(top.margin - limit)
        .part(return_words(state.return_state)))
}

fn reservoir(s: &Solution) -> Fig<Judgement> {
    if s.inputs.get(&e::LOOP)? != LoopType::Drainback {
        return Ok(Judgement::does_not_apply("this loop stays full"));
    }
    let drain = drain(s)?;
    let has = drain.has.ok_or_else(|| Why::missing("plumbing.part.*.volume"))?;
    Ok(Judgement::stop_unless(has >= drain.needs).with(has, drain.needs).margin(has - drain.needs))
}

fn suction(s: &Solution) -> Fig<Judgement> {
    if !is_pumped(s)? {
        return Ok(Judgement::does_not_apply("this loop has no pump"));
    }
    let has = s.plumbing.working.suction.clone()?;
    let wants = s.inputs.get(&service::PUMP_SUCTION)? + Length::from_si(SUCTION_RESERVE);
    Ok(Judgement::stop_unless(has >= wants).with(has, wants).margin(has - wants))
}

fn natural_flow(s: &Solution) -> Fig<Judgement> {
    if is_pumped(s)? {
        return Ok(Judgement::does_not_apply("this loop is pumped"));
    }
    let area = known(&s.absorber.collector)?.absorber_area().si() * super::panel_count(&s.inputs)? as f64;
    let least = crate::units::si::MassRate::from_si(NATURAL * area);
    let found = natural(s)?.flow;
    Ok(Judgement::caution_unless(found >= least).with(found, least).margin(found - least))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("plumbing.group-balance", "even flow over the panels", Severity::Nuisance, group_balance)
        .says(
            "The least group gets {found} of the mean flow; {limit} is even enough. The starved panel runs hotter.",
            "Return at the far end of the row, wider headers, or a balancing valve at each group.",
        )
        .blind_to("kinked hoses, air, valves; a reverse return still starves the middle a little")
        .source("network of two headers; 90 %: project rule")
        .needs(&["plumbing.group_evenness"]),
    Check::new("plumbing.drainback-fill", "pump that fills the loop", Severity::Injury, fills)
        .says(
            "At half the design flow the pump has {found} of head; filling takes {limit}, and 1 m more is wanted.",
            "A pump with more head, or a reservoir that stands higher.",
        )
        .blind_to("air drawn in at the suction; a cold thick start")
        .source("filling: hydrostatics; 1 m at half the flow: project rule")
        .needs(&["plumbing.fill_head", "plumbing.pump_flow", "plumbing.loop"]),
    Check::new("plumbing.siphon", "siphon in the return", Severity::Nuisance, siphon)
        .says(
            "{part}. At the top the water is only {found} from boiling; a siphon wants {limit}.",
            "Choose the pump for the full lift, or set the reservoir higher.",
        )
        .blind_to("air that the flow does not carry; sags of the return")
        .source("5 K: project rule")
        .recalls("0.3 m/s, Fr 0.6 and 0.31")
        .needs(&["plumbing.siphon_boils", "plumbing.return_state", "plumbing.loop"]),
    Check::new("plumbing.reservoir-size", "reservoir of the drainback", Severity::Injury, reservoir)
        .says(
            "The reservoir holds {found}; {limit} is needed for the water of panels and pipe and to cover the suction.",
            "A larger reservoir, or less pipe above it.",
        )
        .blind_to("the room for air, and the level at which it was filled")
        .source("content of panels and pipe; 10 % and 5 L: project rules")
        .needs(&["plumbing.reservoir_needed", "plumbing.part.*.volume", "plumbing.loop"]),
    Check::new("plumbing.suction", "suction of the pump", Severity::Injury, suction)
        .says(
            "At the pump {found} of suction head is left when hot; it wants {limit}, its own need and 0.5 m. Below that it \
             cavitates and stops pumping.",
            "Set the pump lower on the cold leg, shorten its suction, or raise the pressure.",
        )
        .blind_to("a clogged filter before the pump; gas in the water")
        .source("net positive suction head; 0.5 m: project rule")
        .needs(&["plumbing.suction_head", "plumbing.pump_suction", "plumbing.loop"]),
    Check::new("plumbing.natural-flow", "flow of the thermosiphon", Severity::Nuisance, natural_flow)
        .says(
            "By its own weight the loop moves {found}; from {limit} on panels do not overheat their outlet.",
            "Wider or shorter pipe, fewer elbows, or the tank set higher.",
        )
        .blind_to("a high point that holds air; the tank's layers")
        .source("low flow against high flow")
        .recalls("low flow of published systems")
        .needs(&["plumbing.natural_flow", "plumbing.loop"]),
];
