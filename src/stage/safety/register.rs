//! The hazard register: which checks, of whatever stage, watch over which hazard. Nothing is computed here.
//!
//! In the order of the reference note on dangers, sections 1.1 to 1.15.

use super::super::{Check, Severity, check};

/// One hazard.
#[derive(Debug)]
pub struct Hazard {
    /// Its key.
    pub key: &'static str,
    /// Its name for people.
    pub title: &'static str,
    /// The checks that watch over it.
    pub checks: &'static [&'static str],
}

impl Hazard {
    /// The checks that watch over it, as they are declared.
    pub fn watched_by(&self) -> impl Iterator<Item = &'static Check> {
        self.checks.iter().filter_map(|id| check(id))
    }

    /// How bad it is at the worst.
    pub fn severity(&self) -> Severity {
        self.watched_by().map(|check| check.severity).max().unwrap_or(Severity::Deadly)
    }

    /// Whether it usually needs a licensed person or a permit: whether any of its checks names somebody to ask.
    pub fn is_licensed(&self) -> bool {
        self.watched_by().any(|check| !check.ask.is_empty())
    }
}

const fn hazard(key: &'static str, title: &'static str, checks: &'static [&'static str]) -> Hazard {
    Hazard { key, title, checks }
}

/// All hazards.
pub static REGISTER: &[Hazard] = &[
    hazard(
        "stagnation",
        "materials that the empty panel overheats",
        &[
            "safety.stagnation-material",
            "absorber.sheet-solder",
            "absorber.paint-cure",
            "enclosure.insulation-limit",
            "enclosure.second-insulation",
            "enclosure.plastic-cover",
            "enclosure.sealant",
            "plumbing.run-insulation",
        ],
    ),
    hazard(
        "joints",
        "joints under pressure and heat",
        &["safety.joint-pressure", "absorber.pressure-joints", "absorber.joint-rating", "absorber.joint-kind"],
    ),
    hazard(
        "plastics",
        "hoses and plastics that heat or steam reaches",
        &["plumbing.hose-rating", "enclosure.link-hose"],
    ),
    hazard("timber", "timber that chars", &["enclosure.timber-behind", "enclosure.timber-rail", "enclosure.stub-hole"]),
    hazard("torch", "fire at the torch", &["safety.torch-place", "safety.fire-watch", "safety.cylinders"]),
    hazard("harp", "a wet or closed harp under the torch", &["safety.harp-open"]),
    hazard("steam", "steam", &["safety.steam", "plumbing.steam-parts", "plumbing.lockout"]),
    hazard(
        "relief",
        "relief valve: path, size, setting, discharge",
        &[
            "safety.relief-path",
            "plumbing.relief-reach",
            "plumbing.relief-chain",
            "safety.relief-setting",
            "safety.relief-size",
            "safety.discharge",
        ],
    ),
    hazard(
        "vessel",
        "room for what expands",
        &["plumbing.vessel-size", "plumbing.precharge", "plumbing.reservoir-size", "plumbing.potable-expansion"],
    ),
    hazard("trapped", "liquid that is shut in", &["safety.relief-path", "plumbing.relief-reach"]),
    hazard("scald", "scald", &["safety.scald", "safety.scald-year", "safety.tap-valve", "safety.tank-limit"]),
    hazard(
        "legionella",
        "legionella",
        &["safety.legionella", "safety.legionella-days", "safety.outlets", "site.public-water"],
    ),
    hazard(
        "frost",
        "frost",
        &[
            "safety.freezing",
            "safety.frost-valve",
            "site.record-low",
            "plumbing.drain-falls",
            "commissioning.drained-litres",
        ],
    ),
    hazard("power-cut", "power cut", &["safety.power-cut"]),
    hazard("cross-connection", "loop beside drinking water", &["safety.cross-connection"]),
    hazard("cold-slug", "cold start of a glycol loop", &["safety.cold-slug", "plumbing.cold-slug"]),
    hazard("lead", "lead", &["safety.lead", "safety.lead-surfaces"]),
    hazard(
        "metals",
        "metals that eat each other",
        &["safety.galvanic", "absorber.mixed-metals", "enclosure.cap-metals", "site.water-chloride", "site.water-ph"],
    ),
    hazard("fume", "flux and fume", &["safety.fume"]),
    hazard("dust", "dust", &["safety.dust"]),
    hazard(
        "glass",
        "glass",
        &[
            "enclosure.glass-kind",
            "enclosure.glass-seat",
            "enclosure.square",
            "enclosure.glass-confirmed",
            "safety.glass-handling",
        ],
    ),
    hazard("height", "work at height", &["safety.height", "safety.ladder"]),
    hazard("lift", "lifting and carrying", &["enclosure.lift", "safety.handling-wind"]),
    hazard(
        "wind-snow",
        "wind, snow and anchorage",
        &[
            "enclosure.chain",
            "enclosure.lag-fit",
            "enclosure.roof-load",
            "enclosure.desk-rule",
            "enclosure.rack-stands",
            "enclosure.wind-on-glass",
            "enclosure.glass-snow",
            "enclosure.pane-pressure",
            "site.local-loads",
        ],
    ),
    hazard("roof", "holes in the roof, and its edge", &["safety.roof-holes", "enclosure.flush-limits"]),
    hazard("mains", "mains, bonding", &["safety.electrical", "safety.mains", "safety.bonding"]),
    hazard("hot-surfaces", "hot surfaces", &["safety.hot-surfaces"]),
    hazard("pressure-test", "pressure under test", &["commissioning.test-medium", "commissioning.test-pressure"]),
    hazard("liquid", "poison and stale liquid in the loop", &["safety.cross-connection", "commissioning.liquid-ph"]),
    hazard(
        "licences",
        "licences, permit, inspection",
        &["safety.licensed", "safety.licence-dates", "safety.inspection"],
    ),
];

/// The hazard of a key.
pub fn named(key: &str) -> Option<&'static Hazard> {
    REGISTER.iter().find(|hazard| hazard.key == key)
}
