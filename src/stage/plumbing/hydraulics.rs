//! What a flow costs around the loop: panels, runs, coil and parts, and where the pump meets it.
//!
//! Lives here: the sum around the loop and the pump's point. Must not live here: heights, drainback, steam.

use super::circuit::{Row, working_temperature};
use super::entries::part::{self, PartKind};
use super::entries::service::{self, ReturnWay};
use super::network::Network;
use super::pipework::{self, Line, given_at};
use crate::model::{Fig, Inputs, Why};
use crate::physics::fluid::{Fluid, Properties};
use crate::physics::hydrostatics::STANDARD_GRAVITY;
use crate::physics::panel_row::{self, Division, ReturnMode};
use crate::physics::pipe::{DRAWN_TUBE_ROUGHNESS, HazenWilliams, Run, RunDrop};
use crate::physics::pump::{Circuit, CurvePoint, Duty, PumpCurve, operating_point};
use crate::stage::absorber;
use crate::units::si::{Dimension, Length, MassRate, Pressure, VolumeRate};

/// C of copper in engineering pages.
const HAZEN_WILLIAMS_COPPER: f64 = 150.0;

/// What the flow costs in one run.
#[derive(Clone, Debug, PartialEq)]
pub struct RunCost {
    /// The run.
    pub line: Line,
    /// Speed, regime and drop at the design flow.
    pub drop: RunDrop,
    /// The drop of its straight pipe by the handbook's rule of thumb.
    pub rule_of_thumb: Pressure,
}

/// The pipe of the loop at the design flow.
#[derive(Clone, Debug, PartialEq)]
pub struct PipeCost {
    /// Run by run in the order of flow.
    pub runs: Vec<RunCost>,
}

/// The panels at the design flow.
#[derive(Clone, Debug, PartialEq)]
pub struct PanelCost {
    /// Panels of each group, one after another.
    pub in_series: usize,
    /// How the flow divides over the groups.
    pub division: Division,
    /// Resistance of the whole row: a in Pa/(m³/s).
    pub linear: f64,
    /// b in Pa/(m³/s)².
    pub quadratic: f64,
}

/// All that a pump has to overcome.
#[derive(Clone, Debug, PartialEq)]
pub struct LoopCost {
    /// As the pump's laws want it; lift is what check valves take.
    pub circuit: Circuit,
    /// Drop of the coil at the design flow.
    pub coil: Pressure,
    /// Drop of the parts with a test point, and of check valves, at the design flow.
    pub parts: Pressure,
    /// Drop of the whole loop at the design flow.
    pub total: Pressure,
    /// Parts whose drop nobody entered.
    pub uncounted: Vec<String>,
    /// What costs most, in words.
    pub dominates: String,
}

/// The pump in the loop.
#[derive(Clone, Debug, PartialEq)]
pub struct PumpDuty {
    /// Its curve.
    pub curve: PumpCurve,
    /// The greatest flow of its label: beyond it the curve is only drawn on.
    pub label_end: VolumeRate,
    /// Where it runs.
    pub duty: Duty,
}

impl PipeCost {
    /// Drop of all runs.
    pub fn total(&self) -> Pressure {
        self.runs.iter().fold(Pressure::default(), |sum, run| sum + run.drop.total())
    }

    /// The run with the fastest flow.
    pub fn fastest(&self) -> Fig<&RunCost> {
        let speed = |run: &&RunCost| run.drop.velocity.si();
        self.runs
            .iter()
            .max_by(|a, b| speed(a).total_cmp(&speed(b)))
            .ok_or_else(|| Why::missing("plumbing.pipe_length"))
    }

    /// The run with the slowest flow.
    pub fn slowest(&self) -> Fig<&RunCost> {
        let speed = |run: &&RunCost| run.drop.velocity.si();
        self.runs
            .iter()
            .min_by(|a, b| speed(a).total_cmp(&speed(b)))
            .ok_or_else(|| Why::missing("plumbing.pipe_length"))
    }
}

/// The liquid at which friction is shown.
pub fn working_liquid(fluid: Fluid) -> Properties {
    fluid.properties_at(working_temperature().si())
}

/// Friction of every run at the design flow.
pub fn pipe(lines: &Fig<Vec<Line>>, fluid: Fluid, flow: VolumeRate) -> Fig<PipeCost> {
    let liquid = working_liquid(fluid);
    let cost = |line: &Line| {
        let drop = line.run.pressure_drop(&liquid, flow).map_err(Why::out_of_range)?;
        let rule = HazenWilliams { bore: line.run.bore, constant: HAZEN_WILLIAMS_COPPER };
        let gradient = rule.gradient(flow).map_err(Why::out_of_range)?;
        let rule_of_thumb = Pressure::from_si(gradient * line.run.length.si());
        Ok(RunCost { line: line.clone(), drop, rule_of_thumb })
    };
    Ok(PipeCost { runs: lines.as_ref().map_err(Clone::clone)?.iter().map(cost).collect::<Fig<_>>()? })
}

/// How the flow divides over the panels, and what they cost.
///
/// One harp's resistance is fitted as a q + b q² to its own network without sun at the design flow and half of it. A
/// piece of header, one header long, lies between two groups.
pub fn panels(inputs: &Inputs, fluid: Fluid, row: &Row, absorber: &absorber::Results) -> Fig<PanelCost> {
    let in_series = inputs.get(&service::IN_SERIES)?;
    if in_series == 0 || !row.count.is_multiple_of(in_series) {
        let message = format!("{} panels cannot be parted into groups of {in_series}", row.count);
        return Err(Why::out_of_range(message));
    }
    let groups = row.count / in_series;
    let liquid = working_liquid(fluid);
    let each = row.flow.si() / groups as f64;
    let harp_drop = |flow: f64| {
        let collector = absorber.collector.as_ref().map_err(Clone::clone)?;
        let mass_flow = MassRate::from_si(flow * liquid.density);
        let balance = collector.flushing_flows(fluid, working_temperature(), mass_flow).map_err(Why::out_of_range)?;
        Ok(balance.pressure_drop)
    };
    let (linear, quadratic) = resistance(each, harp_drop(each)?, harp_drop(each / 2.0)?);
    let harp = absorber.harp.as_ref().map_err(Clone::clone)?;
    let header = Run {
        bore: harp.header.bore(),
        length: harp.header_length,
        roughness: Length::from_si(DRAWN_TUBE_ROUGHNESS),
        fittings: Vec::new(),
        plain_loss: 0.0,
    };
    let half = row.flow / 2.0;
    let segment = header.pressure_drop(&liquid, half).map_err(Why::out_of_range)?.total().si();
    let series = in_series as f64;
    let shape = panel_row::Row {
        panels: groups,
        panel_linear: series * linear,
        panel_quadratic: series * quadratic,
        segment_quadratic: segment / half.si().powi(2),
        return_mode: match inputs.get(&service::RETURN_WAY)? {
            ReturnWay::Direct => ReturnMode::Direct,
            ReturnWay::Reverse => ReturnMode::Reverse,
        },
    };
    let division = shape.divide(row.flow).map_err(Why::out_of_range)?;
    let at_half = shape.divide(half).map_err(Why::out_of_range)?;
    let (linear, quadratic) = resistance(row.flow.si(), division.pressure_drop.si(), at_half.pressure_drop.si());
    Ok(PanelCost { in_series, division, linear, quadratic })
}

/// a and b of a q + b q² through the drops at a flow and at half of it; neither is below zero.
fn resistance(flow: f64, drop: f64, drop_at_half: f64) -> (f64, f64) {
    let quadratic = (2.0 * (drop - 2.0 * drop_at_half) / (flow * flow)).clamp(0.0, drop / (flow * flow));
    ((drop - quadratic * flow * flow) / flow, quadratic)
}

/// Everything around the loop.
pub fn whole_loop(
    inputs: &Inputs,
    fluid: Fluid,
    flow: VolumeRate,
    network: &Fig<Network>,
    pipe: &PipeCost,
    panels: &PanelCost,
) -> Fig<LoopCost> {
    let liquid = working_liquid(fluid);
    let weight = liquid.density * STANDARD_GRAVITY;
    let mut runs: Vec<Run> = pipe.runs.iter().map(|run| run.line.run.clone()).collect();
    let mut coil = Pressure::default();
    if let Some(run) = pipework::coil(inputs, network)? {
        coil = run.pressure_drop(&liquid, flow).map_err(Why::out_of_range)?.total();
        runs.push(run);
    }
    let (mut uncounted, mut quadratic, mut opening) = (Vec::new(), 0.0, 0.0);
    let parts = network.as_ref().map(|network| &network.parts).into_iter().flatten();
    for (name, kind) in parts {
        match kind {
            PartKind::Exchanger | PartKind::Filter | PartKind::FlowMeter => {
                let test = given_at(inputs, &part::TEST_FLOW, name)?.zip(given_at(inputs, &part::TEST_DROP, name)?);
                match test {
                    Some((at, drop)) => quadratic += drop.si() / at.si().powi(2),
                    None => uncounted.push(name.clone()),
                }
            }
            PartKind::CheckValve => opening += given_at(inputs, &part::SETTING, name)?.unwrap_or_default().si(),
            _ => {}
        }
    }
    let parts = Pressure::from_si(quadratic * flow.si().powi(2) + opening);
    let circuit = Circuit {
        runs,
        linear_resistance: panels.linear,
        quadratic_resistance: panels.quadratic + quadratic,
        lift: Length::from_si(opening / weight),
    };
    let total = pipe.total() + coil + panels.division.pressure_drop + parts;
    let mut costs: Vec<(String, f64)> =
        pipe.runs.iter().map(|run| (format!("run {}", run.line.name), run.drop.total().si())).collect();
    costs.push(("panels".to_owned(), panels.division.pressure_drop.si()));
    costs.push(("coil".to_owned(), coil.si()));
    costs.push(("parts and check valves".to_owned(), parts.si()));
    let most = costs.into_iter().max_by(|a, b| a.1.total_cmp(&b.1));
    let dominates = most.map_or_else(String::new, |(name, drop)| format!("{name}, {:.0} %", 100.0 * drop / total.si()));
    Ok(LoopCost { circuit, coil, parts, total, uncounted, dominates })
}

/// The pump's curve from the points of its label.
fn curve(inputs: &Inputs) -> Fig<PumpCurve> {
    let rows = inputs.rows("plumbing.pump_point");
    if rows.is_empty() {
        return Err(Why::missing(service::PUMP_FLOW.spec.id));
    }
    let point = |row: &String| {
        Ok(CurvePoint { flow: inputs.at(&service::PUMP_FLOW, row)?, head: inputs.at(&service::PUMP_HEAD, row)? })
    };
    let points = rows.iter().map(point).collect::<Fig<Vec<_>>>()?;
    PumpCurve::through(&points).map_err(Why::out_of_range)
}

/// The greatest flow among the points of its label.
fn label_end(inputs: &Inputs) -> Fig<VolumeRate> {
    let flows = inputs.rows("plumbing.pump_point").into_iter().map(|row| inputs.at(&service::PUMP_FLOW, &row));
    let flows = flows.collect::<Fig<Vec<VolumeRate>>>()?;
    flows.into_iter().reduce(VolumeRate::max).ok_or_else(|| Why::missing(service::PUMP_FLOW.spec.id))
}

/// Where the pump runs, with a standing lift if the return does not fill.
pub fn duty(inputs: &Inputs, cost: &LoopCost, fluid: Fluid, lift: Length) -> Fig<PumpDuty> {
    let curve = curve(inputs)?;
    let mut circuit = cost.circuit.clone();
    circuit.lift += lift;
    let duty = operating_point(&curve, &circuit, &working_liquid(fluid)).map_err(Why::out_of_range)?;
    Ok(PumpDuty { curve, label_end: label_end(inputs)?, duty })
}
