//! Wind, snow and dead load on one panel, and what they come to together. Screening only.
//!
//! Lives here: the code's pressures laid over this design. Must not live here: mounts, racks and what holds them
//! (`rack`, `chain`). No coefficient has a default: one that is missing makes everything behind it unknown.

pub mod entries;
pub mod rows;

use super::mass;
use crate::model::{Fig, Why};
use crate::physics::hydrostatics::STANDARD_GRAVITY;
use crate::physics::snow::{self, Snow, SnowPressures};
use crate::physics::wind::{WindFactors, velocity_pressure};
use crate::stage::site::entries as site;
use crate::stage::{Group, Solution};
use crate::units::si::{Angle, Area, Dimension, Force, Mass, Pressure};
use entries::{self as e, Edition};

/// Load factor of the wind in allowable stress design (ASCE 7 combinations, from memory).
pub const WIND_SHARE: f64 = 0.6;
/// Load factor of a dead load that helps (the same).
pub const HELPING_DEAD: f64 = 0.6;
/// Factor on snow and wind that come together (the same).
const TOGETHER: f64 = 0.75;

/// The wind by the code.
pub static WIND: Group = Group {
    name: "velocity pressure of the wind",
    entries: &[
        "site.wind_speed",
        "enclosure.wind_edition",
        "enclosure.wind_exposure",
        "enclosure.wind_height",
        "enclosure.wind_topography",
        "enclosure.wind_direction",
        "enclosure.wind_elevation",
    ],
    groups: &[],
};

/// K_z alone.
pub static EXPOSURE: Group = Group {
    name: "exposure to the wind",
    entries: &["enclosure.wind_edition", "enclosure.wind_exposure", "enclosure.wind_height"],
    groups: &[],
};

/// Suction on a panel.
pub static SUCTION: Group = Group {
    name: "suction on a panel",
    entries: &["enclosure.suction_coefficient", "enclosure.array_factor"],
    groups: &[&WIND],
};

/// Push on a panel.
pub static PUSH: Group = Group {
    name: "push on a panel",
    entries: &["enclosure.push_coefficient", "enclosure.array_factor"],
    groups: &[&WIND],
};

/// Snow on the flat and on the slope, and on the glass.
pub static SNOW_FLAT: Group = Group {
    name: "snow on the flat",
    entries: &["site.snow_load", "enclosure.snow_exposure", "enclosure.snow_thermal", "enclosure.snow_importance"],
    groups: &[],
};

/// Snow on the slope.
pub static SNOW_SLOPED: Group =
    Group { name: "snow on the slope", entries: &["enclosure.snow_slope"], groups: &[&SNOW_FLAT] };

/// Snow on the glass.
pub static SNOW: Group = Group { name: "snow on the glass", entries: &["site.tilt"], groups: &[&SNOW_SLOPED] };

/// Dead load, dry.
pub static DEAD_DRY: Group =
    Group { name: "dead load, dry", entries: &["enclosure.rack_mass"], groups: &[&super::MASS, &super::BOX] };

/// Dead load, full.
pub static DEAD_WET: Group =
    Group { name: "dead load, full", entries: &["enclosure.rack_mass"], groups: &[&super::WET, &super::BOX] };

/// Net uplift.
pub static UP: Group = Group { name: "net uplift", entries: &["site.tilt"], groups: &[&SUCTION, &DEAD_DRY] };

/// Net load downward.
pub static DOWN: Group =
    Group { name: "net load downward", entries: &["site.tilt"], groups: &[&PUSH, &SNOW, &DEAD_WET] };

/// The wind by the code.
#[derive(Clone, Copy, Debug)]
pub struct Wind {
    /// Velocity pressure as the edition prints it.
    pub printed: Pressure,
    /// The same with the factor of direction.
    pub directed: Pressure,
}

/// K_z by the edition.
pub fn exposure(s: &Solution) -> Fig<f64> {
    let exposure = s.inputs.get(&e::EXPOSURE)?.law();
    let height = s.inputs.get(&e::HEIGHT)?;
    match s.inputs.get(&e::EDITION)? {
        Edition::Y2016 => exposure.coefficient(height),
        Edition::Y2022 => exposure.coefficient_of_2022(height),
    }
    .map_err(Why::out_of_range)
}

/// The velocity pressure. The edition of 2022 prints it without the factor of direction, which it puts on the net
/// pressure (from memory).
pub fn wind(s: &Solution) -> Fig<Wind> {
    let gust = s.inputs.get(&site::WIND_SPEED)?;
    let direction = s.inputs.get(&e::DIRECTION)?.si();
    let factors = WindFactors {
        exposure: exposure(s)?,
        topography: s.inputs.get(&e::TOPOGRAPHY)?.si(),
        directionality: 1.0,
        elevation: s.inputs.get(&e::ELEVATION)?.si(),
    };
    let bare = velocity_pressure(gust, factors).map_err(Why::out_of_range)?;
    let directed = bare * direction;
    let printed = match s.inputs.get(&e::EDITION)? {
        Edition::Y2016 => directed,
        Edition::Y2022 => bare,
    };
    Ok(Wind { printed, directed })
}

/// Net suction away from the roof, strength level.
pub fn suction(s: &Solution) -> Fig<Pressure> {
    let factor = s.inputs.get(&e::SUCTION_COEFFICIENT)?.si() * s.inputs.get(&e::ARRAY_FACTOR)?.si();
    Ok(wind(s)?.directed * factor)
}

/// Net push toward the roof, strength level.
pub fn push(s: &Solution) -> Fig<Pressure> {
    let factor = s.inputs.get(&e::PUSH_COEFFICIENT)?.si() * s.inputs.get(&e::ARRAY_FACTOR)?.si();
    Ok(wind(s)?.directed * factor)
}

/// Snow; where the code asks for none, no factor is needed.
pub fn snow(s: &Solution) -> Fig<SnowPressures> {
    let tilt = s.inputs.get(&site::TILT)?;
    snow::pressures(snow_on(s, true)?, tilt).map_err(Why::out_of_range)
}

/// Snow on the flat: neither slope nor tilt is asked.
pub fn snow_flat(s: &Solution) -> Fig<Pressure> {
    let level = Angle::from_si(0.0);
    Ok(snow::pressures(snow_on(s, false)?, level).map_err(Why::out_of_range)?.flat)
}

/// Snow on the slope, per level area: the tilt acts through the factor that the code gives for it.
pub fn snow_sloped(s: &Solution) -> Fig<Pressure> {
    let level = Angle::from_si(0.0);
    Ok(snow::pressures(snow_on(s, true)?, level).map_err(Why::out_of_range)?.sloped)
}

fn snow_on(s: &Solution, sloped: bool) -> Fig<Snow> {
    let ground = s.inputs.get(&site::SNOW_LOAD)?;
    if ground.si() == 0.0 {
        return Ok(Snow { ground, exposure: 1.0, thermal: 1.0, importance: 1.0, slope: 1.0 });
    }
    Ok(Snow {
        ground,
        exposure: s.inputs.get(&e::SNOW_EXPOSURE)?.si(),
        thermal: s.inputs.get(&e::SNOW_THERMAL)?.si(),
        importance: s.inputs.get(&e::SNOW_IMPORTANCE)?.si(),
        slope: if sloped { s.inputs.get(&e::SNOW_SLOPE)?.si() } else { 1.0 },
    })
}

/// Outside area of one panel.
pub fn area(s: &Solution) -> Fig<Area> {
    let timber_box = s.enclosure.timber_box.as_ref().map_err(Clone::clone)?;
    Ok(timber_box.outside_width * timber_box.outside_length)
}

/// One panel and its share of the rack, empty.
pub fn mass_dry(s: &Solution) -> Fig<Mass> {
    let masses: mass::Masses = s.enclosure.masses.clone()?;
    Ok(masses.dry() + s.inputs.get(&e::RACK_MASS)?)
}

/// The same, full.
pub fn mass_wet(s: &Solution) -> Fig<Mass> {
    Ok(s.enclosure.wet.clone()? + s.inputs.get(&e::RACK_MASS)?)
}

/// Weight over the panel's own area.
pub fn dead(s: &Solution, mass: Mass) -> Fig<Pressure> {
    Ok(weight(mass) / area(s)?)
}

/// Weight of a mass.
pub fn weight(mass: Mass) -> Force {
    Force::from_si(mass.si() * STANDARD_GRAVITY)
}

/// Net uplift normal to the panel, 0.6 W − 0.6 D cos(tilt); negative where the weight holds it.
pub fn up(s: &Solution) -> Fig<Pressure> {
    let cos = s.inputs.get(&site::TILT)?.si().cos();
    let dead = dead(s, mass_dry(s)?)?;
    Ok(suction(s)? * WIND_SHARE - dead * (HELPING_DEAD * cos))
}

/// The load downward normal to the panel that governs, and its combination.
#[derive(Clone, Copy, Debug)]
pub struct Down {
    /// Pressure on the panel.
    pub pressure: Pressure,
    /// The combination.
    pub combination: &'static str,
}

/// The governing one of D + S, D + 0.6 W and D + 0.75 S + 0.75 (0.6 W), normal to the panel.
pub fn down(s: &Solution) -> Fig<Down> {
    let cos = s.inputs.get(&site::TILT)?.si().cos();
    let dead = dead(s, mass_wet(s)?)? * cos;
    let snow = snow(s)?.normal_to_glass;
    let wind = push(s)? * WIND_SHARE;
    let cases = [
        ("D + S", dead + snow),
        ("D + 0.6 W", dead + wind),
        ("D + 0.75 S + 0.75 (0.6 W)", dead + (snow + wind) * TOGETHER),
    ];
    let mut worst = Down { pressure: cases[0].1, combination: cases[0].0 };
    for (combination, pressure) in cases {
        if pressure > worst.pressure {
            worst = Down { pressure, combination };
        }
    }
    Ok(worst)
}
