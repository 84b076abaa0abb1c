//! Proof by pressure, sensors, flow and performance points against tables and worked values.
//!
//! Values seen in a source and values computed apart are told at each check.

use super::close;
use sunharp::physics::atmosphere::SEA_LEVEL_PRESSURE;
use sunharp::physics::collector_curve::{CollectorCurve, Weather};
use sunharp::physics::flow_measurement::{Bucket, Catch, FloatMeter};
use sunharp::physics::performance_point::{HeatReading, PanelTemperatures, SunReading, reduced_temperature};
use sunharp::physics::pressure_test::{
    CompressedAir, Reading, Squeeze, TestBounds, air_drift_per_kelvin, air_pressure_at, drift_per_kelvin,
    liquid_energy, solid_compliance, test_pressure,
};
use sunharp::physics::sensor::{
    Beta, Platinum, PlatinumClass, THERMISTOR_10K, THERMISTOR_TABLE, ThreeTerm, thermistor_resistance,
    thermistor_temperature,
};
use sunharp::physics::statistics::{Comparison, Point, Uncertain, Weighting, fit_polynomial};
use sunharp::physics::steam::saturation;
use sunharp::physics::trapped::{TubeSection, shut_water};
use sunharp::units::si::{
    Area, Dimension, ElectricalResistance, HeatFluxDensity, HeatTransfer, Length, MassDensity, Pressure, Time, Volume,
    VolumeRate, celsius, in_celsius,
};

fn bar(value: f64) -> Pressure {
    Pressure::from_si(value * 1e5)
}

fn atmosphere() -> Pressure {
    Pressure::from_si(SEA_LEVEL_PRESSURE)
}

fn litres(value: f64) -> Volume {
    Volume::from_si(value * 1e-3)
}

fn ohms(value: f64) -> ElectricalResistance {
    ElectricalResistance::from_si(value)
}

/// 3.447 bar (50 psi) from 20 to 10 °C: 3.295 bar; 5.171 bar (75 psi): −0.211 bar. A navy manual puts 5 to 10 psi at
/// 75 psi down to temperature: 16 to 33 K.
#[test]
fn air_in_a_test_follows_its_temperature() {
    let at = |gauge: f64| Reading { pressure: bar(gauge), temperature: celsius(20.0) };
    let cold = |gauge: f64| air_pressure_at(at(gauge), celsius(10.0), atmosphere()).unwrap().si() / 1e5;
    close(cold(3.447), 3.295, 0.001);
    close(cold(5.171) - 5.171, -0.211, 0.001);
    let drift = air_drift_per_kelvin(at(5.171), atmosphere()).unwrap() / 6894.757;
    close(5.0 / drift, 16.0, 0.5);
    close(10.0 / drift, 33.0, 0.5);
}

/// 3 L that lose 0.05 bar in 15 min leak 9.9 mL/min of free air; energies of 3 L at 3.45 and 6 bar, 20 L at 3.45 bar,
/// 3 L at 0.3 bar (computed apart).
#[test]
fn air_leaks_and_stores_energy() {
    let air = |volume, gauge| CompressedAir { volume: litres(volume), gauge: bar(gauge), atmosphere: atmosphere() };
    let leak = air(3.0, 3.447).leak(bar(0.05), Time::from_si(900.0)).unwrap();
    close(leak.si() * 60e6, 9.9, 0.05);
    for (volume, gauge, joule) in [(3.0, 3.45, 1155.0), (3.0, 6.0, 2234.0), (20.0, 3.45, 7700.0), (3.0, 0.3, 70.0)] {
        close(air(volume, gauge).energy().unwrap().si() / joule, 1.0, 0.02);
    }
}

/// Water without air in 15 × 0.7 mm copper at 20 °C: 2.5 bar/K, 0.037 mL for 0.2 bar of 3 L, 1.1 mL/bar for 18 L,
/// 0.08 J in 3 L at 3.45 bar (computed apart).
#[test]
fn water_without_air_hides_a_leak_and_stores_nothing() {
    let tube = TubeSection { outside_diameter: Length::from_si(0.015), wall: Length::from_si(0.0007) };
    let water = shut_water(celsius(20.0), Some(tube)).unwrap();
    let three = solid_compliance(litres(3.0), water);
    close(three.0 * 0.2e5 * 1e6 / 0.037, 1.0, 0.02);
    close(solid_compliance(litres(18.0), water).0 * 1e5 * 1e6 / 1.1, 1.0, 0.03);
    close(drift_per_kelvin(litres(3.0), water, three).unwrap() / 1e5, 2.5, 0.1);
    let rigid = shut_water(celsius(20.0), None).unwrap();
    close(liquid_energy(solid_compliance(litres(3.0), rigid), bar(3.45)).si(), 0.08, 0.005);
}

/// 0.35 L from 2.0 to 3.0 bar absolute: 1.05 L of air.
#[test]
fn a_squeeze_finds_the_trapped_air() {
    let squeeze = Squeeze { added: litres(0.35), before: bar(2.0), after: bar(3.0) };
    close(squeeze.trapped_air().unwrap().si() * 1e3, 1.05, 1e-9);
    close(squeeze.compliance().unwrap().0, 0.35e-3 / 1e5, 1e-15);
    assert!(Squeeze { after: bar(2.0), ..squeeze }.trapped_air().is_err());
}

/// UK water rules: 1.5 × 5 bar is 7.5 bar (verified).
#[test]
fn a_test_stands_at_one_and_a_half_times_the_limit() {
    let test = test_pressure(TestBounds { relief: bar(5.0), weakest: bar(10.0) }).unwrap();
    close(test.pressure.si() / 1e5, 7.5, 1e-9);
    assert!(!test.capped);
}

/// Reference table for platinum elements (verified), 100 Ω at 0 °C.
#[test]
fn platinum_has_the_resistances_of_its_table() {
    let sensor = Platinum { at_zero: ohms(100.0) };
    for (degrees, resistance) in [
        (-20.0, 92.16),
        (0.0, 100.00),
        (10.0, 103.90),
        (20.0, 107.79),
        (50.0, 119.40),
        (60.0, 123.24),
        (80.0, 130.90),
        (100.0, 138.51),
        (120.0, 146.07),
        (150.0, 157.33),
        (200.0, 175.86),
    ] {
        close(sensor.resistance(celsius(degrees)).unwrap().si(), resistance, 0.0051);
        close(in_celsius(sensor.temperature(ohms(resistance)).unwrap()), degrees, 0.014);
    }
    close(in_celsius(sensor.temperature(ohms(138.51)).unwrap()), 100.012, 0.001);
    close(in_celsius(sensor.temperature(ohms(119.40)).unwrap()), 50.007, 0.001);
    let thousand = Platinum { at_zero: ohms(1000.0) };
    close(thousand.resistance(celsius(90.0)).unwrap().si(), 1347.0, 0.5);
    close(sensor.lead_error(ohms(1.0)).unwrap().si(), 2.6, 0.05);
    close(thousand.lead_error(ohms(1.0)).unwrap().si(), 0.26, 0.005);
}

/// IEC 60751 tolerances (verified page): class A 0.35 K and class B 0.80 K at 100 °C.
#[test]
fn platinum_classes_have_their_tolerances() {
    close(PlatinumClass::A.tolerance(celsius(100.0)).unwrap().si(), 0.35, 1e-9);
    close(PlatinumClass::B.tolerance(celsius(100.0)).unwrap().si(), 0.80, 1e-9);
    close(PlatinumClass::B.tolerance(celsius(-20.0)).unwrap().si(), 0.40, 1e-9);
    assert!(PlatinumClass::A.tolerance(celsius(500.0)).is_err());
}

/// Thermistor tables of two instrument manuals (verified); errors of the fit and of the beta equation computed apart.
#[test]
fn thermistors_follow_their_table() {
    for (degrees, resistance) in THERMISTOR_TABLE {
        let allowed = if degrees < 0.0 { 0.25 } else { 0.12 };
        close(in_celsius(thermistor_temperature(ohms(resistance)).unwrap()), degrees, allowed);
    }
    close(thermistor_resistance(celsius(3.0)).unwrap().si(), 28050.0, 15.0);
    let table = |degrees: f64| {
        let row = THERMISTOR_TABLE.iter().find(|row| (row.0 - degrees).abs() < 1e-9).unwrap();
        (celsius(degrees), ohms(row.1))
    };
    let fit = ThreeTerm::through([table(0.0), table(60.0), table(150.0)]).unwrap();
    close(fit.a / THERMISTOR_10K.a, 1.0, 1e-6);
    close(fit.b / THERMISTOR_10K.b, 1.0, 1e-6);
    close(fit.c / THERMISTOR_10K.c, 1.0, 1e-5);
    let rough = Beta { at_25_celsius: ohms(10_000.0), beta: 3977.5 };
    for (degrees, error) in [(0.0, 0.71), (60.0, -0.29), (100.0, 0.31), (120.0, 0.84), (150.0, 1.95)] {
        close(in_celsius(rough.temperature(table(degrees).1).unwrap()) - degrees, error, 0.02);
    }
}

/// Boiling at the pressure of standard air (computed with a reference library): 0, 500, 1000, 1500, 2000, 3000 m.
#[test]
fn a_sensor_in_boiling_water_reads_by_altitude() {
    for (pascal, degrees) in
        [(101_325.0, 99.97), (95_461.0, 98.3), (89_875.0, 96.7), (84_556.0, 95.0), (79_495.0, 93.3), (70_109.0, 90.0)]
    {
        let boiling = saturation(Pressure::from_si(0.0), Pressure::from_si(pascal)).unwrap();
        close(in_celsius(boiling), degrees, 0.06);
    }
}

/// 10.0 ± 0.10 L in 62.4 s with u 0.300 s: 9.615 L/min, u 0.0722, 0.144 at 95 % (computed apart).
#[test]
fn a_bucket_measures_flow_with_its_uncertainty() {
    let bucket = Bucket {
        caught: Catch { volume: litres(10.0), limit: litres(0.1) },
        time: Time::from_si(62.4),
        time_uncertainty: Time::from_si(0.3),
    };
    let flow = bucket.flow().unwrap();
    close(flow.flow.si() * 60e3, 9.615, 0.0005);
    close(flow.uncertainty.si() * 60e3, 0.0722, 0.0001);
    close(flow.expanded().si() * 60e3, 0.144, 0.0005);
}

/// Steel float 8000, glycol of 40 % 1033 kg/m³ on a scale for water: 0.981 (computed apart).
#[test]
fn a_float_meter_reads_high_in_glycol() {
    let [float, scale, liquid] = [8000.0, 999.0, 1033.0].map(MassDensity::from_si);
    close(FloatMeter { float, scale, liquid }.correction().unwrap().si(), 0.981, 0.0005);
}

/// 1.90 L/min from 42.30 to 50.70 °C, 2.0 m², 905 W/m², air 21 °C (computed apart).
#[test]
fn a_point_has_heat_efficiency_and_uncertainty() {
    let heat = HeatReading {
        flow: VolumeRate::from_si(1.90 / 60e3),
        flow_relative: 0.01,
        inlet: celsius(42.30),
        outlet: celsius(50.70),
        temperature_uncertainty: 0.15,
        density: 991.36,
        specific_heat: 4180.2,
        specific_heat_relative: 0.002,
    }
    .heat()
    .unwrap();
    close(heat.mass_flow.si(), 0.031393, 1e-6);
    close(heat.heat.si(), 1102.3, 0.1);
    close(heat.uncertainty.si(), 30.0, 0.1);
    let efficiency = heat
        .efficiency(SunReading {
            area: Area::from_si(2.0),
            area_relative: 0.005,
            irradiance: HeatFluxDensity::from_si(905.0),
            irradiance_relative: 0.03,
        })
        .unwrap();
    close(efficiency.value, 0.6090, 0.0001);
    close(efficiency.uncertainty, 0.0249, 0.0001);
    let temperatures = PanelTemperatures { inlet: celsius(42.30), outlet: celsius(50.70), air: celsius(21.0) };
    close(reduced_temperature(temperatures, HeatFluxDensity::from_si(905.0)).unwrap(), 0.02818, 1e-5);
}

const SUN: [f64; 8] = [905.0, 912.0, 890.0, 920.0, 901.0, 915.0, 898.0, 910.0];
const AIR: [f64; 8] = [21.0, 21.5, 22.0, 22.4, 22.8, 23.1, 23.0, 22.7];
const MEAN: [f64; 8] = [24.2, 26.9, 38.1, 40.3, 52.6, 54.0, 66.2, 68.5];
const EFFICIENCY: [f64; 8] = [0.742, 0.724, 0.668, 0.655, 0.588, 0.581, 0.506, 0.493];
const UNCERTAINTY: [f64; 8] = [0.015, 0.015, 0.015, 0.015, 0.018, 0.018, 0.022, 0.022];

fn points() -> Vec<Point> {
    (0..8).map(|i| Point { x: (MEAN[i] - AIR[i]) / SUN[i], y: EFFICIENCY[i], uncertainty: UNCERTAINTY[i] }).collect()
}

/// Eight points fitted by a reference library: weighted, unweighted and quadratic.
#[test]
fn the_fit_of_eight_points_is_that_of_a_reference_library() {
    let fit = fit_polynomial(&points(), 1, Weighting::ByUncertainty).unwrap();
    close(fit.coefficients[0], 0.75888, 1e-5);
    close(-fit.coefficients[1], 5.24386, 1e-5);
    close(fit.uncertainty(0).unwrap(), 0.01043, 1e-5);
    close(fit.uncertainty(1).unwrap(), 0.38827, 1e-5);
    close(fit.covariance[0][1].abs(), 0.0033207, 1e-7);
    close(fit.sum_of_squares, 0.1940, 1e-4);
    assert_eq!(fit.degrees_of_freedom, 6);
    let (value, uncertainty) = fit.predict(0.04);
    close(value, 0.54912, 1e-5);
    close(uncertainty, 0.00918, 1e-5);

    let equal = fit_polynomial(&points(), 1, Weighting::Equal).unwrap();
    close(equal.coefficients[0], 0.75912, 1e-5);
    close(-equal.coefficients[1], 5.25686, 1e-5);
    close(equal.uncertainty(0).unwrap(), 0.00188, 1e-5);
    close(equal.uncertainty(1).unwrap(), 0.06005, 1e-5);
    close(equal.scatter().unwrap(), 0.00282, 1e-5);
}

/// The same points with a quadratic term on ΔT²/G, given apart as 0.7572, 5.035 ± 1.456, 0.0045 ± 0.0304: unresolved.
/// In x² the term is of another size and just as unresolved; over the mean sun of 906 W/m² it is the same number.
#[test]
fn a_quadratic_through_eight_points_is_not_resolved() {
    let fit = fit_polynomial(&points(), 2, Weighting::ByUncertainty).unwrap();
    close(fit.coefficients[0], 0.7572, 0.0005);
    close(-fit.coefficients[1], 5.035, 0.05);
    close(fit.uncertainty(1).unwrap(), 1.456, 0.02);
    assert!(fit.coefficients[2].abs() < fit.uncertainty(2).unwrap());
    let sun = SUN.iter().sum::<f64>() / 8.0;
    close(-fit.coefficients[2] / sun, 0.0045, 0.001);
    close(fit.uncertainty(2).unwrap() / sun, 0.0304, 0.001);
}

/// Prediction 0.75 ± 0.03 and 4.5 ± 0.5 against the fit: z = 0.28 and 1.18 (computed apart).
#[test]
fn a_fit_agrees_with_its_prediction() {
    let z = |measured, u, predicted, v| {
        let measured = Uncertain { value: measured, uncertainty: u };
        let predicted = Uncertain { value: predicted, uncertainty: v };
        Comparison { measured, predicted }.z().unwrap()
    };
    close(z(0.75888, 0.01043, 0.75, 0.03), 0.28, 0.005);
    close(z(5.24386, 0.38827, 4.5, 0.5), 1.18, 0.01);
}

/// 2 m², 0.75/4.5/0.012, 905 W/m², 25.5 K: 1112.4 W; measured 1102.3 W is 0.991 of it (computed apart).
#[test]
fn the_power_check_compares_like_with_like() {
    let curve = CollectorCurve { eta0: 0.75, a1: HeatTransfer::from_si(4.5), a2: 0.012 };
    let weather = Weather { irradiance: HeatFluxDensity::from_si(905.0), air: celsius(21.0) };
    let power = 2.0 * curve.power(weather, celsius(46.5)).unwrap().si();
    close(power, 1112.4, 0.1);
    close(1102.3 / power, 0.991, 0.0005);
}
