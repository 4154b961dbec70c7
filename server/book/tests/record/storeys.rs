//! The storeys of the book: each uses only those below it, and inside the two lower ones no two modules use each other.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// Each storey with those it may use besides itself.
const STOREYS: [(&str, &[&str]); 4] = [
    ("record", &[]),
    ("reason", &["record"]),
    ("judge", &["record", "reason"]),
    ("views", &["record", "reason"]),
];

/// Storeys whose modules stand in a row, each using only those before it. A module counts with all below it.
const IN_A_ROW: [&str; 2] = ["record", "reason"];

#[test]
fn each_storey_uses_only_those_below_it() {
    let mut wrong = Vec::new();
    for (storey, below) in STOREYS {
        let sources = sources(storey);
        assert!(!sources.is_empty(), "no sources under {storey}");
        for (place, text) in &sources {
            // What is re-exported at the crate's root would hide the storey, so paths through it are refused too.
            for used in used(place, text) {
                let first = used.first().map_or("", String::as_str);
                if first != storey && !below.contains(&first) {
                    let place = place.join("/");
                    wrong.push(format!("{place}: {used:?}; {storey} may use {below:?}"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "upward uses:\n{}", wrong.join("\n"));
}

#[test]
fn no_two_modules_of_a_storey_use_each_other() {
    for storey in IN_A_ROW {
        let mut uses: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        for (place, text) in sources(storey) {
            let Some(own) = place.get(1) else { continue };
            let others = used(&place, &text).into_iter();
            let others = others.filter(|path| path.first().is_some_and(|first| first == storey));
            let others = others.filter_map(|path| path.into_iter().nth(1));
            let entry = uses.entry(own.clone()).or_default();
            entry.extend(others.filter(|other| other != own));
        }
        // What uses only what was taken away already is taken away; a circle stays.
        while let Some(free) = uses
            .iter()
            .find(|(_, others)| others.iter().all(|other| !uses.contains_key(other)))
            .map(|(own, _)| own.clone())
        {
            uses.remove(&free);
        }
        assert!(
            uses.is_empty(),
            "circles in {storey}, or behind one: {uses:#?}"
        );
    }
}

#[test]
fn a_path_is_followed_however_it_is_written() {
    let place = ["reason", "rules", "fits"].map(str::to_owned);
    let text = "use crate::judge::{a, b::{self, c}};\nuse super::super::super::views;\nfn f() { super::super::shown::g() }";
    let found: Vec<String> = used(&place, text)
        .iter()
        .map(|path| path.join("::"))
        .collect();
    assert_eq!(
        found,
        [
            "judge::a",
            "judge::b::self",
            "judge::b::c",
            "views",
            "reason::shown::g"
        ]
    );
}

/// The sources of a storey, each with its place among the modules.
fn sources(storey: &str) -> Vec<(Vec<String>, String)> {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    files_under(&source.join(storey), &[storey.to_owned()], &mut files);
    files
}

fn files_under(folder: &Path, place: &[String], files: &mut Vec<(Vec<String>, String)>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        let name = path.file_stem().and_then(|name| name.to_str());
        let mut inside = place.to_vec();
        inside.extend(name.filter(|name| *name != "mod").map(str::to_owned));
        if path.is_dir() {
            files_under(&path, &inside, files);
        } else {
            files.push((inside, fs::read_to_string(&path).expect("a source")));
        }
    }
}

/// The paths into this crate that a source names, from the crate's root, whether they begin with `crate` or with `super`.
fn used(place: &[String], text: &str) -> Vec<Vec<String>> {
    let text: String = text
        .lines()
        .map(|line| line.split("//").next().unwrap_or(line))
        .collect::<Vec<_>>()
        .join(" ");
    let mut found = Vec::new();
    let mut rest = text.as_str();
    while let Some((start, from)) = beginning(rest) {
        let levels = rest[start..]
            .split("::")
            .take_while(|part| *part == "super")
            .count();
        let kept = place.len().saturating_sub(levels);
        let before = if from == "super" { &place[..kept] } else { &[] };
        let skip = if from == "super" { levels } else { 1 };
        let path = &rest[start + skip * (from.len() + 2)..];
        spread(before, path, &mut found);
        rest = path;
    }
    found
}

/// Where the next path begins, and its first word.
fn beginning(text: &str) -> Option<(usize, &'static str)> {
    let starts = ["crate", "super"].map(|word| {
        let mut places = text.match_indices(word);
        let place = places.find(|(at, _)| {
            let before = text[..*at].chars().next_back();
            let is_inside = before.is_some_and(|c| c.is_alphanumeric() || c == '_' || c == ':');
            !is_inside && text[at + word.len()..].starts_with("::")
        });
        place.map(|(at, _)| (at, word))
    });
    starts.into_iter().flatten().min()
}

/// The paths of a path, which may end in braces.
fn spread(before: &[String], path: &str, found: &mut Vec<Vec<String>>) {
    let end = path.find(|c: char| !c.is_alphanumeric() && c != '_');
    let (name, rest) = path.split_at(end.unwrap_or(path.len()));
    if let Some(inside) = rest.strip_prefix('{').filter(|_| name.is_empty()) {
        let mut depth = 0_u32;
        let parts = inside.split(|c| {
            match c {
                '{' => depth += 1,
                '}' => depth = depth.saturating_sub(1),
                _ => {}
            }
            c == ',' && depth == 0
        });
        let group = closed(inside);
        let mut length = 0;
        for part in parts {
            if length >= group {
                break;
            }
            length += part.len() + 1;
            spread(before, part.trim(), found);
        }
        return;
    }
    let mut path = before.to_vec();
    if !name.is_empty() {
        path.push(name.to_owned());
    }
    match rest.strip_prefix("::") {
        Some(rest) => spread(&path, rest, found),
        None if !path.is_empty() => found.push(path),
        None => {}
    }
}

/// Length of the inside of a brace that was opened just before.
fn closed(inside: &str) -> usize {
    let mut depth = 1_u32;
    let end = inside.find(|c| {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            _ => {}
        }
        depth == 0
    });
    end.unwrap_or(inside.len())
}
