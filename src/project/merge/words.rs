//! Comments of two sides, kept together. The order of the sides makes no difference.

/// What stands above a line: the side that changed it; of two that did, the lines of both.
pub fn merged(base: &str, ours: &str, theirs: &str) -> String {
    if is_like(ours, theirs) || is_like(base, theirs) {
        return ours.to_owned();
    }
    if is_like(base, ours) {
        return theirs.to_owned();
    }
    let (first, second) = if ours <= theirs { (ours, theirs) } else { (theirs, ours) };
    let known = [base, first].concat();
    first.to_owned() + &new_lines(&known, second)
}

/// What stands beside a value, and above it: of two new comments beside one value, the later in the alphabet moves up.
pub fn beside(base: &str, (ours, lead): (&str, &str), theirs: &str) -> (String, String) {
    let kept = || (ours.to_owned(), lead.to_owned());
    let [was, mine, yours] = [base, ours, theirs].map(str::trim);
    if mine == yours || was == yours || (yours.is_empty() && was != mine) {
        return kept();
    }
    if was == mine || mine.is_empty() {
        return (theirs.to_owned(), lead.to_owned());
    }
    let line_break = if ours.ends_with("\r\n") { "\r\n" } else { "\n" };
    let (stays, moves) = if ours <= theirs { (ours, theirs) } else { (theirs, ours) };
    (stays.to_owned(), format!("{lead}{}{line_break}", moves.trim()))
}

/// The lines of a text that are not among the known ones, each whole.
pub fn new_lines(known: &str, text: &str) -> String {
    let is_new = |line: &&str| !line.trim().is_empty() && !known.lines().any(|other| other.trim() == line.trim());
    text.split_inclusive('\n').filter(is_new).collect()
}

/// Whether two texts say the same, empty lines aside.
fn is_like(a: &str, b: &str) -> bool {
    let said = |text: &str| text.lines().map(str::trim).filter(|line| !line.is_empty()).map(str::to_owned).collect();
    let (a, b): (Vec<String>, Vec<String>) = (said(a), said(b));
    a == b
}
