//! Torque and clamp load of bolted joints: pure calculation.
//!
//! A question is asked in the words of the shop ([`Ask`]), looked up in a [`Catalogue`]
//! ([`Catalogue::resolve`] finds everything that is wrong with it), and computed ([`compute`]):
//! torque, scatter, spread of the literature, checks, and where every value comes from.
//!
//! ```
//! use clampbook_engine::{Ask, Catalogue, compute};
//!
//! let catalogue = Catalogue::built_in();
//! let ask = Ask { thread: "7/16-20", grade: "SAE J429 5", lubrication: "dry", ..Ask::default() };
//! let question = catalogue.resolve(&ask).map_err(|faults| faults[0].clone())?;
//! let answer = compute(&question);
//! assert!((answer.torque.get() - 74.8).abs() < 0.05); // N.m, 55.2 lbf.ft
//! # Ok::<(), clampbook_engine::Fault>(())
//! ```
//!
//! No input or output and no clock live here, and nothing is stored but a grip stack as said; wording for the wire and for paper is
//! put together elsewhere from the ids and sentences of the answer.

pub mod answer;
pub mod ask;
pub mod catalogue;
pub mod designation;
pub mod fault;
pub mod few;
pub mod geometry;
pub mod grade;
pub mod hex;
pub mod identify;
pub mod insert;
pub mod joint;
pub mod length;
pub mod lock_nut;
pub mod long_form;
pub mod lubrication;
pub mod metal;
pub mod nut;
pub mod procedure;
pub mod published;
pub mod published_rows;
pub mod published_targets;
pub mod purpose;
pub mod quantity;
pub mod remarks;
pub mod sequence;
pub mod show;
pub mod source;
pub mod strength;
pub mod stress;
pub mod stretch;
pub mod thread;
pub mod torque;
pub mod units;
pub mod wrench;

mod checks;
mod said;
mod texts;

pub use answer::{
    Answer, Assumption, Caution, Check, CheckId, GovernedBy, Literature, Scatter, Severity,
};
pub use ask::{Ask, Question, Target};
pub use catalogue::Catalogue;
pub use designation::Designation;
pub use fault::{Fault, FaultReason};
pub use few::Few;
pub use grade::Grade;
pub use lubrication::{Lubrication, OwnLubrication, OwnLubricationAsk, WithdrawnLubrication};
pub use nut::Nut;
pub use purpose::{Purpose, Refusal};
pub use source::{Cited, Source};
pub use thread::Thread;
pub use torque::compute;

/// Edition of the built-in tables.
pub const EDITION: &str = clampbook_data::EDITION;
