//! Where the screws of one line go, so that none meets a hole, a rebate or another screw.
//!
//! Lives here: positions along one line from one datum, spans kept clear, the least number of screws. Must not live
//! here: what the spans are (`stage::enclosure::screws`), what a screw holds (`lag`).

use super::domain::{DomainError, finite, not_negative, positive, within};
use crate::units::si::{Dimension, Length};

/// Most screws of one line.
const MOST_SCREWS: usize = 1000;
/// Lengths closer than this are one, m: the last digits of sums of binary numbers.
const SAME: f64 = 1e-10;

/// A stretch of the line, from the datum.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// Its end nearer to the datum.
    pub from: Length,
    /// Its other end.
    pub to: Length,
}

impl Span {
    /// So much to each side of a middle.
    pub fn around(middle: Length, half: Length) -> Self {
        Self { from: middle - half, to: middle + half }
    }

    /// Whether a position lies inside, its ends not counted.
    pub fn holds(&self, position: Length) -> bool {
        position.si() > self.from.si() + SAME && position.si() < self.to.si() - SAME
    }
}

/// A line of screws that is wanted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ScrewLine<'a> {
    /// From the datum to the other end of the wood.
    pub length: Length,
    /// Least distance of a screw from either end.
    pub end_distance: Length,
    /// Least distance of two screws.
    pub least_spacing: Length,
    /// Largest distance of two screws.
    pub most_spacing: Length,
    /// Where no screw's axis may lie: obstacles already grown by the screw's own half and the wood left beside it.
    pub kept_clear: &'a [Span],
}

/// Why a line has no screws.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum ScrewLayoutError {
    /// A length is outside the law.
    #[error(transparent)]
    Domain(#[from] DomainError),
    /// However the screws are shifted, one spacing is too wide or one end is not held.
    #[error("no layout of screws keeps clear of everything within the largest spacing")]
    NoLayout,
}

/// A line whose lengths were admitted, SI.
struct Admitted {
    length: f64,
    end: f64,
    /// Furthest that the first screw may lie from its end.
    reach: f64,
    least: f64,
    most: f64,
    clear: Vec<(f64, f64)>,
}

impl Admitted {
    fn new(line: &ScrewLine) -> Result<Self, DomainError> {
        let length = positive("length of the line", line.length.si())?;
        let end = within("end distance of the screws", line.end_distance.si(), 0.0, 0.5 * length)?;
        let most = positive("largest spacing of the screws", line.most_spacing.si())?;
        let least = within("least spacing of the screws", line.least_spacing.si(), 1e-3, most)?;
        let mut clear = Vec::with_capacity(line.kept_clear.len());
        for span in line.kept_clear {
            let from = finite("start of an obstacle", span.from.si())?;
            not_negative("length of an obstacle", span.to.si() - from)?;
            clear.push((from, span.to.si()));
        }
        Ok(Self { length, end, reach: end.max(0.5 * most), least, most, clear })
    }

    /// The parts of a stretch in which a screw may stand.
    fn free(&self, from: f64, to: f64) -> Vec<(f64, f64)> {
        let mut parts = vec![(from, to)];
        for &(low, high) in &self.clear {
            let cut = |(a, b): (f64, f64)| [(a, b.min(low)), (a.max(high), b)];
            parts = parts.into_iter().flat_map(cut).filter(|(a, b)| b - a >= -SAME).collect();
        }
        parts.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut joined: Vec<(f64, f64)> = Vec::new();
        for (a, b) in parts {
            match joined.last_mut() {
                Some(last) if a <= last.1 => last.1 = last.1.max(b),
                _ => joined.push((a, b)),
            }
        }
        joined
    }

    /// Where the next screw may stand when the last one stands in any of these parts.
    fn next(&self, parts: &[(f64, f64)]) -> Vec<(f64, f64)> {
        let last = self.length - self.end;
        let mut reached: Vec<(f64, f64)> = Vec::new();
        for &(a, b) in parts.iter().filter(|(a, _)| a + self.least <= last + SAME) {
            reached.extend(self.free(a + self.least, (b + self.most).min(last)));
        }
        reached.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut joined: Vec<(f64, f64)> = Vec::new();
        for (a, b) in reached {
            match joined.last_mut() {
                Some(last) if a <= last.1 => last.1 = last.1.max(b),
                _ => joined.push((a, b)),
            }
        }
        joined
    }
}

/// The point of some parts, cut to a window, that is nearest to a wished one.
fn nearest(parts: &[(f64, f64)], window: (f64, f64), wished: f64) -> Option<f64> {
    parts
        .iter()
        .map(|&(a, b)| (a.max(window.0), b.min(window.1)))
        .filter(|(a, b)| b - a >= -SAME)
        .map(|(a, b)| wished.min(b).max(a.min(b)))
        .min_by(|a, b| (a - wished).abs().total_cmp(&(b - wished).abs()))
}

/// Positions of the fewest screws, from the datum, as near to equal spacing as the spans kept clear allow.
///
/// Every screw keeps the end distance; neighbours keep the least and the largest spacing; none lies inside a span that is
/// kept clear. The first and the last lie within half the largest spacing of their ends; where that cannot be, within
/// the largest spacing, because the corner holds there too. The set of all places that the k-th screw can take is carried
/// along as a union of stretches, so a layout is found whenever there is one; [`ScrewLayoutError::NoLayout`] means that
/// there is none. Own method, no source.
pub fn positions(line: &ScrewLine) -> Result<Vec<Length>, ScrewLayoutError> {
    let mut line = Admitted::new(line)?;
    let found = fewest(&line).or_else(|| {
        line.reach = line.end.max(line.most);
        fewest(&line)
    });
    Ok(found.ok_or(ScrewLayoutError::NoLayout)?.into_iter().map(Length::from_si).collect())
}

fn fewest(line: &Admitted) -> Option<Vec<f64>> {
    let last_window = ((line.length - line.reach).max(line.end), line.length - line.end);
    let mut places = vec![line.free(line.end, line.reach.min(line.length - line.end))];
    loop {
        let now = &places[places.len() - 1];
        if now.is_empty() || places.len() > MOST_SCREWS {
            return None;
        }
        if nearest(now, last_window, last_window.1).is_some() {
            break;
        }
        let next = line.next(now);
        places.push(next);
    }
    let count = places.len();
    let gaps = count as f64 - 1.0;
    let step = if count > 1 { ((line.length - 2.0 * line.end) / gaps).min(line.most) } else { 0.0 };
    let wished = |index: usize| 0.5 * (line.length - step * gaps) + step * index as f64;
    let mut window = last_window;
    let mut found = vec![0.0; count];
    for index in (0..count).rev() {
        let at = nearest(&places[index], window, wished(index))?;
        found[index] = at;
        window = (at - line.most, at - line.least);
    }
    Some(found)
}

/// Positions by equal spacing, whatever is in the way: what a builder marks who does not look.
pub fn equally_spaced(line: &ScrewLine) -> Result<Vec<Length>, DomainError> {
    let line = Admitted::new(line)?;
    let between = line.length - 2.0 * line.end;
    let gaps = (between / line.most).ceil().max(1.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss)] // capped at a thousand, and positive
    let gaps = gaps.min(MOST_SCREWS as f64) as usize;
    Ok((0..=gaps).map(|index| Length::from_si(line.end + between * index as f64 / gaps as f64)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn mm(value: u32) -> Length {
        Length::from_si(f64::from(value) * 1e-3)
    }

    fn line(length: u32, end: u32, spacing: (u32, u32), kept_clear: &[Span]) -> ScrewLine<'_> {
        ScrewLine {
            length: mm(length),
            end_distance: mm(end),
            least_spacing: mm(spacing.0),
            most_spacing: mm(spacing.1),
            kept_clear,
        }
    }

    /// The fewest screws on whole millimetres, by trying every place: another way to the same answer.
    fn fewest_by_trying(length: u32, end: u32, spacing: (u32, u32), spans: &[(u32, u32)]) -> Option<usize> {
        let within = |reach| fewest_within(reach, length, end, spacing, spans);
        within(end.max(spacing.1 / 2)).or_else(|| within(end.max(spacing.1)))
    }

    fn fewest_within(reach: u32, length: u32, end: u32, spacing: (u32, u32), spans: &[(u32, u32)]) -> Option<usize> {
        let free = |at: u32| spans.iter().all(|&(from, to)| at <= from || at >= to);
        let mut now: Vec<u32> = (end..=reach.min(length - end)).filter(|&at| free(at)).collect();
        for count in 1..=MOST_SCREWS {
            if now.iter().any(|&at| at + reach >= length) {
                return Some(count);
            }
            let from = |at: u32| now.iter().any(|&last| (spacing.0..=spacing.1).contains(&at.wrapping_sub(last)));
            let next: Vec<u32> = (end..=length - end).filter(|&at| free(at) && from(at)).collect();
            if next.is_empty() {
                return None;
            }
            now = next;
        }
        None
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(300))]

        #[test]
        fn the_fewest_screws_keep_every_rule_and_are_found_whenever_there_is_a_layout(
            length in 100_u32..900,
            end in 10_u32..40,
            least in 15_u32..40,
            extra in 0_u32..60,
            starts in prop::collection::vec((0_u32..900, 1_u32..90), 0..6),
        ) {
            let spacing = (least, 2 * u32::midpoint(least, least + extra) + 2);
            let spans: Vec<(u32, u32)> = starts.iter().map(|&(from, wide)| (from, from + wide)).collect();
            let kept: Vec<Span> = spans.iter().map(|&(from, to)| Span { from: mm(from), to: mm(to) }).collect();
            let wanted = line(length, end, spacing, &kept);
            let tried = fewest_by_trying(length, end, spacing, &spans);
            match positions(&wanted) {
                Ok(found) => {
                    prop_assert_eq!(Some(found.len()), tried);
                    for at in &found {
                        prop_assert!(kept.iter().all(|span| !span.holds(*at)));
                        prop_assert!(at.si() >= wanted.end_distance.si() - 1e-9);
                        prop_assert!(at.si() <= (wanted.length - wanted.end_distance).si() + 1e-9);
                    }
                    for pair in found.windows(2) {
                        let gap = (pair[1] - pair[0]).si();
                        prop_assert!(gap >= mm(spacing.0).si() - 1e-9 && gap <= mm(spacing.1).si() + 1e-9);
                    }
                }
                Err(error) => {
                    prop_assert_eq!(error, ScrewLayoutError::NoLayout);
                    prop_assert_eq!(tried, None);
                }
            }
        }
    }

    #[test]
    fn a_free_line_is_spaced_equally() {
        let wanted = line(1000, 50, (30, 150), &[]);
        let found = positions(&wanted).unwrap();
        let equal = equally_spaced(&wanted).unwrap();
        assert_eq!((found.len(), equal.len()), (7, 7));
        for (a, b) in found.iter().zip(&equal) {
            assert!((*a - *b).si().abs() < 1e-9, "{a:?} {b:?}");
        }
    }

    #[test]
    fn a_screw_steps_aside_of_a_hole_and_a_hole_wider_than_the_spacing_has_no_layout() {
        let hole = [Span::around(mm(500), mm(30))];
        let found = positions(&line(1000, 50, (30, 150), &hole)).unwrap();
        assert!(found.iter().all(|at| !hole[0].holds(*at)));
        let wide = [Span::around(mm(500), mm(80))];
        assert_eq!(positions(&line(1000, 50, (30, 150), &wide)), Err(ScrewLayoutError::NoLayout));
    }

    #[test]
    fn nonsense_is_refused() {
        let turned = [Span { from: mm(20), to: mm(10) }];
        assert!(matches!(positions(&line(100, 10, (10, 50), &turned)), Err(ScrewLayoutError::Domain(_))));
        assert!(matches!(positions(&line(100, 60, (10, 50), &[])), Err(ScrewLayoutError::Domain(_))));
        assert!(matches!(positions(&line(100, 10, (60, 50), &[])), Err(ScrewLayoutError::Domain(_))));
    }
}
