//! The shop floor of the absorber through the program's own way: text, read, solved, printed.

use sunharp::model::{Address, Verdict};
use sunharp::project::Project;
use sunharp::solve::{Evaluation, Snapshot, evaluate};
use sunharp::stage::World;
use sunharp::stage::study::Studies;
use sunharp::units::System;

const HARP: &str = r#"
format = 1
[absorber]
riser_count = 11
riser_pitch = "4 in"
stub_left = "2 in"
stub_right = "2 in"
header_spacing = "81.5 in"
riser_tube = "1/2 in type M"
header_tube = "1 in type M"
joint = "tee"
tee_shoulder = "3/4 in"
[safety.looked_up]
absorber-joint-gap = "read by the test"
absorber-insertion = "read by the test"
[absorber.riser_stock.coil]
length = "60 ft"
form = "coil"
"#;

fn solved(text: &str) -> Evaluation {
    let project = Project::read(text);
    assert!(project.problems.is_empty(), "{:?}", project.problems);
    evaluate(&Snapshot {
        entries: project.entries.into(),
        records: project.records.into(),
        panels: project.panels,
        world: World::without_weather("2026-05-20".parse().unwrap()),
        studies: Studies::default(),
        earlier: None,
    })
}

fn text(evaluation: &Evaluation, id: &str) -> String {
    match evaluation.value(&Address::drawn(id)) {
        Ok(_) => evaluation.text(&Address::drawn(id), System::Us),
        Err(why) => why.to_string(),
    }
}

/// By arithmetic: (48 − 10 × 4)/2 = 4 in to the first hole, 44 in to the last.
#[test]
fn eleven_holes_at_four_inches_centred_on_a_48_inch_header_run_from_4_to_44() {
    let evaluation = solved(HARP);
    assert_eq!(text(&evaluation, "absorber.header_length"), "48\"");
    assert_eq!(text(&evaluation, "absorber.hole.1"), "4\"");
    assert_eq!(text(&evaluation, "absorber.hole.11"), "44\"");
}

/// By arithmetic: 60 ft = 720 in = 9 × 80 in; less two trims of 10 mm and 100 mm of straightening only 8 are left.
#[test]
fn a_60_foot_coil_gives_nine_risers_without_losses_and_eight_with_them() {
    let risers_of_the_fullest_coil = |extra: &str| {
        let evaluation = solved(&HARP.replace("riser_count = 11", &format!("riser_count = 18\n{extra}")));
        assert_eq!(text(&evaluation, "absorber.riser_cut"), "80\"");
        text(&evaluation, "absorber.riser_bar.1")
    };
    let without = risers_of_the_fullest_coil("end_trim = \"0 mm\"\nstraightening = \"0 mm\"\nkerf = \"0 mm\"");
    assert!(without.starts_with("coil: 9 risers"), "{without}");
    let with = risers_of_the_fullest_coil("");
    assert!(with.starts_with("coil: 8 risers"), "{with}");
}

fn verdict(evaluation: &Evaluation, check: &str) -> Verdict {
    evaluation.verdict(check).unwrap().verdict
}

/// By arithmetic: half a pitch of 2 in behind a stub of 2 in on the one header, of 6 in on the other.
#[test]
fn mirrored_headers_begin_with_the_other_stub() {
    let uneven = HARP.replace("stub_right = \"2 in\"", "stub_right = \"6 in\"");
    let alike = solved(&uneven);
    assert_eq!(text(&alike, "absorber.hole_upper.1"), "4\"");
    assert_eq!(verdict(&alike, "absorber.header-pair"), Verdict::Caution);
    let mirrored = solved(&uneven.replace("joint = \"tee\"", "joint = \"tee\"\nheader_pair = \"mirrored\""));
    assert_eq!(text(&mirrored, "absorber.hole.1"), "4\"");
    assert_eq!(text(&mirrored, "absorber.hole_upper.1"), "8\"");
    assert_eq!(verdict(&mirrored, "absorber.header-pair"), Verdict::Clear);
}

#[test]
fn a_sheet_width_without_a_pitch_is_shared_out_with_half_a_pitch_at_each_edge() {
    let even = solved(&HARP.replace("riser_pitch = \"4 in\"", "sheet_width = \"44 in\""));
    assert_eq!(text(&even, "absorber.pitch"), "4 in");
    assert_eq!(text(&even, "absorber.edge_strip"), "2 in");
    let centred = solved(&HARP.replace("riser_pitch", "sheet_width = \"46 in\"\nriser_pitch"));
    assert_eq!(text(&centred, "absorber.edge_strip"), "3 in");
    assert_eq!(text(&centred, "absorber.hole.1"), "5\"");
}

/// 122 mm are 76.9 sixteenths of an inch, 242 mm 152.4: each mark by itself, the residual beside it.
#[test]
fn a_hole_is_marked_in_millimetres_and_on_the_tape_with_what_is_left() {
    let metric = HARP.replace("\"4 in\"", "\"120 mm\"").replace("\"2 in\"", "\"62 mm\"");
    let evaluation = solved(&metric);
    assert_eq!(text(&evaluation, "absorber.hole_mark.1"), "122.0 mm = 4 13/16\" -0.2 mm");
    assert_eq!(text(&evaluation, "absorber.hole_mark.2"), "242.0 mm = 9 1/2\" +0.7 mm");
}

/// Overlap of three walls at least; a drawn collar is brazed and never soldered (copper handbook, brazing notes).
#[test]
fn thin_laps_are_refused_under_soft_solder() {
    let joint = |kind: &str, filler: &str| {
        let joint = format!("joint = \"{kind}\"\nheader_filler = \"{filler}\"");
        verdict(&solved(&HARP.replace("joint = \"tee\"", &joint)), "absorber.joint-kind")
    };
    assert_eq!(joint("drilled", "soldered"), Verdict::Stop);
    assert_eq!(joint("collar", "soldered"), Verdict::Stop);
    assert_eq!(joint("drilled", "brazed"), Verdict::Caution);
    assert_eq!(joint("collar", "brazed"), Verdict::Clear);
    assert_eq!(joint("tee", "soldered"), Verdict::Clear);
}

/// By arithmetic: two cups of 0.91 in (copper handbook, table of solder requirements) do not fit into 1½ − 2 × ⅝ in.
#[test]
fn tees_too_close_for_their_cups_are_a_stop() {
    let pitch = |pitch: &str| {
        let tees = format!("tee_run_shoulder = \"5/8 in\"\nriser_pitch = \"{pitch}\"");
        verdict(&solved(&HARP.replace("riser_pitch = \"4 in\"", &tees)), "absorber.tee-room")
    };
    assert_eq!(pitch("1 1/2 in"), Verdict::Stop);
    assert_eq!(pitch("3 in"), Verdict::Stop);
    assert_eq!(pitch("4 in"), Verdict::Clear);
}

/// 15 mm tube in a cup for 5/8 in outside diameter leaves 0.46 mm on each side; its own cup 0.06 mm.
#[test]
fn tubes_of_a_standard_that_nearly_fits_are_caught_by_their_measured_diameters() {
    let gap = |riser: &str| {
        let readings = format!(
            "\n[panel.A]\n[reading.\"absorber.riser_outside@A\".2026-05-01-1]\nvalue = \"{riser}\"\n\
             [reading.\"absorber.socket_bore@A\".2026-05-01-1]\nvalue = \"0.630 in\"\n"
        );
        verdict(&solved(&format!("{HARP}{readings}")), "absorber.joint-gap")
    };
    assert_eq!(gap("15 mm"), Verdict::Stop);
    assert_eq!(gap("0.625 in"), Verdict::Clear);
}

/// By arithmetic: 6 ft less two trims of 10 mm are 1808.8 mm. Between tees 20 pieces of 4 − 2 × ⅝ in and four ends of
/// 2 + 2 − ⅝ in take 68.5 in = 1739.9 mm: one length without cuts, with 23 cuts of 4 mm 1831.9 mm: two.
#[test]
fn headers_between_tees_are_cut_from_straight_lengths() {
    let tees = "joint = \"tee\"\ntee_run_shoulder = \"5/8 in\"";
    let stock = "\n[absorber.header_stock.six]\nlength = \"6 ft\"\n";
    let cut = |kerf: &str| {
        solved(&format!("{}{stock}", HARP.replace("joint = \"tee\"", &format!("{tees}\nkerf = \"{kerf}\""))))
    };
    let wheel = cut("0 mm");
    assert_eq!(text(&wheel, "absorber.header_bars"), "1");
    let bar = text(&wheel, "absorber.header_bar.1");
    assert!(bar.starts_with("six: 20 middle pieces, 2 left ends, 2 right ends, "), "{bar}");
    // At once there is a plan with its bound by length alone: 1739.9 of 1808.8 mm; the study proves it.
    assert_eq!(text(&wheel, "absorber.header_plan_proof"), "best found; none can use 3.8 % less");
    assert_eq!(text(&cut("4 mm"), "absorber.header_bars"), "2");
}

/// By arithmetic: two headers of 48 in are 96 in; 8 ft less two trims do not hold both, 10 ft do.
#[test]
fn headers_with_collars_are_cut_in_one_piece() {
    let bars = |length: &str| {
        let stock = format!("\n[absorber.header_stock.bar]\nlength = \"{length}\"\n");
        let evaluation = solved(&format!("{}{stock}", HARP.replace("joint = \"tee\"", "joint = \"collar\"")));
        (text(&evaluation, "absorber.header_bars"), text(&evaluation, "absorber.header_bar.1"))
    };
    let (eight, first) = bars("8 ft");
    assert!(eight == "2" && first.starts_with("bar: 1 header, "), "{eight} {first}");
    let (ten, first) = bars("10 ft");
    assert!(ten == "1" && first.starts_with("bar: 2 headers, "), "{ten} {first}");
    assert!(bars("3 ft").1.contains("long enough for the header"), "{}", bars("3 ft").1);
}

/// McAdams's law gives 5.7 + 3.8 v against 2.8 + 3.0 v: 13.3 for 8.8 W/(m²·K) at the 2 m/s of the working point. The
/// output falls; the figure that judges materials must not.
#[test]
fn a_pessimist_about_wind_gets_less_heat_and_no_cooler_stagnation() {
    use crate::support::Bench;
    let (usual, strong) = (Bench::small(), Bench::small().with("absorber.wind_law", "strong"));
    assert!(strong.number("absorber.top_loss") > usual.number("absorber.top_loss") + 0.1);
    assert!(strong.number("absorber.useful_power") < usual.number("absorber.useful_power"));
    for judged in ["absorber.stagnation_worst", "enclosure.back_face", "enclosure.rail_face", "safety.steam_power"] {
        assert!((strong.number(judged) - usual.number(judged)).abs() < 1e-9, "{judged}");
    }
}
