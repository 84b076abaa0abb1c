//! What is left when the risers are cut, and what can still be made of it.

use super::cutting::{KERF, RISER_CUTS, best};
use crate::model::{Entry, EntrySpec, Fig, Why};
use crate::physics::cutting::Tenths;
use crate::stage::stock::tenths;
use crate::stage::{Axis, Figure, Group, Solution};
use crate::units::si::Length;
use crate::units::{Kind, Quantity};

/// A piece that somebody would like to have.
pub static LEFTOVER_PIECE: Entry<Length> = Entry::quantity("absorber.leftover_piece", "piece wanted from leftovers")
    .why("such as a stub or a sensor pocket: how many do the riser offcuts still give")
    .hard(0.005, 10.0)
    .usual(0.02, 1.0);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[&LEFTOVER_PIECE.spec];

static YIELD: Group =
    Group { name: "pieces from leftovers", entries: &["absorber.leftover_piece"], groups: &[&RISER_CUTS] };

/// The offcuts of the best plan, longest first.
pub fn offcuts(s: &Solution) -> Fig<Vec<Tenths>> {
    let mut left: Vec<Tenths> = best(s)?.bars.iter().map(|bar| bar.offcut).filter(|left| left.0 > 0).collect();
    left.sort_unstable_by(|a, b| b.cmp(a));
    Ok(left)
}

/// Pieces of one length that offcuts give, a cut between any two: Σ ⌊(offcut + cut)/(piece + cut)⌋.
fn pieces(offcuts: &[Tenths], piece: Tenths, kerf: Tenths) -> u64 {
    let whole =
        |left: &Tenths| (u64::from(left.0) + u64::from(kerf.0)) / (u64::from(piece.0) + u64::from(kerf.0)).max(1);
    offcuts.iter().map(whole).sum()
}

/// The figures of this file.
pub static FIGURES: &[Figure] = &[
    Figure::new("absorber.riser_offcut", "offcut, longest first", Kind::Length, &RISER_CUTS, |s, key| {
        let index: usize = key.parse().map_err(|_| Why::missing("absorber.riser_stock.*.length"))?;
        let left = offcuts(s)?;
        let offcut = index.checked_sub(1).and_then(|index| left.get(index));
        offcut
            .map(|offcut| offcut.length().into())
            .ok_or_else(|| Why::out_of_range(format_args!("there is no offcut {key}")))
    })
    .axis(Axis::Offcut)
    .by("cut-plan", "bar less trims, pieces and cuts", &[]),
    Figure::new("absorber.leftover_pieces", "pieces that the offcuts still give", Kind::Count, &YIELD, |s, _| {
        let piece = tenths(s.inputs.get(&LEFTOVER_PIECE)?)?;
        let count = pieces(&offcuts(s)?, piece, tenths(s.inputs.get(&KERF)?)?);
        Ok(Quantity::new(Kind::Count, count as f64).into())
    })
    .by("cut-plan", "Σ ⌊(offcut + cut)/({piece} + cut)⌋", &[("piece", "absorber.leftover_piece")]),
];

#[cfg(test)]
mod tests {
    use super::*;

    /// By arithmetic: 720 mm gives 11 pieces of 63 mm, with a cut of 2 mm ⌊722/65⌋ = 11; 64 mm one; 62 mm none.
    #[test]
    fn leftovers_give_whole_pieces_only() {
        let left = [Tenths(7200), Tenths(640), Tenths(620)];
        assert_eq!(pieces(&left, Tenths(630), Tenths(0)), 12);
        assert_eq!(pieces(&left, Tenths(630), Tenths(20)), 12);
        assert_eq!(pieces(&[], Tenths(630), Tenths(0)), 0);
    }
}
