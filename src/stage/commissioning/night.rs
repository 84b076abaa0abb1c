//! What a night should show: heat that a slow flow backwards would take, and how far the tank cools by itself.

use super::control::TOP_HEIGHT;
use crate::model::{Fig, Why};
use crate::physics::fluid::Fluid;
use crate::physics::hydrostatics::column_pressure;
use crate::physics::night::{carried_off, cooled};
use crate::stage::plumbing::entries::{TANK, TANK_LIMIT};
use crate::stage::plumbing::year::entries::TANK_ROOM;
use crate::stage::plumbing::year::plant::tank_loss;
use crate::stage::{Figure, Group, Solution, plumbing};
use crate::units::Kind::{Power as Watts, Pressure as Bar, TemperatureDifference};
use crate::units::si::{Dimension, MassDensity, Power, Pressure, TemperatureInterval, Time, VolumeRate, celsius};

/// Panel and tank on the night that drives liquid backwards, °C (project rule).
const PANEL_AT_NIGHT: f64 = 5.0;
const TANK_AT_NIGHT: f64 = 55.0;
/// A flow that a hand hardly notices, m³/s (0.3 L/min), and what comes back of it, °C (project rule).
const CREEP: f64 = 0.3e-3 / 60.0;
const COMES_BACK: f64 = 30.0;
/// A night without draw, s.
const NIGHT: f64 = 10.0 * 3600.0;

static REVERSE: Group = Group { name: "reverse circulation", entries: &["commissioning.top_height"], groups: &[] };

static CREEPING: Group = Group { name: "a creeping flow", entries: &[], groups: &[&plumbing::LIQUID] };

static COOLING: Group = Group {
    name: "the tank overnight",
    entries: &[
        "plumbing.tank",
        "plumbing.tank_limit",
        "plumbing.tank_height",
        "plumbing.tank_insulation",
        "plumbing.tank_room",
    ],
    groups: &[],
};

/// Δp = (ρ_cold − ρ_hot) g h.
fn reverse_head(s: &Solution) -> Fig<Pressure> {
    let density = |degrees: f64| Fluid::Water.density(celsius(degrees)).si();
    let lighter = MassDensity::from_si(density(PANEL_AT_NIGHT) - density(TANK_AT_NIGHT));
    Ok(column_pressure(lighter, s.inputs.get(&TOP_HEIGHT)?))
}

fn creeping(s: &Solution) -> Fig<Power> {
    let (from, to) = (celsius(TANK_AT_NIGHT), celsius(COMES_BACK));
    carried_off(s.plumbing.fluid.clone()?, VolumeRate::from_si(CREEP), from, to).map_err(Why::out_of_range)
}

fn overnight(s: &Solution) -> Fig<TemperatureInterval> {
    let (tank, room) = (s.inputs.get(&TANK_LIMIT)?, s.inputs.get(&TANK_ROOM)?);
    cooled(tank_loss(&s.inputs)?, tank, room, s.inputs.get(&TANK)?, Time::from_si(NIGHT)).map_err(Why::out_of_range)
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("commissioning.reverse_head", "pressure that drives backwards at night", Bar, &REVERSE, |s, _| {
        Ok(reverse_head(s)?.into())
    })
    .by("reverse-circulation", "(ρ(5 °C) − ρ(55 °C)) g {h}", &[("h", "commissioning.top_height")]),
    Figure::new("commissioning.night_power", "heat that 0.3 L/min backwards take", Watts, &CREEPING, |s, _| {
        Ok(creeping(s)?.into())
    })
    .by("night", "ρ c_p 0.3 L/min × (55 − 30 °C) of {liquid}", &[("liquid", "plumbing.loop")]),
    Figure::new(
        "commissioning.night_drop",
        "tank cools in ten hours without draw",
        TemperatureDifference,
        &COOLING,
        |s, _| Ok(overnight(s)?.into()),
    )
    .by(
        "night",
        "UA ({T} − {room}) 10 h / (ρ c_p {V}), UA of a cylinder with {d} of insulation",
        &[
            ("T", "plumbing.tank_limit"),
            ("room", "plumbing.tank_room"),
            ("V", "plumbing.tank"),
            ("d", "plumbing.tank_insulation"),
        ],
    ),
];
