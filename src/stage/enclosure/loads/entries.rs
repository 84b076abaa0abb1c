//! What the local code gives for wind and snow. None of it has a default.

use crate::model::{Choice, Entry, EntrySpec};
use crate::physics::wind;
use crate::units::si::{Length, Mass, Ratio};

/// Edition of the code.
pub static EDITION: Entry<Edition> =
    Entry::choice("enclosure.wind_edition", "edition of the wind code").why("which edition your wind speed map is of");

/// Exposure.
pub static EXPOSURE: Entry<Exposure> =
    Entry::choice("enclosure.wind_exposure", "exposure to the wind").why("what lies upwind, as the code defines it");

/// Height.
pub static HEIGHT: Entry<Length> = Entry::quantity("enclosure.wind_height", "height for the wind")
    .why("mean roof height on a house, middle of the panel on the ground")
    .hard(0.0, 160.0) // the code's table ends at 500 ft
    .usual(0.5, 15.0);

/// Hills.
pub static TOPOGRAPHY: Entry<Ratio> = Entry::quantity("enclosure.wind_topography", "factor K_zt for hills")
    .why("1 on level ground; more on hills and escarpments, from the code")
    .hard(0.3, 3.0);

/// Direction.
pub static DIRECTION: Entry<Ratio> = Entry::quantity("enclosure.wind_direction", "factor K_d for direction")
    .why("from the code (0.85 for building parts is recalled, for orientation)")
    .hard(0.3, 1.0);

/// Elevation of the ground.
pub static ELEVATION: Entry<Ratio> = Entry::quantity("enclosure.wind_elevation", "factor K_e for altitude")
    .why("from the code; 1 may always be taken (recalled, for orientation)")
    .hard(0.3, 1.2);

/// Suction.
pub static SUCTION_COEFFICIENT: Entry<Ratio> =
    Entry::quantity("enclosure.suction_coefficient", "net coefficient, suction")
        .why("size of the code's net coefficient away from the roof, for your zone and tilt; recalled: 0.9 to 3")
        .hard(0.0, 6.0);

/// Push.
pub static PUSH_COEFFICIENT: Entry<Ratio> = Entry::quantity("enclosure.push_coefficient", "net coefficient, push")
    .why("size of the code's net coefficient toward the roof or the rack; recalled: 0.3 to 2.6")
    .hard(0.0, 6.0);

/// Array.
pub static ARRAY_FACTOR: Entry<Ratio> = Entry::quantity("enclosure.array_factor", "factors of array and edge")
    .why("all further factors of the code in one product, 1 where it has none")
    .hard(0.1, 4.0);

/// Snow exposure.
pub static SNOW_EXPOSURE: Entry<Ratio> =
    Entry::quantity("enclosure.snow_exposure", "snow factor C_e, exposure").why("from the code").hard(0.5, 2.0);

/// Snow thermal.
pub static SNOW_THERMAL: Entry<Ratio> = Entry::quantity("enclosure.snow_thermal", "snow factor C_t, thermal")
    .why("from the code; a cold panel keeps its snow")
    .hard(0.5, 2.0);

/// Snow importance.
pub static SNOW_IMPORTANCE: Entry<Ratio> =
    Entry::quantity("enclosure.snow_importance", "snow factor I_s, importance").why("from the code").hard(0.5, 2.0);

/// Snow slope.
pub static SNOW_SLOPE: Entry<Ratio> = Entry::quantity("enclosure.snow_slope", "snow factor C_s, slope")
    .why("from the code for a slippery surface at your tilt; 1 where the snow cannot slide off")
    .hard(0.0, 1.0);

/// Mass of the rack.
pub static RACK_MASS: Entry<Mass> = Entry::quantity("enclosure.rack_mass", "rack, share of one panel")
    .why("rails, brackets, clamps and legs by one panel; what is not weighed cannot be counted")
    .hard(0.0, 500.0)
    .usual(2.0, 60.0);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &EDITION.spec,
    &EXPOSURE.spec,
    &HEIGHT.spec,
    &TOPOGRAPHY.spec,
    &DIRECTION.spec,
    &ELEVATION.spec,
    &SUCTION_COEFFICIENT.spec,
    &PUSH_COEFFICIENT.spec,
    &ARRAY_FACTOR.spec,
    &SNOW_EXPOSURE.spec,
    &SNOW_THERMAL.spec,
    &SNOW_IMPORTANCE.spec,
    &SNOW_SLOPE.spec,
    &RACK_MASS.spec,
];

/// Edition of the wind code.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edition {
    /// 2016 and before.
    Y2016,
    /// 2022.
    Y2022,
}

impl Choice for Edition {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Y2016, "2016", "ASCE 7-16 and older: K_d stands in the velocity pressure"),
        (Self::Y2022, "2022", "ASCE 7-22: K_d stands on the net pressure, another law of height (from memory)"),
    ];
}

/// Exposure of the site.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Exposure {
    /// Town.
    B,
    /// Open country.
    C,
    /// Coast.
    D,
}

impl Exposure {
    /// The law of height.
    pub const fn law(self) -> wind::Exposure {
        match self {
            Self::B => wind::Exposure::B,
            Self::C => wind::Exposure::C,
            Self::D => wind::Exposure::D,
        }
    }
}

impl Choice for Exposure {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::B, "B", "town, suburb or wood upwind"),
        (Self::C, "C", "open country upwind"),
        (Self::D, "D", "flat coast or water upwind"),
    ];
}
