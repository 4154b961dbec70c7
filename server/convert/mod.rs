//! Between wire and domain: one file per proto file. In: every violation is collected, none hides another. Out: plain.

mod assembled;
mod build;
pub(crate) mod catalog;
pub(crate) mod chart;
mod check;
pub(crate) mod common;
pub(crate) mod effective;
pub(crate) mod finding;
pub(crate) mod fitting;
pub(crate) mod identify;
mod import;
pub(crate) mod job;
mod joint;
pub(crate) mod many;
pub(crate) mod marking;
pub(crate) mod names;
pub(crate) mod ordering;
pub(crate) mod own_condition;
pub(crate) mod page;
pub(crate) mod parts;
pub(crate) mod photo;
pub(crate) mod pieces;
pub(crate) mod procedure;
pub(crate) mod published;
pub(crate) mod record;
pub(crate) mod sheet;
pub(crate) mod specification;
mod specification_table;
mod stack;
pub(crate) mod strength;
pub(crate) mod stretch;
mod table;
pub(crate) mod torque;
mod words;
pub(crate) mod wrench;

pub(crate) use check::Check;
