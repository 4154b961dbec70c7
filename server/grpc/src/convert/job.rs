//! `job_service.proto`: requests that change a job, as changes.

use super::common::Changing;
use super::finding::{answered, found};
use super::fitting::fastener_spec;
use super::marking::marked;
use super::ordering::{arrived, wanted};
use super::photo::described;
use super::pieces::accounted;
use super::record::{decided, refitted, removed};
use super::{Check, import};
use clampbook_api::v1 as wire;
use clampbook_app::Error;
use clampbook_app::job::Change;
use clampbook_book::bounds;
use clampbook_book::command::{AlikeRemovals, Command, Correction, Restated};
use clampbook_book::fact::{AssemblyAdded, Fact, JobOpened};
use clampbook_book::ids::{AssemblyId, JobId, JointId, PositionNumber};
use clampbook_book::shop::Shop;
use clampbook_book::words::TorqueUnit;

/// Turns checked parts into a change, with what every changing request carries.
pub(super) fn change<R: Changing>(
    mut check: Check,
    request: &R,
    parts: Option<(JobId, Command)>,
) -> Result<Change, Error> {
    let sending = check.sending(request);
    check.finish(parts).map(|(job, command)| Change {
        job,
        command,
        sending,
    })
}

/// Opens a job.
///
/// # Errors
/// All violations.
pub(crate) fn create_job(request: &wire::CreateJobRequest) -> Result<Change, Error> {
    let mut check = Check::default();
    let id = check.new_id("job_id", &request.job_id, JobId::new);
    let opened = check
        .required("job", request.job.as_ref())
        .map(|job| JobOpened {
            display_name: check.required_text(
                "job.display_name",
                &job.display_name,
                bounds::DISPLAY_NAME,
            ),
            machine: check.text("job.machine", &job.machine, bounds::SENTENCE),
            torque_unit: check
                .word("job.torque_unit", job.torque_unit)
                .unwrap_or(TorqueUnit::NewtonMetre),
        });
    let parts = id.zip(opened.map(Command::OpenJob));
    change(check, request, parts)
}

/// Adds an assembly.
///
/// # Errors
/// All violations.
pub(crate) fn create_assembly(request: &wire::CreateAssemblyRequest) -> Result<Change, Error> {
    let mut check = Check::default();
    let job = check.job_name("parent", &request.parent);
    let id = check.new_id("assembly_id", &request.assembly_id, AssemblyId::new);
    let command = check
        .required("assembly", request.assembly.as_ref())
        .and_then(|assembly| {
            let display_name = check.required_text(
                "assembly.display_name",
                &assembly.display_name,
                bounds::DISPLAY_NAME,
            );
            let counterpart = if assembly.counterpart.is_empty() {
                None
            } else {
                let other = check.assembly_name("assembly.counterpart", &assembly.counterpart);
                if let (Some((owner, _)), Some(job)) = (&other, &job)
                    && owner != job
                {
                    check.wrong("assembly.counterpart", "belongs to another job");
                }
                Some(other?.1)
            };
            if counterpart.is_some() && counterpart == id {
                check.wrong("assembly.counterpart", "is the assembly itself");
            }
            Some(Command::AddAssembly(AssemblyAdded {
                assembly: id?,
                display_name,
                counterpart,
            }))
        });
    let parts = job.zip(command);
    change(check, request, parts)
}

/// Adds a joint.
///
/// # Errors
/// All violations.
pub(crate) fn create_joint(
    request: &wire::CreateJointRequest,
    shop: &Shop,
) -> Result<Change, Error> {
    let mut check = Check::default();
    let job = check.job_name("parent", &request.parent);
    let id = check.new_id("joint_id", &request.joint_id, JointId::new);
    let command = check
        .required("joint", request.joint.as_ref())
        .and_then(|joint| check.joint(job.as_ref(), id, joint, shop))
        .map(Command::AddJoint);
    let parts = job.zip(command);
    change(check, request, parts)
}

/// Logs a removal.
///
/// # Errors
/// All violations.
pub(crate) fn log_removal(request: &wire::LogRemovalRequest) -> Result<Change, Error> {
    let mut check = Check::default();
    let parts = check
        .required("removal", request.removal.as_ref())
        .and_then(|removal| removed(&mut check, removal))
        .map(|(job, removed)| (job, Command::LogRemoval(removed)));
    change(check, request, parts)
}

/// Logs several removals that went alike.
///
/// # Errors
/// All violations.
pub(crate) fn log_alike_removals(request: &wire::LogAlikeRemovalsRequest) -> Result<Change, Error> {
    let mut check = Check::default();
    let joint = check.joint_name("joint", &request.joint);
    check.distinct("positions", &request.positions);
    let positions: Vec<PositionNumber> = request
        .positions
        .iter()
        .enumerate()
        .filter_map(|(i, number)| check.position(&format!("positions[{i}]"), *number))
        .collect();
    let condition = check.required_word("condition", request.condition);
    let (means, heat_colour) = check.means("", &request.means, request.heat_colour);
    let kept_in = check.text("kept_in", &request.kept_in, bounds::SHORT);
    let parts = joint.zip(condition).map(|((job, joint), condition)| {
        let alike = AlikeRemovals {
            joint,
            positions,
            condition,
            means,
            heat_colour,
            kept_in,
        };
        (job, Command::LogAlikeRemovals(alike))
    });
    change(check, request, parts)
}

/// Logs a whole strip-down.
///
/// # Errors
/// All violations, each naming its line and column.
pub(crate) fn import_removals(request: &wire::ImportRemovalsRequest) -> Result<Change, Error> {
    let mut check = Check::default();
    let job = check.job_name("parent", &request.parent);
    let lines = import::lines(&mut check, job.as_ref(), &request.csv);
    let parts = job.zip(lines.map(Command::ImportRemovals));
    change(check, request, parts)
}

/// Logs a decision.
///
/// # Errors
/// All violations.
pub(crate) fn log_decision(request: &wire::LogDecisionRequest) -> Result<Change, Error> {
    let mut check = Check::default();
    let etag = check.etag(&request.etag);
    let parts = check
        .required("decision", request.decision.as_ref())
        .and_then(|decision| decided(&mut check, decision))
        .map(|(job, decided)| (job, Command::LogDecision { decided, etag }));
    change(check, request, parts)
}

/// Logs a refit.
///
/// # Errors
/// All violations.
pub(crate) fn log_refit(request: &wire::LogRefitRequest) -> Result<Change, Error> {
    let mut check = Check::default();
    let parts = check
        .required("refit", request.refit.as_ref())
        .and_then(|refit| refitted(&mut check, refit))
        .map(|(job, refitted)| (job, Command::LogRefit(refitted)));
    change(check, request, parts)
}

/// Corrects an entry.
///
/// # Errors
/// All violations.
pub(crate) fn correct_entry(
    request: &wire::CorrectEntryRequest,
    shop: &Shop,
) -> Result<Change, Error> {
    use wire::correct_entry_request::Correction as Wanted;
    let mut check = Check::default();
    let entry = check.entry_name("entry", &request.entry);
    let reason = check.required_text("reason", &request.reason, bounds::NOTE);
    let etag = check.etag(&request.etag);
    let with = match &request.correction {
        None => {
            check.wrong("correction", "is required: say what should have been said");
            None
        }
        Some(Wanted::Withdrawn(true)) => Some((None, None)),
        Some(Wanted::Withdrawn(false)) => {
            check.wrong(
                "withdrawn",
                "is false; leave it out, or say true to withdraw the entry",
            );
            None
        }
        Some(Wanted::Removal(said)) => anew(removed(&mut check, said), Fact::Removed),
        Some(Wanted::Decision(said)) => anew(decided(&mut check, said), Fact::Decided),
        Some(Wanted::Refit(said)) => anew(refitted(&mut check, said), Fact::Refitted),
        Some(Wanted::Marking(said)) => anew(marked(&mut check, said), Fact::Marked),
        Some(Wanted::Account(said)) => anew(accounted(&mut check, said), Fact::PieceAccounted),
        Some(Wanted::Finding(said)) => anew(found(&mut check, "finding", said), Fact::PartFound),
        Some(Wanted::CounterpartAnswer(said)) => {
            let answered = answered(&mut check, "counterpart_answer", said);
            anew(answered, Fact::CounterpartAnswered)
        }
        Some(Wanted::Wanted(said)) => anew(wanted(&mut check, said), Fact::PartWanted),
        Some(Wanted::Arrival(said)) => anew(arrived(&mut check, said), Fact::PartArrived),
        Some(Wanted::Photo(said)) => described(&mut check, said)
            .map(|(job, described)| (job, Some(Restated::Photo(described)))),
        Some(Wanted::Joint(joint)) => {
            let name = check.joint_name("joint.name", &joint.name);
            let added = name.and_then(|(job, id)| {
                let added = check.joint(Some(&job), Some(id), joint, shop)?;
                Some((job, added))
            });
            anew(added, Fact::JointAdded)
        }
    };
    if let (Some((job, _)), Some((Some(other), _))) = (&entry, &with)
        && job != other
    {
        check.wrong(
            "correction",
            format!("is about jobs/{other}, the entry about jobs/{job}"),
        );
    }
    let parts = entry.zip(with).map(|((job, entry), (_, with))| {
        let correction = Correction {
            entry,
            with,
            reason,
            etag,
        };
        (job, Command::Correct(correction))
    });
    change(check, request, parts)
}

/// What a correction is about, if it says so, and what should have been said; nothing to withdraw it.
type Anew = (Option<JobId>, Option<Restated>);

fn anew<F>(said: Option<(JobId, F)>, fact: fn(F) -> Fact) -> Option<Anew> {
    said.map(|(job, said)| (Some(job), Some(fact(said).into())))
}

/// The fastener a message describes, for a part that is new.
pub(super) fn new_part(
    check: &mut Check,
    field: &str,
    part: Option<&wire::FastenerSpec>,
    wanted: bool,
) -> Option<clampbook_book::fact::FastenerSpec> {
    match (part, wanted) {
        (Some(part), true) => fastener_spec(check, field, part),
        (None, true) => {
            check.wrong(field, "is required here: say which fastener it is");
            None
        }
        (Some(_), false) => {
            check.wrong(field, "is for a new part only; leave it out");
            None
        }
        (None, false) => None,
    }
}
