//! A fastener as named on the command line, and `fits`.

use clampbook_api::v1::{FastenerSpec, Purpose};
use clap::Args;

use super::{Place, Word};

/// A new fastener.
#[derive(Clone, Debug, Args)]
pub(crate) struct FastenerArgs {
    /// Thread of the new fastener, for instance 7/16-20.
    #[arg(long, value_name = "TEXT")]
    thread: Option<String>,
    /// Length of the new fastener under its head, for instance "1-3/4 in".
    #[arg(long, value_name = "TEXT")]
    length: Option<String>,
    /// Grade of the new fastener as marked, for instance "SAE J429 5".
    #[arg(long, value_name = "TEXT")]
    grade: Option<String>,
    #[command(flatten)]
    more: MoreArgs,
}

/// Further details.
#[derive(Clone, Debug, Args)]
struct MoreArgs {
    /// Form of the new fastener, for instance "hexagon bolt".
    #[arg(long, value_name = "TEXT", requires = "thread")]
    form: Option<String>,
    /// Finish or metal of the new fastener, for instance "zinc plated".
    #[arg(long, value_name = "TEXT", requires = "thread")]
    finish: Option<String>,
    /// What the new fastener is made for, if not plain clamping.
    #[arg(long, value_name = "PURPOSE", requires = "thread", value_parser = Purpose::parser())]
    made_for: Option<Purpose>,
    /// Papers show that the new fastener was baked after plating.
    #[arg(long, requires = "thread")]
    baked: bool,
    /// Length of its thread, in mm; that of the standard's bolt when not given.
    #[arg(
        long,
        value_name = "MM",
        requires = "thread",
        allow_negative_numbers = true
    )]
    thread_length_mm: Option<f64>,
    /// Height of its head, in mm; the hexagon's when not given.
    #[arg(
        long,
        value_name = "MM",
        requires = "thread",
        allow_negative_numbers = true
    )]
    head_height_mm: Option<f64>,
    /// Maximum diameter of its head, in mm; the hexagon's when not given.
    #[arg(
        long,
        value_name = "MM",
        requires = "thread",
        allow_negative_numbers = true
    )]
    head_diameter_mm: Option<f64>,
}

impl FastenerArgs {
    /// The fastener; nothing when none of its flags was given. The server names what is missing.
    pub(crate) fn into_wire(self) -> Option<FastenerSpec> {
        let Self {
            thread,
            length,
            grade,
            more,
        } = self;
        if thread.is_none() && length.is_none() && grade.is_none() {
            return None;
        }
        Some(FastenerSpec {
            thread: thread.unwrap_or_default(),
            length: length.unwrap_or_default(),
            grade: grade.unwrap_or_default(),
            form: more.form.unwrap_or_default(),
            finish: more.finish.unwrap_or_default(),
            purpose: more.made_for.map_or(0, Into::into),
            baked: more.baked,
            thread_length_mm: more.thread_length_mm,
            head_height_mm: more.head_height_mm,
            head_diameter_mm: more.head_diameter_mm,
            ..FastenerSpec::default()
        })
    }
}

/// Check whether a fastener fits a position before you decide on it; nothing is written.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct FitsArgs {
    #[command(flatten)]
    pub(crate) place: Place,
    #[command(flatten)]
    pub(crate) fastener: FastenerArgs,
}

const EXAMPLES: &str = "\
Examples:
  clampbook fits orchard-tractor left-hub-bolts 3 --thread 7/16-20 \\
      --length \"1-3/4 in\" --grade \"SAE J429 5\" --finish \"zinc plated\"";
