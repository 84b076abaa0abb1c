//! Values printed in handbooks, manuals and standards.

use super::length;
use sunharp::handbook::tube::{self, Standard};
use sunharp::physics::expansion_vessel::{ClosedLoop, Demand, GasCushion, PressureRange};
use sunharp::physics::fluid::{Fluid, boiling_point};
use sunharp::physics::glycol::{self, Warming};
use sunharp::physics::pipe::{DRAWN_TUBE_ROUGHNESS, HazenWilliams, Run, friction_factor};
use sunharp::physics::thermosiphon::{NightColumns, night_drive};
use sunharp::units::si::{Dimension, Pressure, Volume, VolumeRate, celsius, in_celsius};

const GALLON_PER_MINUTE: f64 = 3.785411784e-3 / 60.0;
const PSI: f64 = 6894.757293168;
/// Pa/m of 1 psi per 100 ft.
const PSI_PER_100_FEET: f64 = PSI / 30.48;

fn bar(value: f64) -> Pressure {
    Pressure::from_si(value * 1e5)
}

fn litres(value: f64) -> Volume {
    Volume::from_si(value * 1e-3)
}

/// Rows of a printed friction table for copper tube, psi per 100 ft of cold water (irrigation handbook page
/// "Copper Pipe Friction Loss Tables"; its constant lies between 133 and 145 row by row).
const PRINTED: [(Standard, &str, &[f64], &[f64]); 3] = [
    (Standard::TypeL, "1/2", &[1.0, 2.0, 3.0, 4.0, 5.0], &[0.95, 3.44, 7.29, 12.41, 18.77]),
    (Standard::TypeL, "3/4", &[1.0, 2.0, 3.0, 4.0, 5.0], &[0.16, 0.57, 1.20, 2.05, 3.09]),
    (
        Standard::TypeK,
        "3/4",
        &[1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0],
        &[0.23, 0.77, 1.65, 2.78, 4.21, 5.90, 7.84, 10.03, 12.48, 15.15],
    ),
];

#[test]
fn darcy_lies_in_the_known_band_of_the_printed_friction_table() {
    let water = Fluid::Water.properties_at(celsius(15.0).si());
    for (standard, nominal, gallons, printed) in PRINTED {
        let run = Run {
            bore: tube::find(standard, nominal).unwrap().bore(),
            length: length(1.0),
            roughness: length(DRAWN_TUBE_ROUGHNESS),
            fittings: Vec::new(),
            plain_loss: 0.0,
        };
        for (gpm, psi) in gallons.iter().zip(printed) {
            let drop = run.pressure_drop(&water, VolumeRate::from_si(gpm * GALLON_PER_MINUTE)).unwrap();
            let ratio = drop.total().si() / (psi * PSI_PER_100_FEET);
            assert!((0.86..1.23).contains(&ratio), "{nominal} {gpm} gpm: {ratio}");
        }
    }
}

#[test]
fn hazen_williams_reproduces_the_printed_friction_table() {
    for (standard, nominal, gallons, printed) in PRINTED {
        for (gpm, psi) in gallons.iter().zip(printed) {
            let bore = tube::find(standard, nominal).unwrap().bore();
            let at = |constant: f64| {
                let rule = HazenWilliams { bore, constant };
                rule.gradient(VolumeRate::from_si(gpm * GALLON_PER_MINUTE)).unwrap() / PSI_PER_100_FEET
            };
            assert!(at(145.5) < psi + 0.005 && at(132.0) > psi - 0.005, "{nominal} {gpm} gpm");
        }
    }
}

/// Colebrook and White 1939, 1/√f = −2 log₁₀(ε/(3.7 D) + 2.51/(Re √f)), solved here by repetition.
#[test]
fn churchill_stays_within_the_band_of_colebrook() {
    let colebrook = |reynolds: f64, roughness: f64| {
        let mut root = 7.0_f64;
        for _ in 0..100 {
            root = -2.0 * (roughness / 3.7 + 2.51 * root / reynolds).log10();
        }
        root.powi(-2)
    };
    for roughness in [0.0, 7.3e-5, 1e-3] {
        for step in 0..=240 {
            let reynolds = 4e3 * 250_f64.powf(f64::from(step) / 240.0);
            let ratio = friction_factor(reynolds, roughness) / colebrook(reynolds, roughness);
            assert!((ratio - 1.0).abs() < 0.027, "Re {reynolds}, roughness {roughness}: {ratio}");
        }
    }
}

/// UFC 3-440-01 (2002) appendix D: the pressure drop of water times 1.2 for 30 % glycol, times 1.4 for 50 %. A rule
/// for a warm loop: at 60 °C it holds within 0.05, at 20 to 40 °C the true factor reaches 1.6.
#[test]
fn glycol_costs_the_pressure_that_the_facilities_criteria_allow_for_it() {
    let run = Run {
        bore: tube::find(Standard::TypeM, "3/4").unwrap().bore(),
        length: length(30.0),
        roughness: length(DRAWN_TUBE_ROUGHNESS),
        fittings: Vec::new(),
        plain_loss: 0.0,
    };
    let drop = |liquid: Fluid| {
        let properties = liquid.properties_at(celsius(60.0).si());
        run.pressure_drop(&properties, VolumeRate::from_si(1e-2 / 60.0)).unwrap().total().si()
    };
    for (fraction, allowance) in [(0.3, 1.2), (0.5, 1.4)] {
        let factor = drop(glycol::mixture(fraction).unwrap()) / drop(Fluid::Water);
        assert!((factor - allowance).abs() < 0.05, "{fraction}: {factor}");
    }
}

/// Trade-press column of April 2009 on expansion tanks of collector loops: 40 % glycol at 350 °F stands at 118 psia.
#[test]
fn forty_percent_glycol_has_its_printed_boiling_pressure() {
    let hot = celsius((350.0 - 32.0) / 1.8);
    let pressure = glycol::vapour_pressure(glycol::mixture(0.4).unwrap(), hot).unwrap();
    assert!((pressure.si() / PSI / 118.0 - 1.0).abs() < 0.015);
}

/// Freezing by mass as printed in two chiller manuals.
#[test]
fn glycol_by_mass_freezes_where_two_manuals_say() {
    for (percent, degrees) in
        [(5.0, -1.5), (10.0, -3.11), (20.0, -7.06), (30.0, -12.61), (40.0, -20.67), (50.0, -32.11)]
    {
        let liquid = glycol::mixture(percent / 100.0).unwrap();
        assert!((in_celsius(liquid.freezing_point()) - degrees).abs() < 0.4, "{percent} %");
    }
}

/// Lange's Handbook of Chemistry, 15th ed., table 5.13: freezing of propylene glycol by volume.
#[test]
fn glycol_by_volume_freezes_where_the_chemists_handbook_says() {
    for (percent, degrees) in [(10.0, -2.2), (20.0, -6.7), (30.0, -12.8), (40.0, -20.6), (50.0, -33.3)] {
        let liquid = glycol::mixture(glycol::mass_fraction(percent / 100.0).unwrap()).unwrap();
        let off = in_celsius(liquid.freezing_point()) - degrees;
        assert!((-1.0..0.0).contains(&off), "{percent} %: {off} K");
    }
}

/// Saturated steam: 1.0142 bar at 100 °C and 10.026 bar at 180 °C (steam book, from memory); gauge bar against °C by
/// IAPWS-IF97, with a general-purpose library.
#[test]
fn steam_tables_are_met_in_the_range_of_a_stagnating_loop() {
    for (absolute, degrees) in [(1.0142e5, 100.0), (10.026e5, 180.0)] {
        assert!((in_celsius(boiling_point(absolute)) - degrees).abs() < 0.02);
    }
    for (gauge, degrees) in [(0.5, 111.6), (1.0, 120.4), (2.0, 133.7), (3.0, 143.7), (6.0, 165.0), (10.0, 184.1)] {
        assert!((in_celsius(boiling_point(gauge * 1e5 + 101_325.0)) - degrees).abs() < 0.06, "{gauge}");
    }
}

/// A manufacturer's planning manual: 22 L loop, growth 0.13, panels 4.2 L, 4 m, relief 6 bar, so 1.4 and 5.4 bar and
/// a vessel of 16.1 L; times 1.5 for steam in the pipes, the next size is 25 L.
#[test]
fn the_planning_manuals_vessel_comes_out() {
    let range = PressureRange { precharge: bar(1.4), last: bar(5.4), atmosphere: bar(1.0) };
    let demand = Demand { expansion: litres(22.0 * 0.13), vapour: litres(4.2), reserve: litres(3.0) };
    let least = range.least_volume(&demand).unwrap().si() * 1e3;
    assert!((least - 16.1).abs() < 0.05);
    assert!(least * 1.5 < 25.0 && least * 1.5 > 18.0);
}

fn water_loop(height: f64, top: f64) -> ClosedLoop {
    ClosedLoop {
        liquid: Fluid::Water,
        contents: litres(20.0),
        panels: litres(3.0),
        steam_pipe: litres(1.0),
        cold: celsius(10.0),
        hot: celsius(120.0),
        static_height: length(height),
        top_pressure: bar(top),
        relief: bar(6.0),
        atmosphere: bar(1.0),
    }
}

/// The second sheet, of a collector's maker: 1.0 bar and 0.1 bar per metre, 2.0 bar at 10 m. The round 0.1 stands for
/// 0.098.
#[test]
fn the_makers_sheet_of_loop_pressures_comes_out() {
    let pressure = water_loop(10.0, 1.0).precharge().unwrap();
    assert!((pressure.si() / 1e5 - 2.0).abs() < 0.025);
    assert!((water_loop(4.0, 1.0).precharge().unwrap().si() / 1e5 - 1.4).abs() < 0.01);
    assert!((water_loop(4.0, 1.0).final_pressure().unwrap().si() / 1e5 - 5.4).abs() < 1e-9);
}

/// UFC 3-440-01 (2002) appendix D: 0.7 to 1.0 bar at the top when filled cold, precharge 0.35 to 0.7 bar below the
/// filling pressure, and room for the panels and all pipe above their bottom. A glycol loop of 18 L meets all three
/// when 0.35 bar stands at the top before filling.
#[test]
fn a_usual_vessel_meets_the_facilities_criteria() {
    let given = ClosedLoop { liquid: glycol::mixture(0.4).unwrap(), contents: litres(18.0), ..water_loop(6.0, 0.35) };
    let size = given.vessel().unwrap();
    let over_precharge = (size.cold_fill - size.precharge).si() / 1e5;
    assert!((0.35..0.7).contains(&over_precharge), "{over_precharge}");
    let top = 0.35 + over_precharge;
    assert!((0.7..1.035).contains(&top), "{top}");
    let cushion = GasCushion { volume: size.least_volume, precharge: size.precharge, atmosphere: given.atmosphere };
    let acceptance = cushion.liquid_at(size.final_pressure).unwrap() - size.reserve;
    assert!(acceptance >= given.panels + given.steam_pipe);
}

/// Boyle's law worked by hand: 25 L with 1.1 bar filled to 1.4 bar holds 25 (1 − 2.1/2.4) = 3.125 L.
#[test]
fn a_filled_vessel_holds_what_boyle_says() {
    let cushion = GasCushion { volume: litres(25.0), precharge: bar(1.1), atmosphere: bar(1.0) };
    assert!((cushion.liquid_at(bar(1.4)).unwrap().si() * 1e3 - 3.125).abs() < 1e-9);
}

/// Specific volumes of every steam table: 1.0000 L/kg at 4 °C, 1.0435 at 100 °C, 1.0003 at 10 °C and 1.0324 at 85 °C, so
/// that 300 L grow 9.6 L from 10 to 85 °C.
#[test]
fn water_grows_as_the_steam_tables_say() {
    let growth = |cold: f64, hot: f64| {
        glycol::expansion(Fluid::Water, Warming { cold: celsius(cold), hot: celsius(hot) }).unwrap()
    };
    assert!((growth(4.0, 100.0) - 0.0435).abs() < 2e-4);
    assert!((300.0 * growth(10.0, 85.0) - 9.6).abs() < 0.1);
}

/// Steam-table densities: water of 5 and 55 °C weighs 999.97 and 985.7 kg/m³, so 3 m of it drive 420 Pa.
#[test]
fn a_warm_tank_below_a_cold_panel_drives_what_the_densities_say() {
    let columns = NightColumns { warm: celsius(55.0), cold: celsius(5.0), height: length(3.0) };
    let drive = night_drive(Fluid::Water, columns).unwrap().si();
    assert!((drive - (999.97 - 985.7) * 9.80665 * 3.0).abs() < 3.0, "{drive}");
}
