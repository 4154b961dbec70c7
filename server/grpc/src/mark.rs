//! Marks made before parting.

use crate::words::Word;
use crate::{Validator, request};
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
    request: wire::LogMatchMarksRequest,
) -> Result<wire::LogMatchMarksResponse, Error> {
    let mut check = Validator::default();
    let parts = check
        .required("match_marks", request.match_marks.as_ref())
        .and_then(|match_marks| marked(&mut check, match_marks));
    let logged = call.log_match_marks(check.change(&request, parts)?).await?;
    let one = &logged.marks;
    Ok(wire::LogMatchMarksResponse {
        match_marks: Some(match_marks(&one.job, one.entry, &one.said, &one.fact)),
        etag: logged.etag,
    })
}

impl Validator {
    /// Takes marks.
    pub(crate) fn marks(&mut self, field: &str, marks: &[wire::Mark]) -> Vec<Mark> {
        self.each(field, marks, |check, item, mark| {
            let kind = check.required_word(&format!("{item}.kind"), mark.kind);
            check.mark(item, kind, &mark.text)
        })
    }
}

/// The marks a message describes.
pub(crate) fn marked(
    check: &mut Validator,
    match_marks: &wire::MatchMarks,
) -> Option<(JobId, Marked)> {
    let joint = check.joint_name("match_marks.joint", &match_marks.joint);
    let position = match match_marks.position {
        0 => Some(0),
        number => check.position("match_marks.position", number),
    };
    if match_marks.marks.is_empty() {
        check.wrong("match_marks.marks", "is required: say what was marked");
    }
    let marks = check.marks("match_marks.marks", &match_marks.marks);
    let note = check.text("match_marks.note", &match_marks.note, bounds::NOTE);
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
) -> Vec<wire::MatchMarks> {
    marked
        .map(|(record, marked)| match_marks(job, record.entry, &record.said, marked))
        .collect()
}

/// Marks as recorded.
fn match_marks(job: &JobId, number: EntryNumber, said: &Said, marked: &Marked) -> wire::MatchMarks {
    wire::MatchMarks {
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
