//! The record: what was said, and what it adds up to. Knows nothing of what follows from it.

mod apply;
pub mod context;
pub mod date;
pub mod entry;
pub mod fact;
pub mod findings;
pub mod ids;
pub mod job;
mod joint;
pub mod joints;
pub mod parts;
pub mod photos;
pub mod shop;
pub mod speaker;
pub mod standings;
pub mod stream;
pub mod tight;
pub mod words;
