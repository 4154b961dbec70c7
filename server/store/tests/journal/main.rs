//! The journal, chapter by chapter.

#[path = "../support/mod.rs"]
mod support;

mod backing_up;
mod child;
mod committing;
mod failing;
mod guarding;
mod killing;
mod listing;
mod opening;
mod queueing;
mod reading;
mod verifying;
