//! Vessels, controls, draws, money and the monthly correlation against another code.

use super::{DATA, cases};
use serde_json::Value;
use sunharp::physics::differential_control::DifferentialControl;
use sunharp::physics::draw::{DrawProfile, MixingValve};
use sunharp::physics::economics::{Investment, carbon_saved};
use sunharp::physics::monthly_fraction::{HotWater, Month, monthly_fraction};
use sunharp::physics::{drainback, expansion_vessel, glycol};
use sunharp::units::si::{Dimension, celsius};

/// The planning manuals' formula with another code; 1 bar of air as the manuals take it.
#[test]
fn vessels_are_sized_by_the_planning_formula() {
    for case in cases("expansion_vessel") {
        let given = expansion_vessel::ClosedLoop {
            liquid: glycol::mixture(case.number("given.x_mass")).unwrap(),
            contents: case.litres("system_l"),
            panels: case.litres("collector_l"),
            steam_pipe: case.litres("steam_pipe_l"),
            cold: case.temperature("t_cold"),
            hot: case.temperature("t_hot"),
            static_height: case.given("static_height_m"),
            top_pressure: case.bar("top_margin_bar"),
            relief: case.bar("relief_bar_g"),
            atmosphere: Dimension::from_si(1e5),
        };
        let size = given.vessel().unwrap();
        case.near("expansion", size.expansion, case.expect("expansion_coeff"), 1e-3);
        case.near("growth", size.expansion_volume.si() * 1e3, case.expect("V_expansion"), 1e-3);
        case.near("vapour", size.vapour_volume.si() * 1e3, case.expect("V_vapour"), 1e-9);
        case.near("reserve", size.reserve.si() * 1e3, case.expect("V_reserve"), 1e-9);
        case.near("precharge", size.precharge.si() / 1e5, case.expect("p0_bar_g"), 1e-3);
        case.near("final pressure", size.final_pressure.si() / 1e5, case.expect("p_max_bar_g"), 1e-9);
        case.near("vessel", size.least_volume.si() * 1e3, case.expect("V_nominal_min_l"), 1e-3);
        case.near("cold fill", size.cold_fill.si() / 1e5, case.expect("p_fill_cold_bar_g"), 1e-3);
    }
}

/// Sum of its parts.
#[test]
fn a_reservoir_holds_what_drains_into_it() {
    for case in cases("drainback_reservoir") {
        let reservoir = drainback::Reservoir {
            panels: case.litres("collector_l"),
            pipe_above: case.litres("pipe_above_l"),
            margin: case.number("given.margin"),
            pump_cover: case.litres("pump_cover_l"),
        };
        case.near("volume", reservoir.least_volume().unwrap().si() * 1e3, case.expect("reservoir_l"), 1e-9);
    }
}

/// Duffie & Beckman 10.4 with another code.
#[test]
fn controllers_stay_on_below_the_limit() {
    for case in cases("controller") {
        let control = DifferentialControl {
            area: case.given("area"),
            loss: case.given("FRUL"),
            exchanged_rate: case.number("given.eps_C_min"),
            start: case.given("dT_on"),
            stop: case.given("dT_off"),
        };
        let limits = control.stability().unwrap();
        case.near("greatest stop", limits.greatest_stop.si(), case.expect("dT_off_max"), 1e-9);
        case.near("least start", limits.least_start.si(), case.expect("dT_on_min"), 1e-9);
        assert_eq!(Some(limits.stays_on), case.value["expect"]["stable"].as_bool());
    }
}

/// Duffie & Beckman ch. 11 with another code.
#[test]
fn money_is_discounted_as_the_textbook_does() {
    for case in cases("economics") {
        let investment = Investment {
            cost: case.number("given.cost"),
            saving: case.number("given.first_year_saving"),
            maintenance: case.number("given.first_year_maintenance"),
            fuel_escalation: case.number("given.fuel_escalation"),
            discount: case.number("given.discount"),
            inflation: case.number("given.general_inflation"),
            years: case.count("years"),
            saved_energy: Dimension::from_si(case.number("given.saved_kwh_year") * 3.6e6),
        };
        let worth = investment.worth().unwrap();
        case.near("payback", worth.simple_payback_years.unwrap(), case.expect("simple_payback_y"), 1e-9);
        case.near("fuel factor", worth.saving_factor, case.expect("pwf_fuel"), 1e-9);
        case.near("maintenance factor", worth.maintenance_factor, case.expect("pwf_maint"), 1e-9);
        case.near("net present value", worth.net_present_value, case.expect("npv"), 1e-9);
        let levelised = worth.levelised_cost_per_kwh.unwrap();
        case.near("levelised cost", levelised, case.expect("levelised_cost_per_kwh"), 1e-9);
        let carbon = carbon_saved(investment.saved_energy, case.number("given.kg_co2_per_kwh")).unwrap();
        case.near("carbon", carbon.si(), case.expect("co2_kg_year"), 1e-9);
    }
}

/// Klein, Beckman & Duffie 1976; inputs of the first two from memory of Duffie & Beckman ch. 20.
#[test]
fn the_monthly_correlation_gives_its_fractions() {
    for case in cases("monthly_correlation") {
        let optional = |key: &str| case.value["given"].get(key).and_then(Value::as_f64);
        let hot_water = case.value["given"].get("hw").map(|pair| HotWater {
            delivered: celsius(pair[0].as_f64().unwrap()),
            mains: celsius(pair[1].as_f64().unwrap()),
        });
        let month = Month {
            area: case.given("A"),
            optical_gain: case.number("given.frta"),
            loss: case.given("frul"),
            exchanger_factor: case.number("given.fr_ratio"),
            incidence_ratio: case.number("given.tau_ratio"),
            irradiation: Dimension::from_si(case.number("given.H_month")),
            air: case.temperature("ta_mean"),
            duration: case.given("secs"),
            load: case.given("load"),
            storage_litres_per_area: optional("m_store").unwrap_or(75.0),
            hot_water,
        };
        let got = monthly_fraction(&month).unwrap();
        case.near("X", got.loss_ratio, case.expect("X"), 1e-9);
        case.near("Y", got.gain_ratio, case.expect("Y"), 1e-9);
        case.near("f", got.fraction, case.expect("f"), 1e-9);
        assert_eq!(got.outside_range, []);
    }
}

/// Profiles as quoted in several public codes.
#[test]
fn draw_profiles_are_the_published_ones() {
    let all: Value = serde_json::from_str(DATA).unwrap();
    for (key, profile) in
        [("ashrae", DrawProfile::Dwelling), ("ba", DrawProfile::CombinedUses), ("flat", DrawProfile::Even)]
    {
        let want = all["draw_profiles"][key]["fractions"].as_array().unwrap();
        assert_eq!(want.len(), 24);
        for (got, want) in profile.fractions().iter().zip(want) {
            assert!((got - want.as_f64().unwrap()).abs() < 1e-12, "{key}");
        }
    }
}

/// Heat balance of the mixed water, 4.186 kJ/(L·K).
#[test]
fn a_mixing_valve_divides_the_water() {
    for case in cases("mixing_valve") {
        let valve = MixingValve {
            set: case.temperature("T_set"),
            mains: case.temperature("T_mains"),
            tank: case.temperature("T_top"),
        };
        let mixed = valve.mix().unwrap();
        let litres = case.number("given.mixed_litres");
        case.near("tank litres", mixed.tank_share * litres, case.expect("tank_litres"), 1e-9);
        case.near("auxiliary", mixed.shortfall.si() * litres * 4.186, case.expect("aux_kj"), 1e-9);
    }
}
