//! Money and carbon of a project against the textbook sums, done by hand from the figures of the year.

use super::close as near;
use crate::support::{si, value, workbook};
use sunharp::stage::plumbing::year::from_sun;
use sunharp::units::si::Dimension;
use sunharp::workbook::sample;

const KILOWATT_HOUR: f64 = 3.6e6;

const MONEY: &str = r#"
heater_efficiency = 0.8
heater_standby = "300 kWh"
pump_year = "60 kWh"
energy_price = 0.15
price_rise_low = 0
price_rise_high = 0.04
discount = "3 %"
inflation = "2 %"
maintenance = 20
lifetime = 20
carbon_factor = 0.2
hours_logged = "200 h"
"#;

/// What caps, rack and links need to be counted.
const RACK: &str = r#"
cap_metal = "copper, silver solder"
cap_screw_spacing = "8 in"
mount_kind = "roof rack"
mount_spacing = "4 ft"
panel_gap = "6 in"
lag_diameter = "5/16 in"
lag_length = "4 in"
link_hose = "corrugated stainless (CSST, EPDM seals)"
"#;

/// The sample with money; every line of its bill priced at 10 a piece, with pieces large enough to be one each.
fn priced(with_prices: bool) -> sunharp::workbook::Workbook {
    let text = sample::TEXT.replacen("[plumbing]\n", &format!("[plumbing]{MONEY}"), 1);
    let text = text.replacen("format = 1\n", "", 1).replacen("[enclosure]\n", &format!("[enclosure]{RACK}"), 1);
    let plain = workbook(&text);
    if !with_prices {
        return plain;
    }
    let keys: Vec<String> = plain.evaluation().drawn.bill.lines.iter().map(|line| line.key.clone()).collect();
    let size =
        "length = \"400 m\"\nwidth = \"15 m\"\nmass = \"4000 kg\"\nvolume = \"9 m3\"\npieces = 100000\nprice = 10";
    let tables: Vec<String> = keys.iter().map(|key| format!("\n[materials.{key}]\n{size}\n")).collect();
    workbook(&format!("{text}{}", tables.concat()))
}

fn number(workbook: &sunharp::workbook::Workbook, id: &str) -> f64 {
    si(workbook, id)
}

/// PWF(n, i, d) = [1 − ((1+i)/(1+d))ⁿ]/(d − i) (Duffie & Beckman ch. 11, from memory), written out here.
fn factor(growth: f64, discount: f64) -> f64 {
    (1.0 - ((1.0 + growth) / (1.0 + discount)).powi(20)) / (discount - growth)
}

#[test]
fn saved_energy_and_carbon_are_the_balance_by_hand() {
    let workbook = priced(false);
    let year = workbook.evaluation().drawn.studies.year.clone().unwrap();
    let (load, sun) =
        (year.outcome.year.load().si() / KILOWATT_HOUR, from_sun(&year.outcome.year).si() / KILOWATT_HOUR);
    for (case, share) in [("poor", 0.8), ("likely", 1.0), ("good", 1.2)] {
        let saved = ((sun * share).min(load) + 300.0) / 0.8 - 60.0;
        near(number(&workbook, &format!("plumbing.saved_energy.{case}")) / KILOWATT_HOUR, saved, 1e-6);
        near(number(&workbook, &format!("plumbing.first_saving.{case}")), saved * 0.15, 1e-6);
        near(number(&workbook, &format!("plumbing.carbon_saved.{case}")), saved * 0.2, 1e-6);
    }
}

#[test]
fn worth_is_a_range_from_poor_to_good_by_the_textbook_factors() {
    let workbook = priced(true);
    let bill = &workbook.evaluation().drawn.bill;
    assert!(bill.open.is_empty(), "{:?}", bill.open);
    let cost = 10.0 * bill.lines.iter().map(|line| line.to_buy().unwrap() as f64).sum::<f64>();
    near(number(&workbook, "plumbing.money_cost"), cost, 1e-9);
    let mut last = f64::NEG_INFINITY;
    for (case, rise) in [("poor", 0.0), ("likely", 0.02), ("good", 0.04)] {
        let saving = number(&workbook, &format!("plumbing.first_saving.{case}"));
        let npv = saving * factor(rise, 0.03) - 20.0 * factor(0.02, 0.03) - cost;
        near(number(&workbook, &format!("plumbing.present_value.{case}")), npv, 1e-6);
        near(number(&workbook, &format!("plumbing.payback.{case}")), cost / (saving - 20.0), 1e-9);
        near(number(&workbook, &format!("plumbing.hour_value.{case}")), npv / 200.0, 1e-9);
        let kilowatt_hours = number(&workbook, &format!("plumbing.saved_energy.{case}")) / KILOWATT_HOUR;
        let levelised = (cost + 20.0 * factor(0.02, 0.03)) / (kilowatt_hours * factor(0.0, 0.03));
        near(number(&workbook, &format!("plumbing.levelised_cost.{case}")), levelised, 1e-9);
        assert!(npv > last, "{case}");
        last = npv;
    }
}

#[test]
fn without_prices_the_worth_is_unknown() {
    let workbook = priced(false);
    for id in ["plumbing.money_cost", "plumbing.payback.likely", "plumbing.present_value.poor"] {
        let why = value(&workbook, id).unwrap_err();
        assert!(why.contains("needs") && why.contains("materials."), "{id}: {why}");
    }
    near(number(&workbook, "plumbing.money_spent"), 0.0, 1e-12);
}
