//! Entries that belong to the project as a whole and to no stage.

use crate::model::{Choice, Entry, EntrySpec, Inputs};
use crate::units::{System, tape};

/// What the project is called.
pub static NAME: Entry<String> = Entry::text("project.name", "project name").why("printed on every page and card");

/// Who builds.
pub static BUILDER: Entry<String> =
    Entry::text("project.builder", "builder").why("put under readings and sign-offs until another name is given");

/// The family of units that results are printed in.
pub static UNITS: Entry<System> = Entry::choice("project.units", "units of results")
    .why("results only; what you type stays as you typed it")
    .default("si");

/// The finest mark of the tape.
pub static TAPE: Entry<TapeDivision> = Entry::choice("project.tape", "finest tape mark")
    .why("running positions are rounded to it, each on its own from one datum")
    .default("1/16 in");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[&NAME.spec, &BUILDER.spec, &UNITS.spec, &TAPE.spec];

impl Choice for System {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] =
        &[(Self::Us, "us", "inches, gallons, psi, °F"), (Self::Si, "si", "millimetres, litres, bar, °C")];
}

/// The finest division that marks are rounded to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TapeDivision {
    /// Eighths of an inch.
    Eighth,
    /// Sixteenths of an inch.
    Sixteenth,
    /// Thirty-seconds of an inch.
    ThirtySecond,
}

impl Choice for TapeDivision {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Eighth, "1/8 in", "eighths of an inch"),
        (Self::Sixteenth, "1/16 in", "sixteenths of an inch"),
        (Self::ThirtySecond, "1/32 in", "thirty-seconds of an inch"),
    ];
}

/// The division of the tape that marks are rounded to.
pub fn division(inputs: &Inputs) -> tape::Division {
    match inputs.get(&TAPE) {
        Ok(TapeDivision::Eighth) => tape::Division::Eighth,
        Ok(TapeDivision::ThirtySecond) => tape::Division::ThirtySecond,
        _ => tape::Division::Sixteenth,
    }
}
