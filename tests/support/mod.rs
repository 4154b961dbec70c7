//! What black-box tests share: a real server process, a shop that speaks to it, its command line, and how refusals are read.
//!
//! Included by path into each test binary. A vocabulary, not a framework: a story says what it is about and nothing else.

#![allow(
    dead_code,
    reason = "each test binary uses its own part of the vocabulary"
)]

pub(crate) mod cli;
pub(crate) mod photo;
pub(crate) mod picture;
pub(crate) mod raw;
pub(crate) mod refusal;
pub(crate) mod server;
pub(crate) mod shop;
pub(crate) mod whole;

pub(crate) use cli::cli;
pub(crate) use refusal::Refusal;
pub(crate) use server::Server;
pub(crate) use shop::{JobAt, JointAt, Shop, fresh_id};
