//! How roles look: the terminal's own foreground and background, and its sixteen named colours by role.
//!
//! No role is told by colour alone: the word or sign that says the same stands beside it. Without colours, bold,
//! dim and reverse remain.

use std::borrow::Cow;

use ratatui::style::{Color as Paint, Modifier, Style};

use super::ink::Role;

/// Which colours to use.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Color {
    /// As the terminal and the environment say.
    #[default]
    Auto,
    /// The sixteen named colours.
    Named,
    /// None.
    Off,
}

/// Which characters lines and marks are drawn with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Glyphs {
    /// As the locale says.
    #[default]
    Auto,
    /// Lines, arrows and units as in print.
    Unicode,
    /// Nothing beyond ASCII.
    Ascii,
}

/// The look, settled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Theme {
    /// Whether colours are used.
    pub colors: bool,
    /// Whether nothing beyond ASCII may be drawn.
    pub ascii: bool,
}

impl Theme {
    /// Settles the look from what was asked for and from the environment.
    pub fn settle(color: Color, glyphs: Glyphs, env: impl Fn(&str) -> Option<String>) -> Self {
        let filled = |name: &str| env(name).filter(|value| !value.is_empty());
        let plain_terminal = filled("TERM").is_some_and(|term| term.starts_with("vt1") || term.starts_with("vt2"));
        let locale = ["LC_ALL", "LC_CTYPE", "LANG"].into_iter().find_map(filled).unwrap_or_default().to_lowercase();
        Self {
            colors: match color {
                Color::Auto => filled("NO_COLOR").is_none() && !plain_terminal,
                Color::Named => true,
                Color::Off => false,
            },
            ascii: match glyphs {
                Glyphs::Auto => !(locale.contains("utf-8") || locale.contains("utf8")),
                Glyphs::Unicode => false,
                Glyphs::Ascii => true,
            },
        }
    }

    /// The style of a role.
    pub fn style(self, role: Role) -> Style {
        let style = Style::new();
        let (paint, modifier) = match role {
            Role::Plain | Role::Entered | Role::Computed | Role::Waits => (None, Modifier::empty()),
            Role::Quiet => (None, Modifier::DIM),
            Role::Strong | Role::Heading | Role::Field => (None, Modifier::BOLD),
            Role::Current => (None, Modifier::REVERSED.union(Modifier::BOLD)),
            Role::Selected => (None, Modifier::REVERSED),
            Role::Key => (Some(Paint::Cyan), Modifier::BOLD),
            Role::Assumed => (Some(Paint::Cyan), Modifier::empty()),
            Role::Measured => (None, Modifier::UNDERLINED),
            Role::Clear | Role::Done => (Some(Paint::Green), Modifier::empty()),
            Role::Caution | Role::Stale => (Some(Paint::Yellow), Modifier::BOLD),
            Role::Unknown => (Some(Paint::Magenta), Modifier::empty()),
            Role::Stop | Role::Refused => (Some(Paint::Red), Modifier::BOLD),
        };
        let style = style.add_modifier(modifier);
        match paint {
            Some(paint) if self.colors => style.fg(paint),
            _ => style,
        }
    }

    /// The horizontal rule.
    pub const fn rule(self) -> &'static str {
        if self.ascii { "-" } else { "─" }
    }

    /// The bar that fills a marked stretch of an axis.
    pub const fn bar(self) -> &'static str {
        if self.ascii { "=" } else { "━" }
    }

    /// A sample of the shade between two edges of a plot.
    pub const fn shade(self) -> &'static str {
        if self.ascii { "::" } else { "⠅⠅" }
    }

    /// A sample of the stroke at a marked point of a plot.
    pub const fn stroke(self) -> &'static str {
        if self.ascii { "|" } else { "⡇" }
    }

    /// The colour of a series of a plot by its number; its letter and its dashes say the same.
    pub const fn series(self, number: usize) -> Paint {
        match number % 4 {
            1 if self.colors => Paint::Cyan,
            2 if self.colors => Paint::Green,
            3 if self.colors => Paint::Magenta,
            _ => Paint::Reset,
        }
    }

    /// The upright rule.
    pub const fn wall(self) -> &'static str {
        if self.ascii { "|" } else { "│" }
    }

    /// The mark of the line that keys act on.
    pub const fn here(self) -> &'static str {
        if self.ascii { ">" } else { "›" }
    }

    /// The mark of what was cut off.
    pub const fn cut(self) -> &'static str {
        if self.ascii { "..." } else { "…" }
    }

    /// The text as this terminal can show it.
    pub fn text(self, text: &str) -> Cow<'_, str> {
        if !self.ascii || text.is_ascii() {
            return Cow::Borrowed(text);
        }
        let mut plain = String::with_capacity(text.len());
        for letter in text.chars() {
            match letter {
                letter if letter.is_ascii() => plain.push(letter),
                letter => plain.push_str(spelled(letter)),
            }
        }
        Cow::Owned(plain)
    }
}

/// How a character is written where only ASCII can be shown.
fn spelled(letter: char) -> &'static str {
    match letter {
        '\u{a0}' => " ",
        '°' => "deg",
        '²' => "^2",
        '³' => "^3",
        '₀' => "0",
        '₁' => "1",
        '₂' => "2",
        '×' => "x",
        '·' => "*",
        '−' | '–' | '—' => "-",
        '…' => "...",
        '→' => "->",
        '±' => "+/-",
        '≤' => "<=",
        '≥' => ">=",
        'µ' | 'μ' => "u",
        'ṁ' => "m'",
        'Δ' => "delta ",
        'η' => "eta",
        'τ' => "tau",
        'α' => "alpha",
        'β' => "beta",
        'ε' => "eps",
        'ρ' => "rho",
        'σ' => "sigma",
        'λ' => "lambda",
        'θ' => "theta",
        'π' => "pi",
        'φ' => "phi",
        'ω' => "omega",
        '√' => "sqrt",
        'Σ' => "sum",
        'Ø' | '⌀' => "dia ",
        '½' => "1/2",
        '¼' => "1/4",
        '¾' => "3/4",
        '⅛' => "1/8",
        '⅜' => "3/8",
        '⅝' => "5/8",
        '⅞' => "7/8",
        '′' | '’' | '‘' => "'",
        '″' | '“' | '”' => "\"",
        _ => "?",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn settled(pairs: &[(&str, &str)]) -> Theme {
        Theme::settle(Color::Auto, Glyphs::Auto, |name| {
            pairs.iter().find(|(key, _)| *key == name).map(|(_, value)| (*value).to_owned())
        })
    }

    #[test]
    fn the_environment_settles_colours_and_characters() {
        assert_eq!(settled(&[("LANG", "en_US.UTF-8")]), Theme { colors: true, ascii: false });
        assert_eq!(settled(&[("LANG", "en_US.UTF-8"), ("LC_ALL", "C")]), Theme { colors: true, ascii: true });
        assert_eq!(settled(&[("NO_COLOR", "1"), ("LC_CTYPE", "C.utf8")]), Theme { colors: false, ascii: false });
        assert_eq!(settled(&[("NO_COLOR", ""), ("TERM", "vt220")]), Theme { colors: false, ascii: true });
    }

    #[test]
    fn every_role_keeps_the_terminals_own_background() {
        for role in Role::ALL {
            for colors in [true, false] {
                let style = Theme { colors, ascii: false }.style(role);
                assert_eq!(style.bg, None, "{role:?}");
                assert!(colors || style.fg.is_none(), "{role:?} is coloured without colours");
                let muddy = matches!(style.fg, Some(Paint::Blue | Paint::DarkGray | Paint::White | Paint::Black));
                assert!(!muddy, "{role:?} vanishes on some backgrounds");
            }
        }
    }

    #[test]
    fn what_keys_act_on_is_reversed_with_and_without_colours() {
        for colors in [true, false] {
            for role in [Role::Selected, Role::Current] {
                assert!(Theme { colors, ascii: false }.style(role).add_modifier.contains(Modifier::REVERSED));
            }
        }
    }
}
