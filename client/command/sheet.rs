//! `sheet`.

use clampbook_api::v1::{
    GetSheetRequest, RenderSheetRequest, SheetFormat, sheet_service_client::SheetServiceClient,
};

use crate::{
    args::{Form, SheetArgs},
    call::Server,
    error::Failure,
    json, name,
    out::Out,
};

pub(super) async fn run(args: SheetArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let name = match &args.assembly {
        Some(assembly) => name::assembly(&args.job, assembly),
        None => name::job(&args.job),
    };
    let torque_unit = args.unit.unwrap_or_default().into();
    let form = if out.is_json() {
        Form::Json
    } else {
        args.format
    };
    let rendered = async |format: SheetFormat| {
        let format = format.into();
        let request = RenderSheetRequest {
            name: name.clone(),
            torque_unit,
            format,
        };
        server
            .sheets(SheetServiceClient::render_sheet, request)
            .await
    };
    match form {
        Form::Text => out.text(&rendered(SheetFormat::Text).await?.content),
        // A table is data: it goes out as it came.
        Form::Csv => out.bytes(rendered(SheetFormat::Csv).await?.content.as_bytes()),
        Form::Json => {
            let request = GetSheetRequest {
                name: name.clone(),
                torque_unit,
            };
            let sheet = server
                .sheets(SheetServiceClient::get_sheet, request)
                .await?;
            out.bytes(&json::pretty(&sheet)?)
        }
    }
}
