//! Templates filled with the project's own numbers.
//!
//! `{absorber.riser_pitch}` in the text of a step or check becomes the value, printed in the chosen family of units.

use super::{Evaluation, judge::Judged};
use crate::model::{Address, Fig, PanelLetter, TradeUnits, Value, text::clean};
use crate::stage::{self, Check, Show, figure, general};
use crate::units::{Kind, Quantity, System, si, tape};

/// What is printed where a number is not known yet.
pub const GAP: &str = "?";

impl Evaluation {
    /// The family of units that the project asks for.
    pub fn system(&self) -> System {
        self.drawn.inputs.get(&general::UNITS).unwrap_or_default()
    }

    /// A value as it is printed for an address: cleaned, in the given units, as a tape mark where it is marked or cut.
    pub fn text(&self, address: &Address, system: System) -> String {
        match self.value(address) {
            Ok(value) => self.value_text(address, &value, system),
            Err(_) => GAP.to_owned(),
        }
    }

    /// A given value as it is printed for an address.
    pub fn value_text(&self, address: &Address, value: &Value, system: System) -> String {
        let tape = figure(&address.id).is_some_and(|(figure, _)| figure.show == Show::Tape);
        match (value, trade_units(&address.id)) {
            (Value::Quantity(quantity), _) if tape => self.mark(*quantity, system),
            (Value::Quantity(quantity), Some(units)) => units.text(*quantity, system),
            (other, _) => clean(&other.text(system)),
        }
    }

    /// A length as a mark on the tape, or in millimetres.
    pub fn mark(&self, quantity: Quantity, system: System) -> String {
        if system == System::Si || quantity.kind != Kind::Length {
            return quantity.text(system);
        }
        let division = general::division(&self.drawn.inputs);
        tape::mark(quantity.typed::<si::Length>(), division)
            .map_or_else(|_| quantity.text(system), |mark| mark.to_string())
    }

    /// Fills a template for the design or for one panel.
    pub fn fill(&self, template: &str, panel: Option<PanelLetter>, system: System) -> String {
        fill_with(template, |id| Some(self.text(&Address { id: id.to_owned(), panel }, system)))
    }

    /// What a check says when it is not clear. Where memory alone keeps it from being clear there is no fault to tell of.
    pub fn says(&self, judged: &Judged, system: System) -> String {
        if is_from_memory(judged) {
            let what = judged.check.recalled;
            return format!("No fault by a limit that is only recalled, and nobody has looked it up: {what}.");
        }
        self.fill_judged(judged.check.says, judged, system)
    }

    /// What to do when a check is not clear.
    pub fn remedy(&self, judged: &Judged, system: System) -> String {
        if is_from_memory(judged) {
            let key = judged.check.key();
            return format!(
                "Look the limit up, and keep where it is printed: sunharp set FILE safety.looked_up.{key} '...'"
            );
        }
        self.fill_judged(judged.check.remedy, judged, system)
    }

    /// Fills the text of a check with its findings and the project's numbers.
    pub fn fill_judged(&self, template: &str, judged: &Judged, system: System) -> String {
        let found = |pick: fn(&crate::model::Judgement) -> Option<Quantity>| {
            let number = judged.judgement.as_ref().ok().and_then(pick);
            number.map_or_else(|| GAP.to_owned(), |number| finding(judged.check, number, system))
        };
        fill_with(template, |id| {
            Some(match id {
                "found" => found(|judgement| judgement.found),
                "limit" => found(|judgement| judgement.limit),
                "margin" => found(|judgement| judgement.margin),
                "part" => part(&judged.judgement),
                id => self.text(&Address { id: id.to_owned(), panel: judged.panel }, system),
            })
        })
    }
}

/// The units that the trade uses for an entry or a figure; none if those of its kind will do.
pub fn trade_units(id: &str) -> Option<TradeUnits> {
    match figure(id) {
        Some((figure, _)) => match figure.show {
            Show::In(units) => Some(units),
            Show::Plain | Show::Tape => None,
        },
        None => stage::entry(id)?.shown_in,
    }
}

/// A number of a judgement in words: in the units of what the check judges by, where that has its own.
pub fn finding(check: &Check, number: Quantity, system: System) -> String {
    let units = check.needs.iter().find_map(|id| {
        let is_alike = match figure(id) {
            Some((figure, _)) => figure.kind == Some(number.kind),
            None => stage::entry(id).is_some_and(|spec| spec.shape.kind() == Some(number.kind)),
        };
        is_alike.then(|| trade_units(id))?
    });
    units.map_or_else(|| number.text(system), |units| units.text(number, system))
}

fn is_from_memory(judged: &Judged) -> bool {
    judged.judgement.as_ref().is_ok_and(|judgement| judgement.from_memory)
}

fn part(judgement: &Fig<crate::model::Judgement>) -> String {
    judgement
        .as_ref()
        .ok()
        .and_then(|judgement| judgement.part.clone())
        .map_or_else(|| GAP.to_owned(), |part| clean(&part))
}

/// Replaces every `{id}` of a template; an id for which there is no text stays in its braces.
pub fn fill_with(template: &str, text: impl Fn(&str) -> Option<String>) -> String {
    let mut filled = String::with_capacity(template.len());
    let mut rest = template;
    while let Some((before, behind)) = rest.split_once('{') {
        filled.push_str(before);
        let Some((id, after)) = behind.split_once('}') else {
            filled.push('{');
            rest = behind;
            continue;
        };
        if let Some(text) = text(id) {
            filled.push_str(&text);
        } else {
            filled.push('{');
            filled.push_str(id);
            filled.push('}');
        }
        rest = after;
    }
    filled.push_str(rest);
    filled
}

/// The ids that stand in braces in a template.
pub fn ids_in(template: &str) -> Vec<String> {
    let ids = std::cell::RefCell::new(Vec::new());
    fill_with(template, |id| {
        ids.borrow_mut().push(id.to_owned());
        None
    });
    ids.into_inner()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn braces_without_an_id_stay() {
        let fill = |template: &str| fill_with(template, |id| (id == "a").then(|| "1".to_owned()));
        assert_eq!(fill("x {a} {b} {"), "x 1 {b} {");
        assert_eq!(ids_in("x {a} {b.c} {"), ["a", "b.c"]);
    }
}
