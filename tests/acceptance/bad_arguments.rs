//! One bad argument at a time for every command: the exit code, the name of what is wrong, and nothing written.

mod desk;
mod good;
mod job;
mod parts;
mod shop;

use crate::support::cli::{clampbook, run};
use crate::support::{Server, cli};
use good::{
    ACCOUNT, ALIKE, ARRIVE, ASSEMBLY, DECIDE, FINDING, FITS, JOB, JOINT, LOG, MARKS, PASTE,
    PASTE_ANEW, PASTE_GONE, PERSON, PERSON_CHANGED, PERSON_GONE, PLAN, PREPARED, REFIT, REMOVAL,
    RESTATE, SPEC, SPEC_ANEW, SPEC_GONE, TIGHTEN, TORQUE, WANT, WITHDRAW, WRENCH,
};

/// A good command; what is put in place of or (in place of `""`) after its words; the exit code; what the message names.
type Bad = (
    &'static [&'static str],
    &'static [(&'static str, &'static str)],
    i32,
    &'static str,
);

fn table() -> impl Iterator<Item = &'static Bad> {
    (desk::TABLE.iter())
        .chain(job::TABLE)
        .chain(parts::TABLE)
        .chain(shop::TABLE)
}

#[test]
fn no_command_takes_a_bad_argument() {
    let server = Server::start();
    for command in PREPARED {
        cli(&server, command).output();
    }
    let before = server.entry_count();
    let mut wrong = Vec::new();
    for (good, changes, code, words) in table() {
        let command = spoil(good, changes);
        let told = cli(&server, &command);
        if told.code != Some(*code) || !told.stderr.contains(words) || !told.stdout.is_empty() {
            wrong.push(format!(
                "{command:?}: wanted {code} and {words:?}, got {told:#?}"
            ));
        }
    }
    assert!(
        wrong.is_empty(),
        "{} of {}:\n{}",
        wrong.len(),
        table().count(),
        wrong.join("\n")
    );
    assert_eq!(server.entry_count(), before, "something was written");
}

#[test]
fn what_the_bad_ones_were_made_from_is_good() {
    let server = Server::start();
    for command in PREPARED {
        cli(&server, command).output();
    }
    for command in [
        TORQUE,
        RESTATE,
        WRENCH,
        PLAN,
        JOB,
        ASSEMBLY,
        JOINT,
        DECIDE,
        MARKS,
        LOG,
        ALIKE,
        REMOVAL,
        REFIT,
        TIGHTEN,
        ACCOUNT,
        FINDING,
        FITS,
        WANT,
        ARRIVE,
        PASTE,
        PASTE_ANEW,
        PASTE_GONE,
        SPEC,
        SPEC_ANEW,
        SPEC_GONE,
        PERSON,
        PERSON_CHANGED,
        PERSON_GONE,
    ] {
        cli(&server, command).output();
    }
    let withdraw = spoil(WITHDRAW, &[("4", "17")]);
    cli(&server, &withdraw).output();
}

fn spoil<'w>(good: &[&'w str], changes: &[(&str, &'w str)]) -> Vec<&'w str> {
    let mut command = good.to_vec();
    for (from, to) in changes {
        if from.is_empty() {
            command.push(to);
        } else {
            let place = command.iter().position(|word| word == from);
            command[place.expect("the word to change is there")] = to;
        }
    }
    command
}

#[test]
fn every_command_is_among_the_bad_ones() {
    let mut untried = Vec::new();
    for command in leaves(&[]) {
        let is_tried = table().any(|(good, ..)| {
            good.starts_with(&command.iter().map(String::as_str).collect::<Vec<_>>())
        });
        // These take no argument of their own.
        let takes_none = [
            "jobs list",
            "catalog grades",
            "catalog nuts",
            "catalog lubrications",
            "catalog look-alikes",
            "lubrications list",
            "people list",
            "specs list",
            "specs export",
            "flags rules",
        ];
        let excused = takes_none.contains(&command.join(" ").as_str());
        if is_tried == excused {
            untried.push(command.join(" "));
        }
    }
    assert!(untried.is_empty(), "{untried:?}");
}

/// Every command that has no commands below it, as the help lists them.
fn leaves(above: &[String]) -> Vec<Vec<String>> {
    let words: Vec<&str> = above.iter().map(String::as_str).chain(["--help"]).collect();
    let told = run(&mut clampbook(&words));
    let Some((_, list)) = told.output().split_once("\nCommands:\n") else {
        return vec![above.to_vec()];
    };
    let list = list.split("\n\n").next().unwrap_or_default();
    let names = list.lines().filter_map(|line| {
        let name = line.strip_prefix("  ")?;
        name.starts_with(|c: char| c.is_ascii_lowercase())
            .then(|| name.split(' ').next())?
    });
    names
        .flat_map(|name| leaves(&[above, &[name.to_owned()]].concat()))
        .collect()
}
