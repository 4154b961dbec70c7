//! `lubrications`.

use clampbook_api::v1::{
    CreateLubricationRequest, ListLubricationsRequest, ListLubricationsResponse, Lubrication,
    ReviseLubricationRequest, WithdrawLubricationRequest,
    catalog_service_client::CatalogServiceClient as Client,
};

use super::paging::all;
use crate::{
    args::LubricationsCommand, call::Server, error::Failure, name, out::Out, show::lubrications,
};

pub(super) async fn run(
    command: LubricationsCommand,
    server: &Server,
    out: &Out,
) -> Result<(), Failure> {
    match command {
        LubricationsCommand::Add { id, own, change } => {
            let ticket = change.ticket();
            let request = CreateLubricationRequest {
                lubrication_id: id,
                lubrication: Some(own.into_wire()),
                request_id: ticket.request_id(),
                said_time: None,
            };
            let kept = server
                .change_catalog(&ticket, Client::create_lubrication, request)
                .await?;
            out.answer(&kept, lubrications::own)
        }
        LubricationsCommand::Revise {
            id,
            own,
            read,
            change,
        } => {
            let etag = etag(&id, read.etag, server).await?;
            let ticket = change.ticket().on(&etag);
            let request = ReviseLubricationRequest {
                name: name::lubrication(&id),
                lubrication: Some(own.into_wire()),
                etag,
                request_id: ticket.request_id(),
                said_time: None,
            };
            let kept = server
                .change_catalog(&ticket, Client::revise_lubrication, request)
                .await?;
            out.answer(&kept, lubrications::own)
        }
        LubricationsCommand::Withdraw {
            id,
            reason,
            read,
            change,
        } => {
            let etag = etag(&id, read.etag, server).await?;
            let ticket = change.ticket().on(&etag);
            let request = WithdrawLubricationRequest {
                name: name::lubrication(&id),
                reason,
                etag,
                request_id: ticket.request_id(),
                said_time: None,
            };
            let kept = server
                .change_catalog(&ticket, Client::withdraw_lubrication, request)
                .await?;
            out.answer(&kept, lubrications::own)
        }
        LubricationsCommand::List => {
            let mut list = list(server).await?;
            list.lubrications
                .retain(|lubrication| lubrication.own.is_some());
            out.answer(&list, lubrications::list)
        }
    }
}

/// The etag given, or the one in force just now. For what is not there the server says so.
async fn etag(id: &str, given: Option<String>, server: &Server) -> Result<String, Failure> {
    if let Some(etag) = given {
        return Ok(etag);
    }
    let name = name::lubrication(id);
    let is_it =
        |lubrication: &Lubrication| lubrication.name == name && !lubrication.etag.is_empty();
    let found = list(server).await?.lubrications.into_iter().find(is_it);
    Ok(found.map_or_else(|| "\"0\"".to_owned(), |lubrication| lubrication.etag))
}

async fn list(server: &Server) -> Result<ListLubricationsResponse, Failure> {
    all(async |page_token| {
        let request = ListLubricationsRequest {
            // The server's own default size of a page.
            page_size: 0,
            page_token,
        };
        server.catalog(Client::list_lubrications, request).await
    })
    .await
}
