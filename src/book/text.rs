//! The book as plain text, 80 columns wide at most.

use super::content::{Block, Book, Card, FigureLine, Item, Picture, Section, Table};
use crate::model::lines::Page;
use crate::stage::safety::questions::LAST_WORD;

/// Prints the book.
pub fn print(book: &Book) -> String {
    let mut page = Page::default();
    page.heading(&book.title);
    for section in &book.sections {
        page.fact(2, &section.title);
    }
    for section in &book.sections {
        put_section(&mut page, section);
    }
    page.text()
}

fn put_section(page: &mut Page, section: &Section) {
    page.space();
    page.heading(&section.title.to_uppercase());
    if section.cautions {
        page.fact(0, LAST_WORD);
    }
    for block in &section.blocks {
        match block {
            Block::Heading(text) => page.subheading(text),
            Block::Par(_, text) => page.fact(0, text),
            Block::Item(item) => put_item(page, item),
            Block::Figures(lines) => lines.iter().for_each(|line| put_figure(page, line)),
            Block::Table(table) => put_table(page, table),
            Block::Picture(picture) => put_picture(page, picture),
            Block::Card(card) => put_card(page, card),
            Block::Sheet(sheet) | Block::Poster(sheet) => {
                page.space();
                page.append(sheet);
            }
        }
    }
}

fn put_item(page: &mut Page, item: &Item) {
    let tag = if item.tag.is_empty() { String::new() } else { format!("{}: ", item.tag) };
    page.fact(2, &format!("{tag}{} ({})", item.title, item.id));
    for (name, text) in &item.lines {
        let name = if name.is_empty() { String::new() } else { format!("{name}: ") };
        page.fact(4, &format!("{name}{text}"));
    }
}

fn put_figure(page: &mut Page, line: &FigureLine) {
    page.fact(2, &format!("{}: {} ({})", line.label, line.value, line.id));
    if !line.by.is_empty() {
        page.fact(6, &format!("by {}", line.by));
    }
}

/// A row of a table as one fact: its name, then each cell behind the head of its column.
fn put_table(page: &mut Page, table: &Table) {
    page.space();
    let first = table.head.first().map_or("", String::as_str);
    for row in &table.rows {
        let cells = table.head.iter().zip(row).skip(1).filter(|(_, cell)| !cell.is_empty());
        let cells: Vec<String> = cells.map(|(head, cell)| format!("{head} {cell}")).collect();
        page.fact(2, &format!("{first} {}: {}", row.first().map_or("", String::as_str), cells.join("; ")));
    }
    for note in &table.notes {
        page.fact(6, note);
    }
}

fn put_picture(page: &mut Page, picture: &Picture) {
    page.space();
    page.fact(0, &format!("Picture: {}", picture.title));
    match &picture.drawing {
        Ok(_) => page.fact(2, "It is drawn in the printed book, book.html."),
        Err(why) => page.fact(2, &format!("It cannot be drawn yet: {why}")),
    }
    for text in &picture.caption {
        page.fact(2, text);
    }
}

fn put_card(page: &mut Page, card: &Card) {
    page.heading(&format!("{} ({})", card.title, card.id));
    for caution in &card.cautions {
        page.named(0, "Caution", caution);
    }
    page.fact(0, LAST_WORD);
    page.space();
    for line in &card.figures {
        let beside = if line.beside.is_empty() { String::new() } else { format!(" ({})", line.beside) };
        page.fact(2, &format!("{}: {}{beside}", line.label, line.value));
    }
    if let Some(table) = &card.rows {
        put_table(page, table);
    }
    if !card.steps.is_empty() {
        page.space();
    }
    for step in &card.steps {
        page.fact(0, step);
    }
}
