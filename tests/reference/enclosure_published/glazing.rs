//! Glass and plastic covers as printed, and panes of other shapes and thicknesses.

use super::super::close;
use crate::support::Bench;
use sunharp::handbook::glazing::{
    glass_properties, limits, polycarbonate, strengths, thickness_sold_as, thicknesses, transmittances,
};
use sunharp::model::Verdict::{Clear, Unknown};
use sunharp::physics::cover::slab;
use sunharp::physics::expansion::{GLASS, POLYCARBONATE};
use sunharp::physics::glass::{
    Elasticity, GLASS_DENSITY, GLASS_MODULUS, Pane, Treatment, large_deflection, plate_coefficients, small_deflection,
};
use sunharp::stage::enclosure::entries::Glass;
use sunharp::units::si::{Angle, Dimension, Length, Pressure, in_celsius};

/// Exposure study of 58 glazings (verified; its page is an optical reading): lowest and highest solar transmittance.
const STUDY: [(&str, f64, f64); 9] = [
    ("low-iron glass", 0.903, 0.919),
    ("float glass with iron", 0.834, 0.857),
    ("acrylic flat", 0.832, 0.843),
    ("acrylic multi-skin", 0.685, 0.803),
    ("polycarbonate flat", 0.787, 0.791),
    ("polycarbonate multi-skin", 0.652, 0.747),
    ("ETFE film", 0.921, 0.932),
    ("FEP film", 0.956, 0.957),
    ("glass-fibre polyester", 0.756, 0.796),
];

#[test]
fn covers_let_through_what_the_exposure_study_found() {
    assert_eq!(transmittances().all().len(), STUDY.len());
    for (name, low, high) in STUDY {
        let row = transmittances().get(name).unwrap();
        close(row.low, low, 1e-12);
        close(row.high, high, 1e-12);
    }
    // The program's own pane, of a thickness that is sold, lies in the range of its kind, to half a percent.
    for (kind, millimetres, name) in [
        (Glass::TemperedLowIron, 3.0, "low-iron glass"),
        (Glass::TemperedLowIron, 4.0, "low-iron glass"),
        (Glass::Tempered, 4.0, "float glass with iron"),
        (Glass::Tempered, 5.0, "float glass with iron"),
        (Glass::Polycarbonate, 3.0, "polycarbonate flat"),
    ] {
        let passed = slab(1.526, kind.extinction() * millimetres * 1e-3, Angle::from_si(0.0)).transmittance;
        let row = transmittances().get(name).unwrap();
        assert!((row.low - 0.005..=row.high + 0.005).contains(&passed), "{name} {millimetres} mm: {passed}");
    }
}

/// Technical bulletin "Properties of soda-lime-silica float glass" (verified, two editions).
#[test]
fn glass_is_that_of_the_bulletin() {
    let printed = |name: &str| glass_properties().get(name).unwrap().value;
    for (name, value) in [
        ("e_gpa", 72.0),
        ("poisson", 0.23),
        ("rho_kg_m3", 2500.0),
        ("alpha_1e6_k", 8.3),
        ("k_w_mk", 0.937),
        ("thermal_stress_mpa_per_k", 0.62),
        ("emittance", 0.84),
    ] {
        close(printed(name), value, 1e-12);
    }
    // What the laws go by.
    close(GLASS_MODULUS / 1e9, 72.0, 1e-9);
    close(GLASS_DENSITY, 2500.0, 1e-9);
    close(GLASS.per_kelvin * 1e6, 8.3, 1e-9);
    // Annealed glass is refused: 30 K between middle and shaded edge make its whole design stress (by hand).
    let annealed = Treatment::Annealed.design_60_seconds().si() / 1e6;
    close(30.0 * printed("thermal_stress_mpa_per_k"), annealed, 0.5);
}

/// Same bulletin: modulus of rupture and design stress at 0.8 % breakage for 60 s, MPa; 2800, 5600, 11200 psi. Heat-
/// strengthened is twice, tempered four times annealed (abstract of a thesis, verified).
#[test]
fn glass_is_as_strong_as_the_bulletin_prints() {
    const PSI: f64 = 6_894.757_293_168;
    for (name, treatment, rupture, design, psi, times) in [
        ("annealed", Treatment::Annealed, 41.0, 19.0, 2800.0, 1.0),
        ("heat-strengthened", Treatment::HeatStrengthened, 83.0, 39.0, 5600.0, 2.0),
        ("fully tempered", Treatment::Tempered, 165.0, 77.0, 11200.0, 4.0),
    ] {
        let row = strengths().get(name).unwrap();
        close(row.modulus_of_rupture.si() / 1e6, rupture, 1e-9);
        close(row.design_60_seconds.si() / 1e6, design, 1e-9);
        let used = treatment.design_60_seconds().si();
        close(used / 1e6, design, 1e-9);
        close(used / PSI, psi, 60.0);
        close(used / Treatment::Annealed.design_60_seconds().si(), times, 0.06);
    }
}

/// Makers' pages of multiwall polycarbonate (verified): mm/(m·K), softening, U of twin walls, rebate; 212 °F, the lower of
/// two limits.
#[test]
fn polycarbonate_is_that_of_its_makers() {
    for (name, value) in [
        ("alpha_mm_m_k", 0.065),
        ("vicat_c", 148.0),
        ("hdt_c", 132.0),
        ("u_twin_6mm", 3.33),
        ("u_twin_8mm", 3.04),
        ("u_twin_10mm", 2.83),
        ("rebate_mm", 20.0),
    ] {
        close(polycarbonate().get(name).unwrap().value, value, 1e-12);
    }
    close(POLYCARBONATE.per_kelvin * 1e3, 0.065, 1e-12);
    // No growth is told beyond what the plastic stands without bending under its load.
    assert!(POLYCARBONATE.highest_celsius <= polycarbonate().get("hdt_c").unwrap().value);
    let hottest = limits().get("polycarbonate multiwall").unwrap().hottest.unwrap();
    close(in_celsius(hottest) * 1.8 + 32.0, 212.0, 1e-6);
}

fn pane(short: f64, ratio: f64, millimetres: f64) -> Pane {
    let [width, height, thickness] = [short, short * ratio, millimetres * 1e-3].map(Length::from_si);
    Pane { width, height, thickness }
}

/// A load that makes q a⁴/(E t⁴) so large.
fn load(pane: &Pane, reduced: f64) -> Pressure {
    Pressure::from_si(reduced * GLASS_MODULUS * (pane.thickness.si() / pane.width.si()).powi(4))
}

/// Under a faint load every pane from a square to one five times as long as wide bends as Timoshenko's plate does; the
/// coefficients for three and five are .01223 and .01297 (his table, from memory).
#[test]
fn panes_of_every_ratio_begin_to_bend_as_plates_do() {
    close(plate_coefficients(3.0, 0.3).unwrap().deflection, 0.01223, 1e-5);
    close(plate_coefficients(5.0, 0.3).unwrap().deflection, 0.01297, 1e-5);
    for ratio in [1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0] {
        let pane = pane(0.6, ratio, 3.78);
        let faint = load(&pane, 0.5);
        let table = large_deflection(&pane, faint).unwrap();
        let linear = small_deflection(&pane, Elasticity::glass(), faint).unwrap();
        close(table.deflection.si() / linear.deflection.si(), 1.0, 0.01);
        close(table.stress.si() / linear.stress.si(), 1.0, 0.015);
    }
}

/// The deflection polynomial of ASTM E1300 (from memory), which holds to a ratio of 5: within 10 % at 4 and 5.
#[test]
fn long_panes_agree_with_the_polynomial_of_the_glass_standard() {
    let poly = |c: [f64; 4], ratio: f64| c.iter().rev().fold(0.0, |sum, c| sum * ratio + c);
    for (ratio, loads) in [(4.0_f64, &[35.0_f64, 60.0, 100.0][..]), (5.0, &[60.0, 100.0][..])] {
        let r = [[0.553, -3.83, 1.11, -0.0969], [-2.29, 5.83, -2.17, 0.2067], [1.485, -1.908, 0.815, -0.0822]]
            .map(|c| poly(c, ratio));
        for &reduced in loads {
            let x = (reduced * 72.0 / 71.7 * ratio * ratio).ln().ln();
            let pane = pane(0.6, ratio, 3.78);
            let bending = large_deflection(&pane, load(&pane, reduced)).unwrap();
            let expected = (r[0] + r[1] * x + r[2] * x * x).exp();
            close(bending.deflection.si() / pane.thickness.si() / expected, 1.0, 0.10);
        }
    }
}

/// More load or a longer pane never bends less; both ends of the table are reached and not passed.
#[test]
fn the_table_of_panes_rises_to_its_ends_and_stops_there() {
    let deflection = |ratio: f64, reduced: f64| {
        let pane = pane(0.8, ratio, 3.78);
        large_deflection(&pane, load(&pane, reduced)).map(|bending| bending.deflection.si())
    };
    for step in 0..=16 {
        let ratio = 1.0 + 0.25 * f64::from(step);
        let mut before = 0.0;
        for reduced in [0.0, 0.9, 1.0, 1.1, 7.0, 20.0, 59.0, 61.0, 99.0, 101.0, 174.0, 250.0, 299.999] {
            let here = deflection(ratio, reduced).unwrap();
            assert!(here >= before, "ratio {ratio}, load {reduced}");
            before = here;
            if ratio < 4.9 {
                assert!(deflection(ratio + 0.1, reduced).unwrap() >= here, "ratio {ratio}, load {reduced}");
            }
        }
        assert!(deflection(ratio, 300.1).is_err());
    }
    assert!(deflection(0.2, 10.0).is_ok(), "which side is called width does not matter");
    assert!(deflection(5.01, 10.0).is_err());
}

/// A panel of 576 × 1976 mm between the seats, 3.4 times as long as wide, is judged as others are.
#[test]
fn a_narrow_panel_has_its_pane_judged() {
    let narrow = Bench::small().with("absorber.riser_count", "5").with("absorber.sheet_width", "506 mm");
    assert_eq!(narrow.verdict("enclosure.wind-on-glass"), Clear);
    assert!(narrow.number("enclosure.glass_stress") < Bench::small().number("enclosure.glass_stress"));
}

/// Names of the trade in inches and millimetres for the same glass (ASTM E1300, from memory): 3/16 is 5 mm, 1/4 is 6 mm.
#[test]
fn glass_named_in_inches_is_the_glass_named_in_millimetres() {
    for (inches, millimetres) in [
        ("3/32", "2.5 mm"),
        ("1/8", "3 mm"),
        ("5/32", "4 mm"),
        ("3/16", "5 mm"),
        ("1/4", "6 mm"),
        ("5/16", "8 mm"),
        ("3/8", "10 mm"),
    ] {
        assert_eq!(thicknesses().get(millimetres).unwrap().us_name, inches);
        let stress = |typed: &str| {
            let bench = Bench::small().with("enclosure.glass_thickness", typed).with("enclosure.air_gap", "45 mm");
            bench.with("enclosure.glass_pressure", "300 Pa").number("enclosure.glass_stress")
        };
        close(stress(&format!("{inches} in")) / stress(millimetres), 1.0, 1e-9);
    }
    let sold = |millimetres: f64| thickness_sold_as(Length::from_si(millimetres * 1e-3)).map(|row| row.name.as_str());
    assert_eq!(sold(3.2), Some("3 mm"));
    assert_eq!((sold(2.0), sold(3.5), sold(7.0), sold(12.0)), (None, None, None, None));
    let odd = Bench::small().with("enclosure.glass_thickness", "7 mm");
    assert_eq!(odd.verdict("enclosure.wind-on-glass"), Unknown);
}
