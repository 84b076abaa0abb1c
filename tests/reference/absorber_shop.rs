//! The shop floor of the absorber through the program's own way: text, read, solved, printed.

use sunharp::model::Address;
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
