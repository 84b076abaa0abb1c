//! Just enough of a PDF reader for the template: lines, circles and words of each page, in millimetres.
//!
//! It reads the file as ISO 32000-1 describes it and knows nothing of how the program wrote it. Streams must not be
//! compressed.

/// Millimetres of a point.
const MM: f64 = 25.4 / 72.0;

/// What stands on one page.
#[derive(Clone, Debug, Default)]
pub struct Page {
    /// Width and height.
    pub size: (f64, f64),
    /// Straight lines.
    pub lines: Vec<((f64, f64), (f64, f64))>,
    /// Circles: centre and radius.
    pub circles: Vec<((f64, f64), f64)>,
    /// Words with the point where they begin.
    pub words: Vec<((f64, f64), String)>,
}

/// All pages in their order.
pub fn pages(pdf: &[u8]) -> Vec<Page> {
    // Latin-1: every byte is one character, so that places in the text are places in the file.
    let text: String = pdf.iter().map(|byte| char::from(*byte)).collect();
    let sizes = text.split("/MediaBox").skip(1).map(|rest| {
        let inside = rest.split(['[', ']']).nth(1).unwrap();
        let numbers: Vec<f64> = inside.split_whitespace().map(|number| number.parse().unwrap()).collect();
        assert_eq!(numbers[..2], [0.0, 0.0]);
        (numbers[2] * MM, numbers[3] * MM)
    });
    let streams = text.split("stream\n").skip(1).step_by(2);
    let pages: Vec<Page> = sizes.zip(streams).map(|(size, content)| Page { size, ..content_of(content) }).collect();
    assert!(!pages.is_empty());
    pages
}

/// The operands and operators of a content stream.
fn tokens(content: &str) -> Vec<String> {
    let mut tokens = Vec::new();
    let mut chars = content.chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            c if c.is_whitespace() => {}
            '(' => {
                let (mut word, mut depth) = (String::from("("), 1);
                while depth > 0 {
                    match chars.next().unwrap() {
                        '\\' => word.push(chars.next().unwrap()),
                        '(' => {
                            depth += 1;
                            word.push('(');
                        }
                        ')' => {
                            depth -= 1;
                            if depth > 0 {
                                word.push(')');
                            }
                        }
                        other => word.push(other),
                    }
                }
                tokens.push(word);
            }
            '<' => {
                let hex: String = chars.by_ref().take_while(|c| *c != '>').filter(|c| !c.is_whitespace()).collect();
                let bytes = (0..hex.len() / 2).map(|at| u8::from_str_radix(&hex[2 * at..2 * at + 2], 16).unwrap());
                tokens.push(std::iter::once('(').chain(bytes.map(char::from)).collect());
            }
            '[' | ']' => tokens.push(c.to_string()),
            c => {
                let mut word = c.to_string();
                while chars.peek().is_some_and(|c| !c.is_whitespace() && !"()<>[]".contains(*c)) {
                    word.extend(chars.next());
                }
                tokens.push(word);
            }
        }
    }
    tokens
}

fn content_of(content: &str) -> Page {
    let mut page = Page::default();
    let (mut operands, mut path, mut at): (Vec<String>, Vec<Vec<f64>>, (f64, f64)) = Default::default();
    for token in tokens(content) {
        let numbers = || operands.iter().filter_map(|operand| Some(operand.parse::<f64>().ok()? * MM)).collect();
        match token.as_str() {
            "m" => path = vec![numbers()],
            "l" | "c" => path.push(numbers()),
            "cm" | "Tm" => panic!("this page moves its origin: its numbers are not places on paper"),
            "S" => draw(&mut page, &path),
            "Td" => {
                let place: Vec<f64> = numbers();
                at = (place[0], place[1]);
            }
            "Tj" => page.words.push((at, operands.last().unwrap()[1..].to_owned())),
            // What is left of "endstream" behind the place where the file was parted.
            "end" => return page,
            _ if token.starts_with(|c: char| c.is_ascii_alphabetic()) => {}
            _ => {
                operands.push(token);
                continue;
            }
        }
        operands.clear();
    }
    panic!("a stream without an end");
}

/// A path of two points is a line, one of four curves a circle.
fn draw(page: &mut Page, path: &[Vec<f64>]) {
    match path {
        [from, to] if to.len() == 2 => page.lines.push(((from[0], from[1]), (to[0], to[1]))),
        [right, top, left, ..] if path.len() == 5 => {
            let radius = (right[0] - left[4]) / 2.0;
            assert!((top[5] - right[1] - radius).abs() < 1e-3, "not a circle");
            page.circles.push(((right[0] - radius, right[1]), radius));
        }
        other => panic!("a path of {} parts", other.len()),
    }
}
