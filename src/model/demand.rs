//! What a stage needs from the shop: the bill of materials is the sum of all demands.

use crate::units::Quantity;

/// So much of one thing for one purpose.
#[derive(Clone, Debug, PartialEq)]
pub struct Demand {
    /// The thing, by the name it is bought under.
    pub item: String,
    /// How much, without scrap.
    pub quantity: Quantity,
    /// What it is for.
    pub purpose: &'static str,
}

impl Demand {
    /// So much of `item` for `purpose`.
    pub fn new(item: impl Into<String>, quantity: impl Into<Quantity>, purpose: &'static str) -> Self {
        Self { item: item.into(), quantity: quantity.into(), purpose }
    }
}
