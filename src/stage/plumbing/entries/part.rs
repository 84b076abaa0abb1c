//! The parts of the loop: rows by name. Where a part sits is told by the run that names it.

use crate::model::{Choice, Entry, EntrySpec};
use crate::units::si::{Length, Pressure, Temperature, Volume, VolumeRate, ZERO_CELSIUS};

/// What a part is.
pub static KIND: Entry<PartKind> =
    Entry::choice("plumbing.part.*.kind", "part").why("panels, pump, tank, valve, vessel, vent and so on");

/// Pressure of a part.
pub static SETTING: Entry<Pressure> = Entry::quantity("plumbing.part.*.setting", "its setting")
    .why("relief valve: opens at; check valve: opens at; vessel: precharge, read while the loop is empty")
    .hard(0.0, 2e6);

/// Volume of a part.
pub static VOLUME: Entry<Volume> = Entry::quantity("plumbing.part.*.volume", "its volume")
    .why("vessel and reservoir: as sold; exchanger, filter or coil: what the loop's side holds")
    .hard(0.0, 20.0);

/// Whether a valve cannot be closed by hand.
pub static LOCKED: Entry<bool> = Entry::flag("plumbing.part.*.locked", "handle taken off")
    .why("a valve that stands open and whose handle hangs elsewhere counts as open")
    .default("no");

/// Rise of a part.
pub static RISE: Entry<Length> = Entry::quantity("plumbing.part.*.rise", "its outlet above its inlet")
    .why("of a tank, reservoir or exchanger; of the panels it follows from harp and tilt")
    .hard(-20.0, 20.0);

/// Heat that a part stands.
pub static LIMIT: Entry<Temperature> = Entry::quantity("plumbing.part.*.limit", "hottest it stands")
    .why("from its plate or sheet: pump, membrane of a vessel, automatic vent, mixing valve")
    .hard(ZERO_CELSIUS + 20.0, ZERO_CELSIUS + 600.0);

/// Flow of a test point.
pub static TEST_FLOW: Entry<VolumeRate> = Entry::quantity("plumbing.part.*.test_flow", "test point: flow")
    .why("of exchanger, filter or meter, from its sheet")
    .hard(1e-7, 0.1);

/// Drop at the test point.
pub static TEST_DROP: Entry<Pressure> = Entry::quantity("plumbing.part.*.test_drop", "test point: pressure drop")
    .why("at that flow; it is taken to grow with the square")
    .hard(0.0, 1e7);

/// Pressure that a part bears.
pub static RATING: Entry<Pressure> = Entry::quantity("plumbing.part.*.rating", "pressure it bears")
    .why("from its plate; the relief valve must open below it")
    .hard(0.0, 1e8);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &KIND.spec,
    &SETTING.spec,
    &VOLUME.spec,
    &LOCKED.spec,
    &RISE.spec,
    &LIMIT.spec,
    &TEST_FLOW.spec,
    &TEST_DROP.spec,
    &RATING.spec,
];

/// What a part is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PartKind {
    /// All panels together.
    Panels,
    /// Circulator.
    Pump,
    /// Tank whose water runs through the loop.
    Tank,
    /// Coil in a tank.
    Coil,
    /// Plate or shell exchanger outside the tank.
    Exchanger,
    /// Drainback reservoir open to the air.
    Reservoir,
    /// Drainback reservoir that is closed.
    SealedReservoir,
    /// Check valve.
    CheckValve,
    /// Ball or gate valve.
    IsolatingValve,
    /// Valve that balances a bank.
    BalancingValve,
    /// Relief valve.
    ReliefValve,
    /// Expansion vessel.
    Vessel,
    /// Vent opened by hand.
    AirVent,
    /// Automatic vent.
    AutomaticVent,
    /// Drain cock.
    DrainCock,
    /// Thermostatic mixing valve.
    MixingValve,
    /// Fill and flush port.
    FillPoint,
    /// Filter.
    Filter,
    /// Flow meter.
    FlowMeter,
    /// Gauge or thermometer.
    Gauge,
}

impl PartKind {
    /// Whether it hangs on the loop by one port only: the flow passes by.
    pub const fn is_terminal(self) -> bool {
        matches!(
            self,
            Self::ReliefValve
                | Self::Vessel
                | Self::AirVent
                | Self::AutomaticVent
                | Self::DrainCock
                | Self::FillPoint
                | Self::Gauge
        )
    }

    /// Whether it must be the end of a run, because it stands at two heights or in the tank room.
    pub const fn is_station(self) -> bool {
        matches!(
            self,
            Self::Panels | Self::Tank | Self::Coil | Self::Exchanger | Self::Reservoir | Self::SealedReservoir
        )
    }

    /// Whether it can stand closed, by hand or by itself, in both directions.
    pub const fn can_close(self) -> bool {
        matches!(self, Self::IsolatingValve | Self::BalancingValve | Self::MixingValve)
    }

    /// The name of its line on the bill.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Panels => "loop-panels",
            Self::Pump => "loop-pump",
            Self::Tank => "loop-tank",
            Self::Coil => "loop-coil",
            Self::Exchanger => "loop-exchanger",
            Self::Reservoir => "loop-reservoir",
            Self::SealedReservoir => "loop-sealed-reservoir",
            Self::CheckValve => "loop-check-valve",
            Self::IsolatingValve => "loop-isolating-valve",
            Self::BalancingValve => "loop-balancing-valve",
            Self::ReliefValve => "loop-relief-valve",
            Self::Vessel => "loop-vessel",
            Self::AirVent => "loop-air-vent",
            Self::AutomaticVent => "loop-automatic-vent",
            Self::DrainCock => "loop-drain-cock",
            Self::MixingValve => "loop-mixing-valve",
            Self::FillPoint => "loop-fill-point",
            Self::Filter => "loop-filter",
            Self::FlowMeter => "loop-flow-meter",
            Self::Gauge => "loop-gauge",
        }
    }

    /// Whether pressure leaves the loop through it.
    pub const fn relieves(self) -> bool {
        matches!(self, Self::ReliefValve | Self::Reservoir)
    }
}

impl Choice for PartKind {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Panels, "panels", "all panels together, with their own headers"),
        (Self::Pump, "pump", "circulator"),
        (Self::Tank, "tank", "a tank whose water runs through the loop"),
        (Self::Coil, "coil", "a coil in the tank"),
        (Self::Exchanger, "exchanger", "a plate or shell exchanger outside the tank"),
        (Self::Reservoir, "reservoir", "drainback reservoir, open to the air"),
        (Self::SealedReservoir, "sealed reservoir", "drainback reservoir, closed, with an air cushion"),
        (Self::CheckValve, "check valve", "lets the flow pass one way only"),
        (Self::IsolatingValve, "isolating valve", "ball or gate valve"),
        (Self::BalancingValve, "balancing valve", "valve that sets a flow"),
        (Self::ReliefValve, "relief valve", "opens at its setting"),
        (Self::Vessel, "vessel", "expansion vessel with a membrane"),
        (Self::AirVent, "air vent", "opened by hand"),
        (Self::AutomaticVent, "automatic vent", "opens by itself; shut it off after filling where steam can come"),
        (Self::DrainCock, "drain cock", "at a low point"),
        (Self::MixingValve, "mixing valve", "thermostatic; it can close either way"),
        (Self::FillPoint, "fill point", "port for filling and flushing, with its own cock"),
        (Self::Filter, "filter", "strainer or filter"),
        (Self::FlowMeter, "flow meter", "meter or flow indicator"),
        (Self::Gauge, "gauge", "pressure gauge or thermometer"),
    ];
}
