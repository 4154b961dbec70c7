//! `assemblies`.

use clampbook_api::v1::{Assembly, CreateAssemblyRequest, job_service_client::JobServiceClient};

use crate::{args::AssembliesCommand, call::Server, error::Failure, name, out::Out, show};

pub(super) async fn run(
    command: AssembliesCommand,
    server: &Server,
    out: &Out,
) -> Result<(), Failure> {
    let AssembliesCommand::Add(args) = command;
    let ticket = args.change.ticket();
    let counterpart = args.counterpart.map(|id| name::assembly(&args.job, &id));
    let request = CreateAssemblyRequest {
        parent: name::job(&args.job),
        assembly_id: args.id,
        assembly: Some(Assembly {
            display_name: args.name,
            counterpart: counterpart.unwrap_or_default(),
            ..Assembly::default()
        }),
        request_id: ticket.request_id(),
        said_time: None,
    };
    let assembly = server
        .change(&ticket, JobServiceClient::create_assembly, request)
        .await?;
    out.answer(&assembly, show::job::assembly)
}
