//! What is only recalled: shown as such, and never alone the reason of a clear.

use std::path::Path;
use std::sync::Arc;

use crate::support::{Bench, SMALL};
use sunharp::handbook::{Provenance, galvanic, hose, insulation, solder};
use sunharp::model::Verdict::{Caution, Clear};
use sunharp::project::store::RealDisk;
use sunharp::solve::Evaluation;
use sunharp::stage::{self, Check};
use sunharp::workbook::Workbook;

/// Checks with something recalled that no clear rests on, and why none does.
const BESIDE: [(&str, &str); 16] = [
    ("absorber.mixed-metals", "each row of the table tells how it is known"),
    ("absorber.sheet-solder", "each alloy tells how its solidus is known"),
    ("enclosure.cap-metals", "each row of the table tells how it is known"),
    ("enclosure.insulation-limit", "each row of the table tells how it is known, or its sheet was read"),
    ("enclosure.link-hose", "each row of the table tells how it is known"),
    ("enclosure.second-insulation", "each row of the table tells how it is known, or its sheet was read"),
    ("plumbing.run-insulation", "each row of the table tells how it is known"),
    ("safety.dust", "bare wood and a mask are asked for whatever is recalled of old stock"),
    ("safety.electrical", "a year is the project's rule; the trip current is not judged"),
    ("safety.fire-watch", "60 min is the project's rule; 30 min parts caution from stop"),
    ("safety.galvanic", "each row of the table tells how it is known; zinc in the loop never clears"),
    ("safety.height", "clear is only what catches a fall; 6 ft parts caution from stop"),
    ("safety.handling-wind", "10 m/s, and 20 N for each person, are the project's rules"),
    ("safety.hot-surfaces", "60 °C is the project's rule"),
    ("safety.stagnation-material", "each alloy and insulation tells how its limit is known"),
    ("safety.torch-place", "1 m is the project's rule; what is recalled asks for more"),
];

fn says_memory(text: &str) -> bool {
    let text = text.to_lowercase();
    text.contains("memory") || text.contains("recalled")
}

#[test]
fn a_source_holds_nothing_from_memory_and_what_is_recalled_has_its_own_place() {
    for check in stage::checks() {
        assert!(!says_memory(check.source), "{}: {}", check.id, check.source);
        assert!(!check.source.is_empty(), "{}", check.id);
        let beside = !check.recalled.is_empty() && !check.rests_on_memory;
        assert_eq!(beside, BESIDE.iter().any(|(id, _)| *id == check.id), "{}: {}", check.id, check.recalled);
    }
}

/// The small project without what was looked up, and every sample with its year.
fn projects() -> Vec<(String, Arc<Evaluation>)> {
    let mut found: Vec<(String, Arc<Evaluation>)> = Vec::new();
    let mut small = Bench::small();
    for check in stage::checks() {
        let id = format!("safety.looked_up.{}", check.key());
        if small.has(&id) {
            small = small.without(&id);
        }
    }
    found.push(("small".to_owned(), Arc::new(small.evaluate())));
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-projects");
    for name in ["garden-washroom.toml", "boatyard-shower.toml", "harbour-laundry.toml"] {
        let mut book = Workbook::open(Arc::new(RealDisk), &folder.join(name), jiff::civil::date(2026, 6, 1)).unwrap();
        book.run_studies();
        found.push((name.to_owned(), Arc::clone(book.evaluation())));
    }
    found
}

/// Over all checks of all six stages: one that rests on memory is never clear, unless there is nothing to judge.
#[test]
fn no_check_is_clear_by_memory_alone() {
    let mut held_back = 0;
    for (name, evaluation) in projects() {
        for judged in evaluation.verdicts.iter().filter(|judged| judged.check.rests_on_memory) {
            let Ok(judgement) = &judged.judgement else { continue };
            let clear = judged.verdict == Clear && judgement.does_not_apply.is_none();
            assert!(!clear, "{name}: {} is clear by {}", judged.check.id, judged.check.recalled);
            if judgement.from_memory {
                held_back += 1;
                assert_eq!(judged.verdict, Caution, "{name}: {}", judged.check.id);
                let system = evaluation.system();
                assert!(evaluation.says(judged, system).contains("only recalled"), "{}", judged.check.id);
                assert!(evaluation.remedy(judged, system).contains(&judged.check.key()), "{}", judged.check.id);
            }
        }
    }
    assert!(held_back > 10, "{held_back}");
}

#[test]
fn what_was_looked_up_is_clear_and_says_where() {
    let resting: Vec<&&Check> = stage::checks().iter().filter(|check| check.rests_on_memory).collect();
    for check in &resting {
        let row = format!("\n{} = \"read by the test\"\n", check.key());
        assert!(SMALL.contains(&row), "{} is not looked up in the small project", check.id);
        assert!(check.depends().contains("safety.looked_up.*"), "{}", check.id);
    }
    let lift = "safety.looked_up.enclosure-lift";
    let whole = Bench::small();
    assert_eq!(whole.verdict("enclosure.lift"), Clear);
    assert_eq!(whole.part("enclosure.lift"), "hands (limit from memory) (looked up: read by the test)");
    assert_eq!(whole.clone().without(lift).verdict("enclosure.lift"), Caution);
}

/// Rows of the handbook that are recalled, one by one: they may warn and stop, and never clear by themselves.
#[test]
fn no_recalled_row_of_a_table_clears() {
    let cool = || Bench::small().with("absorber.absorptance", "30 %");
    for alloy in solder::alloys().all() {
        let bench = cool().with("absorber.solder", &alloy.name);
        let clear =
            [bench.verdict("absorber.sheet-solder"), bench.verdict("safety.stagnation-material")].contains(&Clear);
        assert!(!clear || alloy.provenance != Provenance::Recalled, "{}", alloy.name);
    }
    let two = Bench::of(&format!("{SMALL}\n[panel.B]\n")).with("absorber.absorptance", "30 %");
    for kind in hose::hoses() {
        let clear = two.clone().with("enclosure.link_hose", &kind.name).verdict("enclosure.link-hose") == Clear;
        assert!(!clear || kind.provenance != Provenance::Recalled, "{}", kind.name);
    }
    for material in insulation::materials().all() {
        let bench = cool().with("enclosure.insulation", &material.name).without("enclosure.insulation_limit");
        let clear = bench.verdict("enclosure.insulation-limit") == Clear;
        assert!(!clear || material.limit_provenance != Provenance::Recalled, "{}", material.name);
    }
    for metal in galvanic::anodic_indices().all() {
        let bench = Bench::small().with("safety.contact_metal", &metal.name);
        let clear = bench.verdict("safety.galvanic") == Clear;
        assert!(!clear || metal.provenance != Provenance::Recalled, "{}", metal.name);
        let cap = Bench::small()
            .with("enclosure.cap_metal", &metal.name)
            .with("enclosure.cap_screw_metal", "18 % Cr stainless");
        assert!(
            cap.verdict("enclosure.cap-metals") != Clear || metal.provenance != Provenance::Recalled,
            "{}",
            metal.name
        );
    }
}
