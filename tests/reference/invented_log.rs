//! Logger files that never were: a project's own panels run by the year's simulation, read by noisy sensors.
//!
//! What is simulated is known exactly, so a fit can be held against it. Everything in such a file is invented.

#![allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // small whole numbers

use std::fmt::Write as _;

use crate::support::Dice;
use sunharp::physics::fluid::Fluid;
use sunharp::physics::horizon::Horizon;
use sunharp::physics::sun::Direction;
use sunharp::physics::transposition::SkyModel;
use sunharp::stage::Solution;
use sunharp::stage::commissioning::log::Place;
use sunharp::stage::commissioning::logged;
use sunharp::stage::commissioning::performance::Plant as Measured;
use sunharp::stage::{plumbing, site};
use sunharp::units::si::{
    Dimension, HeatTransfer, Length, Power, Temperature, TemperatureInterval, ThermalConductance, ThermalConductivity,
    Time, celsius,
};
use sunharp::year::{
    Auxiliary, Circuit, Conditions, Control, CurveCollector, Exchange, Incidence, Method, Plant, Simulation, Tank,
    absorbed_irradiance,
};

/// The clock of the file, h ahead of universal time.
pub const AHEAD: f64 = -5.0;
/// Excess at which the simulated loss is taken, K.
const USUAL_EXCESS: f64 = 20.0;
const ZERO: f64 = 273.15;
/// Seconds from 1970 to the year of the files.
const NEW_YEAR: f64 = 1_767_225_600.0;

/// A minute of a plant as it truly was. Temperatures °C, sun W/m², flow L/min.
#[derive(Clone, Copy)]
pub struct Minute {
    pub at: u32,
    pub panel: f64,
    pub inlet: f64,
    pub outlet: f64,
    pub low: f64,
    pub high: f64,
    pub air: f64,
    pub sun: f64,
    pub flow: f64,
    pub wind: f64,
    /// 1/cos θ − 1, 0 to 1.
    pub slant: f64,
}

/// A plant that ran for some days.
pub struct Truth {
    /// η₀ and U on mean temperature.
    pub eta0: f64,
    pub loss: f64,
    /// Days since New Year of the first one.
    pub first_day: u32,
    pub minutes: Vec<Minute>,
    /// The plant as the evaluation of a log sees it.
    pub measured: Measured,
}

/// Systematic errors of one set of instruments.
#[derive(Clone, Copy, Default)]
pub struct Instruments {
    pub sun: f64,
    pub flow: f64,
    pub pair: f64,
    pub air: f64,
    /// At 30° of slant.
    pub slant: f64,
}

/// The project's panels with a tank of its size and a loop that nobody measured.
fn plant(solution: &Solution, measured: &Measured, rate: f64) -> Plant {
    let heat = solution.absorber.heat.as_ref().unwrap();
    let curve = CurveCollector {
        area: measured.area,
        eta0: heat.curve.eta0,
        a1: heat.curve.a1,
        a2: heat.curve.a2,
        usual_excess: TemperatureInterval::from_si(USUAL_EXCESS),
        capacity_rate: rate,
        heat_removal_factor: heat.point.heat_removal_factor,
        capacity: measured.capacity,
    };
    Plant {
        collector: curve.at_inlet().unwrap(),
        circuit: Circuit {
            capacity_rate: rate,
            exchange: Exchange::Direct,
            hot_pipe: ThermalConductance::from_si(4.0),
            cold_pipe: ThermalConductance::from_si(0.0),
            pump: Power::from_si(25.0),
        },
        tank: Tank {
            volume: solution.inputs.get(&plumbing::entries::TANK).unwrap(),
            layers: 6,
            height: Length::from_si(1.3),
            loss: ThermalConductance::from_si(2.0),
            surroundings: celsius(24.0),
            vertical_conductivity: ThermalConductivity::from_si(1.0),
            start: celsius(24.0),
        },
        control: Control {
            start: TemperatureInterval::from_si(8.0),
            stop: TemperatureInterval::from_si(3.0),
            limit: celsius(65.0),
            reset: celsius(62.0),
            lock_out: None,
        },
        auxiliary: Auxiliary::None,
        tap: celsius(40.0),
    }
}

/// Runs the panels of a solved project through its sunniest stretch of days from February to May.
pub fn run(solution: &Solution, days: usize) -> Truth {
    let heat = solution.absorber.heat.as_ref().unwrap();
    let place = Place {
        latitude: solution.inputs.get(&site::entries::LATITUDE).unwrap(),
        longitude: solution.inputs.get(&site::entries::LONGITUDE).unwrap(),
        ahead: AHEAD * 3600.0,
    };
    let measured = logged::plant(&solution.inputs, &solution.absorber, place).unwrap();
    let row = solution.plumbing.row.clone().unwrap();
    let rate = row.flow.si() * 993.0 * 4180.0;
    let plant = plant(solution, &measured, rate);
    let climate = solution.world.sky.clone().unwrap();
    let plane = site::sun::plane(&solution.inputs).unwrap();
    let horizon: Horizon = site::sun::skyline(&solution.inputs).unwrap();
    let light = climate.plane_behind(&plane, SkyModel::HayDavies, &horizon);
    let absorbed = absorbed_irradiance(light.hours(), plane.tilt, &Incidence::Factor { b0: 0.1 });
    let totals: Vec<f64> = light.hours().iter().map(sunharp::physics::transposition::PlaneIrradiance::total).collect();
    let first_day = sunniest(&totals, days);
    let normal = Direction::normal(plane.tilt, plane.azimuth);
    let mut simulation = Simulation::new(
        &plant,
        Temperature::from_si(climate.hours()[first_day * 24].dry_bulb),
        Method { running: 30.0, resting: 60.0, heating: 60.0 },
    )
    .unwrap();
    let between = |values: &dyn Fn(usize) -> f64, minute: usize| {
        let hours = (minute as f64 + 0.5) / 60.0 - 0.5;
        let from = hours.floor().max(0.0);
        let share = (hours - from).clamp(0.0, 1.0);
        let at = first_day * 24 + from as usize;
        values(at) * (1.0 - share) + values(at + 1) * share
    };
    let mut minutes = Vec::with_capacity(days * 1440);
    for minute in 0..days * 1440 {
        let hour = minute / 60 % 24;
        let air = between(&|at| climate.hours()[at].dry_bulb, minute);
        let conditions = Conditions {
            irradiance: between(&|at| absorbed[at], minute),
            air,
            mains: celsius(24.0).si(),
            draw: if (17..20).contains(&hour) { 60.0 / (3.0 * 3600.0) } else { 0.0 },
            powered: true,
        };
        simulation.advance(&conditions, Time::from_si(60.0)).unwrap();
        let state = simulation.state();
        let (inlet, outlet) = (state.lowest(), state.collector);
        let heat = Fluid::Water.density(Temperature::from_si(inlet)).si()
            * Fluid::Water.specific_heat(Temperature::from_si(0.5 * (inlet + outlet))).si();
        let flow = if state.pump { rate / heat * 60e3 } else { 0.0 };
        let at = f64::from(first_day as u32 * 86_400 + minute as u32 * 60 + 30) + NEW_YEAR;
        let cosine = place.sun(at).dot(normal).max(0.5);
        minutes.push(Minute {
            at: minute as u32 * 60 + 60,
            panel: state.collector - ZERO,
            inlet: state.lowest() - ZERO,
            outlet: state.collector - ZERO,
            low: state.lowest() - ZERO,
            high: state.top() - ZERO,
            air: air - ZERO,
            sun: between(&|at| totals[at], minute),
            flow,
            slant: cosine.recip() - 1.0,
            wind: 0.4 * between(&|at| climate.hours()[at].wind, minute),
        });
    }
    let loss = heat.curve.a1 + HeatTransfer::from_si(heat.curve.a2 * USUAL_EXCESS);
    Truth { eta0: heat.curve.eta0, loss: loss.si(), first_day: first_day as u32, minutes, measured }
}

/// The first of the days with the most sun, February to May.
fn sunniest(totals: &[f64], days: usize) -> usize {
    let sum = |day: usize| totals[day * 24..(day + days) * 24].iter().sum::<f64>();
    (31..150 - days).max_by(|a, b| sum(*a).total_cmp(&sum(*b))).unwrap()
}

/// Time stamp of a second since New Year 2026, and no year longer than May.
pub fn stamp(second: u32) -> String {
    const MONTHS: [u32; 6] = [31, 28, 31, 30, 31, 30];
    let (mut day, mut month) = (second / 86_400, 0);
    while day >= MONTHS[month] {
        day -= MONTHS[month];
        month += 1;
    }
    let (h, m, s) = (second / 3600 % 24, second / 60 % 60, second % 60);
    format!("2026-{:02}-{:02}T{h:02}:{m:02}:{s:02}", month + 1, day + 1)
}

/// The header of the files.
pub const HEADER: &str = "time,t_coll,t_in,t_out,t_tank_lo,t_tank_hi,t_amb,g_poa,flow_lpm,pump,p_bar,wind\n";

/// One line of a file for each minute.
pub fn lines(truth: &Truth, wrong: Instruments, dice: &mut Dice) -> Vec<String> {
    let line = |minute: &Minute| {
        let mut noise = |scale: f64| scale * dice.normal();
        let mut line = stamp(truth.first_day * 86_400 + minute.at);
        let temperatures =
            [minute.panel, minute.inlet, minute.outlet + wrong.pair, minute.low, minute.high, minute.air + wrong.air];
        for temperature in temperatures {
            write!(line, ",{:.2}", temperature + noise(0.05)).unwrap();
        }
        let sun = (minute.sun * (1.0 + wrong.sun + wrong.slant * minute.slant / 0.1547)
            + if minute.sun > 5.0 { noise(3.0) } else { 0.0 })
        .max(0.0);
        let flow = minute.flow * (1.0 + wrong.flow) * (1.0 + noise(0.002));
        let pump = u8::from(minute.flow > 0.0);
        let pressure = 2.4 + 0.004 * (minute.panel - 20.0) + noise(0.005);
        let wind = (minute.wind + noise(0.2)).max(0.0);
        write!(line, ",{sun:.0},{flow:.3},{pump},{pressure:.2},{wind:.1}").unwrap();
        line
    };
    truth.minutes.iter().map(line).collect()
}

/// Whole file of lines.
pub fn file(lines: &[String]) -> String {
    let mut text = String::from(HEADER);
    for line in lines {
        text.push_str(line);
        text.push('\n');
    }
    text
}

/// The same lines with a column set to something else.
pub fn with_column(line: &str, column: usize, value: &str) -> String {
    let mut cells: Vec<&str> = line.split(',').collect();
    cells[column] = value;
    cells.join(",")
}
