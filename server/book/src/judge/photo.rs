//! Adding photos and taking them back.

use super::{joint, position};
use crate::judge::bounds::MOST_PHOTOS;
use crate::judge::command::{Correction, PhotoDescribed};
use crate::judge::refusal::{Refusal, Violation};
use crate::record::fact::{Fact, PhotoAdded, PhotoOf};
use crate::record::ids::EntryNumber;
use crate::record::job::Job;
use crate::record::photos::Photo;

pub(super) fn add(job: &Job, added: &PhotoAdded) -> Result<Vec<Fact>, Refusal> {
    is_there(job, &added.of)?;
    if job.photos.len() >= MOST_PHOTOS {
        return Err(Refusal::State {
            subject: format!("jobs/{}", job.id),
            explanation: format!("has {MOST_PHOTOS} photos, the maximum for a job"),
        });
    }
    Ok(vec![Fact::PhotoAdded(added.clone())])
}

/// Whether what a photo is of is there.
fn is_there(job: &Job, of: &PhotoOf) -> Result<(), Refusal> {
    match of {
        PhotoOf::Job => Ok(()),
        PhotoOf::Assembly(id) if job.assembly(id).is_some() => Ok(()),
        PhotoOf::Assembly(id) => Err(Refusal::NotFound {
            name: format!("jobs/{}/assemblies/{id}", job.id),
        }),
        PhotoOf::Joint(id) => joint(job, id).map(drop),
        PhotoOf::Position(id, number) => {
            position(joint(job, id)?, *number, "photo.position").map(drop)
        }
        PhotoOf::Finding(entry) if job.findings.get(*entry).is_some() => Ok(()),
        PhotoOf::Finding(entry) => Err(super::finding::no_finding(job, *entry)),
    }
}

/// The photo with other words about it. An answer that rests on it still needs it to be of the other side.
pub(super) fn describe(
    job: &Job,
    there: &Photo,
    described: &PhotoDescribed,
) -> Result<PhotoAdded, Refusal> {
    let of = described.of.as_ref().unwrap_or(&there.fact.of);
    let anew = PhotoAdded {
        of: of.clone(),
        caption: described.caption.clone(),
        ..there.fact.clone()
    };
    if *of == there.fact.of {
        return Ok(anew);
    }
    is_there(job, of)?;
    match job.answer_by_photo(there.entry) {
        Some(answer) if job.assembly_shown(&anew) != job.assembly_shown(&there.fact) => {
            Err(super::finding::rests_on(job, there.entry, answer))
        }
        _ => Ok(anew),
    }
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
    field: &str,
) -> Result<(), Refusal> {
    let wrong = |why: String| Refusal::Invalid(vec![Violation::new(field, why)]);
    let there = job
        .photos
        .get(photo)
        .ok_or_else(|| wrong(format!("entry {photo} is not a photo, or it was withdrawn")))?;
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
