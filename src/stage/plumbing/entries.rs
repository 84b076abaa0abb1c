//! What the plumbing stage asks. The loop's own rows are in `run` and `part`, pump and exchanger in `service`.

pub mod part;
pub mod run;
pub mod service;

use crate::model::{Choice, Entry, EntrySpec, TradeUnits};
use crate::units::Kind;
use crate::units::si::{HeatTransfer, Length, Pressure, Ratio, Temperature, Volume};

/// Type of loop.
pub static LOOP: Entry<LoopType> =
    Entry::choice("plumbing.loop", "loop").why("decides how it is kept from freezing and what may be in the panel");

/// Glycol by volume.
pub static GLYCOL: Entry<Ratio> = Entry::percent("plumbing.glycol", "propylene glycol by volume")
    .why("what the jug and the refractometer say; never ethylene glycol")
    .hard(0.0, 0.6);

/// Flow per outside area.
pub static FLOW_PER_AREA: Entry<f64> =
    Entry::plain("plumbing.flow_per_area", "flow per collector area", Kind::FlowPerArea)
        .why("two published ranges: 0.9 to 1.2 and 1.6 to 2.0 L/min per m²")
        .hard(1e-7, 2e-4)
        .usual(3e-6, 4e-5);

/// Length of the loop that empties.
pub static DRAINED_LENGTH: Entry<Length> = Entry::quantity("plumbing.drained_length", "loop that drains")
    .shown_in(TradeUnits::SITE)
    .why("there and back, above the reservoir's level; left out it is the whole loop")
    .hard(0.0, 500.0);

/// Effectiveness of the exchanger.
pub static EXCHANGER: Entry<Ratio> = Entry::percent("plumbing.exchanger_effectiveness", "exchanger effectiveness")
    .why("heat moved over the most that could be moved, at the panels' flow; 50 % is the base of a military guide")
    .hard(0.05, 1.0)
    .usual(0.3, 0.9);

/// Which panel the year is computed with.
pub static YEAR_PANEL: Entry<YearPanel> = Entry::choice("plumbing.year_panel", "panel of the year")
    .why("as computed from the drawing, or as measured; a limit on danger takes what was measured only where it is worse")
    .default("computed");

/// Gain of the fitted panel.
pub static FITTED_GAIN: Entry<Ratio> = Entry::percent("plumbing.fitted_gain", "fitted gain F_R(τα)")
    .why("efficiency where inlet and air are equally warm, on absorber area, from a measured log")
    .hard(0.05, 1.0)
    .usual(0.5, 0.85);

/// Loss of the fitted panel.
pub static FITTED_LOSS: Entry<HeatTransfer> = Entry::quantity("plumbing.fitted_loss", "fitted loss F_R U_L")
    .why("slope of the efficiency over inlet less air, on absorber area, from a measured log")
    .hard(0.1, 50.0)
    .usual(2.0, 9.0);

/// Volume of the tank.
pub static TANK: Entry<Volume> =
    Entry::quantity("plumbing.tank", "tank").why("60 to 80 L for each m² of collector is usual").hard(0.005, 20.0);

/// Highest temperature allowed in the tank.
pub static TANK_LIMIT: Entry<Temperature> = Entry::quantity("plumbing.tank_limit", "tank limit")
    .why("at which the pump stops; everything behind it must stand this")
    .hard(crate::units::si::ZERO_CELSIUS + 30.0, crate::units::si::ZERO_CELSIUS + 110.0)
    .usual(crate::units::si::ZERO_CELSIUS + 55.0, crate::units::si::ZERO_CELSIUS + 90.0);

/// People served.
pub static PEOPLE: Entry<usize> = Entry::count("plumbing.people", "people").why("who draw hot water on a usual day");

/// Hot water per person and day.
pub static PER_PERSON: Entry<Volume> = Entry::quantity("plumbing.per_person", "hot water per person and day")
    .why("at the temperature at the tap")
    .hard(0.0, 1.0)
    .usual(0.01, 0.1);

/// Temperature at the tap.
pub static TAP: Entry<Temperature> = Entry::quantity("plumbing.tap", "water at the tap")
    .why("after the mixing valve")
    .hard(crate::units::si::ZERO_CELSIUS + 25.0, crate::units::si::ZERO_CELSIUS + 65.0)
    .usual(crate::units::si::ZERO_CELSIUS + 38.0, crate::units::si::ZERO_CELSIUS + 49.0)
    .default("45 °C");

/// Setting of the relief valve.
pub static RELIEF: Entry<Pressure> = Entry::quantity("plumbing.relief_setting", "relief setting")
    .why("the pressure at which the loop's relief valve opens; 0 for an open loop")
    .hard(0.0, 1.2e6);

/// Weakest part of what is pressure-tested.
pub static WEAKEST: Entry<Pressure> = Entry::quantity("plumbing.weakest_rating", "weakest part under test")
    .why("the lowest pressure rating, at 20 °C, among panels, pipe, valves, hoses and gauge; it holds the test down")
    .hard(1e4, 1e8);

/// Pipe of the loop.
pub static PIPE: Entry<String> =
    Entry::listed("plumbing.pipe", "loop pipe", super::tube_names).why("copper by its handbook name");

/// Length of the loop, there and back.
pub static PIPE_LENGTH: Entry<Length> = Entry::quantity("plumbing.pipe_length", "loop length")
    .shown_in(TradeUnits::SITE)
    .why("there and back, as walked")
    .hard(0.1, 500.0);

/// Elbows of the loop.
pub static ELBOWS: Entry<usize> = Entry::count("plumbing.elbows", "elbows").why("there and back").default("12");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &LOOP.spec,
    &GLYCOL.spec,
    &FLOW_PER_AREA.spec,
    &PIPE.spec,
    &PIPE_LENGTH.spec,
    &ELBOWS.spec,
    &DRAINED_LENGTH.spec,
    &EXCHANGER.spec,
    &YEAR_PANEL.spec,
    &FITTED_GAIN.spec,
    &FITTED_LOSS.spec,
    &TANK.spec,
    &TANK_LIMIT.spec,
    &RELIEF.spec,
    &WEAKEST.spec,
    &PEOPLE.spec,
    &PER_PERSON.spec,
    &TAP.spec,
];

/// Which panel the year is computed with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum YearPanel {
    /// From the drawing.
    Computed,
    /// From measurements, by two numbers.
    Fitted,
    /// From the project's logger file.
    Log,
}

impl Choice for YearPanel {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Computed, "computed", "from the drawing, at the working point"),
        (Self::Fitted, "fitted", "from gain and loss fitted to a measured log, typed below"),
        (Self::Log, "log", "from the line through the points of the project's logger file"),
    ];
}

/// Type of loop.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LoopType {
    /// Potable water through the panel.
    Direct,
    /// Water that drains back when the pump stops.
    Drainback,
    /// Closed loop with glycol and an exchanger.
    Glycol,
    /// No pump; the tank stands above.
    Thermosiphon,
}

impl Choice for LoopType {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Direct, "direct", "the water of the tap runs through the panel, pumped"),
        (Self::Drainback, "drainback", "water runs out of the panel whenever the pump stops"),
        (Self::Glycol, "glycol", "a closed loop with propylene glycol and an exchanger"),
        (Self::Thermosiphon, "thermosiphon", "no pump: the tank stands above the panel"),
    ];
}
