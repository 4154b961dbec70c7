//! Where a specification is used: which joints name it, and by which revisions their fasteners were tightened.

use crate::record::fact::Revision;
use crate::record::ids::SpecificationId;
use crate::record::job::{Job, Joint, Position, Standing};
use crate::record::words::Tightness;
use std::collections::BTreeSet;

/// A joint that names a specification.
#[derive(Clone, Debug, PartialEq)]
pub struct Use<'j> {
    /// The joint.
    pub joint: &'j Joint,
    /// The revision that was read when the joint named it.
    pub named: Revision,
    /// Revisions by which fasteners that are at their final torque were tightened; 0 for those that no revision of it asked for.
    pub tightened: BTreeSet<Revision>,
}

/// The joints of a job that name a specification, in the order they were added.
pub fn uses<'j>(job: &'j Job, id: &SpecificationId) -> impl Iterator<Item = Use<'j>> {
    job.joints.iter().filter_map(move |joint| {
        let followed = joint.fact.specification.as_ref()?;
        (followed.specification == *id).then(|| Use {
            joint,
            named: followed.revision,
            tightened: joint
                .positions
                .iter()
                .filter(|position| position.standing() == Standing::Fitted(Tightness::Final))
                .map(|position| tightened_by(position, id))
                .collect(),
        })
    })
}

fn tightened_by(position: &Position, id: &SpecificationId) -> Revision {
    position
        .tight()
        .and_then(|tight| tight.torque.published.as_ref())
        .map(|published| &published.followed)
        .filter(|followed| followed.specification == *id)
        .map_or(0, |followed| followed.revision)
}
