//! Any text is a table of torque questions or not; a line of one either asks or says what is wrong with it.

#![no_main]

/// As much of the command line's errors as reading a table needs.
mod error {
    #[derive(Debug)]
    pub(crate) struct Failure(pub(crate) String);

    impl Failure {
        pub(crate) fn usage(message: impl Into<String>) -> Self {
            Self(message.into())
        }
    }
}

#[path = "../../client/command/many/table.rs"]
mod table;

use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| match table::read(text) {
    Ok(lines) => {
        for line in &lines {
            assert_ne!(line.ask().is_some(), line.fault().is_some());
            assert!(line.fault().is_none_or(|fault| !fault.fields.is_empty()));
            assert_eq!(line.said().len(), 4);
        }
    }
    Err(failure) => assert!(failure.0.contains("table"), "{}", failure.0),
});
