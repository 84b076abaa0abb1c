//! What is read while the loop is flushed, filled, purged and balanced.

use crate::model::{Entry, EntrySpec, Fold};
use crate::units::Kind;
use crate::units::si::{
    MassDensity, Pressure, Ratio, Temperature, TemperatureInterval, Volume, VolumeRate, ZERO_CELSIUS,
};

/// Litres flushed.
pub static FLUSHED: Entry<Volume> = Entry::quantity("commissioning.flushed", "water flushed through")
    .why("through the loop until a white cloth stays clean, both ways")
    .hard(0.0, 100.0)
    .measured(Fold::Latest);

/// Litres filled.
pub static FILLED: Entry<Volume> = Entry::quantity("commissioning.filled", "liquid filled in")
    .why("by a meter or by weighed cans, without what goes into vessel, exchanger or reservoir")
    .hard(0.0, 10.0)
    .measured(Fold::Latest);

/// Squeeze: liquid added.
pub static SQUEEZE_ADDED: Entry<Volume> = Entry::quantity("commissioning.squeeze_added", "squeeze, liquid added")
    .why("pumped in with the vessel shut off, after purging")
    .hard(1e-9, 1.0)
    .measured(Fold::Latest);

/// Squeeze: gauge before.
pub static SQUEEZE_BEFORE: Entry<Pressure> = Entry::quantity("commissioning.squeeze_before", "squeeze, gauge before")
    .why("on the loop's gauge, cold")
    .hard(0.0, 3e6)
    .measured(Fold::Latest);

/// Squeeze: gauge after.
pub static SQUEEZE_AFTER: Entry<Pressure> = Entry::quantity("commissioning.squeeze_after", "squeeze, gauge after")
    .why("a bar more is plenty; stay below the relief setting")
    .hard(0.0, 3e6)
    .measured(Fold::Latest);

/// Glycol by refractometer.
pub static GLYCOL_READ: Entry<Ratio> = Entry::percent("commissioning.glycol_read", "glycol by refractometer")
    .why("the propylene scale; zeroed on distilled water; two samples 15 minutes apart, each a reading of its own")
    .hard(0.0, 1.0)
    .measured(Fold::Mean);

/// pH of the liquid.
pub static LIQUID_PH: Entry<f64> = Entry::plain("commissioning.liquid_ph", "pH of the loop's liquid", Kind::Number)
    .why("new glycol has 8.5 to 9")
    .hard(0.0, 14.0)
    .measured(Fold::Latest);

/// Temperature of the vessel's gas.
pub static VESSEL_TEMPERATURE: Entry<Temperature> =
    Entry::quantity("commissioning.vessel_temperature", "vessel's temperature at its precharge")
        .why("of the air around it while its charge is read: gas follows its temperature")
        .hard(ZERO_CELSIUS - 30.0, ZERO_CELSIUS + 60.0)
        .default("20 °C");

/// Spread of the panels' outlets.
pub static OUTLETS: Entry<TemperatureInterval> =
    Entry::quantity("commissioning.outlets_spread", "panel outlets, hottest less coldest")
        .why("in steady sun, one thermometer on one outlet after the other")
        .hard(0.0, 60.0)
        .measured(Fold::Latest);

/// Spread of the risers.
pub static RISERS: Entry<TemperatureInterval> =
    Entry::quantity("commissioning.risers_spread", "risers at the top, hottest less coldest")
        .why("of the worst panel; one cold riser holds air or a plug")
        .hard(0.0, 60.0)
        .measured(Fold::Latest);

/// Reading of the float meter.
pub static FLOAT_READ: Entry<VolumeRate> = Entry::quantity("commissioning.float_read", "float meter reads")
    .why("at the widest edge of the float")
    .hard(0.0, 0.02)
    .measured(Fold::Latest);

/// Density of the float.
pub static FLOAT_DENSITY: Entry<MassDensity> = Entry::quantity("commissioning.float_density", "density of the float")
    .why("stainless steel about 8000 kg/m³; from its sheet")
    .hard(1200.0, 20_000.0)
    .default("8000 kg/m3");

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &FLUSHED.spec,
    &FILLED.spec,
    &SQUEEZE_ADDED.spec,
    &SQUEEZE_BEFORE.spec,
    &SQUEEZE_AFTER.spec,
    &GLYCOL_READ.spec,
    &LIQUID_PH.spec,
    &VESSEL_TEMPERATURE.spec,
    &OUTLETS.spec,
    &RISERS.spec,
    &FLOAT_READ.spec,
    &FLOAT_DENSITY.spec,
];
