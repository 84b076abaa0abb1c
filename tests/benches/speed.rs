//! What must stay fast.

fn main() {
    divan::main();
}
