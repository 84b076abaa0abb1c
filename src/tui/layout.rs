//! Where everything stands, as a pure function of the size: input handling and drawing both ask here.

use ratatui::layout::Rect;

/// The fewest columns a page fits in.
pub const LEAST_COLUMNS: u16 = 60;
/// The fewest rows a page fits in.
pub const LEAST_ROWS: u16 = 18;
/// From here on the detail stands beside the list.
const WIDE: u16 = 110;

/// What shares the screen with the head and the foot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Plan {
    /// The list and a few lines about the selected one.
    Page,
    /// The list and more room for fields or answers.
    Form,
    /// One text over the whole body.
    Sheet,
    /// A bench card over the whole screen.
    Bench,
    /// Something over a bench card, with as much room as there is.
    OverBench,
}

/// The fewest columns and rows that a division needs. The bench is read on small screens as well.
pub const fn least(plan: Plan) -> (u16, u16) {
    match plan {
        Plan::Page | Plan::Form | Plan::Sheet => (LEAST_COLUMNS, LEAST_ROWS),
        Plan::Bench | Plan::OverBench => (36, 10),
    }
}

/// The areas of the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Areas {
    /// The project's line.
    pub head: Rect,
    /// The stages.
    pub stages: Rect,
    /// The rule under the stages.
    pub rule: Rect,
    /// The list; empty behind a sheet.
    pub list: Rect,
    /// The title of the detail, a form or a sheet.
    pub title: Rect,
    /// The detail, form or sheet.
    pub detail: Rect,
    /// The upright rule between list and detail, if they stand side by side.
    pub wall: Option<Rect>,
    /// What the program says.
    pub message: Rect,
    /// The keys.
    pub footer: Rect,
}

/// Divides the screen; none if it is too small.
pub fn areas((columns, rows): (u16, u16), plan: Plan) -> Option<Areas> {
    let (least_columns, least_rows) = least(plan);
    if columns < least_columns || rows < least_rows {
        return None;
    }
    let line = |y: u16| Rect::new(0, y, columns, 1);
    // The stages and their rule stand over everything but the bench.
    let (stages, rule, top) = match plan {
        Plan::Bench | Plan::OverBench => (Rect::new(0, 1, columns, 0), Rect::new(0, 1, columns, 0), 1),
        _ => (line(1), line(2), 3),
    };
    let body = Rect::new(0, top, columns, rows - top - 2);
    let split = split(body, plan);
    Some(Areas {
        head: line(0),
        stages,
        rule,
        list: split.list,
        title: split.title,
        detail: split.detail,
        wall: split.wall,
        message: line(rows - 2),
        footer: line(rows - 1),
    })
}

struct Split {
    list: Rect,
    title: Rect,
    detail: Rect,
    wall: Option<Rect>,
}

fn split(body: Rect, plan: Plan) -> Split {
    match plan {
        Plan::Bench => {
            let none = Rect { height: 0, ..body };
            Split { list: none, title: none, detail: body, wall: None }
        }
        Plan::Sheet | Plan::OverBench => {
            let title = Rect { height: 1, ..body };
            let detail = Rect { y: body.y + 1, height: body.height - 1, ..body };
            Split { list: Rect { height: 0, ..body }, title, detail, wall: None }
        }
        Plan::Page | Plan::Form if body.width >= WIDE => {
            let left = (body.width * 3 / 5).min(120);
            let list = Rect { width: left, ..body };
            let wall = Rect { x: left, width: 1, ..body };
            let right = Rect { x: left + 2, width: body.width - left - 2, ..body };
            let title = Rect { height: 1, ..right };
            let detail = Rect { y: right.y + 1, height: right.height - 1, ..right };
            Split { list, title, detail, wall: Some(wall) }
        }
        Plan::Page | Plan::Form => {
            let below = match plan {
                Plan::Form => (body.height / 2 + 1).clamp(8, 16),
                _ => (body.height / 3).clamp(4, 9),
            };
            let list = Rect { height: body.height - below - 1, ..body };
            let title = Rect { y: list.bottom(), height: 1, ..body };
            let detail = Rect { y: title.bottom(), height: below, ..body };
            Split { list, title, detail, wall: None }
        }
    }
}

/// Columns of the list: label, value and state word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Columns {
    /// The label.
    pub label: usize,
    /// The value.
    pub value: usize,
    /// The state word.
    pub word: usize,
}

/// The widest state word.
const WORD: usize = 9;
/// What stands before the label and between the columns.
const GAPS: usize = 2 + 2 + 2;

/// Divides a list of a width into its columns.
pub fn columns(width: u16) -> Columns {
    let rest = usize::from(width).saturating_sub(WORD + GAPS);
    let label = (rest * 11 / 20).min(48);
    Columns { label, value: rest - label, word: WORD }
}

/// The first row to show so that the selected one is in view, moving as little as possible.
pub fn scrolled(top: usize, selected: usize, rows: usize, height: usize) -> usize {
    let last = rows.saturating_sub(height);
    let least = (selected + 1).saturating_sub(height);
    top.max(least).min(selected).min(last)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn areas_lie_within_the_screen_and_apart() {
        for columns in LEAST_COLUMNS..=250 {
            for rows in LEAST_ROWS..=80 {
                for plan in [Plan::Page, Plan::Form, Plan::Sheet, Plan::Bench, Plan::OverBench] {
                    let a = areas((columns, rows), plan).unwrap();
                    let parts = [a.head, a.stages, a.rule, a.list, a.title, a.detail, a.message, a.footer];
                    let screen = Rect::new(0, 0, columns, rows);
                    for (index, part) in parts.iter().enumerate() {
                        assert_eq!(screen.intersection(*part), *part, "{columns}x{rows} {plan:?}");
                        assert!(
                            parts[..index].iter().all(|other| !other.intersects(*part)),
                            "{columns}x{rows} {plan:?}"
                        );
                    }
                }
            }
        }
    }

    #[test]
    fn the_selected_row_is_always_in_view() {
        for height in 1..6 {
            for rows in 1..12 {
                for selected in 0..rows {
                    for top in 0..20 {
                        let first = scrolled(top, selected, rows, height);
                        assert!(first <= selected && selected < first + height);
                    }
                }
            }
        }
    }
}
