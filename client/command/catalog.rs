//! `catalog`.

use clampbook_api::v1::{
    GetThreadRequest, ListAcrossFlatsRequest, ListGradesRequest, ListLookAlikesRequest,
    ListLubricationsRequest, ListNutGradesRequest, ListParentMetalsRequest,
    ListPublishedTargetsRequest, ListPublishedTorquesRequest, ListThreadsRequest,
    catalog_service_client::CatalogServiceClient as Client,
};

use super::paging::all;
use crate::{
    args::CatalogCommand,
    call::Server,
    error::Failure,
    out::Out,
    show::{catalog, identify, parts, published_rows},
};

/// The server's own default size of a page.
const PAGE: i32 = 0;

pub(super) async fn run(
    command: CatalogCommand,
    server: &Server,
    out: &Out,
) -> Result<(), Failure> {
    match command {
        CatalogCommand::Threads => {
            let page = async |page_token| {
                let request = ListThreadsRequest {
                    page_size: PAGE,
                    page_token,
                };
                server.catalog(Client::list_threads, request).await
            };
            out.answer(&all(page).await?, catalog::threads)
        }
        CatalogCommand::Thread { thread: name } => {
            let request = GetThreadRequest { name };
            let thread = server.catalog(Client::get_thread, request).await?;
            out.answer(&thread, catalog::thread)
        }
        CatalogCommand::Grades => {
            let page = async |page_token| {
                let request = ListGradesRequest {
                    page_size: PAGE,
                    page_token,
                };
                server.catalog(Client::list_grades, request).await
            };
            out.answer(&all(page).await?, catalog::grades)
        }
        CatalogCommand::Nuts => {
            let page = async |page_token| {
                let request = ListNutGradesRequest {
                    page_size: PAGE,
                    page_token,
                };
                server.catalog(Client::list_nut_grades, request).await
            };
            out.answer(&all(page).await?, catalog::nuts)
        }
        CatalogCommand::Lubrications => {
            let page = async |page_token| {
                let request = ListLubricationsRequest {
                    page_size: PAGE,
                    page_token,
                };
                server.catalog(Client::list_lubrications, request).await
            };
            out.answer(&all(page).await?, catalog::lubrications)
        }
        CatalogCommand::LookAlikes => {
            let page = async |page_token| {
                let request = ListLookAlikesRequest {
                    page_size: PAGE,
                    page_token,
                };
                server.catalog(Client::list_look_alikes, request).await
            };
            out.answer(&all(page).await?, identify::look_alikes)
        }
        CatalogCommand::Hexagons => {
            let page = async |page_token| {
                let request = ListAcrossFlatsRequest {
                    page_size: PAGE,
                    page_token,
                };
                server.catalog(Client::list_across_flats, request).await
            };
            out.answer(&all(page).await?, parts::hexagons)
        }
        CatalogCommand::Metals => {
            let page = async |page_token| {
                let request = ListParentMetalsRequest {
                    page_size: PAGE,
                    page_token,
                };
                server.catalog(Client::list_parent_metals, request).await
            };
            out.answer(&all(page).await?, parts::metals)
        }
        CatalogCommand::Targets => {
            let page = async |page_token| {
                let request = ListPublishedTargetsRequest {
                    page_size: PAGE,
                    page_token,
                };
                server
                    .catalog(Client::list_published_targets, request)
                    .await
            };
            out.answer(&all(page).await?, parts::targets)
        }
        CatalogCommand::Published { purpose } => {
            let page = async |page_token| {
                let request = ListPublishedTorquesRequest {
                    page_size: PAGE,
                    page_token,
                    purpose: purpose.map_or(0, Into::into),
                };
                server
                    .catalog(Client::list_published_torques, request)
                    .await
            };
            out.answer(&all(page).await?, published_rows::list)
        }
    }
}
