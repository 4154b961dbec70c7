//! The book: what was said about a job or about the shop, and what it adds up to.
//!
//! Pure: no I/O, no clock, no async. Four storeys, each of which uses only those below it:
//!
//! - `record`: a [`fact::Fact`] is what somebody said, an [`entry::Entry`] is a fact in its place in the journal;
//!   [`job::Job`] is what the entries of one job add up to, [`shop::Shop`] those of the shop.
//! - `reason`: what follows from the record: the [`effective`] joint, [`orders`], flags by [`rules`].
//! - [`judge`]: a command gives facts or a refusal.
//! - `views`: what people are shown, the reassembly [`sheet`] for one. Beside `judge`, and knows nothing of it.

pub mod judge;
mod reason;
mod record;
mod views;

pub use judge::{bounds, command, refusal};
pub use reason::{build, effective, orders, rules, shown, sizes, target};
pub use record::{
    context, date, entry, fact, findings, ids, job, joints, parts, photos, shop, speaker,
    standings, stream, tight, words,
};
pub use views::{answers, history, search, sheet, spoken, value};

/// Edition of the catalogue that computed values rest on.
pub const CATALOGUE_EDITION: &str = clampbook_engine::EDITION;
