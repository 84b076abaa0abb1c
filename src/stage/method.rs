//! The methods that figures are computed by, with their sources. docs/methods.md is written from these tables.

use super::{absorber, commissioning, enclosure, materials, plumbing, safety, site, waits};

/// A method.
#[derive(Debug, PartialEq, Eq)]
pub struct Method {
    /// Its name, as figures refer to it.
    pub id: &'static str,
    /// A short name for people.
    pub title: &'static str,
    /// What it does and where it holds, in a few sentences.
    pub what: &'static str,
    /// Where it was published; what is recalled says "from memory".
    pub source: &'static str,
    /// The file and function that compute it.
    pub code: &'static str,
}

/// All methods, in the order of the stages.
pub fn methods() -> impl Iterator<Item = &'static Method> {
    [
        site::methods::METHODS,
        absorber::methods::METHODS,
        enclosure::methods::METHODS,
        enclosure::glass::rows::METHODS,
        enclosure::capping::rows::METHODS,
        enclosure::links::rows::METHODS,
        enclosure::loads::rows::METHODS,
        enclosure::rack::rows::METHODS,
        enclosure::rack::desk::METHODS,
        enclosure::chain::METHODS,
        materials::rows::METHODS,
        waits::METHODS,
        plumbing::methods::METHODS,
        plumbing::year::methods::METHODS,
        plumbing::money::rows::METHODS,
        safety::methods::METHODS,
        commissioning::methods::METHODS,
    ]
    .into_iter()
    .flatten()
}

/// The method of a name.
pub fn method(id: &str) -> Option<&'static Method> {
    methods().find(|method| method.id == id)
}
