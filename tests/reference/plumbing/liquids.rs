//! Water and glycol against property libraries.

use super::cases;
use sunharp::physics::fluid::{self, Fluid};
use sunharp::physics::glycol;
use sunharp::units::si::{Dimension, celsius, in_celsius};

/// IAPWS-95 at 3 bar.
#[test]
fn water_has_the_properties_of_iapws_95() {
    for case in cases("water_properties") {
        let temperature = celsius(case.number("t_c"));
        let p = Fluid::Water.properties_at(temperature.si());
        case.near("density", p.density, case.number("rho"), 2e-4);
        case.near("specific heat", p.specific_heat, case.number("cp"), 1e-3);
        case.near("viscosity", p.viscosity, case.number("mu"), 2e-3);
        case.near("conductivity", p.conductivity, case.number("k"), 1e-3);
        case.near("vapour pressure", fluid::vapour_pressure(temperature), case.number("psat_pa"), 3e-4);
    }
}

/// Melinder 2010 as carried by a general-purpose property library.
#[test]
fn glycol_has_the_properties_of_melinder() {
    for case in cases("pg_properties") {
        let liquid = glycol::mixture(case.number("x_mass")).unwrap();
        let p = liquid.properties_at(celsius(case.number("t_c")).si());
        case.near("density", p.density, case.number("rho"), 1e-9);
        case.near("specific heat", p.specific_heat, case.number("cp"), 1e-9);
        case.near("viscosity", p.viscosity, case.number("mu"), 1e-9);
        case.near("conductivity", p.conductivity, case.number("k"), 1e-9);
    }
}

/// Melinder 2010.
#[test]
fn glycol_freezes_at_the_library_temperature() {
    for case in cases("pg_freeze") {
        let liquid = glycol::mixture(case.number("x_mass")).unwrap();
        case.within("freezing", in_celsius(liquid.freezing_point()), case.number("t_freeze_c"), 1e-6);
    }
}

/// Melinder 2010, inverted.
#[test]
fn the_least_glycol_for_a_frost_is_found() {
    for case in cases("pg_min_fraction") {
        let wanted = celsius(case.number("record_low_c") - case.number("margin_k"));
        let mass = glycol::mass_fraction_for_freezing(wanted).unwrap();
        case.near("mass fraction", mass, case.number("x_mass"), 1e-6);
        case.near("volume fraction", glycol::volume_fraction(mass).unwrap(), case.number("x_vol"), 1e-6);
    }
}

/// Raoult's law with IAPWS-95 water.
#[test]
fn glycol_mixtures_boil_where_raoults_law_says() {
    for case in cases("pg_boiling") {
        let liquid = glycol::mixture(case.number("x_mass")).unwrap();
        let boiling = glycol::boiling_point(liquid, Dimension::from_si(case.number("p_abs_pa"))).unwrap();
        case.within("boiling", in_celsius(boiling), case.number("t_boil_c"), 0.05);
    }
}

/// IAPWS-95.
#[test]
fn water_boils_where_iapws_95_says() {
    for case in cases("water_boiling") {
        let boiling = fluid::boiling_point(case.number("p_abs_pa"));
        case.within("boiling", in_celsius(boiling), case.number("t_sat_c"), 0.01);
        let checked = glycol::boiling_point(Fluid::Water, Dimension::from_si(case.number("p_abs_pa"))).unwrap();
        case.within("both functions", checked.si(), boiling.si(), 1e-5);
    }
}
