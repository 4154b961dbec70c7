//! Marks made before parting.

use crate::words::Word;
use crate::{Check, request};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::entry::Said;
use clampbook_book::fact::{Mark, Marked};
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::job::Record;
use clampbook_book::spoken::Spoken;

/// Logs marks.
pub(crate) async fn log(
    call: Call<'_>,
    request: wire::LogMarksRequest,
) -> Result<wire::LogMarksResponse, Error> {
    let mut check = Check::default();
    let parts = check
        .required("marking", request.marking.as_ref())
        .and_then(|marking| marked(&mut check, marking));
    let logged = call.log_marks(check.change(&request, parts)?).await?;
    let one = &logged.marks;
    Ok(wire::LogMarksResponse {
        marking: Some(marking(&one.job, one.entry, &one.said, &one.fact)),
        etag: logged.etag,
    })
}

impl Check {
    /// Takes marks.
    pub(crate) fn marks(&mut self, field: &str, marks: &[wire::Mark]) -> Vec<Mark> {
        self.each(field, marks, |check, item, mark| {
            let kind = check.required_word(&format!("{item}.kind"), mark.kind);
            check.mark(item, kind, &mark.text)
        })
    }
}

/// The marks a message describes.
pub(crate) fn marked(check: &mut Check, marking: &wire::Marking) -> Option<(JobId, Marked)> {
    let joint = check.joint_name("marking.joint", &marking.joint);
    let position = match marking.position {
        0 => Some(0),
        number => check.position("marking.position", number),
    };
    if marking.marks.is_empty() {
        check.wrong("marking.marks", "is required: say what was marked");
    }
    let marks = check.marks("marking.marks", &marking.marks);
    let note = check.text("marking.note", &marking.note, bounds::NOTE);
    let (job, joint) = joint?;
    Some((
        job,
        Marked {
            joint,
            position: position?,
            marks,
            note,
        },
    ))
}

/// Marks that stand.
pub(crate) fn standing<'r>(
    job: &JobId,
    marked: impl Iterator<Item = (&'r Record, &'r Marked)>,
) -> Vec<wire::Marking> {
    marked
        .map(|(record, marked)| marking(job, record.entry, &record.said, marked))
        .collect()
}

/// Marks as recorded.
fn marking(job: &JobId, number: EntryNumber, said: &Said, marked: &Marked) -> wire::Marking {
    wire::Marking {
        entry: names::entry(job, number),
        joint: names::joint(job, &marked.joint),
        position: marked.position.into(),
        marks: marked.marks.iter().map(mark).collect(),
        note: marked.note.clone(),
        said: Some(request::said(said)),
        text: marked.text(),
    }
}

/// A mark on the wire.
pub(crate) fn mark(mark: &Mark) -> wire::Mark {
    wire::Mark {
        kind: mark.what.number(),
        text: mark.said.clone(),
    }
}
