//! What a script reads: every declared id, values in SI beside their text.

use super::*;

#[test]
fn json_has_every_declared_id() {
    let (_folder, path) = project(sample::TEXT);
    let document = json(&["show", &path, "--json"]);
    assert_eq!(document["version"], 1);
    let ids = |list: &str| -> Vec<String> {
        document[list].as_array().unwrap().iter().map(|item| item["id"].as_str().unwrap().to_owned()).collect()
    };
    let (entries, figures, checks, steps) = (ids("entries"), ids("figures"), ids("checks"), ids("steps"));
    for spec in stage::entries().iter().filter(|spec| !spec.id.contains('*')) {
        assert!(entries.iter().any(|id| id == spec.id), "{}", spec.id);
    }
    for figure in stage::figures().iter().filter(|figure| figure.axis.is_none()) {
        assert!(figures.iter().any(|id| id == figure.id), "{}", figure.id);
    }
    for check in stage::checks() {
        assert!(checks.iter().any(|id| id == check.id), "{}", check.id);
    }
    for step in stage::steps() {
        // The sample's loop says which steps apply.
        let applies = step.only.is_none_or(|only| only.choices.contains(&"drainback"));
        let panels = if step.per_panel { 3 } else { usize::from(applies) };
        assert_eq!(steps.iter().filter(|id| *id == step.id).count(), panels, "{}", step.id);
    }
}

#[test]
fn every_row_of_json_has_a_value_or_the_reason_why_there_is_none() {
    for text in [sample::TEXT, "format = 1\n"] {
        let (_folder, path) = project(text);
        let document = json(&["show", &path, "--json"]);
        for list in ["entries", "figures"] {
            for row in document[list].as_array().unwrap() {
                assert_ne!(row["text"].is_null(), row["reason"].is_null(), "{row}");
                assert_eq!(row["si"].is_null(), row["unit"].is_null(), "{row}");
                assert!(row["reason"].is_null() || !row["reason"]["text"].as_str().unwrap().is_empty(), "{row}");
                assert_ne!(row["reason"]["code"], "pending", "show waits for the studies: {row}");
            }
        }
        for check in document["checks"].as_array().unwrap() {
            let verdict = check["verdict"].as_str().unwrap();
            assert!(["clear", "caution", "unknown", "stop"].contains(&verdict));
            assert_ne!(check["blind_to"], "", "{check}");
        }
    }
}

#[test]
fn json_gives_si_numbers_whatever_the_units_and_text_in_the_units_asked_for() {
    let (_folder, path) = project(sample::TEXT);
    let pitch = |units: &str| {
        let document = json(&["show", &path, "absorber.riser_pitch", "--json", "--units", units]);
        let row = document["entries"][0].clone();
        // One inch is 25.4 mm exactly (international yard and pound agreement of 1959).
        assert!((row["si"].as_f64().unwrap() - 0.1016).abs() < 1e-12);
        assert_eq!(row["unit"], "m");
        assert_eq!(row["typed"], "4 in");
        assert_eq!(row["origin"], "entered");
        row["text"].as_str().unwrap().to_owned()
    };
    assert_eq!(pitch("us"), "4 in");
    assert!(pitch("si").starts_with("101.6 mm"), "{}", pitch("si"));
}

#[test]
fn panels_as_built_stand_beside_the_design() {
    let reading = "\n[reading.\"absorber.riser_pitch@B\".2026-04-18-7]\nvalue = \"4 1/4 in\"\nby = \"Ines\"\n";
    let text = format!("{}{reading}", sample::TEXT.trim_end().to_owned() + "\n");
    let (_folder, path) = project(&text);
    let shown = out(&run(&["show", &path, "absorber.riser_pitch"]));
    assert!(shown.contains("4 in, entered (absorber.riser_pitch)"), "{shown}");
    assert!(shown.contains("measured (absorber.riser_pitch@B)"), "{shown}");
    let only = out(&run(&["show", &path, "absorber.riser_pitch@B"]));
    assert!(!only.contains("entered"), "{only}");
    let document = json(&["show", &path, "absorber.riser_pitch@B", "--json"]);
    assert_eq!(document["entries"][0]["panel"], "B");
    assert!((document["entries"][0]["si"].as_f64().unwrap() - 0.10795).abs() < 1e-12);
}
