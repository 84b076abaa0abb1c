//! Pressure tests of a panel and of the loop: what to pump to, and what the readings mean.

use super::entries::{self as e, Medium};
use crate::model::{Entry, Fig, Inputs, Why};
use crate::physics::atmosphere;
use crate::physics::domain::DomainError;
use crate::physics::fluid::Fluid;
use crate::physics::hydrostatics::column_pressure;
use crate::physics::pressure_test::{
    self, Compliance, CompressedAir, Hold, HoldResult, Reading, Squeeze, TestBounds, TestPressure,
    air_drift_per_kelvin, drift_per_kelvin, liquid_energy, solid_compliance,
};
use crate::physics::trapped::{ShutWater, TubeSection, shut_water};
use crate::stage::plumbing::{self, circuit};
use crate::stage::{absorber, site};
use crate::units::si::{Dimension, Energy, Pressure, Temperature, Time, Volume, VolumeRate, celsius};

/// The readings that one test consists of.
pub struct Readings {
    start: &'static Entry<Pressure>,
    start_temperature: &'static Entry<Temperature>,
    end: &'static Entry<Pressure>,
    end_temperature: &'static Entry<Temperature>,
    hold: &'static Entry<Time>,
    pumped: &'static Entry<Volume>,
    weeps: &'static Entry<bool>,
}

/// The test of a panel.
pub static PANEL: Readings = Readings {
    start: &e::PANEL_START,
    start_temperature: &e::PANEL_START_TEMPERATURE,
    end: &e::PANEL_END,
    end_temperature: &e::PANEL_END_TEMPERATURE,
    hold: &e::PANEL_HOLD,
    pumped: &e::PANEL_PUMPED,
    weeps: &e::PANEL_WEEPS,
};

/// The test of the loop.
pub static LOOP: Readings = Readings {
    start: &e::LOOP_START,
    start_temperature: &e::LOOP_START_TEMPERATURE,
    end: &e::LOOP_END,
    end_temperature: &e::LOOP_END_TEMPERATURE,
    hold: &e::LOOP_HOLD,
    pumped: &e::LOOP_PUMPED,
    weeps: &e::LOOP_WEEPS,
};

/// What is under pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnderTest {
    /// Its content.
    pub volume: Volume,
    /// The tube that holds most of it.
    pub tube: TubeSection,
}

/// A test: what it stores and what it showed.
#[derive(Clone, Debug, PartialEq)]
pub struct Proof {
    /// Energy in what is under pressure: at the start reading, or at the pressure to pump to.
    pub energy: Fig<Energy>,
    /// The pressure that was wanted on the gauge.
    pub target: Fig<Pressure>,
    /// The pressure that the hold began with.
    pub started: Fig<Pressure>,
    /// What the hold showed.
    pub held: Fig<Held>,
}

/// What a hold showed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// Outcome, correction and allowance.
    pub result: HoldResult,
    /// Smallest steady leak that it could have shown: of water, or of free air.
    pub smallest_leak: VolumeRate,
    /// Pressure that a kelvin adds.
    pub per_kelvin: Pressure,
    /// The gauge at the end as it would have been at the temperature of the start.
    pub corrected_end: Pressure,
    /// Time it was held, over the time that was wanted.
    pub held_share: f64,
    /// Air among the water, where it was told what was pumped in.
    pub air: Option<Volume>,
}

/// 1.5 × the relief setting, or the weakest part's rating where that is less.
pub fn test_pressure(inputs: &Inputs) -> Fig<TestPressure> {
    let relief = inputs.get(&plumbing::entries::RELIEF)?;
    if relief.si() <= 0.0 {
        return Err(Why::out_of_range("an open loop has no relief setting to prove against; enter what it must stand"));
    }
    let weakest = inputs.given(&plumbing::entries::WEAKEST)?.unwrap_or(Pressure::from_si(f64::MAX));
    pressure_test::test_pressure(TestBounds { relief, weakest }).map_err(Why::out_of_range)
}

/// What the loop's gauge shows when its relief valve's place is at the test pressure.
pub fn gauge_target(inputs: &Inputs, test: Pressure) -> Fig<Pressure> {
    let height = inputs.get(&e::GAUGE_HEIGHT)?;
    match inputs.get(&e::MEDIUM)? {
        Medium::Air => Ok(test),
        Medium::Water => Ok(test - column_pressure(Fluid::Water.density(celsius(20.0)), height)),
    }
}

/// One panel's harp.
pub fn panel(absorber: &absorber::Results) -> Fig<UnderTest> {
    let harp = absorber.harp.as_ref().map_err(Clone::clone)?;
    let volume = absorber.heat.as_ref().map_err(Clone::clone)?.capacity.volume;
    let wall = (harp.riser_outer_diameter - harp.riser_bore) / 2.0;
    Ok(UnderTest { volume, tube: TubeSection { outside_diameter: harp.riser_outer_diameter, wall } })
}

/// Panels and pipe.
pub fn circuit(inputs: &Inputs, plumbing: &plumbing::Results) -> Fig<UnderTest> {
    let tube = circuit::tube(inputs)?;
    let volume = plumbing.contents.clone()?.total();
    Ok(UnderTest { volume, tube: TubeSection { outside_diameter: tube.od, wall: tube.wall } })
}

/// Puts a test together.
pub fn prove(inputs: &Inputs, readings: &Readings, target: Fig<Pressure>, tested: Fig<UnderTest>) -> Proof {
    let started = inputs.get(readings.start);
    let energy = tested.clone().and_then(|tested| energy(inputs, tested, started.clone().or(target.clone())?));
    let held = tested.and_then(|tested| held(inputs, readings, tested));
    Proof { energy, target, started, held }
}

fn air_around(inputs: &Inputs) -> Fig<Pressure> {
    Ok(atmosphere::pressure(inputs.get(&site::entries::ALTITUDE)?))
}

/// Water is taken at 20 °C and free of air.
fn energy(inputs: &Inputs, tested: UnderTest, gauge: Pressure) -> Fig<Energy> {
    match inputs.get(&e::MEDIUM)? {
        Medium::Water => {
            let water = shut_water(celsius(20.0), Some(tested.tube)).map_err(Why::out_of_range)?;
            Ok(liquid_energy(solid_compliance(tested.volume, water), gauge))
        }
        Medium::Air => {
            let air = CompressedAir { volume: tested.volume, gauge, atmosphere: air_around(inputs)? };
            air.energy().map_err(Why::out_of_range)
        }
    }
}

/// How stiff what is under test is.
struct Stiffness {
    drift_per_kelvin: f64,
    compliance: Option<Compliance>,
}

fn held(inputs: &Inputs, readings: &Readings, tested: UnderTest) -> Fig<Held> {
    let start = Reading { pressure: inputs.get(readings.start)?, temperature: inputs.get(readings.start_temperature)? };
    let end = Reading { pressure: inputs.get(readings.end)?, temperature: inputs.get(readings.end_temperature)? };
    let time = inputs.get(readings.hold)?;
    let leak_seen = inputs.get(readings.weeps)?;
    let atmosphere = air_around(inputs)?;
    let pumped = inputs.given(readings.pumped)?;
    let stiffness = match inputs.get(&e::MEDIUM)? {
        Medium::Water => of_water(tested, start, pumped, atmosphere),
        Medium::Air => air_drift_per_kelvin(start, atmosphere)
            .map(|drift_per_kelvin| Stiffness { drift_per_kelvin, compliance: None }),
    }
    .map_err(Why::out_of_range)?;
    let hold = Hold {
        start,
        end,
        time,
        drift_per_kelvin: stiffness.drift_per_kelvin,
        temperature_uncertainty: inputs.get(&e::DOUBT)?,
        gauge_division: inputs.get(&e::DIVISION)?,
        compliance: stiffness.compliance,
        leak_seen,
    };
    let result = pressure_test::judge(&hold).map_err(Why::out_of_range)?;
    let smallest_leak = match result.smallest_leak {
        Some(leak) => leak,
        None => CompressedAir { volume: tested.volume, gauge: start.pressure, atmosphere }
            .leak(result.allowance + result.uncertainty, time)
            .map_err(Why::out_of_range)?,
    };
    let air = match (inputs.get(&e::MEDIUM)?, pumped) {
        (Medium::Water, Some(added)) => {
            let squeeze = Squeeze { added, before: atmosphere, after: atmosphere + start.pressure };
            Some(squeeze.trapped_air().map_err(Why::out_of_range)?)
        }
        _ => None,
    };
    Ok(Held {
        result,
        smallest_leak,
        per_kelvin: Pressure::from_si(stiffness.drift_per_kelvin),
        corrected_end: end.pressure - result.explained,
        held_share: time.si() / inputs.get(&e::HOLD)?.si(),
        air,
    })
}

/// What was pumped in tells the stiffness, air included; else water without air in copper.
fn of_water(
    tested: UnderTest,
    start: Reading,
    pumped: Option<Volume>,
    atmosphere: Pressure,
) -> Result<Stiffness, DomainError> {
    let water: ShutWater = shut_water(start.temperature, Some(tested.tube))?;
    let compliance = match pumped {
        Some(added) => Squeeze { added, before: atmosphere, after: atmosphere + start.pressure }.compliance()?,
        None => solid_compliance(tested.volume, water),
    };
    let drift_per_kelvin = drift_per_kelvin(tested.volume, water, compliance)?;
    Ok(Stiffness { drift_per_kelvin, compliance: Some(compliance) })
}
