//! Sun on the collector plane: month by month, with the band of the sky models, behind the skyline and without it.

use super::entries::surroundings::{DECLINATION, HORIZON, MAGNETIC_AZIMUTH};
use super::entries::weather::MONTH_ALBEDO;
use super::entries::{self as e};
use super::{WEATHER, World};
use crate::climate::{Albedo, Climate, Format, HourOfYear, Plane, PlaneYear};
use crate::model::{Fig, Inputs, Why};
use crate::physics::horizon::{Horizon, HorizonPoint};
use crate::physics::transposition::SkyModel;
use crate::stage::Group;
use crate::units::si::{Angle, Dimension, HeatFluxDensity, RadiantExposure, Ratio, Temperature};
use crate::units::{self, Kind};

/// Sun on the collector plane in a typical year.
#[derive(Clone, Debug)]
pub struct Sun {
    /// Month by month, by the middle model, behind the skyline.
    pub monthly: [RadiantExposure; 12],
    /// The year.
    pub annual: RadiantExposure,
    /// Month by month at the cautious end of the band.
    pub monthly_low: [RadiantExposure; 12],
    /// The year by the isotropic sky: the cautious end of the band.
    pub annual_low: RadiantExposure,
    /// Month by month at the hopeful end of the band.
    pub monthly_high: [RadiantExposure; 12],
    /// The year by the Perez sky: the hopeful end of the band.
    pub annual_high: RadiantExposure,
    /// Month by month with a free view.
    pub monthly_free: [RadiantExposure; 12],
    /// Share of the plane's own half of the sky that the skyline leaves.
    pub sky_share: Ratio,
    /// The hours that could drive an empty plate hottest, with a free view; none where the year is made of mean days.
    pub worst_hours: Vec<WorstHour>,
}

/// An hour that could drive an empty plate hottest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorstHour {
    /// Irradiance on the plane.
    pub irradiance: HeatFluxDensity,
    /// Air temperature.
    pub air: Temperature,
}

/// Which way the panels face.
pub static FACING: Group = Group {
    name: "way the panels face",
    entries: &["site.azimuth", "site.magnetic_azimuth", "site.declination"],
    groups: &[],
};

/// The skyline.
pub static SKYLINE: Group = Group { name: "skyline", entries: &["site.horizon.*"], groups: &[] };

/// Reflectance of the ground.
pub static ALBEDO: Group =
    Group { name: "reflectance of the ground", entries: &["site.ground_albedo", "site.monthly.*.albedo"], groups: &[] };

/// Sun on the plane.
pub static SUN: Group =
    Group { name: "sun on the plane", entries: &["site.tilt"], groups: &[&WEATHER, &FACING, &SKYLINE, &ALBEDO] };

/// True azimuth of the panels: as entered, else the compass bearing plus the declination.
pub fn azimuth(inputs: &Inputs) -> Fig<Angle> {
    match inputs.get(&e::AZIMUTH) {
        Err(missing @ Why::Missing(_)) => match inputs.given(&MAGNETIC_AZIMUTH)? {
            Some(magnetic) => {
                let turned = (magnetic + inputs.get(&DECLINATION)?).si();
                Ok(Angle::from_si(turned.rem_euclid(std::f64::consts::TAU)))
            }
            None => Err(missing),
        },
        entered => entered,
    }
}

/// The skyline as entered; level without entries.
pub fn skyline(inputs: &Inputs) -> Fig<Horizon> {
    let mut points = Vec::new();
    for key in inputs.keys(&HORIZON.spec) {
        let azimuth = units::parse(Kind::Angle, &key).map_err(Why::out_of_range)?.typed();
        points.push(HorizonPoint { azimuth, elevation: inputs.at(&HORIZON, &key)? });
    }
    Horizon::new(&points).map_err(Why::out_of_range)
}

/// Reflectance of the ground by month: the month's own, else the year's.
pub fn albedo(inputs: &Inputs) -> Fig<Albedo> {
    let mut months = [inputs.get(&e::GROUND_ALBEDO)?.si(); 12];
    for (index, albedo) in months.iter_mut().enumerate() {
        match inputs.at(&MONTH_ALBEDO, &(index + 1).to_string()) {
            Ok(own) => *albedo = own.si(),
            Err(Why::Missing(_)) => {}
            Err(why) => return Err(why),
        }
    }
    Ok(Albedo(months))
}

/// The cautious, the middle and the hopeful sky for what a year is made of.
///
/// Means of beam and diffuse light make the circumsolar share too large: with monthly means the even sky is the
/// handbook's own path and the middle, and Hay & Davies the hopeful end.
pub const fn models(format: Format) -> [SkyModel; 3] {
    match format {
        Format::MonthlyMeans => [SkyModel::Isotropic, SkyModel::Isotropic, SkyModel::HayDavies],
        _ => [SkyModel::Isotropic, SkyModel::HayDavies, SkyModel::Perez],
    }
}

/// The plane of the panels.
pub fn plane(inputs: &Inputs) -> Fig<Plane> {
    Ok(Plane { tilt: inputs.get(&e::TILT)?, azimuth: azimuth(inputs)?, albedo: albedo(inputs)? })
}

/// Sun on the plane.
pub fn solve(inputs: &Inputs, world: &World) -> Fig<Sun> {
    let climate = world.sky.clone()?;
    let (plane, horizon) = (plane(inputs)?, skyline(inputs)?);
    let format = climate.station().format;
    let [low, middle, high] = models(format);
    let behind = |model| climate.plane_behind(&plane, model, &horizon);
    let at_middle = behind(middle);
    let at_low = if low == middle { at_middle.clone() } else { behind(low) };
    let at_high = behind(high);
    let free = if horizon.is_level() { at_middle.clone() } else { climate.plane(&plane, middle) };
    let hours = if format.is_hourly() { worst_hours(&climate, &free) } else { Vec::new() };

    Ok(Sun {
        monthly: at_middle.month_totals(),
        annual: at_middle.year_total(),
        monthly_low: at_low.month_totals(),
        annual_low: at_low.year_total(),
        monthly_high: at_high.month_totals(),
        annual_high: at_high.year_total(),
        monthly_free: free.month_totals(),
        sky_share: Ratio::from_si(horizon.sky_share(plane.tilt, plane.azimuth)),
        worst_hours: hours,
    })
}

impl Sun {
    /// Share of a month's sun that the skyline takes; zero for a month without sun.
    pub fn lost_in_month(&self, month: usize) -> Ratio {
        share_lost(self.monthly[month].si(), self.monthly_free[month].si())
    }

    /// Share of the year's sun that the skyline takes.
    pub fn lost_in_year(&self) -> Ratio {
        share_lost(self.annual.si(), self.monthly_free.iter().map(|month| month.si()).sum())
    }
}

fn share_lost(left: f64, free: f64) -> Ratio {
    Ratio::from_si(if free > 0.0 { 1.0 - left / free } else { 0.0 })
}

/// Kelvin that an empty plate gains per W/m² of sun: from a poor selective harp to a good matt one. For each of them
/// the hour with the highest sum of air and gain is kept; the plate balance then decides among them.
const GAINS: [f64; 4] = [0.09, 0.11, 0.14, 0.17];

fn worst_hours(climate: &Climate, plane: &PlaneYear) -> Vec<WorstHour> {
    let hours = || HourOfYear::all().zip(climate.hours()).map(|(at, hour)| (plane.hour(at).total(), hour.dry_bulb));
    GAINS
        .iter()
        .filter_map(|gain| hours().max_by(|a, b| (a.1 + gain * a.0).total_cmp(&(b.1 + gain * b.0))))
        .map(|(sun, air)| WorstHour { irradiance: HeatFluxDensity::from_si(sun), air: Temperature::from_si(air) })
        .collect()
}
