//! The hot water that is wanted: litres a day, heat month by month. What the sun gives of it lives in `year`.

use super::entries as e;
use super::year::hours;
use crate::model::{Fig, Inputs, Why};
use crate::physics::draw::HotDraw;
use crate::stage::site::Mains;
use crate::units::si::{Energy, Temperature, Volume};

/// Days of the months of the typical year.
pub const DAYS: [f64; 12] = [31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0];

/// Hot water wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    /// Temperature at the tap.
    pub tap: Temperature,
    /// Heat of each month.
    pub monthly: [Energy; 12],
    /// Heat of a day in the month with the coldest mains.
    pub coldest_day: Energy,
}

impl Load {
    /// Heat wanted in the year.
    pub fn year(&self) -> Energy {
        self.monthly.into_iter().fold(Energy::default(), |sum, month| sum + month)
    }
}

/// Water drawn in a day, at the temperature of the tap.
pub fn daily_volume(inputs: &Inputs) -> Fig<Volume> {
    Ok(inputs.get(&e::PER_PERSON)? * inputs.get(&e::PEOPLE)? as f64)
}

/// Heat wanted, every day of the year alike but for those on which nobody draws.
pub fn load(inputs: &Inputs, mains: &Fig<Mains>) -> Fig<Load> {
    let volume = daily_volume(inputs)?;
    let delivered = inputs.get(&e::TAP)?;
    let mains = mains.as_ref().map_err(Clone::clone)?;
    let day = |mains| HotDraw { volume, delivered, mains }.heat().map_err(Why::out_of_range);
    let away = hours::days_away(inputs)?;
    let mut monthly = [Energy::default(); 12];
    for (month, heat) in monthly.iter_mut().enumerate() {
        *heat = day(mains.monthly[month])? * (DAYS[month] - away[month]);
    }
    Ok(Load { tap: delivered, monthly, coldest_day: day(mains.coldest)? })
}
