//! Any text is a thread designation or not; what is one prints and reads back as itself.

#![no_main]

use clampbook_engine::Designation;
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    if let Ok(read) = Designation::parse(text) {
        let printed = read.to_string();
        assert_eq!(Designation::parse(&printed).as_ref(), Ok(&read), "{text:?} printed {printed:?}");
    }
});
