//! The journal, chapter by chapter.

#![allow(
    clippy::disallowed_methods,
    reason = "outsiders open the file as they like"
)]

#[path = "../support/mod.rs"]
mod support;

mod backing_up;
mod blobs;
mod child;
mod claiming;
mod committing;
mod drafting;
mod failing;
mod flipping;
mod guarding;
mod killing;
mod listing;
mod older_format;
mod older_shop;
mod opening;
mod places;
mod queueing;
mod reading;
mod restoring;
mod verifying;
