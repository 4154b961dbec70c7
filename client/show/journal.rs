//! Entries of the journal, and times.

use clampbook_api::v1::{Entry, ListEntriesResponse, ListPositionHistoryResponse, Said};
use prost_types::Timestamp;

use super::text::{paragraph, strong, wrap};
use crate::name;

/// All entries of a job.
pub(crate) fn entries(list: &ListEntriesResponse) -> String {
    list.entries.iter().map(entry).collect()
}

/// Everything that was said of one position.
pub(crate) fn history(list: &ListPositionHistoryResponse) -> String {
    if list.items.is_empty() {
        return "Nothing is recorded about this position yet.\n".to_owned();
    }
    list.items
        .iter()
        .filter_map(|item| item.entry.as_ref())
        .map(entry)
        .collect()
}

/// One entry: its number, when, who, its place in the whole journal, and what it says.
pub(crate) fn entry(entry: &Entry) -> String {
    let said = entry.said.clone().unwrap_or_default();
    let late = match (said.said_time, said.write_time) {
        (Some(said), Some(written)) if said.seconds < written.seconds => {
            format!(", written {}", time(Some(written)))
        }
        _ => String::new(),
    };
    let head = format!(
        "{}  {}  {}{late}  {} on {}  sequence {}\n",
        strong(&entry.name),
        strong(&entry.kind),
        time(said.said_time.or(said.write_time)),
        who(&said),
        said.device,
        entry.sequence
    );
    head + &wrap("  ", 2, &entry.text)
}

/// The name as it was, and the id of the shop's person.
fn who(said: &Said) -> String {
    match name::id(&said.person) {
        "" => said.display_name.clone(),
        id => format!("{} ({id})", said.display_name),
    }
}

/// Who stated something of the shop, and when.
pub(super) fn stated(said: Option<&Said>) -> String {
    let (by, when) = said.map_or_else(Default::default, |said| (who(said), said.said_time));
    paragraph("Stated", &format!("by {by}, {}", time(when)))
}

/// A time to the second, in UTC.
pub(crate) fn time(time: Option<Timestamp>) -> String {
    time.map_or_else(
        || "-".to_owned(),
        |time| Timestamp { nanos: 0, ..time }.to_string().replace('T', " "),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::show::text::{Look, finish};

    fn at(seconds: i64) -> Option<Timestamp> {
        Some(Timestamp {
            seconds,
            nanos: 123_000_000,
        })
    }

    #[test]
    fn an_entry_said_offline_shows_both_times() {
        let entry_said = |said_time, person: &str| Entry {
            name: "jobs/oak/entries/7".to_owned(),
            kind: "removed".to_owned(),
            text: "hub position 3: came out seized; bent".to_owned(),
            sequence: 41,
            said: Some(Said {
                display_name: "ada".to_owned(),
                device: "cli".to_owned(),
                said_time,
                write_time: at(1_795_600_000),
                person: person.to_owned(),
            }),
            ..Default::default()
        };
        let by =
            |person, said_time| finish(&entry(&entry_said(said_time, person)), Look::default());
        let shown = |said_time| by("", said_time);
        assert_eq!(
            shown(at(1_795_600_000)),
            "jobs/oak/entries/7  removed  2026-11-25 09:46:40Z  ada on cli  sequence 41\n  \
             hub position 3: came out seized; bent\n"
        );
        let named = by("people/ada-lund", at(1_795_600_000));
        assert!(named.contains("  ada (ada-lund) on cli  "), "{named}");
        assert!(
            shown(at(1_795_590_000)).contains("2026-11-25 07:00:00Z, written 2026-11-25 09:46:40Z")
        );
    }
}
