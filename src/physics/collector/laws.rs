//! Laws that every collector must obey, tried on one design and on thousands of random ones.

use super::*;
use crate::physics::harp_network::HarpBalance;
use crate::physics::optics::Sunlight;
use crate::units::si::{HeatFluxDensity, celsius, in_celsius};
use proptest::prelude::*;

fn m(value: f64) -> Length {
    Length::from_si(value)
}

fn material(density: f64, specific_heat: f64) -> Material {
    Material { density: MassDensity::from_si(density), specific_heat: SpecificHeatCapacity::from_si(specific_heat) }
}

fn wool(thickness: f64) -> Insulation {
    Insulation {
        thickness: m(thickness),
        conductivity_at_ten: ThermalConductivity::from_si(0.038),
        temperature_factor: 0.0046,
        board_thickness: m(0.006),
        board_conductivity: ThermalConductivity::from_si(0.13),
        outside_resistance: Insulance(0.1),
    }
}

/// Ten copper risers at 120 mm under 0.3 mm copper, matt black, one pane.
pub(in crate::physics) fn harp() -> Collector {
    Collector {
        riser_count: 10,
        riser_pitch: m(0.12),
        riser_length: m(1.95),
        riser_outer_diameter: m(0.015),
        riser_bore: m(0.0136),
        header_outer_diameter: m(0.022),
        header_bore: m(0.0202),
        header_length: m(1.3),
        tube_conductivity: ThermalConductivity::from_si(340.0),
        tube_wall_as_fin: false,
        sheet_thickness: m(0.0003),
        sheet_conductivity: ThermalConductivity::from_si(385.0),
        fin_base: m(0.006),
        edge_width: m(0.06),
        bond: Bond {
            conductivity: ThermalConductivity::from_si(60.0),
            width: m(0.006),
            thickness: m(0.0003),
            soldered_fraction: Ratio::from_si(0.95),
        },
        absorptance: Ratio::from_si(0.95),
        emittance: Ratio::from_si(0.92),
        cover: Some(Cover {
            refractive_index: 1.526,
            extinction: 12.0,
            thickness: m(0.004),
            emittance: Ratio::from_si(0.88),
            gap: m(0.025),
        }),
        back: wool(0.05),
        edge: wool(0.025),
        edge_height: m(0.09),
        tilt: Angle::from_si(0.7),
        altitude: m(200.0),
        wind_law: WindLaw::Watmuff,
        gross_area: Area::from_si(2.6),
        harp: HarpFittings {
            connection: Connection::Diagonal,
            riser_loss: 1.5,
            dividing_momentum: 1.0,
            combining_momentum: 2.0,
        },
        materials: Materials {
            sheet: material(8930.0, 385.0),
            tube: material(8930.0, 385.0),
            insulation: material(60.0, 1030.0),
            glass: material(2500.0, 750.0),
        },
    }
}

pub(in crate::physics) fn noon() -> Operating {
    Operating {
        sun: Sunlight::normal(HeatFluxDensity::from_si(900.0)),
        ambient: celsius(20.0),
        sky: celsius(8.0),
        wind: Velocity::from_si(2.0),
        inlet: celsius(45.0),
        mass_flow: MassRate::from_si(0.05),
        fluid: Fluid::Water,
    }
}

fn factor(collector: &Collector) -> f64 {
    collector.operate(&noon()).unwrap().efficiency_factor
}

#[test]
fn efficiency_factor_falls_with_the_pitch_and_rises_with_sheet_and_bond() {
    let base = factor(&harp());
    assert!(
        factor(&Collector { riser_pitch: m(0.14), edge_width: m(0.07), gross_area: Area::from_si(3.0), ..harp() })
            < base
    );
    assert!(factor(&Collector { sheet_thickness: m(0.0005), ..harp() }) > base);
    let bond = Bond { soldered_fraction: Ratio::from_si(0.02), ..harp().bond };
    assert!(factor(&Collector { bond, ..harp() }) < base);
}

/// Own widths of the outer fins: a narrow edge makes the mean fin shorter, hence better.
#[test]
fn narrow_edges_raise_the_efficiency_factor_and_shrink_the_absorber() {
    let narrow = Collector { edge_width: m(0.02), ..harp() };
    assert!(factor(&narrow) > factor(&harp()));
    assert!((narrow.sheet_width().si() - 1.12).abs() < 1e-12);
}

#[test]
fn stagnation_does_not_depend_on_the_bond() {
    let wired = Bond { soldered_fraction: Ratio::from_si(0.01), ..harp().bond };
    let loose = Collector { bond: wired, ..harp() };
    assert_eq!(loose.stagnation(&Exposure::standard()), harp().stagnation(&Exposure::standard()));
}

#[test]
fn stagnation_is_what_a_vanishing_flow_tends_to() {
    let exposure = Exposure::standard();
    let trickle = Operating {
        sun: Sunlight::normal(exposure.irradiance),
        ambient: exposure.ambient,
        sky: exposure.sky,
        wind: exposure.wind,
        inlet: celsius(30.0),
        mass_flow: MassRate::from_si(1e-9),
        ..noon()
    };
    let point = harp().operate(&trickle).unwrap();
    let still = harp().stagnation(&exposure).unwrap();
    assert!((point.mean_plate.si() - still.si()).abs() < 0.1, "{:?} {still:?}", point.mean_plate);
    assert_eq!(point.liquid, LiquidState::AboveData);
}

/// Clear night at 9 °C air, calm: the plate of a bare or glazed collector falls below the air.
#[test]
fn a_plate_under_a_clear_night_sky_is_colder_than_the_air() {
    let night = Exposure {
        irradiance: HeatFluxDensity::from_si(0.0),
        ambient: celsius(9.0),
        sky: celsius(-8.0),
        wind: Velocity::from_si(0.0),
    };
    for cover in [harp().cover, None] {
        let plate = in_celsius(Collector { cover, ..harp() }.stagnation(&night).unwrap());
        assert!(plate < 5.0 && plate > -8.0, "{plate}");
    }
}

#[test]
fn scaling_count_and_flow_together_leaves_the_heat_removal_factor() {
    let bare = Collector { edge_height: m(0.0), ..harp() };
    let double = Collector { riser_count: 20, header_length: m(2.5), gross_area: Area::from_si(5.2), ..bare };
    let flow = Operating { mass_flow: MassRate::from_si(0.1), ..noon() };
    let one = bare.operate(&noon()).unwrap().heat_removal_factor;
    let two = double.operate(&flow).unwrap().heat_removal_factor;
    assert!((one - two).abs() < 1e-9);
}

#[test]
fn intercept_of_the_curve_is_near_f_prime_times_the_effective_product() {
    let curve = harp().curve(Fluid::Water, &harp().curve_differences()).unwrap();
    let test = Operating {
        sun: Sunlight::normal(HeatFluxDensity::from_si(1000.0)),
        sky: celsius(20.0),
        wind: Velocity::from_si(3.0),
        inlet: celsius(18.0),
        mass_flow: MassRate::from_si(0.052),
        ..noon()
    };
    let point = harp().operate(&test).unwrap();
    let product = point.efficiency_factor * point.absorbed.si() / 1000.0;
    assert!((curve.eta0 / product - 1.0).abs() < 0.01);
}

#[test]
fn flushing_flows_are_those_of_a_harp_without_lift() {
    let point = harp().operate(&noon()).unwrap();
    let flows = harp().harp_flows(&point, Connection::Diagonal, Regime::Isothermal).unwrap();
    let HarpBalance { relative_flows, pressure_drop, .. } =
        harp().flushing_flows(Fluid::Water, point.mean_fluid, MassRate::from_si(0.05)).unwrap();
    for (one, other) in relative_flows.iter().zip(&flows.relative_flows) {
        assert!((one - other).abs() < 1e-9);
    }
    assert!((pressure_drop - flows.pressure_drop.si()).abs() < 1e-9);
}

/// The first field named by an error.
fn named(collector: &Collector) -> String {
    collector.operate(&noon()).unwrap_err().to_string()
}

#[test]
fn impossible_designs_are_refused_by_the_name_of_the_field() {
    let cover = harp().cover.unwrap();
    let cases = [
        (Collector { riser_count: 0, ..harp() }, "riser_count"),
        (Collector { riser_pitch: m(0.005), ..harp() }, "riser_pitch"),
        (Collector { riser_pitch: m(f64::NAN), ..harp() }, "riser_pitch"),
        (Collector { riser_length: m(0.0), ..harp() }, "riser_length"),
        (Collector { riser_bore: m(0.016), ..harp() }, "riser_bore"),
        (Collector { header_bore: m(0.0136), ..harp() }, "header_bore"),
        (Collector { header_length: m(0.9), ..harp() }, "header_length"),
        (Collector { gross_area: Area::from_si(2.0), ..harp() }, "gross_area"),
        (Collector { edge_width: m(0.002), ..harp() }, "edge_width"),
        (Collector { sheet_thickness: m(-0.001), ..harp() }, "sheet_thickness"),
        (Collector { tilt: Angle::from_si(1.6), ..harp() }, "tilt"),
        (Collector { absorptance: Ratio::from_si(1.2), ..harp() }, "absorptance"),
        (Collector { emittance: Ratio::from_si(0.0), ..harp() }, "emittance"),
        (Collector { gross_area: Area::from_si(0.0), ..harp() }, "gross_area"),
        (Collector { cover: Some(Cover { gap: m(0.0), ..cover }), ..harp() }, "cover.gap"),
        (Collector { cover: Some(Cover { refractive_index: 0.5, ..cover }), ..harp() }, "cover.refractive_index"),
        (Collector { back: Insulation { thickness: m(-0.1), ..wool(0.05) }, ..harp() }, "back.thickness"),
        (Collector { edge: Insulation { temperature_factor: f64::NAN, ..wool(0.05) }, ..harp() }, "edge.temperature"),
    ];
    for (collector, field) in cases {
        let message = named(&collector);
        assert!(message.contains(field), "{message} does not name {field}");
        assert!(collector.stagnation(&Exposure::standard()).is_err());
        assert!(collector.capacity(Fluid::Water, HeatTransfer::from_si(5.0)).is_err());
        assert!(collector.curve(Fluid::Water, &harp().curve_differences()).is_err());
    }
}

#[test]
fn impossible_conditions_are_refused() {
    let refused = |conditions: Operating| harp().operate(&conditions).is_err();
    assert!(refused(Operating { mass_flow: MassRate::from_si(0.0), ..noon() }));
    assert!(refused(Operating { wind: Velocity::from_si(-1.0), ..noon() }));
    assert!(refused(Operating { inlet: Temperature::from_si(f64::NAN), ..noon() }));
    assert!(refused(Operating { fluid: Fluid::PropyleneGlycol { mass_fraction: 0.8 }, ..noon() }));
    assert!(refused(Operating { sun: Sunlight::normal(HeatFluxDensity::from_si(f64::INFINITY)), ..noon() }));
}

prop_compose! {
    fn any_collector()(
        riser_count in 1_usize..30,
        pitch in 0.05..0.25,
        riser_length in 0.5..3.0,
        bore in 0.005..0.02,
        wider in 1.05..4.0,
        sheet in 0.0001..0.002,
        contact in 0.001..1.0,
        emittance in 0.02..1.0,
        glazed in any::<bool>(),
        gap in 0.004..0.08,
        tilt in 0.0..1.57,
        altitude in 0.0..4000.0,
        same_side in any::<bool>(),
    ) -> Collector {
        let base = harp();
        let connection = if same_side { Connection::SameSide } else { Connection::Diagonal };
        Collector {
            riser_count,
            riser_pitch: m(pitch),
            edge_width: m(0.5 * pitch),
            header_length: m(pitch * riser_count as f64),
            gross_area: Area::from_si(1.1 * pitch * riser_length * riser_count as f64),
            riser_length: m(riser_length),
            riser_bore: m(bore),
            riser_outer_diameter: m(bore + 0.0014),
            header_bore: m(bore * wider),
            header_outer_diameter: m(bore * wider + 0.0018),
            sheet_thickness: m(sheet),
            bond: Bond { soldered_fraction: Ratio::from_si(contact), ..base.bond },
            emittance: Ratio::from_si(emittance),
            cover: base.cover.filter(|_| glazed).map(|cover| Cover { gap: m(gap), ..cover }),
            tilt: Angle::from_si(tilt),
            altitude: m(altitude),
            harp: HarpFittings { connection, ..base.harp },
            ..base
        }
    }
}

prop_compose! {
    fn any_conditions()(
        beam in 0.0..1200.0,
        incidence in 0.0..1.6,
        diffuse in 0.0..300.0,
        ambient in -30.0..45.0,
        colder in 0.0..30.0,
        wind in 0.0..15.0,
        inlet in -5.0..95.0,
        flow in 0.002..0.2,
        glycol in 0.0..0.5,
    ) -> Operating {
        Operating {
            sun: Sunlight {
                beam: HeatFluxDensity::from_si(beam),
                incidence: Angle::from_si(incidence),
                sky_diffuse: HeatFluxDensity::from_si(diffuse),
                ground_reflected: HeatFluxDensity::from_si(0.1 * diffuse),
            },
            ambient: celsius(ambient),
            sky: celsius(ambient - colder),
            wind: Velocity::from_si(wind),
            inlet: celsius(inlet),
            mass_flow: MassRate::from_si(flow),
            fluid: Fluid::PropyleneGlycol { mass_fraction: glycol },
        }
    }
}

proptest! {
    #[test]
    fn useful_heat_is_what_the_liquid_carries_and_what_the_plate_does_not_lose(
        collector in any_collector(),
        conditions in any_conditions(),
    ) {
        let point = collector.operate(&conditions).unwrap();
        let power = point.useful_power.si();
        let carried = conditions.mass_flow.si()
            * point.properties.specific_heat
            * (point.outlet.si() - conditions.inlet.si());
        let kept = collector.absorber_area().si()
            * (point.absorbed.si() - point.total_loss.si() * (point.mean_plate.si() - conditions.ambient.si()));
        let scale = collector.absorber_area().si() * 1000.0;
        prop_assert!((power - carried).abs() < 1e-9 * scale);
        prop_assert!((power - kept).abs() < 1e-9 * scale);
        prop_assert!(point.heat_removal_factor < point.efficiency_factor && point.efficiency_factor < 1.0);
        prop_assert!(point.heat_removal_factor > 0.0 && point.fin_efficiency <= 1.0);
    }

    #[test]
    fn stagnation_lies_above_every_plate_with_flow_and_colder_liquid(
        collector in any_collector(),
        conditions in any_conditions(),
    ) {
        let exposure = Exposure {
            irradiance: HeatFluxDensity::from_si(1000.0),
            ambient: conditions.ambient,
            sky: conditions.sky,
            wind: conditions.wind,
        };
        let still = collector.stagnation(&exposure).unwrap();
        let sun = Sunlight::normal(exposure.irradiance);
        let cool = conditions.inlet < still;
        let running = collector.operate(&Operating { sun, ..conditions }).unwrap();
        prop_assert!(!cool || running.mean_plate.si() < still.si() + 1e-6);
    }

    #[test]
    fn isothermal_flows_are_found_for_every_harp(collector in any_collector(), flow in 0.002..0.2) {
        let found = collector.flushing_flows(Fluid::Water, celsius(40.0), MassRate::from_si(flow)).unwrap();
        let sum: f64 = found.relative_flows.iter().sum();
        prop_assert!((sum - collector.riser_count as f64).abs() < 1e-7);
    }

    #[test]
    fn flows_are_found_whenever_heat_is_gained_and_are_never_nonsense(
        collector in any_collector(),
        conditions in any_conditions(),
    ) {
        let point = collector.operate(&conditions).unwrap();
        let found = collector.harp_flows(&point, collector.harp.connection, Regime::Buoyant);
        prop_assert!(found.is_ok() || point.useful_power.si() < 0.0);
        if let Ok(flows) = found {
            prop_assert!(flows.relative_flows.iter().all(|flow| flow.is_finite()));
            prop_assert!(flows.riser_outlets.iter().all(|outlet| outlet.si().is_finite()));
            prop_assert!(flows.heat_removal_penalty.is_finite());
        }
    }
}
