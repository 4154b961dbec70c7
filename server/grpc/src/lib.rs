//! gRPC.

#[cfg(test)]
mod contract;
mod convert;
mod service;
mod status;

pub use service::{NAMES, OversizeLayer, add};
