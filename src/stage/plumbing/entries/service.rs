//! Pump, exchanger and limits of the loop, and how the panels stand in it.

use crate::model::{Choice, Entry, EntrySpec, TradeUnits};
use crate::units::si::{Length, Pressure, ThermalConductance, Volume, VolumeRate};

/// Panels one after another.
pub static IN_SERIES: Entry<usize> = Entry::count("plumbing.in_series", "panels one after another")
    .why("1: all side by side; as many as there are: one string; between: groups")
    .default("1");

/// How the return header runs.
pub static RETURN_WAY: Entry<ReturnWay> = Entry::choice("plumbing.return_way", "return of the row")
    .why("a return at the far end gives every group the same length of way")
    .default("reverse");

/// Flow of a point of the pump's label.
pub static PUMP_FLOW: Entry<VolumeRate> = Entry::quantity("plumbing.pump_point.*.flow", "pump point: flow")
    .why("three points of the curve on label or sheet, each a row of its own")
    .hard(0.0, 0.1);

/// Head of a point of the pump's label.
pub static PUMP_HEAD: Entry<Length> = Entry::quantity("plumbing.pump_point.*.head", "pump point: head")
    .shown_in(TradeUnits::SITE)
    .why("at that flow")
    .hard(0.0, 100.0);

/// Suction head that the pump wants.
pub static PUMP_SUCTION: Entry<Length> = Entry::quantity("plumbing.pump_suction", "suction head the pump wants")
    .shown_in(TradeUnits::SITE)
    .why("NPSH on its sheet, at the hottest; 1 to 3 m for small circulators at 90 °C (from memory)")
    .hard(0.0, 30.0);

/// Pressure wanted at the top.
pub static TOP_PRESSURE: Entry<Pressure> = Entry::quantity("plumbing.top_pressure", "pressure at the top, cold")
    .why("0.7 to 1.0 bar is usual; it keeps air out of a closed loop")
    .hard(0.0, 5e5)
    .usual(0.5e5, 1.5e5)
    .default("0.7 bar");

/// Tube of a coil.
pub static COIL_TUBE: Entry<String> = Entry::listed("plumbing.coil_tube", "tube of the coil", super::super::tube_names)
    .why("where the loop ends in a coil in the tank");

/// Length of a coil.
pub static COIL_LENGTH: Entry<Length> = Entry::quantity("plumbing.coil_length", "length of the coil")
    .shown_in(TradeUnits::SITE)
    .why("tube under water")
    .hard(0.5, 300.0);

/// Conductance of an exchanger.
pub static EXCHANGER_UA: Entry<ThermalConductance> = Entry::quantity("plumbing.exchanger_conductance", "exchanger UA")
    .why("heat per kelvin of a plate or shell exchanger, from its sheet")
    .hard(1.0, 1e5);

/// Flow on the tank's side.
pub static STORAGE_FLOW: Entry<VolumeRate> = Entry::quantity("plumbing.storage_flow", "flow on the tank's side")
    .why("through an exchanger outside the tank; 1.25 times the panels' flow is the published rule")
    .hard(1e-7, 0.1);

/// Protection from the cold slug.
pub static SLUG: Entry<SlugProtection> = Entry::choice("plumbing.slug_protection", "against the cold slug")
    .why("glycol below 0 °C from the roof can freeze and burst the potable side of an exchanger outside the tank");

/// Check valve in the cold feed.
pub static FEED_CLOSED: Entry<bool> = Entry::flag("plumbing.feed_closed", "cold feed can hold pressure")
    .why("a check valve, pressure reducer or backflow device: then heated water cannot grow back into the mains");

/// Vessel of the potable side.
pub static POTABLE_VESSEL: Entry<Volume> = Entry::quantity("plumbing.potable_vessel", "potable expansion vessel")
    .why("as sold; 0 L where there is none")
    .hard(0.0, 5.0);

/// Pressure of the mains.
pub static MAINS_PRESSURE: Entry<Pressure> = Entry::quantity("plumbing.mains_pressure", "mains pressure")
    .why("at the tank, standing; also the precharge of a potable vessel")
    .hard(0.0, 2e6)
    .usual(1e5, 8e5);

/// Relief setting of the tank.
pub static TANK_RELIEF: Entry<Pressure> = Entry::quantity("plumbing.tank_relief", "relief setting of the tank")
    .why("of the temperature and pressure relief valve on the potable side")
    .hard(0.0, 2e6);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &IN_SERIES.spec,
    &RETURN_WAY.spec,
    &PUMP_FLOW.spec,
    &PUMP_HEAD.spec,
    &PUMP_SUCTION.spec,
    &TOP_PRESSURE.spec,
    &COIL_TUBE.spec,
    &COIL_LENGTH.spec,
    &EXCHANGER_UA.spec,
    &STORAGE_FLOW.spec,
    &SLUG.spec,
    &FEED_CLOSED.spec,
    &POTABLE_VESSEL.spec,
    &MAINS_PRESSURE.spec,
    &TANK_RELIEF.spec,
];

/// How the return header of a row runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReturnWay {
    /// At the end where the supply comes in.
    Direct,
    /// At the far end.
    Reverse,
}

impl Choice for ReturnWay {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Direct, "direct", "supply and return at the same end of the row"),
        (Self::Reverse, "reverse", "return at the far end of the row"),
    ];
}

/// What keeps a cold slug from the potable side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SlugProtection {
    /// Nothing.
    None,
    /// A bypass until the loop is warm.
    Bypass,
    /// The potable side flows first.
    PotableFlow,
}

impl Choice for SlugProtection {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::None, "none", "nothing"),
        (Self::Bypass, "bypass", "a valve leads the loop past the exchanger until it is above 5 °C"),
        (Self::PotableFlow, "potable flow", "the potable side is pumped first, until the loop is above 5 °C"),
    ];
}
