//! Heat, steam, scald, frost and germs against published tables and values of reference libraries.
//!
//! Values computed with a reference library (IAPWS-IF97 and others) or seen in a source are told apart at each check.

use super::close;
use sunharp::physics::collector_curve::{CollectorCurve, MeasuredStagnation, Weather};
use sunharp::physics::freezing::{Cooling, NightPanel, Sky, freezing_air, freezing_times};
use sunharp::physics::lag::{Adjustments, Screw};
use sunharp::physics::layers::{Conductivity, FaceLimit, Layer, Stack, least_thickness, profile};
use sunharp::physics::legionella::{Band, band, decimal_reduction, log_reduction};
use sunharp::physics::lift::{Coupling, Lift, recommended_weight};
use sunharp::physics::scald::{BURN_TABLE, BurnTime, burn_time};
use sunharp::physics::steam::{BoilingPanel, saturated, saturation};
use sunharp::physics::trapped::{TubeSection, shut_water};
use sunharp::physics::wind::{WindFactors, force_on_panel, velocity_pressure};
use sunharp::units::si::{
    Angle, Area, Dimension, HeatFluxDensity, HeatTransfer, Insulance, Length, Pressure, Temperature,
    TemperatureInterval, ThermalConductivity, Time, Velocity, celsius, in_celsius,
};

fn curve(eta0: f64, a1: f64, a2: f64) -> CollectorCurve {
    CollectorCurve { eta0, a1: HeatTransfer::from_si(a1), a2 }
}

fn weather(irradiance: f64, air: f64) -> Weather {
    Weather { irradiance: HeatFluxDensity::from_si(irradiance), air: celsius(air) }
}

fn at_gauge(bar: f64) -> Temperature {
    saturation(Pressure::from_si(bar * 1e5), Pressure::from_si(101_325.0)).unwrap_or(celsius(f64::NAN))
}

/// Roots of η₀ G = a₁ ΔT + a₂ ΔT² computed apart for three collectors and three skies.
#[test]
fn the_curve_stagnates_where_its_root_lies() {
    let skies = [(1000.0, 30.0), (1100.0, 35.0), (1200.0, 40.0)];
    for (curve, expected) in [
        (curve(0.78, 3.8, 0.015), [164.2, 179.0, 193.4]),
        (curve(0.78, 5.0, 0.015), [145.8, 159.8, 173.6]),
        (curve(0.75, 6.0, 0.020), [124.9, 137.5, 149.8]),
    ] {
        for ((irradiance, air), degrees) in skies.into_iter().zip(expected) {
            close(in_celsius(curve.stagnation(weather(irradiance, air)).unwrap()), degrees, 0.06);
        }
    }
}

/// ISO 9806 scaling (from memory): 121 °C at 912 W/m² and 18 °C.
#[test]
fn a_measured_stagnation_scales_upward() {
    let measured = MeasuredStagnation { weather: weather(912.0, 18.0), plate: celsius(121.0) };
    close(in_celsius(measured.scaled_to(weather(1000.0, 30.0)).unwrap()), 142.9, 0.06);
    close(in_celsius(measured.scaled_to(weather(1200.0, 40.0)).unwrap()), 175.5, 0.06);
}

/// Wood of 18 mm behind 25 to 100 mm of insulation, computed apart; least R for 77 °C is 0.83 m²K/W, 33 mm.
#[test]
fn the_wood_face_cools_with_insulation() {
    let layer = |millimetres: f64, k: f64| Layer {
        thickness: Length::from_si(millimetres * 1e-3),
        conductivity: Conductivity::constant(ThermalConductivity::from_si(k)),
    };
    let face = |plate: f64, air: f64, millimetres: f64| {
        let layers = [layer(millimetres, 0.04), layer(18.0, 0.12)];
        let stack =
            Stack { hot: celsius(plate), ambient: celsius(air), layers: &layers, outside: Insulance::from_si(0.1) };
        in_celsius(profile(&stack).unwrap().faces[1])
    };
    for (millimetres, degrees) in [(25.0, 85.7), (40.0, 72.0), (50.0, 66.7), (75.0, 58.8), (100.0, 54.5)] {
        close(face(200.0, 40.0, millimetres), degrees, 0.06);
    }
    close(face(150.0, 30.0, 25.0), 64.3, 0.06);
    let layers = [layer(0.0, 0.04), layer(18.0, 0.12)];
    let stack =
        Stack { hot: celsius(200.0), ambient: celsius(40.0), layers: &layers, outside: Insulance::from_si(0.1) };
    let least = least_thickness(&stack, FaceLimit { layer: 0, face: 1, limit: celsius(77.0) }).unwrap();
    close(least.si() / 0.04, 0.83, 0.005);
    close(least.si() * 1e3, 33.0, 0.5);
}

/// IAPWS-IF97, computed with a reference library: gauge bar and °C, heat of evaporation, volumes 1602 : 1 at 1 atm.
#[test]
fn steam_is_that_of_the_steam_tables() {
    for (bar, degrees) in [
        (0.0, 99.97),
        (0.5, 111.6),
        (1.0, 120.4),
        (1.5, 127.6),
        (2.0, 133.7),
        (3.0, 143.7),
        (4.0, 151.9),
        (6.0, 165.0),
        (10.0, 184.1),
    ] {
        close(in_celsius(at_gauge(bar)), degrees, 0.06);
    }
    close(saturated(celsius(100.0)).unwrap().heat_of_evaporation / 1e3, 2256.5, 0.3);
    close(saturated(celsius(143.7)).unwrap().heat_of_evaporation / 1e3, 2133.0, 0.7);
    let water = saturated(celsius(99.97)).unwrap();
    close(water.liquid_density / water.vapour_density, 1602.0, 2.0);
}

/// Steam tables, from memory: 100 °C at 1.0142 bar, 180 °C at 10.026 bar absolute.
#[test]
fn water_boils_at_the_pressures_of_the_steam_book() {
    let nothing = Pressure::from_si(0.0);
    close(in_celsius(saturation(Pressure::from_si(1.0142e5), nothing).unwrap()), 100.0, 0.005);
    close(in_celsius(saturation(Pressure::from_si(10.026e5), nothing).unwrap()), 180.0, 0.01);
}

/// 4 m² at 1200 W/m² and 40 °C, computed apart: W/m² and kg/h by gauge bar.
#[test]
fn a_boiling_panel_makes_as_much_steam_as_its_curve_leaves() {
    let panel = |curve, bar| BoilingPanel {
        curve,
        area: Area::from_si(4.0),
        weather: weather(1200.0, 40.0),
        saturation: at_gauge(bar),
    };
    let selective = curve(0.78, 3.8, 0.015);
    for (bar, flux, rate) in [(2.0, 448.0, 2.99), (3.0, 380.0, 2.57), (4.0, 323.0, 2.20), (6.0, 227.0, 1.58)] {
        let steam = panel(selective, bar).steam().unwrap();
        close(steam.power.si() / 4.0, flux, 0.7);
        close(steam.rate.si() * 3600.0, rate, 0.01);
    }
    let black = curve(0.75, 6.0, 0.020);
    for (bar, flux) in [(2.0, 162.5), (3.0, 62.4), (4.0, 0.0)] {
        close(panel(black, bar).steam().unwrap().power.si() / 4.0, flux, 0.7);
    }
    close(panel(selective, 2.0).steam_without_losses().unwrap().rate.si() * 3600.0, 6.1, 0.15);
}

/// 15 × 0.7 mm copper, bar for each kelvin at 20, 30, 40, 60 °C, computed apart with a reference library.
#[test]
fn a_shut_full_tube_gains_bars_for_each_kelvin() {
    let tube = TubeSection { outside_diameter: Length::from_si(0.015), wall: Length::from_si(0.0007) };
    for (degrees, copper, rigid) in [(20.0, 2.5, 4.5), (30.0, 4.1, 6.8), (40.0, 5.5, 8.7), (60.0, 7.8, 11.8)] {
        let bars = |tube| shut_water(celsius(degrees), tube).unwrap().pressure_per_kelvin() / 1e5;
        close(bars(Some(tube)), copper, 0.06);
        close(bars(None), rigid, 0.06);
    }
}

/// Exposure times of the scald literature after Moritz and Henriques 1947 (verified), and readings between its rows.
#[test]
fn burn_times_are_those_of_the_table() {
    let seconds = |degrees: f64| match burn_time(celsius(degrees)) {
        BurnTime::Within { second_degree, third_degree } => (second_degree.si(), third_degree.si()),
        other => unreachable!("{other:?}"),
    };
    for (degrees, second, third) in BURN_TABLE {
        let read = seconds(degrees);
        close(read.0 / second, 1.0, 1e-6);
        close(read.1 / third, 1.0, 1e-6);
    }
    for (degrees, second, third) in [(50.0, 240.0, 389.0), (52.0, 74.0, 148.0), (54.0, 28.0, 51.0), (57.0, 8.5, 14.7)] {
        let read = seconds(degrees);
        close(read.0 / second, 1.0, 0.02);
        close(read.1 / third, 1.0, 0.02);
    }
}

/// Burn integral of Henriques 1947, A = 3.1e98 1/s, E/R = 75 000 K (from memory), at a steady basal temperature: it
/// agrees below 52 °C, where the skin has time to warm.
#[test]
fn burn_times_below_52_degrees_agree_with_the_damage_integral() {
    for (degrees, second, _) in BURN_TABLE.into_iter().filter(|row| (48.0..52.0).contains(&row.0)) {
        let integral = 1.0 / (3.1e98 * (-75_000.0 / (degrees + 273.15_f64)).exp());
        close((integral / second).ln(), 0.0, 0.25);
    }
}

/// Guidance values (verified), decimal kill of about 2 min at 60 and 80 to 124 min at 50 °C (secondary).
#[test]
fn legionella_grows_and_dies_where_the_guidance_says() {
    assert_eq!(
        [15.0, 22.0, 37.0, 47.0, 60.0].map(|degrees| band(celsius(degrees))),
        [Band::Dormant, Band::Idle, Band::Grows, Band::Idle, Band::Dies]
    );
    let minutes = |degrees| decimal_reduction(celsius(degrees)).unwrap().si() / 60.0;
    assert!((80.0..124.0).contains(&minutes(50.0)));
    close(minutes(60.0), 2.0, 1e-9);
    close(minutes(55.0), 14.3, 0.05);
    close(minutes(65.0), 0.28, 0.005);
    let spell = |degrees, minutes: f64| (celsius(degrees), Time::from_si(minutes * 60.0));
    close(log_reduction(&[spell(55.0, 20.0), spell(60.0, 15.0), spell(62.0, 10.0)]).unwrap(), 19.9, 0.05);
}

/// The project's wind law 2.8 + 3 v under a clear sky: air of about 9, 7.6, 6.5 °C freezes the plate. Guidance to
/// protect below 42 °F (5.6 °C) and a rating criterion of 5 °C lie below these, as they should for wind above 1 m/s.
#[test]
fn a_plate_freezes_in_air_above_freezing() {
    let air = |sky, wind: f64| in_celsius(freezing_air(NightPanel::default(), sky, Velocity::from_si(wind)).unwrap());
    for (wind, degrees) in [(0.0, 9.0), (0.5, 7.6), (1.0, 6.5)] {
        close(air(Sky::Clear, wind), degrees, 0.1);
    }
    let dry = Sky::BelowAir(TemperatureInterval::from_si(30.0));
    assert!(air(dry, 0.0) > air(Sky::Clear, 0.0));
    assert!((3.0..5.6).contains(&air(Sky::Clear, 2.0)));
}

/// 8 kJ/m²K at 40 W/m²: about 1.1 h from 20 to 0 °C, then 2.3 h for 1 kg/m² (computed apart).
#[test]
fn a_still_panel_freezes_within_a_night() {
    let times = freezing_times(Cooling {
        capacity_per_area: 8000.0,
        water_per_area: 1.0,
        loss: HeatFluxDensity::from_si(40.0),
        start: celsius(20.0),
    })
    .unwrap();
    close(times.to_zero.si() / 3600.0, 1.11, 0.01);
    close(times.to_solid.si() / 3600.0, 2.3, 0.05);
}

/// NIOSH 1991 (from memory), values computed apart.
#[test]
fn a_panel_is_lifted_by_several() {
    let lift = |horizontal, vertical, travel, coupling| Lift {
        horizontal: Length::from_si(horizontal),
        vertical: Length::from_si(vertical),
        travel: Length::from_si(travel),
        twist: Angle::from_si(0.0),
        frequency: 1.0,
        coupling,
    };
    close(recommended_weight(lift(0.4, 0.749, 1.0, Coupling::Fair)).unwrap().si(), 11.8, 0.05);
    close(recommended_weight(lift(0.5, 0.3, 1.2, Coupling::Poor)).unwrap().si(), 7.7, 0.05);
}

/// q = 0.613 v²: 552, 981, 1241, 1532 Pa; 2 m² at 10 m/s 123 N; withdrawal 205 and 266 lb/in of a 5/16 in lag.
#[test]
fn wind_and_screws_of_the_roof_list() {
    let bare = WindFactors { exposure: 1.0, topography: 1.0, directionality: 1.0, elevation: 1.0 };
    for (speed, pascal) in [(30.0, 552.0), (40.0, 981.0), (45.0, 1241.0), (50.0, 1532.5)] {
        close(velocity_pressure(Velocity::from_si(speed), bare).unwrap().si(), pascal, 0.6);
    }
    close(force_on_panel(Area::from_si(2.0), Velocity::from_si(10.0), 1.0).unwrap().si(), 122.6, 0.1);
    for (gravity, pounds) in [(0.42, 205.0), (0.50, 266.0)] {
        let screw = Screw {
            diameter: Length::from_si(0.3125 * 0.0254),
            thread: Length::from_si(0.0254),
            specific_gravity: gravity,
        };
        close(screw.lag_withdrawal(Adjustments::none()).unwrap().si() / 4.4482216, pounds, 0.6);
    }
}
