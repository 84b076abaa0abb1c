//! What stands in the book, and what must never stand in it.

use std::collections::BTreeSet;

use roxmltree::{Document, Node, ParsingOptions};
use sunharp::stage::card::cards;
use sunharp::stage::method::methods;
use sunharp::stage::safety::questions::{LAST_WORD, QUESTIONS};
use sunharp::stage::{self, procedure, safety};
use sunharp::workbook::sample;
use unicode_width::UnicodeWidthStr;

use super::{BOATYARD, GARDEN, GARDEN_LETTER, HARBOUR, Printed, drilled, print_text};

/// The page as a tree; whatever is not well formed fails here, by a reader of XML that is not ours.
fn tree(html: &str) -> Document<'_> {
    Document::parse_with_options(html, ParsingOptions { allow_dtd: true, ..ParsingOptions::default() })
        .unwrap_or_else(|error| panic!("{error}"))
}

fn words(node: Node<'_, '_>) -> String {
    node.descendants().filter_map(|node| node.text()).collect::<Vec<_>>().join(" ")
}

/// Everything that looks like an id.
fn ids(text: &str) -> BTreeSet<&str> {
    let is_part = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || "._-".contains(c);
    text.split(|c| !is_part(c)).map(|word| word.trim_matches('.')).collect()
}

/// Fails if the page reaches for anything outside of itself or could run anything.
fn stands_alone(html: &str) {
    const ELEMENTS: [&str; 12] = [
        "script",
        "link",
        "img",
        "iframe",
        "object",
        "embed",
        "base",
        "form",
        "video",
        "audio",
        "foreignObject",
        "use",
    ];
    let document = tree(html);
    for node in document.descendants().filter(Node::is_element) {
        let name = node.tag_name().name();
        assert!(!ELEMENTS.contains(&name), "<{name}>");
        for attribute in node.attributes() {
            let (key, value) = (attribute.name(), attribute.value());
            assert!(!key.starts_with("on") && !["src", "srcset", "data", "style", "action"].contains(&key), "{key}");
            assert!(key != "href" || value.starts_with('#'), "{value}");
            assert!(!value.contains("url(") && !value.contains("javascript"), "{value}");
        }
        if name == "style" {
            let style = node.text().unwrap();
            assert!(!style.contains("url(") && !style.contains("@import"), "{style}");
        }
    }
    for outside in ["http:", "https:", "<script"] {
        assert!(!html.contains(outside), "{outside}");
    }
}

fn samples() -> [&'static Printed; 4] {
    [&GARDEN, &GARDEN_LETTER, &HARBOUR, &BOATYARD]
}

#[test]
fn the_page_is_well_formed_and_stands_alone() {
    for printed in samples() {
        stands_alone(&printed.html);
    }
    assert!(GARDEN.html.contains("size: A4") && GARDEN_LETTER.html.contains("size: letter"));
}

#[test]
fn every_declared_thing_stands_in_page_and_text() {
    for printed in samples() {
        let document = tree(&printed.html);
        let page = words(document.root_element());
        let (in_page, in_text) = (ids(&page), ids(&printed.text));
        let declared = stage::figures().iter().map(|figure| figure.id);
        let declared = declared.chain(stage::checks().iter().map(|check| check.id));
        let declared = declared.chain(stage::steps().iter().map(|step| step.id));
        let declared = declared.chain(cards().iter().map(|card| card.id)).chain(methods().map(|method| method.id));
        let declared = declared.chain(stage::entries().iter().map(|spec| spec.id).filter(|id| !id.contains('*')));
        let declared = declared.chain(QUESTIONS.iter().map(|question| question.key));
        for id in declared {
            assert!(in_page.contains(id), "{id} is not in the page");
            assert!(in_text.contains(id), "{id} is not in the text");
        }
        for title in procedure::procedures().iter().map(|procedure| procedure.title) {
            assert!(page.contains(title) && printed.text.contains(title), "{title}");
        }
        for label in safety::labels::LABELS {
            assert!(page.contains(label.title) && printed.text.contains(label.title), "{}", label.title);
        }
    }
}

#[test]
fn no_line_of_the_text_is_wider_than_80_cells() {
    for printed in samples() {
        let wide: Vec<&str> = printed.text.lines().filter(|line| line.width() > 80).collect();
        assert_eq!(wide, Vec::<&str>::new());
        assert!(printed.text.lines().all(|line| !line.chars().any(char::is_control)));
    }
}

#[test]
fn pictures_of_every_stage_are_drawn() {
    let document = tree(&GARDEN.html);
    let mut drawn = 0;
    for stage in sunharp::model::Stage::ALL {
        let section = document.descendants().find(|node| node.attribute("id") == Some(stage.word())).unwrap();
        let mut count = 0;
        for figure in section.descendants().filter(|node| node.tag_name().name() == "figure") {
            let is_drawn = figure.descendants().any(|node| node.tag_name().name() == "svg");
            assert!(is_drawn != words(figure).contains("cannot be drawn yet"), "{}", words(figure));
            drawn += usize::from(is_drawn);
            count += 1;
        }
        assert_eq!(count, stage::picture::of(stage).len(), "{}", stage.word());
    }
    // Site and harp need nothing that the sample has not; it has no rack, no sheet to cut and no log yet.
    assert!(drawn >= 3 + 4 + 6 + 5, "{drawn}");
    // The harp: a circle for every hole of both headers.
    let harp = document
        .descendants()
        .find(|node| node.attribute("aria-label").is_some_and(|label| label.starts_with("the harp")))
        .unwrap();
    let holes = harp.descendants().filter(|node| node.tag_name().name() == "circle").count();
    let count = sample::TEXT.lines().find_map(|line| line.strip_prefix("riser_count = ")).unwrap();
    assert_eq!(holes, 2 * count.trim().parse::<usize>().unwrap());
}

/// Names and notes as an attacker or a careless hand would write them.
fn hostile() -> String {
    let long = "給湯器 ".repeat(30) + &"x".repeat(1 << 20);
    format!(
        "format = 1\n\n[project]\nname = \"\\u001b[31m<script>alert('1')</script> \\u202e\\\"&amp; 給湯\"\n\
         builder = \"]]> <!-- <b>\"\n\n[panel.A]\n\n\
         [materials.\"\\u001b]0;x\\u0007<img src=x onerror=alert(1)>\"]\nitem = \"</td></table><script>\"\n\n\
         [note.\"absorber.riser_pitch\".2026-04-11-1]\nby = \"<i>\\u2066\"\ntext = \"{long}\"\n\
         file = \"\\\" onload=\\\"x\"\n\n\
         [log.2026-04-11-1]\nby = \"a\"\nsort = \"hours\"\ntext = \"</section><script src=//x></script>\"\n"
    )
}

#[test]
fn hostile_text_is_shown_and_does_nothing() {
    let printed = print_text(&hostile(), "a4");
    stands_alone(&printed.html);
    let document = tree(&printed.html);
    let page = words(document.root_element());
    assert!(page.contains("<script>alert('1')</script>"), "the words themselves are shown");
    for text in [&page, &printed.text] {
        let unfit =
            |c: &char| c.is_control() && *c != '\n' || ('\u{202a}'..='\u{202e}').contains(c) || *c == '\u{2066}';
        assert_eq!(text.chars().find(unfit), None);
    }
    assert!(printed.html.len() < GARDEN.html.len() + 20_000 && printed.text.len() < GARDEN.text.len() + 20_000);
    assert!(printed.text.lines().all(|line| line.width() <= 80));
}

/// An overruling that counts: what it saw is the sample as it is printed.
const OVERRULED: &str = "\n[override.\"absorber.pressure-joints\".2026-05-01-1]\nreason = \"inspected by the book\"\n\
    by = [\"Ines\", \"Tomas\"]\nlicensed = \"Ines\"\nsaw = { \"absorber.header_filler\" = \"soldered\" }\n";

#[test]
fn stops_and_overrulings_stand_first_and_where_the_danger_is() {
    for (more, sign) in [("", "stop by absorber.pressure-joints"), (OVERRULED, "inspected by the book")] {
        let printed = print_text(&drilled(more), "a4");
        let document = tree(&printed.html);
        let part = |id: &str| document.descendants().find(|node| node.attribute("id") == Some(id)).unwrap();
        let order: Vec<&str> = document.descendants().filter_map(|node| node.attribute("id")).collect();
        assert!(order.iter().position(|id| *id == "cautions") < order.iter().position(|id| *id == "site"));
        assert!(words(part("cautions")).contains("absorber.pressure-joints"));
        let holds = |step: &&&'static sunharp::model::Step| step.held_by.contains(&"absorber.pressure-joints");
        let held: Vec<_> = stage::steps().iter().filter(holds).collect();
        assert!(!held.is_empty());
        for step in held {
            // The step's own item: its id stands in its title.
            let is_item = |node: &Node<'_, '_>| node.tag_name().name() == "code" && node.text() == Some(step.id);
            let title = part(step.stage.word()).descendants().find(is_item).expect(step.id);
            let item = title.ancestors().find(|node| node.tag_name().name() == "article").expect(step.id);
            assert!(words(item).contains(sign), "{}", step.id);
            for card in cards().iter().filter(|card| card.steps.contains(&step.id)) {
                let is_card =
                    |node: &Node<'_, '_>| node.attribute("class") == Some("card") && words(*node).contains(card.id);
                let page = part("cards").descendants().find(is_card).unwrap();
                assert!(words(page).contains(sign), "{}", card.id);
            }
        }
        assert!(words(part("absorber")).contains(sign) && printed.text.contains("pressure-joints"));
    }
}

#[test]
fn every_part_with_cautions_and_every_card_says_who_has_the_last_word() {
    let document = tree(&GARDEN.html);
    for section in document.descendants().filter(|node| node.tag_name().name() == "section") {
        let id = section.attribute("id").unwrap();
        assert!(id == "methods" || words(section).contains(LAST_WORD), "{id}");
    }
    let mut count = 0;
    for card in document.descendants().filter(|node| node.attribute("class") == Some("card")) {
        assert!(words(card).contains(LAST_WORD));
        count += 1;
    }
    assert_eq!(count, cards().len());
    assert!(GARDEN.html.contains("@bottom-left"), "every printed page says it below");
    let step_cautions = stage::steps().iter().flat_map(|step| step.cautions);
    let page = words(document.root_element());
    for caution in step_cautions.filter(|caution| !caution.contains('{')) {
        assert!(page.contains(caution), "{caution}");
    }
}

#[test]
fn signatures_tell_who_when_and_by_what() {
    let tick = GARDEN.text.split_whitespace().collect::<Vec<_>>().join(" ");
    let sign_off =
        sample::TEXT.lines().position(|line| line.starts_with("[sign_off.")).expect("the sample has signatures");
    let record: Vec<&str> = sample::TEXT.lines().skip(sign_off).take_while(|line| !line.is_empty()).collect();
    let field = |name: &str| {
        let found = record.iter().find_map(|line| line.strip_prefix(name)?.trim().strip_prefix("= \""));
        found.map(|text| text.trim_end_matches('"'))
    };
    let by = field("by").unwrap();
    let day = &record[0].trim_end_matches(']').rsplit('.').next().unwrap()[..10];
    assert!(tick.contains(&format!("{day} by {by}")), "{day} by {by}");
    if let Some(evidence) = field("evidence") {
        assert!(tick.contains(evidence), "{evidence}");
    }
}

/// A reason to do a step before others stands at the step and among the records, and says whether it counts.
#[test]
fn a_step_out_of_order_keeps_its_reason_in_the_book() {
    let record = |key: u8, by: &str| {
        format!(
            "\n[override.\"commissioning.cold-pressure\".2026-05-01-{key}]\nreason = \"the pump came late\"\nby = {by}\n\
             skips = [\"commissioning.air\"]\n"
        )
    };
    let both = record(1, "[\"Ines\", \"Tomas\"]") + &record(2, "[\"Ines\"]");
    let printed = print_text(&format!("{}{both}", sample::TEXT), "a4");
    let text = printed.text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("2026-05-01 by Ines and Tomas, before commissioning.air: the pump came late"), "{text}");
    assert!(text.contains("does not count: not two people, or not the licensed one"), "{text}");
}
