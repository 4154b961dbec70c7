//! Flags of the server program.

use clampbook_store::Expected;
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
    /// Wait for ever at a point of the writer, for tests that kill the server there: POINT=FOLDER.
    #[cfg(debug_assertions)]
    #[arg(long, hide = true, value_name = "POINT=FOLDER")]
    pub(crate) barrier: Option<String>,
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

/// A journal to work on.
#[derive(Debug, Args)]
pub(crate) struct Journal {
    /// The journal.
    #[arg(long, value_name = "FILE")]
    pub(crate) data: PathBuf,
}
