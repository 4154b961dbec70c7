//! The method that tells everything about one position.

use super::Jobs;
use super::reading::ENTRIES;
use crate::convert::page::token;
use crate::convert::{Check, history};
use clampbook_api::v1 as wire;
use clampbook_app::{Caller, Error};
use clampbook_book::ids::EntryNumber;

impl Jobs {
    pub(super) async fn list_position_history(
        &self,
        caller: &Caller,
        request: wire::ListPositionHistoryRequest,
    ) -> Result<wire::ListPositionHistoryResponse, Error> {
        let mut check = Check::default();
        let joint = check.joint_name("joint", &request.joint);
        let position = check.position("position", request.position);
        let list = format!("ListPositionHistory {} {}", request.joint, request.position);
        let page = check.numbered_page::<EntryNumber>(
            &list,
            request.page_size,
            &request.page_token,
            ENTRIES,
        );
        let (((job, joint), position), (size, after)) =
            check.finish(joint.zip(position).zip(page))?;
        let app = &self.0.app;
        let place = (&job, &joint, position);
        let after = after.unwrap_or_default();
        let mut found = app.position_history(caller, place, after, size + 1).await?;
        let more = found.len() > size;
        found.truncate(size);
        let last = found.last().filter(|_| more);
        Ok(wire::ListPositionHistoryResponse {
            next_page_token: last
                .map(|(stored, _)| token(&list, &stored.entry.number.to_string()))
                .unwrap_or_default(),
            items: found
                .iter()
                .map(|(stored, about)| history::item(&job, stored, *about))
                .collect(),
        })
    }
}
