//! The one integration test binary; each module is one subject.

// A test says what it expects by unwrapping; a failure here is the message.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss
)]

mod bad;
mod book;
mod cli;
mod dependencies;
mod documents;
mod laws;
mod layers;
mod merging;
mod pty;
mod records;
mod reference;
mod screens;
mod source;
mod store;
mod support;
mod tables;
