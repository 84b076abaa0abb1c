//! Our own source as text: every file under src/, its code without comments and literals, and its literals.

use std::fs;
use std::path::Path;

/// One source file.
pub struct Source {
    /// The path below src/, with strokes.
    pub path: String,
    /// The code; comments are gone and every literal of characters is empty.
    pub code: String,
    /// The string literals with the lines that they begin in.
    pub literals: Vec<(usize, String)>,
}

/// Every Rust file under src/, in the order of the paths.
pub fn all() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    gather(&root, "", &mut found);
    found.sort_by(|a, b| a.path.cmp(&b.path));
    assert!(found.len() > 100, "src/ was not found");
    found
}

fn gather(folder: &Path, prefix: &str, found: &mut Vec<Source>) {
    for entry in fs::read_dir(folder).unwrap().map(Result::unwrap) {
        let name = entry.file_name().into_string().unwrap();
        let path = format!("{prefix}{name}");
        if entry.file_type().unwrap().is_dir() {
            gather(&entry.path(), &format!("{path}/"), found);
        } else if Path::new(&name).extension().is_some_and(|extension| extension == "rs") {
            found.push(Source::of(path, &fs::read_to_string(entry.path()).unwrap()));
        }
    }
}

impl Source {
    /// Parts a text into code and literals.
    pub fn of(path: impl Into<String>, text: &str) -> Self {
        let chars: Vec<char> = text.chars().collect();
        let mut lexer = Lexer { chars, at: 0, line: 1, code: String::new(), literals: Vec::new() };
        lexer.run();
        Self { path: path.into(), code: lexer.code, literals: lexer.literals }
    }
}

struct Lexer {
    chars: Vec<char>,
    at: usize,
    line: usize,
    code: String,
    literals: Vec<(usize, String)>,
}

impl Lexer {
    fn peek(&self, ahead: usize) -> char {
        self.chars.get(self.at + ahead).copied().unwrap_or('\0')
    }

    fn next(&mut self) -> char {
        let c = self.peek(0);
        self.at += 1;
        self.line += usize::from(c == '\n');
        c
    }

    fn run(&mut self) {
        while self.at < self.chars.len() {
            match (self.peek(0), self.peek(1)) {
                ('/', '/') => self.skip_line(),
                ('/', '*') => self.skip_block(),
                ('"', _) => self.string(),
                ('r', '"' | '#') if !self.code.ends_with(is_word) => self.raw_string(),
                ('\'', _) => self.character(),
                _ => {
                    let c = self.next();
                    self.code.push(c);
                }
            }
        }
    }

    fn skip_line(&mut self) {
        while self.at < self.chars.len() && self.peek(0) != '\n' {
            self.next();
        }
    }

    fn skip_block(&mut self) {
        let mut depth = 0;
        loop {
            match (self.peek(0), self.peek(1)) {
                ('/', '*') => depth += 1,
                ('*', '/') => depth -= 1,
                ('\0', '\0') => return,
                _ => {
                    self.next();
                    continue;
                }
            }
            self.next();
            self.next();
            if depth == 0 {
                return;
            }
        }
    }

    fn string(&mut self) {
        let line = self.line;
        let mut text = String::new();
        self.next();
        while self.at < self.chars.len() {
            match self.next() {
                '"' => break,
                '\\' => match self.next() {
                    '\n' => {
                        while self.peek(0).is_whitespace() {
                            self.next();
                        }
                    }
                    'n' | 't' | 'r' => text.push(' '),
                    other => text.push(other),
                },
                c => text.push(c),
            }
        }
        self.code.push_str("\"\"");
        self.literals.push((line, text));
    }

    fn raw_string(&mut self) {
        let line = self.line;
        let hashes = self.chars[self.at + 1..].iter().take_while(|c| **c == '#').count();
        if self.peek(1 + hashes) != '"' {
            let c = self.next(); // a raw identifier, or the letter r
            self.code.push(c);
            return;
        }
        for _ in 0..hashes + 2 {
            self.next();
        }
        let end: Vec<char> = std::iter::once('"').chain(std::iter::repeat_n('#', hashes)).collect();
        let mut text = String::new();
        while self.at < self.chars.len() && !self.chars[self.at..].starts_with(&end) {
            text.push(self.next());
        }
        for _ in 0..end.len() {
            self.next();
        }
        self.code.push_str("\"\"");
        self.literals.push((line, text));
    }

    /// A character literal is left out; a lifetime stays.
    fn character(&mut self) {
        self.next();
        if self.peek(0) == '\\' {
            self.next();
            self.next();
            while self.at < self.chars.len() && self.next() != '\'' {}
        } else if self.peek(1) == '\'' {
            self.next();
            self.next();
        } else {
            self.code.push('\'');
        }
    }
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// Every path of the code as a list of names, with the groups of `use` written out: `a::{b, c::d}` gives
/// `a::b` and `a::c::d`.
pub fn paths(code: &str) -> Vec<Vec<String>> {
    let tokens = tokens(code);
    let mut found = Vec::new();
    let mut at = 0;
    while at < tokens.len() {
        if is_name(&tokens[at]) {
            at = path(&tokens, at, &[], &mut found);
        } else {
            at += 1;
        }
    }
    found
}

fn is_name(token: &str) -> bool {
    token.starts_with(is_word) || token == "*"
}

fn tokens(code: &str) -> Vec<String> {
    let chars: Vec<char> = code.chars().collect();
    let mut tokens = Vec::new();
    let mut at = 0;
    while at < chars.len() {
        let length = match chars[at] {
            c if c.is_whitespace() => {
                at += 1;
                continue;
            }
            c if is_word(c) => chars[at..].iter().take_while(|c| is_word(**c)).count(),
            ':' if chars.get(at + 1) == Some(&':') => 2,
            _ => 1,
        };
        tokens.push(chars[at..at + length].iter().collect());
        at += length;
    }
    tokens
}

/// Reads one path, or the tree of a `use`, that begins at a name; gives the place behind it.
fn path(tokens: &[String], mut at: usize, prefix: &[String], found: &mut Vec<Vec<String>>) -> usize {
    let token = |at: usize| tokens.get(at).map_or("", String::as_str);
    let mut names = prefix.to_vec();
    loop {
        names.push(tokens[at].clone());
        at += 1;
        if token(at) != "::" {
            break;
        }
        at += 1;
        if token(at) == "{" {
            at += 1;
            while !matches!(token(at), "}" | "") {
                at = if is_name(token(at)) { path(tokens, at, &names, found) } else { at + 1 };
            }
            return at + 1;
        }
        if !is_name(token(at)) {
            break;
        }
    }
    found.push(names);
    at
}

#[test]
fn literals_and_comments_are_parted_from_code() {
    let text = "use a::b; // c::d \"x\"\n/* e /* f */ */ let s = \"g \\\"h\\\" \\\n   i\"; let c = '\"'; r#\"j \" k\"#; fn f<'a>()";
    let source = Source::of("x.rs", text);
    let texts: Vec<&str> = source.literals.iter().map(|(_, text)| text.as_str()).collect();
    assert_eq!(texts, ["g \"h\" i", "j \" k"]);
    assert_eq!(source.code, "use a::b; \n let s = \"\"; let c = ; \"\"; fn f<'a>()");
}

#[test]
fn groups_of_use_are_written_out() {
    let paths = paths("use a::{b, c::{d, e}, *}; g::h::<i>()");
    let joined: Vec<String> = paths.iter().map(|path| path.join("::")).collect();
    assert_eq!(joined, ["use", "a::b", "a::c::d", "a::c::e", "a::*", "g::h", "i"]);
}
