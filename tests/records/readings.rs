//! What a reading does, and what an overruling does not do.

use sunharp::model::{Origin, Verdict};

use super::*;

#[test]
fn a_reading_of_an_entry_changes_the_figures_of_its_panel_only() {
    let mut workbook = open("");
    let first = workbook.text().to_owned();
    let drawn = si(&workbook, "absorber.diagonal");
    read(&mut workbook, "absorber.header_spacing@A", "81 in").unwrap();
    assert!(si(&workbook, "absorber.diagonal@A") > drawn);
    for address in ["absorber.diagonal", "absorber.diagonal@B", "absorber.diagonal@C"] {
        assert!((si(&workbook, address) - drawn).abs() < 1e-12, "{address}");
    }
    assert_eq!(workbook.evaluation().origin(&at("absorber.header_spacing@A")), Origin::Reading);
    assert_eq!(workbook.evaluation().origin(&at("absorber.header_spacing")), Origin::Entry);
    undoes_to(&mut workbook, &first);
}

#[test]
fn a_reading_of_a_figure_is_kept_and_moves_nothing() {
    let mut workbook = open("");
    let before = si(&workbook, "absorber.content");
    read(&mut workbook, "absorber.content@A", "9 L").unwrap();
    assert!((si(&workbook, "absorber.content@A") - before).abs() < 1e-15);
    assert_eq!(workbook.project().records.readings.len(), 1);
}

#[test]
fn several_readings_become_one_as_declared() {
    let inch = 0.0254;
    let cases = [
        ("absorber.riser_pitch@A", ["4.0 in", "4.1 in", "4.3 in"], 12.4 / 3.0), // their mean
        ("absorber.riser_wall@A", ["0.03 in", "0.02 in", "0.025 in"], 0.02),    // the smallest
        ("absorber.header_spacing@A", ["80 in", "82 in", "81 in"], 81.0),       // the last
    ];
    for (address, readings, folded) in cases {
        let mut workbook = open("");
        for typed in readings {
            read(&mut workbook, address, typed).unwrap();
        }
        assert!((si(&workbook, address) - folded * inch).abs() < 1e-12, "{address}");
    }
}

#[test]
fn the_last_reading_of_a_day_is_the_last_also_beyond_nine() {
    let mut workbook = open("");
    for tenths in 0..12 {
        read(&mut workbook, "absorber.header_spacing@A", &format!("80.{tenths:02} in")).unwrap();
    }
    let last = workbook.project().records.readings.iter().map(|reading| reading.key.as_str());
    assert!(last.clone().any(|key| key == "2026-05-01-12"));
    assert!((si(&workbook, "absorber.header_spacing@A") - 80.11 * 0.0254).abs() < 1e-12);
}

#[test]
fn a_withdrawn_reading_does_not_count() {
    let more = "\n[reading.\"absorber.header_spacing@A\".2026-05-01-1]\nvalue = \"90 in\"\nwithdrawn = \"misread\"\n";
    let workbook = open(more);
    assert!((si(&workbook, "absorber.header_spacing@A") - 80.0 * 0.0254).abs() < 1e-12);
}

#[test]
fn a_judge_takes_the_worse_of_drawn_and_built() {
    let mut workbook = open("");
    assert_eq!(verdict(&workbook, "absorber.bond"), (Verdict::Clear, None));
    read(&mut workbook, "absorber.bond_length@B", "1 %").unwrap();
    assert_eq!(verdict(&workbook, "absorber.bond"), (Verdict::Caution, PanelLetter::new('B')));
    // Among equals, and where the design is the worse, the design speaks.
    workbook.set("absorber.bond_length", "1 %").unwrap();
    assert_eq!(verdict(&workbook, "absorber.bond"), (Verdict::Caution, None));
    read(&mut workbook, "absorber.bond_length@B", "100 %").unwrap();
    assert_eq!(verdict(&workbook, "absorber.bond"), (Verdict::Caution, None));
}

#[test]
fn what_can_only_be_measured_is_judged_panel_by_panel() {
    let mut workbook = open("");
    for (panel, second) in [("A", "89.4 in"), ("B", "91 in")] {
        read(&mut workbook, &format!("absorber.diagonal_1@{panel}"), "89.4 in").unwrap();
        read(&mut workbook, &format!("absorber.diagonal_2@{panel}"), second).unwrap();
    }
    let of = |panel: &str| workbook.evaluation().verdict_of(&at(&format!("absorber.square@{panel}"))).unwrap().verdict;
    assert_eq!([of("A"), of("B"), of("C")], [Verdict::Clear, Verdict::Stop, Verdict::Unknown]);
}

#[test]
fn readings_that_the_project_cannot_hold_are_refused_in_plain_words() {
    let mut workbook = open("");
    let first = workbook.text().to_owned();
    let refused = [
        ("absorber.riser_pitch", "4 in", "belongs to a panel"),
        ("absorber.riser_pitch@Z", "4 in", "there is no panel Z"),
        ("site.tilt@A", "30°", "belongs to the whole project"),
        ("absorber.nothing@A", "4 in", "there is no entry or figure called"),
        ("absorber.riser_pitch@A", "4 psi", "psi"),
        ("absorber.riser_pitch@A", "", "nothing is typed"),
        ("absorber.content@A", "9 in", "in"),
    ];
    for (address, typed, words) in refused {
        let error = read(&mut workbook, address, typed).unwrap_err().to_string();
        assert!(error.contains(words), "{address}: {error}");
    }
    assert_eq!(workbook.text(), first);
}

fn overruled(by: &str, saw: &str) -> Workbook {
    let more = format!(
        "\n[override.\"absorber.pressure-joints\".2026-05-01-1]\nreason = \"inspected\"\nby = {by}\nsaw = {{ {saw} }}\n"
    );
    let mut workbook = open(&more);
    workbook.set("absorber.header_filler", "soldered").unwrap();
    workbook
}

#[test]
fn an_overruling_in_the_file_counts_while_what_it_saw_is_unchanged() {
    let saw = "\"absorber.header_filler\" = \"soldered\"";
    let mut workbook = overruled("[\"Ines\", \"Tomas\"]", saw);
    let blocks = |workbook: &Workbook| {
        let judged = workbook.evaluation().verdict("absorber.pressure-joints").unwrap();
        assert_eq!(judged.verdict, Verdict::Stop);
        judged.blocks()
    };
    assert!(!blocks(&workbook));
    assert!(blocks(&overruled("[\"Ines\"]", saw)));
    assert!(blocks(&overruled("[\"Ines\", \"Tomas\"]", "\"absorber.header_filler\" = \"brazed\"")));
    workbook.set("absorber.header_filler", "brazed").unwrap();
    assert_eq!(verdict(&workbook, "absorber.pressure-joints").0, Verdict::Clear);
    workbook.undo().unwrap();
    assert!(!blocks(&workbook));
}

#[test]
fn an_overruling_without_a_reason_is_a_fault_of_the_file() {
    let text = format!("{PROJECT}\n[override.\"absorber.bond\".2026-05-01-1]\nby = [\"Ines\", \"Tomas\"]\n");
    let project = sunharp::project::Project::read(&text);
    assert_eq!(project.problems[0].fault.to_string(), "this record has no 'reason'");
    assert_eq!(project.records.overrides, []);
}
