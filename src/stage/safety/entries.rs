//! What the safety stage asks: limits of parts, water, relief, and the oldest answers; more by subject below.

pub mod office;
pub mod outdoors;
pub mod shop;
pub mod taps;
pub mod water;

use crate::model::{Choice, Entry, EntrySpec, Fold, TradeUnits};
use crate::units::si::{Length, Ratio, Temperature, Time, ZERO_CELSIUS};

/// Limit of the coating.
pub static COATING_LIMIT: Entry<Temperature> = limit("safety.coating_limit", "coating stands")
    .why("highest service temperature on the data sheet of the paint or coating");

/// Limit of sealant and gaskets.
pub static SEALANT_LIMIT: Entry<Temperature> = limit("safety.sealant_limit", "sealant stands")
    .why("the lowest of sealant, gaskets, grommets and tapes inside the box, by their data sheets");

/// Limit of the hoses.
pub static HOSE_LIMIT: Entry<Temperature> = limit("safety.hose_limit", "hoses stand")
    .why("highest temperature printed for the hoses at the panel; type the limit at your pressure, not the dry one");

/// Limit of the sensor.
pub static SENSOR_LIMIT: Entry<Temperature> = limit("safety.sensor_limit", "panel sensor stands")
    .why("probe and its wire; many digital chips end at 125 °C (from memory)");

const fn limit(id: &'static str, label: &'static str) -> Entry<Temperature> {
    Entry::quantity(id, label).hard(ZERO_CELSIUS + 40.0, ZERO_CELSIUS + 1300.0)
}

/// Rating of the mixing valve's hot inlet.
pub static MIXING_RATING: Entry<Temperature> =
    Entry::quantity("safety.mixing_valve_rating", "mixing valve, hottest inlet")
        .why("highest hot supply on its plate; many end at 65 °C, solar water does not")
        .hard(ZERO_CELSIUS + 30.0, ZERO_CELSIUS + 150.0);

/// Setting of the mixing valve.
pub static MIXING_SETTING: Entry<Temperature> = Entry::quantity("safety.mixing_valve_setting", "mixing valve, set to")
    .why("what it lets through to the taps; a valve may drift by 2 K")
    .hard(ZERO_CELSIUS + 25.0, ZERO_CELSIUS + 80.0)
    .usual(ZERO_CELSIUS + 35.0, ZERO_CELSIUS + 49.0);

/// Passive frost protection.
pub static FROST_PASSIVE: Entry<Passive> = Entry::choice("safety.frost_passive", "frost protection without power")
    .why("for water that stays in the panel: what still works in a power cut");

/// Second frost protection.
pub static FROST_SECOND: Entry<Second> = Entry::choice("safety.frost_second", "second frost protection")
    .why("for water that stays in the panel: independent of the first");

/// Fall of the drainback lines.
pub static DRAIN_FALL: Entry<Ratio> = Entry::percent("safety.drain_fall", "least fall to the drain")
    .why("of every line, header and riser of a drainback loop, by the level: 2 cm for each metre is 2 %");

/// Freezing point by refractometer.
pub static REFRACTOMETER: Entry<Temperature> = Entry::quantity("safety.freezing_point", "freezing point, measured")
    .why("by a refractometer for propylene glycol, from the loop, mixed and cool")
    .hard(ZERO_CELSIUS - 60.0, ZERO_CELSIUS + 5.0)
    .measured(Fold::Latest);

/// Final heating stage.
pub static FINAL_STAGE: Entry<FinalStage> = Entry::choice("safety.final_stage", "final heating stage")
    .why("what all solar-warmed water passes on its way to a tap");

/// Temperature of the final stage.
pub static FINAL_TEMPERATURE: Entry<Temperature> =
    Entry::quantity("safety.final_temperature", "final stage holds at least")
        .why("at its coolest, as set; 60 °C is the published storage temperature")
        .hard(ZERO_CELSIUS + 20.0, ZERO_CELSIUS + 99.0)
        .usual(ZERO_CELSIUS + 60.0, ZERO_CELSIUS + 75.0);

/// Whether a panel can be shut in.
pub static SHUT_IN: Entry<bool> = Entry::flag("safety.shut_in", "can be shut in without relief")
    .why("walk the pipes: can any valve, check valve, cap or plug cut any panel off from its relief valve?");

/// Fume.
pub static FUME: Entry<Fume> =
    Entry::choice("safety.fume", "air at the torch").why("where flux smokes and brazing glows");

/// Fire watch.
pub static FIRE_WATCH: Entry<Time> = Entry::quantity("safety.fire_watch", "fire watch after the torch")
    .why("how long someone stays with an extinguisher after the last flame")
    .hard(0.0, 86_400.0);

/// Height of the work.
pub static HEIGHT: Entry<Length> = Entry::quantity("safety.work_height", "height of the work")
    .shown_in(TradeUnits::SITE)
    .why("of the edge one could fall from")
    .hard(0.0, 100.0);

/// Fall protection.
pub static FALL_PROTECTION: Entry<FallProtection> = Entry::choice("safety.fall_protection", "fall protection")
    .why("what keeps a person from falling, not only from rising");

/// Second person.
pub static SECOND_PERSON: Entry<bool> =
    Entry::flag("safety.second_person", "second person at height").why("nobody works on a roof alone");

/// Test of the residual-current device.
pub static RCD_TESTED: Entry<jiff::civil::Date> = Entry::date("safety.rcd_tested", "leakage breaker tested")
    .why("day on which the breaker of pump and controller was tripped by its button; RCD or GFCI");

/// Plumber.
pub static PLUMBER: Entry<String> = Entry::text("safety.plumber", "plumber")
    .why("who is licensed for potable water, backflow and relief: name and number");

/// Electrician.
pub static ELECTRICIAN: Entry<String> =
    Entry::text("safety.electrician", "electrician").why("who is licensed for mains and bonding: name and number");

/// Structural engineer.
pub static ENGINEER: Entry<String> = Entry::text("safety.engineer", "structural engineer")
    .why("who answers for roof, rack and anchors: name and number");

/// Building permit.
pub static PERMIT: Entry<String> =
    Entry::text("safety.permit", "building permit").why("number and date, or whom you asked and what they answered");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &COATING_LIMIT.spec,
    &SEALANT_LIMIT.spec,
    &HOSE_LIMIT.spec,
    &SENSOR_LIMIT.spec,
    &MIXING_RATING.spec,
    &MIXING_SETTING.spec,
    &FROST_PASSIVE.spec,
    &FROST_SECOND.spec,
    &DRAIN_FALL.spec,
    &REFRACTOMETER.spec,
    &FINAL_STAGE.spec,
    &FINAL_TEMPERATURE.spec,
    &SHUT_IN.spec,
    &FUME.spec,
    &FIRE_WATCH.spec,
    &HEIGHT.spec,
    &FALL_PROTECTION.spec,
    &SECOND_PERSON.spec,
    &RCD_TESTED.spec,
    &PLUMBER.spec,
    &ELECTRICIAN.spec,
    &ENGINEER.spec,
    &PERMIT.spec,
];

/// What protects a water-filled panel without power.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Passive {
    /// Nothing.
    None,
    /// A valve that cold itself opens.
    ColdValve,
    /// A valve that opens when power fails.
    PowerFailValve,
}

impl Choice for Passive {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::None, "none", "nothing works without power"),
        (Self::ColdValve, "cold valve", "a drip or drain valve that cold itself opens"),
        (Self::PowerFailValve, "power-fail valve", "a drain valve that opens when power fails"),
    ];
}

/// What else protects a water-filled panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Second {
    /// Nothing.
    None,
    /// Warm water is pumped through the panel.
    Recirculation,
    /// A heating cable.
    HeatingCable,
    /// Someone drains it.
    ByHand,
}

impl Choice for Second {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::None, "none", "nothing else"),
        (Self::Recirculation, "recirculation", "the controller pumps warm water through the panel"),
        (Self::HeatingCable, "heating cable", "a cable with its own thermostat"),
        (Self::ByHand, "by hand", "someone drains the panel before the frost, and is there to do it"),
    ];
}

/// What all solar-warmed water passes on its way to a tap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FinalStage {
    /// Nothing.
    None,
    /// A store.
    Store,
    /// A heater that all water flows through.
    Heater,
}

impl Choice for FinalStage {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::None, "none", "solar-warmed water can reach a tap as it is"),
        (Self::Store, "store", "a store that is kept hot"),
        (Self::Heater, "heater", "a heater that all water flows through"),
    ];
}

/// Air at the torch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fume {
    /// Outdoors.
    Outdoors,
    /// Open window and fan.
    Fan,
    /// A closed room.
    Closed,
}

impl Choice for Fume {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Outdoors, "outdoors", "in the open, wind from behind"),
        (Self::Fan, "window and fan", "an open window or door and a fan that carries the smoke away"),
        (Self::Closed, "closed room", "neither"),
    ];
}

/// What keeps a person from falling.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FallProtection {
    /// Guard rail, scaffold or lifting platform.
    GuardRail,
    /// Harness on a proven anchor.
    Harness,
    /// A ladder.
    Ladder,
    /// Nothing.
    None,
}

impl Choice for FallProtection {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::GuardRail, "guard rail", "guard rail, scaffold or platform"),
        (Self::Harness, "harness", "harness on a proven anchor, by someone trained"),
        (Self::Ladder, "ladder", "a tied ladder alone"),
        (Self::None, "none", "nothing"),
    ];
}
