//! Box, tube, joints, loads and timber against handbook figures and published examples.
//!
//! The data file names the source of every row and marks what is recalled or computed.

use super::close;
use serde::Deserialize;
use sunharp::handbook::galvanic::anodic_indices;
use sunharp::handbook::joint_rating::{SizeGroup, tables};
use sunharp::handbook::timber::species;
use sunharp::handbook::tube_pressure::Temper;
use sunharp::physics::expansion::{COPPER_TO_200, Swing};
use sunharp::physics::galvanic::{Contact, Surroundings, compare};
use sunharp::physics::lag::{Adjustments, Screw};
use sunharp::physics::layers::{Conductivity, Layer, Stack, profile};
use sunharp::physics::lift::{Coupling, Lift, lifting_index, recommended_weight};
use sunharp::physics::rack::Rack;
use sunharp::physics::solder_joint::{Method, rated_pressure as joint_pressure, wire_length};
use sunharp::physics::timber::{MoistureChange, TotalShrinkage, coefficient, lumber_shrinkage, movement};
use sunharp::physics::tube_pressure::{RatedTube, rated_pressure};
use sunharp::physics::wind::{Exposure, Uplift, WindFactors, force_on_panel, velocity_pressure};
use sunharp::physics::{drilling, solder_joint};
use sunharp::units::si::{
    Angle, Area, Dimension, Force, Insulance, Length, Mass, Pressure, ThermalConductivity, Velocity, Volume, celsius,
    in_celsius,
};

const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const PSI: f64 = 6894.757293168;
const PSF: f64 = 47.88025898;
const POUND_FORCE: f64 = 4.4482216152605;
const POUND: f64 = 0.45359237;
const MILE_PER_HOUR: f64 = 0.44704;

#[derive(Deserialize)]
struct Data {
    rated_pressure: Vec<RatedPressure>,
    solder_use: Vec<SolderUse>,
    wind: Vec<Wind>,
    wind_kz: Vec<WindHeights>,
    lag: Vec<LagExample>,
    lag_table: LagTable,
    shrinkage: Vec<Shrinkage>,
    niosh: Vec<Niosh>,
    drill: Vec<Drill>,
}

#[derive(Deserialize)]
struct RatedPressure {
    tube: String,
    temp_f: Vec<f64>,
    annealed_psi: Vec<f64>,
    drawn_psi: Option<Vec<f64>>,
}

#[derive(Deserialize)]
struct SolderUse {
    wire_in_at_002: f64,
    wire_in_at_005: f64,
    wire_in_at_010: f64,
    lb_per_100: f64,
}

#[derive(Deserialize)]
struct Wind {
    v_mph: f64,
    kz: f64,
    kzt: f64,
    kd: f64,
    q_psf: f64,
    q_pa: Option<f64>,
}

#[derive(Deserialize)]
struct WindHeights {
    z_ft: Vec<f64>,
    b: Vec<f64>,
    c: Vec<f64>,
    d: Vec<f64>,
}

#[derive(Deserialize)]
struct LagExample {
    g: f64,
    d_in: f64,
    w_lb_in: f64,
    example_thread_in: f64,
    cd: f64,
    allow_lb: f64,
}

#[derive(Deserialize)]
struct LagTable {
    dia_in: Vec<f64>,
    rows: Vec<LagRow>,
}

#[derive(Deserialize)]
struct LagRow {
    g: f64,
    w: Vec<f64>,
}

#[derive(Deserialize)]
struct Shrinkage {
    #[serde(rename = "m_pct")]
    moisture: f64,
    #[serde(rename = "s_width_pct")]
    width: f64,
    #[serde(rename = "s_thick_pct")]
    thickness: f64,
}

#[derive(Deserialize)]
struct Niosh {
    origin: NioshLift,
    destination: NioshLift,
}

#[derive(Deserialize)]
struct NioshLift {
    h_in: f64,
    v_in: f64,
    d_in: f64,
    fm: f64,
    rwl_lb: f64,
    li: f64,
}

#[derive(Deserialize)]
struct Drill {
    d_in: f64,
    sfm: f64,
    rpm: f64,
}

#[allow(clippy::unwrap_used, reason = "a test whose data does not parse shall fail")]
fn data() -> Data {
    toml::from_str(include_str!("data/enclosure.toml")).unwrap()
}

fn fahrenheit(degrees: f64) -> sunharp::units::si::Temperature {
    celsius((degrees - 32.0) / 1.8)
}

fn inches(value: f64) -> Length {
    Length::from_si(value * INCH)
}

/// Copper trade handbook, type M ½ at seven temperatures and both tempers; gas data sheet, type L ¾ at 150 °F.
/// Tolerances of ASTM B88.
#[test]
pub(super) fn tube_ratings_are_those_of_the_handbook() {
    for case in data().rated_pressure {
        let (od, wall, wall_tolerance, annealed) = match case.tube.as_str() {
            "M 1/2" => (0.625, 0.028, 0.003, 0.0025),
            _ => (0.875, 0.045, 0.004, 0.003),
        };
        let tube = |diameter_tolerance| RatedTube {
            outside_diameter: inches(od),
            wall: inches(wall),
            diameter_tolerance: inches(diameter_tolerance),
            wall_tolerance: inches(wall_tolerance),
        };
        let stress = |temper: Temper, degrees| temper.allowable_stress(fahrenheit(degrees)).unwrap();
        for (index, &degrees) in case.temp_f.iter().enumerate() {
            let soft = rated_pressure(tube(annealed), stress(Temper::Annealed, degrees)).unwrap();
            close(soft.si() / PSI, case.annealed_psi[index], 1.0);
            if let Some(drawn) = &case.drawn_psi {
                let hard = rated_pressure(tube(0.001), stress(Temper::Drawn, degrees)).unwrap();
                close(hard.si() / PSI, drawn[index], 1.0);
            }
        }
    }
}

/// Copper trade handbook, table of solder consumption, ¾: wire of 1/8 in for gaps of .002, .005, .010 in, cup ¾ deep.
#[test]
pub(super) fn wire_for_a_joint_is_that_of_the_handbook() {
    let volume = |gap: f64| std::f64::consts::PI * 0.875 * 0.75 * gap * INCH.powi(3);
    for case in data().solder_use {
        for (gap, wire) in [(0.002, case.wire_in_at_002), (0.005, case.wire_in_at_005), (0.010, case.wire_in_at_010)] {
            let length = wire_length(Volume::from_si(volume(gap)), inches(0.125)).unwrap();
            close(length.si() / INCH, wire, 0.002);
        }
        close(volume(0.010) * 7360.0 * 100.0 / POUND, case.lb_per_100, 0.001);
    }
}

/// Copper trade handbook table 14.4a and ASME B31.9 as copied by a handbook of the heating trade: the lower row counts.
#[test]
fn joint_ratings_take_the_lower_table() {
    let rating = |filler, method, degrees| {
        joint_pressure(method, &tables(filler, SizeGroup::UpTo1), fahrenheit(degrees)).unwrap()
    };
    for (degrees, psi) in [(100.0, 500.0), (150.0, 400.0), (200.0, 300.0)] {
        let antimony = rating("Sb5", Method::Soldered, degrees);
        close(antimony.pressure.si() / PSI, psi, 0.01);
        assert!(antimony.conflict);
    }
    close(rating("Sn50", Method::Soldered, 175.0).pressure.si() / PSI, 125.0, 0.01);
    close(rating("E", Method::Soldered, 200.0).pressure.si() / PSI, 375.0, 0.01);
    close(rating("HB", Method::Soldered, 100.0).pressure.si() / PSI, 1035.0, 0.01);
    close(rating("brazed", Method::Brazed, 350.0).pressure.si() / PSI, 270.0, 0.01);
    assert!(!rating("Sn50", Method::Soldered, 150.0).conflict);
    assert!(joint_pressure(Method::Soldered, &tables("Sb5", SizeGroup::UpTo1), celsius(121.5)).is_err());
    close(solder_joint::Method::Soldered.steam_rating().si() / PSI, 15.0, 0.01);
    close(solder_joint::Method::Brazed.steam_rating().si() / PSI, 120.0, 0.01);
}

/// Worked pressures of ASCE 7 in pounds and feet (one of them from a page of poor quality, arithmetic right).
#[test]
pub(super) fn wind_pressures_are_those_of_the_code() {
    for case in data().wind {
        let gust = Velocity::from_si(case.v_mph * MILE_PER_HOUR);
        let factors = WindFactors { exposure: case.kz, topography: case.kzt, directionality: case.kd, elevation: 1.0 };
        let pressure = velocity_pressure(gust, factors).unwrap();
        close(pressure.si() / PSF / case.q_psf, 1.0, 0.002);
        if let Some(pascal) = case.q_pa {
            close(pressure.si(), pascal, 1.0);
        }
    }
}

/// Heights of exposure B, C, D by the formula of a verified page.
#[test]
pub(super) fn exposure_coefficients_are_those_of_the_code() {
    for case in data().wind_kz {
        for (exposure, values) in [(Exposure::B, case.b), (Exposure::C, case.c), (Exposure::D, case.d)] {
            for (&height, expected) in case.z_ft.iter().zip(values) {
                close(exposure.coefficient(Length::from_si(height * FOOT)).unwrap(), expected, 6e-4);
            }
        }
    }
}

/// Own example: q 1170 Pa, GCp −1.8, edge 1.5, area 0.8, 2 m², 45 kg, 30°, four mounts: 3033, 2804, 701 N.
#[test]
fn uplift_on_a_mount_follows_the_load_combination() {
    let forces = Uplift {
        suction: Pressure::from_si(1170.0 * 1.8 * 1.5 * 0.8),
        area: Area::from_si(2.0),
        mass: Mass::from_si(45.0),
        tilt: Angle::from_si(30.0_f64.to_radians()),
        mounts: 4,
    }
    .forces()
    .unwrap();
    close(forces.wind.si(), 3033.0, 1.0);
    close(forces.net.si(), 2804.0, 2.0);
    close(forces.per_mount.si(), 701.0, 1.0);
}

/// 2 m² in a wind of 10 m/s, drag coefficient 1.2: 147 N.
#[test]
fn a_panel_in_the_hands_is_a_sail() {
    close(force_on_panel(Area::from_si(2.0), Velocity::from_si(10.0), 1.2).unwrap().si(), 147.0, 0.5);
}

/// NDS table 12.2A, 22 specific gravities by 5 diameters (verified scans), and the example with 2.5 in of thread.
#[test]
pub(super) fn lag_screws_hold_what_the_table_says() {
    let data = data();
    let withdrawal = |gravity, diameter: f64, thread: f64, duration| {
        let screw = Screw { diameter: inches(diameter), thread: inches(thread), specific_gravity: gravity };
        screw.lag_withdrawal(Adjustments { duration, ..Adjustments::none() }).unwrap().si() / POUND_FORCE
    };
    for row in &data.lag_table.rows {
        for (&diameter, &expected) in data.lag_table.dia_in.iter().zip(&row.w) {
            close(withdrawal(row.g, diameter, 1.0, 1.0), expected, 0.8);
        }
    }
    for example in &data.lag {
        close(withdrawal(example.g, example.d_in, 1.0, 1.0), example.w_lb_in, 0.6);
        close(withdrawal(example.g, example.d_in, example.example_thread_in, example.cd), example.allow_lb, 2.0);
    }
}

/// Own example: 2 m² at 45°, wind 1589 N both ways: 2723 N·m, 6484 N against overturning, 9267 N against sliding.
#[test]
fn a_rack_needs_its_weight_or_anchors() {
    let needed = Rack {
        horizontal: Force::from_si(1589.0),
        uplift: Force::from_si(1589.0),
        height: Length::from_si(1.007),
        arm: Length::from_si(0.707),
        base: Length::from_si(1.4),
        friction: 0.4,
    }
    .needed_weight()
    .unwrap();
    close(needed.overturning_moment, 2723.0, 1.0);
    close(needed.against_overturning.si(), 6484.0, 3.0);
    close(needed.against_sliding.si(), 9267.0, 3.0);
    assert_eq!(needed.governing(), needed.against_sliding);
}

/// A riser of 2 m from 20 to 165 °C grows 5.0 mm (own sum with the handbook's 9.6e-6 /°F to 392 °F).
#[test]
fn a_riser_grows_by_five_millimetres() {
    let swing = Swing { from: celsius(20.0), to: celsius(165.0) };
    close(COPPER_TO_200.growth(Length::from_si(2.0), swing).unwrap().si() * 1e3, 5.0, 0.05);
}

/// FPL-RP-489 at 15 % (verified abstract).
#[test]
pub(super) fn lumber_shrinks_as_the_standard_assumes() {
    for case in data().shrinkage {
        let shrinkage = lumber_shrinkage(case.moisture).unwrap();
        close(shrinkage.width_percent, case.width, 0.001);
        close(shrinkage.thickness_percent, case.thickness, 0.001);
    }
}

/// Wood Handbook, FPL-GTR-190: table 13-5 from the shrinkages of table 4-3; a pine rail of 140 mm by 6 %: 2.2 mm.
#[test]
fn movement_follows_the_wood_handbook() {
    for (name, percent, saturation) in
        [("Douglas-fir coast", 7.6, 30.0), ("western redcedar", 5.0, 22.0), ("southern pine loblolly", 7.4, 30.0)]
    {
        let total = TotalShrinkage { percent, fibre_saturation_percent: saturation };
        close(coefficient(total).unwrap(), species().get(name).unwrap().tangential, 1e-5);
    }
    let pine = species().get("southern pine loblolly").unwrap().tangential;
    let change = MoistureChange { from_percent: 6.0, to_percent: 12.0 };
    close(movement(Length::from_si(0.140), pine, change).unwrap().si() * 1e3, 2.2, 0.05);
}

/// NIOSH 94-110, first example (from memory), in pounds: its manual rounds the multipliers first and takes 10 in for
/// 25 cm and 51 lb for 23 kg, so 5 % are allowed.
#[test]
pub(super) fn the_lifting_equation_gives_its_example() {
    for case in data().niosh {
        for point in [case.origin, case.destination] {
            let lift = Lift {
                horizontal: inches(point.h_in),
                vertical: inches(point.v_in),
                travel: inches(point.d_in),
                twist: Angle::from_si(0.0),
                frequency: point.fm,
                coupling: Coupling::Fair,
            };
            close(recommended_weight(lift).unwrap().si() / POUND / point.rwl_lb, 1.0, 0.06);
            close(lifting_index(Mass::from_si(44.0 * POUND), lift).unwrap() / point.li, 1.0, 0.08);
        }
    }
}

/// Table of machine tool speeds: 5/8 in at 70 ft/min turns 426 times a minute (with 3.8 for 12/π, so 1 % is allowed).
#[test]
pub(super) fn a_drill_turns_as_the_shop_table_says() {
    for case in data().drill {
        let speed = Velocity::from_si(case.sfm * FOOT / 60.0);
        close(drilling::turns_per_minute(inches(case.d_in), speed).unwrap() / case.rpm, 1.0, 0.01);
    }
    close(drilling::turns_per_minute(Length::from_si(0.016), Velocity::from_si(35.0 / 60.0)).unwrap(), 696.0, 1.0);
}

/// Own examples worked by hand: wood behind 50 and 25 mm of fibre; fibre before foam.
#[test]
fn faces_behind_insulation_are_as_worked_by_hand() {
    let layer = |millimetres: f64, k: f64| Layer {
        thickness: Length::from_si(millimetres * 1e-3),
        conductivity: Conductivity::constant(ThermalConductivity::from_si(k)),
    };
    let face = |layers: &[Layer]| {
        let stack = Stack { hot: celsius(150.0), ambient: celsius(20.0), layers, outside: Insulance::from_si(0.1) };
        in_celsius(profile(&stack).unwrap().faces[1])
    };
    close(face(&[layer(50.0, 0.045), layer(12.0, 0.12)]), 39.8, 0.1);
    close(face(&[layer(25.0, 0.045), layer(12.0, 0.12)]), 54.0, 0.5);
    close(face(&[layer(25.0, 0.047), layer(50.0, 0.029)]), 120.6, 0.1);
}

/// Anodic index and its limits (page "Galvanic table", verified): copper on brass passes, on aluminium and zinc fails.
#[test]
fn copper_bears_brass_and_not_zinc() {
    let volts = |name: &str| anodic_indices().get(name).unwrap().volts;
    let copper = volts("copper, silver solder");
    let with =
        |name, surroundings| compare(Contact { first_volts: copper, second_volts: volts(name) }, surroundings).unwrap();
    close(with("brass, bronze", Surroundings::Harsh).difference, 0.05, 1e-9);
    assert!(with("brass, bronze", Surroundings::Harsh).within_limit);
    assert!(!with("tin plate, tin-lead solder", Surroundings::Harsh).within_limit);
    close(with("galvanised steel (hot dip)", Surroundings::Controlled).difference, 0.85, 1e-9);
    assert!(!with("aluminium wrought other", Surroundings::Controlled).within_limit);
}
