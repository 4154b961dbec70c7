//! `completions` and `man`: made from the command tree itself.

use clap_mangen::Man;

use crate::{
    args::{ManArgs, ShellArgs, command},
    error::Failure,
    out::Out,
};

/// Completions, first into memory: the generator panics on a pipe that closes early.
pub(super) fn completions(args: &ShellArgs, out: &Out) -> Result<(), Failure> {
    let mut script = Vec::new();
    clap_complete::generate(args.shell, &mut command(), "clampbook", &mut script);
    out.bytes(&script)
}

/// The manual of the whole program or of one command.
pub(super) fn man(args: &ManArgs, out: &Out) -> Result<(), Failure> {
    let mut tree = command();
    tree.build();
    let mut described = &tree;
    for word in &args.command {
        described = described.find_subcommand(word).ok_or_else(|| {
            Failure::usage(format!("there is no command `{}`", args.command.join(" ")))
        })?;
    }
    let mut page = Vec::new();
    manual(described.clone(), &mut page)
        .map_err(|error| Failure::system("cannot write the manual", &error))?;
    out.bytes(&page)
}

fn manual(command: clap::Command, page: &mut Vec<u8>) -> std::io::Result<()> {
    // The generator knows no place for examples but the text behind the options.
    let examples = command
        .get_before_help()
        .map(ToString::to_string)
        .unwrap_or_default();
    let after = command
        .get_after_help()
        .map(ToString::to_string)
        .unwrap_or_default();
    let title = command
        .get_bin_name()
        .unwrap_or("clampbook")
        .replace(' ', "-");
    Man::new(
        command
            .display_name(title)
            .after_help(format!("{examples}\n\n{after}")),
    )
    .render(page)
}
