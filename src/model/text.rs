//! Text that came from outside, made fit to be shown.
//!
//! A file that someone else wrote may hold terminal control sequences, direction overrides and megabyte strings.
//! Every face shows such text through [`clean`]; the bytes in the file stay as they are.

use std::collections::BTreeSet;

/// The mark shown where something unprintable was left out.
const LEFT_OUT: char = '\u{fffd}';

/// The longest line that is shown, in characters.
const LONGEST: usize = 2_000;

/// The text with control, direction and invisible characters replaced by a visible mark, line breaks and tabs
/// turned to spaces, and very long text cut with an ellipsis.
pub fn clean(text: &str) -> String {
    let mut shown: String = text.chars().take(LONGEST).map(visible).collect();
    if text.chars().nth(LONGEST).is_some() {
        shown.push('…');
    }
    shown
}

/// Texts that stand together, without the sentences that one before them says already; a text of which nothing is left
/// falls away.
pub fn without_repeats(texts: impl IntoIterator<Item = String>) -> Vec<String> {
    let mut said = BTreeSet::new();
    let mut kept = Vec::new();
    for text in texts {
        let new: Vec<&str> = text
            .split_inclusive(". ")
            .filter(|part| said.insert(part.trim_end_matches(['.', ' ']).to_owned()))
            .collect();
        let left = new.concat().trim().to_owned();
        if !left.is_empty() {
            kept.push(left);
        }
    }
    kept
}

fn visible(c: char) -> char {
    match c {
        '\n' | '\r' | '\t' | '\u{2028}' | '\u{2029}' => ' ',
        c if c.is_control() => LEFT_OUT,
        '\u{061c}'
        | '\u{180e}'
        | '\u{200b}'..='\u{200f}'
        | '\u{202a}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}'
        | '\u{fe00}'..='\u{fe0f}'
        | '\u{feff}'
        | '\u{fff9}'..='\u{fffb}'
        | '\u{e0000}'..='\u{e007f}' => LEFT_OUT,
        c => c,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sentence_is_said_once() {
        let texts = ["Harp empty.", "Harp empty. Torch 1.5 m away.", "", "Torch 1.5 m away."].map(str::to_owned);
        assert_eq!(without_repeats(texts), ["Harp empty.", "Torch 1.5 m away."]);
    }

    #[test]
    fn control_sequences_cannot_reach_a_terminal() {
        assert_eq!(clean("a\u{1b}[31mb\u{7}\u{9b}c\nd"), "a\u{fffd}[31mb\u{fffd}\u{fffd}c d");
        assert_eq!(clean("\u{202e}abc\u{2066}"), "\u{fffd}abc\u{fffd}");
    }

    #[test]
    fn ordinary_text_of_any_script_stays() {
        for text in ["Zoë's 2⅛ in", "給湯", "מים חמים", "ÅÄÖ ß €"] {
            assert_eq!(clean(text), text);
        }
    }

    #[test]
    fn a_megabyte_is_cut_with_a_mark() {
        let shown = clean(&"x".repeat(1 << 20));
        assert_eq!(shown.chars().count(), LONGEST + 1);
        assert!(shown.ends_with('…'));
    }
}
