//! The book as one HTML page with everything in it: no script, nothing fetched, ready for a printer.
//!
//! It is also well-formed XML, so that any tool can read it. Every text goes through [`escaped`].

use std::fmt::Write;

use unicode_width::UnicodeWidthStr;

use super::content::{Block, Book, Card, FigureLine, Item, Picture, Section, Table, Tone};
use super::svg;
use crate::model::lines::{Line, Page};
use crate::model::paper::Paper;
use crate::solve::Evaluation;
use crate::stage::picture::Drawing;
use crate::stage::safety::questions::LAST_WORD;
use crate::units::{Kind, Quantity};

/// How everything looks, on paper and on a screen.
const STYLE: &str = include_str!("html/style.css");

/// Columns of a value that the large type of a card has room for.
const LARGE: usize = 14;

/// Prints the book.
pub fn print(book: &Book, evaluation: &Evaluation, paper: Paper) -> String {
    let title = escaped(&book.title);
    let mut html = format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\"/>\n\
         <meta name=\"viewport\" content=\"width=device-width\"/>\n<title>{title}</title>\n<style>\n\
         @page {{ size: {}; margin: 14mm 15mm 18mm; @bottom-left {{ content: \"{LAST_WORD}\"; font: 7pt sans-serif }} \
         @bottom-right {{ content: counter(page); font: 8pt sans-serif }} }}\n{STYLE}</style>\n</head>\n<body>\n\
         <h1>{title}</h1>\n<nav>\n<ol>\n",
        paper.word()
    );
    for section in &book.sections {
        put(&mut html, "li", "", &format!("<a href=\"#{}\">{}</a>", escaped(&section.id), escaped(&section.title)));
    }
    html.push_str("</ol>\n</nav>\n");
    for section in &book.sections {
        put_section(&mut html, section, evaluation);
    }
    html.push_str("</body>\n</html>\n");
    html
}

/// A text made fit to stand between tags and in attributes.
pub fn escaped(text: &str) -> String {
    let mut escaped = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '"' => escaped.push_str("&quot;"),
            '\'' => escaped.push_str("&#39;"),
            // XML has no place for these at all.
            '\u{fffe}' | '\u{ffff}' => escaped.push('\u{fffd}'),
            c if c.is_control() && c != '\n' => escaped.push('\u{fffd}'),
            c => escaped.push(c),
        }
    }
    escaped
}

/// Puts an element whose inside is ready.
fn put(html: &mut String, tag: &str, class: &str, inside: &str) {
    let class = if class.is_empty() { String::new() } else { format!(" class=\"{class}\"") };
    let _ = writeln!(html, "<{tag}{class}>{inside}</{tag}>");
}

/// Puts a paragraph of words.
fn paragraph(html: &mut String, class: &str, text: &str) {
    put(html, "p", class, &escaped(text));
}

const fn class(tone: Tone) -> &'static str {
    match tone {
        Tone::Plain => "plain",
        Tone::Quiet => "quiet",
        Tone::Caution => "caution",
        Tone::Unknown => "unknown",
        Tone::Stop => "stop",
        Tone::Clear => "clear",
    }
}

fn put_section(html: &mut String, section: &Section, evaluation: &Evaluation) {
    let _ = writeln!(html, "<section id=\"{}\">", escaped(&section.id));
    put(html, "h2", "", &escaped(&section.title));
    if section.cautions {
        paragraph(html, "last-word", LAST_WORD);
    }
    for block in &section.blocks {
        match block {
            Block::Heading(text) => put(html, "h3", "", &escaped(text)),
            Block::Par(tone, text) => paragraph(html, class(*tone), text),
            Block::Item(item) => put_item(html, item),
            Block::Figures(lines) => put_figures(html, lines),
            Block::Table(table) => put_table(html, table),
            Block::Picture(picture) => put_picture(html, picture, evaluation),
            Block::Card(card) => put_card(html, card),
            Block::Sheet(page) => put_sheet(html, page, "sheet"),
            Block::Poster(page) => put_sheet(html, page, "poster"),
        }
    }
    html.push_str("</section>\n");
}

fn put_item(html: &mut String, item: &Item) {
    let _ = writeln!(html, "<article class=\"item {}\">", class(item.tone));
    let tag = if item.tag.is_empty() { String::new() } else { format!("<b class=\"tag\">{}</b> ", escaped(&item.tag)) };
    let id = format!("<code>{}</code>", escaped(&item.id));
    put(html, "h4", "", &format!("{tag}{} {id}", escaped(&item.title)));
    for (name, text) in &item.lines {
        let name = if name.is_empty() { String::new() } else { format!("<b>{}</b> ", escaped(name)) };
        let class = if name.starts_with("<b>Caution") { "hurts" } else { "" };
        put(html, "p", class, &format!("{name}{}", escaped(text)));
    }
    html.push_str("</article>\n");
}

fn put_figures(html: &mut String, lines: &[FigureLine]) {
    if lines.is_empty() {
        return;
    }
    // Entries are explained by nobody: their values get the room.
    let kind = if lines.iter().any(|line| !line.by.is_empty()) { "figures" } else { "figures entries" };
    let _ = writeln!(html, "<table class=\"{kind}\">");
    for line in lines {
        let name = format!("{} <code>{}</code>", escaped(&line.label), escaped(&line.id));
        let value = if line.known { "value" } else { "open" };
        let cells = [("name", name), (value, escaped(&line.value)), ("by", escaped(&line.by))];
        let cells: String = cells.map(|(class, inside)| format!("<td class=\"{class}\">{inside}</td>")).concat();
        put(html, "tr", "", &cells);
    }
    html.push_str("</table>\n");
}

fn put_table(html: &mut String, table: &Table) {
    html.push_str("<table>\n");
    html.push_str("<thead>\n");
    put_row(html, "th", &table.head);
    html.push_str("</thead>\n");
    html.push_str("<tbody>\n");
    for row in &table.rows {
        put_row(html, "td", row);
    }
    html.push_str("</tbody>\n</table>\n");
    for note in &table.notes {
        paragraph(html, "quiet note", note);
    }
}

fn put_row(html: &mut String, tag: &str, cells: &[String]) {
    html.push_str("<tr>\n");
    for cell in cells {
        put(html, tag, "", &escaped(cell));
    }
    html.push_str("</tr>\n");
}

fn put_picture(html: &mut String, picture: &Picture, evaluation: &Evaluation) {
    let system = evaluation.system();
    let length = |mm: f64| evaluation.mark(Quantity::new(Kind::Length, mm / 1000.0), system);
    html.push_str("<figure>\n");
    put(html, "h4", "", &escaped(&picture.title));
    match &picture.drawing {
        Ok(Drawing::Scene(scene)) => html.push_str(&svg::scene(scene, &picture.title, system, &length)),
        Ok(Drawing::Chart(chart)) => html.push_str(&svg::chart(chart, system)),
        Err(why) => paragraph(html, "unknown", &format!("This picture cannot be drawn yet: {why}")),
    }
    put(html, "figcaption", "", &escaped(&picture.caption.join(" ")));
    html.push_str("</figure>\n");
}

fn put_card(html: &mut String, card: &Card) {
    html.push_str("<article class=\"card\">\n");
    put(html, "h3", "", &format!("{} <code>{}</code>", escaped(&card.title), escaped(&card.id)));
    for text in &card.cautions {
        paragraph(html, "hurts", text);
    }
    paragraph(html, "last-word", LAST_WORD);
    html.push_str("<table class=\"bench\">\n");
    for line in &card.figures {
        let beside = format!("{}<small>{}</small>", escaped(&line.label), escaped(&line.beside));
        let class = if line.value.width() > LARGE { " class=\"long\"" } else { "" };
        put(html, "tr", "", &format!("<th>{beside}</th><td{class}>{}</td>", escaped(&line.value)));
    }
    html.push_str("</table>\n");
    if let Some(table) = &card.rows {
        put_table(html, table);
    }
    for step in &card.steps {
        paragraph(html, "tick", step);
    }
    html.push_str("</article>\n");
}

/// Puts a page that is also printed by itself.
fn put_sheet(html: &mut String, page: &Page, class: &str) {
    let _ = writeln!(html, "<div class=\"{class}\">");
    for line in page.lines() {
        match line {
            Line::Heading(text) => put(html, "h3", "", &escaped(text)),
            Line::Fact(0, text) => paragraph(html, "", text),
            Line::Fact(2, text) => paragraph(html, "in", text),
            Line::Fact(_, text) => paragraph(html, "further", text),
            Line::Space => html.push_str("<hr/>\n"),
        }
    }
    html.push_str("</div>\n");
}
