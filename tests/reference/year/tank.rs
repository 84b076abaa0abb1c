//! The tank alone, and the loop at rest: a published table, the exact solution of a draw, pooling by another code, the
//! collector-exchanger factor.

use serde_json::Value;
use sunharp::physics::exchanger::CollectorExchanger;
use sunharp::units::si::{
    Area, Dimension, HeatCapacity, HeatTransfer, Power, Temperature, TemperatureInterval, ThermalConductance,
    ThermalConductivity, Time, Volume, ZERO_CELSIUS, celsius,
};
use sunharp::year::tank::{Column, Streams, settle};
use sunharp::year::{
    Auxiliary, Circuit, Collector, Conditions, Control, Exchange, Method, Plant, Simulation, Tank, YearError,
};

fn cases(group: &str) -> Vec<Value> {
    let all: Value = serde_json::from_str(include_str!("../data/year_tank.json")).unwrap();
    all[group].as_array().unwrap().clone()
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(|number| number.as_f64().unwrap()).collect()
}

fn number(case: &Value, pointer: &str) -> f64 {
    case.pointer(pointer).and_then(Value::as_f64).unwrap_or_else(|| panic!("no {pointer} in {case}"))
}

/// Kalogirou 2009, example 5.4, as reproduced on a public page: the tank's temperature at the end of ten hours, °C.
const PUBLISHED: [f64; 10] = [38.7, 32.6, 26.6, 24.1, 26.9, 33.9, 40.8, 54.7, 73.1, 86.4];

#[test]
fn a_mixed_tank_by_steps_of_an_hour_follows_the_published_table() {
    for case in cases("mixed_tank_hourly") {
        let surroundings = number(&case, "/given/T_env") + ZERO_CELSIUS;
        let capacity = number(&case, "/given/mass_kg") * number(&case, "/given/cp");
        let column = Column { layers: 1, capacity, loss: number(&case, "/given/UA"), link: 0.0, surroundings };
        let mut temperature = [number(&case, "/given/T_init") + ZERO_CELSIUS];
        let (sun, load) = (numbers(&case["given"]["Qu_MJ"]), numbers(&case["given"]["load_MJ"]));
        let expected = case["expect"].as_array().unwrap();
        for (hour, (want, published)) in expected.iter().zip(PUBLISHED).enumerate() {
            let streams = Streams { coil: (sun[hour] - load[hour]) * 1e6 / 3600.0, ..Streams::default() };
            let start = temperature;
            let lost = column.lost(&start);
            column.carry(&start, &streams, 3600.0, &mut temperature);
            let degrees = temperature[0] - ZERO_CELSIUS;
            assert!((degrees - number(want, "/T")).abs() < 1e-6, "hour {hour}: {degrees}");
            assert!((lost * 3600.0 / 1e6 - number(want, "/loss_MJ")).abs() < 1e-6, "hour {hour}: {lost}");
            assert!((degrees - published).abs() < 0.05, "hour {hour}: {degrees} beside {published}");
        }
    }
}

#[test]
fn inversions_are_pooled_as_another_code_does() {
    for case in cases("inversion_mixing") {
        let mut layers = numbers(&case["given"]["nodes_top_first"]);
        settle(&mut layers);
        for (got, want) in layers.iter().zip(numbers(&case["expect"])) {
            assert!((got - want).abs() < 1e-9, "{layers:?} of {case}");
        }
    }
}

/// A plant whose tank neither loses nor conducts, with a loop that a case fills in.
fn still_tank(litres: f64, layers: usize, start: f64) -> Plant {
    Plant {
        collector: Collector {
            area: Area::from_si(1.0),
            optical_gain: 0.7,
            loss: HeatTransfer::from_si(5.0),
            heat_removal_factor: 0.9,
            capacity: HeatCapacity::from_si(8000.0),
        },
        circuit: Circuit {
            capacity_rate: 200.0,
            exchange: Exchange::Direct,
            hot_pipe: ThermalConductance::from_si(0.0),
            cold_pipe: ThermalConductance::from_si(0.0),
            pump: Power::from_si(40.0),
        },
        tank: Tank {
            volume: Volume::from_si(litres * 1e-3),
            layers,
            height: Dimension::from_si(1.5),
            loss: ThermalConductance::from_si(0.0),
            surroundings: celsius(20.0),
            vertical_conductivity: ThermalConductivity::from_si(0.0),
            start: celsius(start),
        },
        control: Control {
            start: TemperatureInterval::from_si(8.0),
            stop: TemperatureInterval::from_si(3.0),
            limit: celsius(95.0),
            reset: celsius(90.0),
            lock_out: None,
        },
        auxiliary: Auxiliary::Inline,
        tap: celsius(90.0),
    }
}

fn dark(mains: f64, draw: f64) -> Conditions {
    Conditions { irradiance: 0.0, air: celsius(5.0).si(), mains: celsius(mains).si(), draw, powered: true }
}

/// N equal mixed layers in series: T_m + (T_0 − T_m) P(N−1; N D/V), P the Poisson distribution; exact in time. The
/// note's tolerance is 0.3 K; a year's steps stay within 0.2 K for a tank that is emptied in two hours, steps of 10 s
/// within 0.001 K.
#[test]
fn a_draw_leaves_the_tank_as_the_poisson_distribution_says() {
    for case in cases("plug_draw") {
        let layers = case["given"]["nodes"].as_u64().unwrap() as usize;
        let plant = still_tank(number(&case, "/given/litres"), layers, number(&case, "/given/T_init"));
        let fine = Method { running: 10.0, resting: 10.0, heating: 10.0 };
        for (method, allowed) in [(Method::of(&plant), 0.2), (fine, 0.001)] {
            let mut simulation = Simulation::new(&plant, celsius(5.0), method).unwrap();
            let hour = dark(number(&case, "/given/T_in"), number(&case, "/given/litres_drawn") / 7200.0);
            simulation.advance(&hour, Time::from_si(7200.0)).unwrap();
            let state = simulation.state();
            let mean = state.layers().iter().sum::<f64>() / layers as f64;
            for (got, key) in [(state.top(), "/expect/T_outlet_top"), (mean, "/expect/mean_T")] {
                let want = number(&case, key) + ZERO_CELSIUS;
                assert!((got - want).abs() < allowed, "{layers} layers {key}: {got}, expected {want}");
            }
        }
    }
}

/// de Winter, Solar Energy 17, 335, 1975: in steady sun the year's loop yields A F_R′\[S − U_L (T_s − T_a)\]; the tank is
/// made so large that it stays where it is.
#[test]
fn in_steady_sun_the_loop_yields_what_the_collector_exchanger_factor_says() {
    let (sun, air, store) = (800.0, celsius(20.0), 45.0);
    for (exchange, storage_rate, effectiveness) in [
        (Exchange::Direct, f64::INFINITY, 1.0),
        (Exchange::Coil { effectiveness: 0.55 }, f64::INFINITY, 0.55),
        (Exchange::Plate { effectiveness: 0.65, storage_rate: 280.0 }, 280.0, 0.65),
        (Exchange::Plate { effectiveness: 0.65, storage_rate: 90.0 }, 90.0, 0.65),
    ] {
        let mut plant = still_tank(1e10, 1, store);
        plant.circuit.exchange = exchange;
        plant.collector.area = Area::from_si(4.0);
        let mut simulation = Simulation::new(&plant, air, Method::of(&plant)).unwrap();
        let hour = Conditions { irradiance: sun, air: air.si(), ..dark(15.0, 0.0) };
        simulation.advance(&hour, Time::from_si(6.0 * 3600.0)).unwrap();
        let booked = simulation.advance(&hour, Time::from_si(3600.0)).unwrap();
        let factor = CollectorExchanger {
            area: plant.collector.area,
            loss: plant.collector.loss,
            collector_rate: plant.circuit.capacity_rate,
            storage_rate,
            effectiveness,
        };
        let want = 4.0 * factor.factor().unwrap() * (0.7 * sun - 5.0 * (store - 20.0));
        let got = booked.into_tank().si() / 3600.0;
        assert!((got - want).abs() < 1e-6 * want, "{exchange:?}: {got} W, expected {want} W");
    }
}

#[test]
fn impossible_plants_and_hours_are_refused() {
    let new = |plant: &Plant| Simulation::new(plant, celsius(5.0), Method::of(plant)).map(drop);
    let plant = still_tank(300.0, 4, 50.0);
    assert_eq!(new(&plant), Ok(()));
    let mut none = plant;
    none.tank.layers = 0;
    assert!(matches!(new(&none), Err(YearError::Domain(_))));
    let mut swapped = plant;
    swapped.control.stop = TemperatureInterval::from_si(9.0);
    assert!(matches!(new(&swapped), Err(YearError::Contradiction { .. })));
    let mut weak = plant;
    weak.circuit.capacity_rate = 4.0;
    assert!(matches!(new(&weak), Err(YearError::Contradiction { .. })));
    let mut high = plant;
    let (set, deadband, power) = (celsius(52.0), TemperatureInterval::from_si(3.0), Power::from_si(3000.0));
    high.auxiliary = Auxiliary::Element { layer: 4, set, deadband, power };
    assert!(matches!(new(&high), Err(YearError::Contradiction { .. })));
    let mut simulation = Simulation::new(&plant, celsius(5.0), Method::of(&plant)).unwrap();
    let flood = simulation.advance(&dark(10.0, 1e3), Time::from_si(60.0));
    assert_eq!(flood.map(drop), Err(YearError::LayerTooSmall));
    let unknown = Conditions { air: f64::NAN, ..dark(10.0, 0.0) };
    assert!(simulation.advance(&unknown, Time::from_si(60.0)).is_err());
    assert!(simulation.advance(&dark(10.0, 0.0), Time::from_si(f64::INFINITY)).is_err());
    let unknown_air = Temperature::from_si(f64::NAN);
    assert!(Simulation::new(&plant, unknown_air, Method::of(&plant)).is_err());
}
