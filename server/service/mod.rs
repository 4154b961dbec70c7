//! gRPC: one file per service. Convert in, call the use case, convert out; nothing is decided here.

mod catalog;
mod guard;
mod job;
mod many;
mod oversize;
mod sheet;
mod specification;
mod torque;

use crate::app::{App, Role};
use clampbook_api::v1::catalog_service_server::CatalogServiceServer;
use clampbook_api::v1::job_service_server::JobServiceServer;
use clampbook_api::v1::sheet_service_server::SheetServiceServer;
use clampbook_api::v1::specification_service_server::SpecificationServiceServer;
use clampbook_api::v1::torque_service_server::TorqueServiceServer;
use guard::Guard;
pub(crate) use oversize::OversizeLayer;
use std::sync::Arc;
use tokio::sync::Semaphore;
use tonic::service::RoutesBuilder;

/// Most bytes of an ordinary request.
pub(crate) const REQUEST_BYTES: usize = 256 * 1024;
/// Most bytes of a request that may carry a whole strip-down or a book of specifications.
pub(crate) const IMPORT_BYTES: usize = 1024 * 1024;
/// Most bytes of an answer.
pub(crate) const ANSWER_BYTES: usize = 4 * 1024 * 1024;

/// The names of the services, for health.
pub(crate) const NAMES: [&str; 5] = [
    "clampbook.v1.CatalogService",
    "clampbook.v1.TorqueService",
    "clampbook.v1.JobService",
    "clampbook.v1.SpecificationService",
    "clampbook.v1.SheetService",
];

/// Adds all services.
pub(crate) fn add(routes: &mut RoutesBuilder, app: &App, role: Role) {
    let guard = Guard {
        app: app.clone(),
        role,
        unnamed: clampbook_book::entry::Caller::unnamed(),
        photos: Arc::new(Semaphore::new(job::UNDER_WAY)),
    };
    routes
        .add_service(
            CatalogServiceServer::new(catalog::Catalog(guard.clone()))
                .max_decoding_message_size(REQUEST_BYTES)
                .max_encoding_message_size(ANSWER_BYTES),
        )
        .add_service(
            TorqueServiceServer::new(torque::Torque(guard.clone()))
                .max_decoding_message_size(REQUEST_BYTES)
                .max_encoding_message_size(ANSWER_BYTES),
        )
        .add_service(
            JobServiceServer::new(job::Jobs(guard.clone()))
                .max_decoding_message_size(IMPORT_BYTES)
                .max_encoding_message_size(ANSWER_BYTES),
        )
        .add_service(
            SpecificationServiceServer::new(specification::Specifications(guard.clone()))
                .max_decoding_message_size(IMPORT_BYTES)
                .max_encoding_message_size(ANSWER_BYTES),
        )
        .add_service(
            SheetServiceServer::new(sheet::Sheets(guard))
                .max_decoding_message_size(REQUEST_BYTES)
                .max_encoding_message_size(ANSWER_BYTES),
        );
}
