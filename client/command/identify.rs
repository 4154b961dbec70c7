//! `identify`.

use clampbook_api::v1::{
    IdentifyGradeRequest, IdentifySpannerRequest, IdentifyThreadRequest,
    catalog_service_client::CatalogServiceClient as Client,
};

use crate::{args::IdentifyCommand, call::Server, error::Failure, out::Out, show::identify};

pub(super) async fn run(
    command: IdentifyCommand,
    server: &Server,
    out: &Out,
) -> Result<(), Failure> {
    match command {
        IdentifyCommand::Thread(args) => {
            let request = IdentifyThreadRequest {
                diameter: args.diameter,
                internal: args.internal,
                pitch: args.pitch.unwrap_or_default(),
                threads_per_inch: args.tpi,
                flank_angle_degrees: args.flank_angle,
                diameter_error_mm: args.diameter_error,
                pitch_error_mm: args.pitch_error,
                wear_mm: args.wear,
            };
            let found = server.catalog(Client::identify_thread, request).await?;
            out.answer(&found, identify::thread)
        }
        IdentifyCommand::Head { head_marking } => {
            let request = IdentifyGradeRequest { head_marking };
            let found = server.catalog(Client::identify_grade, request).await?;
            out.answer(&found, identify::head)
        }
        IdentifyCommand::Spanner(args) => {
            let request = IdentifySpannerRequest {
                width: args.width.unwrap_or_default(),
                thread: args.thread.unwrap_or_default(),
            };
            let found = server.catalog(Client::identify_spanner, request).await?;
            out.answer(&found, identify::spanner)
        }
    }
}
