//! Metals in contact: how far apart they lie and what that permits.
//!
//! Only the comparison lives here; the series itself is in the handbook.

use super::domain::{DomainError, within};

/// Surroundings of a contact.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Surroundings {
    /// Outdoors, damp or salty.
    Harsh,
    /// Indoors without control of moisture.
    Normal,
    /// Dry and controlled.
    Controlled,
}

impl Surroundings {
    /// Largest difference of anodic index, V: 0.15, 0.25, 0.50 (page "Galvanic table", verified).
    pub fn largest_difference(self) -> f64 {
        match self {
            Self::Harsh => 0.15,
            Self::Normal => 0.25,
            Self::Controlled => 0.50,
        }
    }
}

/// Anodic indices of two metals in contact, V, from the same series.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// One metal.
    pub first_volts: f64,
    /// The other metal.
    pub second_volts: f64,
}

/// Which metal of a contact is eaten.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anode {
    /// The first one.
    First,
    /// The second one.
    Second,
    /// Neither: they are alike.
    Neither,
}

/// What a contact comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Galvanic {
    /// Size of the difference, V.
    pub difference: f64,
    /// The metal with the lower index corrodes.
    pub anode: Anode,
    /// The difference is within the limit of the surroundings.
    pub within_limit: bool,
}

/// Compares two metals by their anodic indices (−2 to 0.5 V).
///
/// A large anode beside a small cathode fares better than the figure says, the reverse worse.
pub fn compare(contact: Contact, surroundings: Surroundings) -> Result<Galvanic, DomainError> {
    let first = within("anodic index", contact.first_volts, -2.0, 0.5)?;
    let second = within("anodic index", contact.second_volts, -2.0, 0.5)?;
    let anode = match first.total_cmp(&second) {
        std::cmp::Ordering::Less => Anode::First,
        std::cmp::Ordering::Greater => Anode::Second,
        std::cmp::Ordering::Equal => Anode::Neither,
    };
    let difference = (first - second).abs();
    Ok(Galvanic { difference, anode, within_limit: difference <= surroundings.largest_difference() + 1e-9 })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_lower_metal_is_eaten() {
        let contact = Contact { first_volts: -0.35, second_volts: -0.90 };
        let result = compare(contact, Surroundings::Controlled).unwrap();
        assert_eq!((result.anode, result.within_limit), (Anode::Second, false));
        let same = compare(Contact { first_volts: -0.35, second_volts: -0.35 }, Surroundings::Harsh).unwrap();
        assert_eq!((same.anode, same.within_limit), (Anode::Neither, true));
    }
}
