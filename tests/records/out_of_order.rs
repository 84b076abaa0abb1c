//! Steps done before those that come first: a reason and two names, kept in the file; some orders are firm.

use sunharp::workbook::record::NewOverruling;

use sunharp::solve::progress::Standing;

use super::*;

fn reason(by: &str, second: &str, licensed: &str) -> NewOverruling {
    let [by, second, licensed] = [by, second, licensed].map(str::to_owned);
    NewOverruling { reason: "the street's water was off".to_owned(), by, second, licensed }
}

#[test]
fn a_step_comes_before_others_with_a_reason_that_stays() {
    let mut workbook = open("");
    let first = workbook.text().to_owned();
    assert_eq!(standing(&workbook, "absorber.dry-fit@A"), "waits");
    let refused = |workbook: &mut Workbook, new: &NewOverruling| {
        workbook.let_come_first(&at("absorber.dry-fit@A"), new).unwrap_err().to_string()
    };
    assert!(refused(&mut workbook, &reason("Ines", "ines", "")).contains("two people"));
    let silent = NewOverruling { reason: " ".to_owned(), ..reason("Ines", "Tomas", "") };
    assert!(refused(&mut workbook, &silent).contains("write down why"));
    workbook.let_come_first(&at("absorber.dry-fit@A"), &reason("Ines", "Tomas", "")).unwrap();
    assert_eq!(standing(&workbook, "absorber.dry-fit@A"), "open");
    assert_eq!(standing(&workbook, "absorber.dry-fit@B"), "waits", "the reason is for one panel");
    sign(&mut workbook, "absorber.dry-fit@A", "89.4 in").unwrap();
    let state = workbook.evaluation().step(&at("absorber.dry-fit@A")).unwrap();
    assert_eq!((state.standing.word(), state.out_of_order.len()), ("done", 1));
    assert_eq!(state.out_of_order[0].reason, "the street's water was off");
    assert!(workbook.text().contains("skips = [\"absorber.drill-headers@A\", \"absorber.cut-risers@A\"]"));
    assert!(refused(&mut workbook, &reason("Ines", "Tomas", "")).contains("does not wait"));
    undoes_to(&mut workbook, &first);
}

/// A reason speaks for the steps that it names, for two people, and for licensed work with the licensed one.
#[test]
fn a_reason_lets_only_what_it_names_come_later() {
    let with = |of: &str, by: &str, skips: &str| {
        let text = format!(
            "\n[override.\"{of}\".2026-05-01-1]\nreason = \"r\"\nby = {by}\nlicensed = \"Tomas\"\nskips = {skips}\n"
        );
        open(&text)
    };
    let both = "[\"absorber.drill-headers@A\", \"absorber.cut-risers@A\"]";
    let of = "absorber.dry-fit@A";
    assert_eq!(standing(&with(of, "[\"Ines\", \"Tomas\"]", both), of), "open");
    assert_eq!(standing(&with(of, "[\"Ines\", \"Tomas\"]", "[\"absorber.cut-risers@A\"]"), of), "waits");
    assert_eq!(standing(&with(of, "[\"Ines\", \"ines \"]", both), of), "waits");
    let licensed = "commissioning.loop-test";
    let first = "[\"absorber.retest@A\"]";
    let reasons = |by: &str| with(licensed, by, first).evaluation().step(&at(licensed)).unwrap().out_of_order.len();
    assert_eq!((reasons("[\"Ines\", \"Tomas\"]"), reasons("[\"Ines\", \"Olga\"]")), (1, 0));
}

/// Ruling of this project: no reason lets a loop be filled before its relief valve and its vessel are back, nor a harp be
/// brazed before it is empty and open.
#[test]
fn an_order_that_protects_somebody_is_firm() {
    for (of, firm) in [
        ("commissioning.fill", "commissioning.relief-refitted"),
        ("commissioning.fill", "commissioning.vessel-open"),
        ("absorber.join@A", "absorber.open-to-braze@A"),
        ("absorber.solder-sheet@A", "absorber.open-to-solder@A"),
        ("commissioning.handover", "commissioning.put-back"),
    ] {
        let text = format!(
            "\n[override.\"{of}\".2026-05-01-1]\nreason = \"r\"\nby = [\"Ines\", \"Tomas\"]\nskips = [\"{firm}\"]\n"
        );
        let mut workbook = open(&text);
        workbook.set("plumbing.loop", "glycol").unwrap(); // a loop with a vessel
        let state = workbook.evaluation().step(&at(of)).unwrap();
        match &state.standing {
            Standing::Waiting(first) => {
                assert!(first.contains(&at(firm)), "{of}: {first:?}");
                let error = workbook.let_come_first(&at(of), &reason("Ines", "Tomas", "Ines")).unwrap_err().to_string();
                assert!(error.contains("the order itself protects") && error.contains(firm), "{error}");
            }
            other => assert_eq!(other.word(), "held", "{of}"),
        }
    }
}
