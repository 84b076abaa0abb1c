//! The book: nothing of the project is missing in it, nothing foreign gets through it, and its template measures right.

mod pdf;
mod template;
mod words;

use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::sync::LazyLock;

use sunharp::workbook::sample;

/// One printed book.
pub struct Printed {
    /// The HTML.
    pub html: String,
    /// The text.
    pub text: String,
    /// The template.
    pub pdf: Vec<u8>,
}

/// Runs the program as a builder would.
pub fn run(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_sunharp")).args(arguments).stdin(Stdio::null()).output().unwrap()
}

/// Prints the book of a project file.
pub fn print_file(file: &Path, paper: &str) -> Printed {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("paper/of today");
    let output = run(&["book", file.to_str().unwrap(), "-o", out.to_str().unwrap(), "--paper", paper]);
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    let read = |name: &str| fs::read_to_string(out.join(name)).unwrap();
    let (html, text, pdf) = (read("book.html"), read("book.txt"), fs::read(out.join("header-template.pdf")).unwrap());
    Printed { html, text, pdf }
}

/// Prints the book of a project of this text.
pub fn print_text(text: &str, paper: &str) -> Printed {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("project.toml");
    fs::write(&file, text).unwrap();
    print_file(&file, paper)
}

fn printed_sample(name: &str, paper: &str) -> Printed {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-projects");
    print_file(&root.join(name), paper)
}

/// The sample that the program carries, with its weather beside it.
pub static GARDEN: LazyLock<Printed> = LazyLock::new(|| printed_sample("garden-washroom.toml", "a4"));
/// The same on the other paper.
pub static GARDEN_LETTER: LazyLock<Printed> = LazyLock::new(|| printed_sample("garden-washroom.toml", "letter"));
/// The two others.
pub static HARBOUR: LazyLock<Printed> = LazyLock::new(|| printed_sample("harbour-laundry.toml", "a4"));
/// One in inches.
pub static BOATYARD: LazyLock<Printed> = LazyLock::new(|| printed_sample("boatyard-shower.toml", "letter"));

/// The sample with headers that are drilled and soft-soldered: a stop, unless it is overruled.
pub fn drilled(more: &str) -> String {
    sample::TEXT
        .replace("joint = \"tee\"", "joint = \"drilled\"")
        .replace("header_filler = \"brazed\"", "header_filler = \"soldered\"")
        + more
}

#[test]
fn only_the_three_files_of_the_book_are_replaced() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("project.toml");
    fs::write(&file, "format = 1\n").unwrap();
    let out = folder.path().to_str().unwrap();
    fs::write(folder.path().join("notes.html"), "mine").unwrap();
    fs::write(folder.path().join("book.txt"), "of yesterday").unwrap();
    let output = run(&["book", file.to_str().unwrap(), "-o", out]);
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    let mut names: Vec<String> =
        fs::read_dir(folder.path()).unwrap().map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    assert_eq!(names, ["book.html", "book.txt", "header-template.pdf", "notes.html", "project.toml"]);
    assert_eq!(fs::read_to_string(folder.path().join("notes.html")).unwrap(), "mine");
    assert_eq!(fs::read_to_string(&file).unwrap(), "format = 1\n");
    assert!(fs::read_to_string(folder.path().join("book.txt")).unwrap().contains("project.toml"));
    // The old template must not stay beside a new book that knows no harp.
    let template = pdf::pages(&fs::read(folder.path().join("header-template.pdf")).unwrap());
    assert!(template[0].words.iter().any(|(_, text)| text.contains("There is no template yet: needs")));
}

#[test]
fn a_folder_that_cannot_be_made_or_written_is_named() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("project.toml");
    fs::write(&file, "format = 1\n").unwrap();
    let under_a_file = file.join("book");
    let taken = folder.path().join("taken");
    fs::create_dir_all(taken.join("book.html")).unwrap();
    // A link leads to something that is not the book's.
    let linked = folder.path().join("linked");
    fs::create_dir_all(&linked).unwrap();
    #[cfg(unix)]
    std::os::unix::fs::symlink(&file, linked.join("book.txt")).unwrap();
    #[cfg(not(unix))]
    fs::create_dir_all(linked.join("book.txt")).unwrap();
    for (out, named) in [(under_a_file, "project.toml"), (taken, "book.html"), (linked, "book.txt")] {
        let output = run(&["book", file.to_str().unwrap(), "-o", out.to_str().unwrap()]);
        let error = String::from_utf8(output.stderr).unwrap();
        assert_eq!(output.status.code(), Some(3), "{error}");
        assert!(error.contains(named), "{error}");
        assert!(!out.join("header-template.pdf").exists(), "some of it was written");
    }
    assert_eq!(fs::read_to_string(&file).unwrap(), "format = 1\n");
    let output = run(&["book", "nothing-here.toml", "-o", folder.path().to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(3));
}

#[test]
fn the_same_project_on_the_same_day_gives_the_same_bytes() {
    let first = print_text("format = 1\n", "a4");
    let again = print_text("format = 1\n", "a4");
    assert_eq!(first.text, again.text, "unless midnight fell between the two");
    assert_eq!(first.html, again.html);
    assert_eq!(first.pdf, again.pdf);
}
