//! `completions` and `man`: made from the command tree itself.

use std::io::{self, Write};

use clap::builder::StyledStr;
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

/// The page section by section: the generator itself knows no place for examples.
fn manual(command: clap::Command, page: &mut Vec<u8>) -> io::Result<()> {
    let name = command.get_bin_name().unwrap_or("clampbook");
    let title = name.replace(' ', "-");
    let examples = plain(command.get_before_help());
    let codes = plain(command.get_after_help());
    let has_commands = command.has_subcommands();

    let man = Man::new(command.display_name(title));
    man.render_title(page)?;
    man.render_name_section(page)?;
    man.render_synopsis_section(page)?;
    man.render_description_section(page)?;
    section("EXAMPLES", &examples, page)?;
    man.render_options_section(page)?;
    if has_commands {
        man.render_subcommands_section(page)?;
    }
    section("EXIT STATUS", &codes, page)
}

fn plain(text: Option<&StyledStr>) -> String {
    text.map(ToString::to_string).unwrap_or_default()
}

/// Text kept line by line under a heading that stands in place of its own first line.
fn section(heading: &str, text: &str, page: &mut Vec<u8>) -> io::Result<()> {
    let Some((_, body)) = text.split_once('\n') else {
        return Ok(());
    };
    writeln!(page, ".SH \"{heading}\"\n.nf")?;
    for line in body.lines() {
        // A backslash, a hyphen and a leading dot or quote mean something to the typesetter.
        let escaped = line.replace('\\', "\\e").replace('-', "\\-");
        let guard = if escaped.starts_with(['.', '\'']) {
            "\\&"
        } else {
            ""
        };
        writeln!(page, "{guard}{escaped}")?;
    }
    writeln!(page, ".fi")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(words: &[&str]) -> String {
        let mut tree = command();
        tree.build();
        let described = words.iter().fold(&tree, |command, word| {
            command
                .find_subcommand(word)
                .expect("a command of that name")
        });
        let mut page = Vec::new();
        manual(described.clone(), &mut page).expect("memory takes everything");
        String::from_utf8(page).expect("UTF-8")
    }

    #[test]
    fn the_manual_has_examples_exit_codes_and_the_environment() {
        let page = page(&[]);
        for expected in [
            ".SH \"EXAMPLES\"",
            "  clampbook sheet orchard\\-tractor",
            ".SH \"EXIT STATUS\"",
            "  7    refused by a safety rule",
            "CLAMPBOOK_SERVER",
            "clampbook\\-removal(1)",
        ] {
            assert!(page.contains(expected), "{expected}\n{page}");
        }
    }

    #[test]
    fn a_command_has_a_manual_of_its_own() {
        let page = page(&["removal", "import"]);
        assert!(page.contains(".TH clampbook-removal-import 1"), "{page}");
        assert!(page.contains("  methods, ticks    "), "{page}");
    }
}
