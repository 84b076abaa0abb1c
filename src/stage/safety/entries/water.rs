//! What the safety stage asks about relief, discharge, exchanger, drinking water and the proof of frost valves.

use crate::handbook::solder;
use crate::model::{Choice, Entry, EntrySpec};
use crate::units::si::{Length, Power, Pressure, Volume};

/// Solder of the pressure joints.
pub static JOINT_SOLDER: Entry<String> = Entry::listed("safety.joint_solder", "solder of the pressure joints", solders)
    .why("its pressure rating falls with heat and ends at 121 °C; brazed joints do not need it");

/// Discharge capacity of the relief valve.
pub static RELIEF_POWER: Entry<Power> = Entry::quantity("safety.relief_power", "relief valve carries off")
    .why("steam capacity on its plate at its setting, for all panels together")
    .hard(1.0, 1e7);

/// Outlet of the relief valve.
pub static RELIEF_OUTLET: Entry<Length> = Entry::quantity("safety.relief_outlet", "outlet of the relief valve")
    .why("its bore, not its thread")
    .hard(0.003, 0.2);

/// Bore of the discharge.
pub static DISCHARGE_BORE: Entry<Length> = Entry::quantity("safety.discharge_bore", "bore of the discharge pipe")
    .why("nowhere narrower than the outlet")
    .hard(0.003, 0.2);

/// End of the discharge.
pub static DISCHARGE_END: Entry<Length> = Entry::quantity("safety.discharge_end", "discharge ends above the floor by")
    .why("low, in sight, over what takes it: at most 6 in and at least two bores in many codes")
    .hard(0.0, 20.0);

/// Pipe of the discharge.
pub static DISCHARGE_PIPE: Entry<DischargePipe> =
    Entry::choice("safety.discharge_pipe", "discharge pipe of").why("near-boiling water and steam run through it");

/// Fall of the discharge.
pub static DISCHARGE_FALLS: Entry<bool> =
    Entry::flag("safety.discharge_falls", "discharge falls all the way").why("no trap, no sag that holds water");

/// Nothing in the discharge.
pub static DISCHARGE_FREE: Entry<bool> = Entry::flag("safety.discharge_free", "nothing in the discharge can close")
    .why("no valve, no tee, no cap, no thread at its end, no other valve on the same pipe");

/// Sight of the discharge.
pub static DISCHARGE_SEEN: Entry<bool> = Entry::flag("safety.discharge_seen", "discharge is seen and hits nobody")
    .why("an air gap at its end, in view of those who use the building, away from where anybody stands");

/// Can of the discharge.
pub static DISCHARGE_CAN: Entry<Volume> = Entry::quantity("safety.discharge_can", "metal can below it holds")
    .why("the whole loop, labelled hot; a gutter or plastic pipe does not stand it")
    .hard(0.0, 10.0);

/// Walls of the exchanger.
pub static WALLS: Entry<Walls> =
    Entry::choice("safety.exchanger_walls", "exchanger walls").why("between the loop and the drinking water");

/// Liquid of a closed loop.
pub static LIQUID: Entry<LoopLiquid> = Entry::choice("safety.loop_liquid", "liquid in the loop")
    .why("by its safety sheet, not by its colour; ethylene glycol is poison");

/// Label at the exchanger.
pub static LABEL: Entry<bool> = Entry::flag("safety.exchanger_label", "exchanger labelled")
    .why("walls, liquid and highest loop pressure, where a stranger reads it");

/// Lowest pressure of the drinking water.
pub static POTABLE_PRESSURE: Entry<Pressure> =
    Entry::quantity("safety.potable_pressure", "lowest drinking water pressure")
        .why("in a single-wall exchanger the loop stays below it, so that a leak runs outward")
        .hard(0.0, 2e6);

/// Fill link.
pub static FILL_LINK: Entry<FillLink> =
    Entry::choice("safety.fill_link", "link from the mains to the loop").why("what is left in place after filling");

/// Backflow device.
pub static BACKFLOW: Entry<String> = Entry::text("safety.backflow_device", "backflow device")
    .why("class, day of its test, who said that it is the right one");

/// Test of the frost valve.
pub static FROST_TESTED: Entry<jiff::civil::Date> = Entry::date("safety.frost_valve_tested", "frost valve tested on")
    .why("opened once by cold spray, ice or a power cut before each winter; valves stick");

/// Place of the exchanger.
pub static EXCHANGER_PLACE: Entry<ExchangerPlace> = Entry::choice("safety.exchanger_place", "exchanger stands")
    .why("outside the tank its drinking water can freeze and burst when a frozen loop starts");

/// Protection from a cold slug.
pub static COLD_SLUG: Entry<ColdSlug> = Entry::choice("safety.cold_slug", "against a cold start")
    .why("what keeps liquid below 5 °C out of the exchanger when the pump starts on a winter morning");

/// Check valves of the loop.
pub static NIGHT_VALVE: Entry<bool> = Entry::flag("safety.loop_check_valve", "check valve against night flow")
    .why("so that the cold panel cannot pull warm water round through the exchanger at night");

/// A way round the final stage.
pub static FINAL_BYPASS: Entry<bool> = Entry::flag("safety.final_bypass", "a way round the final stage")
    .why("a tap before it, a summer by-pass, a diverter that lets lukewarm water through");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &JOINT_SOLDER.spec,
    &RELIEF_POWER.spec,
    &RELIEF_OUTLET.spec,
    &DISCHARGE_BORE.spec,
    &DISCHARGE_END.spec,
    &DISCHARGE_PIPE.spec,
    &DISCHARGE_FALLS.spec,
    &DISCHARGE_FREE.spec,
    &DISCHARGE_SEEN.spec,
    &DISCHARGE_CAN.spec,
    &WALLS.spec,
    &LIQUID.spec,
    &LABEL.spec,
    &POTABLE_PRESSURE.spec,
    &FILL_LINK.spec,
    &BACKFLOW.spec,
    &FROST_TESTED.spec,
    &EXCHANGER_PLACE.spec,
    &COLD_SLUG.spec,
    &NIGHT_VALVE.spec,
    &FINAL_BYPASS.spec,
];

fn solders() -> Vec<(&'static str, &'static str)> {
    solder::alloys()
        .all()
        .iter()
        .map(|alloy| (alloy.name.as_str(), if alloy.lead_free { "lead-free" } else { "holds lead" }))
        .collect()
}

/// Pipe of the discharge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DischargePipe {
    /// Copper, steel.
    Metal,
    /// Plastic that a code lists for relief discharge.
    Rated,
    /// Other plastic, a hose, a gutter.
    Plastic,
}

impl Choice for DischargePipe {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Metal, "metal", "copper or steel"),
        (Self::Rated, "listed plastic", "plastic that the local code lists for relief discharge"),
        (Self::Plastic, "plastic", "any other plastic, a hose, a gutter"),
    ];
}

/// Walls between loop and drinking water.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Walls {
    /// One wall.
    Single,
    /// Two, vented between.
    Double,
}

impl Choice for Walls {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Single, "single", "one wall: a hole mixes both"),
        (Self::Double, "double, vented", "two walls, a leak of either shows outside"),
    ];
}

/// Liquid in a closed loop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LoopLiquid {
    /// Water without additives.
    Water,
    /// Propylene glycol sold for food plants.
    FoodGrade,
    /// Propylene glycol with other inhibitors.
    Inhibited,
    /// Ethylene glycol.
    Ethylene,
}

impl Choice for LoopLiquid {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Water, "water", "drinking water without additives"),
        (Self::FoodGrade, "food-grade glycol", "propylene glycol whose sheet names food plants"),
        (Self::Inhibited, "inhibited glycol", "propylene glycol with inhibitors that no food sheet covers"),
        (Self::Ethylene, "ethylene glycol", "poison: refused in any loop"),
    ];
}

/// Link from the mains to the loop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FillLink {
    /// Taken away.
    Removed,
    /// Left in place.
    Permanent,
}

impl Choice for FillLink {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Removed, "removed", "no link, or a hose that is taken away after filling"),
        (Self::Permanent, "permanent", "a pipe or hose that stays"),
    ];
}

/// Place of the exchanger.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ExchangerPlace {
    /// In the tank.
    Inside,
    /// Outside.
    Outside,
}

impl Choice for ExchangerPlace {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Inside, "in the tank", "a coil within or a jacket around the stored water"),
        (Self::Outside, "outside", "a plate or shell beside the tank"),
    ];
}

/// What keeps a cold slug out of the exchanger.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ColdSlug {
    /// A bypass.
    Bypass,
    /// The drinking water flows first.
    PotableFlow,
    /// Nothing.
    Nothing,
}

impl Choice for ColdSlug {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Bypass, "bypass", "the loop runs past the exchanger until it is above 5 °C"),
        (Self::PotableFlow, "potable flow", "the drinking water's side flows until the loop is above 5 °C"),
        (Self::Nothing, "nothing", "the loop starts straight through the exchanger"),
    ];
}
