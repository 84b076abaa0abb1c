//! The bench of the absorber: log of joints, sheet and leftovers, what panels took, readings against the drawing, bad
//! entries. By arithmetic unless a source is named.

use sunharp::model::{Address, PanelLetter, Value, Verdict, Why};
use sunharp::project::Project;
use sunharp::stage;

use crate::support::{Bench, SMALL};

fn with_rows(rows: &str) -> Bench {
    Bench::of(&SMALL.replace("[enclosure]\n", &format!("{rows}\n[enclosure]\n")))
}

fn words(bench: &Bench, id: &str) -> String {
    match bench.evaluate().value(&Address::drawn(id)) {
        Ok(Value::Text(text)) => text,
        other => panic!("{id}: {other:?}"),
    }
}

fn count(bench: &Bench, id: &str) -> usize {
    bench.evaluate().value(&Address::drawn(id)).unwrap().quantity().unwrap().si.round() as usize
}

const LOG: &str = r#"
[absorber.joint_log.A-lower-4]
panel = "A"
date = 2026-04-26
by = "Tomas"
alloy = "BCuP-5"
flux = "none"
looked = "yes"
tested = "yes"
reworked = 1

[absorber.joint_log.A-upper-4]
panel = "A"
date = 2026-04-26
by = "Ines"
alloy = "BCuP-2"
looked = "yes"
tested = "no"
"#;

#[test]
fn a_leaking_joint_leads_to_day_hand_and_filler() {
    let bench = with_rows(LOG);
    let line = words(&bench, "absorber.joint_line.1");
    assert_eq!(line, "A-lower-4: panel A, 2026-04-26, Tomas, BCuP-5, flux none, looked at, tested, reworked 1×");
    assert!(words(&bench, "absorber.joint_line.2").ends_with("looked at, not tested"));
    assert_eq!(
        ["logged", "looked", "tested", "reworked"].map(|word| count(&bench, &format!("absorber.joints_{word}"))),
        [2, 2, 1, 1]
    );
    assert_eq!(bench.verdict("absorber.joint-log"), Verdict::Caution);
    assert_eq!(Bench::small().verdict("absorber.joint-log"), Verdict::Unknown);
}

/// Strips of 906/9 = 100.67 mm, 1812.03 mm long between tees of 20 + 12.7 mm: 9 across a metre of width, on sheets of 1 m two lengths of
/// (1812.03 − 2)/2 = 905.0 mm.
#[test]
fn strips_are_laid_on_the_sheets_at_hand_and_in_lengths_where_those_are_short() {
    let long = with_rows("[absorber.sheet_stock.long]\nwidth = \"1 m\"\nlength = \"2 m\"\n");
    assert_eq!(words(&long, "absorber.sheet_layout"), "long: 1 sheet, 9 across × 1 along each");
    assert!((long.number("absorber.sheet_waste") - (1.0 - 9.0 * 0.1007 * 1.8120 / 2.0)).abs() < 1e-3);
    let short = with_rows("[absorber.sheet_stock.short]\nwidth = \"1 m\"\nlength = \"1 m\"\n");
    assert_eq!((count(&short, "absorber.sheet_segments"), count(&short, "absorber.sheets_wanted")), (2, 2));
    assert!((short.number("absorber.sheet_piece_length") - 0.9050).abs() < 1e-4);
    let few = with_rows("[absorber.sheet_stock.short]\nwidth = \"1 m\"\nlength = \"1 m\"\ncount = 1\n");
    let why = few.evaluate().value(&Address::drawn("absorber.sheets_wanted")).unwrap_err();
    assert!(matches!(why, Why::OutOfRange(_)), "{why}");
}

/// Ten ounces a square foot of copper are 0.0135 in (copper development tables; here 0.34 mm, 13.4 mil, by its density).
#[test]
fn the_gauge_of_the_sheet_reads_in_every_unit_of_the_trade() {
    let text = words(&Bench::small(), "absorber.sheet_gauge");
    assert!(text.ends_with("10.0 oz/ft²") && text.contains("13.4 mil"), "{text}");
}

/// What panel A took foretells B and C: 2 × 0.5 kg, of which 0.3 kg lie in the shop.
#[test]
fn what_the_first_panel_took_foretells_the_others() {
    let panels = Bench::of(&format!("{SMALL}\n[panel.B]\n\n[panel.C]\n"));
    let reckoned = panels.number("absorber.solder_mass");
    assert!((panels.number("absorber.solder_left") - 3.0 * reckoned).abs() < 1e-9);
    assert!((panels.number("absorber.hours_left") - 3.0 * panels.number("absorber.hours_estimate")).abs() < 1e-6);
    let after = panels
        .reading("absorber.solder_used@A", "0.5 kg")
        .reading("absorber.hours_used@A", "20 h")
        .with("absorber.solder_at_hand", "0.3 kg");
    assert!((after.number("absorber.solder_each") - 0.5).abs() < 1e-12);
    assert!((after.number("absorber.solder_left") - 1.0).abs() < 1e-12);
    assert!((after.number("absorber.solder_to_buy") - 0.7).abs() < 1e-12);
    assert!((after.number("absorber.hours_left") - 40.0 * 3600.0).abs() < 1e-6);
    let plenty = after.with("absorber.solder_at_hand", "5 kg");
    assert!(plenty.number("absorber.solder_to_buy").abs() < 1e-12);
}

/// Three panels by the log alone. A is done: 1 + 1.5 + 4 + 3.5 + 6 = 16 h (a tee harp has no holes). B has its cuts and
/// joints: 2 + 5 h. One more harp is foretold by A; what remains is 16 − 7 for B and 16 for C.
#[test]
fn the_builders_own_log_foretells_the_hours_of_the_other_panels() {
    let hours = |number: usize, step: &str, hours: f64| {
        format!("[log.2026-04-1{number}-1]\nsort = \"hours\"\nof = \"{step}\"\ntime = \"{hours} h\"\nby = \"Ines\"\n\n")
    };
    let panels = format!("{SMALL}\n[panel.B]\n\n[panel.C]\n\n");
    let under_way =
        [hours(0, "absorber.cut-risers@A", 1.5), hours(1, "absorber.join@A", 4.0), hours(2, "absorber.dry-fit@A", 1.0)];
    let begun = Bench::of(&format!("{panels}{}", under_way.concat()));
    // Cuts and joints by the log, the line and the rest by the piece: nine lines of 1.81203 m between the tees at 8 min,
    // 8 h.
    let expected = 1.5 + 4.0 + 9.0 * 1.812_025 * 8.0 / 60.0 + 8.0;
    assert!((begun.number("absorber.hours_each") / 3600.0 - expected).abs() < 1e-6);
    let rest = [
        hours(3, "absorber.solder-sheet@A", 3.5),
        hours(4, "absorber.blacken@A", 6.0),
        hours(5, "absorber.cut-risers@B", 2.0),
        hours(6, "absorber.join@B", 5.0),
    ];
    let done = Bench::of(&format!("{panels}{}{}", under_way.concat(), rest.concat()));
    let in_hours = |id: &str| done.number(id) / 3600.0;
    assert!((in_hours("absorber.hours_logged") - 23.0).abs() < 1e-9);
    assert!((in_hours("absorber.hours_each") - 16.0).abs() < 1e-9);
    assert!((in_hours("absorber.hours_left") - 25.0).abs() < 1e-9);
    // A reading of the whole harp counts before its log.
    let read = done.clone().reading("absorber.hours_used@A", "20 h");
    assert!((read.number("absorber.hours_each") / 3600.0 - 20.0).abs() < 1e-9);
    assert!((read.number("absorber.hours_left") / 3600.0 - (13.0 + 20.0)).abs() < 1e-9);
}

/// Bare gap of 18 riser cups of 5/8 × 1/2 in and 36 header cups of 1 1/8 × 0.91 in (copper handbook, table of solder
/// requirements) with 0.1 mm, doubled.
#[test]
fn filler_of_tees_is_that_of_all_three_cups() {
    let inch = 0.0254_f64;
    let bare = std::f64::consts::PI * 1e-4 * inch * inch * (18.0 * 0.625 * 0.5 + 36.0 * 1.125 * 0.91);
    let bench = Bench::small();
    assert!((bench.number("absorber.filler_volume") / (2.0 * bare) - 1.0).abs() < 1e-6);
    assert!((bench.number("absorber.filler_mass") / (2.0 * bare * 8000.0) - 1.0).abs() < 1e-6);
    assert_eq!(count(&bench, "absorber.filler_joints"), 54);
}

/// With prices the plan is the cheapest and not the shortest: one coil of 30 m at 300 against five bars of 6 m at 40.
#[test]
fn priced_stock_is_cut_at_the_least_price() {
    let stock = |coil: &str, bar: &str| {
        with_rows(&format!(
            "[absorber.riser_stock.bar]\nlength = \"6 m\"\n{bar}\n[absorber.riser_stock.coil]\nlength = \"30 m\"\n{coil}\n"
        ))
    };
    let dear = stock("price = 300", "price = 40");
    assert_eq!(count(&dear, "absorber.riser_bars"), 3);
    assert!((dear.number("absorber.riser_plan_price") - 120.0).abs() < 1e-9);
    assert_eq!(count(&stock("price = 100", "price = 40"), "absorber.riser_bars"), 1);
    let half = stock("price = 100", "").evaluate();
    assert!(half.value(&Address::drawn("absorber.riser_bars")).is_err());
}

/// Three bars of 6 m give nine risers of 1.837 m: 6000 − 20 − 3 × 1837.425 = 467.7 mm are left of each, 4 × 100 mm.
#[test]
fn leftovers_are_listed_and_tell_what_they_still_give() {
    let bench = with_rows("[absorber.riser_stock.bar]\nlength = \"6 m\"\n").with("absorber.leftover_piece", "100 mm");
    for key in 1..=3 {
        assert!((bench.number(&format!("absorber.riser_offcut.{key}")) - 0.4677).abs() < 2e-4);
    }
    assert_eq!(count(&bench, "absorber.leftover_pieces"), 12);
}

/// A pitch that drifted by 3 mm widens the fins: they and the output fall, the sheet stays as it was cut.
#[test]
fn a_drifted_pitch_shows_its_cost_beside_the_drawing() {
    let built = Bench::small().reading("absorber.riser_pitch@A", "103 mm").evaluate();
    let on_a = |id: &str| {
        let value = built.value(&Address::on(id, PanelLetter::new('A').unwrap())).unwrap();
        value.quantity().unwrap().si
    };
    assert!((on_a("absorber.pitch_drift") - 0.003).abs() < 1e-9);
    let fin = on_a("absorber.fin_change");
    assert!((-0.02..-0.001).contains(&fin), "{fin}");
    assert!((on_a("absorber.sheet_across") - 0.906).abs() < 1e-9);
    assert!(on_a("absorber.output_change").abs() < 0.02);
    assert_eq!(built.verdict("absorber.as-built").unwrap().verdict, Verdict::Caution);
    let close = Bench::small().reading("absorber.riser_pitch@A", "100.4 mm");
    assert_eq!(close.verdict("absorber.as-built"), Verdict::Clear);
}

#[test]
fn half_a_bond_and_thin_sheet_cost_output_and_are_named() {
    let built = Bench::small().reading("absorber.bond_length@A", "5 %").reading("absorber.sheet_thickness@A", "0.2 mm");
    assert_eq!(built.verdict("absorber.as-built"), Verdict::Caution);
    let evaluation = built.evaluate();
    let change = evaluation.value(&Address::on("absorber.output_change", PanelLetter::new('A').unwrap())).unwrap();
    assert!(change.quantity().unwrap().si < -0.01);
}

/// 15 mm tube, fillet 6 mm, film 0.1 mm, k 60 W/(m·K): 1730 W/(m·K) (case computed with an independent script); here
/// 15.88 mm tube and k 55.
#[test]
fn a_fillet_conducts_far_more_than_its_film_alone() {
    let film = Bench::small().with("absorber.bond_film", "0.3 mm");
    let fillet = film.clone().with("absorber.bond_law", "fillet");
    let conductance = |bench: &Bench| bench.number("absorber.bond_conductance");
    assert!((conductance(&film) - 55.0 * 0.006 * 0.95 / 0.0003).abs() < 1e-6);
    assert!(conductance(&fillet) < conductance(&film));
    let thin = fillet.with("absorber.bond_film", "0.1 mm");
    let expected = 1730.0 * 55.0 / 60.0 * 0.95;
    assert!((conductance(&thin) / expected - 1.0).abs() < 0.05, "{}", conductance(&thin));
}

/// Table of the collector notes: a bare black plate loses η₀ with the wind; its stagnation lies near 100 °C, not 140.
#[test]
fn a_bare_plate_hangs_on_the_wind() {
    let bare = Bench::small().with("absorber.glazing", "none");
    assert!(bare.number("absorber.useful_power_windy") < 0.8 * bare.number("absorber.useful_power_calm"));
    assert!(bare.number("absorber.stagnation_standard") < 110.0);
    assert_eq!(bare.verdict("absorber.bare-plate"), Verdict::Caution);
    assert_eq!(Bench::small().verdict("absorber.bare-plate"), Verdict::Clear);
}

#[test]
fn an_old_coating_gives_less_and_never_lowers_the_figure_that_judges() {
    let new = Bench::small();
    assert!(new.number("absorber.useful_power_aged") < new.number("absorber.useful_power"));
    let old = new.clone().with("absorber.absorptance_loss", "20 %");
    assert!((old.number("absorber.stagnation_worst") - new.number("absorber.stagnation_worst")).abs() < 1e-9);
    assert_eq!(old.verdict("absorber.ageing"), Verdict::Caution);
}

/// The lower of two tables counts: 300 psi at 121 °C, 270 at 177 for brazed joints to 1 in (ASME B31.9, verified page).
#[test]
fn joints_are_rated_by_temperature_and_refused_above_it() {
    let psi = 6894.757;
    let brazed = Bench::small();
    let rated = brazed.number("absorber.joint_rating") / psi;
    assert!((270.0..300.0).contains(&rated), "{rated}");
    assert_eq!(brazed.verdict("absorber.joint-rating"), Verdict::Clear);
    let soldered = brazed.with("absorber.header_filler", "soldered").with("absorber.header_alloy", "Sn95Sb5");
    assert_eq!(soldered.verdict("absorber.joint-rating"), Verdict::Stop);
}

#[test]
fn paint_metals_and_fin_are_judged() {
    let bench = Bench::small();
    assert_eq!(bench.verdict("absorber.paint-cure"), Verdict::Unknown);
    for (cure, verdict) in [("190 °C", Verdict::Clear), ("195 °C", Verdict::Caution), ("205 °C", Verdict::Stop)] {
        assert_eq!(bench.clone().with("absorber.paint_cure", cure).verdict("absorber.paint-cure"), verdict, "{cure}");
    }
    assert_eq!(bench.verdict("absorber.mixed-metals"), Verdict::Clear);
    let aluminium = bench.clone().with("absorber.sheet_metal", "aluminium 1100");
    assert_eq!(aluminium.verdict("absorber.mixed-metals"), Verdict::Caution);
    assert_eq!(bench.verdict("absorber.fin-sense"), Verdict::Clear);
    assert_eq!(bench.with("absorber.sheet_thickness", "0.1 mm").verdict("absorber.fin-sense"), Verdict::Caution);
}

/// Every figure is a finite number, words, or a reason; and the harp's own check stops with the reason.
fn stops_with_a_reason(bench: &Bench, reason: &str) {
    let evaluation = bench.evaluate();
    for row in evaluation.rows() {
        if let Ok(value) = &row.value {
            assert!(value.quantity().is_none_or(|quantity| quantity.si.is_finite()), "{}", row.address);
        }
    }
    for judged in &evaluation.verdicts {
        if let Ok(judgement) = &judged.judgement {
            let numbers = [judgement.found, judgement.limit, judgement.margin];
            assert!(numbers.into_iter().flatten().all(|number| number.si.is_finite()), "{}", judged.check.id);
        }
    }
    assert_eq!(bench.verdict("absorber.possible"), Verdict::Stop);
    let part = bench.part("absorber.possible");
    assert!(part.contains(reason), "{part}");
}

#[test]
fn sizes_that_contradict_each_other_are_a_stop_with_the_reason() {
    let bench = Bench::small();
    let wide = bench.clone().with("absorber.riser_tube", "1 in type K").with("absorber.header_tube", "2 in type K");
    stops_with_a_reason(&wide.with("absorber.riser_pitch", "20 mm"), "riser pitch");
    stops_with_a_reason(&bench.clone().with("absorber.header_tube", "3/8 in type L"), "header's bore");
    let narrow = bench.clone().with("absorber.sheet_width", "500 mm").with("absorber.riser_pitch", "100 mm");
    stops_with_a_reason(&narrow, "beyond the sheet");
    stops_with_a_reason(&bench.clone().with("absorber.header_spacing", "25 mm"), "header spacing");
    assert_eq!(Bench::small().verdict("absorber.possible"), Verdict::Clear);
}

/// A negative gap and a tilt above 90° cannot be read; what needs them stops and names them.
#[test]
fn impossible_numbers_are_refused_where_they_stand_and_stop_what_needs_them() {
    for (id, typed, was) in [
        ("enclosure.air_gap", "air_gap = \"-5 mm\"", "air_gap = \"25 mm\""),
        ("site.tilt", "tilt = \"95°\"", "tilt = \"45°\""),
    ] {
        let project = Project::read(&SMALL.replace(was, typed));
        assert!(!project.problems.is_empty(), "{id}");
        stops_with_a_reason(&Bench::damaged(&SMALL.replace(was, typed)), id);
        assert!(stage::entry(id).is_some());
    }
}

/// Widest headers share the flow evenly: the penalty falls towards nothing as they grow.
#[test]
fn huge_headers_give_even_flow() {
    let penalty = |header: &str| Bench::small().with("absorber.header_tube", header).number("absorber.flow_ratio");
    let (narrow, wide) = (penalty("3/4 in type L"), penalty("3 in type K"));
    assert!(wide < narrow && wide < 1.05, "{narrow} {wide}");
}
