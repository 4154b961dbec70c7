//! `photo`: pictures of what it was like.

use std::path::PathBuf;

use clap::{Args, Subcommand};

use super::Change;

/// Add photos of how it was, and get them back.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum PhotoCommand {
    /// Add a photo of the machine or of something on it.
    Add(PhotoArgs),
    /// Write a photo to a file.
    Get(GetPhotoArgs),
    /// List the photos of a job.
    List {
        /// Id of the job.
        job: String,
    },
}

/// A photo to add.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct PhotoArgs {
    /// Id of the job.
    pub(crate) job: String,
    /// File of the photo: JPEG, PNG or WebP, at most 8 MiB; over a slow link
    /// give it time with --timeout.
    pub(crate) file: PathBuf,
    /// What it is of: machine, assembly:ID, joint:ID, joint:ID:POSITION or
    /// finding:ENTRY.
    #[arg(long, value_name = "WHAT", value_parser = subject, default_value = "machine")]
    pub(crate) of: Subject,
    /// What it shows, in words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) caption: String,
    #[command(flatten)]
    pub(crate) change: Change,
}

/// A photo to write to a file.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct GetPhotoArgs {
    /// Id of the job.
    pub(crate) job: String,
    /// Number of the entry that added it, as `photo list` shows it.
    pub(crate) entry: String,
    /// File to write, which must not exist; - for standard output.
    pub(crate) file: PathBuf,
}

/// What a photo is of, as typed.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Subject {
    Machine,
    Assembly(String),
    Joint(String, i32),
    Finding(String),
}

pub(super) fn subject(said: &str) -> Result<Subject, String> {
    let mut parts = said.split(':').map(str::trim);
    let (kind, id, position) = (parts.next(), parts.next(), parts.next());
    let told = || {
        format!(
            "\"{said}\": allowed are machine, assembly:ID, joint:ID, joint:ID:POSITION and finding:ENTRY"
        )
    };
    if parts.next().is_some() {
        return Err(told());
    }
    match (kind, id, position) {
        (Some("machine"), None, None) => Ok(Subject::Machine),
        (Some("assembly"), Some(id), None) => Ok(Subject::Assembly(id.to_owned())),
        (Some("finding"), Some(entry), None) => Ok(Subject::Finding(entry.to_owned())),
        (Some("joint"), Some(id), None) => Ok(Subject::Joint(id.to_owned(), 0)),
        (Some("joint"), Some(id), Some(position)) => {
            let number = position.parse().ok().filter(|number| *number != 0);
            let number = number.ok_or_else(|| format!("{position} is no position number"))?;
            Ok(Subject::Joint(id.to_owned(), number))
        }
        _ => Err(told()),
    }
}

const EXAMPLES: &str = "\
Examples:
  clampbook photo add orchard-tractor hub.jpg --of joint:plate:3 \\
      --caption \"bracket under the long bolt\"
  clampbook photo list orchard-tractor
  clampbook photo get orchard-tractor 14 hub-again.jpg";

#[cfg(test)]
mod tests {
    use super::{Subject, subject};

    #[test]
    fn what_a_photo_is_of_is_said_with_colons() {
        let joint = |number| Ok(Subject::Joint("plate".to_owned(), number));
        assert_eq!(subject("joint:plate"), joint(0));
        assert_eq!(subject("joint: plate :3"), joint(3));
        assert_eq!(
            subject("assembly:hub"),
            Ok(Subject::Assembly("hub".to_owned()))
        );
        assert_eq!(subject("machine"), Ok(Subject::Machine));
        assert_eq!(subject("finding:12"), Ok(Subject::Finding("12".to_owned())));
        for wrong in [
            "",
            "plate",
            "machine:tractor",
            "hole:3",
            "joint:plate:0",
            "joint:plate:x",
            "joint:plate:3:4",
            "finding:1:2",
        ] {
            assert!(subject(wrong).is_err(), "{wrong}");
        }
    }
}
