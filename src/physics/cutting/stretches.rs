//! The usable stretches of a bar with defects.

use super::Tenths;

/// A stretch of a bar, from its datum end.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Stretch {
    /// Where it begins.
    pub from: Tenths,
    /// Where it ends.
    pub to: Tenths,
}

impl Stretch {
    /// Its length.
    pub fn length(self) -> Tenths {
        Tenths(self.to.0.saturating_sub(self.from.0))
    }
}

/// What can be used of a bar: its ends trimmed, its defects cut out, in order from the datum end.
///
/// Defects may overlap, lie in the trim or reach beyond the bar. A bar without any usable stretch gives none. Geometry,
/// no source.
pub fn usable(length: Tenths, end_trim: Tenths, defects: &[Stretch]) -> Vec<Stretch> {
    let end = length.0.saturating_sub(end_trim.0);
    let mut from = end_trim.0;
    let mut bad: Vec<Stretch> = defects.to_vec();
    bad.sort_unstable();
    let mut good = Vec::new();
    for defect in bad {
        let to = defect.from.0.min(end);
        if to > from {
            good.push(Stretch { from: Tenths(from), to: Tenths(to) });
        }
        from = from.max(defect.to.0);
    }
    if end > from {
        good.push(Stretch { from: Tenths(from), to: Tenths(end) });
    }
    good
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn defects_are_cut_out_and_ends_trimmed() {
        let stretch = |from, to| Stretch { from: Tenths(from), to: Tenths(to) };
        let good =
            usable(Tenths(24_000), Tenths(100), &[stretch(9_000, 9_500), stretch(9_300, 10_000), stretch(50, 400)]);
        assert_eq!(good, vec![stretch(400, 9_000), stretch(10_000, 23_900)]);
        assert_eq!(usable(Tenths(1_000), Tenths(100), &[stretch(0, 1_000)]), vec![]);
        assert_eq!(usable(Tenths(1_000), Tenths(100), &[]), vec![stretch(100, 900)]);
    }
}
