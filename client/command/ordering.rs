//! `parts` and `fits`.

use clampbook_api::v1::{
    CheckReplacementRequest, ListPartsToOrderRequest, ListWaitsRequest, LogPartArrivalRequest,
    LogPartWantedRequest, PartArrival, WantedPart, job_service_client::JobServiceClient,
};

use super::paging::all;
use crate::{
    args::{ArrivedArgs, FitsArgs, OfArgs, PartsCommand, WantedArgs},
    call::Server,
    error::Failure,
    name,
    out::Out,
    show::{ordering, recorded},
};

pub(super) async fn run(command: PartsCommand, server: &Server, out: &Out) -> Result<(), Failure> {
    match command {
        PartsCommand::List { of, csv } => list(&of, csv, server, out).await,
        PartsCommand::Waits { of } => {
            let page = async |page_token| {
                let request = ListWaitsRequest {
                    parent: parent(&of),
                    page_size: 0,
                    page_token,
                };
                server.jobs(JobServiceClient::list_waits, request).await
            };
            out.answer(&all(page).await?, ordering::waits)
        }
        PartsCommand::Want {
            job,
            wanted,
            change,
        } => {
            let ticket = change.ticket();
            let request = LogPartWantedRequest {
                wanted: Some(self::wanted(&job, wanted)),
                request_id: ticket.request_id(),
                said_time: None,
            };
            let answer = server
                .change(&ticket, JobServiceClient::log_part_wanted, request)
                .await?;
            out.answer(&answer, recorded::wanted)
        }
        PartsCommand::Arrive {
            job,
            arrived,
            change,
        } => {
            let ticket = change.ticket();
            let request = LogPartArrivalRequest {
                arrival: Some(self::arrived(&job, arrived)),
                request_id: ticket.request_id(),
                said_time: None,
            };
            let answer = server
                .change(&ticket, JobServiceClient::log_part_arrival, request)
                .await?;
            out.answer(&answer, recorded::arrival)
        }
    }
}

async fn list(of: &OfArgs, csv: bool, server: &Server, out: &Out) -> Result<(), Failure> {
    let page = async |page_token| {
        let request = ListPartsToOrderRequest {
            parent: parent(of),
            page_size: 0,
            page_token,
        };
        server
            .jobs(JobServiceClient::list_parts_to_order, request)
            .await
    };
    let list = all(page).await?;
    match csv {
        true => out.bytes(&ordering::table_of_parts(&list)?),
        false => out.answer(&list, ordering::parts),
    }
}

/// `fits`.
pub(super) async fn fits(args: FitsArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let request = CheckReplacementRequest {
        joint: name::joint(&args.place.job, &args.place.joint),
        position: args.place.position,
        replacement: args.fastener.into_wire(),
    };
    let answer = server
        .jobs(JobServiceClient::check_replacement, request)
        .await?;
    out.answer(&answer, ordering::fits)
}

fn parent(of: &OfArgs) -> String {
    match &of.assembly {
        Some(assembly) => name::assembly(&of.job, assembly),
        None => name::job(&of.job),
    }
}

/// A wanted part as it was described.
pub(super) fn wanted(job: &str, args: WantedArgs) -> WantedPart {
    WantedPart {
        assembly: name::assembly(job, &args.assembly),
        joint: args
            .joint
            .map(|id| name::joint(job, &id))
            .unwrap_or_default(),
        what: args.what,
        quantity: args.quantity,
        why: args.why,
        part_number: args.number,
        note: args.note,
        ..WantedPart::default()
    }
}

/// An arrival as it was described.
pub(super) fn arrived(job: &str, args: ArrivedArgs) -> PartArrival {
    PartArrival {
        assembly: name::assembly(job, &args.assembly),
        what: args.what,
        quantity: args.quantity,
        reference: args.reference,
        note: args.note,
        ..PartArrival::default()
    }
}
