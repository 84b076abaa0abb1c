//! Safety: the judge over the whole project, and the dangers in numbers.
//!
//! Which figure comes from where: `rows`; numbers are computed below; the laws are in `physics`. Nothing here replaces
//! local codes, permits and licensed practice.

pub mod checks;
pub mod electrical;
pub mod entries;
pub mod fillers;
pub mod labels;
pub mod materials;
pub mod metals;
pub mod methods;
pub mod office;
pub mod outdoors;
pub mod potable;
pub mod questions;
pub mod register;
pub mod relief;
pub mod rows;
pub mod season;
pub mod shop;
pub mod steps;
pub mod taps;
pub mod water;

use super::{Group, absorber, plumbing, site};
use crate::model::{Fig, Inputs, Why};
use crate::physics::freezing::{self, NightPanel, Sky};
use crate::physics::scald::{self, BurnTime};
use crate::physics::trapped::{self, TubeSection};
use crate::physics::{atmosphere, fluid::Fluid, glycol, legionella};
use crate::units::si::{Dimension, Length, Pressure, Temperature, TemperatureInterval, Time, Velocity, celsius};
use entries::{self as e, FinalStage};
use plumbing::entries::{self as p, LoopType};
use plumbing::year::entries::{self as heaters, Heater};

/// The share of the solution that this stage computes.
#[derive(Clone, Debug)]
pub struct Results {
    /// What the burn table says of the tank at its limit.
    pub burn_at_tank: Fig<BurnTime>,
    /// Hottest water behind the mixing valve: its setting and the tolerance.
    pub tap: Fig<Temperature>,
    /// What the burn table says of that.
    pub burn_at_tap: Fig<BurnTime>,
    /// Hottest water that the mixing valve can meet.
    pub hot_supply: Fig<Temperature>,
    /// Air in which the plate freezes.
    pub freezing: Fig<FreezingAir>,
    /// Whether the water of the panel is drunk.
    pub potable: Fig<bool>,
    /// Where the liquid of the loop begins to freeze.
    pub freezing_point: Fig<Temperature>,
    /// Where the liquid of the panel boils under the relief pressure.
    pub boiling: Fig<Temperature>,
    /// Pressure that a shut-in full riser gains for a kelvin.
    pub trapped: Fig<Pressure>,
    /// Time in which the final stage kills nine in ten.
    pub kill_time: Fig<Time>,
}

/// Air temperatures at which the plate freezes under a clear sky.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FreezingAir {
    /// In calm air.
    pub calm: Temperature,
    /// At 0.5 m/s.
    pub light: Temperature,
    /// At 1 m/s.
    pub breeze: Temperature,
}

/// Tolerance of a mixing valve, K (thermostatic valve schemes call for service beyond it; verified).
pub const VALVE_TOLERANCE: f64 = 2.0;
/// Hot supply where nothing limits the tank: the opening temperature of a temperature relief valve, 210 °F.
const RELIEF_TEMPERATURE: f64 = 99.0;
/// Temperature at which trapped liquid is shown, °C.
const TRAPPED_AT: f64 = 40.0;

/// Limit of the tank.
pub static TANK: Group = Group { name: "the tank at its limit", entries: &["plumbing.tank_limit"], groups: &[] };

/// Water behind the mixing valve.
pub static TAP: Group =
    Group { name: "water behind the mixing valve", entries: &["safety.mixing_valve_setting"], groups: &[] };

/// Hot supply of the mixing valve.
pub static SUPPLY: Group = Group {
    name: "hot supply of the mixing valve",
    entries: &[
        "plumbing.loop",
        "plumbing.tank_limit",
        "plumbing.auxiliary",
        "plumbing.element_set",
        "safety.final_stage",
        "safety.final_temperature",
    ],
    groups: &[],
};

/// Freezing of the plate: the same for every panel with one glass.
pub static FREEZING: Group = Group { name: "freezing of the plate", entries: &[], groups: &[] };

/// Whether the water of the panel is drunk.
pub static POTABLE: Group = Group { name: "potable loop", entries: &["plumbing.loop"], groups: &[] };

/// Boiling under the relief pressure.
pub static BOILING: Group = Group {
    name: "boiling at the relief pressure",
    entries: &["plumbing.relief_setting", "site.altitude"],
    groups: &[&plumbing::LIQUID],
};

/// Trapped liquid.
pub static TRAPPED: Group = Group { name: "trapped liquid", entries: &[], groups: &[&absorber::BORE] };

/// The final heating stage.
pub static FINAL: Group = Group { name: "final heating stage", entries: &["safety.final_temperature"], groups: &[] };

/// Solves the stage.
pub fn solve(
    inputs: &Inputs,
    _site: &site::Results,
    absorber: &absorber::Results,
    plumbing: &plumbing::Results,
) -> Results {
    let tap = inputs.get(&e::MIXING_SETTING).map(|setting| setting + TemperatureInterval::from_si(VALVE_TOLERANCE));
    Results {
        burn_at_tank: inputs.get(&p::TANK_LIMIT).map(scald::burn_time),
        burn_at_tap: tap.clone().map(scald::burn_time),
        tap,
        hot_supply: hot_supply(inputs),
        freezing: freezing_air(),
        potable: inputs.get(&p::LOOP).map(is_potable),
        freezing_point: plumbing.fluid.clone().map(Fluid::freezing_point),
        boiling: plumbing.fluid.clone().and_then(|liquid| boiling(inputs, liquid)),
        trapped: absorber.harp.as_ref().map_err(Why::clone).and_then(trapped_pressure),
        kill_time: inputs
            .get(&e::FINAL_TEMPERATURE)
            .and_then(|hot| legionella::decimal_reduction(hot).map_err(Why::out_of_range)),
    }
}

/// Whether the water of the panel is the water of the tap.
pub const fn is_potable(loop_type: LoopType) -> bool {
    matches!(loop_type, LoopType::Direct | LoopType::Thermosiphon)
}

/// The hottest water the mixing valve can meet: the tank limit; without a pump nothing limits the tank below its
/// temperature relief, 99 °C. An element in the tank and a final stage before the valve may heat beyond that.
fn hot_supply(inputs: &Inputs) -> Fig<Temperature> {
    let sun = match inputs.get(&p::LOOP)? {
        LoopType::Thermosiphon => celsius(RELIEF_TEMPERATURE),
        LoopType::Direct | LoopType::Drainback | LoopType::Glycol => inputs.get(&p::TANK_LIMIT)?,
    };
    let element = match inputs.get(&heaters::HEATER)? {
        Heater::Element => inputs.get(&heaters::ELEMENT_SET)?,
        Heater::None | Heater::Inline => sun,
    };
    let last = match inputs.get(&e::FINAL_STAGE)? {
        FinalStage::Store | FinalStage::Heater => inputs.get(&e::FINAL_TEMPERATURE)?,
        FinalStage::None => sun,
    };
    Ok([element, last].into_iter().fold(sun, |hottest, other| if other > hottest { other } else { hottest }))
}

fn freezing_air() -> Fig<FreezingAir> {
    let at = |wind: f64| {
        freezing::freezing_air(NightPanel::default(), Sky::Clear, Velocity::from_si(wind)).map_err(Why::out_of_range)
    };
    Ok(FreezingAir { calm: at(0.0)?, light: at(0.5)?, breeze: at(1.0)? })
}

/// Boiling at the relief pressure: the hottest that the liquid can be in the panel. At the top of the loop the pressure
/// is lower by the height of the liquid, so it boils sooner there.
fn boiling(inputs: &Inputs, liquid: Fluid) -> Fig<Temperature> {
    let gauge = inputs.get(&p::RELIEF)?;
    let air = atmosphere::pressure(inputs.get(&site::entries::ALTITUDE)?);
    glycol::boiling_point(liquid, gauge + air).map_err(Why::out_of_range)
}

fn trapped_pressure(harp: &absorber::geometry::Harp) -> Fig<Pressure> {
    let wall: Length = (harp.riser_outer_diameter - harp.riser_bore) / 2.0;
    let tube = TubeSection { outside_diameter: harp.riser_outer_diameter, wall };
    let shut = trapped::shut_water(celsius(TRAPPED_AT), Some(tube)).map_err(Why::out_of_range)?;
    Ok(Pressure::from_si(shut.pressure_per_kelvin()))
}

/// What the burn table says, in words.
pub fn burn_words(burn: BurnTime) -> String {
    match burn {
        BurnTime::BelowTable => "more than 2 h".to_owned(),
        BurnTime::AboveTable => "under 3 s".to_owned(),
        BurnTime::Within { second_degree, third_degree } => {
            format!("{} to {}", time_words(second_degree), time_words(third_degree))
        }
    }
}

fn time_words(time: Time) -> String {
    let seconds = time.si();
    match seconds {
        s if s < 10.0 => format!("{s:.1} s"),
        s if s < 120.0 => format!("{s:.0} s"),
        s if s < 7200.0 => format!("{:.0} min", s / 60.0),
        s => format!("{:.1} h", s / 3600.0),
    }
}
