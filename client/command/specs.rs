//! `specs`.

use clampbook_api::v1::{
    CreateSpecificationRequest, ExportSpecificationsRequest, GetEffectiveValueRequest,
    GetSpecificationRequest, ImportSpecificationsRequest, ListSpecificationUsesRequest,
    ListSpecificationsRequest, ReviseSpecificationRequest, Specification,
    WithdrawSpecificationRequest,
    specification_service_client::SpecificationServiceClient as Client,
};

use super::{file::read, paging::all};
use crate::{
    args::SpecsCommand,
    call::Server,
    error::Failure,
    json, name,
    out::Out,
    show::{effective, specs},
};

pub(super) async fn run(command: SpecsCommand, server: &Server, out: &Out) -> Result<(), Failure> {
    match command {
        SpecsCommand::Add {
            id,
            printed,
            change,
        } => {
            let ticket = change.ticket();
            let request = CreateSpecificationRequest {
                specification_id: id,
                specification: Some(printed.into_wire()),
                request_id: ticket.request_id(),
                said_time: None,
            };
            let kept = server
                .change_specs(&ticket, Client::create_specification, request)
                .await?;
            out.answer(&kept, specs::one)
        }
        SpecsCommand::Revise {
            id,
            printed,
            etag,
            change,
        } => {
            let etag = etag_of(&id, etag, server).await?;
            let ticket = change.ticket().on(&etag);
            let request = ReviseSpecificationRequest {
                name: name::specification(&id),
                specification: Some(printed.into_wire()),
                etag,
                request_id: ticket.request_id(),
                said_time: None,
            };
            let kept = server
                .change_specs(&ticket, Client::revise_specification, request)
                .await?;
            out.answer(&kept, specs::one)
        }
        SpecsCommand::Withdraw {
            id,
            reason,
            etag,
            change,
        } => {
            let etag = etag_of(&id, etag, server).await?;
            let ticket = change.ticket().on(&etag);
            let request = WithdrawSpecificationRequest {
                name: name::specification(&id),
                reason,
                etag,
                request_id: ticket.request_id(),
                said_time: None,
            };
            let kept = server
                .change_specs(&ticket, Client::withdraw_specification, request)
                .await?;
            out.answer(&kept, specs::one)
        }
        SpecsCommand::Show { id, revision } => {
            out.answer(&get(&id, revision, server).await?, specs::one)
        }
        SpecsCommand::Import {
            file,
            dry_run,
            change,
        } => {
            let csv = read(&file)?;
            let ticket = change.ticket();
            let request = ImportSpecificationsRequest {
                csv,
                validate_only: dry_run,
                request_id: ticket.request_id(),
                said_time: None,
            };
            let done = server
                .change_specs(&ticket, Client::import_specifications, request)
                .await?;
            out.answer(&done, |done| specs::imported(done, dry_run))
        }
        SpecsCommand::Export => {
            let page = async |page_token| {
                let request = ExportSpecificationsRequest {
                    page_size: 0,
                    page_token,
                };
                server.specs(Client::export_specifications, request).await
            };
            let table = all(page).await?;
            if out.is_json() {
                return out.bytes(&json::pretty(&table)?);
            }
            // A table is data: it goes out as it came.
            out.bytes(table.csv.as_bytes())
        }
        SpecsCommand::Uses { id } => {
            let page = async |page_token| {
                let request = ListSpecificationUsesRequest {
                    name: name::specification(&id),
                    page_size: 0,
                    page_token,
                };
                server.specs(Client::list_specification_uses, request).await
            };
            out.answer(&all(page).await?, specs::uses)
        }
        SpecsCommand::Effective { job, joint, unit } => {
            let request = GetEffectiveValueRequest {
                joint: name::joint(&job, &joint),
                torque_unit: unit.unwrap_or_default().into(),
            };
            let value = server.specs(Client::get_effective_value, request).await?;
            out.answer(&value, effective::value)
        }
        SpecsCommand::List => {
            let page = async |page_token| {
                let request = ListSpecificationsRequest {
                    // The server's own default size of a page.
                    page_size: 0,
                    page_token,
                };
                server.specs(Client::list_specifications, request).await
            };
            out.answer(&all(page).await?, specs::list)
        }
    }
}

/// The etag given, or the one in force just now.
async fn etag_of(id: &str, given: Option<String>, server: &Server) -> Result<String, Failure> {
    match given {
        Some(etag) => Ok(etag),
        None => Ok(get(id, 0, server).await?.etag),
    }
}

async fn get(id: &str, revision: i32, server: &Server) -> Result<Specification, Failure> {
    let request = GetSpecificationRequest {
        name: name::specification(id),
        revision,
    };
    server.specs(Client::get_specification, request).await
}
