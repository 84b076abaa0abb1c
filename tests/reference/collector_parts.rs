//! The parts of the collector model by themselves: air gap, cover balance, optics, fin, tube, friction.
//!
//! Source: the `units` group of the collector reference cases (see `collector`), closed forms within 0.5 %; worked examples of
//! Duffie & Beckman, Solar Engineering of Thermal Processes, from memory where said.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::cast_possible_truncation,
    reason = "helpers of tests may fail loudly"
)]

use super::collector::{ORACLE, at};
use serde_json::Value;
use std::f64::consts::PI;
use sunharp::physics::convection::{AirGap, air_pressure};
use sunharp::physics::cover::slab;
use sunharp::physics::fin::{Sheet, Strip, fin_efficiency};
use sunharp::physics::loss::{Glazing, KleinInput, Outside, Wall, glazed, klein};
use sunharp::physics::optics::{Pane, PlateOptics, absorptance_ratio};
use sunharp::physics::pipe::friction_factor;
use sunharp::physics::tube::{TubeFlow, nusselt};
use sunharp::units::si::{Angle, Dimension, Length};

fn group(name: &str) -> &'static Vec<Value> {
    ORACLE["units"][name].as_array().unwrap()
}

/// Within half a percent of the number that the item prints.
fn close(item: &Value, path: &str, got: f64) {
    let want = at(item, path);
    assert!((got - want).abs() <= 0.005 * want.abs(), "{path} is {got}, not {want}, in {item}");
}

fn kelvin(item: &Value, path: &str) -> f64 {
    at(item, path) + 273.15
}

fn gap(item: &Value) -> AirGap {
    AirGap {
        thickness: at(item, "gap"),
        tilt: at(item, "tilt").to_radians(),
        pressure: air_pressure(Length::from_si(at(item, "altitude_m"))).si(),
    }
}

#[test]
fn convection_in_seven_gaps() {
    for item in group("hollands") {
        let found = gap(item).between(kelvin(item, "Tp_C"), kelvin(item, "Tc_C"));
        close(item, "Ra", found.rayleigh);
        close(item, "Nu", found.nusselt);
        close(item, "h_c", found.coefficient);
    }
}

/// Duffie & Beckman example 3.11.1: 25 mm, 70 and 50 °C, 45°: Nu 2.4, h 2.78 W/(m²·K) (from memory).
#[test]
fn the_textbook_gap() {
    let gap = AirGap { thickness: 0.025, tilt: PI / 4.0, pressure: 101325.0 };
    let found = gap.between(343.15, 323.15);
    assert!((found.nusselt - 2.4).abs() < 0.04);
    assert!((found.coefficient - 2.78).abs() < 0.04);
}

/// Duffie & Beckman 6.4: a bank 10 m by 3 m and 75 mm high loses 0.12 W/(m²·K) through 25 mm of edge insulation of
/// 0.045 W/(m·K) (from memory).
#[test]
fn the_textbook_edge() {
    let wall = Wall {
        thickness: 0.025,
        conductivity_at_ten: 0.045,
        temperature_factor: 0.0,
        board_resistance: 0.0,
        outside_resistance: 0.0,
    };
    let edge = wall.coefficient(340.0, 290.0) * 2.0 * (10.0 + 3.0) * 0.075 / 30.0;
    assert!((edge - 0.12).abs() < 0.005);
}

/// Duffie & Beckman examples 5.1.1 and 5.3: a face of n 1.526 turns back 0.0434 at normal incidence; a pane of 2.3 mm and
/// 32 /m passes 0.768 at 60° (from memory).
#[test]
fn the_textbook_panes() {
    let clear = slab(1.526, 0.0, Angle::from_si(0.0)).reflectance;
    assert!((clear / (2.0 - clear) - 0.0434).abs() < 0.0001);
    let green = slab(1.526, 32.0 * 0.0023, Angle::from_si(60.0_f64.to_radians()));
    assert!((green.transmittance - 0.768).abs() < 0.001);
}

#[test]
fn five_covers_in_balance() {
    for item in group("top_loss") {
        let plate = kelvin(item, "Tp_C");
        let outside = Outside {
            ambient: kelvin(item, "Ta_C"),
            sky: kelvin(item, "Tsky_C"),
            wind_coefficient: at(item, "h_wind"),
        };
        let glazing =
            Glazing { plate_emittance: at(item, "eps_p"), cover_emittance: at(item, "eps_g"), gap: gap(item) };
        let top = glazed(plate, &glazing, &outside).unwrap();
        let cover = top.cover.unwrap();
        close(item, "U_t", top.coefficient);
        close(item, "T_cover_C", cover.temperature - 273.15);
        close(item, "h_c", cover.gap.coefficient);
        close(item, "h_r_pc", cover.inner_radiation);
        close(item, "h_r_cs", top.outer_radiation);
        if !item["U_t_klein"].is_null() {
            let input = KleinInput {
                plate,
                ambient: outside.ambient,
                wind_coefficient: outside.wind_coefficient,
                plate_emittance: glazing.plate_emittance,
                cover_emittance: glazing.cover_emittance,
                tilt: glazing.gap.tilt,
            };
            close(item, "U_t_klein", klein(&input).unwrap());
        }
    }
}

#[test]
fn panes_and_plates_at_five_angles() {
    for item in group("optics") {
        let incidence = Angle::from_si(at(item, "theta").to_radians());
        let pane = Pane { refractive_index: at(item, "n"), optical_depth: at(item, "K") * at(item, "t") };
        let glass = slab(pane.refractive_index, pane.optical_depth, incidence);
        let plate = PlateOptics { absorptance: at(item, "alpha_n"), pane: Some(pane) };
        close(item, "tau", glass.transmittance);
        close(item, "rho", glass.reflectance);
        close(item, "absorptance", glass.absorptance);
        close(item, "tau_a", glass.absorption_only_transmittance);
        close(item, "tau_a", 1.0 - plate.caught_in_pane(incidence));
        close(item, "alpha_ratio", absorptance_ratio(incidence));
        close(item, "tau_alpha", plate.product(incidence));
    }
}

#[test]
fn four_fins() {
    for item in group("fin") {
        let sheet = Sheet { conductivity: at(item, "sheet_k"), thickness: at(item, "sheet_t") };
        let free = 0.5 * (at(item, "W") - at(item, "base"));
        let strip = Strip { base: at(item, "base"), fins: [free, free] };
        let loss = at(item, "U_L");
        let root = at(item, "C_b").recip() + (PI * at(item, "Di") * at(item, "h_fi")).recip();
        close(item, "m", sheet.parameter(loss));
        close(item, "F", fin_efficiency(sheet.parameter(loss) * free));
        close(item, "F_prime", strip.efficiency_factor(&sheet, loss, root));
    }
}

#[test]
fn heat_transfer_in_six_tubes() {
    for item in group("riser_nusselt") {
        let flow = TubeFlow {
            reynolds: at(item, "Re"),
            prandtl: at(item, "Pr"),
            bore_over_length: at(item, "Di") / at(item, "L"),
        };
        close(item, "Nu", nusselt(flow));
    }
}

#[test]
fn friction_at_five_reynolds_numbers() {
    for item in group("friction") {
        close(item, "f_darcy", friction_factor(at(item, "Re"), at(item, "rel_rough")));
    }
}
