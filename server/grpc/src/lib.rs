//! Clampbook over gRPC, by nouns: a file holds a noun's conversions both ways and its methods.
//!
//! In: every violation is collected, none hides another. Out: plain. Nothing is decided here.

mod assembly;
mod catalogue;
mod chart;
#[cfg(test)]
mod contract;
mod correction;
mod decision;
mod effective;
mod entry;
mod finding;
mod flag;
mod guard;
mod history;
mod identify;
mod job;
mod joint;
mod lubrication;
mod many;
mod mark;
mod oversize;
mod page;
mod parts_to_order;
mod people;
mod photo;
mod pieces;
mod procedure;
mod published;
mod refit;
mod removal;
mod replacement;
mod request;
mod search;
mod services;
mod sheet;
mod specification;
mod stack;
mod status;
mod strength;
mod stretch;
mod tightening;
mod torque;
mod validate;
mod words;
mod wrench;

pub use oversize::OversizeLayer;
pub use services::{NAMES, add};
use validate::Validator;
