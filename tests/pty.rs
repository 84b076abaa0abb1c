//! The real program on a real terminal: what is typed, what is seen, and how the terminal is given back.
//!
//! Every wait is for a text or an end, with a deadline; nothing sleeps for a fixed time.

mod journey;
mod leaving;
mod session;
mod shop;
