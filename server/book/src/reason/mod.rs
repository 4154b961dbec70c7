//! What follows from the record: the joint with the target in force, how it is built, parts to order, flags, whether a
//! fastener fits.

pub mod build;
pub mod effective;
pub mod orders;
pub mod rules;
pub mod shown;
pub mod sizes;
pub mod target;
pub(crate) mod violation;
