//! What can be shut in, on loops small enough to see it.

use super::*;

fn stretch(run: &str, from: &str, along: &[&str], to: &str) -> Stretch {
    let along = along.iter().map(|name| (*name).to_owned()).collect();
    Stretch { run: run.to_owned(), from: from.to_owned(), to: to.to_owned(), along }
}

fn network(circuit: Vec<Stretch>, branches: Vec<Stretch>, parts: &[(&str, PartKind)]) -> Network {
    Network { circuit, branches, parts: parts.iter().map(|(name, kind)| ((*name).to_owned(), *kind)).collect() }
}

fn found(network: &Network, locked: &[&str]) -> Vec<String> {
    let sections = Graph::of(network, &locked.iter().copied().collect()).sections();
    sections.iter().map(ShutIn::words).collect()
}

const PARTS: [(&str, PartKind); 7] = [
    ("panels", PartKind::Panels),
    ("tank", PartKind::Tank),
    ("pump", PartKind::Pump),
    ("check", PartKind::CheckValve),
    ("relief", PartKind::ReliefValve),
    ("v1", PartKind::IsolatingValve),
    ("v2", PartKind::IsolatingValve),
];

#[test]
fn panels_between_two_valves_are_shut_in_until_one_handle_is_off() {
    let ring = network(
        vec![stretch("down", "panels", &["v1"], "tank"), stretch("up", "tank", &["relief", "pump", "v2"], "panels")],
        vec![],
        &PARTS,
    );
    assert_eq!(found(&ring, &[]), ["panels, run down, run up (shut by v1 and v2)"]);
    assert!(found(&ring, &["v1"]).is_empty());
    assert!(found(&ring, &["v2"]).is_empty());
}

#[test]
fn a_check_valve_lets_pressure_out_with_the_flow_only() {
    // Relief behind the check valve: the panel's pressure passes with the flow.
    let before =
        vec![stretch("down", "panels", &["check", "relief", "v1"], "tank"), stretch("up", "tank", &["v2"], "panels")];
    let shut = found(&network(before, vec![], &PARTS), &[]);
    assert_eq!(shut, ["tank, run down, run up (shut by v1 and v2)"]);
    // Relief before it: against the flow nothing passes.
    let behind =
        vec![stretch("down", "panels", &["v1"], "tank"), stretch("up", "tank", &["relief", "check"], "panels")];
    assert_eq!(found(&network(behind, vec![], &PARTS), &[]), ["panels, run down, run up (shut by check and v1)"]);
}

#[test]
fn a_valve_before_the_relief_valve_itself_shuts_everything_in() {
    let ring = vec![stretch("down", "panels", &[], "tank"), stretch("up", "tank", &["pump"], "panels")];
    let branch = vec![stretch("blow", "tank", &["v1"], "relief")];
    let shut = found(&network(ring, branch, &PARTS), &[]);
    assert_eq!(shut.len(), 1);
    assert!(shut[0].contains("panels") && shut[0].contains("shut by v1"), "{shut:?}");
}

#[test]
fn a_loop_without_any_opening_is_shut_in_as_a_whole() {
    let ring = vec![stretch("down", "panels", &[], "tank"), stretch("up", "tank", &[], "panels")];
    assert_eq!(found(&network(ring, vec![], &PARTS), &[]), ["panels, tank, run down, run up"]);
}
