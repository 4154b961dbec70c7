//! `people`.

use clampbook_api::v1::{
    CreatePersonRequest, ListPeopleRequest, ListPeopleResponse, RevisePersonRequest,
    WithdrawPersonRequest, people_service_client::PeopleServiceClient as Client,
};

use super::paging::all;
use crate::{args::PeopleCommand, call::Server, error::Failure, name, out::Out, show::people};

pub(super) async fn run(command: PeopleCommand, server: &Server, out: &Out) -> Result<(), Failure> {
    let kept = match command {
        PeopleCommand::Add { id, person, change } => {
            let ticket = change.ticket();
            let request = CreatePersonRequest {
                person_id: id,
                person: Some(person.into_wire()),
                request_id: ticket.request_id(),
                said_time: None,
            };
            server
                .change_people(&ticket, Client::create_person, request)
                .await?
        }
        PeopleCommand::Revise {
            id,
            person,
            read,
            change,
        } => {
            let etag = etag(&id, read.etag, server).await?;
            let ticket = change.ticket().on(&etag);
            let request = RevisePersonRequest {
                name: name::person(&id),
                person: Some(person.into_wire()),
                etag,
                request_id: ticket.request_id(),
                said_time: None,
            };
            server
                .change_people(&ticket, Client::revise_person, request)
                .await?
        }
        PeopleCommand::Withdraw {
            id,
            reason,
            read,
            change,
        } => {
            let etag = etag(&id, read.etag, server).await?;
            let ticket = change.ticket().on(&etag);
            let request = WithdrawPersonRequest {
                name: name::person(&id),
                reason,
                etag,
                request_id: ticket.request_id(),
                said_time: None,
            };
            server
                .change_people(&ticket, Client::withdraw_person, request)
                .await?
        }
        PeopleCommand::List => return out.answer(&list(server).await?, people::list),
    };
    out.answer(&kept, people::one)
}

/// The etag given, or the one in force just now. For who is not there the server says so.
async fn etag(id: &str, given: Option<String>, server: &Server) -> Result<String, Failure> {
    if let Some(etag) = given {
        return Ok(etag);
    }
    let name = name::person(id);
    let people = list(server).await?.people;
    let found = people.into_iter().find(|person| person.name == name);
    Ok(found.map_or_else(|| "\"0\"".to_owned(), |person| person.etag))
}

async fn list(server: &Server) -> Result<ListPeopleResponse, Failure> {
    all(async |page_token| {
        let request = ListPeopleRequest {
            // The server's own default size of a page.
            page_size: 0,
            page_token,
        };
        server.people(Client::list_people, request).await
    })
    .await
}
