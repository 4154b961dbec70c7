//! What people read is plain English: words that make a reader stumble are in no text of the product.

use std::fs;
use std::path::Path;

/// Words and phrases that stay out, in lower case. A `*` at the end stands for any ending.
const STUMBLES: [&str; 17] = [
    "mend",
    "mends",
    "mended",
    "reckon*",
    "anew",
    "whoever",
    "of them",
    "is no fastener",
    "are no fasteners",
    "stands above",
    "nothing was said; it is needed",
    // What a careless renaming leaves behind.
    "lubrication lubrication",
    "finish lubrications",
    "torque torques",
    "run-on",
    "bears minimum",
    "small-part lubrication",
];

/// What people read, comments among it. Tests are left out, and so are migrations, which never change.
const READ: [&str; 8] = [
    "proto",
    "client",
    "server",
    "data",
    "docs",
    "README.md",
    "DEVELOPERS.md",
    "CHANGELOG.md",
];

/// Texts below a path, by their path in the repository.
fn texts(path: &Path, found: &mut Vec<(String, String)>) {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    if path.is_dir() {
        if matches!(&*name, "target" | "tests" | "migrations") || name.starts_with('.') {
            return;
        }
        for item in fs::read_dir(path).expect("a folder") {
            texts(&item.expect("an item").path(), found);
        }
    } else if [".rs", ".proto", ".md"]
        .iter()
        .any(|end| name.ends_with(end))
    {
        let root = Path::new(env!("CARGO_MANIFEST_DIR"));
        let within = path.strip_prefix(root).expect("inside");
        let text = fs::read_to_string(path).expect("text");
        found.push((within.to_string_lossy().into_owned(), text));
    }
}

/// Comments and string literals of a source, each on its line; names in code are left out.
fn prose(source: &str) -> String {
    let mut kept = String::new();
    let mut rest = source;
    while let Some(next) = rest.chars().next() {
        let (taken, is_prose) = if rest.starts_with("//") {
            (rest.find('\n').unwrap_or(rest.len()), true)
        } else if next == '"' {
            (literal(rest), true)
        } else if rest.starts_with("'\"'") || rest.starts_with("'\\\"'") {
            (rest.find("\"'").map_or(1, |at| at + 2), false)
        } else {
            (next.len_utf8(), false)
        };
        match is_prose {
            true => kept.push_str(&rest[..taken]),
            false if next == '\n' => kept.push('\n'),
            false => kept.push(' '),
        }
        rest = &rest[taken..];
    }
    kept
}

/// How many bytes a string literal takes, both quotes included.
fn literal(text: &str) -> usize {
    let mut escaped = false;
    for (at, letter) in text.char_indices().skip(1) {
        match letter {
            '"' if !escaped => return at + 1,
            _ => escaped = letter == '\\' && !escaped,
        }
    }
    text.len()
}

/// Whether a line has the phrase as whole words.
fn says(line: &str, phrase: &str) -> bool {
    let (phrase, open) = match phrase.strip_suffix('*') {
        Some(stem) => (stem, true),
        None => (phrase, false),
    };
    let part_of_word = |c: char| c.is_alphanumeric() || c == '_';
    line.match_indices(phrase).any(|(at, _)| {
        let (before, after) = (&line[..at], &line[at + phrase.len()..]);
        !before.ends_with(part_of_word) && (open || !after.starts_with(part_of_word))
    })
}

#[test]
fn no_text_of_the_product_makes_a_reader_stumble() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut all = Vec::new();
    for place in READ {
        texts(&root.join(place), &mut all);
    }
    assert!(all.len() > 100, "{} texts are too few", all.len());
    let mut found = Vec::new();
    for (file, text) in all {
        let read = match file.ends_with(".rs") {
            true => prose(&text),
            false => text,
        };
        for (number, line) in read.to_lowercase().lines().enumerate() {
            for phrase in STUMBLES.iter().filter(|phrase| says(line, phrase)) {
                found.push(format!("{file}:{}: \"{phrase}\"", number + 1));
            }
        }
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn a_stumble_is_seen_in_texts_and_not_in_names() {
    let source = "fn anew() { // said anew\n  say(\"mend \\\" it\");\n}\n";
    let read = prose(source);
    let seen = |number: usize, word: &str| says(read.lines().nth(number).expect("a line"), word);
    assert!(seen(0, "anew") && seen(1, "mend"), "{read}");
    assert!(!prose("fn anew() {}").contains("anew"));
    assert!(!says("is_put_right recommend", "mend") && says("reckoned", "reckon*"));
}
