//! The method that searches across jobs.

use super::Jobs;
use crate::convert::search::{Search, found, search};
use clampbook_api::v1 as wire;
use clampbook_app::{Caller, Error};
use std::sync::Arc;

impl Jobs {
    pub(super) async fn search_jobs(
        &self,
        caller: &Caller,
        request: wire::SearchJobsRequest,
    ) -> Result<wire::SearchJobsResponse, Error> {
        let app = &self.0.app;
        let Search { wanted, size, from } = search(&request, &app.catalogue())?;
        let wanted = Arc::new(wanted);
        let page = app.search(caller, &wanted, from, size).await?;
        Ok(found(&wanted, &page))
    }
}
