//! Steps: what completes them, what makes them stale, what holds them.

use sunharp::solve::progress::Standing;

use super::*;

const TUBES: &str = "tubes as listed, wall 0.028 in";

/// Everything up to the dry fit of panel A.
fn dry_fitted() -> Workbook {
    let mut workbook = open("");
    sign(&mut workbook, "absorber.buy", TUBES).unwrap();
    sign(&mut workbook, "absorber.drill-headers@A", "worst 1/32 in").unwrap();
    sign(&mut workbook, "absorber.cut-risers@A", "1/32 in").unwrap();
    workbook
}

#[test]
fn a_sign_off_remembers_what_it_relied_on_as_typed() {
    let mut workbook = open("");
    let first = workbook.text().to_owned();
    sign(&mut workbook, "absorber.buy", TUBES).unwrap();
    let record = workbook.project().records.sign_off(&at("absorber.buy")).unwrap().clone();
    assert_eq!(record.saw["absorber.sheet_thickness"], "10 oz");
    assert_eq!((record.by.as_str(), record.evidence.as_str()), ("Ines", TUBES));
    assert_eq!(standing(&workbook, "absorber.buy"), "done");
    assert!(workbook.text().contains("\"absorber.sheet_thickness\" = \"10 oz\""));
    undoes_to(&mut workbook, &first);
}

#[test]
fn a_changed_entry_makes_it_stale_and_says_what_was_and_is() {
    let mut workbook = open("");
    sign(&mut workbook, "absorber.buy", TUBES).unwrap();
    workbook.set("absorber.sheet_thickness", "8 oz").unwrap();
    let state = workbook.evaluation().step(&at("absorber.buy")).unwrap();
    let Standing::Stale(_, changed) = &state.standing else { panic!("{:?}", state.standing) };
    let change = (changed[0].id.as_str(), changed[0].was.as_str(), changed[0].is.as_deref());
    assert_eq!(change, ("absorber.sheet_thickness", "10 oz", Some("8 oz")));
    // The same length in other words is another text, and is asked about too.
    workbook.set("absorber.sheet_thickness", "10 oz").unwrap();
    assert_eq!(standing(&workbook, "absorber.buy"), "done");
}

#[test]
fn an_entry_that_was_left_out_and_is_entered_later_makes_it_stale() {
    let mut workbook = dry_fitted();
    assert_eq!(standing(&workbook, "absorber.drill-headers@A"), "done");
    workbook.set("absorber.sheet_width", "44 in").unwrap();
    assert_eq!(standing(&workbook, "absorber.drill-headers@A"), "stale");
    workbook.unset("absorber.sheet_width").unwrap();
    assert_eq!(standing(&workbook, "absorber.drill-headers@A"), "done");
}

#[test]
fn a_step_that_waits_cannot_be_signed() {
    let mut workbook = open("");
    assert_eq!(standing(&workbook, "absorber.dry-fit@A"), "waits");
    let error = sign(&mut workbook, "absorber.dry-fit@A", "89.4 in").unwrap_err();
    assert_eq!(error.to_string(), "these come first: absorber.drill-headers@A, absorber.cut-risers@A");
    let mut ready = dry_fitted();
    assert_eq!(standing(&ready, "absorber.dry-fit@A"), "open");
    assert_eq!(standing(&ready, "absorber.dry-fit@B"), "waits");
    sign(&mut ready, "absorber.dry-fit@A", "89.4 in").unwrap();
}

#[test]
fn a_step_done_by_a_reading_records_the_reading_and_undoes_in_one() {
    let mut workbook = dry_fitted();
    let before = workbook.text().to_owned();
    assert!(sign(&mut workbook, "absorber.dry-fit@A", "89 psi").is_err());
    assert_eq!(workbook.text(), before);
    sign(&mut workbook, "absorber.dry-fit@A", "89.4 in").unwrap();
    assert!((si(&workbook, "absorber.diagonal_1@A") - 89.4 * 0.0254).abs() < 1e-12);
    workbook.undo().unwrap();
    assert_eq!(workbook.text(), before);
    workbook.redo().unwrap();
    assert_eq!(standing(&workbook, "absorber.dry-fit@A"), "done");
}

#[test]
fn a_step_that_a_stop_holds_cannot_be_signed_not_even_anew() {
    let mut workbook = dry_fitted();
    sign(&mut workbook, "absorber.dry-fit@A", "89.4 in").unwrap();
    sign(&mut workbook, "absorber.second-diagonal@A", "91 in").unwrap();
    assert_eq!(standing(&workbook, "absorber.join@A"), "held");
    let error = sign(&mut workbook, "absorber.join@A", "all").unwrap_err();
    assert_eq!(error.to_string(), "held by a stop: absorber.square");
    read(&mut workbook, "absorber.diagonal_2@A", "89.4 in").unwrap();
    sign(&mut workbook, "absorber.depth-check@A", "all at the crown").unwrap();
    sign(&mut workbook, "absorber.open-to-braze@A", "looked through").unwrap();
    sign(&mut workbook, "absorber.join@A", "all").unwrap();
    workbook.set("absorber.header_filler", "soldered").unwrap();
    assert_eq!(standing(&workbook, "absorber.join@A"), "stale");
    let error = sign(&mut workbook, "absorber.join@A", "all").unwrap_err();
    assert_eq!(error.to_string(), "held by a stop: absorber.pressure-joints");
}

#[test]
fn a_stop_on_one_panel_does_not_hold_another() {
    let mut workbook = dry_fitted();
    sign(&mut workbook, "absorber.dry-fit@A", "89.4 in").unwrap();
    sign(&mut workbook, "absorber.second-diagonal@A", "89.4 in").unwrap();
    read(&mut workbook, "absorber.diagonal_1@B", "89 in").unwrap();
    read(&mut workbook, "absorber.diagonal_2@B", "91 in").unwrap();
    sign(&mut workbook, "absorber.depth-check@A", "all at the crown").unwrap();
    sign(&mut workbook, "absorber.open-to-braze@A", "looked through").unwrap();
    assert_eq!(standing(&workbook, "absorber.join@A"), "open");
    assert_eq!(standing(&workbook, "absorber.join@B"), "held");
}

#[test]
fn a_withdrawn_sign_off_reopens_the_step_and_stays_in_the_file() {
    let mut workbook = open("");
    let first = workbook.text().to_owned();
    sign(&mut workbook, "absorber.buy", TUBES).unwrap();
    assert!(workbook.withdraw_sign_off(&at("absorber.buy"), " ").is_err());
    workbook.withdraw_sign_off(&at("absorber.buy"), "wrong sheet delivered").unwrap();
    assert_eq!(standing(&workbook, "absorber.buy"), "open");
    assert!(workbook.text().contains("withdrawn = \"wrong sheet delivered\""));
    assert!(workbook.withdraw_sign_off(&at("absorber.buy"), "again").is_err());
    sign(&mut workbook, "absorber.buy", TUBES).unwrap();
    assert_eq!(standing(&workbook, "absorber.buy"), "done");
    let keys: Vec<&str> = workbook.project().records.sign_offs.iter().map(|record| record.key.as_str()).collect();
    assert_eq!(keys, ["2026-05-01-1", "2026-05-01-2"]);
    undoes_to(&mut workbook, &first);
}

#[test]
fn a_second_record_of_a_day_gets_the_next_number() {
    let mut workbook = open("");
    let first = workbook.text().to_owned();
    for words in ["one", "two", "three"] {
        workbook.add_log("decision", "Ines", words).unwrap();
        read(&mut workbook, "absorber.bond_width@A", "1/4 in").unwrap();
    }
    let records = &workbook.project().records;
    assert_eq!(records.log.last().unwrap().key, "2026-05-01-3");
    assert_eq!(records.readings.last().unwrap().key, "2026-05-01-3");
    undoes_to(&mut workbook, &first);
}

#[test]
fn a_sign_off_wants_a_name_its_evidence_and_a_second_person_where_declared() {
    let mut workbook = open("");
    let nobody = NewSignOff { evidence: TUBES.to_owned(), ..NewSignOff::default() };
    assert_eq!(workbook.sign_off(&at("absorber.buy"), &nobody).unwrap_err().to_string(), "say who did it");
    assert!(sign(&mut workbook, "absorber.buy", " ").is_err());
    assert!(sign(&mut workbook, "absorber.buy@A", TUBES).is_err());
    assert!(sign(&mut workbook, "absorber.cut-risers@Z", TUBES).is_err());
    sign(&mut workbook, "absorber.buy", TUBES).unwrap();
    assert!(sign(&mut workbook, "absorber.buy", TUBES).is_err(), "it is signed already");
    let alone = "\n[sign_off.\"absorber.flux-out@A\".2026-05-01-1]\nby = \"Ines\"\nevidence = \"40 L\"\n";
    let mut workbook = open(alone);
    for second in ["", "Ines", " ines "] {
        let sign_off =
            NewSignOff { by: "Ines".to_owned(), read_back_by: second.to_owned(), evidence: "2 bar".to_owned() };
        let error = workbook.sign_off(&at("absorber.harp-test@A"), &sign_off).unwrap_err();
        assert!(error.to_string().contains("a second person must read this step back"), "{second}: {error}");
    }
    sign(&mut workbook, "absorber.harp-test@A", "2 bar").unwrap();
}
