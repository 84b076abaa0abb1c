//! The known word that a mistyped one most likely meant.

use super::spelling::edit_distance;

/// The known word nearest to what was typed; none if nothing is near enough to be meant.
///
/// Near enough is a third of the typed length in single edits, at least two; a word that the typed one is part of
/// counts as near.
pub fn nearest<'a>(typed: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let wanted = typed.to_lowercase();
    let limit = (wanted.chars().count() / 3).max(2);
    known
        .into_iter()
        .map(|word| {
            let lower = word.to_lowercase();
            let inside = wanted.len() >= 3 && lower.contains(&wanted);
            (if inside { 1 } else { edit_distance(&wanted, &lower) }, word)
        })
        .filter(|(distance, _)| *distance <= limit)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, word)| word)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn slips_are_recognised_and_strangers_are_not() {
        let known = ["absorber.riser_pitch", "absorber.riser_count", "site.tilt"];
        assert_eq!(nearest("absorber.riser_ptich", known), Some("absorber.riser_pitch"));
        assert_eq!(nearest("riser_count", known), Some("absorber.riser_count"));
        assert_eq!(nearest("colour", known), None);
    }
}
