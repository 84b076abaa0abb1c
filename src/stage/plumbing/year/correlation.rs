//! What the sun gives in a year by the monthly correlation of Klein, Beckman and Duffie: the outside check of the year.
//!
//! The correlation itself is in `physics::monthly_fraction`; here a project is laid before it. The simulated year lives
//! in `super`.

use crate::model::{Fig, Inputs, Why};
use crate::physics::monthly_fraction::{HotWater, Month, Outside, monthly_fraction};
use crate::stage::plumbing::load::{DAYS, Load};
use crate::stage::plumbing::{CollectorLine, entries as e, litres_per_area};
use crate::stage::site;
use crate::units::si::{Dimension, Energy, Ratio, Time};

/// Month's mean (τα) over (τα) straight on for one pane (Duffie & Beckman ch. 20, from memory).
pub const INCIDENCE_RATIO: f64 = 0.96;

const SECONDS_PER_DAY: f64 = 86_400.0;

/// One month.
#[derive(Clone, Debug, PartialEq)]
pub struct CorrelatedMonth {
    /// Heat wanted.
    pub load: Energy,
    /// Heat given by the sun.
    pub delivered: Energy,
    /// What the correlation said; none in a month without load.
    pub part: Option<Part>,
}

/// What the correlation said of one month.
#[derive(Clone, Debug, PartialEq)]
pub struct Part {
    /// X.
    pub loss_ratio: f64,
    /// Y.
    pub gain_ratio: f64,
    /// f.
    pub fraction: f64,
    /// Where the month lies outside what was published.
    pub outside: Vec<Outside>,
}

/// The correlation's year, month by month.
#[derive(Clone, Debug)]
pub struct Correlation {
    /// January to December.
    pub months: [CorrelatedMonth; 12],
}

impl Correlation {
    /// Heat wanted in the year.
    pub fn load(&self) -> Energy {
        self.sum(|month| month.load)
    }

    /// Heat given by the sun in the year.
    pub fn delivered(&self) -> Energy {
        self.sum(|month| month.delivered)
    }

    /// Part of the year's load that the sun gives; none if no heat is wanted.
    pub fn fraction(&self) -> Option<Ratio> {
        (self.load() > Energy::default()).then(|| self.delivered() / self.load())
    }

    /// The months outside the published range in words, or `none`. A month held at nothing or all is no complaint.
    pub fn notes(&self) -> String {
        let kinds = [
            (Outside::LossRatio, "X outside 0 to 18"),
            (Outside::GainRatio, "Y outside 0 to 3"),
            (Outside::GainTooSmall, "Y below X/12"),
            (Outside::Storage, "storage outside 37.5 to 300 L per m² of absorber"),
        ];
        let told: Vec<String> = kinds
            .iter()
            .map(|(kind, words)| (words, self.months_with(*kind)))
            .filter(|(_, months)| !months.is_empty())
            .map(
                |(words, months)| {
                    if months.len() == 12 { (*words).to_owned() } else { format!("{words} in {}", months.join(", ")) }
                },
            )
            .collect();
        if told.is_empty() { "none".to_owned() } else { told.join("; ") }
    }

    fn months_with(&self, kind: Outside) -> Vec<&'static str> {
        let outside = |month: &CorrelatedMonth| month.part.as_ref().is_some_and(|part| part.outside.contains(&kind));
        let named = self.months.iter().zip(MONTHS);
        named.filter(|(month, _)| outside(month)).map(|(_, name)| name).collect()
    }

    fn sum(&self, of: fn(&CorrelatedMonth) -> Energy) -> Energy {
        self.months.iter().map(of).fold(Energy::default(), |sum, next| sum + next)
    }
}

const MONTHS: [&str; 12] = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];

/// What the correlation needs of a project.
#[derive(Clone, Copy)]
pub struct Given<'a> {
    /// Sun, air and mains water.
    pub site: &'a site::Results,
    /// The panels as a straight line.
    pub line: &'a Fig<CollectorLine>,
    /// Hot water wanted.
    pub load: &'a Fig<Load>,
}

/// The correlation over a project.
///
/// The tank is compared with the absorber area, since F_R(τα) and F_R U_L stand on it.
pub fn correlation(inputs: &Inputs, given: Given) -> Fig<Correlation> {
    let line = given.line.clone()?;
    let load = given.load.clone()?;
    let sun = given.site.sun.as_ref().map_err(Clone::clone)?;
    let weather = given.site.weather.as_ref().map_err(Clone::clone)?;
    let mains = given.site.mains.as_ref().map_err(Clone::clone)?;
    let tank = inputs.get(&e::TANK)?;
    let month = |index: usize| Month {
        area: line.area,
        optical_gain: line.optical_gain,
        loss: line.loss,
        exchanger_factor: line.exchanger_factor,
        incidence_ratio: INCIDENCE_RATIO,
        irradiation: sun.monthly[index],
        air: weather.monthly[index],
        duration: Time::from_si(DAYS[index] * SECONDS_PER_DAY),
        load: load.monthly[index],
        storage_litres_per_area: litres_per_area(tank, line.area).si(),
        hot_water: Some(HotWater { delivered: load.tap, mains: mains.monthly[index] }),
    };
    let mut months = Vec::with_capacity(12);
    for index in 0..12 {
        months.push(one_month(&month(index))?);
    }
    let months =
        <[CorrelatedMonth; 12]>::try_from(months).map_err(|_| Why::out_of_range("the year has not twelve months"))?;
    Ok(Correlation { months })
}

fn one_month(month: &Month) -> Fig<CorrelatedMonth> {
    let nothing = Energy::default();
    if month.load <= nothing {
        return Ok(CorrelatedMonth { load: nothing, delivered: nothing, part: None });
    }
    let found = monthly_fraction(month).map_err(Why::out_of_range)?;
    Ok(CorrelatedMonth {
        load: month.load,
        delivered: month.load * found.fraction,
        part: Some(Part {
            loss_ratio: found.loss_ratio,
            gain_ratio: found.gain_ratio,
            fraction: found.fraction,
            outside: found.outside_range,
        }),
    })
}
