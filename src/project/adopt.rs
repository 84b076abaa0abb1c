//! A design taken to another place: what was decided stays, what belongs to the old place and what happened there goes.

use super::document::Document;
use super::merge::SECTION as CONFLICT;
use super::outline::Outline;
use crate::stage;

/// What was taken out of a file on the way to another place.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Adopted {
    /// The new text.
    pub text: String,
    /// Entries of the old place, with the words that stood there.
    pub place: Vec<(String, String)>,
    /// How many records were left behind.
    pub records: usize,
}

/// The text without records, without the days on which panels were begun, and without what belongs to the place.
/// Comments above what stays, stay. None if the text cannot be cut into lines.
pub fn adopt(text: &str) -> Option<Adopted> {
    let document = Document::parse(text).ok()?;
    let mut outline = Outline::of(text, &document)?;
    let mut adopted = Adopted::default();
    outline.sections.retain(|section| {
        let goes = section.path.first().is_some_and(|first| HAPPENED.contains(&first.as_str()));
        adopted.records += usize::from(goes && section.path.len() > 1 && section.path[0] != CONFLICT);
        !goes
    });
    for section in &mut outline.sections {
        let had_items = !section.items.is_empty();
        section.items.retain(|item| {
            let id = item.path.join(".");
            let is_of_place = stage::entry(&id).is_some_and(stage::is_of_place);
            if is_of_place {
                adopted.place.push((id, item.value.clone()));
            }
            let happened = HAPPENED.contains(&item.path[0].as_str());
            let begun = item.path[0] == "panel";
            !(is_of_place || happened || begun)
        });
        // A table of the old place, such as one of its skyline, goes with its last line.
        if had_items && section.items.is_empty() && section.path.len() > 1 && section.path[0] != "panel" {
            section.header.clear();
        }
    }
    outline.sections.retain(|section| section.path.is_empty() || !section.header.is_empty());
    adopted.text = outline.text();
    Some(adopted)
}

/// The first words of what happened at the old place.
const HAPPENED: [&str; 6] = ["reading", "sign_off", "override", "note", "log", CONFLICT];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_design_stays_and_the_old_place_goes() {
        let text = "format = 1\n\n[site]\n# by map\nlatitude = \"36°\"\ntilt = \"40°\" # of the rack\n\n[site.horizon]\n\
                    \"90°\" = \"5°\"\n\n# eleven\n[absorber]\nriser_count = 11\n\n[panel.A]\nstarted = \"2026-04-12\"\n\n\
                    [reading.\"absorber.riser_pitch@A\".2026-04-25-1]\nvalue = \"4 in\"\n";
        let adopted = adopt(text).unwrap();
        let wanted = "format = 1\n\n[site]\ntilt = \"40°\" # of the rack\n\n# eleven\n[absorber]\nriser_count = 11\n\n\
                      [panel.A]\n";
        assert_eq!(adopted.text, wanted);
        assert_eq!(adopted.records, 1);
        let ids: Vec<&str> = adopted.place.iter().map(|(id, _)| id.as_str()).collect();
        assert_eq!(ids, ["site.latitude", "site.horizon.90°"]);
    }
}
