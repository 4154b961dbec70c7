//! `completions` and `man`: what a package ships beside the program.

use clap::Args;
use clap_complete::Shell;

/// Print completions for a shell.
#[derive(Debug, Args)]
#[command(before_help = "Examples:\n  clampbook completions bash > clampbook.bash")]
pub(crate) struct ShellArgs {
    /// The shell.
    pub(crate) shell: Shell,
}

/// Print a manual page.
#[derive(Debug, Args)]
#[command(before_help = MAN)]
pub(crate) struct ManArgs {
    /// Command to describe; the whole program when not given.
    pub(crate) command: Vec<String>,
}

const MAN: &str = "\
Examples:
  clampbook man > clampbook.1
  clampbook man removal log > clampbook-removal-log.1";
