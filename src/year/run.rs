//! The whole year: 8760 hours through the simulation, booked by month and day.

use super::YearError;
use super::conditions::{Conditions, HOUR};
use super::outcome::{Day, HourEnd, Outcome, Peak, worst_week};
use super::plant::{Auxiliary, Plant};
use super::simulation::Simulation;
use super::tally::Tally;
use crate::climate::{HOURS, HourOfYear};
use crate::physics::domain::within;
use crate::units::si::{Dimension, Energy, Temperature, Time};

/// Longest steps, s.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Method {
    /// While the pump runs or may start.
    pub running: f64,
    /// At night.
    pub resting: f64,
    /// While an element heats.
    pub heating: f64,
}

impl Method {
    /// The steps that suit a plant: an element in the tank wants shorter ones, because cold water that returns above a
    /// heated layer mixes with it within the step.
    pub fn of(plant: &Plant) -> Self {
        match plant.auxiliary {
            Auxiliary::Element { .. } => Self { running: 150.0, resting: 1800.0, heating: 60.0 },
            Auxiliary::None | Auxiliary::Inline => Self { running: 300.0, resting: 1800.0, heating: 300.0 },
        }
    }

    pub(super) fn check(&self) -> Result<(), YearError> {
        for step in [self.running, self.resting, self.heating] {
            within("longest step", step, 1.0, HOUR)?;
        }
        Ok(())
    }
}

/// The year of a plant under 8760 hourly conditions, from 1 January, 0 o'clock.
///
/// `cancelled` is asked once a day. Same input, same output, to the last digit.
pub fn simulate(plant: &Plant, hours: &[Conditions], cancelled: &dyn Fn() -> bool) -> Result<Outcome, YearError> {
    simulate_with(Method::of(plant), plant, hours, cancelled)
}

/// The same with steps of one's own choice.
pub fn simulate_with(
    method: Method,
    plant: &Plant,
    hours: &[Conditions],
    cancelled: &dyn Fn() -> bool,
) -> Result<Outcome, YearError> {
    let [first, ..] = hours else { return Err(YearError::Hours { found: 0 }) };
    if hours.len() != HOURS {
        return Err(YearError::Hours { found: hours.len() });
    }
    let mut simulation = Simulation::new(plant, Temperature::from_si(first.air), method)?;
    let mut books = Books::opened(&simulation);
    let (stored, collector) = (simulation.stored(), simulation.state().collector);
    for (at, conditions) in HourOfYear::all().zip(hours) {
        if at.index() % 24 == 0 && cancelled() {
            return Err(YearError::Cancelled);
        }
        let booked = simulation.advance(conditions, Time::from_si(HOUR)).map_err(|error| located(error, at))?;
        books.enter(at, &booked, &simulation);
    }
    let stored = simulation.stored() - stored;
    let warmed = (simulation.state().collector - collector) * simulation.collector_capacity();
    Ok(books.close(stored, warmed))
}

fn located(error: YearError, at: HourOfYear) -> YearError {
    match error {
        YearError::NoHeadway { .. } => YearError::NoHeadway { at: Some(at) },
        other => other,
    }
}

/// The books of a year.
struct Books {
    months: [Tally; 12],
    days: Vec<Day>,
    hours: Vec<HourEnd>,
    peak_tank: Peak,
    peak_collector: Peak,
}

impl Books {
    fn opened(simulation: &Simulation) -> Self {
        let peak = |kelvin| Peak { temperature: Temperature::from_si(kelvin), at: HourOfYear::FIRST };
        let state = simulation.state();
        Self {
            months: [Tally::default(); 12],
            days: Vec::with_capacity(HOURS / 24),
            hours: Vec::with_capacity(HOURS),
            peak_tank: peak(state.top()),
            peak_collector: peak(state.collector),
        }
    }

    fn enter(&mut self, at: HourOfYear, booked: &Tally, simulation: &Simulation) {
        let (month, _) = at.date();
        self.months[usize::from(month) - 1].add(booked);
        match self.days.last_mut().filter(|last| last.day == at.day_of_year()) {
            Some(last) => last.tally.add(booked),
            None => self.days.push(Day { tally: *booked, day: at.day_of_year() }),
        }
        let state = simulation.state();
        self.hours.push(HourEnd {
            top: Temperature::from_si(state.top()),
            lowest: Temperature::from_si(state.lowest()),
            collector: Temperature::from_si(state.collector),
        });
        for (peak, reached) in
            [(&mut self.peak_tank, booked.peak_tank()), (&mut self.peak_collector, booked.peak_collector())]
        {
            if reached.si() > peak.temperature.si() {
                *peak = Peak { temperature: reached, at };
            }
        }
    }

    fn close(self, stored: f64, warmed: f64) -> Outcome {
        let mut year = self.months[0];
        self.months[1..].iter().for_each(|month| year.add(month));
        let tank = [year.into_tank, year.element, -year.drawn, -year.tank_loss, -stored];
        let collector = [year.collector_gain, -year.into_tank, -year.pipe_loss, -warmed];
        Outcome {
            year,
            worst_week: worst_week(&self.days),
            stored: Energy::from_si(stored),
            tank_residual: residual(&tank),
            collector_residual: residual(&collector),
            months: self.months,
            days: self.days,
            hours: self.hours,
            peak_tank: self.peak_tank,
            peak_collector: self.peak_collector,
        }
    }
}

/// Sum over the sum of magnitudes; zero where nothing moved.
fn residual(parts: &[f64]) -> f64 {
    let moved: f64 = parts.iter().map(|part| part.abs()).sum();
    if moved > 0.0 { parts.iter().sum::<f64>().abs() / moved } else { 0.0 }
}
