//! Commands: what a caller wants written, already parsed, not yet judged against the record.

use crate::record::fact::{
    AssemblyAdded, CounterpartAnswered, Decided, Fact, JobOpened, JointAdded, LubricationStated,
    LubricationWithdrawn, Marked, NotRefitted, PartArrived, PartFound, PartWanted, PersonStated,
    PersonWithdrawn, PhotoAdded, PhotoOf, Refitted, Removed, SaidTorque, SpecificationStated,
    SpecificationWithdrawn,
};
use crate::record::ids::{EntryNumber, JointId, PositionNumber};
use crate::record::words::{HeatColour, Method, Outcome, Step};

/// What a caller wants written about one job.
#[derive(Clone, Debug, PartialEq)]
pub enum Command {
    /// Open the job.
    OpenJob(JobOpened),
    /// Add an assembly.
    AddAssembly(AssemblyAdded),
    /// Add a joint.
    AddJoint(JointAdded),
    /// Log what was marked before parting.
    LogMatchMarks(Marked),
    /// Log one removal.
    LogRemoval(Removed),
    /// Log several removals that went alike.
    LogAlikeRemovals(AlikeRemovals),
    /// Log many removals, each from a line of a file.
    ImportRemovals(Vec<ImportedRemoval>),
    /// Log a decision on a position whose etag is given.
    LogDecision {
        /// The decision.
        decided: Decided,
        /// Etag of the position as the caller read it.
        etag: String,
    },
    /// Log a refit.
    LogRefit(Refitted),
    /// Log how far positions of one joint were tightened.
    LogTightening(Tightening),
    /// Log what became of pieces that did not go back.
    LogNotRefitted(NotRefitted),
    /// Log what was found on a part other than a fastener.
    LogFinding(PartFound),
    /// Answer what a finding asks about the other side.
    AnswerCounterpart(CounterpartAnswered),
    /// Log that a part is wanted which nothing else asks for.
    LogPartWanted(PartWanted),
    /// Log that a part of the list arrived.
    LogPartArrival(PartArrived),
    /// Add a photo whose content is kept with the same request.
    AddPhoto(PhotoAdded),
    /// Correct an entry of a job whose etag is given.
    Correct(Correction),
}

/// What a caller wants written about the shop.
#[derive(Clone, Debug, PartialEq)]
pub enum ShopCommand {
    /// Keep a lubrication of the shop's own. Which revision it is, is decided.
    CreateLubrication(LubricationStated),
    /// Keep a new revision of it.
    ReviseLubrication {
        /// The revision.
        stated: LubricationStated,
        /// Etag of the lubrication as the caller read it.
        etag: String,
    },
    /// Use it no more.
    WithdrawLubrication {
        /// Which, and why.
        withdrawn: LubricationWithdrawn,
        /// Etag of the lubrication as the caller read it.
        etag: String,
    },
    /// Keep a published specification.
    CreateSpecification(SpecificationStated),
    /// Keep a new revision of it.
    ReviseSpecification {
        /// The revision.
        stated: SpecificationStated,
        /// Etag of the specification as the caller read it.
        etag: String,
    },
    /// Let it hold no more.
    WithdrawSpecification {
        /// Which, and why.
        withdrawn: SpecificationWithdrawn,
        /// Etag of the specification as the caller read it.
        etag: String,
    },
    /// Keep a person.
    CreatePerson(PersonStated),
    /// Keep what they are called and do from now on.
    RevisePerson {
        /// What is so from now on.
        stated: PersonStated,
        /// Etag of the person as the caller read it.
        etag: String,
    },
    /// Let them speak for the shop no more.
    WithdrawPerson {
        /// Who, and why.
        withdrawn: PersonWithdrawn,
        /// Etag of the person as the caller read it.
        etag: String,
    },
    /// Keep many specifications, each from a line of a file; those that differ from what is kept are revised.
    ImportSpecifications(Vec<ImportedSpecification>),
}

/// A specification from a line of a file.
#[derive(Clone, Debug, PartialEq)]
pub struct ImportedSpecification {
    /// Line in the file, counted from 1 with the header.
    pub line: u64,
    /// The specification.
    pub stated: SpecificationStated,
}

/// Several removals that went alike.
#[derive(Clone, Debug, PartialEq)]
pub struct AlikeRemovals {
    /// The joint.
    pub joint: JointId,
    /// The positions; empty for all that are in place.
    pub positions: Vec<PositionNumber>,
    /// How they came out.
    pub outcome: Outcome,
    /// What it took.
    pub methods: Vec<Method>,
    /// How hot they got.
    pub heat_colour: Option<HeatColour>,
    /// Where they are kept.
    pub kept_in: String,
}

/// Positions of a joint that were tightened by the same step.
#[derive(Clone, Debug, PartialEq)]
pub struct Tightening {
    /// The joint.
    pub joint: JointId,
    /// The positions; empty for all that are not left out.
    pub positions: Vec<PositionNumber>,
    /// How far.
    pub step: Step,
    /// Reading of the wrench, of one position only.
    pub reading: Option<SaidTorque>,
    /// Which wrench.
    pub tool: String,
    /// Anything else.
    pub note: String,
}

/// A removal from a line of a file.
#[derive(Clone, Debug, PartialEq)]
pub struct ImportedRemoval {
    /// Line in the file, counted from 1 with the header.
    pub line: u64,
    /// The removal.
    pub removed: Removed,
}

/// A correction of an earlier entry.
#[derive(Clone, Debug, PartialEq)]
pub struct Correction {
    /// The entry.
    pub entry: EntryNumber,
    /// What should have been said; nothing to withdraw it.
    pub with: Option<Restated>,
    /// Why.
    pub reason: String,
    /// Etag of the job as the caller read it.
    pub etag: String,
}

/// What should have been said.
#[derive(Clone, Debug, PartialEq)]
pub enum Restated {
    /// All of it, in place of all that was said.
    Fact(Box<Fact>),
    /// What is said about a photo. The picture itself cannot be another.
    Photo(PhotoDescribed),
}

/// What is said about a photo.
#[derive(Clone, Debug, PartialEq)]
pub struct PhotoDescribed {
    /// What it is of; nothing when that was right.
    pub of: Option<PhotoOf>,
    /// What it shows, in words.
    pub caption: String,
}

impl From<Fact> for Restated {
    fn from(fact: Fact) -> Self {
        Self::Fact(Box::new(fact))
    }
}
