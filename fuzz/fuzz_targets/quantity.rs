//! Any text is a length or a torque or not; what is one is a finite positive number of it.

#![no_main]

use clampbook_engine::quantity::{Length, Torque};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    if let Ok(read) = Length::parse(text) {
        assert!(read.length.get().is_finite() && read.length.get() >= 0.0, "{text:?}");
    }
    if let Ok(read) = Torque::parse(text) {
        assert!(read.torque.get().is_finite() && read.torque.get() >= 0.0, "{text:?}");
    }
});
