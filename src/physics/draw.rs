//! Hot water drawn: how a day's use spreads over its hours, and how a mixing valve divides it.
//!
//! The tank that gives it lives in `year`, the cold supply with the site.

use super::domain::{DomainError, finite, not_negative, within};
use super::fluid::Fluid;
use crate::units::si::{Dimension, Energy, Temperature, TemperatureInterval, Volume, celsius};

/// A pattern of use over the 24 hours of a day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum DrawProfile {
    /// Dwelling, ANSI/RESNET 301 table 4.6.1.1(1).
    #[default]
    Dwelling,
    /// Dwelling by kind of use, combined, of a research programme of the United States' energy department.
    CombinedUses,
    /// The same in every hour.
    Even,
}

impl DrawProfile {
    /// Every profile, in the order of a list to pick from.
    pub const ALL: [Self; 3] = [Self::Dwelling, Self::CombinedUses, Self::Even];

    /// Share of the day's volume drawn in each hour; the first is 0 to 1 h. The sum is one.
    ///
    /// Both dwellings as quoted in several public codes; the combined uses are printed with a sum of 0.999 and are
    /// divided by it here.
    pub fn fractions(self) -> [f64; 24] {
        match self {
            Self::Dwelling => DWELLING,
            Self::CombinedUses => COMBINED.map(|share| share / COMBINED.iter().sum::<f64>()),
            Self::Even => [1.0 / 24.0; 24],
        }
    }
}

const DWELLING: [f64; 24] = [
    0.0085, 0.0085, 0.0085, 0.0085, 0.0085, 0.0100, 0.0750, 0.0750, 0.0650, 0.0650, 0.0650, 0.0460, 0.0460, 0.0370,
    0.0370, 0.0370, 0.0370, 0.0630, 0.0630, 0.0630, 0.0630, 0.0510, 0.0510, 0.0085,
];
const COMBINED: [f64; 24] = [
    0.006, 0.003, 0.001, 0.001, 0.003, 0.022, 0.075, 0.079, 0.076, 0.067, 0.061, 0.048, 0.042, 0.037, 0.037, 0.033,
    0.044, 0.058, 0.069, 0.065, 0.059, 0.048, 0.042, 0.023,
];

/// Daily volume of a household: 60 L for each of the first two persons, 40 L for each further one (from memory).
pub fn daily_volume(persons: u32) -> Volume {
    let first = persons.min(2);
    Volume::from_si(1e-3 * (60.0 * f64::from(first) + 40.0 * f64::from(persons - first)))
}

/// Hot water as it leaves the tap, made from the cold supply.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HotDraw {
    /// Volume V at the tap, measured hot.
    pub volume: Volume,
    /// Temperature at the tap T.
    pub delivered: Temperature,
    /// Temperature of the cold supply `T_m`.
    pub mains: Temperature,
}

impl HotDraw {
    /// Heat that the water takes, Q = ρ(T) V c_p (T − T_m), c_p at the mean temperature.
    ///
    /// Supply warmer than the tap: no heat is wanted, 0. Liquid water, 0 to 100 °C; nothing is counted for tank,
    /// pipes or a circulation line.
    pub fn heat(&self) -> Result<Energy, DomainError> {
        let volume = not_negative("volume drawn", self.volume.si())?;
        let (freezing, boiling) = (celsius(0.0).si(), celsius(100.0).si());
        let delivered = within("temperature at the tap", self.delivered.si(), freezing, boiling)?;
        let mains = within("temperature of the supply", self.mains.si(), freezing, boiling)?;
        let density = Fluid::Water.density(self.delivered).si();
        let heat = Fluid::Water.specific_heat(Temperature::from_si(0.5 * (delivered + mains))).si();
        Ok(Energy::from_si(density * volume * heat * (delivered - mains).max(0.0)))
    }
}

/// A mixing valve between the tank and the cold supply.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MixingValve {
    /// Temperature set on the valve.
    pub set: Temperature,
    /// Temperature of the cold supply.
    pub mains: Temperature,
    /// Temperature at the top of the tank.
    pub tank: Temperature,
}

/// How a valve makes the mixed water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mixed {
    /// Part of the mixed water that comes from the tank.
    pub tank_share: f64,
    /// What the mixed water lacks to its set temperature; zero while the tank is hot enough.
    pub shortfall: TemperatureInterval,
}

impl MixingValve {
    /// Tank share (T_set − T_mains)/(T_top − T_mains) while the tank is hotter than set, else all from the tank.
    ///
    /// Mains warm enough (T_mains ≥ T_set) need nothing from the tank. Densities and specific heats count as equal.
    pub fn mix(&self) -> Result<Mixed, DomainError> {
        let set = finite("set temperature", self.set.si())?;
        let mains = finite("mains temperature", self.mains.si())?;
        let tank = finite("tank temperature", self.tank.si())?;
        if mains >= set {
            return Ok(Mixed { tank_share: 0.0, shortfall: TemperatureInterval::from_si(0.0) });
        }
        if tank > set {
            let tank_share = (set - mains) / (tank - mains);
            return Ok(Mixed { tank_share, shortfall: TemperatureInterval::from_si(0.0) });
        }
        Ok(Mixed { tank_share: 1.0, shortfall: TemperatureInterval::from_si(set - tank) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_profile_draws_the_whole_day() {
        for profile in DrawProfile::ALL {
            assert!((profile.fractions().iter().sum::<f64>() - 1.0).abs() < 1e-12, "{profile:?}");
        }
    }

    #[test]
    fn the_third_person_draws_less() {
        assert!((daily_volume(1).si() - 0.060).abs() < 1e-12);
        assert!((daily_volume(4).si() - 0.200).abs() < 1e-12);
    }

    /// Enthalpies of water in the steam tables (from memory): 62.98 kJ/kg at 15 °C, 251.18 at 60 °C; 983.2 kg/m³ at 60 °C.
    #[test]
    fn hot_water_takes_the_heat_of_the_steam_tables() {
        let draw = HotDraw { volume: Volume::from_si(0.3), delivered: celsius(60.0), mains: celsius(15.0) };
        let tables = 0.3 * 983.2 * (251.18 - 62.98) * 1e3;
        assert!((draw.heat().unwrap().si() / tables - 1.0).abs() < 2e-3);
        let summer = HotDraw { mains: celsius(61.0), ..draw };
        assert!(summer.heat().unwrap().si().abs() < f64::MIN_POSITIVE);
    }

    #[test]
    fn mixed_water_keeps_the_heat_of_its_parts() {
        let valve = MixingValve { set: celsius(50.0), mains: celsius(12.0), tank: celsius(70.0) };
        let share = valve.mix().unwrap().tank_share;
        assert!((share * 70.0 + (1.0 - share) * 12.0 - 50.0).abs() < 1e-12);
        let warm_mains = MixingValve { mains: celsius(55.0), ..valve };
        assert!(warm_mains.mix().unwrap().tank_share.abs() < 1e-12);
    }
}
