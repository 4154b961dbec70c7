//! Adding photos and taking them back.

use super::{joint, position};
use crate::command::Correction;
use crate::fact::{Fact, PhotoAdded, PhotoOf};
use crate::ids::EntryNumber;
use crate::job::Job;
use crate::refusal::{Refusal, Violation};

/// Most photos of a job. Common practice: far above any machine, low enough to list them all.
pub const MOST_PHOTOS: usize = 1_000;

pub(super) fn add(job: &Job, added: &PhotoAdded) -> Result<Vec<Fact>, Refusal> {
    match &added.of {
        PhotoOf::Job => {}
        PhotoOf::Assembly(id) if job.assembly(id).is_some() => {}
        PhotoOf::Assembly(id) => {
            return Err(Refusal::NotFound {
                name: format!("jobs/{}/assemblies/{id}", job.id),
            });
        }
        PhotoOf::Joint(id) => {
            joint(job, id)?;
        }
        PhotoOf::Position(id, number) => {
            position(joint(job, id)?, *number, "photo.position")?;
        }
        PhotoOf::Finding(entry) if job.findings.get(*entry).is_some() => {}
        PhotoOf::Finding(entry) => return Err(super::finding::no_finding(job, *entry)),
    }
    if job.photos.len() >= MOST_PHOTOS {
        return Err(Refusal::State {
            subject: format!("jobs/{}", job.id),
            explanation: format!("has {MOST_PHOTOS} photos, the most a job can have"),
        });
    }
    Ok(vec![Fact::PhotoAdded(added.clone())])
}

/// Whether the photo of a correction may be withdrawn; nothing when it is none.
pub(super) fn withdraw(job: &Job, correction: &Correction) -> Option<Result<(), Refusal>> {
    let photo = job.photos.get(correction.entry)?;
    Some(match job.answer_by_photo(photo.entry) {
        Some(answer) => Err(super::finding::rests_on(job, photo.entry, answer)),
        None => Ok(()),
    })
}

/// Whether a photo shows the other side that a finding asks about.
pub(super) fn shows_other_side(
    job: &Job,
    finding: EntryNumber,
    photo: EntryNumber,
) -> Result<(), Refusal> {
    let wrong = |why: String| Refusal::Invalid(vec![Violation::new("answer.added_photo", why)]);
    let there = job
        .photos
        .get(photo)
        .ok_or_else(|| wrong(format!("entry {photo} is no photo that still stands")))?;
    let here = job.findings.get(finding).map(|f| &f.found.assembly);
    let other = here.and_then(|id| job.assembly(id)?.counterpart.as_ref());
    if other.is_some() && job.assembly_shown(&there.fact) == other {
        return Ok(());
    }
    Err(wrong(format!(
        "entry {photo} is not a photo of assembly {} or of a joint of it, which is the other side",
        other.map_or("", |id| id.as_str())
    )))
}
