//! Frost: the air's, and that of a still plate under the night sky, which freezes with the air above zero.

use super::entries::weather::{PANEL_HEIGHT, TERRAIN, WIND_SHELTER};
use super::{WEATHER, World, basis};
use crate::climate::{Climate, Format, HourOfYear};
use crate::model::{Fig, Inputs, Why};
use crate::physics::atmosphere::{MeasuredWind, wind_at};
use crate::physics::freezing::{Night, NightPanel, night_plate};
use crate::physics::sky::SkyLaw;
use crate::stage::Group;
use crate::units::si::{Dimension, Length, Temperature, Velocity, celsius};

/// Height of the mast of weather stations.
const MAST: f64 = 10.0;
/// The wind law of the night ends here, m/s; a plate in stronger wind is at the air's temperature within half a kelvin.
const STRONGEST_WIND: f64 = 20.0;
/// Air at which the plate may already freeze whatever the sky: below it hours are counted beside those below zero.
const NEAR_FROST: f64 = 4.0;

/// Frost of a typical year.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frost {
    /// Hours with the air at or below 0 °C.
    pub air_hours: usize,
    /// Days with such an hour.
    pub air_days: usize,
    /// Hours with the air at or below 4 °C.
    pub near_hours: usize,
    /// Days with such an hour.
    pub near_days: usize,
    /// Dark hours in which a still plate falls below 0 °C.
    pub plate_hours: usize,
    /// Nights, from noon to noon, with such an hour.
    pub plate_nights: usize,
    /// The coldest that the plate gets.
    pub coldest_plate: Temperature,
    /// The warmest air in which the plate still froze; none if it never did.
    pub warmest_air: Option<Temperature>,
    /// How the sky's temperature was found in most of the dark hours.
    pub sky_law: SkyLaw,
}

/// The wind at the panels.
pub static WIND: Group = Group {
    name: "wind at the panels",
    entries: &["site.terrain", "site.panel_height", "site.wind_shelter"],
    groups: &[&WEATHER],
};

/// Frost of air and plate.
pub static FROST: Group = Group { name: "frost", entries: &[], groups: &[&WIND] };

/// What the wind of a station's mast becomes at the panels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sheltered {
    exponent: f64,
    height: Length,
    share: f64,
}

impl Sheltered {
    /// Reads terrain, height and shelter.
    pub fn of(inputs: &Inputs) -> Fig<Self> {
        Ok(Self {
            exponent: inputs.get(&TERRAIN)?.exponent(),
            height: inputs.get(&PANEL_HEIGHT)?,
            share: inputs.get(&WIND_SHELTER)?.si(),
        })
    }

    /// The wind at the panels.
    pub fn wind(&self, speed: Velocity) -> Velocity {
        wind_at(MeasuredWind { speed, height: Length::from_si(MAST), exponent: self.exponent }, self.height)
            * self.share
    }
}

/// The climate, where its hours are those of a weather file.
pub fn hourly(world: &World) -> Fig<std::sync::Arc<Climate>> {
    let climate = world.sky.clone()?;
    let format = climate.station().format;
    if format.is_hourly() { Ok(climate) } else { Err(needs_file(format)) }
}

/// Why a made year cannot answer.
pub fn needs_file(format: Format) -> Why {
    Why::out_of_range(format_args!("this needs a weather file; now all rests on {}", basis::words(format)))
}

/// Counts the frost of a typical year.
pub fn solve(inputs: &Inputs, world: &World) -> Fig<Frost> {
    let climate = hourly(world)?;
    let sheltered = Sheltered::of(inputs)?;
    let zero = celsius(0.0);
    let mut nights = [false; 365];
    let mut laws: Vec<(SkyLaw, usize)> = Vec::new();
    let (mut plate_hours, mut coldest, mut warmest) = (0, None::<Temperature>, None::<Temperature>);
    for (at, hour) in HourOfYear::all().zip(climate.hours()).filter(|(_, hour)| hour.sunlight.global <= 0.0) {
        let (sky, law) = climate.sky_temperature(at);
        match laws.iter_mut().find(|(known, _)| *known == law) {
            Some((_, count)) => *count += 1,
            None => laws.push((law, 1)),
        }
        let air = Temperature::from_si(hour.dry_bulb);
        let wind = sheltered.wind(Velocity::from_si(hour.wind)).si().min(STRONGEST_WIND);
        let night = Night { air, sky, wind: Velocity::from_si(wind) };
        let plate = night_plate(NightPanel::default(), night).map_err(Why::out_of_range)?;
        coldest = Some(coldest.map_or(plate, |so_far| if plate < so_far { plate } else { so_far }));
        if plate < zero {
            plate_hours += 1;
            nights[(at.index() + 12) / 24 % 365] = true;
            warmest = Some(warmest.map_or(air, |so_far| if air > so_far { air } else { so_far }));
        }
    }
    let no_night = || Why::out_of_range("the weather file has no dark hour");
    let near = celsius(NEAR_FROST);
    Ok(Frost {
        air_hours: climate.hours_at_or_below(zero),
        air_days: climate.days_at_or_below(zero),
        near_hours: climate.hours_at_or_below(near),
        near_days: climate.days_at_or_below(near),
        plate_hours,
        plate_nights: nights.iter().filter(|night| **night).count(),
        coldest_plate: coldest.ok_or_else(no_night)?,
        warmest_air: warmest,
        sky_law: laws.into_iter().max_by_key(|(_, count)| *count).map(|(law, _)| law).ok_or_else(no_night)?,
    })
}
