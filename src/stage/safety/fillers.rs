//! What the project says is melted into its pressure joints: the entries of this stage, of the absorber and the joint log.
//!
//! Lives here: which names are given, and where. Must not live here: what is thought of them (`metals`, `shop`).

use super::entries::{shop, water};
use crate::model::{Entry, Fig, Inputs, Why};
use crate::stage::absorber::entries::{self as absorber, Filler};
use crate::stage::absorber::{joint_log, suits};

/// Every filler of the pressure joints. The one that the kind of joint asks for must be there, or the alloy of the headers
/// instead of it; what the joint log holds is listed as well, because that is what was done.
pub fn of_joints(inputs: &Inputs) -> Fig<Vec<String>> {
    let asked: &Entry<String> = match inputs.get(&absorber::HEADER_FILLER)? {
        Filler::Brazed => &shop::BRAZING_FILLER,
        Filler::Soldered => &water::JOINT_SOLDER,
    };
    let (own, header) = (inputs.given(asked)?, inputs.given(&suits::HEADER_ALLOY)?);
    if own.is_none() && header.is_none() {
        return Err(Why::missing(asked.spec.id));
    }
    let mut names: Vec<String> = own.into_iter().chain(header).collect();
    for row in inputs.keys(&joint_log::ALLOY.spec) {
        names.push(inputs.at(&joint_log::ALLOY, &row)?);
    }
    names.sort();
    names.dedup();
    Ok(names)
}
