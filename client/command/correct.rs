//! `correct`.

use clampbook_api::v1::{
    CorrectEntryRequest, Joint, PhotoDescription, correct_entry_request::Correction,
    job_service_client::JobServiceClient,
};

use super::{account, decide, finding, jobs, joints, marks, ordering, photo, refit, removal};
use crate::{
    args::{CorrectCommand, WhyArgs},
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
    let (job, entry, correction, why) = match command {
        CorrectCommand::Withdraw(args) => {
            (args.job, args.entry, Correction::Withdrawn(true), args.why)
        }
        CorrectCommand::Removal(args) => {
            let joint = name::joint(&args.job, &args.joint);
            let removal = removal::seen(joint, args.position, args.seen);
            (args.job, args.entry, Correction::Removal(removal), args.why)
        }
        CorrectCommand::Decision(args) => {
            let joint = name::joint(&args.job, &args.joint);
            let decided = decide::decided(joint, args.position, args.decided, args.why);
            let correction = Correction::Decision(decided);
            (args.job, args.entry, correction, args.because)
        }
        CorrectCommand::Refit(args) => {
            let joint = name::joint(&args.job, &args.joint);
            let refitted = refit::refitted(joint, args.position, args.refitted);
            (args.job, args.entry, Correction::Refit(refitted), args.why)
        }
        CorrectCommand::Marks(args) => {
            let marked = marks::marked(&args.job, args.seen);
            (args.job, args.entry, Correction::Marking(marked), args.why)
        }
        CorrectCommand::Finding(args) => {
            let found = finding::found(&args.job, args.found);
            (args.job, args.entry, Correction::Finding(found), args.why)
        }
        CorrectCommand::Answer(args) => {
            let answered = finding::answered(&args.job, args.answered);
            let correction = Correction::CounterpartAnswer(answered);
            (args.job, args.entry, correction, args.why)
        }
        CorrectCommand::Wanted(args) => {
            let wanted = ordering::wanted(&args.job, args.wanted);
            let correction = Correction::Wanted(wanted);
            (args.job, args.entry, correction, args.because)
        }
        CorrectCommand::Arrival(args) => {
            let arrived = ordering::arrived(&args.job, args.arrived);
            (args.job, args.entry, Correction::Arrival(arrived), args.why)
        }
        CorrectCommand::Account(args) => {
            let joint = name::joint(&args.job, &args.joint);
            let account = account::accounted(joint, args.position, args.pieces, args.known);
            (args.job, args.entry, Correction::Account(account), args.why)
        }
        CorrectCommand::Photo(args) => {
            let of = args.of.map(|of| photo::named(&args.job, &of));
            let (subject, position) = of.unwrap_or_default();
            let described = PhotoDescription {
                subject,
                position,
                caption: args.caption,
            };
            (args.job, args.entry, Correction::Photo(described), args.why)
        }
        CorrectCommand::Joint(args) => {
            let joint = Joint {
                name: name::joint(&args.job, &args.joint),
                ..joints::described(&args.job, args.described)
            };
            (args.job, args.entry, Correction::Joint(joint), args.why)
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
