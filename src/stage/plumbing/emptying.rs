//! A loop that drains back: filling it, the siphon in its return, the reservoir, the pump's suction.

use super::closed;
use super::entries::part::{self, PartKind};
use super::entries::{self as e};
use super::heights::Profile;
use super::hydraulics::PanelCost;
use super::network::Network;
use super::pipework::{Line, given_at};
use crate::model::{Fig, Inputs, Why};
use crate::physics::drainback::{Drainback, DrainbackState, Reservoir};
use crate::physics::pipe::Run;
use crate::units::si::{Dimension, Length, Pressure, Volume, VolumeRate};

/// Reserve over the water that comes back (project rule).
const RESERVE: f64 = 0.1;
/// Water that stays over the suction of the pump, m³ (project rule).
const COVER: f64 = 5e-3;

/// A drainback loop in numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct Emptying {
    /// Filling, siphon, top.
    pub state: DrainbackState,
    /// From the reservoir's lower port to the top.
    pub lift: Length,
    /// Reservoir that it needs.
    pub needs: Volume,
    /// Reservoir that it has, if it is entered.
    pub has: Option<Volume>,
}

/// Where the reservoir stands among the runs: the run that ends there.
fn reservoir_run(network: &Network) -> Fig<usize> {
    let is_reservoir = |kind| matches!(kind, Some(PartKind::Reservoir | PartKind::SealedReservoir));
    network
        .circuit
        .iter()
        .position(|stretch| is_reservoir(network.kind(&stretch.to)))
        .ok_or_else(|| Why::out_of_range("no reservoir is the end of a run"))
}

/// Works a drainback loop out.
pub fn emptying(
    inputs: &Inputs,
    network: &Network,
    profile: &Profile,
    lines: &[Line],
    panels: &PanelCost,
    flow: VolumeRate,
    panel_contents: Volume,
) -> Fig<Emptying> {
    let at = reservoir_run(network)?;
    let name = &network.circuit[at].to;
    let level = profile.height_of(network, name).unwrap_or_default();
    let lift = profile.top() - level;
    let runs = |lines: &[Line]| lines.iter().map(|line| line.run.clone()).collect::<Vec<Run>>();
    let loop_now = Drainback {
        top_above_level: lift,
        lift,
        up: runs(&lines[at + 1..]),
        down: runs(&lines[..=at]),
        panels: panels.division.pressure_drop,
        flow,
        water: inputs.get(&e::TANK_LIMIT)?,
        atmosphere: closed::air(inputs)?,
    };
    let state = loop_now.state().map_err(Why::out_of_range)?;
    let drained = |line: &Line| {
        let index = network.circuit.iter().position(|stretch| stretch.run == line.name)?;
        let (from, to) = profile.ends(index);
        (from.max(to) > level).then(|| line.content())
    };
    let pipe_above = lines.iter().filter_map(drained).fold(Volume::default(), |sum, next| sum + next);
    let reservoir =
        Reservoir { panels: panel_contents, pipe_above, margin: RESERVE, pump_cover: Volume::from_si(COVER) };
    let needs = reservoir.least_volume().map_err(Why::out_of_range)?;
    Ok(Emptying { state, lift, needs, has: given_at(inputs, &part::VOLUME, name)? })
}

/// Where the pressure of a loop is held, and the way from there to the pump.
pub struct Holding {
    /// Absolute pressure there.
    pub pressure: Pressure,
    /// Its height over the pump.
    pub over_pump: Length,
    /// The runs between it and the pump.
    pub way: Vec<Run>,
}

/// Finds it: reservoir, tank or vessel.
pub fn holding(
    inputs: &Inputs,
    network: &Network,
    profile: &Profile,
    lines: &[Line],
    fill: Option<Pressure>,
    mains: Option<Pressure>,
) -> Fig<Holding> {
    let air = closed::air(inputs)?;
    let pump = network.part_of(PartKind::Pump).ok_or_else(|| Why::out_of_range("no pump stands in the loop"))?;
    let of = |kind| network.part_of(kind);
    let (place, gauge) = match (of(PartKind::Vessel), of(PartKind::Tank)) {
        (Some(vessel), _) => (vessel, fill.ok_or_else(|| Why::missing("plumbing.part.*.setting"))?),
        (None, Some(tank)) => (tank, mains.ok_or_else(|| Why::missing("plumbing.mains_pressure"))?),
        (None, None) => (network.circuit[reservoir_run(network)?].to.as_str(), Pressure::default()),
    };
    let place_height = profile.height_of(network, place).unwrap_or_default();
    let pump_height = profile.height_of(network, pump).unwrap_or_default();
    // The place itself, or the joint that its branch leaves from.
    let joint = network
        .branches
        .iter()
        .find(|branch| branch.to == place || branch.from == place)
        .map_or(place, |branch| if branch.to == place { &branch.from } else { &branch.to });
    let has_pump = |index: &usize| {
        let stretch = &network.circuit[*index];
        stretch.to == pump || stretch.along.iter().any(|name| name == pump)
    };
    let count = network.circuit.len();
    let start = network
        .circuit
        .iter()
        .position(|stretch| stretch.from == joint || stretch.along.iter().any(|part| part == joint));
    let mut way = Vec::new();
    for step in 0..count {
        let index = (start.unwrap_or(0) + step) % count;
        way.extend(lines.get(index).map(|line| line.run.clone()));
        if has_pump(&index) {
            break;
        }
    }
    Ok(Holding { pressure: air + gauge, over_pump: place_height - pump_height, way })
}
