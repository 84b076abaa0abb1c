//! What a stage needs from the shop: the bill of materials is the sum of all demands.

use crate::units::Quantity;

/// So much of one thing for one purpose.
#[derive(Clone, Debug, PartialEq)]
pub struct Demand {
    /// The name of the line on the bill and of its table in the file: words with hyphens, such as `riser-tube`. It stays
    /// when the size that is chosen changes. Demands of one key ask for one and the same item.
    pub key: &'static str,
    /// The thing, by the name it is bought under.
    pub item: String,
    /// Where in the shop it lies.
    pub shelf: Shelf,
    /// How much for all panels, without scrap: a length, an area, a mass, a volume or a count.
    pub quantity: Quantity,
    /// What it is for.
    pub purpose: &'static str,
    /// Usual share of what is used that goes to scrap, on top of the quantity.
    pub scrap: f64,
}

/// Where in the shop a thing lies. In the order of a walk through it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Shelf {
    /// Tube and sheet.
    Metal,
    /// Solder, brazing rod, flux.
    Soldering,
    /// Timber and boards.
    Timber,
    /// Insulation.
    Insulation,
    /// Glass, caps, blocks, tapes.
    Glazing,
    /// Paint, sealant, tape.
    Paint,
    /// Screws, lags, anchors, brackets.
    Fastenings,
    /// Pipe, fittings, valves, hoses, pump, tank.
    Plumbing,
    /// Sensors, wire, controller.
    Electrical,
    /// Everything else.
    Other,
}

impl Shelf {
    /// Its name over the lines of the bill.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Metal => "Tube and sheet",
            Self::Soldering => "Soldering and brazing",
            Self::Timber => "Timber and boards",
            Self::Insulation => "Insulation",
            Self::Glazing => "Glass and caps",
            Self::Paint => "Paint and sealant",
            Self::Fastenings => "Screws and anchors",
            Self::Plumbing => "Pipe, fittings, plant",
            Self::Electrical => "Electrical",
            Self::Other => "Other",
        }
    }
}
