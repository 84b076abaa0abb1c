//! The program: picks the face and nothing else.

fn main() {}
