//! Reading a table that a person names, or standard input.

use std::{
    fs::File,
    io::{self, Read},
    path::Path,
};

use crate::error::Failure;

/// More than the server would ever take; only keeps a slip of the finger from filling the memory.
const LARGEST_FILE: u64 = 1024 * 1024;

/// The text of a file, `-` for standard input.
pub(super) fn read(path: &Path) -> Result<String, Failure> {
    let name = path.display().to_string();
    let bytes = if path.as_os_str() == "-" {
        bounded(io::stdin().lock())
    } else {
        File::open(path).and_then(bounded)
    }
    .map_err(|error| Failure::usage(format!("cannot read {name}: {error}")))?;
    text(bytes, &name)
}

fn text(bytes: Vec<u8>, name: &str) -> Result<String, Failure> {
    if bytes.len() as u64 > LARGEST_FILE {
        return Err(Failure::usage(format!(
            "{name} holds more than {LARGEST_FILE} bytes; the server takes 200,000 characters at once"
        )));
    }
    String::from_utf8(bytes).map_err(|error| {
        let sound = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = 1 + sound.iter().filter(|byte| **byte == b'\n').count();
        Failure::usage(format!(
            "{name}: line {line} is not UTF-8; save the table as UTF-8"
        ))
    })
}

fn bounded(file: impl Read) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    file.take(LARGEST_FILE + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_that_is_no_text_is_named_with_its_line() {
        let told =
            |bytes: &[u8]| text(bytes.to_vec(), "strip.csv").map_err(|failure| failure.told());
        assert_eq!(told("joint\nhüb".as_bytes()), Ok("joint\nhüb".to_owned()));
        assert_eq!(
            told(b"joint\nhub\nh\xFCb"),
            Err("clampbook: strip.csv: line 3 is not UTF-8; save the table as UTF-8".to_owned())
        );
    }

    #[test]
    fn a_file_far_too_large_is_not_even_read_to_its_end() {
        let read = bounded(io::repeat(b'x')).expect("a bounded read");
        let refused = text(read, "strip.csv").expect_err("too large");
        assert!(
            refused.told().contains("200,000 characters"),
            "{}",
            refused.told()
        );
    }
}
