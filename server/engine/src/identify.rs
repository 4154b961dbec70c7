//! What is this? Threads from measurements, heads from their marks, sizes from spanners, and what is taken for what.
//!
//! Nothing here decides for the mechanic: everything that agrees with what was measured is listed,
//! and what to try next to tell the rest apart.

mod head;
mod look_alike;
mod measured;
mod spanner;
mod thread;

pub use head::HeadMatch;
pub use look_alike::{LookAlike, overlap_share};
pub use measured::{Measured, MeasuredAsk};
pub use spanner::{SpannerFit, SpannerMatch};
pub use thread::{Candidate, Identified, Misfit, Verdict};
