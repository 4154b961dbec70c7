//! `lubrications`: the shop's own lubrications.

use clampbook_api::v1::OwnLubrication;
use clap::{Args, Subcommand};

use super::Change;

/// Keep the shop's own lubrications, with nut factors from its own tests.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum LubricationsCommand {
    /// Add a lubrication; from then on every computation may use it.
    #[command(before_help = EXAMPLES)]
    Add {
        /// Id for it: lower-case letters, digits and hyphens.
        id: String,
        #[command(flatten)]
        own: OwnArgs,
        #[command(flatten)]
        change: Change,
    },
    /// Add a new revision; what was recorded with an earlier one stays as it was.
    #[command(before_help = REVISE)]
    Revise {
        /// Id of the lubrication.
        id: String,
        #[command(flatten)]
        own: OwnArgs,
        #[command(flatten)]
        read: ReadArgs,
        #[command(flatten)]
        change: Change,
    },
    /// Withdraw a lubrication; nothing is computed with it any more.
    #[command(before_help = WITHDRAW)]
    Withdraw {
        /// Id of the lubrication.
        id: String,
        /// Why, in words.
        #[arg(long, value_name = "TEXT")]
        reason: String,
        #[command(flatten)]
        read: ReadArgs,
        #[command(flatten)]
        change: Change,
    },
    /// List the shop's own lubrications with their tests.
    List,
}

/// Which state of the lubrication the change is based on.
#[derive(Debug, Args)]
pub(crate) struct ReadArgs {
    /// Etag of the lubrication as you last read it; when not given, the program reads it first.
    #[arg(long, value_name = "ETAG")]
    pub(crate) etag: Option<String>,
}

/// What the shop says about its lubrication.
#[derive(Debug, Args)]
pub(crate) struct OwnArgs {
    /// What people call it.
    #[arg(long, value_name = "TEXT")]
    name: String,
    /// Nut factor K to compute with.
    #[arg(long, value_name = "K")]
    nut_factor: f64,
    /// Lowest nut factor of the tests.
    #[arg(long, value_name = "K")]
    low: f64,
    /// Highest nut factor of the tests.
    #[arg(long, value_name = "K")]
    high: f64,
    /// Thread and turned face are dry; lubricated when not given.
    #[arg(long)]
    dry: bool,
    /// How many tests.
    #[arg(long, value_name = "COUNT")]
    tests: i32,
    /// Who did the tests.
    #[arg(long, value_name = "NAME")]
    tested_by: String,
    /// Day of the tests, for instance 2026-03-02.
    #[arg(long, value_name = "DAY")]
    tested_on: String,
    /// What was tested and how.
    #[arg(long, value_name = "TEXT")]
    tested: String,
    /// Anything else.
    #[arg(long, value_name = "TEXT", default_value = "")]
    note: String,
}

impl OwnArgs {
    /// As it is sent.
    pub(crate) fn into_wire(self) -> OwnLubrication {
        OwnLubrication {
            display_name: self.name,
            nut_factor: self.nut_factor,
            low_nut_factor: self.low,
            high_nut_factor: self.high,
            lubricated: !self.dry,
            test_count: self.tests,
            tested_by: self.tested_by,
            tested_on: self.tested_on,
            tested: self.tested,
            note: self.note,
        }
    }
}

const EXAMPLES: &str = "\
Examples:
  clampbook lubrications add bench-paste --name \"bench paste\" \\
      --nut-factor 0.15 --low 0.13 --high 0.17 --tests 12 \\
      --tested-by Ada --tested-on 2026-03-02 \\
      --tested \"7/16-20 grade 5, load cell\"
  clampbook torque 7/16-20 \"SAE J429 5\" \"bench paste\"
  clampbook lubrications list";

const REVISE: &str = "\
Examples:
  clampbook lubrications revise bench-paste --name \"bench paste\" \\
      --nut-factor 0.16 --low 0.13 --high 0.19 --tests 20 \\
      --tested-by Ada --tested-on 2026-06-11 \\
      --tested \"7/16-20 grade 5, load cell\"";

const WITHDRAW: &str = "\
Examples:
  clampbook lubrications withdraw bench-paste --reason \"the tin is empty\"";
