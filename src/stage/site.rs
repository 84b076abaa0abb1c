//! Site: sun on the plane, weather, mains water, what the place asks for.
//!
//! Which figure comes from where: `rows`. Weather and mains water are computed below, sun, frost, rows of panels and
//! the best tilt in files of their own; the laws are in `physics` and `climate`.

pub mod basis;
pub mod checks;
pub mod entries;
pub mod frost;
pub mod methods;
pub mod orientation;
pub mod pictures;
pub mod rows;
pub mod spacing;
pub mod steps;
pub mod sun;
pub mod surroundings_checks;
pub mod water_checks;
pub mod weather_checks;

use std::sync::Arc;

use super::{Group, World};
use crate::climate::{Climate, Extreme, Format};
use crate::model::{Fig, Inputs, Why};
use crate::physics::mains;
use crate::units::si::{Angle, Dimension, Temperature, TemperatureInterval};
use entries::weather::{MONTH_MAINS, WATER_SOURCE, WaterSource};
use entries::{self as e};
pub use sun::{Sun, WorstHour};

/// The share of the solution that this stage computes.
#[derive(Clone, Debug)]
pub struct Results {
    /// Sun on the plane.
    pub sun: Fig<Sun>,
    /// Weather of the station.
    pub weather: Fig<Weather>,
    /// Mains water.
    pub mains: Fig<Mains>,
    /// Frost of air and plate.
    pub frost: Fig<frost::Frost>,
    /// The coldest air to be prepared for: the entered record low or the file's coldest hour, whichever is colder.
    pub coldest: Fig<Temperature>,
}

/// Weather of the station in a typical year.
#[derive(Clone, Debug)]
pub struct Weather {
    /// The station's name.
    pub station: String,
    /// Mean air temperature of the year.
    pub mean: Temperature,
    /// Mean air temperature of each month.
    pub monthly: [Temperature; 12],
    /// The coldest hour; of a year of mean days no more than the coldest mean night.
    pub lowest: Temperature,
    /// The hottest hour.
    pub highest: Temperature,
    /// Coldest and hottest hour with their dates, where the hours are those of a weather file.
    pub extremes: Option<[Extreme; 2]>,
    /// What the year was made from.
    pub format: Format,
    /// What the audit of the file found.
    pub warnings: Vec<String>,
}

/// Mains water through the year.
#[derive(Clone, Debug)]
pub struct Mains {
    /// Mean temperature of each month.
    pub monthly: [Temperature; 12],
    /// The coldest month.
    pub coldest: Temperature,
}

/// What decides the sky: the weather file, or what a year is made from.
pub static WEATHER: Group = Group {
    name: "weather",
    entries: &[
        "site.weather_file",
        "site.weather_sha256",
        "site.clock_shift",
        "site.monthly.*.sun",
        "site.monthly.*.air",
        "site.latitude",
        "site.longitude",
        "site.altitude",
        "site.time_zone",
        "site.linke_turbidity",
    ],
    groups: &[],
};

/// Mains water.
pub static MAINS: Group = Group {
    name: "mains water",
    entries: &["site.latitude", "site.water_source", "site.monthly.*.mains"],
    groups: &[&WEATHER],
};

/// The coldest air.
pub static COLDEST: Group = Group { name: "coldest air", entries: &["site.record_low"], groups: &[&WEATHER] };

/// Sun on the plane.
pub use sun::SUN;

/// Solves the stage. What walks all hours of the year is taken from `earlier` if what it hangs on is unchanged.
pub fn solve(inputs: &Inputs, world: &World, earlier: Option<&super::Solution>) -> Results {
    let weather = world.sky.clone().and_then(|climate| weather(&climate));
    let kept = |group: &Group| earlier.filter(|earlier| unchanged(group, inputs, world, earlier));
    let sun = kept(&SUN).map_or_else(|| sun::solve(inputs, world), |earlier| earlier.site.sun.clone());
    let frost = kept(&frost::FROST).map_or_else(|| frost::solve(inputs, world), |earlier| earlier.site.frost.clone());
    Results { sun, frost, mains: mains_water(inputs, world), coldest: coldest(inputs, &weather), weather }
}

/// Whether a group would come out as it did: the same sky, and every entry that it reads typed as it was.
fn unchanged(group: &Group, inputs: &Inputs, world: &World, earlier: &super::Solution) -> bool {
    let same_sky = match (&world.sky, &earlier.world.sky) {
        (Ok(now), Ok(then)) => Arc::ptr_eq(now, then),
        (Err(now), Err(then)) => now == then,
        _ => false,
    };
    same_sky && group.depends().iter().all(|id| inputs.typed_like(id).eq(earlier.inputs.typed_like(id)))
}

fn weather(climate: &Climate) -> Fig<Weather> {
    let format = climate.station().format;
    if format == Format::ClearSky {
        return Err(Why::out_of_range("a clear sky is no weather: enter a weather file or twelve monthly means"));
    }
    Ok(Weather {
        station: climate.station().name.clone(),
        mean: climate.mean_temperature(),
        monthly: climate.monthly_temperature(),
        lowest: climate.lowest_temperature(),
        highest: climate.highest_temperature(),
        extremes: format.is_hourly().then(|| [climate.coldest(), climate.hottest()]),
        format,
        warnings: climate.audit().warnings.iter().map(ToString::to_string).collect(),
    })
}

impl Weather {
    /// Coldest and hottest hour with their dates.
    pub fn extremes(&self) -> Fig<[Extreme; 2]> {
        self.extremes.ok_or_else(|| frost::needs_file(self.format))
    }
}

/// Warmth of a well above the year's mean air, K (from memory: 1 to 2 K).
const WELL_ABOVE_AIR: f64 = 1.5;

fn mains_water(inputs: &Inputs, world: &World) -> Fig<Mains> {
    let monthly = match basis::twelve(inputs, &MONTH_MAINS) {
        Ok(entered) => entered,
        Err(Why::Missing(missing)) if missing.len() == 12 => computed_mains(inputs, world)?,
        Err(why) => return Err(why),
    };
    let coldest = monthly.iter().copied().reduce(|a, b| if b < a { b } else { a }).unwrap_or(monthly[0]);
    Ok(Mains { monthly, coldest })
}

fn computed_mains(inputs: &Inputs, world: &World) -> Fig<[Temperature; 12]> {
    let climate = world.sky.clone()?;
    weather(&climate)?; // without known air there is no water temperature
    if inputs.get(&WATER_SOURCE)? == WaterSource::Well {
        return Ok([climate.mean_temperature() + TemperatureInterval::from_si(WELL_ABOVE_AIR); 12]);
    }
    let law = mains::Mains { southern: inputs.get(&e::LATITUDE)?.si() < 0.0, ..climate.mains() };
    Ok(MID_MONTH.map(|day| mains::temperature(law, day).temperature))
}

/// The day of the year in the middle of each month.
pub const MID_MONTH: [f64; 12] = [16.0, 45.0, 75.0, 105.0, 136.0, 166.0, 197.0, 228.0, 258.0, 289.0, 319.0, 350.0];

fn coldest(inputs: &Inputs, weather: &Fig<Weather>) -> Fig<Temperature> {
    let file = weather.as_ref().ok().and_then(|weather| weather.extremes).map(|[coldest, _]| coldest.temperature);
    match (inputs.given(&e::RECORD_LOW)?, file) {
        (Some(entered), Some(file)) => Ok(if file < entered { file } else { entered }),
        (Some(entered), None) => Ok(entered),
        (None, Some(file)) => Ok(file),
        (None, None) => Err(Why::missing(e::RECORD_LOW.spec.id)),
    }
}

/// Height of the sun at noon on the longest and on the shortest day: 90° − |latitude ∓ 23.45°|.
///
/// Cooper 1969 as in Duffie & Beckman 1.6.1 (verified): the declination at the solstices is ±23.45°.
pub fn noon_heights(latitude: Angle) -> (Angle, Angle) {
    let degrees = latitude.si().to_degrees().abs();
    let height = |declination: f64| Angle::from_si((90.0 - (degrees - declination).abs()).to_radians());
    (height(23.45), height(-23.45))
}
