//! `history.proto`: entries about one position.

use super::record::{entry, entry_name};
use clampbook_api::v1 as wire;
use clampbook_book::history::About;
use clampbook_book::ids::JobId;
use clampbook_store::StoredEntry;

/// An entry, and how it is about the position.
pub(crate) fn item(job: &JobId, stored: &StoredEntry, about: About) -> wire::HistoryItem {
    let corrects = match about {
        About::Said => None,
        About::Replaces(number) | About::Withdraws(number) => Some(number),
    };
    wire::HistoryItem {
        entry: Some(entry(stored)),
        corrects: corrects
            .map(|number| entry_name(job, number))
            .unwrap_or_default(),
        withdraws: matches!(about, About::Withdraws(_)),
    }
}
