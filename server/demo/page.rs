//! Where the demo's lines go: standard output, whose reader may leave early.

use std::fmt::Display;
use std::io::{self, Write};

/// Prints one line.
///
/// # Errors
/// When nobody reads it any more.
pub(super) fn line(words: impl Display) -> io::Result<()> {
    writeln!(io::stdout(), "{words}")
}

/// Whether an error is only that the reader has left, as `| head` does.
pub(super) fn reader_left(error: &anyhow::Error) -> bool {
    error
        .downcast_ref::<io::Error>()
        .is_some_and(|error| error.kind() == io::ErrorKind::BrokenPipe)
}
