//! The drilling template: both headers at exactly 1:1, on as many sheets as they need, PDF.
//!
//! Lives here: what is drawn, taken from the figures of the absorber stage. How a header is divided among sheets lies
//! in `layout`, the drawing of a sheet in `sheet`, the strokes in `pen`.

mod layout;
mod pen;
mod sheet;

use pdf_writer::{Content, Date, Finish, Name, Pdf, Rect, Ref, TextStr};

use super::Source;
use crate::model::{Address, Fig, Stage, Value, Why};
use crate::solve::Evaluation;
use crate::stage;
use crate::units::si::Dimension;
use layout::Layout;
use pen::{Pen, pt};
use sheet::{Strip, Words};

/// The step that is done by this template.
const STEP: &str = "absorber.drill-headers";

/// Prints the template; where the harp is not known, one sheet that says what is missing, so that no old template
/// stays in its place.
pub fn print(source: Source<'_>) -> Vec<u8> {
    let size = source.paper.size();
    let (width, height) = (size.1, size.0);
    let words = words(source);
    let pages: Vec<Content> = match strips(source.evaluation) {
        Ok(strips) => {
            let layout = Layout::of(&strips, width);
            (0..layout.pages).map(|page| sheet::draw(&layout, &strips, &words, page, (width, height))).collect()
        }
        Err(why) => {
            let mut pen = Pen::default();
            let missing = format!("There is no template yet: {why}");
            for (row, text) in [&words.title, &missing].into_iter().enumerate() {
                pen.words((15.0, height - 20.0 - 8.0 * row as f64), 11.0, text);
            }
            vec![pen.finish()]
        }
    };
    document(source, &words.title, (width, height), pages)
}

/// Wraps pages into a document that asks the printer not to scale it.
fn document(source: Source<'_>, title: &str, size: (f64, f64), pages: Vec<Content>) -> Vec<u8> {
    let (catalog, tree, font, info) = (Ref::new(1), Ref::new(2), Ref::new(3), Ref::new(4));
    let refs = |number: usize| {
        let first = 5 + 2 * i32::try_from(number).unwrap_or(i32::MAX / 4);
        (Ref::new(first), Ref::new(first + 1))
    };
    let mut pdf = Pdf::new();
    let mut root = pdf.catalog(catalog);
    root.pages(tree);
    // A viewer that fits pages to the paper would make every hole wrong: ISO 32000-1, 12.2, PrintScaling.
    root.insert(Name(b"ViewerPreferences")).dict().pair(Name(b"PrintScaling"), Name(b"None"));
    root.finish();
    let count = i32::try_from(pages.len()).unwrap_or(i32::MAX);
    pdf.pages(tree).kids((0..pages.len()).map(|number| refs(number).0)).count(count);
    for (number, content) in pages.into_iter().enumerate() {
        let (page_ref, content_ref) = refs(number);
        let mut page = pdf.page(page_ref);
        page.parent(tree).media_box(Rect::new(0.0, 0.0, pt(size.0), pt(size.1))).contents(content_ref);
        page.resources().fonts().pair(Name(b"F"), font);
        page.finish();
        pdf.stream(content_ref, &content.finish());
    }
    pdf.type1_font(font).base_font(Name(b"Helvetica")).encoding_predefined(Name(b"WinAnsiEncoding"));
    let day = source.today;
    let number = |part: i8| u8::try_from(part).unwrap_or(1);
    let date = Date::new(u16::try_from(day.year()).unwrap_or(0)).month(number(day.month())).day(number(day.day()));
    pdf.document_info(info).title(TextStr(title)).creation_date(date);
    pdf.finish()
}

/// The headers as they are drilled; the two are one strip where their holes lie alike.
fn strips(evaluation: &Evaluation) -> Fig<Vec<Strip>> {
    let harp = evaluation.drawn.absorber.harp.as_ref().map_err(Clone::clone)?;
    let system = evaluation.system();
    let count = harp.holes.len();
    let at = |id: &str| -> Fig<Vec<(f64, String)>> {
        (1..=count)
            .map(|key| {
                let address = Address::drawn(format!("{id}.{key}"));
                Ok((millimetres(evaluation, &address)?, evaluation.text(&address, system)))
            })
            .collect()
    };
    let length = millimetres(evaluation, &Address::drawn("absorber.header_length"))?;
    let riser = harp.riser_outer_diameter;
    let hole = millimetres(evaluation, &Address::drawn("absorber.hole_size"));
    let strip = |name: &str, holes: Vec<(f64, String)>| Strip {
        name: name.to_owned(),
        length,
        tube: harp.header.od.si() * 1000.0,
        holes,
        drilled: hole.is_ok(),
        diameter: hole.clone().unwrap_or_else(|_| riser.si() * 1000.0),
    };
    let (lower, upper) = (at("absorber.hole")?, at("absorber.hole_upper")?);
    Ok(if lower == upper {
        vec![strip("both headers", lower)]
    } else {
        vec![strip("lower header", lower), strip("upper header", upper)]
    })
}

fn millimetres(evaluation: &Evaluation, address: &Address) -> Fig<f64> {
    let value = evaluation.value(address)?;
    let number = value.quantity().map(|quantity| quantity.si * 1000.0);
    number.ok_or_else(|| Why::out_of_range(format!("{address} is no length")))
}

/// What is written on every sheet.
fn words(source: Source<'_>) -> Words {
    let evaluation = source.evaluation;
    let system = evaluation.system();
    let text = |id: &str| evaluation.text(&Address::drawn(id), system);
    let stops = evaluation.verdicts.iter().filter(|judged| judged.blocks() && judged.check.stage() == Stage::Absorber);
    let stops: Vec<String> = stops.map(|judged| judged.address.to_string()).collect();
    let size = evaluation.value(&Address::drawn("absorber.hole_size"));
    let circle = match &size {
        Ok(Value::Quantity(_)) => format!("Circles: the hole or collar bore, {}.", text("absorber.hole_size")),
        Ok(_) => String::new(),
        Err(why) => format!("No hole size: {why}. Crosses are riser axes, circles the riser's outside."),
    };
    let cautions = stage::step(STEP).map_or(&[][..], |step| step.cautions);
    Words {
        title: format!("Header template 1:1 - {} - {}", super::content::title(source), source.today),
        stops: match stops.as_slice() {
            [] => String::new(),
            stops => format!("STOP, read the book before you drill: {}.", stops.join(", ")),
        },
        circle,
        cautions: cautions.iter().map(|caution| evaluation.fill(caution, None, system)).collect(),
        paper: source.paper,
    }
}
