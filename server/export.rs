//! Commands on exports: a journal as open files, and the way back.

use crate::clock;
use anyhow::Context;
use clampbook_book::ids::{JobId, SLUG_RULE};
use clampbook_journal::{Checked, check_export, export_file, import_file};
use clap::Args;
use std::path::PathBuf;

/// Flags of `export`.
#[derive(Debug, Args)]
pub(crate) struct Export {
    /// The folder to be made; an existing one is never overwritten.
    to: PathBuf,
    /// The journal.
    #[arg(long, value_name = "FILE")]
    data: PathBuf,
    /// Only this job; of all other entries the hashes, so that the chain can be followed.
    #[arg(long, value_name = "ID", value_parser = job)]
    job: Option<JobId>,
}

/// Flags of `import`.
#[derive(Debug, Args)]
pub(crate) struct Import {
    /// The folder of the export; it stays as it is.
    from: PathBuf,
    /// The journal: a new one for a whole export, one that is there for the export of a job.
    #[arg(long, value_name = "FILE")]
    data: PathBuf,
    /// Id that the job gets here; its own when nothing is said.
    #[arg(long = "as", value_name = "ID", value_parser = job)]
    renamed: Option<JobId>,
}

/// Flags of `verify-export`.
#[derive(Debug, Args)]
pub(crate) struct VerifyExport {
    /// The folder of the export.
    from: PathBuf,
}

fn job(text: &str) -> Result<JobId, String> {
    let id = text.strip_prefix("jobs/").unwrap_or(text);
    JobId::new(id).ok_or_else(|| format!("the id of a job is {SLUG_RULE}"))
}

/// Writes a journal, or one job of it, as open files.
///
/// # Errors
/// When the folder exists, or the journal cannot be read, is not whole or has no such job.
pub(crate) fn export(flags: &Export) -> anyhow::Result<()> {
    let made = export_file(&flags.data, &flags.to, flags.job.as_ref())
        .with_context(|| format!("cannot export {}", flags.data.display()))?;
    println!("exported to {}", flags.to.display());
    tell(&made);
    Ok(())
}

/// Takes an export into a journal.
///
/// # Errors
/// When the export is not whole, or the journal is being served or has something there already.
pub(crate) fn import(flags: &Import) -> anyhow::Result<()> {
    let now = clock::system()();
    let (taken, head) = import_file(&flags.from, &flags.data, flags.renamed.as_ref(), now)
        .with_context(|| format!("cannot import {}", flags.from.display()))?;
    let (entries, data) = (taken.entries, flags.data.display());
    println!("{entries} entries imported into {data}");
    println!("head {head}");
    Ok(())
}

/// Checks an export without a journal.
///
/// # Errors
/// When it is not what was written.
pub(crate) fn verify(flags: &VerifyExport) -> anyhow::Result<()> {
    let found = check_export(&flags.from)
        .with_context(|| format!("{} is not whole", flags.from.display()))?;
    tell(&found);
    Ok(())
}

fn tell(found: &Checked) {
    let Checked {
        entries, photos, ..
    } = found;
    match &found.job {
        None => println!("{entries} entries, chain whole; photos: {photos}"),
        Some(job) => println!(
            "{entries} entries of {job} shown, {} of others as hashes; photos: {photos}",
            found.head.seq - entries
        ),
    }
    if found.proven_from > 1 {
        println!(
            "the chain is shown from entry {} on; before it are entries of format 1 that cannot be followed without what they say",
            found.proven_from
        );
    }
    println!("head {}", found.head);
}
