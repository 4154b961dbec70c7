//! The demo: starts a server of its own on a fresh journal and plays a story through the public API, as any integrator would.
//!
//! The shop, the tractor and everything that happens to it are invented.

mod builds;
mod child;
mod manual;
mod page;
mod parts;
mod scribe;
mod story;

use crate::config::Demo;
use anyhow::Context;
use child::Child;
use page::{line, reader_left};
use scribe::Scribe;

/// Plays the story and prints what was flagged, and the sheet.
///
/// # Errors
/// When the server cannot be started or refuses a part of the story.
pub(crate) fn run(flags: &Demo) -> anyhow::Result<()> {
    match play(flags) {
        Err(error) if reader_left(&error) => Ok(()),
        outcome => outcome,
    }
}

fn play(flags: &Demo) -> anyhow::Result<()> {
    let folder = tempfile::Builder::new()
        .prefix("clampbook-demo-")
        .tempdir()
        .context("a temporary folder")?;
    let data = folder.path().join("demo.clampbook");
    let child = Child::start(&data)?;
    crate::command::runtime()?.block_on(async {
        let mut scribe = Scribe::connect(child.url()).await?;
        story::tell(&mut scribe).await
    })?;
    if flags.keep {
        let url = child.url().to_owned();
        let process = child.leave_running();
        let kept = folder.keep();
        line(format_args!(
            "The server keeps running as process {process}; its journal is in {}",
            kept.display()
        ))?;
        line(format_args!("Talk to it, for instance:"))?;
        line(format_args!(
            "  clampbook --server {url} flags list {}",
            story::JOB
        ))?;
        line(format_args!(
            "  clampbook --server {url} sheet {} --unit lbf-ft",
            story::JOB
        ))?;
        line(format_args!("  kill {process}    ends it"))?;
    }
    Ok(())
}
