//! `correct`.

use clampbook_api::v1::{
    CorrectEntryRequest, Joint, PhotoDescription, correct_entry_request::Correction,
    job_service_client::JobServiceClient,
};

use super::{
    decide, finding, jobs, joints, marks, not_refitted, ordering, photo, refit, removal, tightening,
};
use crate::{
    args::{CorrectCommand, EntryArgs, WhyArgs},
    call::Server,
    error::Failure,
    name,
    out::Out,
    show::recorded,
};

pub(super) async fn run(
    command: CorrectCommand,
    server: &Server,
    out: &Out,
) -> Result<(), Failure> {
    let (EntryArgs { job, entry }, correction, why) = match command {
        CorrectCommand::Withdraw(args) => (args.entry, Correction::Withdrawn(true), args.why),
        CorrectCommand::Removal(args) => {
            let joint = name::joint(&args.entry.job, &args.hole.joint);
            let removal = removal::seen(joint, args.hole.position, args.seen);
            (args.entry, Correction::Removal(removal), args.why)
        }
        CorrectCommand::Decision(args) => {
            let joint = name::joint(&args.entry.job, &args.hole.joint);
            let decided = decide::decided(joint, args.hole.position, args.decided, args.why);
            let correction = Correction::Decision(decided);
            (args.entry, correction, args.because)
        }
        CorrectCommand::Refit(args) => {
            let joint = name::joint(&args.entry.job, &args.hole.joint);
            let refitted = refit::refitted(joint, args.hole.position, args.refitted);
            (args.entry, Correction::Refit(refitted), args.why)
        }
        CorrectCommand::Tightening(args) => {
            let joint = name::joint(&args.entry.job, &args.hole.joint);
            let tightened = tightening::tightened(joint, args.hole.position, args.tightened);
            (args.entry, Correction::Tightening(tightened), args.why)
        }
        CorrectCommand::Marks(args) => {
            let marked = marks::marked(&args.entry.job, args.seen);
            (args.entry, Correction::MatchMarks(marked), args.why)
        }
        CorrectCommand::Finding(args) => {
            let found = finding::found(&args.entry.job, args.found);
            (args.entry, Correction::Finding(found), args.why)
        }
        CorrectCommand::Answer(args) => {
            let answered = finding::answered(&args.entry.job, args.answered);
            let correction = Correction::CounterpartAnswer(answered);
            (args.entry, correction, args.why)
        }
        CorrectCommand::Wanted(args) => {
            let wanted = ordering::wanted(&args.entry.job, args.wanted);
            let correction = Correction::Wanted(wanted);
            (args.entry, correction, args.because)
        }
        CorrectCommand::Arrival(args) => {
            let arrived = ordering::arrived(&args.entry.job, args.arrived);
            (args.entry, Correction::Arrival(arrived), args.why)
        }
        CorrectCommand::NotRefitted(args) => {
            let joint = name::joint(&args.entry.job, &args.hole.joint);
            let account =
                not_refitted::accounted(joint, args.hole.position, args.pieces, args.known);
            (args.entry, Correction::NotRefitted(account), args.why)
        }
        CorrectCommand::Photo(args) => {
            let of = args.of.map(|of| photo::named(&args.entry.job, &of));
            let (subject, position) = of.unwrap_or_default();
            let described = PhotoDescription {
                subject,
                position,
                caption: args.caption,
            };
            (args.entry, Correction::Photo(described), args.why)
        }
        CorrectCommand::Joint(args) => {
            let joint = Joint {
                name: name::joint(&args.entry.job, &args.joint),
                ..joints::described(&args.entry.job, args.described)
            };
            (args.entry, Correction::Joint(joint), args.why)
        }
    };
    let WhyArgs {
        reason,
        etag,
        change,
    } = why;
    let etag = match etag {
        Some(etag) => etag,
        None => jobs::get(&job, server).await?.etag,
    };
    let ticket = change.ticket().on(&etag);
    let request = CorrectEntryRequest {
        entry: name::entry(&job, &entry),
        correction: Some(correction),
        reason,
        etag,
        request_id: ticket.request_id(),
        said_time: None,
    };
    let answer = server
        .change(&ticket, JobServiceClient::correct_entry, request)
        .await?;
    out.answer(&answer, recorded::correction)
}
