//! The storeys of the book: each uses only those below it.

use std::fs;
use std::path::Path;

/// Each storey with those it may use besides itself.
const STOREYS: [(&str, &[&str]); 4] = [
    ("record", &[]),
    ("reason", &["record"]),
    ("judge", &["record", "reason"]),
    ("views", &["record", "reason"]),
];

#[test]
fn each_storey_uses_only_those_below_it() {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut wrong = Vec::new();
    for (storey, below) in STOREYS {
        let mut files = Vec::new();
        files_under(&source.join(storey), &mut files);
        assert!(!files.is_empty(), "no sources under {storey}");
        for (name, text) in &files {
            // What is re-exported at the crate's root would hide the storey, so paths through it are refused too.
            for used in text.split("crate::").skip(1) {
                let used: &str = used
                    .split(|c: char| !c.is_alphanumeric() && c != '_')
                    .next()
                    .unwrap_or("");
                if used != storey && !below.contains(&used) {
                    wrong.push(format!("{name}: crate::{used}; {storey} may use {below:?}"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "upward uses:\n{}", wrong.join("\n"));
}

fn files_under(folder: &Path, files: &mut Vec<(String, String)>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        if path.is_dir() {
            files_under(&path, files);
        } else {
            let text = fs::read_to_string(&path).expect("a source");
            files.push((path.display().to_string(), text));
        }
    }
}
