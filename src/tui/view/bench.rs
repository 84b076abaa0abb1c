//! A bench card over the whole screen: one figure in the largest type that fits, the others as large as the rest lets.

use ratatui::Frame;
use ratatui::layout::Rect;
use unicode_width::UnicodeWidthStr;

use super::{piece, row, rows};
use crate::stage::card::Card;
use crate::tui::ink::{Par, Piece, Role, cut, fit};
use crate::tui::layout::Areas;
use crate::tui::state::State;
use crate::tui::theme::Theme;
use crate::tui::typeface::Size;
use crate::tui::words::bench::{self as words, Shown};

/// On fewer columns the card's line is cut short.
const NARROW: usize = 60;
/// Columns between two figures beside each other.
const GUTTER: usize = 3;
/// Columns that a figure in block type gets at least, so that its label can be read.
const NARROWEST: usize = 24;

/// Draws the card's own line, which takes the place of the project's.
pub fn head(state: &State, frame: &mut Frame<'_>, areas: &Areas) {
    let Some(card) = state.bench.card() else { return };
    let theme = state.theme();
    let width = usize::from(areas.head.width);
    let (title, place) = words::title(state, card, width < NARROW);
    let room = width.saturating_sub(place.width() + 2);
    let pieces =
        [piece(Role::Current, fit(&format!(" {title}"), room, theme)), piece(Role::Quiet, format!("  {place}"))];
    row(frame, areas.head, &pieces, theme);
}

/// Draws the card.
pub fn draw(state: &State, frame: &mut Frame<'_>, area: Rect) {
    let theme = state.theme();
    let area = Rect { x: area.x + 1, width: area.width.saturating_sub(1), ..area };
    let Some(card) = state.bench.card() else {
        return rows(frame, area, &[Par::plain("No stage has declared a card yet. Esc goes back.")], theme);
    };
    let foot = foot(state, card, area);
    let height = u16::try_from(foot.len()).unwrap_or(0).min(area.height / 2);
    let upper = Rect { height: area.height - height, ..area };
    for (y, pieces) in (upper.bottom()..area.bottom()).zip(&foot) {
        row(frame, Rect { y, height: 1, ..area }, pieces, theme);
    }
    let mut figures: Vec<Shown> = card.figures.iter().map(|figure| words::figure(state, card, figure)).collect();
    if figures.is_empty() {
        return;
    }
    let large = figures.remove(state.bench.figure.min(figures.len() - 1));
    let plan = plan(&large, &figures, upper, theme);
    let top = Rect { height: plan.height().min(upper.height), ..upper };
    match plan.large.zip(halves(&large).filter(|_| plan.in_two)) {
        Some((size, halves)) => two_lines(frame, &large, (size, halves), top, theme),
        None => one(frame, &large, plan.large, top, theme),
    }
    let rest = Rect { y: upper.y + plan.height(), height: upper.height.saturating_sub(plan.height()), ..upper };
    match plan.small {
        Some(small) => grid(frame, &figures, small, plan.columns, rest, theme),
        None => list(frame, &figures, rest, theme),
    }
}

/// The lowest rows: what can hurt, and the step.
fn foot(state: &State, card: &Card, area: Rect) -> Vec<Vec<Piece>> {
    let theme = state.theme();
    let width = usize::from(area.width);
    // On a phone a long caution is cut after its second line; the step's own page shows all of it.
    let (most, cautions) = match area.height {
        ..12 => (1, 2),
        12..18 => (2, 3),
        _ => (2, 7),
    };
    let mut found = vec![(words::cautions(state, card), cautions)];
    found.extend(words::step(state, card).map(|par| (par, most)));
    let shorten = |(par, most): (Par, usize)| -> Vec<Vec<Piece>> {
        let mut wrapped = par.wrap(width, theme);
        if wrapped.len() > most {
            wrapped.truncate(most);
            if let Some(last) = wrapped.last_mut().and_then(|pieces| pieces.last_mut()) {
                last.text = cut(&format!("{}{}", last.text.trim_end(), theme.cut()), width, theme);
            }
        }
        wrapped
    };
    found.into_iter().flat_map(shorten).collect()
}

/// How large everything is drawn.
struct Plan {
    /// The type of the large figure; none for plain text.
    large: Option<Size>,
    /// The type of the others; none for one line of text each.
    small: Option<Size>,
    /// How many of the others stand side by side.
    columns: usize,
    /// Empty rows below the large figure.
    gap: usize,
    /// Whether the large figure stands on two lines.
    in_two: bool,
}

impl Plan {
    /// Rows of the large figure with its label and the gap below.
    fn height(&self) -> u16 {
        let digits = self.large.map_or(1, Size::height);
        let digits = if self.in_two { 2 * digits + BETWEEN } else { digits };
        u16::try_from(digits + 1 + self.gap).unwrap_or(u16::MAX)
    }
}

/// Rows that the large figure has at least, if it can: what is read with gloves on, from an arm's length.
const TALL: usize = 5;
/// Empty rows between the two lines of words in block type.
const BETWEEN: usize = 1;

/// The large figure on one line; words that would be too small for that on two.
fn plan(large: &Shown, others: &[Shown], area: Rect, theme: Theme) -> Plan {
    let plan = on_one_line(large, others, area, theme);
    if plan.large.is_some_and(|size| size.height() >= TALL) {
        return plan;
    }
    let (width, height) = (usize::from(area.width), usize::from(area.height));
    let fits = |size: &Size| {
        let wide = |half: &String| size.width(half).is_some_and(|columns| columns <= width);
        let tall = 2 * size.height() + BETWEEN + 2 + others.len().min(2) <= height;
        tall && size.height() >= TALL && halves(large).is_some_and(|halves| halves.iter().all(wide))
    };
    let size = Size::all(theme.ascii).find(fits);
    size.map_or(plan, |size| Plan { large: Some(size), small: None, columns: 1, gap: 1, in_two: true })
}

/// The text of a figure in two lines, parted at the space nearest to its middle; none where there is no space.
fn halves(large: &Shown) -> Option<[String; 2]> {
    let text = Some(&large.value).filter(|value| **value == large.widest)?;
    let middle = text.len() / 2;
    let (at, _) = text.match_indices(' ').min_by_key(|(at, _)| at.abs_diff(middle))?;
    Some([text[..at].to_owned(), text[at + 1..].to_owned()])
}

/// The others in block type where the large one stays clearly larger; else the large one as large as it gets.
fn on_one_line(large: &Shown, others: &[Shown], area: Rect, theme: Theme) -> Plan {
    let (width, height) = (usize::from(area.width), usize::from(area.height));
    let sizes: Vec<Size> = Size::all(theme.ascii).collect();
    let fits = |size: Size, text: &str, room: usize| size.width(text).is_some_and(|columns| columns <= room);
    let bigger = |than: Size| {
        let room = |size: &Size| height.saturating_sub(size.height() + 2);
        let tall = |size: &&Size| (1..=3).any(|columns| tiles(others, than, columns, width, room(size)));
        sizes.iter().filter(|size| **size > than && fits(**size, &large.widest, width)).find(tall).copied()
    };
    for small in sizes.iter().rev().take(3).rev().filter(|_| !others.is_empty()) {
        if let Some(size) = bigger(*small) {
            let room = height.saturating_sub(size.height() + 2);
            let columns = (1..=3).find(|columns| tiles(others, *small, *columns, width, room)).unwrap_or(1);
            return Plan { large: Some(size), small: Some(*small), columns, gap: 1, in_two: false };
        }
    }
    // One line of text for each of the others if there is room; at least one that says how many there are, and the gap
    // goes before that.
    let alone = |lines: usize, gap: usize| {
        let tall = |size: &&Size| size.height() + 1 + gap + lines <= height && fits(**size, &large.widest, width);
        sizes.iter().find(tall).copied().map(|size| (Some(size), gap))
    };
    let most = alone(others.len(), 1).or_else(|| alone(others.len().min(2), 1));
    let (large, gap) = most.or_else(|| alone(others.len().min(1), 0)).unwrap_or((None, 0));
    Plan { large, small: None, columns: 1, gap, in_two: false }
}

/// Whether figures fit in so many columns of tiles.
fn tiles(others: &[Shown], size: Size, columns: usize, width: usize, height: usize) -> bool {
    let room = (width + GUTTER) / columns;
    let room = room.saturating_sub(GUTTER);
    let wide = others.iter().all(|figure| size.width(&figure.widest).is_some_and(|columns| columns <= room));
    room >= NARROWEST && wide && others.len().div_ceil(columns) * (size.height() + 1) <= height
}

/// One figure: its label with what stands beside it, below it the value.
fn one(frame: &mut Frame<'_>, figure: &Shown, size: Option<Size>, area: Rect, theme: Theme) {
    let width = usize::from(area.width);
    let label = cut(&figure.label, width, theme);
    let beside = cut(&figure.beside, width.saturating_sub(label.width() + 2), theme);
    let pieces = [piece(Role::Plain, format!("{label}  ")), piece(Role::Quiet, beside)];
    row(frame, Rect { height: area.height.min(1), ..area }, &pieces, theme);
    let below = Rect { y: area.y + 1, height: area.height.saturating_sub(1), ..area };
    let drawn =
        size.map_or_else(|| vec![cut(&figure.value, width, theme)], |size| size.rows(&figure.value, theme.ascii));
    for (y, text) in (below.top()..below.bottom()).zip(drawn) {
        row(frame, Rect { y, height: 1, ..below }, &[piece(figure.role, text)], theme);
    }
}

/// Words in block type on two lines below their label.
fn two_lines(frame: &mut Frame<'_>, figure: &Shown, (size, halves): (Size, [String; 2]), area: Rect, theme: Theme) {
    let label = Shown { value: String::new(), ..figure.clone() };
    one(frame, &label, None, Rect { height: area.height.min(1), ..area }, theme);
    let mut y = area.y + 1;
    for half in halves {
        for text in size.rows(&half, theme.ascii) {
            row(frame, Rect { y, height: 1, ..area }, &[piece(figure.role, text)], theme);
            y += 1;
        }
        y += u16::try_from(BETWEEN).unwrap_or(0);
    }
}

fn grid(frame: &mut Frame<'_>, figures: &[Shown], size: Size, columns: usize, area: Rect, theme: Theme) {
    let width = (usize::from(area.width) + GUTTER) / columns - GUTTER;
    let high = size.height() + 1;
    let cells = |value: usize| u16::try_from(value).unwrap_or(0);
    for (index, figure) in figures.iter().enumerate() {
        let (across, down) = (index % columns, index / columns);
        let x = area.x + cells(across * (width + GUTTER));
        let y = area.y + cells(down * high);
        one(frame, figure, Some(size), Rect { x, y, width: cells(width), height: cells(high) }, theme);
    }
}

/// One line for each figure; what does not fit is counted in the last.
fn list(frame: &mut Frame<'_>, figures: &[Shown], area: Rect, theme: Theme) {
    let height = usize::from(area.height);
    let shown = if figures.len() > height { height.saturating_sub(1) } else { figures.len() };
    let width = usize::from(area.width);
    let label = figures.iter().map(|figure| figure.label.width()).max().unwrap_or(0).min(width / 2);
    for (y, figure) in (area.top()..).zip(figures.iter().take(shown)) {
        let room = width.saturating_sub(label + 2);
        let value = cut(&figure.value, room, theme);
        let beside = cut(&figure.beside, room.saturating_sub(value.width() + 2), theme);
        let pieces = [
            piece(Role::Plain, format!("{}  ", fit(&figure.label, label, theme))),
            piece(figure.role, value),
            piece(Role::Quiet, format!("  {beside}")),
        ];
        row(frame, Rect { y, height: 1, ..area }, &pieces, theme);
    }
    if shown < figures.len() && height > 0 {
        let text = format!("{} more: Tab", figures.len() - shown);
        row(frame, Rect { y: area.bottom() - 1, height: 1, ..area }, &[piece(Role::Key, text)], theme);
    }
}
