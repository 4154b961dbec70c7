//! Facts: what somebody said, as said. They are stored as JSON and read for ever.
//!
//! Bounds are checked in judging, never on reading, so that tightening a bound does not make last year
//! unreadable. Values are plain; a length or torque is kept as said and in its one inner unit. New fields must have a default.

mod assembled;
mod build;
mod fastener;
mod finding;
mod joint;
mod marked;
mod part;
mod person;
mod photo;
mod pieces;
mod refit;
mod shop;
mod specification;

use crate::record::ids::{AssemblyId, EntryNumber, JointId, PositionNumber};
use crate::record::words::{
    Compared, DecisionKind, HeatColour, HoldReason, HoleCheck, Method, Outcome, Tick, TorqueUnit,
};
pub use assembled::{Assembled, Mark, PartSeen, Stacked};
pub use build::{CastellatedNut, GripLayer, GripStack, JointBuild, TappedHole};
pub use fastener::{FastenerDetail, FastenerSpec};
pub use finding::{CounterpartAnswered, PartFound, Shown};
pub use joint::{JointAdded, Layout, Target};
pub use marked::Marked;
pub use part::{PartArrived, PartWanted};
pub use person::{PersonStated, PersonWithdrawn};
pub use photo::{ContentHash, PhotoAdded, PhotoOf};
pub use pieces::{FittedWith, NotRefitted, PieceFitted, Thing};
pub use refit::{Refitted, Tightened, TorqueRead, Wanted};
use serde::{Deserialize, Serialize};
pub use shop::{LubricationStated, LubricationWithdrawn, Revision};
pub use specification::{
    Followed, SpecificationStated, SpecificationWithdrawn, SpecifiedStep, WantedByMaker,
};

/// What one entry of a job or of the shop says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Fact {
    /// A machine came in.
    JobOpened(JobOpened),
    /// A unit is taken apart as one.
    AssemblyAdded(AssemblyAdded),
    /// Fasteners clamp one interface to one specification.
    JointAdded(JointAdded),
    /// Something was marked or measured before parting.
    Marked(Marked),
    /// A fastener came out, or was found missing.
    Removed(Removed),
    /// Somebody decided what is done with it.
    Decided(Decided),
    /// Something went back in.
    Refitted(Refitted),
    /// What is in was made tighter.
    Tightened(Tightened),
    /// It is known what became of pieces that did not go back.
    #[serde(rename = "piece-accounted")]
    NotRefitted(NotRefitted),
    /// Something was found on a part other than a fastener.
    PartFound(PartFound),
    /// The same part on the other side was looked at.
    CounterpartAnswered(CounterpartAnswered),
    /// A part is wanted that nothing else asks for.
    PartWanted(PartWanted),
    /// A part of the list arrived.
    PartArrived(PartArrived),
    /// A photo was added.
    PhotoAdded(PhotoAdded),
    /// An earlier entry was wrong.
    Corrected(Corrected),
    /// The shop has a lubrication of its own, or a new revision of it.
    #[serde(rename = "condition-stated")]
    LubricationStated(LubricationStated),
    /// It is not used any more.
    #[serde(rename = "condition-withdrawn")]
    LubricationWithdrawn(LubricationWithdrawn),
    /// The shop has a published specification, or a new revision of it.
    SpecificationStated(SpecificationStated),
    /// It does not hold any more.
    SpecificationWithdrawn(SpecificationWithdrawn),
    /// Somebody works in the shop, or is called otherwise or does something else from now on.
    PersonStated(PersonStated),
    /// Somebody does not work in the shop any more.
    PersonWithdrawn(PersonWithdrawn),
}

impl Fact {
    /// Stable name of the kind, as stored.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::JobOpened(_) => "job-opened",
            Self::AssemblyAdded(_) => "assembly-added",
            Self::JointAdded(_) => "joint-added",
            Self::Marked(_) => "marked",
            Self::Removed(_) => "removed",
            Self::Decided(_) => "decided",
            Self::Refitted(_) => "refitted",
            Self::Tightened(_) => "tightened",
            Self::NotRefitted(_) => "piece-accounted",
            Self::PartFound(_) => "part-found",
            Self::CounterpartAnswered(_) => "counterpart-answered",
            Self::PartWanted(_) => "part-wanted",
            Self::PartArrived(_) => "part-arrived",
            Self::PhotoAdded(_) => "photo-added",
            Self::Corrected(_) => "corrected",
            Self::LubricationStated(_) => "condition-stated",
            Self::LubricationWithdrawn(_) => "condition-withdrawn",
            Self::SpecificationStated(_) => "specification-stated",
            Self::SpecificationWithdrawn(_) => "specification-withdrawn",
            Self::PersonStated(_) => "person-stated",
            Self::PersonWithdrawn(_) => "person-withdrawn",
        }
    }
}

/// A machine came in.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JobOpened {
    /// The job as people call it.
    pub display_name: String,
    /// The machine, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub machine: String,
    /// Unit for showing torques; that which is usual at each thread when absent.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub torque_unit: Option<TorqueUnit>,
}

/// A unit is taken apart as one.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct AssemblyAdded {
    /// Its identifier in the job.
    pub assembly: AssemblyId,
    /// The assembly as people call it.
    pub display_name: String,
    /// The same unit on the other side.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub counterpart: Option<AssemblyId>,
}

/// A length as said and in millimetres.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SaidLength {
    /// As said, for instance `1-3/4 in`.
    pub said: String,
    /// In millimetres.
    pub mm: f64,
}

/// A torque as said and in newton metres.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SaidTorque {
    /// As said, for instance `60 lbf·ft`.
    pub said: String,
    /// In newton metres.
    pub nm: f64,
}

/// What is known of a removed fastener's length.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum LengthSeen {
    /// Measured under the head.
    Measured(SaidLength),
    /// Laid beside its neighbours.
    Compared(Compared),
}

/// A fastener came out, or was found missing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Removed {
    /// The joint.
    pub joint: JointId,
    /// The position in it.
    pub position: PositionNumber,
    /// How it came out.
    #[serde(rename = "condition")]
    pub outcome: Outcome,
    /// What else was seen on it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub ticks: Vec<Tick>,
    /// What it took.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[serde(rename = "means")]
    pub methods: Vec<Method>,
    /// How hot it got.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heat_colour: Option<HeatColour>,
    /// Where the heat was put.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub heated_place: String,
    /// Thread as found.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub thread: String,
    /// Length, if looked at.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length: Option<LengthSeen>,
    /// Marking on the head as seen.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    #[serde(rename = "marking")]
    pub head_marking: String,
    /// Grade as shown by marking or papers.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub grade: String,
    /// Torque at which it broke loose.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub breakaway: Option<SaidTorque>,
    /// Where it is kept.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub kept_in: String,
    /// Anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// How it was assembled, if somebody said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub assembled: Option<Box<Assembled>>,
}

impl Removed {
    /// A removal of which only this is known.
    #[must_use]
    pub const fn new(joint: JointId, position: PositionNumber, outcome: Outcome) -> Self {
        Self {
            joint,
            position,
            outcome,
            ticks: Vec::new(),
            methods: Vec::new(),
            heat_colour: None,
            heated_place: String::new(),
            thread: String::new(),
            length: None,
            head_marking: String::new(),
            grade: String::new(),
            breakaway: None,
            kept_in: String::new(),
            note: String::new(),
            assembled: None,
        }
    }
}

/// Somebody decided what is done with a removed fastener and its hole.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Decided {
    /// The joint.
    pub joint: JointId,
    /// The position in it.
    pub position: PositionNumber,
    /// What is done.
    #[serde(rename = "disposition")]
    pub kind: DecisionKind,
    /// The new fastener, for a replacement or one that is made.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub replacement: Option<FastenerSpec>,
    /// What was found at the hole.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hole_check: Option<HoleCheck>,
    /// Grade of the original part, if shown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub grade_shown: String,
    /// Where grade or length is published.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub citation: String,
    /// Why.
    pub reason: String,
    /// What it waits for, on hold.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[serde(rename = "waits_for")]
    pub hold_reason: Option<HoldReason>,
    /// How the hole was repaired.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub hole_repair: String,
    /// Whether what is cited shows that it was baked after plating.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub baking_shown: bool,
    /// Who decided that nothing goes back.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub left_out_by: String,
}

impl Decided {
    /// A decision of which only this is known.
    #[must_use]
    pub const fn new(joint: JointId, position: PositionNumber, kind: DecisionKind) -> Self {
        Self {
            joint,
            position,
            kind,
            replacement: None,
            hole_check: None,
            grade_shown: String::new(),
            citation: String::new(),
            reason: String::new(),
            hold_reason: None,
            hole_repair: String::new(),
            baking_shown: false,
            left_out_by: String::new(),
        }
    }

    /// Whether another fastener goes in, bought or made.
    #[must_use]
    pub const fn is_replacement(&self) -> bool {
        matches!(self.kind, DecisionKind::Replace | DecisionKind::Make)
    }
}

/// An earlier entry was wrong.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Corrected {
    /// Number of the entry that is replaced.
    pub replaces: EntryNumber,
    /// What should have been said; nothing when it should not have been said at all.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub with: Option<Box<Fact>>,
    /// Why.
    pub reason: String,
}
