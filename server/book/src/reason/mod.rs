//! What follows from the record: the joint with the target in force, how it is built, parts to order, flags, whether a
//! fastener fits.

pub mod build;
pub mod effective;
mod in_words;
pub mod orders;
pub mod rules;
pub mod sizes;
pub mod target;
pub(crate) mod violation;

pub(crate) use in_words::in_words;
