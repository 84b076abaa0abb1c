//! Commissioning without a screen: figures, checks, steps, procedures, the calendar, a step out of order.

use sunharp::model::Stage;

use super::*;

/// A reason to do a step before others is in the report, in JSON and on the acceptance sheet.
#[test]
fn a_step_out_of_order_carries_its_reason_into_every_report() {
    let text = format!(
        "{}\n[override.\"commissioning.cold-pressure\".2026-05-01-1]\nreason = \"the pump came late\"\n\
         by = [\"Ines\", \"Tomas\"]\nskips = [\"commissioning.air\"]\n",
        sample::TEXT
    );
    let (_folder, path) = project(&text);
    let shown = out(&run(&["show", &path])).split_whitespace().collect::<Vec<_>>().join(" ");
    let said = "Out of order 2026-05-01 by Ines and Tomas, before commissioning.air: the pump came late";
    assert!(shown.contains(said), "{shown}");
    let document = json(&["show", &path, "--json"]);
    let steps = document["steps"].as_array().unwrap();
    let step = steps.iter().find(|step| step["id"] == "commissioning.cold-pressure").unwrap();
    assert_eq!(step["out_of_order"][0]["reason"], "the pump came late");
    assert_eq!(step["out_of_order"][0]["skips"][0], "commissioning.air");
    assert_eq!(step["standing"], "open");
    let sheet = out(&run(&["procedure", &path, "acceptance"]));
    assert!(sheet.contains("open, out of order: cold pressure with its temperature"), "{sheet}");
}

/// Everything that commissioning knows is there without a screen: figures, checks, steps, procedures, one measurement at
/// a time.
#[test]
fn commissioning_is_told_headless() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-projects/boatyard-shower.toml");
    let path = path.to_str().unwrap();
    let document = json(&["show", path, "--json"]);
    let of_stage = |list: &str| -> Vec<String> {
        let items = document[list].as_array().unwrap().iter().filter(|item| item["stage"] == "commissioning");
        items.map(|item| item["id"].as_str().unwrap().to_owned()).collect()
    };
    let (figures, checks, steps) = (of_stage("figures"), of_stage("checks"), of_stage("steps"));
    for figure in stage::figures().iter().filter(|figure| figure.stage() == Stage::Commissioning) {
        let told = figures.iter().any(|id| id == figure.id || id.starts_with(&format!("{}.", figure.id)));
        assert!(told, "{}", figure.id);
    }
    for check in stage::checks().iter().filter(|check| check.stage() == Stage::Commissioning) {
        assert!(checks.iter().any(|id| id == check.id), "{}", check.id);
    }
    for step in stage::steps().iter().filter(|step| step.stage == Stage::Commissioning && step.only.is_none()) {
        assert!(steps.iter().any(|id| id == step.id), "{}", step.id);
    }
    let verdicts = json(&["check", path, "--json"]);
    let checked = verdicts["checks"].as_array().unwrap();
    assert!(
        checked.iter().any(|check| check["id"] == "commissioning.performance-agrees" && check["verdict"] == "clear")
    );
    for procedure in ["acceptance", "handover", "repair", "lay-up", "restart", "substitution", "end-of-life"] {
        let page = out(&run(&["procedure", path, procedure]));
        assert!(page.lines().count() > 6, "{procedure}: {page}");
    }
    let asked = out(&run(&["trouble", path, "warm-at-night"]));
    assert!(asked.contains("Measure: ") && asked.contains("This project should show: "), "{asked}");
}

#[test]
fn the_day_tells_what_the_calendar_asks_for() {
    let (_folder, path) = project("format = 1\n[commissioning]\ncommissioned = 2020-01-01\n");
    let day = out(&run(&["today", &path]));
    assert!(day.contains("Due by the calendar") && day.contains("commissioning.upkeep.yearly-liquid"), "{day}");
}
