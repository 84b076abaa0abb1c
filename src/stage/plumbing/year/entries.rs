//! What the year asks: tank, controller, further heater, pump and pipes as it sees them, and when water is drawn.

use jiff::civil::Date;

use crate::model::{Choice, Entry, EntrySpec, RowKey, TradeUnits};
use crate::units::si::{Length, Power, Ratio, Temperature, TemperatureInterval, ZERO_CELSIUS};

/// Layers of the tank.
pub static LAYERS: Entry<usize> = Entry::count("plumbing.tank_layers", "layers of the tank")
    .why("1 fully mixed, 4 to 6 with a coil, 8 to 10 well layered: how far the tank keeps hot over cold")
    .hard(1.0, 40.0)
    .usual(1.0, 12.0)
    .default("5");

/// Height of the tank's water.
pub static TANK_HEIGHT: Entry<Length> = Entry::quantity("plumbing.tank_height", "height of the tank")
    .shown_in(TradeUnits::SITE)
    .why("of the water in it; tall and narrow keeps layers and loses more")
    .hard(0.1, 10.0)
    .usual(0.5, 2.5)
    .default("1.5 m");

/// Insulation of the tank.
pub static TANK_INSULATION: Entry<Length> = Entry::quantity("plumbing.tank_insulation", "insulation of the tank")
    .why("all around, foam or wool; bare fittings lose a third more (common practice, no source)")
    .hard(0.0, 1.0)
    .usual(0.02, 0.2)
    .default("50 mm");

/// Air around the tank.
pub static TANK_ROOM: Entry<Temperature> = Entry::quantity("plumbing.tank_room", "air around the tank")
    .why("the mean of the year; where the room can freeze, the tank's pipes can too")
    .hard(ZERO_CELSIUS - 30.0, ZERO_CELSIUS + 60.0)
    .usual(ZERO_CELSIUS + 5.0, ZERO_CELSIUS + 30.0)
    .default("20 °C");

/// Insulation of the loop's pipe.
pub static PIPE_INSULATION: Entry<Length> = Entry::quantity("plumbing.pipe_insulation", "insulation of the loop pipe")
    .why("thickness all around, of a kind that stands the panel's heat")
    .hard(0.0, 0.3)
    .usual(0.01, 0.05)
    .default("19 mm");

/// Kind of exchanger.
pub static EXCHANGER_TYPE: Entry<ExchangerType> = Entry::choice("plumbing.exchanger_type", "exchanger")
    .why("counts where the loop has one: glycol, or drainback with an effectiveness")
    .default("coil");

/// Electric power of the pump.
pub static PUMP_POWER: Entry<Power> = Entry::quantity("plumbing.pump_power", "pump power")
    .shown_in(TradeUnits::ELECTRIC_POWER)
    .why("as read on a plug-in meter, both pumps together; the label tells the most it can be")
    .hard(0.0, 5e3)
    .usual(3.0, 250.0)
    .default("45 W");

/// Difference at which the pump starts.
pub static START: Entry<TemperatureInterval> = Entry::quantity("plumbing.control_start", "pump starts at")
    .why("panel above tank; 8 to 10 K is usual")
    .hard(0.5, 40.0)
    .usual(4.0, 12.0)
    .default("8 K");

/// Difference at which the pump stops.
pub static STOP: Entry<TemperatureInterval> = Entry::quantity("plumbing.control_stop", "pump stops below")
    .why("panel above tank, below the start; 3 to 5 K is usual")
    .hard(0.0, 30.0)
    .usual(1.0, 6.0)
    .default("4 K");

/// Band below the tank's limit.
pub static BAND: Entry<TemperatureInterval> = Entry::quantity("plumbing.tank_band", "band of the tank limit")
    .why("how far the tank must cool below its limit before the pump may run again")
    .hard(0.1, 40.0)
    .usual(2.0, 10.0)
    .default("5 K");

/// Panel above which the pump is not started.
pub static LOCK_OUT: Entry<Temperature> = Entry::quantity("plumbing.lock_out", "panel lock-out")
    .why("a panel hotter than this gets no flow until it has cooled 10 K; left out there is none")
    .hard(ZERO_CELSIUS + 40.0, ZERO_CELSIUS + 200.0)
    .usual(ZERO_CELSIUS + 80.0, ZERO_CELSIUS + 140.0);

/// What heats when the sun does not.
pub static HEATER: Entry<Heater> = Entry::choice("plumbing.auxiliary", "further heater")
    .why("what makes the water hot enough when the sun does not")
    .default("inline");

/// Power of the element.
pub static ELEMENT_POWER: Entry<Power> = Entry::quantity("plumbing.element_power", "element power")
    .shown_in(TradeUnits::ELECTRIC_POWER)
    .why("on its plate")
    .hard(0.0, 1e5)
    .default("2 kW");

/// Temperature at which the element stops.
pub static ELEMENT_SET: Entry<Temperature> = Entry::quantity("plumbing.element_set", "element set to")
    .why("its thermostat; it heats again 5 K lower")
    .hard(ZERO_CELSIUS + 20.0, ZERO_CELSIUS + 95.0)
    .usual(ZERO_CELSIUS + 45.0, ZERO_CELSIUS + 70.0)
    .default("60 °C");

/// Depth of the element.
pub static ELEMENT_DEPTH: Entry<Ratio> = Entry::percent("plumbing.element_depth", "element below the top")
    .why("share of the tank's height: what lies above it is heated, what lies below is left to the sun")
    .default("30 %");

/// How a day's water spreads over its hours.
pub static PROFILE: Entry<Profile> = Entry::choice("plumbing.draw_profile", "when water is drawn")
    .why("published hours of dwellings, or the rows of your own day")
    .default("dwelling");

/// One hour of the builder's own day.
pub static HOUR_SHARE: Entry<Ratio> = Entry::percent("plumbing.draw.*.share", "share of the day's water")
    .why(
        "drawn in the hour that ends at 1 to 24; all rows together count as the whole day, hours without a row as none",
    )
    .rows_by(RowKey::Hour);

/// First day without any draw.
pub static AWAY_FROM: Entry<Date> = Entry::date("plumbing.away.*.from", "nobody draws from")
    .why("first day of a holiday or closing; its year does not count");

/// Days without any draw.
pub static AWAY_DAYS: Entry<usize> = Entry::count("plumbing.away.*.days", "days nobody draws")
    .why("how many days in a row, the first included")
    .hard(0.0, 365.0);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &LAYERS.spec,
    &TANK_HEIGHT.spec,
    &TANK_INSULATION.spec,
    &TANK_ROOM.spec,
    &PIPE_INSULATION.spec,
    &EXCHANGER_TYPE.spec,
    &PUMP_POWER.spec,
    &START.spec,
    &STOP.spec,
    &BAND.spec,
    &LOCK_OUT.spec,
    &HEATER.spec,
    &ELEMENT_POWER.spec,
    &ELEMENT_SET.spec,
    &ELEMENT_DEPTH.spec,
    &PROFILE.spec,
    &HOUR_SHARE.spec,
    &AWAY_FROM.spec,
    &AWAY_DAYS.spec,
];

/// Kind of exchanger.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ExchangerType {
    /// In the tank.
    Coil,
    /// Outside it, with a pump of its own.
    Plate,
}

impl Choice for ExchangerType {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Coil, "coil", "a coil in the lowest part of the tank"),
        (Self::Plate, "plate", "an exchanger outside the tank, with a second pump"),
    ];
}

/// What heats when the sun does not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Heater {
    /// Nothing.
    None,
    /// Behind the tank.
    Inline,
    /// In the tank.
    Element,
}

impl Choice for Heater {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::None, "none", "nothing: what the sun lacks is lacking"),
        (Self::Inline, "inline", "a heater or a second tank behind the solar tank"),
        (Self::Element, "element", "a heating element in the solar tank"),
    ];
}

/// How a day's water spreads over its hours.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Profile {
    /// A published dwelling.
    Dwelling,
    /// A published dwelling by kinds of use.
    Combined,
    /// The same in every hour.
    Even,
    /// The rows of the project.
    Own,
}

impl Choice for Profile {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Dwelling, "dwelling", "a dwelling, ANSI/RESNET 301: most at 7 to 11 and 18 to 21 o'clock"),
        (Self::Combined, "combined", "a dwelling by kinds of use, of a public research programme"),
        (Self::Even, "even", "the same in every hour"),
        (Self::Own, "own", "the rows plumbing.draw.1 to plumbing.draw.24"),
    ];
}
