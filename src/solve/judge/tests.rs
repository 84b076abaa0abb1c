//! Whose word counts against a stop, on planted checks.

use jiff::civil::date;

use super::*;
use crate::model::inputs::Given;
use crate::model::{Entries, Inputs, Value};
use crate::solve::solve;
use crate::stage::World;
use crate::stage::study::Studies;

const fn stop(id: &'static str, severity: Severity) -> Check {
    Check::new(id, "planted", severity, |_| Ok(Judgement::of(Verdict::Stop))).needs(&["absorber.solder"])
}

static SERIOUS: Check = stop("absorber.planted", Severity::Serious);
static DEADLY: Check = stop("absorber.planted", Severity::Deadly);
static FINAL: Check = stop("absorber.planted", Severity::Nuisance).final_word();
static CAUTION: Check =
    Check::new("absorber.planted", "planted", Severity::Nuisance, |_| Ok(Judgement::of(Verdict::Caution)))
        .needs(&["absorber.solder"]);

fn solution(solder: &str) -> Solution {
    let given = Given { typed: solder.to_owned(), value: Ok(Value::Choice(solder.to_owned())) };
    let entries = Entries::from([("absorber.solder".to_owned(), given)]);
    let inputs = Inputs::resolve(stage::entries(), &entries, &Entries::new(), &[]);
    solve(inputs, &World::without_weather(date(2026, 6, 1)), &Studies::default(), None)
}

fn record(by: &[&str], licensed: &str, saw: &[(&str, &str)]) -> Override {
    Override {
        of: Address::drawn("absorber.planted"),
        key: "2026-04-18-1".to_owned(),
        date: date(2026, 4, 18),
        reason: "reason".to_owned(),
        by: by.iter().map(|name| (*name).to_owned()).collect(),
        licensed: licensed.to_owned(),
        saw: saw.iter().map(|(id, typed)| ((*id).to_owned(), (*typed).to_owned())).collect(),
        skips: Vec::new(),
    }
}

fn is_overruled(check: &'static Check, record: Override) -> bool {
    let records = Records { overrides: vec![record], ..Records::default() };
    let judged = judge(check, &[(None, &solution("tin"))], None, &records).unwrap();
    judged.overruled.is_some()
}

const SAW: &[(&str, &str)] = &[("absorber.solder", "tin")];

#[test]
fn a_stop_is_overruled_by_two_persons_who_saw_what_it_hangs_on() {
    assert!(is_overruled(&SERIOUS, record(&["Ines", "Tomas"], "", SAW)));
    let too_few: [&[&str]; 5] = [&[], &["Ines"], &["Ines", ""], &["Ines", " ines "], &["Ines", "INES"]];
    for by in too_few {
        assert!(!is_overruled(&SERIOUS, record(by, "", SAW)), "{by:?}");
    }
    assert!(!is_overruled(&SERIOUS, record(&["Ines", "Tomas"], "", &[])));
    assert!(!is_overruled(&SERIOUS, record(&["Ines", "Tomas"], "", &[("project.name", "x")])));
    assert!(!is_overruled(&SERIOUS, record(&["Ines", "Tomas"], "", &[("absorber.solder", "lead")])));
}

#[test]
fn what_can_kill_wants_a_licensed_person_among_them() {
    assert!(is_overruled(&DEADLY, record(&["Ines", "Tomas"], "Tomas", SAW)));
    for licensed in ["", " ", "Somebody"] {
        assert!(!is_overruled(&DEADLY, record(&["Ines", "Tomas", ""], licensed, SAW)), "{licensed:?}");
    }
}

#[test]
fn a_final_word_stands_and_only_a_stop_is_overruled() {
    assert!(!is_overruled(&FINAL, record(&["Ines", "Tomas"], "Tomas", SAW)));
    assert!(!is_overruled(&CAUTION, record(&["Ines", "Tomas"], "Tomas", SAW)));
}

#[test]
fn an_overruling_of_one_panel_speaks_for_no_other() {
    let (a, b) = (PanelLetter::new('A').unwrap(), PanelLetter::new('B').unwrap());
    let of_a = Override { of: Address::on("absorber.planted", a), ..record(&["Ines", "Tomas"], "", SAW) };
    let records = Records { overrides: vec![of_a], ..Records::default() };
    let drawn = solution("tin");
    let only = |panel| judge(&SERIOUS, &[(Some(panel), &drawn)], Some(panel), &records).unwrap();
    assert!(!only(a).blocks() && only(b).blocks());
    let over_both = judge(&SERIOUS, &[(Some(a), &drawn), (Some(b), &drawn)], None, &records).unwrap();
    assert!(over_both.blocks() && over_both.panel == Some(b), "the stop that nobody overruled speaks");
}

#[test]
fn a_panel_built_otherwise_than_they_saw_is_not_overruled() {
    let records = Records { overrides: vec![record(&["Ines", "Tomas"], "", SAW)], ..Records::default() };
    let panel = PanelLetter::new('A');
    let judged = judge(&SERIOUS, &[(None, &solution("tin")), (panel, &solution("lead"))], None, &records).unwrap();
    assert!(judged.blocks() && judged.panel == panel);
}
