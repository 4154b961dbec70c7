//! Everything about one position.

use crate::Validator;
use crate::entry::{ENTRIES, entry};
use crate::page::token;
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, StoredEntry, names};
use clampbook_book::history::About;
use clampbook_book::ids::{EntryNumber, JobId};

/// Entries about a position.
pub(crate) async fn list(
    call: Call<'_>,
    request: wire::ListPositionHistoryRequest,
) -> Result<wire::ListPositionHistoryResponse, Error> {
    let mut check = Validator::default();
    let joint = check.joint_name("joint", &request.joint);
    let position = check.position("position", request.position);
    let list = format!("ListPositionHistory {} {}", request.joint, request.position);
    let page =
        check.numbered_page::<EntryNumber>(&list, request.page_size, &request.page_token, ENTRIES);
    let (((job, joint), position), (size, after)) = check.finish(joint.zip(position).zip(page))?;
    let place = (&job, &joint, position);
    let after = after.unwrap_or_default();
    let mut found = call.position_history(place, after, size + 1).await?;
    let more = found.len() > size;
    found.truncate(size);
    let last = found.last().filter(|_| more);
    Ok(wire::ListPositionHistoryResponse {
        next_page_token: last
            .map(|(stored, _)| token(&list, &stored.entry.number.to_string()))
            .unwrap_or_default(),
        items: found
            .iter()
            .map(|(stored, about)| item(&job, stored, *about))
            .collect(),
    })
}

/// An entry, and how it is about the position.
fn item(job: &JobId, stored: &StoredEntry, about: About) -> wire::HistoryItem {
    let corrects = match about {
        About::Said => None,
        About::Replaces(number) | About::Withdraws(number) => Some(number),
    };
    wire::HistoryItem {
        entry: Some(entry(stored)),
        corrects: corrects
            .map(|number| names::entry(job, number))
            .unwrap_or_default(),
        withdraws: matches!(about, About::Withdraws(_)),
    }
}
