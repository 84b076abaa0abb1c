//! What the safety stage asks about the taps: what stands behind the mixing valve, its class, and what was measured there.

use crate::model::{Choice, Entry, EntrySpec, Fold};
use crate::units::si::{Temperature, ZERO_CELSIUS};

/// Use of the tap.
pub static TAP_USE: Entry<TapUse> = Entry::choice("safety.tap_use", "taps behind the mixing valve")
    .why("the one with the lowest set-point, if it feeds several");

/// Class of the valve.
pub static VALVE_CLASS: Entry<ValveClass> = Entry::choice("safety.mixing_valve_class", "mixing valve, class")
    .why("what its standard says that it does; the standard's number is on its plate");

/// Lowest limit of the tank.
pub static LIMIT_LOWEST: Entry<Temperature> =
    Entry::quantity("safety.tank_limit_lowest", "tank limit, lowest to choose")
        .why("what controller or thermostat lets you choose, not what is chosen")
        .hard(ZERO_CELSIUS + 10.0, ZERO_CELSIUS + 110.0);

/// Highest limit of the tank.
pub static LIMIT_HIGHEST: Entry<Temperature> =
    Entry::quantity("safety.tank_limit_highest", "tank limit, highest to choose")
        .why("where the range of controller or thermostat ends")
        .hard(ZERO_CELSIUS + 10.0, ZERO_CELSIUS + 110.0);

/// Hot outlet.
pub static HOT_OUTLET: Entry<Temperature> = outlet("safety.hot_outlet", "hot outlet after a minute")
    .why("at the farthest outlet, before its mixing valve, one minute after it was opened")
    .measured(Fold::Smallest);

/// Cold outlet.
pub static COLD_OUTLET: Entry<Temperature> = outlet("safety.cold_outlet", "cold outlet after two minutes")
    .why("at the farthest outlet, two minutes after it was opened: cold pipes beside hot ones grow warm")
    .measured(Fold::Largest);

/// Whether hot water circulates.
pub static CIRCULATION: Entry<bool> = Entry::flag("safety.circulation", "hot water circulates")
    .why("through a return pipe to the store, by a pump or by itself");

/// Return of the circulation.
pub static RETURN: Entry<Temperature> = outlet("safety.return_temperature", "return of the circulation")
    .why("where the circulating water comes back to the store")
    .measured(Fold::Smallest);

const fn outlet(id: &'static str, label: &'static str) -> Entry<Temperature> {
    Entry::quantity(id, label).hard(ZERO_CELSIUS, ZERO_CELSIUS + 100.0)
}

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &TAP_USE.spec,
    &VALVE_CLASS.spec,
    &LIMIT_LOWEST.spec,
    &LIMIT_HIGHEST.spec,
    &HOT_OUTLET.spec,
    &COLD_OUTLET.spec,
    &CIRCULATION.spec,
    &RETURN.spec,
];

/// What the water behind the valve is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TapUse {
    /// Bath.
    Bath,
    /// Shower.
    Shower,
    /// Wash basin.
    Basin,
    /// Bidet.
    Bidet,
    /// Hand-wash basin open to the public.
    PublicBasin,
}

impl Choice for TapUse {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Bath, "bath", "one country's scheme sets 44 °C; a child's bath is 37 to 37.5 °C"),
        (Self::Shower, "shower", "one country's scheme sets 41 °C"),
        (Self::Basin, "basin", "one country's scheme sets 41 °C"),
        (Self::Bidet, "bidet", "one country's scheme sets 38 °C"),
        (Self::PublicBasin, "public basin", "tempered water to wash hands: 43 °C, 110 °F, by a plumbing code"),
    ];
}

/// What the valve does by its standard.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ValveClass {
    /// Limits at basin or bath.
    Tap,
    /// Belongs to a shower.
    Shower,
    /// Controls the line at the heater.
    Line,
    /// Blends by hand or without a limit.
    Tempering,
}

impl Choice for ValveClass {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Tap, "at the tap", "limits at basin or bath to 49 °C at most (ASSE 1070, EN 1111)"),
        (Self::Shower, "at the shower", "belongs to a shower (ASSE 1016)"),
        (Self::Line, "at the heater", "controls the line (ASSE 1017, EN 15092)"),
        (Self::Tempering, "tempering", "a tempering valve, which no standard calls protection from scald"),
    ];
}
