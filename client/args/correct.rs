//! `correct`: what an earlier entry should have said.

use clap::{Args, Subcommand};

use super::photo::subject;
use super::{
    AnsweredArgs, ArrivedArgs, Change, DecidedArgs, DescribedArgs, FoundArgs, MarkedArgs,
    PiecesArgs, RefittedArgs, SeenArgs, Subject, TightenedArgs, WantedArgs,
};

/// Correct an earlier entry; the entry itself stays in the journal.
#[derive(Debug, Subcommand)]
#[command(before_help = EXAMPLES)]
pub(crate) enum CorrectCommand {
    /// Withdraw an entry that should not have been made at all.
    Withdraw(WithdrawArgs),
    /// Correct how the fastener came out.
    Removal(Box<CorrectRemovalArgs>),
    /// Correct what is done with a fastener and its hole.
    Decision(Box<CorrectDecisionArgs>),
    /// Correct what went in.
    Refit(Box<CorrectRefitArgs>),
    /// Correct how far a fastener was tightened, and what was read.
    Tightening(CorrectTighteningArgs),
    /// Correct what was marked before the parts were separated, and where.
    Marks(CorrectMarksArgs),
    /// Correct what was found on a part.
    Finding(Box<CorrectFindingArgs>),
    /// Correct what shows that somebody looked at the other side.
    Answer(CorrectAnswerArgs),
    /// Correct a part that was added by hand.
    Wanted(Box<CorrectWantedArgs>),
    /// Correct what arrived.
    Arrival(CorrectArrivalArgs),
    /// Correct what happened to pieces; they stay the same pieces of the
    /// same position.
    NotRefitted(CorrectNotRefittedArgs),
    /// Correct what a photo shows or what it is of; the picture stays.
    Photo(CorrectPhotoArgs),
    /// Describe a joint again, completely; positions may be renamed, but their number and order stay.
    Joint(Box<CorrectJointArgs>),
}

/// The entry that is corrected.
#[derive(Debug, Args)]
pub(crate) struct EntryArgs {
    /// Id of the job.
    pub(crate) job: String,
    /// Number of the entry in the job, as `entries` shows it.
    pub(crate) entry: String,
}

/// The hole that it is about.
#[derive(Debug, Args)]
pub(crate) struct HoleArgs {
    /// Id of the joint.
    pub(crate) joint: String,
    /// Number of the position in the joint, from 1.
    #[arg(allow_negative_numbers = true)]
    pub(crate) position: i32,
}

/// An entry to withdraw.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct WithdrawArgs {
    #[command(flatten)]
    pub(crate) entry: EntryArgs,
    #[command(flatten)]
    pub(crate) why: WhyArgs,
}

/// The corrected removal.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct CorrectRemovalArgs {
    #[command(flatten)]
    pub(crate) entry: EntryArgs,
    #[command(flatten)]
    pub(crate) hole: HoleArgs,
    #[command(flatten)]
    pub(crate) seen: SeenArgs,
    #[command(flatten)]
    pub(crate) why: WhyArgs,
}

/// The corrected decision.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct CorrectDecisionArgs {
    #[command(flatten)]
    pub(crate) entry: EntryArgs,
    #[command(flatten)]
    pub(crate) hole: HoleArgs,
    #[command(flatten)]
    pub(crate) decided: DecidedArgs,
    /// Why you decide this, in words; for an odd length, what explains it.
    #[arg(long, value_name = "TEXT")]
    pub(crate) why: String,
    #[command(flatten)]
    pub(crate) because: WhyArgs,
}

/// The corrected refit.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct CorrectRefitArgs {
    #[command(flatten)]
    pub(crate) entry: EntryArgs,
    #[command(flatten)]
    pub(crate) hole: HoleArgs,
    #[command(flatten)]
    pub(crate) refitted: RefittedArgs,
    #[command(flatten)]
    pub(crate) why: WhyArgs,
}

/// The corrected tightening.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct CorrectTighteningArgs {
    #[command(flatten)]
    pub(crate) entry: EntryArgs,
    #[command(flatten)]
    pub(crate) hole: HoleArgs,
    #[command(flatten)]
    pub(crate) tightened: TightenedArgs,
    #[command(flatten)]
    pub(crate) why: WhyArgs,
}

/// The corrected marks.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct CorrectMarksArgs {
    #[command(flatten)]
    pub(crate) entry: EntryArgs,
    #[command(flatten)]
    pub(crate) seen: MarkedArgs,
    #[command(flatten)]
    pub(crate) why: WhyArgs,
}

/// The corrected finding.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct CorrectFindingArgs {
    #[command(flatten)]
    pub(crate) entry: EntryArgs,
    #[command(flatten)]
    pub(crate) found: FoundArgs,
    #[command(flatten)]
    pub(crate) why: WhyArgs,
}

/// The corrected answer.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct CorrectAnswerArgs {
    #[command(flatten)]
    pub(crate) entry: EntryArgs,
    #[command(flatten)]
    pub(crate) answered: AnsweredArgs,
    #[command(flatten)]
    pub(crate) why: WhyArgs,
}

/// The corrected wanted part.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct CorrectWantedArgs {
    #[command(flatten)]
    pub(crate) entry: EntryArgs,
    #[command(flatten)]
    pub(crate) wanted: WantedArgs,
    #[command(flatten)]
    pub(crate) because: WhyArgs,
}

/// The corrected arrival.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct CorrectArrivalArgs {
    #[command(flatten)]
    pub(crate) entry: EntryArgs,
    #[command(flatten)]
    pub(crate) arrived: ArrivedArgs,
    #[command(flatten)]
    pub(crate) why: WhyArgs,
}

/// The corrected account of pieces.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct CorrectNotRefittedArgs {
    #[command(flatten)]
    pub(crate) entry: EntryArgs,
    #[command(flatten)]
    pub(crate) hole: HoleArgs,
    #[command(flatten)]
    pub(crate) pieces: PiecesArgs,
    /// How you know, in words.
    #[arg(long, value_name = "TEXT")]
    pub(crate) known: String,
    #[command(flatten)]
    pub(crate) why: WhyArgs,
}

/// The corrected description of a photo.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct CorrectPhotoArgs {
    #[command(flatten)]
    pub(crate) entry: EntryArgs,
    /// What it shows, in words; "" for no caption.
    #[arg(long, value_name = "TEXT")]
    pub(crate) caption: String,
    /// What it is of, if that was wrong: machine, assembly:ID, joint:ID,
    /// joint:ID:POSITION or finding:ENTRY.
    #[arg(long, value_name = "WHAT", value_parser = subject)]
    pub(crate) of: Option<Subject>,
    #[command(flatten)]
    pub(crate) why: WhyArgs,
}

/// The corrected description of a joint.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct CorrectJointArgs {
    #[command(flatten)]
    pub(crate) entry: EntryArgs,
    /// Id of the joint.
    pub(crate) joint: String,
    #[command(flatten)]
    pub(crate) described: DescribedArgs,
    #[command(flatten)]
    pub(crate) why: WhyArgs,
}

/// Why something is corrected, and against which state of the job.
#[derive(Debug, Args)]
pub(crate) struct WhyArgs {
    /// Why, in words.
    #[arg(long, value_name = "TEXT")]
    pub(crate) reason: String,
    /// Etag of the job as you last read it; when not given, the program reads it first.
    #[arg(long, value_name = "ETAG")]
    pub(crate) etag: Option<String>,
    #[command(flatten)]
    pub(crate) change: Change,
}

const EXAMPLES: &str = "\
Examples:
  clampbook correct withdraw orchard-tractor 12 --reason \"wrong hole\"
  clampbook correct removal orchard-tractor 12 left-hub-bolts 3 stiff \\
      --methods long-bar --reason \"it did turn\"
  clampbook correct decision orchard-tractor 13 plate 3 clean-and-reuse \\
      --why \"rust on the shank\" --reason \"it was wiped first\"
  clampbook correct tightening orchard-tractor 21 left-hub-bolts 3 final \\
      --reading \"60 N·m\" --reason \"read on the wrong scale\"
  clampbook correct finding orchard-tractor 14 left-hub spindle wear doubtful \\
      --class A --reason \"measured again\"
  clampbook correct not-refitted orchard-tractor 15 plate 3 shim written-off \\
      --count 2 --known \"torn, both\" --reason \"there were two\"
  clampbook correct photo orchard-tractor 16 \\
      --caption \"bracket under the long bolt\" --reason \"wrong hole named\"";
