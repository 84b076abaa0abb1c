//! A picture over the whole body: its title, the plot or drawing, the words about it.

use ratatui::Frame;
use ratatui::layout::Rect;

use super::{chart, rows, scene, titled};
use crate::stage::picture::{self, Drawing, Picture};
use crate::tui::ink::{Par, Role};
use crate::tui::state::State;
use crate::tui::words::{self, detail, on_panel, summary};
use crate::units::{Kind, Quantity};

/// Draws the picture at a place among those of the stage.
pub fn draw(state: &State, at: usize, frame: &mut Frame<'_>, title: Rect, area: Rect) {
    let pictures = picture::of(state.stage);
    let Some(picture) = pictures.get(at) else { return };
    let place = if pictures.len() > 1 { format!(", {} of {}", at + 1, pictures.len()) } else { String::new() };
    let heading = format!("{}{}{place}", picture.title, on_panel(state.panel));
    titled(frame, title, &heading, state.theme());
    match (picture.draw)(state.workbook.evaluation().solution(state.panel)) {
        Ok(Drawing::Chart(chart)) => chart::draw(state, &chart, &caption(state, picture), frame, area),
        Ok(Drawing::Scene(scene)) => scene::draw(state, &scene, caption(state, picture), frame, area),
        Err(why) => {
            let mut pars = vec![Par::new(Role::Unknown, "This picture cannot be drawn yet.")];
            pars.extend(detail::missing(state, &state.shown(""), &why));
            rows(frame, area, &pars, state.theme());
        }
    }
}

fn caption(state: &State, picture: &Picture) -> Vec<Par> {
    picture.caption.iter().map(|text| Par::plain(summary::fill(state, text))).collect()
}

/// How many rows paragraphs take at a width.
pub fn height(state: &State, pars: &[Par], width: u16) -> u16 {
    let count: usize = pars.iter().map(|par| par.wrap(usize::from(width), state.theme()).len()).sum();
    u16::try_from(count).unwrap_or(u16::MAX)
}

/// A length in the units that are shown.
pub fn length(state: &State, millimetres: f64) -> String {
    words::tape_length(state, Quantity::new(Kind::Length, millimetres / 1000.0))
}
