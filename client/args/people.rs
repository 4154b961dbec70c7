//! `people`: the people of the shop.

use clampbook_api::v1::{Person, PersonRole};
use clap::{Args, Subcommand};

use super::{Change, Word};

/// Keep the people of the shop, by whose names entries are signed.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum PeopleCommand {
    /// Add a person; from then on `--person` with their name or id means them.
    #[command(before_help = EXAMPLES)]
    Add {
        /// Id for the person: lower-case letters, digits and hyphens.
        id: String,
        #[command(flatten)]
        person: PersonArgs,
        #[command(flatten)]
        change: Change,
    },
    /// Change name and roles; entries keep the name as it was.
    #[command(before_help = REVISE)]
    Revise {
        /// Id of the person.
        id: String,
        #[command(flatten)]
        person: PersonArgs,
        #[command(flatten)]
        read: ReadArgs,
        #[command(flatten)]
        change: Change,
    },
    /// Withdraw a person who does not work here any more.
    #[command(before_help = WITHDRAW)]
    Withdraw {
        /// Id of the person.
        id: String,
        /// Why, in words.
        #[arg(long, value_name = "TEXT")]
        reason: String,
        #[command(flatten)]
        read: ReadArgs,
        #[command(flatten)]
        change: Change,
    },
    /// List the people of the shop, also withdrawn ones.
    List,
}

/// Which state of the person the change is based on.
#[derive(Debug, Args)]
pub(crate) struct ReadArgs {
    /// Etag of the person as you last read it; when not given, the program reads it first.
    #[arg(long, value_name = "ETAG")]
    pub(crate) etag: Option<String>,
}

/// What the shop says about a person.
#[derive(Debug, Args)]
pub(crate) struct PersonArgs {
    /// Their name.
    #[arg(long, value_name = "NAME")]
    name: String,
    /// What they do in the shop; separate several with commas.
    #[arg(long, required = true, value_delimiter = ',', value_parser = PersonRole::parser())]
    roles: Vec<PersonRole>,
}

impl PersonArgs {
    /// As it is sent.
    pub(crate) fn into_wire(self) -> Person {
        Person {
            display_name: self.name,
            roles: self.roles.into_iter().map(i32::from).collect(),
            ..Person::default()
        }
    }
}

const EXAMPLES: &str = "\
Examples:
  clampbook people add ida --name \"Ida Holm\" --roles mechanic,lead
  clampbook removal log orchard-tractor left-hub-bolts 3 seized --person ida
  clampbook people list";

const REVISE: &str = "\
Examples:
  clampbook people revise ida --name \"Ida Lund\" --roles inspector";

const WITHDRAW: &str = "\
Examples:
  clampbook people withdraw ida --reason \"moved away\"";
