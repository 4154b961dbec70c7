//! `assembled.proto`: what was marked before parting, as an entry of its own.

use super::assembled::mark;
use super::common;
use super::record::entry_name;
use super::{Check, job::change};
use clampbook_api::v1 as wire;
use clampbook_app::Error;
use clampbook_app::job::Change;
use clampbook_book::bounds;
use clampbook_book::command::Command;
use clampbook_book::entry::Said;
use clampbook_book::fact::Marked;
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::job::Record;

/// Logs marks.
///
/// # Errors
/// All violations.
pub(crate) fn log_marks(request: &wire::LogMarksRequest) -> Result<Change, Error> {
    let mut check = Check::default();
    let parts = check
        .required("marking", request.marking.as_ref())
        .and_then(|marking| marked(&mut check, marking))
        .map(|(job, marked)| (job, Command::LogMarks(marked)));
    change(check, request, parts)
}

/// The marks a message describes.
pub(super) fn marked(check: &mut Check, marking: &wire::Marking) -> Option<(JobId, Marked)> {
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
pub(super) fn standing<'r>(
    job: &JobId,
    marked: impl Iterator<Item = (&'r Record, &'r Marked)>,
) -> Vec<wire::Marking> {
    marked
        .map(|(record, marked)| marking(job, record.entry, &record.said, marked))
        .collect()
}

/// Marks as recorded.
pub(crate) fn marking(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    marked: &Marked,
) -> wire::Marking {
    wire::Marking {
        entry: entry_name(job, number),
        joint: format!("jobs/{job}/joints/{}", marked.joint),
        position: marked.position.into(),
        marks: marked.marks.iter().map(mark).collect(),
        note: marked.note.clone(),
        said: Some(common::said(said)),
    }
}
