//! What all cutting from stock has in common: lengths as the plans count them, and how many of a stock there are.
//!
//! The plans live in `physics::cutting` and `physics::guillotine`; which entries they come from, in the stages.

use crate::model::{Entry, Fig, Inputs, Why};
use crate::physics::cutting::Tenths;
use crate::units::si::Length;

/// A length in whole tenths of a millimetre.
pub fn tenths(length: Length) -> Fig<Tenths> {
    Tenths::rounded(length).map_err(Why::out_of_range)
}

/// A count as the plans keep it; what is beyond them counts as the most.
pub fn counted(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

/// How many of a stock lie there; none where any number can be bought.
pub fn available(inputs: &Inputs, count: &Entry<usize>, name: &str) -> Fig<Option<u32>> {
    match inputs.at(count, name) {
        Ok(count) => Ok(Some(counted(count))),
        Err(Why::Missing(_)) => Ok(None),
        Err(why) => Err(why),
    }
}
