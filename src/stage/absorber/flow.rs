//! How the flow divides among the risers, and what an uneven share costs.
//!
//! The network is solved in `physics::harp_network`; its momentum factors are not verified, so shares are good to
//! perhaps a factor of 1.5. What the loop outside does lives in plumbing.

use super::{HEAT, Heat};
use crate::model::{Fig, Judgement, Value, Verdict, Why};
use crate::physics::collector::{Collector, Connection, HarpFlows, Regime};
use crate::stage::{Axis, Check, Figure, Group, Severity, Solution};
use crate::units::Kind::{Number, Percent, Pressure, TemperatureDifference};
use crate::units::Quantity;
use crate::units::si::{Dimension, TemperatureInterval, celsius};

/// The flow among the risers.
#[derive(Clone, Debug)]
pub struct Flow {
    /// With sun, as connected.
    pub working: HarpFlows,
}

/// The flow among the risers.
pub static FLOW: Group = Group { name: "flow among the risers", entries: &[], groups: &[&HEAT] };

/// Water at which the harp is flushed, °C.
const FLUSHING: f64 = 15.0;

/// Divides the flow.
pub fn flow(collector: &Collector, heat: &Heat) -> Fig<Flow> {
    let working = divided(collector, heat, collector.harp.connection)?;
    Ok(Flow { working })
}

/// Without sun, as when it is flushed and filled: largest over smallest share. Solved only where somebody asks, since
/// no check goes by it.
fn flushing_ratio(s: &Solution) -> Fig<f64> {
    of(s)?;
    let collector = s.absorber.collector.as_ref().map_err(Clone::clone)?;
    let heat = s.absorber.heat.as_ref().map_err(Clone::clone)?;
    let flushing = collector.flushing_flows(heat.fluid, celsius(FLUSHING), heat.point.conditions.mass_flow);
    Ok(flushing.map_err(Why::out_of_range)?.ratio())
}

fn divided(collector: &Collector, heat: &Heat, connection: Connection) -> Fig<HarpFlows> {
    collector.harp_flows(&heat.point, connection, Regime::Buoyant).map_err(Why::out_of_range)
}

/// With sun, connected the other way: solved only where somebody asks.
fn other(s: &Solution) -> Fig<HarpFlows> {
    of(s)?;
    let collector = s.absorber.collector.as_ref().map_err(Clone::clone)?;
    let connection = match collector.harp.connection {
        Connection::Diagonal => Connection::SameSide,
        Connection::SameSide => Connection::Diagonal,
    };
    divided(collector, s.absorber.heat.as_ref().map_err(Clone::clone)?, connection)
}

fn of(s: &Solution) -> Fig<&Flow> {
    s.absorber.flow.as_ref().map_err(Clone::clone)
}

const DIVIDED: &str = "friction, momentum at each junction and buoyancy in each riser, solved together";

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.riser_share", "flow of the riser against the mean", Percent, &FLOW, |s, key| {
        let riser: usize = key.parse().map_err(|_| Why::missing("absorber.riser_count"))?;
        let share = riser.checked_sub(1).and_then(|index| of(s).ok()?.working.relative_flows.get(index).copied());
        of(s)?;
        share
            .map(|share| Value::from(Quantity::percent(share)))
            .ok_or_else(|| Why::out_of_range(format_args!("there is no riser {key}")))
    })
    .axis(Axis::Riser)
    .by("harp-network", DIVIDED, &[]),
    Figure::new("absorber.flow_ratio", "largest over smallest riser flow", Number, &FLOW, |s, _| {
        Ok(Quantity::number(of(s)?.working.ratio).into())
    })
    .by("harp-network", DIVIDED, &[]),
    Figure::new("absorber.flow_penalty", "heat lost to uneven flow", Percent, &FLOW, |s, _| {
        Ok(Quantity::percent(of(s)?.working.heat_removal_penalty).into())
    })
    .by("harp-network", "1 − mean of each riser's own F_R / {F_R}", &[("F_R", "absorber.heat_removal_factor")]),
    Figure::new("absorber.flow_penalty_other", "the same, connected the other way", Percent, &FLOW, |s, _| {
        Ok(Quantity::percent(other(s)?.heat_removal_penalty).into())
    })
    .by("harp-network", "as above with both ends on one side instead of across", &[]),
    Figure::new(
        "absorber.hottest_excess",
        "hottest riser above the mean outlet",
        TemperatureDifference,
        &FLOW,
        |s, _| Ok(of(s)?.working.hottest_excess.into()),
    )
    .by("harp-network", "the starved riser's outlet less the mixed outlet", &[]),
    Figure::new("absorber.harp_pressure_drop", "pressure drop of one harp", Pressure, &FLOW, |s, _| {
        Ok(of(s)?.working.pressure_drop.into())
    })
    .by("harp-network", "inlet to outlet, the standing column left out", &[]),
    Figure::new("absorber.flushing_ratio", "largest over smallest, flushing", Number, &FLOW, |s, _| {
        Ok(Quantity::number(flushing_ratio(s)?).into())
    })
    .by("harp-network", "the same network without sun, at 15 °C", &[]),
];

/// Penalty and excess that are clear, and that are at most a caution (project's own rule).
const CLEAR: (f64, f64) = (0.005, 3.0);
const CAUTION: (f64, f64) = (0.01, 5.0);

fn header_size(s: &Solution) -> Fig<Judgement> {
    let flow = &of(s)?.working;
    let within = |(penalty, excess): (f64, f64)| {
        flow.heat_removal_penalty <= penalty && flow.hottest_excess.si() <= excess && !flow.reversed
    };
    let verdict = match () {
        () if within(CLEAR) => Verdict::Clear,
        () if within(CAUTION) => Verdict::Caution,
        () => Verdict::Stop,
    };
    let limit = TemperatureInterval::from_si(CLEAR.1);
    Ok(Judgement::of(verdict).with(flow.hottest_excess, limit).margin(limit - flow.hottest_excess))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[Check::new(
    "absorber.header-size",
    "headers against risers",
    Severity::Nuisance,
    header_size,
)
.says(
    "Uneven flow costs {absorber.flow_penalty} of the heat and the hottest riser leaves {found} above the mean; up to \
     0.5 % and {limit} is clear, up to 1 % and twice that a caution.",
    "A wider header, fewer risers on one header, or thinner risers.",
)
.blind_to("a plugged riser, a tee that narrows the header; the momentum factors are theory, not measured")
.source("limits: this project's own rule; network after Dunkle & Davey 1970, Bajura & Jones 1976")
.needs(&["absorber.flow_penalty", "absorber.hottest_excess"])];
