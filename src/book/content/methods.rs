//! The methods by which figures are computed, each with its source.

use super::{Block, Item, Section, Tone};
use crate::stage::method::methods;

/// All methods.
pub fn section() -> Section {
    let remark = "A source that was recalled and not looked up says \"from memory\".";
    let mut blocks = vec![Block::Par(Tone::Quiet, remark.to_owned())];
    blocks.extend(methods().map(|method| {
        let mut item = Item::new(Tone::Plain, "", method.title, method.id);
        item.say("", method.what);
        item.say("Source", method.source);
        item.say("Code", method.code);
        Block::Item(item)
    }));
    Section { cautions: false, ..Section::of("methods", "Methods and their sources", blocks) }
}
