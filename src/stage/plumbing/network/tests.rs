//! Order of runs, branches, and every fault of the notation.

use super::*;
use crate::stage;
use crate::units::System;

fn inputs(rows: &[(&str, &str)]) -> Inputs {
    use crate::model::inputs::Given;
    let given = rows.iter().map(|(id, typed)| {
        let value = stage::entry(id).unwrap().read(typed).map_err(|_| Why::Invalid(vec![(*id).to_owned()]));
        assert!(value.is_ok() || System::Si == System::Us, "{id} = {typed}");
        ((*id).to_owned(), Given { typed: (*typed).to_owned(), value })
    });
    Inputs::resolve(stage::entries(), &given.collect(), &crate::model::Entries::new(), &[])
}

const RING: [(&str, &str); 12] = [
    ("plumbing.part.panels.kind", "panels"),
    ("plumbing.part.tank.kind", "tank"),
    ("plumbing.part.pump.kind", "pump"),
    ("plumbing.part.relief.kind", "relief valve"),
    ("plumbing.part.vent.kind", "air vent"),
    ("plumbing.run.down.from", "panels"),
    ("plumbing.run.down.to", "tank"),
    ("plumbing.run.down.along", "vent"),
    ("plumbing.run.up.from", "tank"),
    ("plumbing.run.up.to", "joint"),
    ("plumbing.run.up.along", "pump"),
    ("plumbing.run.last.from", "joint"),
];

const REST: [(&str, &str); 3] =
    [("plumbing.run.last.to", "panels"), ("plumbing.run.blow.from", "joint"), ("plumbing.run.blow.to", "relief")];

fn changed(changes: &[(&'static str, &'static str)]) -> Inputs {
    let mut rows: Vec<(&str, &str)> = RING.into_iter().chain(REST).collect();
    for change in changes {
        rows.retain(|(id, _)| *id != change.0);
        if !change.1.is_empty() {
            rows.push(*change);
        }
    }
    inputs(&rows)
}

fn fault(changes: &[(&'static str, &'static str)]) -> String {
    let found = faults(&changed(changes));
    let fault = found.first().unwrap_or_else(|| panic!("no fault with {changes:?}"));
    format!("{}: {}", fault.id, fault.reason)
}

#[test]
fn the_loop_is_put_in_the_order_of_flow_and_branches_are_set_apart() {
    let network = network(&changed(&[])).unwrap();
    let order: Vec<&str> = network.circuit.iter().map(|stretch| stretch.run.as_str()).collect();
    assert_eq!(order, ["down", "up", "last"]);
    assert_eq!(network.branches.len(), 1);
    assert!(network.hanging_at("joint").any(|name| name == "relief"));
}

#[test]
fn every_slip_of_the_notation_is_named_at_its_entry() {
    let cases: [(&[(&'static str, &'static str)], &str); 8] = [
        (
            &[("plumbing.run.down.along", "vnet")],
            "plumbing.run.down.along: no part is called 'vnet'; did you mean 'vent'?",
        ),
        (&[("plumbing.run.down.to", "tnk")], "plumbing.run.down.to: the run ends at 'tnk', where nothing goes on"),
        (&[("plumbing.run.down.along", "")], "plumbing.part.vent.kind: 'vent' stands nowhere"),
        (&[("plumbing.run.up.along", "pump, vent")], "plumbing.run.up.along: 'vent' stands in the loop twice"),
        (&[("plumbing.run.up.to", "tank")], "plumbing.run.up.to: run 'up' ends where it begins"),
        (&[("plumbing.part.panels.kind", "filter")], "no part of the loop is of the kind 'panels'"),
        (&[("plumbing.run.blow.to", "panels"), ("plumbing.run.last.along", "relief")], "the loop parts at 'joint'"),
        (&[("plumbing.run.down.along", "vent, tank")], "'tank' must be the end of a run, not along it"),
    ];
    for (changes, expected) in cases {
        let found = fault(changes);
        assert!(found.contains(expected), "{changes:?}: {found}");
    }
}

#[test]
fn a_loop_without_a_return_is_named() {
    let open = RING[..8].iter().filter(|(id, _)| !id.contains("pump") && !id.contains("relief"));
    let found = faults(&inputs(&open.copied().collect::<Vec<_>>()));
    assert_eq!(found[0].id, "plumbing.run.down.to");
    assert!(found[0].reason.contains("the loop does not come back"), "{}", found[0].reason);
}

#[test]
fn nothing_is_wrong_with_a_loop_that_is_not_written() {
    assert_eq!(network(&inputs(&[])), Err(Why::missing("plumbing.run.*.from")));
    assert_eq!(faults(&inputs(&[])), []);
}
