//! Procedures: what is done in order, on one page, with this project's numbers; some lines are judged.
//!
//! Lives here: what a procedure is made of, and the list of all. Must not live here: how it is printed.

use super::commissioning::procedures;
use crate::model::OnlyFor;

/// One line of a procedure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// Something to do or to hand over, ids in braces.
    Do(&'static str),
    /// The same, where it applies at all.
    DoIn(OnlyFor, &'static str),
    /// Something that a check judges: words and the check's id.
    Check(&'static str, &'static str),
    /// Something that a step stands for: words and the step's id.
    Step(&'static str, &'static str),
}

/// A procedure.
#[derive(Debug)]
pub struct Procedure {
    /// What it is called on the command line.
    pub name: &'static str,
    /// What it is.
    pub title: &'static str,
    /// When it is wanted.
    pub when: &'static str,
    /// Its lines in order.
    pub lines: &'static [Line],
    /// What can hurt.
    pub cautions: &'static [&'static str],
}

/// All procedures.
pub fn procedures() -> &'static [Procedure] {
    procedures::PROCEDURES
}

/// The procedure of a name.
pub fn procedure(name: &str) -> Option<&'static Procedure> {
    procedures().iter().find(|procedure| procedure.name == name)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::{check, entry, figure, step};

    #[test]
    fn procedures_name_declared_things_only() {
        for procedure in procedures() {
            for line in procedure.lines {
                match line {
                    Line::Check(_, id) => assert!(check(id).is_some(), "{id}"),
                    Line::Step(_, id) => assert!(step(id).is_some(), "{id}"),
                    Line::Do(text) | Line::DoIn(_, text) => {
                        for id in text.split('{').skip(1).filter_map(|rest| Some(rest.split_once('}')?.0)) {
                            assert!(figure(id).is_some() || entry(id).is_some(), "{id} of {}", procedure.name);
                        }
                    }
                }
            }
        }
    }
}
