//! Laws of the year for any plant and any weather.

use proptest::prelude::*;

use super::*;
use crate::climate::HOURS;
use crate::units::si::{
    Area, Dimension, HeatCapacity, HeatTransfer, Length, Power, Temperature, TemperatureInterval, ThermalConductance,
    ThermalConductivity, Time, Volume, celsius,
};

const HOUR: f64 = 3600.0;

fn plant() -> Plant {
    Plant {
        collector: Collector {
            area: Area::from_si(4.0),
            optical_gain: 0.7,
            loss: HeatTransfer::from_si(4.9),
            heat_removal_factor: 0.9,
            capacity: HeatCapacity::from_si(32000.0),
        },
        circuit: Circuit {
            capacity_rate: 225.0,
            exchange: Exchange::Coil { effectiveness: 0.55 },
            hot_pipe: ThermalConductance::from_si(2.5),
            cold_pipe: ThermalConductance::from_si(2.5),
            pump: Power::from_si(45.0),
        },
        tank: Tank {
            volume: Volume::from_si(0.3),
            layers: 4,
            height: Length::from_si(1.5),
            loss: ThermalConductance::from_si(2.2),
            surroundings: celsius(20.0),
            vertical_conductivity: ThermalConductivity::from_si(1.0),
            start: celsius(30.0),
        },
        control: Control {
            start: TemperatureInterval::from_si(8.0),
            stop: TemperatureInterval::from_si(3.0),
            limit: celsius(80.0),
            reset: celsius(75.0),
            lock_out: Some(LockOut { above: celsius(120.0), below: celsius(110.0) }),
        },
        auxiliary: Auxiliary::Inline,
        tap: celsius(50.0),
    }
}

fn element(layer: usize) -> Auxiliary {
    Auxiliary::Element {
        layer,
        set: celsius(55.0),
        deadband: TemperatureInterval::from_si(4.0),
        power: Power::from_si(3000.0),
    }
}

fn hour(irradiance: f64, air: f64, draw: f64) -> Conditions {
    Conditions { irradiance, air: celsius(air).si(), mains: celsius(12.0).si(), draw, powered: true }
}

/// A sunny day that repeats, with draws morning and evening.
fn day() -> Vec<Conditions> {
    let sun = |clock: f64| 950.0 * (std::f64::consts::PI * (clock - 6.0) / 12.0).sin().max(0.0);
    let draw = |clock: f64| if (clock - 7.5).abs() < 1.0 || (clock - 19.5).abs() < 1.0 { 0.012 } else { 0.0 };
    (0..24)
        .map(|hour| f64::from(hour) + 0.5)
        .map(|clock| hour(if clock > 18.0 { 0.0 } else { sun(clock) }, 22.0, draw(clock)))
        .collect()
}

fn run(plant: &Plant, hours: &[Conditions]) -> (Tally, Simulation) {
    let air = Temperature::from_si(hours[0].air);
    let mut simulation = Simulation::new(plant, air, Method::of(plant)).unwrap();
    let mut sum = Tally::default();
    for hour in hours {
        sum.add(&simulation.advance(hour, Time::from_si(HOUR)).unwrap());
    }
    (sum, simulation)
}

fn exchange() -> impl Strategy<Value = Exchange> {
    prop_oneof![
        Just(Exchange::Direct),
        (0.05..1.0_f64).prop_map(|effectiveness| Exchange::Coil { effectiveness }),
        (0.05..1.0_f64, 30.0..600.0_f64)
            .prop_map(|(effectiveness, storage_rate)| Exchange::Plate { effectiveness, storage_rate }),
    ]
}

fn plants() -> impl Strategy<Value = Plant> {
    let collector = (0.5..12.0_f64, 0.2..0.9_f64, 0.5..9.0_f64, 0.5..1.0_f64, 3000.0..20000.0_f64);
    let circuit = (1.1..8.0_f64, exchange(), 0.0..6.0_f64, 0.0..6.0_f64);
    let tank = (0.05..2.0_f64, 1..=12_usize, 0.0..8.0_f64, 0.0..3.0_f64, 10.0..80.0_f64);
    let rest = (0..12_usize, 0..3_u8, 2.0..12.0_f64, 0.0..0.9_f64, 60.0..95.0_f64, 40.0..60.0_f64);
    (collector, circuit, tank, rest).prop_map(|(collector, circuit, tank, rest)| {
        let mut plant = plant();
        let (area, gain, loss, removal, capacity) = collector;
        plant.collector = Collector {
            area: Area::from_si(area),
            optical_gain: gain,
            loss: HeatTransfer::from_si(loss),
            heat_removal_factor: removal,
            capacity: HeatCapacity::from_si(capacity * area),
        };
        plant.circuit.capacity_rate = circuit.0 * area * loss;
        plant.circuit.exchange = circuit.1;
        plant.circuit.hot_pipe = ThermalConductance::from_si(circuit.2);
        plant.circuit.cold_pipe = ThermalConductance::from_si(circuit.3);
        plant.tank.volume = Volume::from_si(tank.0);
        plant.tank.layers = tank.1;
        plant.tank.loss = ThermalConductance::from_si(tank.2);
        plant.tank.vertical_conductivity = ThermalConductivity::from_si(tank.3);
        plant.tank.start = celsius(tank.4);
        plant.auxiliary = match rest.1 {
            0 => Auxiliary::None,
            1 => Auxiliary::Inline,
            _ => element(rest.0 % tank.1),
        };
        plant.control.start = TemperatureInterval::from_si(rest.2);
        plant.control.stop = TemperatureInterval::from_si(rest.2 * rest.3);
        plant.control.limit = celsius(rest.4);
        plant.control.reset = celsius(rest.4 - 4.0);
        plant.tap = celsius(rest.5);
        plant
    })
}

fn weather() -> impl Strategy<Value = Vec<Conditions>> {
    let hour = (0.0..1100.0_f64, -25.0..40.0_f64, 2.0..28.0_f64, 0.0..0.05_f64, 0..10_u8, any::<bool>());
    let conditions = hour.prop_map(|(irradiance, air, mains, draw, cut, dark)| Conditions {
        irradiance: if dark { 0.0 } else { irradiance },
        air: celsius(air).si(),
        mains: celsius(mains).si(),
        draw,
        powered: cut > 0,
    });
    prop::collection::vec(conditions, 24..96)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    /// Stored energy, worked out anew from the temperatures at both ends, against what was booked.
    #[test]
    fn energy_closes_for_any_plant_in_any_weather(plant in plants(), hours in weather()) {
        let (sum, simulation) = run(&plant, &hours);
        let state = simulation.state();
        let layer = plant.tank.volume.si() * 1000.0 * 4186.0 / plant.tank.layers as f64;
        let stored: f64 = state.layers().iter().map(|now| layer * (now - plant.tank.start.si())).sum();
        let element = match plant.auxiliary {
            Auxiliary::Element { .. } => sum.auxiliary().si(),
            _ => 0.0,
        };
        let (into, drawn, lost) = (sum.into_tank().si(), sum.drawn().si(), sum.tank_loss().si());
        let moved = into.abs() + drawn.abs() + lost.abs() + element;
        prop_assert!((into + element - drawn - lost - stored).abs() <= 1e-9 * moved.max(1.0));
        let warmed = plant.collector.capacity.si() * (state.collector - hours[0].air);
        let (gain, pipes) = (sum.collector_gain().si(), sum.pipe_loss().si());
        let moved = gain.abs() + into.abs() + pipes.abs();
        prop_assert!((gain - into - pipes - warmed).abs() <= 1e-9 * moved.max(1.0));
        prop_assert!(state.layers().windows(2).all(|pair| pair[0] >= pair[1] - 1e-9));
    }

    /// An inline heater gives exactly what the draw lacks.
    #[test]
    fn load_is_what_the_tank_gave_and_what_was_bought(plant in plants(), hours in weather()) {
        let plant = Plant { auxiliary: Auxiliary::Inline, ..plant };
        let (sum, _) = run(&plant, &hours);
        let given = sum.drawn().si() + sum.auxiliary().si() + sum.shortage().si();
        prop_assert!((sum.load().si() - given).abs() <= 1e-9 * sum.load().si().max(1.0));
    }
}

#[test]
fn the_limit_holds_the_tank_and_an_empty_house_stagnates() {
    let away: Vec<Conditions> =
        day().into_iter().cycle().take(240).map(|hour| Conditions { draw: 0.0, ..hour }).collect();
    let (sum, _) = run(&plant(), &away);
    assert!(sum.peak_tank().si() < celsius(80.1).si(), "{:?}", sum.peak_tank());
    assert!(sum.peak_collector().si() > celsius(120.0).si());
    assert!(sum.locked_time().si() > 10.0 * HOUR && sum.steam_time().si() > 10.0 * HOUR);
    assert!(sum.load().si() == 0.0 && sum.solar_fraction().is_none());
}

#[test]
fn a_power_cut_stops_pump_and_heaters() {
    let cut: Vec<Conditions> = day().into_iter().map(|hour| Conditions { powered: false, ..hour }).collect();
    for auxiliary in [Auxiliary::Inline, element(0)] {
        let (sum, simulation) = run(&Plant { auxiliary, ..plant() }, &cut);
        assert!(sum.pump_time().si() == 0.0 && sum.starts() == 0 && sum.auxiliary().si() == 0.0);
        assert!(sum.shortage().si() > 0.0 && !simulation.state().pump);
        assert!(sum.peak_collector().si() > celsius(100.0).si());
    }
}

#[test]
fn a_hot_collector_is_not_started_onto() {
    let mut locked = plant();
    locked.control.lock_out = Some(LockOut { above: celsius(60.0), below: celsius(55.0) });
    let mut simulation = Simulation::new(&locked, celsius(22.0), Method::of(&locked)).unwrap();
    simulation.advance(&Conditions { powered: false, ..hour(900.0, 22.0, 0.0) }, Time::from_si(HOUR)).unwrap();
    assert!(simulation.state().collector > celsius(100.0).si());
    let booked = simulation.advance(&hour(900.0, 22.0, 0.0), Time::from_si(HOUR)).unwrap();
    assert!(booked.pump_time().si() == 0.0 && simulation.state().locks.collector);
    simulation.advance(&hour(0.0, 22.0, 0.0), Time::from_si(3.0 * HOUR)).unwrap();
    assert!(!simulation.state().locks.collector);
}

#[test]
fn minutes_and_hours_tell_the_same_story() {
    let (whole, _) = run(&plant(), &day());
    let mut simulation = Simulation::new(&plant(), celsius(22.0), Method::of(&plant())).unwrap();
    let mut sum = Tally::default();
    for hour in day() {
        for _ in 0..60 {
            sum.add(&simulation.advance(&hour, Time::from_si(60.0)).unwrap());
        }
    }
    assert!((sum.into_tank().si() - whole.into_tank().si()).abs() < 0.002 * whole.into_tank().si());
    assert!((sum.load().si() - whole.load().si()).abs() < 1e-9 * whole.load().si());
}

#[test]
fn a_year_is_booked_by_month_and_day_and_ends_when_nobody_waits() {
    let hours: Vec<Conditions> = day().into_iter().cycle().take(HOURS).collect();
    let outcome = simulate(&plant(), &hours, &|| false).unwrap();
    assert_eq!((outcome.days.len(), outcome.hours.len()), (365, HOURS));
    let close = |sum: f64, whole: f64| (sum - whole).abs() < 1e-9 * whole.abs();
    let year = &outcome.year;
    assert!(close(outcome.days.iter().map(|day| day.tally.load().si()).sum(), year.load().si()));
    assert!(close(outcome.months.iter().map(|month| month.into_tank().si()).sum(), year.into_tank().si()));
    assert!(outcome.tank_residual < 1e-9 && outcome.collector_residual < 1e-9);
    // The tank starts cold and every day is the same: the first week lacks most.
    assert_eq!(outcome.worst_week.first_day, 1);
    assert_eq!(outcome, simulate(&plant(), &hours, &|| false).unwrap());
    assert_eq!(simulate(&plant(), &hours, &|| true), Err(YearError::Cancelled));
    assert_eq!(simulate(&plant(), &hours[1..], &|| false), Err(YearError::Hours { found: HOURS - 1 }));
}

#[test]
fn a_linear_curve_turns_into_the_inlet_form_exactly() {
    let curve = CurveCollector {
        area: Area::from_si(4.0),
        eta0: 0.75,
        a1: HeatTransfer::from_si(5.0),
        a2: 0.0,
        usual_excess: TemperatureInterval::from_si(30.0),
        capacity_rate: 200.0,
        heat_removal_factor: 0.9,
        capacity: HeatCapacity::from_si(32000.0),
    };
    let at_inlet = curve.at_inlet().unwrap();
    let (sun, inlet) = (800.0, 25.0);
    let heat = 4.0 * (at_inlet.optical_gain * sun - at_inlet.loss.si() * inlet);
    let mean = inlet + heat / 400.0;
    assert!((heat - 4.0 * (0.75 * sun - 5.0 * mean)).abs() < 1e-9);
    assert!(CurveCollector { eta0: 1.2, ..curve }.at_inlet().is_err());
}
