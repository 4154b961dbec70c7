//! Match marks before parting: what must be known to put back together as it was, before anything comes out.

use super::{joint, position, subject};
use crate::judge::bounds;
use crate::judge::refusal::Refusal;
use crate::record::fact::{Fact, Marked};
use crate::record::ids::{EntryNumber, PositionNumber};
use crate::record::job::{Job, Joint, Position, Record, Saying, Standing};

pub(super) fn log(job: &Job, marked: &Marked) -> Result<Vec<Fact>, Refusal> {
    let joint = joint(job, &marked.joint)?;
    if marked.position > 0 {
        is_in(job, joint, position(joint, marked.position, FIELD)?)?;
    }
    has_room(job, joint, marked, 0)?;
    Ok(vec![Fact::Marked(marked.clone())])
}

/// Whether the entry says marks that still stand.
pub(super) fn stands(job: &Job, entry: EntryNumber) -> bool {
    let is_it = |r: &Record| r.entry == entry && matches!(r.saying, Saying::Marked(_));
    job.joints.iter().any(|joint| {
        let mut records = joint
            .records
            .iter()
            .chain(joint.positions.iter().flat_map(|p| &p.records));
        records.any(is_it)
    })
}

/// Whether marks may be corrected, maybe for another place.
pub(super) fn restate(job: &Job, entry: EntryNumber, marked: &Marked) -> Result<(), Refusal> {
    let joint = joint(job, &marked.joint)?;
    if marked.position > 0 {
        position(joint, marked.position, FIELD)?;
    }
    has_room(job, joint, marked, entry)
}

/// Path of the position in a request.
const FIELD: &str = "match_marks.position";

/// What is marked there; of a position, for the removal before which it is said.
fn at(joint: &Joint, number: PositionNumber) -> impl Iterator<Item = (&Record, &Marked)> {
    let whole = joint.marked().filter(move |_| number == 0);
    let position = joint.position(number).into_iter();
    whole.chain(position.flat_map(Position::marked))
}

/// Whether the marks fit beside those that stand there, except those of the entry that is corrected.
fn has_room(job: &Job, joint: &Joint, marked: &Marked, anew: EntryNumber) -> Result<(), Refusal> {
    let there = at(joint, marked.position).filter(|(record, _)| record.entry != anew);
    let there: usize = there.map(|(_, there)| there.marks.len()).sum();
    if there + marked.marks.len() <= bounds::PIECES {
        return Ok(());
    }
    Err(Refusal::State {
        subject: match marked.position {
            0 => joint.name(&job.id),
            number => subject(job, joint, number),
        },
        explanation: format!(
            "has {there} marks already; allowed are {} in all",
            bounds::PIECES
        ),
    })
}

/// Whether the fastener of a position is still, or again, in it.
fn is_in(job: &Job, joint: &Joint, position: &Position) -> Result<(), Refusal> {
    match (position.standing(), position.removal()) {
        (Standing::Empty | Standing::LeftOut, Some((removal, _))) => Err(Refusal::State {
            subject: subject(job, joint, position.number),
            explanation: format!(
                "is empty already, by entry {}; say the marks in a correction of that removal",
                removal.entry
            ),
        }),
        _ => Ok(()),
    }
}
