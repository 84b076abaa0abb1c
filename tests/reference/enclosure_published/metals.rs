//! Surfaces, paint, metals in contact, hoses and plastics, drills as printed.

use super::super::close;
use crate::support::Bench;
use sunharp::handbook::galvanic::{anodic_indices, seawater_series};
use sunharp::handbook::hose::{hose, plastic_pipe};
use sunharp::handbook::sheet::{paint_process, surfaces};
use sunharp::handbook::{Provenance, solder};
use sunharp::model::Verdict::{Caution, Clear, Stop};
use sunharp::physics::drilling::{copper_cutting_speed, turns_per_minute};
use sunharp::physics::galvanic::{Contact, Surroundings, compare};
use sunharp::units::si::{Dimension, Length, in_celsius};

const INCH: f64 = 0.0254;
const FOOT: f64 = 0.3048;
const PSI: f64 = 6_894.757_293_168;

/// Magazine page "Absorber coatings" (verified): flat black paint about .95 and .95.
#[test]
fn flat_black_paint_gives_off_as_much_as_it_takes() {
    let black = surfaces().get("flat black high-temperature paint").unwrap();
    close(black.absorptance, 0.95, 1e-12);
    close(black.emittance, 0.95, 1e-12);
    assert_eq!(black.provenance, Provenance::Printed);
    // Selective .10 to .20 (same page); black nickel and black chrome are selective (NASA TM X-3509, abstract).
    for name in ["black chrome on nickel", "black nickel"] {
        assert!(surfaces().get(name).unwrap().emittance <= 0.20, "{name}");
    }
}

/// Data sheet of a 400 °C silicone paint (verified): 15 µm dry, 13.3 m²/L, next coat after 2 h, 10 °C, 80 %, 3 K, 230 °C.
#[test]
fn the_paint_is_laid_on_and_cured_as_its_data_sheet_says() {
    for (name, value) in [
        ("dry_film_um", 15.0),
        ("coverage_m2_l", 13.3),
        ("recoat_h_23c", 2.0),
        ("min_apply_c", 10.0),
        ("max_rh_pct", 80.0),
        ("dew_margin_k", 3.0),
        ("cure_c", 230.0),
    ] {
        close(paint_process().get(name).unwrap().value, value, 1e-12);
    }
}

/// A bake at 230 °C melts Sn50Pb50 (183) and Sn-Ag (221) and leaves 3 K to Sn95Sb5 (233, from memory): by hand from the
/// pages named above.
#[test]
fn a_paint_that_bakes_at_230_degrees_melts_the_solder_under_it() {
    let cure = paint_process().get("cure_c").unwrap().value;
    for (alloy, room) in [("Sn50Pb50", -47.0), ("Sn96.5Ag3.5", -9.0), ("Sn95Sb5", 3.0)] {
        close(in_celsius(solder::alloys().get(alloy).unwrap().solidus) - cure, room, 1e-9);
        let bench = Bench::small().with("absorber.solder", alloy).with("absorber.paint_cure", "230 °C");
        assert_eq!(bench.verdict("absorber.paint-cure"), Stop, "{alloy}");
    }
}

/// Anodic index, V: page "Galvanic table" (verified); 0.15 outdoors, 0.25, 0.50 controlled.
#[test]
fn metals_lie_where_the_galvanic_table_puts_them() {
    let copper = anodic_indices().get("copper, silver solder").unwrap().volts;
    for (metal, volts) in [
        ("nickel, titanium", -0.30),
        ("copper, silver solder", -0.35),
        ("brass, bronze", -0.40),
        ("high brass", -0.45),
        ("18 % Cr stainless", -0.50),
        ("chromium or tin plated", -0.60),
        ("tin plate, tin-lead solder", -0.65),
        ("lead", -0.70),
    ] {
        let row = anodic_indices().get(metal).unwrap();
        close(row.volts, volts, 1e-12);
        assert_eq!(row.provenance, Provenance::Printed);
        let contact = Contact { first_volts: copper, second_volts: row.volts };
        for (surroundings, limit) in
            [(Surroundings::Harsh, 0.15), (Surroundings::Normal, 0.25), (Surroundings::Controlled, 0.50)]
        {
            let within = (volts + 0.35_f64).abs() <= limit + 1e-9;
            assert_eq!(compare(contact, surroundings).unwrap().within_limit, within, "{metal} {surroundings:?}");
        }
        let beside = Bench::small().with("safety.contact_metal", metal).verdict("safety.galvanic");
        assert_eq!(beside, if (volts + 0.35_f64).abs() <= 0.15 + 1e-9 { Clear } else { Caution }, "{metal}");
    }
}

/// Series in sea water, mV, page "About the galvanic series chart" (verified): more than 200 mV apart needs protection.
/// Copper −0.30 to −0.57 V by another page.
#[test]
fn the_sea_water_series_is_that_of_its_page() {
    for (metal, millivolts) in [
        ("galvanised iron, hot dip", -1140.0),
        ("zinc electroplate", -1130.0),
        ("zinc", -1050.0),
        ("aluminium, marine alloys", -820.0),
        ("mild steel", -790.0),
        ("aluminium, forged", -730.0),
        ("stainless, active", -550.0),
        ("tin", -500.0),
        ("yellow brass", -450.0),
    ] {
        close(seawater_series().get(metal).unwrap().volts * 1e3, millivolts, 1e-6);
    }
    let copper = seawater_series().get("copper").unwrap().volts;
    assert!((-0.57..=-0.30).contains(&copper));
    // By both series aluminium and zinc are eaten beside copper.
    for (sea, index) in [("aluminium, marine alloys", "aluminium wrought other"), ("zinc", "zinc")] {
        assert!(copper - seawater_series().get(sea).unwrap().volts > 0.2);
        assert_eq!(Bench::small().with("safety.contact_metal", index).verdict("safety.galvanic"), Stop);
    }
}

/// EPDM coolant hose −40 to 120, 150 °C by type (abstract of a carmaker's standard, verified). CPVC and PEX 100 psi at
/// 180 °F, tested for 48 h at 210 °F; PE to 140 °F (page of a pipe association, verified).
#[test]
fn hoses_and_plastics_bear_what_their_pages_say() {
    let epdm = hose("EPDM coolant/heater hose").unwrap();
    close(in_celsius(epdm.coldest.unwrap()), -40.0, 1e-9);
    close(in_celsius(epdm.hottest), 120.0, 1e-9);
    close(in_celsius(epdm.peak.unwrap()), 150.0, 1e-9);
    let fahrenheit = |temperature| in_celsius(temperature) * 1.8 + 32.0;
    for name in ["CPVC", "PEX (ASTM F876)"] {
        let pipe = plastic_pipe(name).unwrap();
        let (pressure, temperature) = pipe.rating.unwrap();
        close(pressure.si() / PSI, 100.0, 1e-9);
        close(fahrenheit(temperature), 180.0, 1e-6);
        // The limit is that of the rating; the test of two days at 210 °F gives no right to run so hot.
        close(fahrenheit(pipe.hottest), 180.0, 0.7);
    }
    close(fahrenheit(plastic_pipe("PE").unwrap().hottest), 140.0, 1e-6);
    for name in ["PVC", "ABS (drain)"] {
        assert!(plastic_pipe(name).unwrap().rating.is_none(), "{name} is rated at 73 °F only");
    }
}

/// Table of machine tool speeds: rpm = 3.8 sfm/d, copper 70 ft/min (verified; 3.8 is 12/π rounded down).
#[test]
fn drills_in_copper_turn_as_the_table_says() {
    close(copper_cutting_speed().si() * 60.0 / FOOT, 70.0, 1e-9);
    for inches in [0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 1.125] {
        let turns = turns_per_minute(Length::from_si(inches * INCH), copper_cutting_speed()).unwrap();
        close(turns * inches / 70.0, 3.8, 0.025);
    }
}
