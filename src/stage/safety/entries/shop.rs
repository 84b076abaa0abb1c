//! What the safety stage asks about the work at the torch and the bench: fume, dust, fire, metals that touch.

use crate::handbook::{galvanic, solder};
use crate::model::{Choice, Entry, EntrySpec, Fold};
use crate::units::si::{Area, Length, Ratio};

/// Joints of one session.
pub static JOINTS: Entry<usize> = Entry::count("safety.joints_session", "joints in one session")
    .why("soldered or brazed between two breaks: fume and tiredness go with them")
    .hard(0.0, 1000.0)
    .usual(1.0, 60.0);

/// Flux.
pub static FLUX: Entry<Flux> = Entry::choice("safety.flux", "flux")
    .why("rosin causes asthma, zinc chloride and brazing flux burn eyes and skin; read its safety sheet");

/// Filler of the brazed joints.
pub static BRAZING_FILLER: Entry<String> = Entry::listed("safety.brazing_filler", "brazing filler", filler_names)
    .why("by its class on the rod; one with cadmium gives a fume that kills");

/// Treated timber.
pub static TREATED: Entry<bool> = Entry::flag("safety.treated_timber", "treated or painted wood inside")
    .why("inside the box it gives off fume onto the glass, and copper salts eat other metals; old stock holds arsenic");

/// Protection from dust.
pub static DUST: Entry<bool> = Entry::flag("safety.dust_protection", "mask, goggles and gloves worn")
    .why("P2 or N95 mask when wood is sawn and wool is cut");

/// Torch.
pub static TORCH: Entry<Torch> = Entry::choice("safety.torch", "torch").why("decides what cylinders and hoses need");

/// Cylinders.
pub static CYLINDERS: Entry<bool> = Entry::flag("safety.cylinders_secured", "cylinders upright and chained")
    .why("outdoors or well aired, away from the flame, shut at every break, leak-tested with soap");

/// Flashback arrestors.
pub static ARRESTORS: Entry<bool> = Entry::flag("safety.flashback_arrestors", "flashback arrestors fitted")
    .why("on both hoses of a torch that burns gas with oxygen");

/// Clear distance at the torch.
pub static CLEARED: Entry<Length> = Entry::quantity("safety.hot_work_clear", "nothing that burns within")
    .why("around the flame, behind the work and below it: timber, wool, paper, cloth, dry grass")
    .hard(0.0, 100.0);

/// Shield at the torch.
pub static SHIELD: Entry<bool> = Entry::flag("safety.torch_shield", "shield between flame and what burns")
    .why("sheet metal with an air gap, or a mat made for it; wet cloth dries out");

/// Extinguisher.
pub static EXTINGUISHER: Entry<bool> =
    Entry::flag("safety.extinguisher", "extinguisher within reach").why("and a bucket of water for burned hands");

/// Harp open before heat.
pub static HARP_OPEN: Entry<bool> = Entry::flag("safety.harp_open", "harp empty, dry, open at both ends")
    .why("looked through or blown through just before the flame")
    .per_panel()
    .measured(Fold::Latest);

/// Metal of what touches the copper.
pub static CONTACT_METAL: Entry<String> =
    Entry::listed("safety.contact_metal", "metal that touches the copper", metals)
        .why("clips, screws, brackets, flashing: the worst of them");

/// Whether it is parted.
pub static CONTACT_PARTED: Entry<bool> = Entry::flag("safety.contact_parted", "plastic or EPDM between them")
    .why("a dry layer that parts the metals and stands the heat there");

/// Galvanised steel in the loop.
pub static GALVANISED: Entry<bool> = Entry::flag("safety.galvanised_in_loop", "galvanised parts in the loop")
    .why("pipe, tank or fitting that the same water meets as the copper");

/// Wetted area of a part.
pub static WETTED_AREA: Entry<Area> = Entry::quantity("safety.wetted.*.area", "wetted area of one part")
    .why("surface that drinking water touches, of each brass or bronze part: mixing valve, fitting, pump")
    .hard(1e-8, 100.0);

/// Lead in that part.
pub static WETTED_LEAD: Entry<Ratio> = Entry::percent("safety.wetted.*.lead", "lead in that part")
    .why("percent by mass, from its mark or sheet; ordinary brass holds 2 to 3 % (from memory)")
    .hard(0.0, 1.0);

/// The entries of this file.
pub static ENTRIES: &[&EntrySpec] = &[
    &JOINTS.spec,
    &FLUX.spec,
    &BRAZING_FILLER.spec,
    &TREATED.spec,
    &DUST.spec,
    &TORCH.spec,
    &CYLINDERS.spec,
    &ARRESTORS.spec,
    &CLEARED.spec,
    &SHIELD.spec,
    &EXTINGUISHER.spec,
    &HARP_OPEN.spec,
    &CONTACT_METAL.spec,
    &CONTACT_PARTED.spec,
    &GALVANISED.spec,
    &WETTED_AREA.spec,
    &WETTED_LEAD.spec,
];

fn filler_names() -> Vec<(&'static str, &'static str)> {
    solder::brazing_fillers().all().iter().map(|filler| (filler.name.as_str(), filler.composition.as_str())).collect()
}

fn metals() -> Vec<(&'static str, &'static str)> {
    galvanic::anodic_indices().all().iter().map(|metal| (metal.name.as_str(), "")).collect()
}

/// Flux.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Flux {
    /// None: a filler that fluxes itself on copper.
    None,
    /// Rosin.
    Rosin,
    /// Zinc or ammonium chloride.
    Chloride,
    /// Borate and fluoride.
    Brazing,
}

impl Choice for Flux {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::None, "none", "a copper-phosphorus filler on bare copper fluxes itself"),
        (Self::Rosin, "rosin", "its smoke makes people allergic for life"),
        (Self::Chloride, "chloride", "zinc or ammonium chloride, also most water-washable pastes"),
        (Self::Brazing, "brazing flux", "borate and fluoride"),
    ];
}

/// Torch.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Torch {
    /// A cartridge in the hand.
    Hand,
    /// A cylinder and one hose; the flame takes its air from around it.
    AirFuel,
    /// Two cylinders.
    OxyFuel,
}

impl Choice for Torch {
    const OPTIONS: &'static [(Self, &'static str, &'static str)] = &[
        (Self::Hand, "hand torch", "a cartridge in the hand"),
        (Self::AirFuel, "air-fuel", "a cylinder and one hose"),
        (Self::OxyFuel, "oxy-fuel", "gas and oxygen from two cylinders"),
    ];
}
