//! What the site stage asks about sky, wind and water of the place.

use super::FREEZING;
use crate::model::{Choice, Entry, EntrySpec, RowKey};
use crate::units::Kind;
use crate::units::si::{Length, MassDensity, RadiantExposure, Ratio, Temperature, Time};

const HOUR: f64 = 3600.0;
const DAILY_KILOWATT_HOUR: f64 = 3.6e6;

/// Standard time of the place.
pub static TIME_ZONE: Entry<Time> = Entry::quantity("site.time_zone", "standard time, ahead of universal time")
    .why("never daylight saving; the Americas are behind, such as -5 h; only asked for where no weather file is used")
    .hard(-14.0 * HOUR, 14.0 * HOUR);

/// Shift of the weather file's clock.
pub static CLOCK_SHIFT: Entry<Time> = Entry::quantity("site.clock_shift", "shift of the weather file's clock")
    .why("by how much the sun stands later than the stamps of the file say; the audit of the file tells it")
    .hard(-3.0 * HOUR, 3.0 * HOUR)
    .usual(-1.5 * HOUR, 1.5 * HOUR);

/// Linke turbidity, where there is neither file nor means.
pub static LINKE_TURBIDITY: Entry<f64> = Entry::plain("site.linke_turbidity", "Linke turbidity", Kind::Number)
    .why("haze of a clear sky, read only where there is no weather: 2 in mountain air, 3 usual, 4.5 in humid summers")
    .hard(1.0, 10.0)
    .usual(2.0, 5.0)
    .default("3");

/// Mean daily irradiation of level ground in a month.
pub static MONTH_SUN: Entry<RadiantExposure> =
    Entry::quantity("site.monthly.*.sun", "sun on level ground, mean of a day in the month")
        .why("from an almanac, or kept from the weather file so that the project works without it")
        .hard(0.0, 14.0 * DAILY_KILOWATT_HOUR)
        .usual(0.1 * DAILY_KILOWATT_HOUR, 9.0 * DAILY_KILOWATT_HOUR)
        .rows_by(RowKey::Month);

/// Mean air temperature of a month.
pub static MONTH_AIR: Entry<Temperature> = Entry::quantity("site.monthly.*.air", "mean air of the month")
    .why("day and night together, from an almanac or kept from the weather file")
    .hard(FREEZING - 70.0, FREEZING + 50.0)
    .usual(FREEZING - 30.0, FREEZING + 38.0)
    .rows_by(RowKey::Month);

/// Mains water of a month.
pub static MONTH_MAINS: Entry<Temperature> = Entry::quantity("site.monthly.*.mains", "mains water of the month")
    .why("measured at a tap that has run for a while; all twelve are needed to replace the computed ones")
    .hard(FREEZING, FREEZING + 45.0)
    .usual(FREEZING + 2.0, FREEZING + 30.0)
    .rows_by(RowKey::Month);

/// Reflectance of the ground in a month.
pub static MONTH_ALBEDO: Entry<Ratio> = Entry::percent("site.monthly.*.albedo", "ground reflectance of the month")
    .why("for months with snow: old snow 40 %, fresh snow 70 % (from memory); the others keep the year's value")
    .rows_by(RowKey::Month);

/// Where the cold water comes from.
pub static WATER_SOURCE: Entry<WaterSource> = Entry::choice("site.water_source", "cold water")
    .why("street mains follow the seasons, a well hardly does")
    .default("mains");

/// Terrain around the panels.
pub static TERRAIN: Entry<Terrain> = Entry::choice("site.terrain", "terrain around")
    .why("how fast the wind of the station's mast fades toward the ground")
    .default("town");

/// Height of the panels above ground.
pub static PANEL_HEIGHT: Entry<Length> = Entry::quantity("site.panel_height", "height of the panels above ground")
    .why("the wind there is computed from the station's at 10 m")
    .hard(0.0, 100.0)
    .usual(0.3, 15.0)
    .default("3 m");

/// Share of the wind that walls and hedges leave.
pub static WIND_SHELTER: Entry<Ratio> = Entry::percent("site.wind_shelter", "wind left by walls and hedges")
    .why("100 % in the open, about 50 % in a walled yard (from memory); calm air freezes a plate sooner")
    .hard(0.1, 1.5)
    .usual(0.3, 1.0)
    .default("100 %");

/// Hardness of the water.
pub static HARDNESS: Entry<MassDensity> =
    Entry::quantity("site.water_hardness", "water hardness, as calcium carbonate")
        .why("from the supplier's yearly report or a test strip; 1 °dH is 17.8 mg/L, 1 grain to the gallon is 1 gpg")
        .hard(0.0, 5.0)
        .usual(0.005, 0.6);

/// Chloride of the water.
pub static CHLORIDE: Entry<MassDensity> = Entry::quantity("site.water_chloride", "chloride in the water")
    .why("from the supplier's yearly report; hot chloride eats stainless steel")
    .hard(0.0, 30.0)
    .usual(0.001, 0.25);

/// pH of the water.
pub static PH: Entry<f64> = Entry::plain("site.water_ph", "pH of the water", Kind::Number)
    .why("from the supplier's yearly report or a test strip; acid water dissolves copper")
    .hard(0.0, 14.0)
    .usual(6.5, 9.0);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &TIME_ZONE.spec,
    &CLOCK_SHIFT.spec,
    &LINKE_TURBIDITY.spec,
    &MONTH_SUN.spec,
    &MONTH_AIR.spec,
    &MONTH_MAINS.spec,
    &MONTH_ALBEDO.spec,
    &WATER_SOURCE.spec,
    &TERRAIN.spec,
    &PANEL_HEIGHT.spec,
    &WIND_SHELTER.spec,
    &HARDNESS.spec,
    &CHLORIDE.spec,
    &PH.spec,
];

/// Where the cold water comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WaterSource {
    /// A buried main in the street.
    Mains,
    /// A well.
    Well,
}

impl Choice for WaterSource {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Mains, "mains", "a buried main: warmer in late summer, colder in late winter"),
        (Self::Well, "well", "a well: the year's mean air and a little more, all year"),
    ];
}

/// Terrain, by the power with which wind grows with height.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Terrain {
    /// Open water.
    Water,
    /// Smooth grass.
    Grass,
    /// Crops and bushes.
    Crops,
    /// Buildings and trees.
    Town,
}

impl Terrain {
    /// Power a of u = u_ref (z/z_ref)^a: 0.10, 0.15, 0.20, 0.25 (engineering tables, verified on a page).
    pub const fn exponent(self) -> f64 {
        match self {
            Self::Water => 0.10,
            Self::Grass => 0.15,
            Self::Crops => 0.20,
            Self::Town => 0.25,
        }
    }
}

impl Choice for Terrain {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Water, "water", "shore or open water"),
        (Self::Grass, "grass", "smooth grass, an airfield"),
        (Self::Crops, "crops", "crops, bushes, a few houses"),
        (Self::Town, "town", "houses and trees"),
    ];
}
