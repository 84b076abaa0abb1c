//! What the computed panel would have brought in on each day of the log, in that day's own sun and temperatures.

use super::performance::{Plant, incidence, straightened};
use crate::logger::{DayLog, Log, Spell};
use crate::model::{Fig, Why};
use crate::physics::collector_curve::{CollectorCurve, Weather};
use crate::units::si::{Dimension, Energy, HeatFluxDensity, celsius};

/// Expected heat of every day of a log.
pub fn days(log: &Log, plant: &Plant, curve: &CollectorCurve) -> Fig<Vec<Energy>> {
    log.days.iter().map(|day| expected(day, plant, curve)).collect()
}

/// Q = A Σ (η₀ K G − a₁ ΔT − a₂ ΔT²) t over the quarter hours in which liquid was moved.
///
/// A quarter hour that should have lost heat counts as such. What the panels take up while the pump rests comes later and
/// is left out: on a day of many starts a little more comes than is expected (project rule).
fn expected(day: &DayLog, plant: &Plant, curve: &CollectorCurve) -> Fig<Energy> {
    let one = |spell: &Spell| {
        let slant = incidence(plant, spell.at).recip() - 1.0;
        // A sensor that reads a little below nothing at night sees no sun.
        let straight = straightened(plant, spell.at, spell.sun, slant).max(0.0);
        let weather = Weather { irradiance: HeatFluxDensity::from_si(straight), air: celsius(0.0) };
        let flux = curve.power(weather, celsius(spell.excess)).map_err(Why::out_of_range)?;
        Ok(flux.si() * plant.area.si() * spell.seconds)
    };
    Ok(Energy::from_si(day.spells.iter().map(one).sum::<Fig<f64>>()?))
}
