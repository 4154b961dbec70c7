//! Removals: one, several that went alike, a whole strip-down.

mod assembled;

use crate::request::{self, int};
use crate::words::Word;
use crate::{Validator, flag};
use clampbook_api::v1 as wire;
use clampbook_app::removal::read_table;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::command::AlikeRemovals;
use clampbook_book::entry::Said;
use clampbook_book::fact::{LengthSeen, Removed};
use clampbook_book::ids::{EntryNumber, JobId, PositionNumber};
use clampbook_book::spoken::Spoken;
use clampbook_book::words::{HeatColour, Method};
use wire::removal::LengthSeen as WireLength;

/// Logs a removal.
pub(crate) async fn log(
    call: Call<'_>,
    request: wire::LogRemovalRequest,
) -> Result<wire::LogRemovalResponse, Error> {
    let mut check = Validator::default();
    let parts = check
        .required("removal", request.removal.as_ref())
        .and_then(|removal| removed(&mut check, removal));
    let logged = call.log_removal(check.change(&request, parts)?).await?;
    let one = &logged.removal;
    Ok(wire::LogRemovalResponse {
        removal: Some(removal(&one.job, one.entry, &one.said, &one.fact)),
        flags: flag::flags(&one.job, &logged.flags),
        etag: logged.etag,
    })
}

/// Logs several removals that went alike.
pub(crate) async fn log_alike(
    call: Call<'_>,
    request: wire::LogAlikeRemovalsRequest,
) -> Result<wire::LogAlikeRemovalsResponse, Error> {
    let mut check = Validator::default();
    let joint = check.joint_name("joint", &request.joint);
    check.distinct("positions", &request.positions);
    let positions: Vec<PositionNumber> = request
        .positions
        .iter()
        .enumerate()
        .filter_map(|(i, number)| check.position(&format!("positions[{i}]"), *number))
        .collect();
    let outcome = check.required_word("outcome", request.outcome);
    let (methods, heat_colour) = check.methods("", &request.methods, request.heat_colour);
    let kept_in = check.text("kept_in", &request.kept_in, bounds::SHORT);
    let parts = joint.zip(outcome).map(|((job, joint), outcome)| {
        let alike = AlikeRemovals {
            joint,
            positions,
            outcome,
            methods,
            heat_colour,
            kept_in,
        };
        (job, alike)
    });
    let change = check.change(&request, parts)?;
    let job = change.job.clone();
    let logged = call.log_alike_removals(change).await?;
    Ok(wire::LogAlikeRemovalsResponse {
        removals: logged
            .removals
            .iter()
            .map(|one| removal(&job, one.entry, &one.said, &one.fact))
            .collect(),
        flags: flag::flags(&job, &logged.flags),
    })
}

/// Logs a whole strip-down.
pub(crate) async fn import(
    call: Call<'_>,
    request: wire::ImportRemovalsRequest,
) -> Result<wire::ImportRemovalsResponse, Error> {
    let mut check = Validator::default();
    let job = check.job_name("parent", &request.parent);
    let lines = read_table(&mut check, job.as_ref(), &request.csv);
    let change = check.change(&request, job.zip(lines))?;
    let job = change.job.clone();
    let imported = call.import_removals(change, request.validate_only).await?;
    Ok(wire::ImportRemovalsResponse {
        removal_count: int(imported.count),
        flags: flag::flags(&job, &imported.flags),
    })
}

impl Validator {
    /// Takes what it took, and how hot it got.
    fn methods(
        &mut self,
        path: &str,
        methods: &[i32],
        heat_colour: i32,
    ) -> (Vec<Method>, Option<HeatColour>) {
        let methods = self.word_list(&format!("{path}methods"), methods);
        let field = format!("{path}heat_colour");
        let colour = self.word(&field, heat_colour);
        self.heat_agrees(&field, &methods, colour, heat_colour == 0);
        (methods, colour)
    }
}

/// The removal a message describes.
pub(crate) fn removed(check: &mut Validator, removal: &wire::Removal) -> Option<(JobId, Removed)> {
    let joint = check.joint_name("removal.joint", &removal.joint);
    let position = check.position("removal.position", removal.position);
    let outcome = check.required_word("removal.outcome", removal.outcome);
    let ticks = check.word_list("removal.ticks", &removal.ticks);
    let (methods, heat_colour) = check.methods("removal.", &removal.methods, removal.heat_colour);
    let length = match &removal.length_seen {
        None => None,
        Some(WireLength::Length(said)) => check
            .length("removal.length", said)
            .map(LengthSeen::Measured),
        Some(WireLength::LengthCompared(word)) => check
            .required_word("removal.length_compared", *word)
            .map(LengthSeen::Compared),
    };
    let heated_place = check.text("removal.heated_place", &removal.heated_place, bounds::PLACE);
    let thread = check.text("removal.thread", &removal.thread, bounds::DESIGNATION);
    let head_marking = check.text("removal.head_marking", &removal.head_marking, bounds::SHORT);
    let grade = check.text("removal.grade", &removal.grade, bounds::DESIGNATION);
    let breakaway = check.torque("removal.breakaway_torque", &removal.breakaway_torque);
    let kept_in = check.text("removal.kept_in", &removal.kept_in, bounds::SHORT);
    let note = check.text("removal.note", &removal.note, bounds::NOTE);
    let assembled = check.assembled(removal);
    let (job, joint) = joint?;
    Some((
        job,
        Removed {
            joint,
            position: position?,
            outcome: outcome?,
            ticks,
            methods,
            heat_colour,
            heated_place,
            thread,
            length,
            head_marking,
            grade,
            breakaway,
            kept_in,
            note,
            assembled,
        },
    ))
}

/// A removal as recorded.
pub(crate) fn removal(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    removed: &Removed,
) -> wire::Removal {
    let (length_seen, length_mm) = match &removed.length {
        None => (None, None),
        Some(LengthSeen::Measured(length)) => (
            Some(WireLength::Length(length.said.clone())),
            Some(length.mm),
        ),
        Some(LengthSeen::Compared(word)) => (Some(WireLength::LengthCompared(word.number())), None),
    };
    let told = wire::Removal {
        entry: names::entry(job, number),
        joint: names::joint(job, &removed.joint),
        position: removed.position.into(),
        outcome: removed.outcome.number(),
        ticks: removed.ticks.iter().map(|tick| tick.number()).collect(),
        methods: removed
            .methods
            .iter()
            .map(|method| method.number())
            .collect(),
        heat_colour: removed.heat_colour.map(Word::number).unwrap_or_default(),
        heated_place: removed.heated_place.clone(),
        thread: removed.thread.clone(),
        length_mm,
        head_marking: removed.head_marking.clone(),
        grade: removed.grade.clone(),
        breakaway_torque: removed
            .breakaway
            .as_ref()
            .map(|t| t.said.clone())
            .unwrap_or_default(),
        breakaway_torque_nm: removed.breakaway.as_ref().map(|t| t.nm),
        kept_in: removed.kept_in.clone(),
        note: removed.note.clone(),
        said: Some(request::said(said)),
        length_seen,
        text: removed.text(),
        ..Default::default()
    };
    assembled::tell(told, removed.assembled.as_deref())
}
