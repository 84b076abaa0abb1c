//! Flow measured by hand: bucket and watch, float meter; with their uncertainties.
//!
//! Lives here: what a reading means and how well it is known. Must not live here: target flows, heat from flow
//! (`performance_point`).

use super::domain::{DomainError, positive, within};
use super::statistics::Repeats;
use crate::units::si::{Dimension, MassDensity, Ratio, Time, Volume, VolumeRate};

/// A volume caught, and how well it is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Catch {
    /// Volume V.
    pub volume: Volume,
    /// Limit ±a within which V certainly lies: graduation or scale.
    pub limit: Volume,
}

/// Bucket and watch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bucket {
    /// What was caught.
    pub caught: Catch,
    /// Mean time t.
    pub time: Time,
    /// Standard uncertainty of the mean time.
    pub time_uncertainty: Time,
}

/// A flow and its standard uncertainty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredFlow {
    /// Flow q.
    pub flow: VolumeRate,
    /// Standard uncertainty u(q).
    pub uncertainty: VolumeRate,
}

impl MeasuredFlow {
    /// Half-width that holds about 95 %: 2 u.
    pub fn expanded(&self) -> VolumeRate {
        self.uncertainty * 2.0
    }
}

impl Bucket {
    /// A bucket with several timings of the same volume. Needs two of them at least.
    pub fn timed(caught: Catch, times: &[Time]) -> Result<Self, DomainError> {
        let seconds: Vec<f64> = times.iter().map(|time| time.si()).collect();
        let repeats = Repeats::of(&seconds)?;
        let (time, time_uncertainty) = (Time::from_si(repeats.mean), Time::from_si(repeats.mean_uncertainty));
        Ok(Self { caught, time, time_uncertainty })
    }

    /// q = V/t, u(q)/q = √((a/(√3 V))² + (u_t/t)²): the limit a is taken as a rectangular distribution.
    ///
    /// Source: the guide to the expression of uncertainty in measurement (from memory).
    pub fn flow(&self) -> Result<MeasuredFlow, DomainError> {
        let volume = positive("volume caught", self.caught.volume.si())?;
        let time = positive("time", self.time.si())?;
        let limit = within("limit of the volume", self.caught.limit.si(), 0.0, volume)?;
        let doubt = within("uncertainty of the time", self.time_uncertainty.si(), 0.0, time)?;
        let flow = volume / time;
        let relative = (limit / (3.0_f64.sqrt() * volume)).hypot(doubt / time);
        Ok(MeasuredFlow { flow: VolumeRate::from_si(flow), uncertainty: VolumeRate::from_si(flow * relative) })
    }
}

/// Densities that a float meter's reading depends on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FloatMeter {
    /// Density of the float, ρ_f (about 8000 kg/m³ for stainless steel).
    pub float: MassDensity,
    /// Density of the liquid the scale was made for, ρ_w.
    pub scale: MassDensity,
    /// Density of the liquid that flows, ρ.
    pub liquid: MassDensity,
}

impl FloatMeter {
    /// True flow over read flow, √((ρ_f − ρ) ρ_w / ((ρ_f − ρ_w) ρ)).
    ///
    /// Buoyancy and density only; a viscous liquid lifts the float further, which this does not see. The float must
    /// be denser than both liquids.
    pub fn correction(&self) -> Result<Ratio, DomainError> {
        let scale = positive("density on the scale", self.scale.si())?;
        let liquid = positive("density of the liquid", self.liquid.si())?;
        let over_liquid = positive("density of the float over the liquid", self.float.si() - liquid)?;
        let over_scale = positive("density of the float over the scale's liquid", self.float.si() - scale)?;
        Ok(Ratio::from_si((over_liquid * scale / (over_scale * liquid)).sqrt()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn timed(seconds: &[f64]) -> Result<MeasuredFlow, DomainError> {
        let caught = Catch { volume: Volume::from_si(0.01), limit: Volume::from_si(0.0001) };
        let times: Vec<Time> = seconds.iter().map(|&t| Time::from_si(t)).collect();
        Bucket::timed(caught, &times)?.flow()
    }

    #[test]
    fn more_timings_make_a_surer_flow() {
        let few = timed(&[62.0, 63.0]).unwrap();
        let many = timed(&[62.0, 63.0, 62.0, 63.0, 62.0, 63.0]).unwrap();
        assert!(many.uncertainty < few.uncertainty);
    }

    #[test]
    fn one_timing_says_nothing_about_scatter() {
        assert!(timed(&[60.0]).is_err());
    }
}
