//! Photos to look at on the day it goes back.

use crate::record::fact::PhotoOf;
use crate::record::findings::Finding;
use crate::record::job::{Job, Joint};
use crate::record::photos::Photo;

/// Photos of a joint and of its positions, one line each, oldest first.
pub(super) fn of_joint(job: &Job, joint: &Joint) -> Vec<String> {
    let line = |photo: &Photo| match &photo.fact.of {
        PhotoOf::Joint(id) if *id == joint.fact.joint => Some(photo.spoken()),
        PhotoOf::Position(id, number) if *id == joint.fact.joint => {
            Some(format!("hole {number}: {}", photo.spoken()))
        }
        _ => None,
    };
    job.photos.iter().filter_map(line).collect()
}

/// Photos of what a finding says, oldest first.
pub(super) fn of_finding(job: &Job, finding: &Finding) -> Vec<String> {
    let of = PhotoOf::Finding(finding.entry);
    let mine = job.photos.iter().filter(|photo| photo.fact.of == of);
    mine.map(Photo::spoken).collect()
}
