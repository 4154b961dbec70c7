//! Commands on a journal's file: copy, restore, verify, examine, rebuild.

use crate::clock;
use crate::config::{Backup, Doctor, Journal, Restore, Verify};
use anyhow::Context;
use clampbook_journal::{
    Finding, Verification, backup_file, examine_file, rebuild_file, restore_file, verify_against,
    verify_file,
};
use std::path::Path;

/// Copies a journal, also while it is being served.
///
/// # Errors
/// When the copy exists, cannot be written or does not check out.
pub(crate) fn backup(flags: &Backup) -> anyhow::Result<()> {
    let copy = backup_file(&flags.data, &flags.to)
        .with_context(|| format!("cannot back up {}", flags.data.display()))?;
    println!("{} entries copied to {}", copy.head.seq, flags.to.display());
    println!("head {}", copy.head);
    Ok(())
}

/// Puts a verified copy of a backup where a journal is to be.
///
/// # Errors
/// When the backup is not whole, the journal is being served, or something is there and is to stay.
pub(crate) fn restore(flags: &Restore) -> anyhow::Result<()> {
    let (from, data) = (&flags.from, &flags.data);
    let moment = flags.in_place.then(|| clock::system()());
    let restored = restore_file(from, data, moment)
        .with_context(|| format!("cannot restore {}", from.display()))?;
    let head = restored.journal.head;
    println!("{} entries restored to {}", head.seq, data.display());
    if let Some(kept) = restored.kept {
        println!("what was there before is kept as {}", kept.display());
    }
    println!("head {head}");
    Ok(())
}

/// Checks a journal from its first entry to its last, with its indexes and lists.
///
/// # Errors
/// When something in it is not as it was written.
pub(crate) fn verify(flags: &Verify) -> anyhow::Result<()> {
    let data = &flags.data;
    let found = match &flags.expect {
        Some(expected) => verify_against(data, expected),
        None => verify_file(data),
    };
    let found = found.with_context(|| format!("cannot read {}", data.display()))?;
    whole(data, &found)?;
    println!("{} entries, chain whole", found.entries);
    println!("head {}", found.head);
    if let [first, others @ ..] = &found.set_back[..] {
        println!(
            "the clock was set back before entry {first} and {} others; entries count in the order of their numbers",
            others.len()
        );
    }
    Ok(())
}

/// Prints all that was looked at, with advice where something is not as it should be.
///
/// # Errors
/// When there is any advice.
pub(crate) fn doctor(flags: &Doctor) -> anyhow::Result<()> {
    let found = examine_file(&flags.data, flags.backups.as_deref(), clock::system()());
    for Finding { what, is, advice } in &found {
        match advice {
            None => println!("ok    {what}: {is}"),
            Some(advice) => println!("LOOK  {what}: {is}\n      {advice}"),
        }
    }
    let bad = found.iter().filter(|finding| finding.advice.is_some());
    let bad = bad.count();
    anyhow::ensure!(
        bad == 0,
        "{bad} of {} are not as they should be",
        found.len()
    );
    Ok(())
}

/// Makes indexes, lists and counts again from the entries.
///
/// # Errors
/// When the journal is being served or cannot be written, or its entries are not what was written.
pub(crate) fn rebuild(flags: &Journal) -> anyhow::Result<()> {
    let found = rebuild_file(&flags.data).context("cannot rebuild")?;
    println!("indexes, lists and counts made again");
    whole(&flags.data, &found)
}

/// Tells what is wrong with a journal, if anything is.
fn whole(data: &Path, found: &Verification) -> anyhow::Result<()> {
    let broken = found.first_break.as_ref().map(|broken| {
        format!(
            "{} entries follow from each other, then entry {}: {}",
            found.entries, broken.seq, broken.what
        )
    });
    let wrong: Vec<String> = broken.into_iter().chain(found.faults.clone()).collect();
    anyhow::ensure!(
        wrong.is_empty(),
        "{} is not whole: {}",
        data.display(),
        wrong.join("; ")
    );
    Ok(())
}
