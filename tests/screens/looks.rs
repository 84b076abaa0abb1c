//! Without colours, without characters beyond ASCII, and each role where it is shown.

use ratatui::buffer::Buffer;
use ratatui::style::{Color, Modifier};
use sunharp::tui::Role;
use sunharp::tui::theme::Theme;

use super::harness::{FULL, Play, SAMPLE};

/// Ways to screens that together show everything.
const WAYS: [&str; 13] = [
    "",
    "<Right><End>",
    "<Right><Down><Enter>9 kg",
    "<Right><Down><Enter>5 in<Enter>m",
    "fstagnation temp<Enter>e",
    "floss<PageDown>",
    "<Esc>",
    "?",
    "v",
    "<Right>v",
    "<Right>b",
    "t",
    "l",
];

fn walk(theme: Theme, size: (u16, u16), mut look: impl FnMut(&str, &Buffer)) {
    for way in WAYS {
        let mut play = Play::of(SAMPLE, theme, size);
        play.press(way);
        look(way, &play.buffer());
        for _ in 0..6 {
            play.press("<Right><PageDown>");
            look(way, &play.buffer());
        }
    }
}

#[test]
fn without_colours_no_cell_has_one_and_the_selected_line_is_still_reversed() {
    let theme = Theme { colors: false, ascii: false };
    walk(theme, (80, 24), |way, buffer| {
        assert!(buffer.content.iter().all(|cell| cell.fg == Color::Reset && cell.bg == Color::Reset), "{way}");
        assert!(buffer.content.iter().any(|cell| cell.modifier.contains(Modifier::REVERSED)), "{way}");
    });
}

#[test]
fn with_colours_only_the_named_ones_are_used_on_the_terminals_own_background() {
    let named = [Color::Reset, Color::Cyan, Color::Green, Color::Yellow, Color::Magenta, Color::Red];
    walk(FULL, (120, 36), |way, buffer| {
        assert!(buffer.content.iter().all(|cell| named.contains(&cell.fg) && cell.bg == Color::Reset), "{way}");
    });
}

#[test]
fn in_ascii_every_cell_is_ascii() {
    let theme = Theme { colors: true, ascii: true };
    for size in [(80, 24), (120, 36)] {
        walk(theme, size, |way, buffer| {
            let strange = buffer.content.iter().find(|cell| !cell.symbol().is_ascii());
            assert!(strange.is_none(), "{way}: {strange:?}");
        });
    }
}

/// The style of the first cell of a text on the screen.
fn style_of(play: &mut Play, text: &str) -> (Color, Modifier) {
    let screen = play.screen();
    let buffer = play.buffer();
    let (y, row) = screen.lines().enumerate().find(|(_, row)| row.contains(text)).expect(text);
    let x = row[..row.find(text).unwrap()].chars().count();
    let cell = &buffer[(u16::try_from(x).unwrap(), u16::try_from(y).unwrap())];
    (cell.fg, cell.modifier)
}

fn expect(play: &mut Play, text: &str, role: Role) {
    let style = FULL.style(role);
    let wanted = (style.fg.unwrap_or(Color::Reset), style.add_modifier);
    assert_eq!(style_of(play, text), wanted, "{text} as {role:?}");
}

#[test]
fn every_role_looks_as_it_is_declared_where_it_is_shown() {
    let mut play = Play::trial();
    play.press("<Right>");
    expect(&mut play, "[absorber", Role::Current);
    expect(&mut play, "› risers", Role::Selected);
    expect(&mut play, "Decide", Role::Heading);
    expect(&mut play, "riser pitch", Role::Plain);
    expect(&mut play, "entered\n".trim(), Role::Selected);
    expect(&mut play, "as drawn", Role::Quiet);
    expect(&mut play, "Trial", Role::Strong);
    expect(&mut play, "Enter edit", Role::Key);
    play.press("?");
    for (text, role) in [
        ("assumed", Role::Assumed),
        ("entered", Role::Entered),
        ("measured", Role::Measured),
        ("computed", Role::Computed),
        ("clear (", Role::Clear),
        ("caution (", Role::Caution),
        ("unknown (", Role::Unknown),
        ("stop (", Role::Stop),
    ] {
        expect(&mut play, text, role);
    }
    play.press("<Esc><Down><Enter>4 kg");
    expect(&mut play, "refused", Role::Refused);
    play.press("<Esc>fsheet bought<Enter><Enter>all<Enter>");
    expect(&mut play, "signed 2026", Role::Done);
    play.press("fsolder of the sheet<Enter>");
    play.press("<Enter><Down><Enter>").press("fsheet bought<Enter>");
    expect(&mut play, "stale solder of the sheet was", Role::Stale);
    play.press("<End>");
    expect(&mut play, "A waits, B", Role::Plain);
}
