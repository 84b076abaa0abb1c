//! Strips of sheet metal from equal stock sheets: how many one sheet gives, and in how many lengths a strip is laid.
//!
//! Lives here: one size of strip on one size of sheet, cut in straight rows. Must not live here: mixed sizes
//! (`guillotine`), bars (`cutting`), what a strip is for.

use super::cutting::Tenths;
use super::guillotine::Sides;

/// Strips that are wanted, and the sheet that they come from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StripJob {
    /// Width and length of a finished strip; it may be laid in several lengths.
    pub strip: Sides,
    /// The sheet, its first side across the strips.
    pub sheet: Sides,
    /// Width of a cut.
    pub kerf: Tenths,
    /// Gap left between two lengths of one strip.
    pub gap: Tenths,
}

/// What one sheet gives.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StripLayout {
    /// Lengths that one strip is laid in.
    pub segments: u32,
    /// One of these lengths, rounded down to a tenth of a millimetre.
    pub segment: Tenths,
    /// Pieces side by side.
    pub across: u32,
    /// Pieces one behind the other.
    pub along: u32,
}

/// Why a sheet gives no strip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum StripError {
    /// A side of strip or sheet is zero.
    #[error("strip or sheet has no size")]
    NoSize,
    /// The sheet is narrower than the strip.
    #[error("the sheet is narrower than the strip")]
    TooNarrow,
    /// Gaps would take up more than the strip.
    #[error("the sheet is too short: the gaps between its pieces would take up the strip")]
    TooShort,
}

impl StripLayout {
    /// Pieces of one sheet.
    pub fn pieces(&self) -> u32 {
        self.across * self.along
    }
}

/// Most lengths that a strip is laid in.
const MOST_SEGMENTS: u32 = 50;

/// Lays strips on a sheet in straight rows: ⌊(sheet + kerf)/(piece + kerf)⌋ each way, since the last cut is not needed.
///
/// A strip longer than the sheet is laid in the fewest equal lengths with a gap between them. Exact in tenths of a
/// millimetre. Refused where the sheet is narrower than the strip.
pub fn lay(job: &StripJob) -> Result<StripLayout, StripError> {
    let StripJob { strip, sheet, kerf, gap } = *job;
    if [strip.width, strip.height, sheet.width, sheet.height].contains(&Tenths(0)) {
        return Err(StripError::NoSize);
    }
    let fit =
        |room: Tenths, piece: u32| (u64::from(room.0) + u64::from(kerf.0)) / (u64::from(piece) + u64::from(kerf.0));
    let across = fit(sheet.width, strip.width.0);
    if across == 0 {
        return Err(StripError::TooNarrow);
    }
    let lengths = (1..=MOST_SEGMENTS).map_while(|segments| {
        let gaps = gap.0.checked_mul(segments - 1)?;
        let left = strip.height.0.checked_sub(gaps)?;
        Some((segments, left / segments))
    });
    let (segments, length) = lengths
        .take_while(|(_, length)| *length > 0)
        .find(|(_, length)| *length <= sheet.height.0)
        .ok_or(StripError::TooShort)?;
    let along = fit(sheet.height, length);
    let small = |number: u64| u32::try_from(number).unwrap_or(u32::MAX);
    Ok(StripLayout { segments, segment: Tenths(length), across: small(across), along: small(along) })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sides(width: u32, height: u32) -> Sides {
        Sides { width: Tenths(width * 10), height: Tenths(height * 10) }
    }

    fn job(strip: (u32, u32), sheet: (u32, u32), kerf: u32) -> StripJob {
        let (strip, sheet) = (sides(strip.0, strip.1), sides(sheet.0, sheet.1));
        StripJob { strip, sheet, kerf: Tenths(kerf * 10), gap: Tenths(20) }
    }

    /// By arithmetic: ⌊1000/120⌋ = 8; with a kerf of 6 mm ⌊1006/126⌋ = 7.
    #[test]
    fn the_last_cut_needs_no_room_and_the_others_do() {
        assert_eq!(lay(&job((120, 1900), (1000, 2000), 0)).unwrap().across, 8);
        assert_eq!(lay(&job((120, 1900), (1000, 2000), 6)).unwrap().across, 7);
        assert_eq!(lay(&job((125, 1900), (1000, 2000), 0)).unwrap().across, 8);
        assert_eq!(lay(&job((125, 1900), (1000, 2000), 1)).unwrap().across, 7);
    }

    /// By arithmetic: (1900 − 2)/2 = 949 mm on a sheet of 1000.
    #[test]
    fn a_strip_longer_than_its_sheet_is_laid_in_equal_lengths_with_a_gap() {
        let layout = lay(&job((120, 1900), (1000, 1000), 0)).unwrap();
        assert_eq!((layout.segments, layout.segment, layout.along), (2, Tenths(9490), 1));
        assert_eq!(layout.pieces(), 8);
    }

    #[test]
    fn a_short_strip_lies_several_times_behind_itself() {
        assert_eq!(lay(&job((100, 600), (1000, 2000), 0)).unwrap().pieces(), 30);
    }

    #[test]
    fn sheets_that_cannot_give_a_strip_are_refused() {
        assert_eq!(lay(&job((120, 1900), (100, 2000), 0)), Err(StripError::TooNarrow));
        assert_eq!(lay(&job((120, 1900), (1000, 0), 0)), Err(StripError::NoSize));
        assert_eq!(lay(&job((120, 1900), (1000, 1), 0)), Err(StripError::TooShort));
    }
}
