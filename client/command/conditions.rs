//! `conditions`.

use clampbook_api::v1::{
    Condition, CreateConditionRequest, ListConditionsRequest, ListConditionsResponse,
    ReviseConditionRequest, WithdrawConditionRequest,
    catalog_service_client::CatalogServiceClient as Client,
};

use super::paging::all;
use crate::{
    args::ConditionsCommand, call::Server, error::Failure, name, out::Out, show::conditions,
};

pub(super) async fn run(
    command: ConditionsCommand,
    server: &Server,
    out: &Out,
) -> Result<(), Failure> {
    match command {
        ConditionsCommand::Add { id, own, change } => {
            let ticket = change.ticket();
            let request = CreateConditionRequest {
                condition_id: id,
                condition: Some(own.into_wire()),
                request_id: ticket.request_id(),
                said_time: None,
            };
            let kept = server
                .change_catalog(&ticket, Client::create_condition, request)
                .await?;
            out.answer(&kept, conditions::own)
        }
        ConditionsCommand::Revise {
            id,
            own,
            read,
            change,
        } => {
            let etag = etag(&id, read.etag, server).await?;
            let ticket = change.ticket().on(&etag);
            let request = ReviseConditionRequest {
                name: name::condition(&id),
                condition: Some(own.into_wire()),
                etag,
                request_id: ticket.request_id(),
                said_time: None,
            };
            let kept = server
                .change_catalog(&ticket, Client::revise_condition, request)
                .await?;
            out.answer(&kept, conditions::own)
        }
        ConditionsCommand::Withdraw {
            id,
            reason,
            read,
            change,
        } => {
            let etag = etag(&id, read.etag, server).await?;
            let ticket = change.ticket().on(&etag);
            let request = WithdrawConditionRequest {
                name: name::condition(&id),
                reason,
                etag,
                request_id: ticket.request_id(),
                said_time: None,
            };
            let kept = server
                .change_catalog(&ticket, Client::withdraw_condition, request)
                .await?;
            out.answer(&kept, conditions::own)
        }
        ConditionsCommand::List => {
            let mut list = list(server).await?;
            list.conditions.retain(|condition| condition.own.is_some());
            out.answer(&list, conditions::list)
        }
    }
}

/// The etag given, or the one in force just now. For what is not there the server says so.
async fn etag(id: &str, given: Option<String>, server: &Server) -> Result<String, Failure> {
    if let Some(etag) = given {
        return Ok(etag);
    }
    let name = name::condition(id);
    let is_it = |condition: &Condition| condition.name == name && !condition.etag.is_empty();
    let found = list(server).await?.conditions.into_iter().find(is_it);
    Ok(found.map_or_else(|| "\"0\"".to_owned(), |condition| condition.etag))
}

async fn list(server: &Server) -> Result<ListConditionsResponse, Failure> {
    all(async |page_token| {
        let request = ListConditionsRequest {
            // The server's own default size of a page.
            page_size: 0,
            page_token,
        };
        server.catalog(Client::list_conditions, request).await
    })
    .await
}
