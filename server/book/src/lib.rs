//! The book: what was said about a job or about the shop, and what it adds up to.
//!
//! Pure. A [`fact::Fact`] is what somebody said; an [`entry::Entry`] is a fact in its place in the journal;
//! [`job::Job`] is what the entries of one job add up to, [`shop::Shop`] those of the shop; [`decide::judge`] turns a command into facts or a refusal;
//! [`rules`] conclude flags from the record; [`sheet`] is the reassembly sheet as a view. No I/O, no clock, no async.

pub mod apply;
pub mod bounds;
pub mod build;
pub mod command;
pub mod date;
pub mod decide;
pub mod effective;
pub mod entry;
pub mod fact;
pub mod findings;
pub mod history;
pub mod ids;
pub mod job;
pub mod joints;
pub mod orders;
pub mod photos;
pub mod refusal;
pub mod rules;
pub mod search;
pub mod sheet;
pub mod shop;
pub mod shown;
pub mod sizes;
pub mod standings;
pub mod stream;
pub mod target;
pub mod words;

/// Edition of the catalogue that computed values rest on.
pub const CATALOGUE_EDITION: &str = clampbook_engine::EDITION;
