//! The worst days, as a study: an empty house in a clear midsummer, a power cut at noon, the coldest night of the file.
//!
//! Minute by minute. The simulated plant says when the pump runs and how warm the tank is; while nothing flows the
//! plate follows the full heat balance of the absorber stage, not the year's straight line. Pictures: `pictures`.

use std::sync::Arc;

use super::plant::{self, Extreme};
use super::{PLANT, hours, refused};
use crate::climate::{Climate, HourOfYear};
use crate::model::{Fig, Why};
use crate::physics::collector::{Collector, Exposure};
use crate::physics::freezing::{Night, NightPanel, night_plate};
use crate::stage::site::entries as s;
use crate::stage::site::frost::{self, Sheltered};
use crate::stage::site::{self, basis, sun};
use crate::stage::study::{self, Cancel};
use crate::stage::{Group, Solution, absorber};
use crate::units::si::{Dimension, HeatFluxDensity, Temperature, Time, Velocity};
use crate::year::{Conditions, Incidence, Method, Plant, Simulation, absorbed_irradiance};

/// Days that the house stands empty.
pub const EMPTY_DAYS: usize = 14;
/// Step of the curves, s.
const MINUTE: f64 = 60.0;
/// Minutes between two points that are kept of the empty fortnight.
const KEPT: usize = 10;
/// Wind over a standing panel in the sun, m/s (ISO 9806's stagnation point, from memory).
const STILL_AIR: f64 = 1.0;
/// Middle of the hot month: 16 July, 16 January south of the equator; index of its first hour.
const MIDSUMMER: [usize; 2] = [196 * 24, 15 * 24];
/// Sun below which the plate is taken to rest at the air, W/m².
const DIM: f64 = 1.0;
/// Strongest wind of the night's balance, m/s.
const STRONGEST: f64 = 20.0;
/// 100 °C, where water in an open panel boils, K.
const HUNDRED: f64 = 373.15;
/// 0 °C, K.
const ICE: f64 = 273.15;

/// One moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// Since the curve's start, s.
    pub seconds: f64,
    /// The plate, K.
    pub plate: f64,
    /// Highest layer of the tank, K.
    pub tank: f64,
    /// Outside air, K.
    pub air: f64,
}

/// A curve with what matters of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Curve {
    /// Moments in order.
    pub moments: Vec<Moment>,
    /// Hottest plate.
    pub hottest: Temperature,
    /// Coldest plate.
    pub coldest: Temperature,
    /// Hottest tank.
    pub tank: Temperature,
    /// Time with the plate at 100 °C or more.
    pub boiling: Time,
    /// Time with the plate below 0 °C.
    pub freezing: Time,
}

/// The worst days of a project.
#[derive(Clone, Debug)]
pub struct WorstDays {
    /// A fortnight of clear midsummer days without any draw.
    pub empty: Curve,
    /// One such day with the usual draw, from midnight; no electricity from noon.
    pub cut: Curve,
    /// From noon to noon around the coldest plate of the file.
    pub night: Fig<(HourOfYear, Curve)>,
}

impl Curve {
    /// Time from a moment of the curve, s, until the plate first stands at 100 °C or more; none if it does not.
    pub fn reaches_hundred_after(&self, start: f64) -> Option<Time> {
        let first = self.moments.iter().find(|now| now.seconds >= start && now.plate >= HUNDRED)?;
        Some(Time::from_si(first.seconds - start))
    }
}

/// What the study reads.
pub static WORST_DAYS: Group = Group {
    name: "the worst days",
    entries: &[],
    groups: &[&PLANT, &super::DRAWS, &absorber::STAGNATION, &frost::FROST, &site::spacing::ROW_SHADE],
};

/// Runs the study.
pub fn study(solution: &Solution, cancel: &Cancel) -> Option<study::Outcome> {
    let found = worst_days(solution, cancel);
    (!cancel.is_cancelled()).then(|| study::Outcome::WorstDays(found.map(Arc::new)))
}

/// The plate of a panel without flow, by its full balance, and how fast it comes there.
#[derive(Clone, Copy, Debug)]
struct Rest {
    /// Where it settles, K.
    plate: f64,
    /// 1/s.
    rate: f64,
}

/// The walk of one curve.
struct Walk {
    simulation: Simulation,
    /// The plate, K.
    plate: f64,
    moments: Vec<Moment>,
    seconds: f64,
    hottest: f64,
    coldest: f64,
    tank: f64,
    boiling: f64,
    freezing: f64,
}

impl Walk {
    fn new(plant: &Plant, air: f64, plate: f64) -> Fig<Self> {
        let simulation = Simulation::new(plant, Temperature::from_si(air), Method::of(plant)).map_err(refused)?;
        let tank = simulation.state().top();
        let (hottest, coldest) = (plate, plate);
        Ok(Self {
            simulation,
            plate,
            moments: Vec::new(),
            seconds: 0.0,
            hottest,
            coldest,
            tank,
            boiling: 0.0,
            freezing: 0.0,
        })
    }

    /// One hour, minute by minute; a moment is kept every `kept` minutes.
    fn hour(&mut self, conditions: &Conditions, rest: Rest, kept: usize) -> Fig<()> {
        for minute in 0..60 {
            if minute % kept == 0 {
                self.keep(conditions.air);
            }
            self.simulation.advance(conditions, Time::from_si(MINUTE)).map_err(refused)?;
            let state = self.simulation.state();
            self.plate = if state.pump {
                state.collector
            } else {
                rest.plate + (self.plate - rest.plate) * (-rest.rate * MINUTE).exp()
            };
            self.seconds += MINUTE;
            self.hottest = self.hottest.max(self.plate);
            self.coldest = self.coldest.min(self.plate);
            self.tank = self.tank.max(state.top());
            self.boiling += if self.plate >= HUNDRED { MINUTE } else { 0.0 };
            self.freezing += if self.plate < ICE { MINUTE } else { 0.0 };
        }
        Ok(())
    }

    fn keep(&mut self, air: f64) {
        let (plate, tank) = (self.plate, self.simulation.state().top());
        self.moments.push(Moment { seconds: self.seconds, plate, tank, air });
    }

    fn close(self) -> Curve {
        Curve {
            moments: self.moments,
            hottest: Temperature::from_si(self.hottest),
            coldest: Temperature::from_si(self.coldest),
            tank: Temperature::from_si(self.tank),
            boiling: Time::from_si(self.boiling),
            freezing: Time::from_si(self.freezing),
        }
    }
}

/// The worst days of a solution.
pub fn worst_days(solution: &Solution, cancel: &Cancel) -> Fig<WorstDays> {
    let plant = plant::for_worst(solution, Extreme::Hot)?;
    let collector = solution.absorber.collector.as_ref().map_err(Why::clone)?;
    let usual = hours::hours(solution)?;
    let day = clear_day(solution, collector, &usual)?;
    let rests: Vec<Rest> = day.iter().map(|hour| sunny_rest(collector, &plant, hour)).collect::<Fig<_>>()?;
    let empty = empty_house(&plant, &day, &rests, cancel)?;
    let cut = power_cut(&plant, &day, &rests)?;
    let night = coldest_night(solution, collector, &plant::for_worst(solution, Extreme::Cold)?, &usual);
    Ok(WorstDays { empty, cut, night })
}

/// The 24 hours of a clear midsummer day: cloudless sun, the air of the warmest day of that month in the weather, the
/// usual draw.
fn clear_day(solution: &Solution, collector: &Collector, usual: &[Conditions]) -> Fig<Vec<Conditions>> {
    let inputs = &solution.inputs;
    let climate = solution.world.sky.clone()?;
    let clear = basis::clear(inputs)?;
    let plane = sun::plane(inputs)?;
    let [_, middle, _] = sun::models(crate::climate::Format::ClearSky);
    let light = clear.plane_behind(&plane, middle, &sun::skyline(inputs)?);
    let through = absorbed_irradiance(light.hours(), plane.tilt, &Incidence::Plate(collector.optics()));
    let first = MIDSUMMER[usize::from(inputs.get(&s::LATITUDE)?.si() < 0.0)];
    let warmest = warmest_day(&climate, first);
    let hour = |index: usize| Conditions {
        irradiance: through[first + index],
        air: climate.hours()[warmest + index].dry_bulb,
        powered: true,
        ..usual[first + index]
    };
    Ok((0..24).map(hour).collect())
}

/// First hour of the day with the warmest air, within a fortnight of a day.
fn warmest_day(climate: &Climate, around: usize) -> usize {
    let mean = |first: usize| climate.hours()[first..first + 24].iter().map(|hour| hour.dry_bulb).sum::<f64>();
    let days = (around / 24).saturating_sub(14)..=(around / 24 + 14).min(364);
    days.map(|day| day * 24).max_by(|a, b| mean(*a).total_cmp(&mean(*b))).unwrap_or(around)
}

/// The still plate of an hour with sun: the balance that judges every material, sky at the air's temperature.
fn sunny_rest(collector: &Collector, plant: &Plant, hour: &Conditions) -> Fig<Rest> {
    if hour.irradiance < DIM {
        return Ok(Rest { plate: hour.air, rate: night_rate(plant) });
    }
    let air = Temperature::from_si(hour.air);
    let exposure = Exposure {
        irradiance: HeatFluxDensity::from_si(hour.irradiance.max(0.0)),
        ambient: air,
        sky: air,
        wind: Velocity::from_si(STILL_AIR),
    };
    let balance = collector.stagnate(&exposure).map_err(Why::out_of_range)?;
    let area = plant.collector.area.si();
    let rate = balance.total_loss.si() * area / plant.collector.capacity.si();
    Ok(Rest { plate: balance.plate.si(), rate })
}

/// How fast a plate without sun comes to rest, by the straight line's loss, 1/s.
fn night_rate(plant: &Plant) -> f64 {
    let panel = &plant.collector;
    panel.area.si() * panel.loss.si() / (panel.heat_removal_factor * panel.capacity.si())
}

fn empty_house(plant: &Plant, day: &[Conditions], rests: &[Rest], cancel: &Cancel) -> Fig<Curve> {
    let air = day[0].air;
    let mut walk = Walk::new(plant, air, air)?;
    for _ in 0..EMPTY_DAYS {
        if cancel.is_cancelled() {
            return Err(Why::Pending);
        }
        for (hour, rest) in day.iter().zip(rests) {
            walk.hour(&Conditions { draw: 0.0, ..*hour }, *rest, KEPT)?;
        }
    }
    Ok(walk.close())
}

/// The day before runs as usual, so that tank and plate stand as they would.
fn power_cut(plant: &Plant, day: &[Conditions], rests: &[Rest]) -> Fig<Curve> {
    let air = day[0].air;
    let mut before = Walk::new(plant, air, air)?;
    for (hour, rest) in day.iter().zip(rests) {
        before.hour(hour, *rest, 60)?;
    }
    let mut walk = Walk { moments: Vec::new(), seconds: 0.0, boiling: 0.0, freezing: 0.0, ..before };
    (walk.hottest, walk.coldest, walk.tank) = (walk.plate, walk.plate, walk.simulation.state().top());
    for (index, (hour, rest)) in day.iter().zip(rests).enumerate() {
        walk.hour(&Conditions { powered: index < 12, ..*hour }, *rest, 1)?;
    }
    Ok(walk.close())
}

/// From the noon before the coldest still plate of the file to the noon after it.
fn coldest_night(
    solution: &Solution,
    collector: &Collector,
    plant: &Plant,
    usual: &[Conditions],
) -> Fig<(HourOfYear, Curve)> {
    let climate = frost::hourly(&solution.world)?;
    let sheltered = Sheltered::of(&solution.inputs)?;
    let night = |at: HourOfYear| {
        let hour = &climate.hours()[at.index()];
        let wind = sheltered.wind(Velocity::from_si(hour.wind)).si().min(STRONGEST);
        Night {
            air: Temperature::from_si(hour.dry_bulb),
            sky: climate.sky_temperature(at).0,
            wind: Velocity::from_si(wind),
        }
    };
    let is_dark = |at: &HourOfYear| climate.hours()[at.index()].sunlight.global <= 0.0;
    let mut coldest: Option<(HourOfYear, f64)> = None;
    for at in HourOfYear::all().filter(is_dark) {
        let plate = night_plate(NightPanel::default(), night(at)).map_err(Why::out_of_range)?.si();
        if coldest.is_none_or(|(_, least)| plate < least) {
            coldest = Some((at, plate));
        }
    }
    let (at, _) = coldest.ok_or_else(|| Why::out_of_range("the weather file has no dark hour"))?;
    // The noon before an evening or a morning, on the ring of the year.
    let noon = (at.index() + 12) / 24 * 24 + usual.len() - 12;
    let ring = |hour: usize| (noon + hour) % usual.len();
    let air = usual[ring(0)].air;
    let mut walk = Walk::new(plant, air, air)?;
    for hour in 0..24 {
        let conditions = usual[ring(hour)];
        let at = HourOfYear::new(ring(hour)).unwrap_or(HourOfYear::FIRST);
        let rest = if is_dark(&at) {
            let plate = night_plate(NightPanel::default(), night(at)).map_err(Why::out_of_range)?;
            Rest { plate: plate.si(), rate: night_rate(plant) }
        } else {
            sunny_rest(collector, plant, &conditions)?
        };
        walk.hour(&conditions, rest, 1)?;
    }
    Ok((at, walk.close()))
}
