//! `SheetService`.

use super::guard::Guard;
use crate::convert::sheet::{self, Format};
use clampbook_api::v1::sheet_service_server::SheetService;
use clampbook_api::v1::{GetSheetRequest, RenderSheetRequest, RenderSheetResponse, Sheet};
use clampbook_app::{Error, Operation};
use tonic::{Request, Response, Status};

pub(super) struct Sheets(pub(super) Guard);

#[tonic::async_trait]
impl SheetService for Sheets {
    async fn get_sheet(
        &self,
        request: Request<GetSheetRequest>,
    ) -> Result<Response<Sheet>, Status> {
        let app = &self.0.app;
        self.0
            .call(Operation::GetSheet, request, async |caller, request| {
                let wanted = sheet::wanted(&request)?;
                let view = app
                    .sheet(
                        &caller,
                        Operation::GetSheet,
                        &wanted.job,
                        wanted.assembly,
                        wanted.unit,
                    )
                    .await?;
                Ok(sheet::sheet(&wanted.job, &view))
            })
            .await
    }

    async fn render_sheet(
        &self,
        request: Request<RenderSheetRequest>,
    ) -> Result<Response<RenderSheetResponse>, Status> {
        let app = &self.0.app;
        self.0
            .call(Operation::RenderSheet, request, async |caller, request| {
                let (wanted, format) = sheet::rendered(&request)?;
                let view = app
                    .sheet(
                        &caller,
                        Operation::RenderSheet,
                        &wanted.job,
                        wanted.assembly,
                        wanted.unit,
                    )
                    .await?;
                let (media_type, content) = match format {
                    Format::Text => (
                        "text/plain; charset=utf-8",
                        clampbook_paper::text::render(&view),
                    ),
                    Format::Csv => (
                        "text/csv; charset=utf-8; header=present",
                        clampbook_paper::csv::render(&view).map_err(|e| Error::broken(&e))?,
                    ),
                };
                Ok(RenderSheetResponse {
                    media_type: media_type.into(),
                    content,
                })
            })
            .await
    }
}
