//! Commissioning: proofs in numbers, of panels, loop, sensors, flow and draining.
//!
//! Which figure comes from where: `rows` and `log_rows`; pressure tests are put together in `proof`, sensors in
//! `sensor`, the logger file in `logged`, flow and draining below; the laws are in `physics`.

pub mod cards;
pub mod checks;
pub mod comparison;
pub mod control;
pub mod entries;
pub mod expected;
pub mod filling;
pub mod functional;
pub mod log;
pub mod log_checks;
pub mod log_entries;
pub mod log_rows;
pub mod logged;
pub mod methods;
pub mod night;
pub mod performance;
pub mod pictures;
pub mod procedures;
pub mod proof;
pub mod rows;
pub mod rules;
pub mod sensor;
pub mod steps;
pub mod trouble;
pub mod upkeep;

use super::{Group, absorber, plumbing};
use crate::model::{Fig, Inputs, Why};
use crate::physics::flow_measurement::{Bucket, Catch};
use crate::physics::pressure_test::TestPressure;
use crate::units::si::{Dimension, Pressure, Temperature, Time, Volume, VolumeRate};
use entries as e;
use proof::Proof;

/// The share of the solution that this stage computes.
#[derive(Clone, Debug)]
pub struct Results {
    /// The pressure to prove panels and loop at, where the relief valve sits.
    pub test_pressure: Fig<TestPressure>,
    /// What the loop's gauge shows then.
    pub gauge_target: Fig<Pressure>,
    /// The test of one panel.
    pub panel: Proof,
    /// The test of the loop.
    pub circuit: Proof,
    /// What the panel's sensor says.
    pub sensor: Fig<Temperature>,
    /// Flow by bucket and watch.
    pub flow: Fig<BucketFlow>,
    /// What should drain.
    pub drains: Fig<Volume>,
    /// What the logger file says.
    pub logged: logged::Logged,
}

/// Flow by bucket and watch.
#[derive(Clone, Debug, PartialEq)]
pub struct BucketFlow {
    /// The flow.
    pub flow: VolumeRate,
    /// Half-width that holds about 95 %; needs two timings.
    pub expanded: Fig<VolumeRate>,
    /// Number of timings.
    pub timings: usize,
}

/// The pressure to test at.
pub static TEST: Group =
    Group { name: "test pressure", entries: &["plumbing.relief_setting", "plumbing.weakest_rating"], groups: &[] };

/// What the loop's gauge shows at it.
pub static GAUGE: Group = Group {
    name: "gauge at test pressure",
    entries: &["commissioning.gauge_height", "commissioning.test_medium"],
    groups: &[&TEST],
};

/// The test of one panel.
pub static PANEL_TEST: Group = Group {
    name: "panel test",
    entries: &[
        "commissioning.test_medium",
        "commissioning.gauge_division",
        "commissioning.temperature_doubt",
        "commissioning.panel_start",
        "commissioning.panel_start_temperature",
        "commissioning.panel_end",
        "commissioning.panel_end_temperature",
        "commissioning.panel_hold",
        "commissioning.panel_pumped",
        "commissioning.panel_weeps",
        "commissioning.hold_time",
        "site.altitude",
    ],
    groups: &[&TEST, &absorber::HEAT],
};

/// The test of the loop.
pub static LOOP_TEST: Group = Group {
    name: "loop test",
    entries: &[
        "commissioning.gauge_division",
        "commissioning.temperature_doubt",
        "commissioning.loop_start",
        "commissioning.loop_start_temperature",
        "commissioning.loop_end",
        "commissioning.loop_end_temperature",
        "commissioning.loop_hold",
        "commissioning.loop_pumped",
        "commissioning.loop_weeps",
        "commissioning.hold_time",
        "site.altitude",
    ],
    groups: &[&GAUGE, &plumbing::CONTENTS],
};

/// The type of the sensors.
pub static SENSOR_TYPE: Group = Group {
    name: "sensor type",
    entries: &[
        "commissioning.sensor_type",
        "commissioning.curve_point.*.temperature",
        "commissioning.curve_point.*.resistance",
    ],
    groups: &[],
};

/// What the panel's sensor says.
pub static SENSOR: Group =
    Group { name: "panel sensor", entries: &["commissioning.sensor_ohms"], groups: &[&SENSOR_TYPE] };

/// Flow by bucket and watch.
pub static FLOW: Group = Group {
    name: "flow measured",
    entries: &["commissioning.bucket_volume", "commissioning.bucket_limit", "commissioning.bucket_time"],
    groups: &[],
};

/// Solves the stage.
pub fn solve(
    inputs: &Inputs,
    absorber: &absorber::Results,
    plumbing: &plumbing::Results,
    logged: logged::Logged,
) -> Results {
    let test_pressure = proof::test_pressure(inputs);
    let gauge_target = test_pressure.clone().and_then(|test| proof::gauge_target(inputs, test.pressure));
    let panel_target = test_pressure.clone().map(|test| test.pressure);
    Results {
        panel: proof::prove(inputs, &proof::PANEL, panel_target, proof::panel(absorber)),
        circuit: proof::prove(inputs, &proof::LOOP, gauge_target.clone(), proof::circuit(inputs, plumbing)),
        sensor: sensor::panel(inputs),
        flow: flow(inputs),
        drains: plumbing.contents.clone().map(|contents| contents.drains),
        logged,
        test_pressure,
        gauge_target,
    }
}

fn flow(inputs: &Inputs) -> Fig<BucketFlow> {
    let caught = Catch { volume: inputs.get(&e::BUCKET)?, limit: inputs.get(&e::BUCKET_LIMIT)? };
    let time = inputs.get(&e::BUCKET_TIME)?;
    let once = Bucket { caught, time, time_uncertainty: Time::from_si(0.0) }.flow().map_err(Why::out_of_range)?;
    let times = inputs.repeats(&e::BUCKET_TIME);
    let expanded = if times.len() < 2 {
        Err(Why::out_of_range("one timing says nothing of its own scatter: time the bucket twice or more"))
    } else {
        let flow = Bucket::timed(caught, &times).and_then(|bucket| bucket.flow());
        flow.map(|flow| flow.expanded()).map_err(Why::out_of_range)
    };
    Ok(BucketFlow { flow: once.flow, expanded, timings: times.len() })
}
