//! How headers are divided among sheets: windows of one width, each overlapping the next, with marks in the overlap.

use std::ops::Range;

use super::sheet::Strip;

/// Edge of a sheet that printers may leave blank, mm.
pub const MARGIN: f64 = 12.0;
/// Least overlap of two sheets, mm; at least a hole and its cross find room in it.
const OVERLAP: f64 = 30.0;
/// What is drawn beyond both ends of a header, mm.
const BEYOND: f64 = 8.0;
/// Room around the largest hole in an overlap, mm.
const AROUND: f64 = 8.0;
/// Widest tube of which two find room on one sheet, mm.
const TWO_FIT: f64 = 36.0;

/// Strips on sheets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layout {
    /// How many sheets there are.
    pub pages: usize,
    /// How many sheets one length of header takes.
    pub windows: usize,
    /// How many strips lie on one sheet.
    pub per_sheet: usize,
    /// What one sheet shows of a header, mm.
    width: f64,
    /// What two neighbours show both, mm.
    overlap: f64,
}

impl Layout {
    /// Divides strips among sheets that are so wide, mm.
    pub fn of(strips: &[Strip], sheet: f64) -> Self {
        let most = |number: fn(&Strip) -> f64| strips.iter().map(number).fold(0.0, f64::max);
        let width = sheet - 2.0 * MARGIN;
        let overlap = (most(|strip| strip.diameter) + AROUND).max(OVERLAP).min(width / 2.0);
        let beyond_first = (most(|strip| strip.length) + 2.0 * BEYOND - width).max(0.0);
        let mut windows = 1;
        while f64::from(windows - 1) * (width - overlap) < beyond_first {
            windows += 1;
        }
        let windows = usize::try_from(windows).unwrap_or(1);
        let per_sheet = if most(|strip| strip.tube) > TWO_FIT { 1 } else { 2 };
        Self { pages: windows * strips.len().div_ceil(per_sheet), windows, per_sheet, width, overlap }
    }

    /// What a sheet shows of a header, mm from its left end.
    pub fn window(&self, page: usize) -> Range<f64> {
        let start = (page % self.windows) as f64 * (self.width - self.overlap) - BEYOND;
        start..start + self.width
    }

    /// Where the marks of the joint behind a sheet lie, mm from the left end; none behind the last sheet of a header.
    pub fn marks(&self, page: usize) -> Option<[f64; 2]> {
        let end = self.window(page).end;
        let is_joined = page % self.windows + 1 < self.windows;
        is_joined.then(|| [0.75, 0.25].map(|share| end - share * self.overlap))
    }

    /// Where a place of a header lies on a sheet, mm from its left edge.
    pub fn x(&self, page: usize, at: f64) -> f64 {
        MARGIN + at - self.window(page).start
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn strip(length: f64, diameter: f64) -> Strip {
        Strip { name: String::new(), length, tube: 28.0, holes: Vec::new(), drilled: true, diameter }
    }

    #[test]
    fn windows_cover_the_header_and_neighbours_share_their_marks() {
        for (length, diameter) in [(200.0, 15.0), (257.0, 15.0), (258.0, 15.0), (1320.0, 22.0), (2999.0, 60.0)] {
            let layout = Layout::of(&[strip(length, diameter)], 297.0);
            assert!(layout.window(0).start <= -BEYOND && layout.window(layout.pages - 1).end >= length + BEYOND);
            for page in 1..layout.pages {
                let (before, after) = (layout.window(page - 1), layout.window(page));
                assert!(before.end - after.start >= diameter + AROUND - 1e-9, "{length}");
                let marks = layout.marks(page - 1).unwrap();
                assert!(marks.iter().all(|at| before.contains(at) && after.contains(at)));
            }
            assert_eq!(layout.marks(layout.pages - 1), None);
        }
        assert_eq!(Layout::of(&[strip(257.0, 15.0)], 297.0).pages, 1);
        assert_eq!(Layout::of(&[strip(258.0, 15.0)], 297.0).pages, 2);
    }
}
