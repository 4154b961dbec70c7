//! How the core behaves when it is asked in words: designations, look-ups, faults, answers.

#![allow(clippy::unwrap_used)] // a test may panic

mod answers;
mod checks;
mod designations;
mod faults;
mod identify;
mod joints;
mod lengths;
mod names;
mod old_iron;
mod orders;
mod procedures;
mod published_values;
mod quantities;
mod wrenches;
