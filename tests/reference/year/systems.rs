//! Three plants, whole years: with the reference's own hourly inputs (A) and from the weather file (B).

use sunharp::units::si::{Dimension, Energy, Temperature, Time, celsius};
use sunharp::year::{Conditions, Exchange, Method, Outcome, Plant, Simulation, Tally, simulate};

use super::plain;
use super::plants::{System, systems};
use crate::reference::site::climate;

const KILOWATT_HOUR: f64 = 3.6e6;

fn site(system: &System) -> &'static str {
    match &system.id()[..2] {
        "P1" => "greensboro",
        "P2" => "miami",
        _ => "sandpoint",
    }
}

fn monthly(system: &System, key: &str) -> Vec<f64> {
    system.value["monthly"][key].as_array().unwrap().iter().map(|value| value.as_f64().unwrap()).collect()
}

fn year(plant: &Plant, conditions: &[Conditions]) -> Outcome {
    let outcome = simulate(plant, conditions, &|| false).unwrap();
    assert!(outcome.tank_residual < 1e-9, "tank residual {}", outcome.tank_residual);
    assert!(outcome.collector_residual < 1e-9, "collector residual {}", outcome.collector_residual);
    outcome
}

fn kilowatt_hours(energy: Energy) -> f64 {
    energy.si() / KILOWATT_HOUR
}

fn hours(time: Time) -> f64 {
    time.si() / 3600.0
}

/// Name in the file and the figure of ours, kWh.
fn energies(tally: &Tally) -> [(&'static str, f64); 7] {
    [
        ("q_load_kwh", kilowatt_hours(tally.load())),
        ("q_draw_kwh", kilowatt_hours(tally.drawn())),
        ("q_aux_kwh", kilowatt_hours(tally.auxiliary())),
        ("q_short_kwh", kilowatt_hours(tally.shortage())),
        ("q_tank_kwh", kilowatt_hours(tally.into_tank())),
        ("q_loss_kwh", kilowatt_hours(tally.tank_loss())),
        ("q_pipe_kwh", kilowatt_hours(tally.pipe_loss())),
    ]
}

fn near(system: &System, what: &str, got: f64, want: f64, allowed: f64) {
    assert!((got - want).abs() <= allowed, "{} {what}: {got}, expected {want} ± {allowed}", system.id());
}

/// Annual energies within 1.5 %, auxiliary within 1.5 % of the load, f within 0.010, pump hours within 3 %, lock and
/// steam hours within 5 % or 5 h, monthly energies within 3 % of the largest month, starts within 25 %. No tolerance is
/// given for the shortage (4 kWh of 2653 in one plant, none in the others): it is taken on the load, as the auxiliary.
#[test]
fn years_with_the_references_own_sunlight_come_out_as_there() {
    for system in systems() {
        let outcome = year(&system.plant(), &system.given_conditions(climate(site(system))));
        let load = system.number("annual.q_load_kwh");
        for (key, got) in energies(&outcome.year) {
            let want = system.number(&format!("annual.{key}"));
            let scale = if matches!(key, "q_aux_kwh" | "q_short_kwh") { load } else { want };
            near(system, key, got, want, 0.015 * scale);
        }
        near(system, "f", outcome.year.solar_fraction().unwrap(), system.number("annual.f"), 0.010);
        for (key, got, relative, absolute) in [
            ("pump_h", hours(outcome.year.pump_time()), 0.03, 0.0),
            ("lock_h", hours(outcome.year.locked_time()), 0.05, 5.0),
            ("tc100_h", hours(outcome.year.steam_time()), 0.05, 5.0),
            ("starts", f64::from(outcome.year.starts()), 0.25, 0.0),
            ("pump_kwh", kilowatt_hours(outcome.year.pump_energy()), 0.03, 0.0),
            ("tank_dE_kwh", kilowatt_hours(outcome.stored), 0.0, 0.015 * system.number("annual.q_tank_kwh")),
        ] {
            let want = system.number(&format!("annual.{key}"));
            near(system, key, got, want, f64::max(relative * want, absolute));
        }
        for (index, month) in outcome.months.iter().enumerate() {
            for (key, got) in energies(month) {
                let wanted = monthly(system, key);
                let scale = monthly(system, if key == "q_short_kwh" { "q_load_kwh" } else { key });
                let largest = scale.iter().fold(0.0, |largest: f64, value| largest.max(value.abs()));
                near(system, key, got, wanted[index], 0.03 * largest);
            }
        }
    }
}

/// Annual irradiation, tank input and draw within 2 %, f within 0.015, pump hours within 4 %.
#[test]
fn years_from_the_weather_file_come_out_as_there() {
    for system in systems() {
        let (conditions, irradiation) = system.computed_conditions(climate(site(system)));
        let outcome = year(&system.plant(), &conditions);
        let annual = |key: &str| system.number(&format!("annual.{key}"));
        near(system, "poa", irradiation, annual("poa_kwh_m2"), 0.02 * annual("poa_kwh_m2"));
        let into_tank = kilowatt_hours(outcome.year.into_tank());
        near(system, "q_tank", into_tank, annual("q_tank_kwh"), 0.02 * annual("q_tank_kwh"));
        let drawn = kilowatt_hours(outcome.year.drawn());
        near(system, "q_draw", drawn, annual("q_draw_kwh"), 0.02 * annual("q_draw_kwh"));
        near(system, "f", outcome.year.solar_fraction().unwrap(), annual("f"), 0.015);
        near(system, "pump_h", hours(outcome.year.pump_time()), annual("pump_h"), 0.04 * annual("pump_h"));
    }
}

/// Twelve days of April by steps of 5 s without midpoint or event location: every energy within 0.5 % of the load.
#[test]
fn long_steps_give_what_steps_of_five_seconds_give() {
    for system in systems() {
        let mut plant = system.plant();
        plant.tank.start = celsius(35.0);
        for exchange in [
            plant.circuit.exchange,
            Exchange::Plate { effectiveness: 0.6, storage_rate: 1.2 * plant.circuit.capacity_rate },
        ] {
            plant.circuit.exchange = exchange;
            let april = &system.given_conditions(climate(site(system)))[90 * 24..102 * 24];
            let air = Temperature::from_si(april[0].air);
            let mut simulation = Simulation::new(&plant, air, Method::of(&plant)).unwrap();
            let mut got = Tally::default();
            for hour in april {
                got.add(&simulation.advance(hour, Time::from_si(3600.0)).unwrap());
            }
            let plain = plain::run(&plant, april, 5.0);
            for (what, got, want) in [
                ("load", got.load(), plain.load),
                ("drawn", got.drawn(), plain.drawn),
                ("auxiliary", got.auxiliary(), plain.auxiliary),
                ("shortage", got.shortage(), plain.shortage),
                ("into tank", got.into_tank(), plain.into_tank),
                ("tank loss", got.tank_loss(), plain.tank_loss),
                ("pipe loss", got.pipe_loss(), plain.pipe_loss),
            ] {
                near(system, what, got.si(), want, 0.005 * plain.load);
            }
            near(system, "pump", got.pump_time().si(), plain.pump_time, 0.02 * plain.pump_time);
        }
    }
}
