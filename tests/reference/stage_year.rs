//! The year of a whole project: against the monthly correlation, against steps of five seconds, and laws that any
//! project obeys.

use std::path::Path;

use proptest::prelude::*;
use sunharp::project::store::RealDisk;
use sunharp::stage::Solution;
use sunharp::stage::plumbing::year::{hours, pictures, plant};
use sunharp::units::System;
use sunharp::workbook::Workbook;
use sunharp::year::Auxiliary;

use super::year::plain;
use crate::support::{si, value, verdict, workbook};

/// Two panels on a glycol loop under the weather that the program carries; `MORE` stands for more plumbing.
const PROJECT: &str = concat!(
    include_str!("../support/two-panels.toml"),
    r#"[plumbing]
loop = "glycol"
glycol = "40 %"
exchanger_effectiveness = "50 %"
flow_per_area = "1.2 L/min/m2"
pipe = "3/4 in type M"
pipe_length = "20 m"
tank = "300 L"
tank_limit = "80 °C"
people = 4
per_person = "60 L"
tap = "50 °C"
MORE
[panel.A]
[panel.B]
"#
);

fn with(more: &str) -> Workbook {
    workbook(&PROJECT.replace("MORE", more))
}

fn near(got: f64, wanted: f64, relative: f64) {
    assert!((got - wanted).abs() <= relative * wanted.abs(), "{got} is not {wanted} within {relative}");
}

/// The samples as they lie beside the program.
fn sample(name: &str) -> Workbook {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-projects").join(name);
    Workbook::open(std::sync::Arc::new(RealDisk), &path, jiff::civil::date(2026, 6, 1)).unwrap()
}

/// Klein, Beckman & Duffie 1976 was fitted to simulations of two-tank plants; the reference plant of this kind lies
/// 0.023 from it.
#[test]
fn a_two_tank_plant_agrees_with_the_monthly_correlation() {
    let book = with("");
    let (simulated, correlated) =
        (si(&book, "plumbing.solar_fraction_year"), si(&book, "plumbing.correlation_fraction"));
    assert!((simulated - correlated).abs() < 0.06, "{simulated} beside {correlated}");
    assert_eq!(verdict(&book, "plumbing.correlation"), "clear");
}

/// An element at mid-height of a single tank reads some 0.2 below the correlation (reference years).
#[test]
fn a_heater_in_the_tank_is_named_as_the_reason() {
    let book = with("auxiliary = \"element\"\nelement_depth = \"50 %\"");
    assert!(si(&book, "plumbing.correlation_difference") < -0.10);
    assert_eq!(verdict(&book, "plumbing.correlation"), "caution");
    let judged = book.evaluation().verdict("plumbing.correlation").unwrap();
    let part = judged.judgement.as_ref().unwrap().part.as_deref().unwrap();
    assert!(part.contains("heater in the tank"), "{part}");
}

#[test]
fn days_away_take_their_load_and_nothing_else() {
    let (at_home, away) = (with(""), with("[plumbing.away.winter]\nfrom = 2026-12-20\ndays = 20"));
    let load = |book: &Workbook, month: u32| si(book, &format!("plumbing.load_month.{month}"));
    near(load(&away, 12), load(&at_home, 12) * 19.0 / 31.0, 1e-12);
    near(load(&away, 1), load(&at_home, 1) * 23.0 / 31.0, 1e-12);
    near(load(&away, 6), load(&at_home, 6), 1e-12);
    assert!(si(&away, "plumbing.auxiliary_month.1") < si(&at_home, "plumbing.auxiliary_month.1"));
}

/// The same water at noon is caught by a small tank, at midnight it is not.
#[test]
fn the_builders_own_day_counts() {
    let drawn_at = |hour: u32| {
        let own = format!("draw_profile = \"own\"\n[plumbing.draw.{hour}]\nshare = \"100 %\"");
        si(&with(&own), "plumbing.solar_fraction_year")
    };
    assert!(drawn_at(18) > drawn_at(6) + 0.005);
    let none = with("draw_profile = \"own\"");
    assert!(value(&none, "plumbing.solar_fraction_year").unwrap_err().contains("plumbing.draw.1.share"));
}

/// Without weather there is no year; mean days have no hottest hour and no worst week.
#[test]
fn what_the_weather_cannot_tell_stays_unknown() {
    let text = PROJECT.replace("MORE", "");
    let clear = workbook(&text.replace("weather_file = \"carried:greensboro-tmy3\"\n", ""));
    assert!(value(&clear, "plumbing.solar_fraction_year").unwrap_err().contains("a clear sky is no weather"));
    let sun = [2.4, 3.2, 4.2, 5.2, 5.7, 6.1, 5.9, 5.3, 4.5, 3.6, 2.6, 2.1];
    let air = [3, 5, 10, 15, 19, 23, 25, 24, 21, 15, 10, 5];
    let month =
        |at: usize| format!("[site.monthly.{}]\nsun = \"{} kWh/m2\"\nair = \"{} °C\"\n", at + 1, sun[at], air[at]);
    let months = (0..12).map(month).collect::<Vec<_>>().concat();
    let means = text.replace("weather_file = \"carried:greensboro-tmy3\"\n", "");
    let means = workbook(&means.replace("[absorber]\n", &format!("{months}[absorber]\n")));
    let (whole, file) = (si(&means, "plumbing.solar_fraction_year"), si(&with(""), "plumbing.solar_fraction_year"));
    assert!((whole - file).abs() < 0.15, "{whole} beside {file}");
    assert!(value(&means, "plumbing.tank_peak").unwrap_err().contains("weather file"));
    assert!(value(&means, "plumbing.worst_week").unwrap_err().contains("weather file"));
    let basis = value(&means, "plumbing.year_basis").unwrap().text(System::Si);
    assert!(basis.contains("mean days"), "{basis}");
}

/// 65 °C is the limit; the pump stops there, an element never goes so high.
#[test]
fn the_limit_holds_the_tank_of_a_large_field() {
    let text = PROJECT.replace("MORE", "").replace("people = 4", "people = 1").replace("80 °C", "65 °C");
    let book = workbook(&text);
    let peak = si(&book, "plumbing.tank_peak") - 273.15;
    assert!((64.9..65.5).contains(&peak), "{peak}");
    assert!(si(&book, "plumbing.stagnation_hours") > 50.0);
    let months = (1..=12).map(|month| si(&book, &format!("plumbing.tank_peak_month.{month}")));
    near(months.fold(0.0, f64::max), peak + 273.15, 1e-12);
}

/// A whole year of each sample by steps of 5 s, without midpoint or located switching, written apart (`plain`): every
/// energy within 0.5 % of the load.
#[test]
fn the_samples_agree_with_steps_of_five_seconds() {
    for name in ["garden-washroom.toml", "harbour-laundry.toml", "boatyard-shower.toml"] {
        let book = sample(name);
        let drawn: &Solution = &book.evaluation().drawn;
        let Ok(plant) = plant::plant(drawn) else { continue };
        let hours = hours::hours(drawn).unwrap();
        let got = sunharp::year::simulate(&plant, &hours, &|| false).unwrap().year;
        let plain = plain::run(&plant, &hours, 5.0);
        for (what, got, want) in [
            ("load", got.load(), plain.load),
            ("drawn", got.drawn(), plain.drawn),
            ("auxiliary", got.auxiliary(), plain.auxiliary),
            ("shortage", got.shortage(), plain.shortage),
            ("into tank", got.into_tank(), plain.into_tank),
            ("tank loss", got.tank_loss(), plain.tank_loss),
            ("pipe loss", got.pipe_loss(), plain.pipe_loss),
        ] {
            let off = (got.value - want).abs() / plain.load;
            assert!(off < 0.005, "{name} {what}: {} beside {want}, {off} of the load", got.value);
        }
    }
}

/// A fortnight without draw fills the tank to its limit and leaves the plate to the sun: hotter than boiling, not hotter
/// than the plate that judges every material (its sun and air are the worse ones).
#[test]
fn an_empty_house_fills_the_tank_and_leaves_the_plate_to_the_sun() {
    let book = with("");
    let (plate, tank) = (si(&book, "plumbing.empty_plate"), si(&book, "plumbing.empty_tank"));
    assert!((79.9..80.5).contains(&(tank - 273.15)), "{tank}");
    assert!(plate > 393.15 && plate < si(&book, "absorber.stagnation_worst") + 1.0, "{plate}");
    assert!(si(&book, "plumbing.empty_hours") > 40.0);
}

/// No panel warms faster than without any loss, by all the sun there is: C (100 °C − T)/(A 1100 W/m²), T at the cut.
#[test]
fn after_a_power_cut_the_plate_boils_no_sooner_than_the_sun_allows() {
    let book = with("");
    let drawn: &Solution = &book.evaluation().drawn;
    let plant = plant::for_worst(drawn, plant::Extreme::Hot).unwrap();
    let cut = &drawn.studies.worst_days.as_ref().unwrap().cut;
    let noon = cut.moments.iter().find(|now| now.seconds >= 43_200.0).unwrap();
    let least = plant.collector.capacity.value * (373.15 - noon.plate) / (plant.collector.area.value * 1100.0);
    let found = si(&book, "plumbing.cut_time");
    assert!(found > least && found < 10.0 * least, "{found} s beside {least} s");
    assert!(si(&book, "plumbing.cut_plate") > 373.15);
    assert_eq!(cut.moments.len(), 24 * 60);
}

/// Radiation to the sky takes a still plate below the air, its own heat keeps it above the steady balance.
#[test]
fn the_coldest_night_takes_the_plate_below_the_air() {
    let book = with("");
    let drawn: &Solution = &book.evaluation().drawn;
    let (_, night) = drawn.studies.worst_days.as_ref().unwrap().night.as_ref().unwrap();
    let air = night.moments.iter().map(|now| now.air).fold(f64::INFINITY, f64::min);
    let plate = si(&book, "plumbing.night_plate");
    let steady = drawn.site.frost.as_ref().unwrap().coldest_plate.value;
    assert!(plate < air && plate >= steady - 1e-6, "{plate}, air {air}, steady {steady}");
    assert!(si(&book, "plumbing.night_hours") > 6.0);
}

/// A row of the table is the project with that one entry typed.
#[test]
fn one_step_away_is_the_project_so_changed() {
    let book = with("");
    let row = |words: &str| {
        let named = |key: &u32| value(&book, &format!("plumbing.choice.{key}")).unwrap().text(System::Si) == words;
        let key = (1..=12).find(named).unwrap_or_else(|| panic!("no row {words}"));
        si(&book, &format!("plumbing.choice_share.{key}"))
    };
    let share = |text: &str| si(&workbook(text), "plumbing.solar_fraction_year");
    let text = PROJECT.replace("MORE", "");
    near(row("tank × 1.25"), share(&text.replace("300 L", "375 L")), 1e-9);
    near(row("tilt 50°"), share(&text.replace("tilt = \"40°\"", "tilt = \"50°\"")), 1e-9);
    near(row("3 panels"), share(&format!("{text}[panel.C]\n")), 1e-9);
    near(row("pipe 1 in type M"), share(&text.replace("3/4 in type M", "1 in type M")), 1e-9);
    near(row("exchanger 60 %"), share(&text.replace("= \"50 %\"", "= \"60 %\"")), 1e-9);
    assert!(row("3 panels") > row("1 panel"));
}

/// Sun, heater and lack stand on each other up to what is wanted.
#[test]
fn the_bars_of_a_month_reach_its_load() {
    let book = with("");
    let chart = pictures::months(&book.evaluation().drawn).unwrap();
    let heads = &chart.bars.last().unwrap().bars;
    for ((_, _, head), (_, wanted)) in heads.iter().zip(&chart.lines[0].points) {
        near(*head, *wanted, 1e-9);
    }
}

/// Projects that differ in everything the year reads of the plumbing.
fn projects() -> impl Strategy<Value = String> {
    let loops = prop_oneof![
        Just("loop = \"glycol\"\nglycol = \"40 %\"\nexchanger_effectiveness = \"50 %\""),
        Just("loop = \"glycol\"\nglycol = \"40 %\"\nexchanger_effectiveness = \"70 %\"\nexchanger_type = \"plate\""),
        Just("loop = \"drainback\""),
        Just("loop = \"drainback\"\nexchanger_effectiveness = \"60 %\""),
        Just("loop = \"direct\""),
        Just("loop = \"thermosiphon\""),
    ];
    let heaters = prop_oneof![Just("none"), Just("inline"), Just("element")];
    let profiles = prop_oneof![Just("dwelling"), Just("combined"), Just("even")];
    let numbers = (1..=12_usize, 80..900_u32, 45..95_u32, 1..14_usize, 0..60_u32, 1..=4_usize);
    (loops, heaters, profiles, numbers).prop_map(|(loops, heater, profile, numbers)| {
        let (layers, tank, limit, people, insulation, panels) = numbers;
        let text = PROJECT
            .replace("loop = \"glycol\"\nglycol = \"40 %\"\nexchanger_effectiveness = \"50 %\"", loops)
            .replace("300 L", &format!("{tank} L"))
            .replace("80 °C", &format!("{limit} °C"))
            .replace("people = 4", &format!("people = {people}"));
        let more = format!(
            "tank_layers = {layers}\ntank_insulation = \"{insulation} mm\"\nauxiliary = \"{heater}\"\n\
             draw_profile = \"{profile}\"\npipe_insulation = \"{insulation} mm\""
        );
        let rest = ["[panel.B]\n", "[panel.C]\n", "[panel.D]\n"][..panels - 1].concat();
        text.replace("MORE", &more).replace("[panel.B]\n", &rest)
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    /// Heat stored in the layers at both ends against what was booked, and the load against what covers it.
    #[test]
    fn energy_closes_in_the_year_of_any_project(text in projects()) {
        let book = workbook(&text);
        let drawn: &Solution = &book.evaluation().drawn;
        let year = drawn.studies.year.as_ref().unwrap();
        prop_assert!(year.outcome.tank_residual < 1e-9, "{}", year.outcome.tank_residual);
        prop_assert!(year.outcome.collector_residual < 1e-9, "{}", year.outcome.collector_residual);
        let whole = &year.outcome.year;
        if plant::plant(drawn).unwrap().auxiliary == Auxiliary::Inline {
            let given = whole.drawn() + whole.auxiliary() + whole.shortage();
            prop_assert!((given - whole.load()).value.abs() <= 1e-9 * whole.load().value);
        }
        let months: f64 = (1..=12).map(|month| si(&book, &format!("plumbing.delivered_month.{month}"))).sum();
        prop_assert!((months - si(&book, "plumbing.delivered_year")).abs() < 1e-9 * whole.load().value);
    }
}

/// Without an effectiveness of its own the loop goes by its coil: 1 − e^(−UA/C), the same figure that stands beside it.
#[test]
fn a_coil_that_is_drawn_feeds_the_year_where_no_effectiveness_is_entered() {
    let entered = "exchanger_effectiveness = \"50 %\"";
    let coil = "coil_tube = \"3/4 in type M\"\ncoil_length = \"12 m\"";
    let drawn = workbook(&PROJECT.replace(entered, coil).replace("MORE", ""));
    assert!((si(&drawn, "plumbing.exchanger_used") - si(&drawn, "plumbing.exchanger_computed")).abs() < 1e-12);
    assert!(si(&drawn, "plumbing.solar_fraction_year") > 0.0);
    assert!((si(&with(""), "plumbing.exchanger_used") - 0.5).abs() < 1e-12);
}

/// What is entered as metered counts; else the pump's own energy of the simulated year.
#[test]
fn the_pumps_electricity_is_metered_or_simulated() {
    let simulated = with("");
    assert!((si(&simulated, "plumbing.electricity_year") - si(&simulated, "plumbing.pump_energy")).abs() < 1e-6);
    let metered = with("pump_year = \"60 kWh\"");
    assert!((si(&metered, "plumbing.electricity_year") - 60.0 * 3.6e6).abs() < 1e-6);
}

/// The relief valve is the ceiling by day; at night the liquid shrinks below what it stands at in the heat.
#[test]
fn the_worst_days_press_the_loop_no_further_than_its_relief_valve() {
    let mut harbour = sample("harbour-laundry.toml");
    harbour.run_studies();
    let of = |id: &str| si(&harbour, id);
    let relief = of("plumbing.relief_setting");
    for id in ["plumbing.empty_pressure", "plumbing.cut_pressure"] {
        assert!(of(id) <= relief + 1e-6 && of(id) > of("plumbing.night_pressure"), "{id}: {}", of(id));
    }
    // The reserve keeps the top of the loop over the air's pressure in the coldest night, as the vessel rule wants it.
    assert!(of("plumbing.night_pressure") > 0.0);
    let drains = sample("garden-washroom.toml");
    assert!(value(&drains, "plumbing.cut_pressure").is_err());
}
