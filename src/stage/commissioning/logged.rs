//! The logger file of a project, put together with its panels, place and liquid.

use std::sync::Arc;

use super::expected;
use super::log::{self, Facing, Judged, Place, Sight};
use super::log_entries as e;
use super::performance::{self, Compared, Doubts, EfficiencyPoint, Fitted, Plant, PowerCheck};
use crate::logger::Log;
use crate::model::{Fig, Inputs, Why};
use crate::physics::collector_curve::CollectorCurve;
use crate::stage::{Group, World, absorber, plumbing, site};
use crate::units::si::{Dimension, Energy, HeatCapacity, Temperature, Time};

/// What the log of a project says.
#[derive(Clone, Debug)]
pub struct Logged {
    /// The file's digest.
    pub log: Fig<Arc<Log>>,
    /// Its days.
    pub days: Fig<Vec<Judged>>,
    /// What the computed panel would have brought in on each of them.
    pub expected: Fig<Vec<Energy>>,
    /// By how much its clock is ahead of the sun.
    pub clock: Fig<Time>,
    /// The efficiency points.
    pub points: Fig<Vec<EfficiencyPoint>>,
    /// The line through them.
    pub fitted: Fig<Fitted>,
    /// The line beside the computed one.
    pub compared: Fig<Compared>,
    /// The power check.
    pub power: Fig<PowerCheck>,
    /// Worst stagnation by what was measured; never below the computed one.
    pub stagnation: Fig<Temperature>,
}

/// The file and its columns.
pub static FILE: Group = Group {
    name: "logger file",
    entries: &[
        "commissioning.log_file",
        "commissioning.log_time",
        "commissioning.log_panel",
        "commissioning.log_inlet",
        "commissioning.log_outlet",
        "commissioning.log_tank_low",
        "commissioning.log_tank_high",
        "commissioning.log_air",
        "commissioning.log_sun",
        "commissioning.log_flow",
        "commissioning.log_pump",
        "commissioning.log_pressure",
        "commissioning.log_wind",
    ],
    groups: &[],
};

/// The days that count.
pub static DAYS: Group = Group {
    name: "days of the log",
    entries: &["commissioning.log_clock", "site.latitude", "site.longitude"],
    groups: &[&FILE, &plumbing::LIQUID],
};

/// The heat of the days over the panels' area.
pub static HEAT_PER_AREA: Group =
    Group { name: "heat of the log over the area", entries: &[], groups: &[&DAYS, &absorber::COLLECTOR] };

/// The pump's electricity.
pub static PUMP: Group = Group { name: "pump of the log", entries: &["commissioning.pump_power"], groups: &[&DAYS] };

/// The clock against the sun.
pub static CLOCK: Group = Group {
    name: "clock of the log",
    entries: &["site.altitude", "site.tilt"],
    groups: &[&DAYS, &site::sun::FACING, &site::sun::SKYLINE],
};

/// How far the clock may have drifted by itself.
pub static DRIFT: Group =
    Group { name: "drift of the clock", entries: &["commissioning.log_crystal"], groups: &[&FILE] };

/// Efficiency points.
pub static POINTS: Group =
    Group { name: "efficiency points", entries: &[], groups: &[&DAYS, &site::sun::FACING, &absorber::HEAT] };

/// What the computed panel would have brought in.
pub static EXPECTED: Group =
    Group { name: "expected heat of the log", entries: &[], groups: &[&DAYS, &site::sun::FACING, &absorber::HEAT] };

/// The line through the points.
pub static FIT: Group = Group {
    name: "line through the points",
    entries: &["commissioning.sun_doubt", "commissioning.flow_doubt", "commissioning.pair_doubt"],
    groups: &[&POINTS],
};

/// The power check.
pub static POWER: Group = Group {
    name: "power check",
    entries: &["commissioning.power_factor"],
    groups: &[&DAYS, &site::sun::FACING, &absorber::HEAT],
};

/// Stagnation by what was measured.
pub static STAGNATION: Group =
    Group { name: "stagnation by the log", entries: &[], groups: &[&FIT, &absorber::STAGNATION] };

/// Puts the log together with the project.
pub fn solve(inputs: &Inputs, world: &World, absorber: &absorber::Results) -> Logged {
    let log = world.log.clone();
    let place = log.as_ref().map_err(Why::clone).and_then(|log| Place::of(inputs, log));
    let days = days(inputs, &log, &place);
    let clock = clock(inputs, &log, &place);
    let plant = place.and_then(|place| plant(inputs, absorber, place));
    let both = || Ok((log.clone()?, plant.clone()?));
    let points = both().and_then(|(log, plant)| performance::points(&log, &plant));
    let fitted = points.as_ref().map_err(Why::clone).and_then(|points| performance::fit(points, doubts(inputs)?));
    let curve = curve(absorber);
    let expected = both().and_then(|(log, plant)| expected::days(&log, &plant, &curve.clone()?));
    let compared = fitted.clone().and_then(|fitted| performance::compare(&fitted, &curve.clone()?));
    let power = both()
        .and_then(|(log, plant)| performance::power(&log, &plant, &curve.clone()?, inputs.get(&e::POWER_FACTOR)?));
    let stagnation = compared.clone().and_then(|compared| stagnation(absorber, &compared));
    Logged { log, days, expected, clock, points, fitted, compared, power, stagnation }
}

fn days(inputs: &Inputs, log: &Fig<Arc<Log>>, place: &Fig<Place>) -> Fig<Vec<Judged>> {
    Ok(log::days(&*log.clone()?, place.clone()?, plumbing::fluid(inputs)?))
}

fn facing(inputs: &Inputs) -> Fig<Facing> {
    Ok(Facing { tilt: inputs.get(&site::entries::TILT)?, azimuth: site::sun::azimuth(inputs)? })
}

fn clock(inputs: &Inputs, log: &Fig<Arc<Log>>, place: &Fig<Place>) -> Fig<Time> {
    let horizon = site::sun::skyline(inputs)?;
    let sight = Sight {
        place: place.clone()?,
        facing: facing(inputs)?,
        altitude: inputs.get(&site::entries::ALTITUDE)?,
        horizon: &horizon,
    };
    let none = || Why::out_of_range("the log has no whole clear day to hold its clock against");
    log::clock_error(&*log.clone()?, &sight).ok_or_else(none)
}

/// All panels together, as the log sees them.
pub fn plant(inputs: &Inputs, absorber: &absorber::Results, place: Place) -> Fig<Plant> {
    let count = plumbing::panel_count(inputs)? as f64;
    let collector = absorber.collector.as_ref().map_err(Why::clone)?;
    let heat = absorber.heat.as_ref().map_err(Why::clone)?;
    Ok(Plant {
        area: collector.absorber_area() * count,
        capacity: HeatCapacity::from_si(heat.capacity.total.si() * count),
        liquid: heat.fluid,
        place,
        facing: facing(inputs)?,
    })
}

fn doubts(inputs: &Inputs) -> Fig<Doubts> {
    Ok(Doubts {
        sun: inputs.get(&e::SUN_DOUBT)?.si(),
        flow: inputs.get(&e::FLOW_DOUBT)?.si(),
        pair: inputs.get(&e::PAIR_DOUBT)?.si(),
    })
}

/// The computed line, on absorber area.
fn curve(absorber: &absorber::Results) -> Fig<CollectorCurve> {
    let curve = &absorber.heat.as_ref().map_err(Why::clone)?.curve;
    Ok(CollectorCurve { eta0: curve.eta0, a1: curve.a1, a2: curve.a2 })
}

/// T = T_a + r (T_worst − T_a) with r the measured over the computed η₀/U, never below 1: a formula fitted at small
/// differences may scale a stagnation upward and never down (project rule).
fn stagnation(absorber: &absorber::Results, compared: &Compared) -> Fig<Temperature> {
    let computed = absorber.stagnation.as_ref().map_err(Why::clone)?;
    let air = computed.worst_exposure.ambient.si();
    Ok(Temperature::from_si(air + compared.hotter.max(1.0) * (computed.worst.si() - air)))
}
