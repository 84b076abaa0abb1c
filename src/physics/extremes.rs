//! What a builder may type by mistake: extreme but finite numbers never bring nonsense out of the public entry points.
//!
//! Every law either refuses its input by name or gives finite figures. What the figures should be is asked elsewhere.

use super::collector::laws::{harp, noon};
use super::collector::{Collector, Cover, Exposure, Operating, Regime};
use super::fittings::{Fitting, FittingCount};
use super::fluid::Fluid;
use super::layers::{Conductivity, FaceLimit, Layer, Stack, least_thickness, profile};
use super::monthly_fraction::{HotWater, Month, monthly_fraction};
use super::optics::Sunlight;
use super::pipe::Run;
use super::pressure_test::{Compliance, Hold, Reading, judge};
use super::sensor::{Beta, Platinum, ThreeTerm, thermistor_resistance, thermistor_temperature};
use crate::units::si::{
    Angle, Area, Dimension, ElectricalResistance, Energy, HeatFluxDensity, HeatTransfer, Insulance, Length, MassRate,
    Pressure, RadiantExposure, Ratio, Temperature, TemperatureInterval, ThermalConductivity, Time, Velocity,
    VolumeRate, celsius,
};
use proptest::prelude::*;

/// Ordinary numbers, and those that break careless arithmetic.
fn any_number() -> impl Strategy<Value = f64> {
    prop_oneof![
        4 => (-12.0..12.0_f64, prop::sample::select(vec![-1.0, 1.0])).prop_map(|(power, sign)| sign * 10_f64.powf(power)),
        1 => prop::sample::select(vec![
            0.0, -0.0, 1.0, -1.0, f64::MIN_POSITIVE, f64::EPSILON, 1e-300, 1e100, 1e300, f64::MAX, f64::MIN, f64::NAN,
            f64::INFINITY,
        ]),
    ]
}

/// Replaces one number of a collector.
type Spoil = fn(&mut Collector, f64);

const SPOILS: [Spoil; 32] = [
    |c, x| {
        c.riser_count = if x <= 0.0 {
            0
        } else if x < 1.0 {
            1
        } else if x < 1e6 {
            200
        } else {
            usize::MAX
        }
    },
    |c, x| c.riser_pitch = Length::from_si(x),
    |c, x| c.riser_length = Length::from_si(x),
    |c, x| c.riser_outer_diameter = Length::from_si(x),
    |c, x| c.riser_bore = Length::from_si(x),
    |c, x| c.header_outer_diameter = Length::from_si(x),
    |c, x| c.header_bore = Length::from_si(x),
    |c, x| c.header_length = Length::from_si(x),
    |c, x| c.tube_conductivity = ThermalConductivity::from_si(x),
    |c, x| c.tube_wall_as_fin = x > 0.0,
    |c, x| c.sheet_thickness = Length::from_si(x),
    |c, x| c.sheet_conductivity = ThermalConductivity::from_si(x),
    |c, x| c.fin_base = Length::from_si(x),
    |c, x| c.edge_width = Length::from_si(x),
    |c, x| c.bond.conductivity = ThermalConductivity::from_si(x),
    |c, x| c.bond.width = Length::from_si(x),
    |c, x| c.bond.thickness = Length::from_si(x),
    |c, x| c.bond.soldered_fraction = Ratio::from_si(x),
    |c, x| c.absorptance = Ratio::from_si(x),
    |c, x| c.emittance = Ratio::from_si(x),
    |c, x| c.cover = c.cover.map(|cover| Cover { refractive_index: x, ..cover }),
    |c, x| c.cover = c.cover.map(|cover| Cover { extinction: x, ..cover }),
    |c, x| c.cover = c.cover.map(|cover| Cover { thickness: Length::from_si(x), ..cover }),
    |c, x| c.cover = c.cover.map(|cover| Cover { gap: Length::from_si(x), ..cover }),
    |c, x| c.back.thickness = Length::from_si(x),
    |c, x| c.back.conductivity_at_ten = ThermalConductivity::from_si(x),
    |c, x| c.edge.outside_resistance = Insulance(x),
    |c, x| c.edge_height = Length::from_si(x),
    |c, x| c.tilt = Angle::from_si(x),
    |c, x| c.altitude = Length::from_si(x),
    |c, x| c.gross_area = Area::from_si(x),
    |c, x| c.harp.riser_loss = x,
];

/// Replaces one number of the conditions.
type Disturb = fn(&mut Operating, f64);

const DISTURBS: [Disturb; 9] = [
    |o, x| o.sun.beam = HeatFluxDensity::from_si(x),
    |o, x| o.sun.incidence = Angle::from_si(x),
    |o, x| o.sun.sky_diffuse = HeatFluxDensity::from_si(x),
    |o, x| o.ambient = Temperature::from_si(x),
    |o, x| o.sky = Temperature::from_si(x),
    |o, x| o.wind = Velocity::from_si(x),
    |o, x| o.inlet = Temperature::from_si(x),
    |o, x| o.mass_flow = MassRate::from_si(x),
    |o, x| o.fluid = Fluid::PropyleneGlycol { mass_fraction: x },
];

prop_compose! {
    fn spoiled()(
        spoils in prop::collection::vec((0..SPOILS.len(), any_number()), 0..3),
    ) -> Collector {
        let mut collector = harp();
        for (index, number) in spoils {
            SPOILS[index](&mut collector, number);
        }
        collector
    }
}

prop_compose! {
    fn disturbed()(
        disturbs in prop::collection::vec((0..DISTURBS.len(), any_number()), 0..3),
    ) -> Operating {
        let mut conditions = noon();
        for (index, number) in disturbs {
            DISTURBS[index](&mut conditions, number);
        }
        conditions
    }
}

fn all_finite(numbers: &[f64]) -> bool {
    numbers.iter().all(|number| number.is_finite())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    #[test]
    fn a_spoiled_collector_is_refused_or_computed(collector in spoiled(), conditions in disturbed()) {
        if let Ok(point) = collector.operate(&conditions) {
            let figures = [
                point.absorbed.si(), point.top_loss.si(), point.total_loss.si(), point.fin_efficiency,
                point.efficiency_factor, point.flow_factor, point.heat_removal_factor, point.useful_power.si(),
                point.outlet.si(), point.mean_fluid.si(), point.mean_plate.si(), point.root_at_outlet.si(),
                point.middle_at_outlet.si(), point.reynolds, point.nusselt, point.tube_coefficient.si(),
                point.efficiency.unwrap_or(0.0), point.cover.map_or(0.0, Dimension::si),
            ];
            prop_assert!(all_finite(&figures), "{point:?}");
            for regime in [Regime::Isothermal, Regime::Buoyant] {
                if let Ok(flows) = collector.harp_flows(&point, collector.harp.connection, regime) {
                    prop_assert!(all_finite(&flows.relative_flows), "{flows:?}");
                    prop_assert!(all_finite(&[flows.pressure_drop.si(), flows.heat_removal_penalty]), "{flows:?}");
                }
            }
        }
    }

    #[test]
    fn the_other_balances_of_a_spoiled_collector_are_refused_or_finite(
        collector in spoiled(),
        irradiance in any_number(),
        ambient in any_number(),
        wind in any_number(),
        a1 in any_number(),
    ) {
        let exposure = Exposure {
            irradiance: HeatFluxDensity::from_si(irradiance),
            ambient: celsius(ambient),
            wind: Velocity::from_si(wind),
            ..Exposure::standard()
        };
        for exposure in [exposure, Exposure::severe()] {
            if let Ok(balance) = collector.stagnate(&exposure) {
                let figures = [balance.plate.si(), balance.absorbed.si(), balance.total_loss.si()];
                prop_assert!(all_finite(&figures), "{balance:?}");
            }
        }
        if let Ok(curve) = collector.curve(Fluid::Water, &harp().curve_differences()) {
            prop_assert!(all_finite(&[curve.eta0, curve.a1.si(), curve.a2, curve.rms]), "{curve:?}");
        }
        if let Ok(capacity) = collector.capacity(Fluid::Water, HeatTransfer::from_si(a1)) {
            prop_assert!(all_finite(&[capacity.total.si(), capacity.volume.si()]), "{capacity:?}");
        }
        if collector.check().is_ok() {
            let modifier = collector.incidence_modifier();
            prop_assert!(all_finite(&[modifier.at_fifty, modifier.b0, modifier.sky_diffuse]), "{modifier:?}");
            let klein = collector.top_loss_by_klein(celsius(90.0), celsius(20.0), Velocity::from_si(wind.abs()));
            prop_assert!(klein.is_none_or(|loss| loss.si().is_finite()), "{klein:?}");
        }
    }

    #[test]
    fn layers_are_refused_or_computed(numbers in prop::collection::vec(any_number(), 9)) {
        let layer = |x: f64, k: f64, slope: f64| Layer {
            thickness: Length::from_si(x),
            conductivity: Conductivity { at_24_celsius: ThermalConductivity::from_si(k), slope },
        };
        let layers = [layer(numbers[0], numbers[1], numbers[2]), layer(0.02, numbers[3], numbers[4])];
        let stack = Stack {
            hot: Temperature::from_si(numbers[5]),
            ambient: Temperature::from_si(numbers[6]),
            layers: &layers,
            outside: Insulance(numbers[7]),
        };
        if let Ok(profile) = profile(&stack) {
            prop_assert!(profile.heat_flux.si().is_finite(), "{profile:?}");
            prop_assert!(profile.faces.iter().all(|face| face.si().is_finite()), "{profile:?}");
        }
        let wanted = FaceLimit { layer: 0, face: 1, limit: Temperature::from_si(numbers[8]) };
        if let Ok(thickness) = least_thickness(&stack, wanted) {
            prop_assert!((0.0..=1.001).contains(&thickness.si()));
        }
    }

    #[test]
    fn pressure_drops_are_refused_or_computed(
        numbers in prop::collection::vec(any_number(), 5),
        kelvin in 273.0..400.0,
        count in any::<u32>(),
    ) {
        let run = Run {
            bore: Length::from_si(numbers[0]),
            length: Length::from_si(numbers[1]),
            roughness: Length::from_si(numbers[2]),
            fittings: vec![FittingCount { fitting: Fitting::Elbow90, count }],
            plain_loss: numbers[3],
        };
        let liquid = Fluid::Water.properties_at(kelvin);
        if let Ok(drop) = run.pressure_drop(&liquid, VolumeRate::from_si(numbers[4])) {
            let figures = [drop.total().si(), drop.velocity.si(), drop.reynolds, drop.friction_factor];
            prop_assert!(all_finite(&figures) && drop.total().si() >= 0.0, "{drop:?}");
        }
    }

    #[test]
    fn monthly_fractions_are_refused_or_computed(numbers in prop::collection::vec(any_number(), 12)) {
        let month = Month {
            area: Area::from_si(numbers[0]),
            optical_gain: numbers[1],
            loss: HeatTransfer::from_si(numbers[2]),
            exchanger_factor: numbers[3].min(1.0),
            incidence_ratio: numbers[4],
            irradiation: RadiantExposure::from_si(numbers[5]),
            air: celsius(numbers[6]),
            duration: Time::from_si(numbers[7]),
            load: Energy::from_si(numbers[8]),
            storage_litres_per_area: numbers[9],
            hot_water: Some(HotWater { delivered: celsius(numbers[10]), mains: celsius(numbers[11]) }),
        };
        if let Ok(result) = monthly_fraction(&month) {
            prop_assert!(all_finite(&[result.loss_ratio, result.gain_ratio]), "{result:?}");
            prop_assert!((0.0..=1.0).contains(&result.fraction), "{result:?}");
        }
    }

    #[test]
    fn a_pressure_hold_is_refused_or_judged(
        numbers in prop::collection::vec(any_number(), 9),
        leak_seen in any::<bool>(),
    ) {
        let reading = |pressure: f64, kelvin: f64| Reading {
            pressure: Pressure::from_si(pressure),
            temperature: Temperature::from_si(kelvin),
        };
        let hold = Hold {
            start: reading(numbers[0], numbers[1]),
            end: reading(numbers[2], numbers[3]),
            time: Time::from_si(numbers[4]),
            drift_per_kelvin: numbers[5],
            temperature_uncertainty: TemperatureInterval::from_si(numbers[6]),
            gauge_division: Pressure::from_si(numbers[7]),
            compliance: Some(Compliance(numbers[8])),
            leak_seen,
        };
        if let Ok(result) = judge(&hold) {
            let leak = result.smallest_leak.map_or(0.0, Dimension::si);
            let figures = [result.explained.si(), result.corrected_change.si(), result.uncertainty.si(), leak];
            prop_assert!(all_finite(&figures) && leak >= 0.0, "{result:?}");
        }
    }

    #[test]
    fn sensors_are_refused_or_read_both_ways(numbers in prop::collection::vec(any_number(), 4)) {
        let ohms = ElectricalResistance::from_si(numbers[0]);
        let kelvin = Temperature::from_si(numbers[1]);
        let platinum = Platinum { at_zero: ElectricalResistance::from_si(numbers[2]) };
        let beta = Beta { at_25_celsius: platinum.at_zero, beta: numbers[3] };
        let curve = ThreeTerm { a: numbers[1], b: numbers[2], c: numbers[3] };
        let temperatures =
            [platinum.temperature(ohms), beta.temperature(ohms), curve.temperature(ohms), thermistor_temperature(ohms)];
        for temperature in temperatures.into_iter().flatten() {
            prop_assert!(temperature.si().is_finite() && temperature.si() > 0.0, "{temperature:?}");
        }
        let resistances = [platinum.resistance(kelvin), curve.resistance(kelvin), thermistor_resistance(kelvin)];
        for resistance in resistances.into_iter().flatten() {
            prop_assert!(resistance.si().is_finite() && resistance.si() >= 0.0, "{resistance:?}");
        }
    }
}

/// Light that a very dark pane keeps almost wholly is still light.
#[test]
fn a_black_pane_still_has_an_incidence_modifier() {
    let cover = harp().cover.map(|cover| Cover { extinction: 900.0, ..cover });
    let sun = Sunlight::normal(HeatFluxDensity::from_si(1000.0));
    let dark = Collector { cover, ..harp() };
    assert!(dark.operate(&Operating { sun, ..noon() }).is_ok());
    assert!(dark.incidence_modifier().b0.is_finite());
}
