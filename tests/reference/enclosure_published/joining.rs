//! Solder, brazing, cups, ratings of joints, lead and flux as printed.

use super::super::close;
use crate::support::Bench;
use sunharp::handbook::joint_rating::{SizeGroup, tables};
use sunharp::handbook::solder::{alloys, brazing_fillers, fluxes, lead_free, working_heat};
use sunharp::handbook::tube::tube;
use sunharp::handbook::{Provenance, fittings};
use sunharp::model::Verdict::{Caution, Clear, Stop};
use sunharp::physics::solder_joint::{Method, rated_pressure, wire_length};
use sunharp::stage;
use sunharp::units::si::{Dimension, Length, Temperature, celsius, in_celsius};

const INCH: f64 = 0.0254;
const PSI: f64 = 6_894.757_293_168;
const POUND: f64 = 0.453_592_37;

fn fahrenheit(degrees: f64) -> Temperature {
    celsius((degrees - 32.0) / 1.8)
}

fn in_fahrenheit(temperature: Temperature) -> f64 {
    in_celsius(temperature) * 1.8 + 32.0
}

/// Solidus, range of liquidus where pages differ, °C; g/cm³ and W/(m·K) where printed. Pages "Solder Alloys" and
/// "Chemistry: Solder alloys" (verified).
#[test]
fn solders_melt_where_the_pages_say() {
    for (name, solidus, liquidus, density, conductivity) in [
        ("Sn50Pb50", 183.0, [212.0, 216.0], Some(8.87), Some(48.0)),
        ("Sn60Pb40", 183.0, [188.0, 191.0], Some(8.5), Some(49.0)),
        ("Sn63Pb37", 183.0, [183.0, 183.0], Some(8.4), Some(50.0)),
        ("Sn40Pb60", 183.0, [234.0, 238.0], Some(9.28), Some(44.0)),
        ("Sn96.5Ag3.5", 221.0, [221.0, 221.0], Some(7.37), Some(55.0)),
        ("Sn95Ag5", 221.0, [240.0, 240.0], Some(7.4), None),
        ("Sn95.5Cu4Ag0.5", 226.0, [260.0, 260.0], None, None),
        ("Sn97Cu3", 227.0, [300.0, 300.0], Some(7.32), None),
        ("Sn99.3Cu0.7", 227.0, [227.0, 227.0], Some(7.31), Some(66.0)),
        ("Sn96.5Ag3Cu0.5", 217.0, [220.0, 220.0], Some(7.38), Some(58.0)),
    ] {
        let alloy = alloys().get(name).unwrap();
        close(in_celsius(alloy.solidus), solidus, 1e-9);
        let melted = in_celsius(alloy.liquidus);
        assert!((liquidus[0] - 1e-9..=liquidus[1] + 1e-9).contains(&melted), "{name}: {melted}");
        assert_eq!(alloy.density.map(|density| density.si() / 1e3), density, "{name}");
        assert_eq!(alloy.conductivity.map(Dimension::si), conductivity, "{name}");
        assert_eq!(alloy.provenance, Provenance::Printed, "{name}");
    }
}

/// Solidus and liquidus, °F and °C, and range of work, °F: AWS A5.8 in a machinery reference (verified).
#[test]
fn brazing_fillers_melt_and_work_where_the_reference_says() {
    for (name, solidus, liquidus, range) in [
        ("BCuP-2", [1310.0, 710.0], [1460.0, 793.0], [1350.0, 1550.0]),
        ("BCuP-3", [1190.0, 643.0], [1485.0, 807.0], [1300.0, 1500.0]),
        ("BCuP-4", [1190.0, 643.0], [1335.0, 724.0], [1300.0, 1450.0]),
        ("BCuP-5", [1190.0, 643.0], [1475.0, 802.0], [1300.0, 1500.0]),
    ] {
        let filler = brazing_fillers().get(name).unwrap();
        for (melts, [f, c]) in [(filler.solidus, solidus), (filler.liquidus, liquidus)] {
            close(in_celsius(melts), c, 1e-9);
            close(in_fahrenheit(melts), f, 1.0);
        }
        for (works, f) in filler.brazed_at.unwrap().into_iter().zip(range) {
            close(in_fahrenheit(works), f, 1e-6);
        }
    }
    let range = brazing_fillers().get("BCuP-2").unwrap().brazed_at.unwrap().map(in_celsius);
    close(range[0], 732.0, 0.5);
    close(range[1], 843.0, 0.5);
    // BAg-1 holds 24 % of cadmium (the same page): a stop. The others are none.
    let verdict = |filler: &str| Bench::small().with("safety.brazing_filler", filler).verdict("safety.fume");
    assert!(brazing_fillers().get("BAg-1").unwrap().composition.contains("24Cd"));
    assert_eq!((verdict("BAg-1"), verdict("BCuP-2"), verdict("BCuP-3")), (Stop, Clear, Clear));
}

/// psi at 100, 150, 200, 250 °F for sizes to 1, 2 and 4 in. Copper tube handbook table 14.4a after ASME B16.22 (verified).
const HANDBOOK: [(&str, [[f64; 3]; 4]); 4] = [
    ("Sn50", [[200.0, 175.0, 150.0], [150.0, 125.0, 100.0], [100.0, 90.0, 75.0], [85.0, 75.0, 50.0]]),
    ("Sb5", [[1090.0, 850.0, 705.0], [625.0, 485.0, 405.0], [505.0, 395.0, 325.0], [270.0, 210.0, 175.0]]),
    ("E", [[710.0, 555.0, 460.0], [475.0, 370.0, 305.0], [375.0, 290.0, 240.0], [320.0, 250.0, 205.0]]),
    ("HB", [[1035.0, 805.0, 670.0], [710.0, 555.0, 460.0], [440.0, 345.0, 285.0], [430.0, 335.0, 275.0]]),
];
/// The same after ASME B31.9 in a handbook of fundamentals (verified).
const PIPING: [(&str, [[f64; 3]; 4]); 2] = [
    ("Sn50", [[200.0, 175.0, 150.0], [150.0, 125.0, 100.0], [100.0, 90.0, 75.0], [85.0, 75.0, 50.0]]),
    ("Sb5", [[500.0, 400.0, 300.0], [400.0, 350.0, 275.0], [300.0, 250.0, 200.0], [200.0, 175.0, 150.0]]),
];
const SIZES: [SizeGroup; 3] = [SizeGroup::UpTo1, SizeGroup::UpTo2, SizeGroup::UpTo4];

#[test]
fn soldered_joints_are_rated_by_the_lower_of_two_printed_tables() {
    for (filler, rows) in HANDBOOK {
        for ((row, degrees), group) in rows.iter().zip([100.0, 150.0, 200.0, 250.0]).zip(0..) {
            for (size, &psi) in SIZES.into_iter().zip(row) {
                let other = PIPING.iter().find(|(name, _)| *name == filler).map(|(_, rows)| rows[group]);
                let lower = other.map_or(psi, |other| other[size as usize].min(psi));
                // The limit of soldered joints, 121 °C, is 250 °F rounded down.
                let at = celsius(in_celsius(fahrenheit(degrees)).min(121.0));
                let rated = rated_pressure(Method::Soldered, &tables(filler, size), at).unwrap();
                close(rated.pressure.si() / PSI, lower, 0.005 * lower);
            }
        }
    }
}

/// Filler above 1000 °F: 300, 210, 170 psi to 250 °F, 270, 190, 150 at 350 °F (ASME B31.9, the same page). Soldered service
/// to 250 °F, brazed to 350 °F (data sheet on soldering and brazing copper, verified).
#[test]
fn brazed_joints_are_rated_to_350_degrees_fahrenheit_and_soldered_ones_to_250() {
    for (size, cool, hot) in [(SIZES[0], 300.0, 270.0), (SIZES[1], 210.0, 190.0), (SIZES[2], 170.0, 150.0)] {
        let rated = |degrees: f64| {
            rated_pressure(Method::Brazed, &tables("brazed", size), fahrenheit(degrees)).unwrap().pressure.si() / PSI
        };
        close(rated(100.0), cool, 1e-6);
        close(rated(250.0), cool, 1e-6);
        close(rated(350.0), hot, 1e-6);
        assert!(rated_pressure(Method::Brazed, &tables("brazed", size), fahrenheit(352.0)).is_err());
    }
    for (method, limit) in [(Method::Soldered, 250.0), (Method::Brazed, 350.0)] {
        close(method.limit_celsius() * 1.8 + 32.0, limit, 0.7);
    }
}

/// Nominal; cup depth in; wire of 1/8 in for gaps of .002, .005 and .010 in; pounds for 100 joints at .010. Copper tube
/// handbook table 14.10 (verified).
const CUPS: [(&str, f64, [f64; 3], f64); 11] = [
    ("1/4", 0.31, [0.06, 0.149, 0.298], 0.097),
    ("3/8", 0.38, [0.097, 0.243, 0.486], 0.159),
    ("1/2", 0.5, [0.16, 0.4, 0.8], 0.261),
    ("5/8", 0.62, [0.238, 0.595, 1.191], 0.389),
    ("3/4", 0.75, [0.336, 0.84, 1.68], 0.548),
    ("1", 0.91, [0.524, 1.311, 2.621], 0.856),
    ("1-1/4", 0.97, [0.683, 1.707, 3.415], 1.115),
    ("1-1/2", 1.09, [0.907, 2.268, 4.535], 1.48),
    ("2", 1.34, [1.458, 3.645, 7.291], 2.38),
    ("2-1/2", 1.47, [1.976, 4.94, 9.88], 3.225),
    ("3", 1.66, [2.656, 6.641, 13.282], 4.335),
];

#[test]
fn a_cup_takes_the_wire_and_the_mass_of_solder_that_the_handbook_prints() {
    let inches = |value: f64| Length::from_si(value * INCH);
    for (nominal, depth, wires, pounds) in CUPS {
        let cup = fittings::solder_cup(nominal).unwrap();
        close(cup.depth.si() / INCH, depth, 1e-9);
        for (gap, wire) in [0.002, 0.005, 0.010].into_iter().zip(wires) {
            let length = wire_length(cup.gap_volume(inches(gap)), inches(0.125)).unwrap();
            close(length.si() / INCH, wire, 0.0006 + 0.0003 * wire);
        }
        close(cup.solder(inches(0.010)).si() / POUND * 100.0, pounds, 0.006 * pounds + 0.0006);
    }
}

/// Bore of the cups: page "ASME/ANSI standard copper water tube and solder-joint ends" (verified). On a drawn tube of .625
/// in, ± .001, it leaves .001 to .007 in across (by hand).
#[test]
fn a_cup_is_wider_than_its_tube_by_the_printed_play() {
    for (nominal, least, greatest) in
        [("1/4", 0.377, 0.381), ("3/8", 0.502, 0.506), ("1/2", 0.627, 0.631), ("3/4", 0.877, 0.881)]
    {
        let bore = fittings::solder_cup(nominal).unwrap().bore.unwrap();
        close(bore.least.si() / INCH, least, 1e-9);
        close(bore.greatest.si() / INCH, greatest, 1e-9);
    }
    let (cup, size) = (fittings::solder_cup("1/2").unwrap().bore.unwrap(), tube("1/2 in type L").unwrap());
    let drawn = size.od_tolerance.unwrap().drawn;
    close((cup.least - size.od - drawn).si() / INCH, 0.001, 1e-6);
    close((cup.greatest - size.od + drawn).si() / INCH, 0.007, 1e-6);
}

/// Drinking water act, section 1417, page of the environment agency (verified): solder and flux 0.2 %, wetted surfaces
/// 0.25 % weighted by area.
#[test]
fn lead_is_held_to_the_drinking_water_act() {
    close(lead_free().get("solder and flux").unwrap().value, 0.2, 1e-12);
    close(lead_free().get("wetted surfaces").unwrap().value, 0.25, 1e-12);
    assert!(stage::check("safety.lead").unwrap().source.contains("0.2 %"));
    let valve =
        |lead: &str| Bench::small().with("safety.wetted.pump.lead", "0 %").with("safety.wetted.valve.lead", lead);
    // 0.01 of 0.03 m²: three quarters of a percent come to the limit.
    assert_eq!(valve("0.749 %").verdict("safety.lead-surfaces"), Caution);
    assert_eq!(valve("0.751 %").verdict("safety.lead-surfaces"), Stop);
}

/// Two ounces of flux for a pound of solder (handbook table 14.10, footnote); flux to ASTM B813 (verified).
#[test]
fn flux_goes_by_the_mass_of_the_solder() {
    let bench = Bench::small();
    close(bench.number("absorber.flux_mass") / bench.number("absorber.solder_mass"), 2.0 / 16.0, 1e-9);
    let named = fluxes().all().iter().find(|flux| flux.name.contains("B813")).unwrap();
    assert!(named.purpose.contains("copper tube"));
}

/// Soldering 350 to 600 °F, brazing 1100 to 1500 °F (data sheet on soldering and brazing copper, verified).
#[test]
fn torches_work_in_the_window_of_the_data_sheet() {
    for (name, low, high) in [("soldering", 350.0, 600.0), ("brazing", 1100.0, 1500.0)] {
        let heat = working_heat().get(name).unwrap();
        close(in_fahrenheit(heat.low), low, 1.0);
        close(in_fahrenheit(heat.high), high, 1.0);
    }
}

/// Collars drawn from a header: three walls high at least (guide specification, verified); a lap of three walls of the
/// thinner tube (copper handbook, brazing, verified). Heights in mm and in by hand.
#[test]
fn a_collar_is_three_walls_high() {
    for (header, inches) in [
        ("1 in type M", 0.105),
        ("1 in type L", 0.150),
        ("1-1/4 in type M", 0.126),
        ("3/4 in type L", 0.135),
        ("22 x 1.0 mm EN 1057", 0.118),
        ("28 x 1.2 mm EN 1057", 0.142),
    ] {
        close(fittings::least_collar(tube(header).unwrap().wall).si() / INCH, inches, 5e-4);
    }
    // A riser thicker than its header: the header is the thinner tube, and the collar is as high as it must be.
    let thick = Bench::small().with("absorber.joint", "collar").with("absorber.header_tube", "1 in type M");
    let thick = thick.with("absorber.riser_tube", "1/2 in type K");
    close(thick.number("absorber.lap") / INCH, 0.105, 1e-9);
    let evaluation = thick.evaluate();
    let margin = evaluation.verdict("absorber.joint-kind").unwrap().judgement.clone().unwrap().margin.unwrap();
    assert!(margin.si >= -1e-9, "{margin:?}");
}

/// Limits at the workplace in mg/m³ (verified): lead 0.05, antimony 0.5, silver 0.01, zinc oxide 5.
#[test]
fn the_limits_of_metal_fume_are_told() {
    let source = stage::check("safety.fume").unwrap().source;
    for limit in ["lead 0.05", "antimony 0.5", "silver 0.01", "zinc oxide 5 mg/m³"] {
        assert!(source.contains(limit), "{limit}: {source}");
    }
}
