//! Rules of the house, held against the sources: who may name what, and that files stay small.

use std::fs;
use std::path::{Path, PathBuf};

/// Longest that a source file may be: the house aims at 300 lines.
const MOST_LINES: usize = 400;

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// Source files under a folder, by their path in the repository, with their text.
fn sources(folder: &str) -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut folders = vec![root().join(folder)];
    while let Some(folder) = folders.pop() {
        for item in fs::read_dir(&folder).expect("a folder") {
            let path = item.expect("an item").path();
            let name = path
                .file_name()
                .unwrap_or_default()
                .to_string_lossy()
                .into_owned();
            if path.is_dir() {
                if name != "target" && !name.starts_with('.') {
                    folders.push(path);
                }
            } else if name.ends_with(".rs") {
                found.push((within(&path), fs::read_to_string(&path).expect("text")));
            }
        }
    }
    assert!(!found.is_empty(), "{folder} holds no sources");
    found
}

fn within(path: &Path) -> String {
    let path: PathBuf = path.strip_prefix(root()).expect("inside").into();
    path.to_string_lossy().into_owned()
}

/// A file without the tests at its end.
fn without_tests(text: &str) -> &str {
    text.split("\nmod tests {").next().unwrap_or_default()
}

/// The code of a file, without comments and tests.
fn code(text: &str) -> String {
    let lines = without_tests(text)
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    lines.collect::<Vec<_>>().join("\n")
}

/// Places in these folders, outside tests and the files excused, where one of the words stands.
#[track_caller]
fn nobody_says(words: &[&str], folders: &[&str], excused: &[&str]) {
    let mut found = Vec::new();
    for (path, text) in folders.iter().flat_map(|folder| sources(folder)) {
        let is_test = path.contains("/tests/") || path.ends_with("/tests.rs");
        if is_test || excused.contains(&path.as_str()) {
            continue;
        }
        let code = code(&text);
        found.extend(
            words
                .iter()
                .filter(|word| code.contains(**word))
                .map(|word| format!("{path}: {word}")),
        );
    }
    assert!(found.is_empty(), "{found:#?}");
    for path in excused {
        assert!(
            root().join(path).exists(),
            "{path} is excused and does not exist"
        );
    }
}

#[test]
fn only_one_place_makes_statuses() {
    let words = [
        "Status::new",
        "with_error_details",
        "Status::internal",
        "Status::unknown",
        "Status::invalid_argument",
        "Status::not_found",
        "Status::unavailable",
        "Status::failed_precondition",
        "Status::permission_denied",
        "Status::aborted",
        "Status::already_exists",
        "Status::cancelled",
        "Status::deadline_exceeded",
        "Status::resource_exhausted",
        "Status::out_of_range",
        "Status::unimplemented",
        "Status::from_error",
    ];
    nobody_says(&words, &["server"], &["server/grpc/src/status.rs"]);
}

#[test]
fn only_the_clock_reads_the_time() {
    let words = ["SystemTime::now", "OffsetDateTime::now", "Utc::now"];
    nobody_says(
        &words,
        &["server", "data", "proto"],
        &["server/clock.rs", "server/app/examples/embed.rs"],
    );
}

/// Closing any other descriptor of the journal, its log or its index drops the locks that SQLite holds on them.
#[test]
fn no_file_is_opened_where_a_journal_is_served() {
    let words = [
        "File::open",
        "File::create",
        "File::options",
        "OpenOptions",
        "fs::read(",
        "fs::read_to_string",
        "fs::write",
        "fs::copy",
        "fs::hard_link",
    ];
    nobody_says(
        &words,
        &["server"],
        &[
            // Files of other names only: copies in the making, the lock, a test's barrier.
            "server/journal/src/sqlite/partial.rs",
            "server/journal/src/sqlite/claim.rs",
            "server/journal/src/sqlite/barrier.rs",
            "server/journal/src/sqlite/export/files.rs",
            "server/app/examples/embed.rs",
        ],
    );
}

#[test]
fn nothing_below_main_reads_the_environment() {
    let words = ["env::var", "env::args", "std::env::current_dir"];
    nobody_says(&words, &["server", "proto"], &["proto/build.rs"]);
}

#[test]
fn only_one_place_opens_a_database() {
    let opening = [
        "server/journal/src/sqlite/open.rs",
        "server/journal/src/sqlite/settings.rs",
    ];
    nobody_says(&["Connection::open"], &["server"], &opening);
}

#[test]
fn only_the_journals_own_folder_knows_sql() {
    let folders = [
        "server/journal/src/protocol",
        "server/app",
        "server/grpc",
        "server/book",
        "server/engine",
        "server/paper",
        "client",
    ];
    nobody_says(&["rusqlite", "SELECT ", "INSERT INTO"], &folders, &[]);
}

#[test]
fn the_journals_protocol_holds_wherever_it_is_kept() {
    let words = ["crate::sqlite", "super::sqlite", "std::fs", "std::path"];
    nobody_says(&words, &["server/journal/src/protocol"], &[]);
}

#[test]
fn the_command_line_sees_only_the_contract() {
    let words = [
        "clampbook_journal",
        "clampbook_book",
        "clampbook_engine",
        "clampbook_data",
        "clampbook_paper",
    ];
    nobody_says(&words, &["client"], &[]);
}

/// What a crate depends on when it runs, by its manifest.
fn dependencies(manifest: &str) -> Vec<String> {
    let text = fs::read_to_string(root().join(manifest)).expect("a manifest");
    let (_, listed) = text.split_once("\n[dependencies]\n").expect("dependencies");
    listed
        .lines()
        .take_while(|line| !line.starts_with('['))
        .filter_map(|line| line.split(['.', ' ']).next())
        .map(str::to_owned)
        .collect()
}

#[track_caller]
fn never_depends(manifest: &str, banned: &[&str]) {
    let dependencies = dependencies(manifest);
    for name in banned {
        let named = dependencies.iter().any(|one| one == name);
        assert!(!named, "{manifest} names {name}");
    }
}

#[test]
fn wire_types_stop_at_the_adapter() {
    let wire = ["clampbook-api", "tonic", "prost", "http", "hyper", "axum"];
    for manifest in [
        "server/app/Cargo.toml",
        "server/book/Cargo.toml",
        "server/engine/Cargo.toml",
        "server/journal/Cargo.toml",
        "server/paper/Cargo.toml",
    ] {
        never_depends(manifest, &wire);
    }
}

#[test]
fn the_adapter_neither_stores_nor_renders() {
    let inner = ["clampbook-journal", "clampbook-paper", "rusqlite", "csv"];
    never_depends("server/grpc/Cargo.toml", &inner);
}

#[test]
fn the_pure_crates_are_kept_pure_by_their_manifests() {
    for manifest in [
        "server/engine/Cargo.toml",
        "server/book/Cargo.toml",
        "server/paper/Cargo.toml",
    ] {
        never_depends(manifest, &["tokio", "tonic", "rusqlite", "tracing", "axum"]);
    }
    let words = [
        "std::fs",
        "std::net",
        "std::process",
        "std::thread",
        "std::env",
    ];
    nobody_says(&words, &["server/engine/src", "server/book/src"], &[]);
}

#[test]
fn a_release_has_no_hidden_flag() {
    let flags = fs::read_to_string(root().join("server/config.rs")).expect("text");
    let lines: Vec<&str> = flags.lines().map(str::trim).collect();
    let mut hidden = lines.windows(2).filter(|pair| pair[1].contains("hide"));
    assert!(hidden.all(|pair| pair[0] == "#[cfg(debug_assertions)]"));
}

#[test]
fn main_is_short() {
    let main = fs::read_to_string(root().join("server/main.rs")).expect("text");
    assert!(main.lines().count() <= 60, "{} lines", main.lines().count());
}

#[test]
fn files_stay_small_and_begin_by_saying_what_lives_there() {
    let mut found = Vec::new();
    for folder in ["proto", "server", "client", "data", "benches", "tests"] {
        for (path, text) in sources(folder) {
            let lines = text.lines().count();
            if !path.contains("tests") && lines > MOST_LINES {
                found.push(format!("{path} has {lines} lines"));
            }
            if !text.starts_with("//!") {
                found.push(format!("{path} does not begin by saying what lives there"));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn no_source_names_a_place_on_somebodys_machine() {
    let banned = [
        ["/wo", "rk/"].concat(),
        ["/ho", "me/"].concat(),
        ["/ro", "ot/"].concat(),
        ["C:", "\\"].concat(),
    ];
    let mut found = Vec::new();
    for folder in ["proto", "server", "client", "data", "benches", "tests"] {
        for (path, text) in sources(folder) {
            found.extend(
                banned
                    .iter()
                    .filter(|word| without_tests(&text).contains(*word))
                    .map(|word| format!("{path}: {word}")),
            );
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// Developers go by these paths: one that is not there sends them astray.
#[test]
fn every_file_that_the_developers_page_names_is_there() {
    let page = fs::read_to_string(root().join("DEVELOPERS.md")).expect("the page");
    let top = [
        "data/", "server/", "proto/", "client/", "tests/", "fuzz/", "docs/",
    ];
    let (mut named, mut missing) = (0, Vec::new());
    for path in page.split('`').skip(1).step_by(2) {
        let plain = |c: char| c.is_ascii_alphanumeric() || "/_.-".contains(c);
        if !top.iter().any(|top| path.starts_with(top)) || !path.chars().all(plain) {
            continue;
        }
        named += 1;
        // A file may be a folder too; what a run makes is not kept.
        if !root().join(path).exists() && !path.starts_with("fuzz/corpus") {
            missing.push(path);
        }
    }
    assert!(named > 50, "only {named} paths were found");
    assert_eq!(missing, [""; 0], "DEVELOPERS.md names what is not there");
}
