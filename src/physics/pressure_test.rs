//! Proof by pressure: correction for temperature, gas left in the loop, energy, and what the test could see.
//!
//! Lives here: the physics of a test reading. Must not live here: hold times and pressures required by codes, the
//! order of the steps, how a result is worded.

use super::domain::{DomainError, finite, positive, within};
use super::trapped::ShutWater;
use crate::units::si::{
    Dimension, Energy, Pressure, Temperature, TemperatureInterval, Time, Volume, VolumeRate, difference,
};

/// Ratio of the specific heats of air.
const AIR_EXPONENT: f64 = 1.4;

/// Volume that a closed loop takes or gives for a pascal, S = dV/dp, m³/Pa: liquid, walls and gas together.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Compliance(pub f64);

/// A gauge pressure and a temperature read together.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reading {
    /// Gauge pressure.
    pub pressure: Pressure,
    /// Temperature of the contents.
    pub temperature: Temperature,
}

/// Gauge pressure that a shut gas comes to at another temperature.
///
/// p₂ = (p₁ + p_atm) T₂/T₁ − p_atm. Ideal gas at constant volume, no leak. `atmosphere` is the absolute pressure of
/// the surrounding air.
pub fn air_pressure_at(
    start: Reading,
    temperature: Temperature,
    atmosphere: Pressure,
) -> Result<Pressure, DomainError> {
    let from = positive("temperature at the start", start.temperature.si())?;
    let to = positive("temperature at the end", temperature.si())?;
    let absolute = positive("absolute test pressure", start.pressure.si() + atmosphere.si())?;
    Ok(Pressure::from_si(absolute * to / from - atmosphere.si()))
}

/// Compressed air in a volume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CompressedAir {
    /// The volume.
    pub volume: Volume,
    /// Gauge pressure.
    pub gauge: Pressure,
    /// Absolute pressure of the surrounding air.
    pub atmosphere: Pressure,
}

impl CompressedAir {
    /// Energy that the air gives off in an isentropic fall to the atmosphere.
    ///
    /// E = p₁ V/(k − 1) (1 − (p_a/p₁)^((k−1)/k)), absolute pressures, k = 1.4. Any gauge pressure above zero.
    pub fn energy(&self) -> Result<Energy, DomainError> {
        let volume = positive("volume", self.volume.si())?;
        let gauge = positive("gauge pressure", self.gauge.si())?;
        let atmosphere = positive("pressure of the atmosphere", self.atmosphere.si())?;
        let absolute = gauge + atmosphere;
        let share = 1.0 - (atmosphere / absolute).powf((AIR_EXPONENT - 1.0) / AIR_EXPONENT);
        Ok(Energy::from_si(absolute * volume / (AIR_EXPONENT - 1.0) * share))
    }

    /// Free air that leaked, q = V Δp/(p_a Δt), from a fall of pressure already corrected for temperature.
    pub fn leak(&self, corrected_fall: Pressure, hold: Time) -> Result<VolumeRate, DomainError> {
        let hold = positive("hold time", hold.si())?;
        let atmosphere = positive("pressure of the atmosphere", self.atmosphere.si())?;
        let volume = positive("volume", self.volume.si())?;
        Ok(VolumeRate::from_si(volume * corrected_fall.si() / (atmosphere * hold)))
    }
}

/// Water pumped into a closed loop and the absolute pressures before and after.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Squeeze {
    /// Water added.
    pub added: Volume,
    /// Absolute pressure before.
    pub before: Pressure,
    /// Absolute pressure after.
    pub after: Pressure,
}

impl Squeeze {
    fn check(&self) -> Result<(f64, f64, f64), DomainError> {
        let added = positive("water added", self.added.si())?;
        let before = positive("absolute pressure before", self.before.si())?;
        let rise = positive("rise of pressure", self.after.si() - before)?;
        Ok((added, before, rise))
    }

    /// Gas in the loop at the pressure before: V = ΔV/(1 − p₁/p₂), all of the yield put down to gas (Boyle), so it
    /// reads a little high (water and copper give about 1.1 mL/bar for 18 L). No vessel may be open to the loop.
    pub fn trapped_air(&self) -> Result<Volume, DomainError> {
        let (added, before, rise) = self.check()?;
        Ok(Volume::from_si(added * (before + rise) / rise))
    }

    /// Measured compliance of the loop, S = ΔV/Δp: the sensitivity of a later pressure hold.
    pub fn compliance(&self) -> Result<Compliance, DomainError> {
        let (added, _, rise) = self.check()?;
        Ok(Compliance(added / rise))
    }
}

/// Compliance of a volume of water without gas in copper.
pub fn solid_compliance(volume: Volume, water: ShutWater) -> Compliance {
    Compliance(volume.si() * water.compliance)
}

/// Pressure that a kelvin adds to a closed loop of known compliance: V (β − 3α)/S, Pa/K.
///
/// For water without gas this is [`ShutWater::pressure_per_kelvin`]; gas makes the loop softer and the drift smaller.
pub fn drift_per_kelvin(volume: Volume, water: ShutWater, compliance: Compliance) -> Result<f64, DomainError> {
    Ok(volume.si() * water.expansion / positive("compliance", compliance.0)?)
}

/// Energy stored by compliance alone, E = S p²/2: what water and walls hold at a gauge pressure.
pub fn liquid_energy(compliance: Compliance, gauge: Pressure) -> Energy {
    Energy::from_si(0.5 * compliance.0 * gauge.si().powi(2))
}

/// The test pressure and whether a weaker part held it down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TestPressure {
    /// Gauge pressure to test at.
    pub pressure: Pressure,
    /// The weakest part is rated below 1.5 × the relief setting, so the full proof is not reached.
    pub capped: bool,
}

/// What bounds a test pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TestBounds {
    /// Setting of the relief valve.
    pub relief: Pressure,
    /// Lowest rating at 20 °C among the parts under test.
    pub weakest: Pressure,
}

/// 1.5 × the relief setting, never above the weakest rated part (project rule after the common 1.5-fold rule).
pub fn test_pressure(bounds: TestBounds) -> Result<TestPressure, DomainError> {
    let full = 1.5 * positive("relief setting", bounds.relief.si())?;
    let weakest = positive("rating of the weakest part", bounds.weakest.si())?;
    Ok(TestPressure { pressure: Pressure::from_si(full.min(weakest)), capped: weakest < full })
}

/// A pressure hold.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hold {
    /// Reading at the beginning, after settling.
    pub start: Reading,
    /// Reading at the end.
    pub end: Reading,
    /// Time between them.
    pub time: Time,
    /// Pressure that a kelvin adds to this loop, Pa/K: [`air_drift_per_kelvin`] or [`drift_per_kelvin`].
    pub drift_per_kelvin: f64,
    /// Uncertainty of the difference of the two temperatures.
    pub temperature_uncertainty: TemperatureInterval,
    /// One division of the gauge.
    pub gauge_division: Pressure,
    /// Compliance of the loop, where it is known, to turn a fall of pressure into a leak.
    pub compliance: Option<Compliance>,
    /// Water or bubbles were seen at a joint.
    pub leak_seen: bool,
}

/// Drift of shut air for a kelvin, (p + p_atm)/T, Pa/K.
pub fn air_drift_per_kelvin(start: Reading, atmosphere: Pressure) -> Result<f64, DomainError> {
    let absolute = positive("absolute test pressure", start.pressure.si() + atmosphere.si())?;
    Ok(absolute / positive("temperature at the start", start.temperature.si())?)
}

/// What a hold shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// A leak was seen, or the corrected fall is larger than everything that could excuse it.
    Leak,
    /// The corrected change is within the allowance, and the correction is known well enough to say so.
    NoLeakSeen,
    /// The temperature correction is too uncertain, or the change cannot be a leak or a tight loop.
    CannotTell,
}

/// Figures of a hold beside its outcome.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoldResult {
    /// What the hold shows.
    pub outcome: Outcome,
    /// Change that the temperature explains.
    pub explained: Pressure,
    /// Rest of the change, negative for a fall.
    pub corrected_change: Pressure,
    /// Allowance: the largest of 0.1 bar, 2 % of the test pressure and one gauge division (project rule).
    pub allowance: Pressure,
    /// Uncertainty of the correction.
    pub uncertainty: Pressure,
    /// Smallest steady leak of liquid that this hold could have shown, at test pressure; none without a compliance.
    pub smallest_leak: Option<VolumeRate>,
}

/// Judges a pressure hold.
///
/// Δp_corr = (p₂ − p₁) − S_T (T₂ − T₁). A leak seen is a leak. Otherwise with allowance a and correction uncertainty
/// u = |S_T| u(ΔT): u > a cannot tell; Δp_corr < −(a + u) is a leak; |Δp_corr| ≤ a is no leak seen; anything else (a
/// fall within a + u, an unexplained rise) cannot tell. Smallest leak = S (a + u)/t. Project rule.
pub fn judge(hold: &Hold) -> Result<HoldResult, DomainError> {
    let time = positive("hold time", hold.time.si())?;
    let tested = positive("test pressure", hold.start.pressure.si())?;
    let division = within("gauge division", hold.gauge_division.si(), 0.0, f64::MAX)?;
    let doubt = within("uncertainty of temperature", hold.temperature_uncertainty.si(), 0.0, f64::MAX)?;
    let drift = finite("drift per kelvin", hold.drift_per_kelvin)?;
    positive("temperature at the start", hold.start.temperature.si())?;
    positive("temperature at the end", hold.end.temperature.si())?;
    let compliance = hold.compliance.map(|s| positive("compliance", s.0)).transpose()?;
    let explained = drift * difference(hold.end.temperature, hold.start.temperature).si();
    let corrected = finite("corrected change of pressure", hold.end.pressure.si() - tested - explained)?;
    let allowance = 0.1e5_f64.max(0.02 * tested).max(division);
    let uncertainty = finite("uncertainty of the correction", drift.abs() * doubt)?;
    let outcome = if hold.leak_seen || (uncertainty <= allowance && corrected < -(allowance + uncertainty)) {
        Outcome::Leak
    } else if uncertainty <= allowance && corrected.abs() <= allowance {
        Outcome::NoLeakSeen
    } else {
        Outcome::CannotTell
    };
    let leak = |s: f64| finite("smallest leak", s * (allowance + uncertainty) / time).map(VolumeRate::from_si);
    Ok(HoldResult {
        outcome,
        explained: Pressure::from_si(explained),
        corrected_change: Pressure::from_si(corrected),
        allowance: Pressure::from_si(allowance),
        uncertainty: Pressure::from_si(uncertainty),
        smallest_leak: compliance.map(leak).transpose()?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::si::celsius;

    fn hold(end_bar: f64, end_celsius: f64) -> Hold {
        Hold {
            start: Reading { pressure: Pressure::from_si(4.5e5), temperature: celsius(20.0) },
            end: Reading { pressure: Pressure::from_si(end_bar * 1e5), temperature: celsius(end_celsius) },
            time: Time::from_si(3600.0),
            drift_per_kelvin: 0.2e5,
            temperature_uncertainty: TemperatureInterval::from_si(0.3),
            gauge_division: Pressure::from_si(0.1e5),
            compliance: Some(Compliance(1e-8)),
            leak_seen: false,
        }
    }

    #[test]
    fn a_hold_that_follows_the_temperature_shows_no_leak() {
        assert_eq!(judge(&hold(4.1, 18.0)).unwrap().outcome, Outcome::NoLeakSeen);
        assert_eq!(judge(&hold(4.1, 20.0)).unwrap().outcome, Outcome::Leak);
    }

    #[test]
    fn a_doubtful_temperature_cannot_tell() {
        let doubtful = Hold { temperature_uncertainty: TemperatureInterval::from_si(2.0), ..hold(3.0, 20.0) };
        assert_eq!(judge(&doubtful).unwrap().outcome, Outcome::CannotTell);
        let rising = hold(4.9, 20.0);
        assert_eq!(judge(&rising).unwrap().outcome, Outcome::CannotTell);
    }

    #[test]
    fn a_hold_without_a_number_is_refused_and_not_judged() {
        assert!(judge(&Hold { drift_per_kelvin: f64::NAN, ..hold(4.5, 20.0) }).is_err());
        assert!(judge(&hold(f64::NAN, 20.0)).is_err());
        assert!(judge(&Hold { compliance: Some(Compliance(-1e-8)), ..hold(4.5, 20.0) }).is_err());
    }

    #[test]
    fn a_drop_seen_at_a_joint_is_a_leak_whatever_the_gauge_says() {
        assert_eq!(judge(&Hold { leak_seen: true, ..hold(4.5, 20.0) }).unwrap().outcome, Outcome::Leak);
    }

    #[test]
    fn the_smallest_leak_grows_with_the_compliance() {
        let result = judge(&hold(4.5, 20.0)).unwrap();
        let expected = 1e-8 * (0.1e5 + 0.06e5) / 3600.0;
        assert!((result.smallest_leak.unwrap().si() / expected - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_weak_part_caps_the_test() {
        let capped =
            test_pressure(TestBounds { relief: Pressure::from_si(6e5), weakest: Pressure::from_si(8e5) }).unwrap();
        assert!(capped.capped && (capped.pressure.si() - 8e5).abs() < 1e-6);
    }
}
