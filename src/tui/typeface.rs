//! The large type of bench cards: digits and letters of our own on a grid five pixels high, drawn in blocks.
//!
//! Lives here: the shapes, and text turned into rows of blocks. Must not live here: where on the screen they go.

/// Rows of a shape.
const HIGH: usize = 5;

/// The shapes, five rows each; a hash is ink. Their widths differ.
const SHAPES: &[(char, [&str; HIGH])] = &[
    ('0', ["###", "#.#", "#.#", "#.#", "###"]),
    ('1', [".#.", "##.", ".#.", ".#.", "###"]),
    ('2', ["###", "..#", "###", "#..", "###"]),
    ('3', ["###", "..#", ".##", "..#", "###"]),
    ('4', ["#.#", "#.#", "###", "..#", "..#"]),
    ('5', ["###", "#..", "###", "..#", "###"]),
    ('6', ["###", "#..", "###", "#.#", "###"]),
    ('7', ["###", "..#", "..#", ".#.", ".#."]),
    ('8', ["###", "#.#", "###", "#.#", "###"]),
    ('9', ["###", "#.#", "###", "..#", "###"]),
    (' ', ["..", "..", "..", "..", ".."]),
    ('.', [".", ".", ".", ".", "#"]),
    (',', ["..", "..", "..", ".#", "#."]),
    (':', [".", "#", ".", "#", "."]),
    ('\'', ["#", "#", ".", ".", "."]),
    ('"', ["#.#", "#.#", "...", "...", "..."]),
    ('/', ["..#", "..#", ".#.", "#..", "#.."]),
    ('-', ["...", "...", "###", "...", "..."]),
    ('−', ["...", "...", "###", "...", "..."]),
    ('+', ["...", ".#.", "###", ".#.", "..."]),
    ('±', [".#.", "###", ".#.", "...", "###"]),
    ('%', ["#.#", "..#", ".#.", "#..", "#.#"]),
    ('°', ["##", "##", "..", "..", ".."]),
    ('²', ["##", ".#", "#.", "##", ".."]),
    ('³', ["##", ".#", "##", ".#", "##"]),
    ('·', [".", ".", "#", ".", "."]),
    ('(', [".#", "#.", "#.", "#.", ".#"]),
    (')', ["#.", ".#", ".#", ".#", "#."]),
    ('a', ["...", ".##", "#.#", "#.#", ".##"]),
    ('b', ["#..", "##.", "#.#", "#.#", "##."]),
    ('c', ["...", ".##", "#..", "#..", ".##"]),
    ('d', ["..#", ".##", "#.#", "#.#", ".##"]),
    ('e', ["...", ".##", "###", "#..", ".##"]),
    ('f', [".##", ".#.", "###", ".#.", ".#."]),
    ('g', ["...", ".##", "#.#", ".##", "##."]),
    ('h', ["#..", "##.", "#.#", "#.#", "#.#"]),
    ('i', ["#", ".", "#", "#", "#"]),
    ('j', [".#", "..", ".#", ".#", "#."]),
    ('k', ["#..", "#.#", "##.", "#.#", "#.#"]),
    ('l', ["#.", "#.", "#.", "#.", ".#"]),
    ('m', [".....", "##.#.", "#.#.#", "#.#.#", "#.#.#"]),
    ('n', ["...", "##.", "#.#", "#.#", "#.#"]),
    ('o', ["...", "###", "#.#", "#.#", "###"]),
    ('p', ["...", "##.", "#.#", "##.", "#.."]),
    ('q', ["...", ".##", "#.#", ".##", "..#"]),
    ('r', ["..", "##", "#.", "#.", "#."]),
    ('s', ["...", ".##", "##.", "..#", "##."]),
    ('t', [".#.", "###", ".#.", ".#.", ".##"]),
    ('u', ["...", "#.#", "#.#", "#.#", ".##"]),
    ('v', ["...", "#.#", "#.#", "#.#", ".#."]),
    ('w', [".....", "#.#.#", "#.#.#", "#.#.#", ".#.#."]),
    ('x', ["...", "#.#", ".#.", ".#.", "#.#"]),
    ('y', ["...", "#.#", "#.#", ".##", "##."]),
    ('z', ["...", "###", ".##", "##.", "###"]),
    ('A', [".#.", "#.#", "###", "#.#", "#.#"]),
    ('B', ["##.", "#.#", "##.", "#.#", "##."]),
    ('C', [".##", "#..", "#..", "#..", ".##"]),
    ('D', ["##.", "#.#", "#.#", "#.#", "##."]),
    ('E', ["###", "#..", "##.", "#..", "###"]),
    ('F', ["###", "#..", "##.", "#..", "#.."]),
    ('G', [".##", "#..", "#.#", "#.#", ".##"]),
    ('H', ["#.#", "#.#", "###", "#.#", "#.#"]),
    ('I', ["###", ".#.", ".#.", ".#.", "###"]),
    ('J', ["..#", "..#", "..#", "#.#", ".#."]),
    ('K', ["#.#", "#.#", "##.", "#.#", "#.#"]),
    ('L', ["#..", "#..", "#..", "#..", "###"]),
    ('M', ["#...#", "##.##", "#.#.#", "#...#", "#...#"]),
    ('N', ["#..#", "##.#", "#.##", "#..#", "#..#"]),
    ('O', [".#.", "#.#", "#.#", "#.#", ".#."]),
    ('P', ["##.", "#.#", "##.", "#..", "#.."]),
    ('Q', [".#.", "#.#", "#.#", "###", ".##"]),
    ('R', ["##.", "#.#", "##.", "#.#", "#.#"]),
    ('S', [".##", "#..", ".#.", "..#", "##."]),
    ('T', ["###", ".#.", ".#.", ".#.", ".#."]),
    ('U', ["#.#", "#.#", "#.#", "#.#", "###"]),
    ('V', ["#.#", "#.#", "#.#", "#.#", ".#."]),
    ('W', ["#...#", "#...#", "#.#.#", "##.##", "#...#"]),
    ('X', ["#.#", "#.#", ".#.", "#.#", "#.#"]),
    ('Y', ["#.#", "#.#", ".#.", ".#.", ".#."]),
    ('Z', ["###", "..#", ".#.", "#..", "###"]),
    ('Ω', [".###.", "#...#", "#...#", ".#.#.", "##.##"]),
];

fn shape(letter: char) -> Option<&'static [&'static str; HIGH]> {
    SHAPES.iter().find(|(own, _)| *own == letter).map(|(_, rows)| rows)
}

/// A size of the type: how many columns one pixel is wide. A cell is about twice as high as wide, so a pixel of two
/// columns is one row high, and one of a single column half a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Size(usize);

impl Size {
    /// All sizes that can be drawn, the largest first. Without half blocks only whole rows can be.
    pub fn all(ascii: bool) -> impl Iterator<Item = Self> {
        (1..=8).rev().filter(move |columns| !ascii || columns % 2 == 0).map(Self)
    }

    /// Rows that a line of this size takes.
    pub const fn height(self) -> usize {
        (HIGH * self.0).div_ceil(2)
    }

    /// Columns that a text takes; none if a character has no shape.
    pub fn width(self, text: &str) -> Option<usize> {
        let mut pixels = 0;
        for letter in text.chars() {
            pixels += shape(letter)?[0].len() + 1;
        }
        Some(pixels.saturating_sub(1) * self.0)
    }

    /// The text as rows of blocks; characters without a shape are left out.
    pub fn rows(self, text: &str, ascii: bool) -> Vec<String> {
        let shapes: Vec<&[&str; HIGH]> = text.chars().filter_map(shape).collect();
        let inked = |half: usize| -> Vec<bool> {
            let Some(row) = Some(half / self.0).filter(|row| *row < HIGH) else { return Vec::new() };
            let mut ink = Vec::new();
            for (index, shape) in shapes.iter().enumerate() {
                if index > 0 {
                    ink.extend(std::iter::repeat_n(false, self.0));
                }
                for pixel in shape[row].bytes() {
                    ink.extend(std::iter::repeat_n(pixel == b'#', self.0));
                }
            }
            ink
        };
        (0..self.height()).map(|row| blocks(&inked(2 * row), &inked(2 * row + 1), ascii)).collect()
    }
}

/// One row of cells from its upper and its lower half.
fn blocks(upper: &[bool], lower: &[bool], ascii: bool) -> String {
    let cell = |(index, top): (usize, &bool)| match (*top, lower.get(index).copied().unwrap_or(false)) {
        (false, false) => ' ',
        _ if ascii => '#',
        (true, true) => '█',
        (true, false) => '▀',
        (false, true) => '▄',
    };
    let row: String = upper.iter().enumerate().map(cell).collect();
    row.trim_end().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_shape_is_a_rectangle_and_no_two_are_alike() {
        for (index, (letter, rows)) in SHAPES.iter().enumerate() {
            assert!(rows.iter().all(|row| row.len() == rows[0].len()), "{letter}");
            let alike = SHAPES[..index].iter().find(|(_, other)| other == rows).map(|(other, _)| *other);
            assert!(alike.is_none() || (alike == Some('-') && *letter == '−'), "{letter} looks like {alike:?}");
        }
    }

    #[test]
    fn digits_and_the_letters_of_units_have_shapes() {
        for text in ["0123456789", "44 7/16 in", "−3.5 °C", "1129 mm", "15 psi", "0.5 gal", "2 %", "1.1 W/m²", "12 kΩ"]
        {
            assert!(Size(1).width(text).is_some(), "{text}");
        }
        assert_eq!(Size(1).width("給"), None);
    }

    #[test]
    fn rows_are_as_many_and_as_wide_as_announced() {
        for ascii in [false, true] {
            for size in Size::all(ascii) {
                let rows = size.rows("44 7/16 in", ascii);
                assert_eq!(rows.len(), size.height());
                let width = size.width("44 7/16 in").unwrap();
                assert!(rows.iter().all(|row| row.chars().count() <= width));
                assert!(!ascii || rows.iter().all(|row| row.is_ascii()));
            }
        }
    }

    #[test]
    fn half_blocks_make_the_smallest_size() {
        assert_eq!(Size(1).rows("7", false), ["▀▀█", " ▄▀", " ▀"]);
        assert_eq!(Size(2).rows("1", true), ["  ##", "####", "  ##", "  ##", "######"]);
    }
}
