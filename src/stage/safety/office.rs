//! Permits, licences and inspection: that each is named and dated. What the law asks for is never decided here.

use super::entries::office as e;
use super::entries::{self as answers};
use crate::model::{Fig, Judgement, Verdict, Why};
use crate::stage::site::entries as site;
use crate::stage::worst::worst;
use crate::stage::{Check, Severity, Solution};

/// Who is licensed for what.
fn licensed(s: &Solution) -> Fig<Judgement> {
    let all = [&answers::PLUMBER, &answers::ELECTRICIAN, &answers::ENGINEER, &answers::PERMIT, &site::JURISDICTION];
    worst(all.map(|entry| s.inputs.get(entry).map(|_| Judgement::of(Verdict::Clear).part("every one is named"))))
}

/// Licences that have lapsed, by the day of today.
fn licence_dates(s: &Solution) -> Fig<Judgement> {
    let rows = s.inputs.rows("safety.licence");
    if rows.is_empty() {
        return Err(Why::missing(e::LICENCE_UNTIL.spec.id));
    }
    worst(rows.iter().map(|row| {
        let until = s.inputs.at(&e::LICENCE_UNTIL, row)?;
        let part = format!("{row}, until {until}");
        Ok(Judgement::stop_unless(until >= s.world.today).part(part))
    }))
}

fn inspection(s: &Solution) -> Fig<Judgement> {
    s.inputs.get(&e::INSPECTOR)?;
    let day = s.inputs.get(&e::INSPECTED)?;
    Ok(Judgement::caution_unless(day <= s.world.today).part(day.to_string()))
}

/// The checks of this file.
pub static CHECKS: &[Check] = &[
    Check::new("safety.licensed", "licensed persons and permit", Severity::Deadly, licensed)
        .says(
            "Not every licensed item has a name.",
            "Name plumber, electrician, structural engineer and permit; write whom you asked and what they answered.",
        )
        .blind_to(
            "whether a licence is valid, and what the local code asks for: this program never says that none is needed",
        )
        .ask("the building authority of your jurisdiction")
        .source("usual scope of solar heating permits (verified in general terms)")
        .needs(&["safety.plumber", "safety.electrician", "safety.engineer", "safety.permit", "site.jurisdiction"]),
    Check::new("safety.licence-dates", "licences still valid", Severity::Serious, licence_dates)
        .says(
            "A licence has lapsed: {part}.",
            "Ask its holder for the new one and enter its day, or name someone else for that work.",
        )
        .blind_to("whether the licence covers this work in this place: its scope is only kept, not judged")
        .ask("the office that gives the licences")
        .source("project rule")
        .needs(&[
            "safety.licence.*.until",
            "safety.licence.*.holder",
            "safety.licence.*.number",
            "safety.licence.*.scope",
        ]),
    Check::new("safety.inspection", "inspection", Severity::Serious, inspection)
        .says(
            "The inspection is on {part}, a day to come.",
            "Leave joints, anchors and relief open to view until the inspector has seen them.",
        )
        .blind_to("what the inspector looked at; later changes")
        .ask("the building authority of {site.jurisdiction}")
        .source("project rule")
        .needs(&["safety.inspector", "safety.inspection_date"]),
];
