//! The lag screws in the rafter: what they hold when they are pulled, their pilot holes and edge distances.

use super::entries as e;
use crate::handbook::timber;
use crate::model::{Fig, Inputs, Why};
use crate::physics::lag::{Adjustments, Screw};
use crate::stage::Group;
use crate::units::si::{Force, Length};

/// Factor of load duration for wind (NDS, from memory).
pub const WIND_DURATION: f64 = 1.6;
/// Factor of wet timber for withdrawal (NDS, from memory).
pub const WET: f64 = 0.7;
/// Least edge distance in diameters (NDS, from memory).
const EDGE: f64 = 1.5;
/// Least end distance in diameters under tension along the grain of softwood (NDS, from memory).
const END: f64 = 7.0;
/// Least thread in diameters (NDS asks for it where the screw is loaded sideways; from memory).
const THREAD: f64 = 4.0;

/// What the lags of one mount hold.
pub static LAG: Group = Group {
    name: "lag screws in the rafter",
    entries: &[
        "enclosure.lag_diameter",
        "enclosure.lag_thread",
        "enclosure.lags",
        "enclosure.rafter_timber",
        "enclosure.lag_wet",
    ],
    groups: &[],
};

/// The hole for a lag.
pub static PILOT: Group =
    Group { name: "pilot hole", entries: &["enclosure.lag_diameter", "enclosure.rafter_timber"], groups: &[] };

/// Distances of a lag.
pub static DISTANCES: Group =
    Group { name: "distances of a lag screw", entries: &["enclosure.lag_diameter"], groups: &[] };

fn gravity(inputs: &Inputs) -> Fig<f64> {
    let name = inputs.get(&e::RAFTER_TIMBER)?;
    let species = timber::specific_gravities().get(&name);
    Ok(species.ok_or_else(|| Why::Invalid(vec![e::RAFTER_TIMBER.spec.id.to_owned()]))?.value)
}

/// Factor of moisture as entered.
pub fn moisture(inputs: &Inputs) -> Fig<f64> {
    Ok(if inputs.get(&e::LAG_WET)? { WET } else { 1.0 })
}

/// Allowable withdrawal of all lags of one mount under wind.
pub fn holds(inputs: &Inputs) -> Fig<Force> {
    let screw = Screw {
        diameter: inputs.get(&e::LAG_DIAMETER)?,
        thread: inputs.get(&e::LAG_THREAD)?,
        specific_gravity: gravity(inputs)?,
    };
    let adjustments = Adjustments { duration: WIND_DURATION, moisture: moisture(inputs)?, ..Adjustments::none() };
    Ok(screw.lag_withdrawal(adjustments).map_err(Why::out_of_range)? * inputs.get(&e::LAGS)? as f64)
}

/// Smallest and largest pilot hole for the thread: 40 to 70 % of the shank up to a specific gravity of 0.5, 60 to 75 %
/// up to 0.6, 65 to 85 % above (NDS, from memory).
pub fn pilot(inputs: &Inputs) -> Fig<(Length, Length)> {
    let diameter = inputs.get(&e::LAG_DIAMETER)?;
    let (low, high) = match gravity(inputs)? {
        g if g <= 0.5 => (0.40, 0.70),
        g if g <= 0.6 => (0.60, 0.75),
        _ => (0.65, 0.85),
    };
    Ok((diameter * low, diameter * high))
}

/// Least distance from the axis of a lag to the edge of the timber.
pub fn edge(inputs: &Inputs) -> Fig<Length> {
    Ok(inputs.get(&e::LAG_DIAMETER)? * EDGE)
}

/// Least distance to the end of the timber.
pub fn end(inputs: &Inputs) -> Fig<Length> {
    Ok(inputs.get(&e::LAG_DIAMETER)? * END)
}

/// Least length of thread.
pub fn least_thread(inputs: &Inputs) -> Fig<Length> {
    Ok(inputs.get(&e::LAG_DIAMETER)? * THREAD)
}
