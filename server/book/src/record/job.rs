//! The state of a job: what its entries add up to. Cheap to copy, because joints and positions are shared until they change.

pub use crate::record::entry::etag;
pub use crate::record::joint::{Joint, Position, Record, Saying, Standing};

use crate::record::entry::{Moment, Said};
use crate::record::fact::{AssemblyAdded, JobOpened, PartFound, PhotoAdded, PhotoOf, Shown};
use crate::record::findings::{Finding, Findings};
use crate::record::ids::{AssemblyId, EntryNumber, JobId, JointId};
use crate::record::joints::Joints;
use crate::record::parts::Parts;
use crate::record::photos::Photos;
use crate::record::standings::Standings;
use crate::record::words::{Criticality, FindingKind, FindingSeverity, TorqueUnit};
use std::sync::Arc;

/// What the entries of one job add up to.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// Its identifier.
    pub id: JobId,
    /// Number of the last entry; 0 before the job is opened.
    pub last: EntryNumber,
    /// How it was opened; nothing before.
    pub opened: Option<Arc<Opened>>,
    /// When its last entry was written.
    pub updated: Moment,
    /// Assemblies in the order they were added.
    pub assemblies: Vec<Arc<AssemblyAdded>>,
    /// Joints in the order they were added.
    pub joints: Joints,
    /// What was found on parts other than fasteners.
    pub findings: Findings,
    /// Parts wanted by hand, and parts that arrived.
    pub parts: Parts,
    /// Its photos.
    pub photos: Photos,
    /// Positions of its joints by standing.
    pub standings: Standings,
}

/// How a job was opened.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// What was said.
    pub fact: JobOpened,
    /// Who and when.
    pub said: Said,
}

impl Job {
    /// A job that nothing was said about yet.
    #[must_use]
    pub fn new(id: JobId) -> Self {
        Self {
            id,
            last: 0,
            opened: None,
            updated: Moment(0),
            assemblies: Vec::new(),
            joints: Joints::default(),
            findings: Findings::default(),
            parts: Parts::default(),
            photos: Photos::default(),
            standings: Standings::default(),
        }
    }

    /// The job's etag.
    #[must_use]
    pub fn etag(&self) -> String {
        etag(self.last)
    }

    /// Unit in which its torques are shown, if one was chosen.
    #[must_use]
    pub fn torque_unit(&self) -> Option<TorqueUnit> {
        self.opened.as_ref()?.fact.torque_unit
    }

    /// The assembly with this identifier.
    #[must_use]
    pub fn assembly(&self, id: &AssemblyId) -> Option<&AssemblyAdded> {
        self.assemblies
            .iter()
            .find(|a| a.assembly == *id)
            .map(|a| &**a)
    }

    /// The joint with this identifier.
    #[must_use]
    pub fn joint(&self, id: &JointId) -> Option<&Joint> {
        self.joints.get(id)
    }

    /// All positions of the job.
    pub fn positions(&self) -> impl Iterator<Item = &Position> {
        self.joints
            .iter()
            .flat_map(|joint| joint.positions.iter().map(|p| &**p))
    }
}

/// What follows from its findings.
impl Job {
    /// What happens if the part of a finding fails; nothing when neither it nor its joint says so.
    #[must_use]
    pub fn criticality_of(&self, found: &PartFound) -> Option<Criticality> {
        let of_joint = || Some(self.joint(found.joint.as_ref()?)?.fact.criticality);
        found.criticality.or_else(of_joint)
    }

    /// Whether a later finding says that the part was repaired or replaced.
    #[must_use]
    pub fn is_put_right(&self, finding: &Finding) -> bool {
        self.findings.iter().any(|later| {
            later.entry > finding.entry
                && later.is_about(&finding.found)
                && matches!(
                    later.found.severity,
                    FindingSeverity::Repaired | FindingSeverity::Replaced
                )
        })
    }

    /// The assembly whose same part must be looked at because of a finding, answered or not.
    ///
    /// Nothing when the part is of class C, is not ruined by something that works on both sides, has no other side, or is
    /// known to be ruined there too.
    #[must_use]
    pub fn other_side_of(&self, finding: &Finding) -> Option<&AssemblyAdded> {
        let found = &finding.found;
        let works_on_both = matches!(
            found.kind,
            FindingKind::Wear | FindingKind::Heat | FindingKind::Crack
        );
        let vital = matches!(
            self.criticality_of(found),
            Some(Criticality::A | Criticality::B)
        );
        if !works_on_both || !vital || found.severity != FindingSeverity::Ruined {
            return None;
        }
        let other = self.assembly(self.assembly(&found.assembly)?.counterpart.as_ref()?)?;
        let ruined_there_too = self.findings.iter().any(|there| {
            there.found.assembly == other.assembly
                && there.found.severity == FindingSeverity::Ruined
                && there.is_called(&found.part)
        });
        (!ruined_there_too).then_some(other)
    }
}

/// What its photos are of, and which answers rest on them.
impl Job {
    /// The assembly that a photo is of, or that what it is of belongs to; nothing for one of the whole machine.
    #[must_use]
    pub fn assembly_shown<'j>(&'j self, photo: &'j PhotoAdded) -> Option<&'j AssemblyId> {
        match &photo.of {
            PhotoOf::Job => None,
            PhotoOf::Assembly(assembly) => Some(assembly),
            PhotoOf::Joint(joint) | PhotoOf::Position(joint, _) => {
                Some(&self.joint(joint)?.fact.assembly)
            }
            PhotoOf::Finding(entry) => Some(&self.findings.get(*entry)?.found.assembly),
        }
    }

    /// The answer about the other side that a photo gives, if one rests on it.
    #[must_use]
    pub fn answer_by_photo(&self, photo: EntryNumber) -> Option<EntryNumber> {
        self.findings
            .iter()
            .filter_map(|finding| finding.answer.as_ref())
            .find(|answer| answer.answered.shown == Shown::AddedPhoto(photo))
            .map(|answer| answer.entry)
    }

    /// The answer about the other side that a photo of a finding gives, if one rests on such a photo.
    #[must_use]
    pub fn answer_by_photo_of(&self, finding: EntryNumber) -> Option<EntryNumber> {
        self.photos
            .iter()
            .filter(|photo| photo.fact.of == PhotoOf::Finding(finding))
            .find_map(|photo| self.answer_by_photo(photo.entry))
    }
}
