//! Flags of the server program.

use crate::export::{Export, Import, VerifyExport};
use clampbook_journal::Expected;
use clap::{Args, Parser, Subcommand};
use std::net::SocketAddr;
use std::path::PathBuf;

/// Keeps the record of a strip-down and answers how tight, for shops that put old machines back together.
#[derive(Debug, Parser)]
#[command(name = "clampbookd", version, arg_required_else_help = true)]
pub(crate) struct Config {
    /// How the log is written.
    #[arg(long, global = true, value_enum, default_value_t = LogFormat::Text)]
    pub(crate) log_format: LogFormat,
    /// What to do.
    #[command(subcommand)]
    pub(crate) command: Command,
}

/// Format of the log on standard error.
#[derive(Clone, Copy, Debug, PartialEq, Eq, clap::ValueEnum)]
pub(crate) enum LogFormat {
    /// For people.
    Text,
    /// JSON lines.
    Json,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Serve a journal until told to stop.
    Serve(Serve),
    /// Play a story on a fresh journal through the public API and print the reassembly sheet.
    Demo(Demo),
    /// Copy a journal, also while it is being served.
    Backup(Backup),
    /// Put a backup where a journal is to be. The server must be stopped.
    Restore(Restore),
    /// Check a journal from its first entry to its last, with its photos, indexes and lists.
    Verify(Verify),
    /// Write a journal, or one job of it, as open files that can be read and checked without this program.
    Export(Export),
    /// Take an export into a journal: a whole one as it was, a job as new entries. The server must be stopped.
    Import(Import),
    /// Check an export without its journal.
    VerifyExport(VerifyExport),
    /// Look at all that can be wrong with a journal and around it, with advice; also while it is being served.
    Doctor(Doctor),
    /// Make the indexes, lists and counts of a journal again from its entries. The server must be stopped.
    Rebuild(Journal),
}

/// Flags of `serve`.
#[derive(Debug, Args)]
pub(crate) struct Serve {
    /// Address to listen on, loopback only; port 0 takes a free one.
    #[arg(long, default_value = "127.0.0.1:50551")]
    pub(crate) listen: SocketAddr,
    /// The journal; made when it does not exist.
    #[arg(long, value_name = "FILE")]
    pub(crate) data: PathBuf,
    /// Refuse every request that writes.
    #[arg(long)]
    pub(crate) read_only: bool,
    /// A folder for backups, best on another disk; without it none are made.
    #[arg(long, value_name = "FOLDER")]
    pub(crate) backups: Option<PathBuf>,
    /// Hours from one backup to the next.
    #[arg(long, value_name = "HOURS", default_value_t = 24.0, value_parser = hours, requires = "backups")]
    pub(crate) backup_every: f64,
    /// How many backups are kept; the oldest goes when a new one is made and verified.
    #[arg(long, value_name = "COUNT", default_value_t = 14, value_parser = clap::value_parser!(u16).range(1..), requires = "backups")]
    pub(crate) backups_kept: u16,
    /// Wait for ever at a point of the writer, for tests that kill the server there: POINT=FOLDER.
    #[cfg(debug_assertions)]
    #[arg(long, hide = true, value_name = "POINT=FOLDER")]
    pub(crate) barrier: Option<String>,
}

/// Between a second and ten years.
fn hours(text: &str) -> Result<f64, String> {
    let hours = text.parse().unwrap_or_default();
    match (0.0003..=87_600.0).contains(&hours) {
        true => Ok(hours),
        false => Err("hours are a number from 0.0003 to 87600, for instance 24".into()),
    }
}

/// Flags of `demo`.
#[derive(Debug, Args)]
pub(crate) struct Demo {
    /// Leave the server running and the file in place, and say how to reach it.
    #[arg(long)]
    pub(crate) keep: bool,
}

/// Flags of `backup`.
#[derive(Debug, Args)]
pub(crate) struct Backup {
    /// Where the copy goes; an existing file is never overwritten.
    pub(crate) to: PathBuf,
    /// The journal.
    #[arg(long, value_name = "FILE")]
    pub(crate) data: PathBuf,
}

/// Flags of `restore`.
#[derive(Debug, Args)]
pub(crate) struct Restore {
    /// The backup; it stays as it is.
    pub(crate) from: PathBuf,
    /// Where the journal is to be.
    #[arg(long, value_name = "FILE")]
    pub(crate) data: PathBuf,
    /// Move the journal that is there away, with its log, and put the backup in its place.
    #[arg(long)]
    pub(crate) in_place: bool,
}

/// Flags of `verify`.
#[derive(Debug, Args)]
pub(crate) struct Verify {
    /// The journal.
    #[arg(long, value_name = "FILE")]
    pub(crate) data: PathBuf,
    /// A head that was printed or logged before: the journal must still lead there. As printed, or 12 digits or more of its hash
    /// alone, for instance from a sheet.
    #[arg(long, value_name = "HEAD")]
    pub(crate) expect: Option<Expected>,
}

/// Flags of `doctor`.
#[derive(Debug, Args)]
pub(crate) struct Doctor {
    /// The journal.
    #[arg(long, value_name = "FILE")]
    pub(crate) data: PathBuf,
    /// The folder of its backups.
    #[arg(long, value_name = "FOLDER")]
    pub(crate) backups: Option<PathBuf>,
}

/// A journal to work on.
#[derive(Debug, Args)]
pub(crate) struct Journal {
    /// The journal.
    #[arg(long, value_name = "FILE")]
    pub(crate) data: PathBuf,
}
