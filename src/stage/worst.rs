//! The worst of several judgements: how one check judges many parts.

use std::collections::BTreeSet;

use crate::model::{Fig, Judgement, Verdict, Why};

/// The judgement that decides: a stop before what is unknown, what is unknown before a caution; among equals the one
/// with the least margin. All missing entries are named together.
pub fn worst(parts: impl IntoIterator<Item = Fig<Judgement>>) -> Fig<Judgement> {
    let mut known: Option<Judgement> = None;
    let mut missing = BTreeSet::new();
    let mut reason: Option<Why> = None;
    for part in parts {
        match part {
            Ok(judgement) => known = Some(known.map_or(judgement.clone(), |so_far| worse(so_far, judgement))),
            Err(Why::Missing(ids)) => missing.extend(ids),
            Err(why) => reason = reason.or(Some(why)),
        }
    }
    if let Some(stop) = known.as_ref().filter(|judgement| judgement.verdict == Verdict::Stop) {
        return Ok(stop.clone());
    }
    match reason {
        Some(why) => Err(why),
        None if !missing.is_empty() => Err(Why::Missing(missing.into_iter().collect())),
        None => Ok(known.unwrap_or(Judgement::of(Verdict::Unknown))),
    }
}

fn worse(a: Judgement, b: Judgement) -> Judgement {
    let margin = |judgement: &Judgement| judgement.margin.map_or(f64::INFINITY, |margin| margin.si);
    // A caution for memory's sake alone, which looking up ends, never hides another one.
    let rank = |judgement: &Judgement| (judgement.verdict, !judgement.from_memory);
    let order = rank(&b).cmp(&rank(&a)).then_with(|| margin(&a).total_cmp(&margin(&b)));
    if order.is_gt() { b } else { a }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Quantity;

    #[expect(clippy::unnecessary_wraps)] // the parts that are judged are results
    fn part(verdict: Verdict, margin: f64, name: &str) -> Fig<Judgement> {
        Ok(Judgement::of(verdict).margin(Quantity::number(margin)).part(name))
    }

    fn named(parts: Vec<Fig<Judgement>>) -> String {
        worst(parts).unwrap().part.unwrap()
    }

    #[test]
    fn a_stop_is_heard_though_other_parts_are_unknown() {
        let parts = vec![part(Verdict::Clear, 9.0, "a"), Err(Why::missing("x")), part(Verdict::Stop, -1.0, "b")];
        assert_eq!(named(parts), "b");
    }

    #[test]
    fn the_least_margin_decides_among_equals() {
        assert_eq!(named(vec![part(Verdict::Clear, 9.0, "a"), part(Verdict::Clear, 2.0, "b")]), "b");
        assert_eq!(named(vec![part(Verdict::Stop, -9.0, "a"), part(Verdict::Stop, -2.0, "b")]), "a");
    }

    #[test]
    fn every_missing_entry_is_named_and_nothing_is_clear_without_it() {
        let parts = vec![Err(Why::missing("x")), part(Verdict::Caution, 1.0, "a"), Err(Why::missing("y"))];
        assert_eq!(worst(parts), Err(Why::Missing(vec!["x".to_owned(), "y".to_owned()])));
        assert_eq!(worst([]).unwrap().verdict, Verdict::Unknown);
    }
}
