//! Entries of the journal, and times.

use clampbook_api::v1::{Entry, ListEntriesResponse};
use prost_types::Timestamp;

use super::text::{strong, wrap};

/// All entries of a job.
pub(crate) fn entries(list: &ListEntriesResponse) -> String {
    list.entries.iter().map(entry).collect()
}

/// One entry: its number, when, who, and the fact as it is stored.
pub(crate) fn entry(entry: &Entry) -> String {
    let said = entry.said.clone().unwrap_or_default();
    let late = match (said.said_time, said.write_time) {
        (Some(said), Some(written)) if said.seconds < written.seconds => {
            format!(", written {}", time(Some(written)))
        }
        _ => String::new(),
    };
    let head = format!(
        "{}  {}{late}  {} on {}  {}\n",
        strong(&entry.name),
        time(said.said_time.or(said.write_time)),
        said.person,
        said.device,
        strong(&entry.kind)
    );
    head + &wrap("  ", 2, &entry.body)
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
    use clampbook_api::v1::Said;

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
        let entry_said = |said_time| Entry {
            name: "jobs/oak/entries/7".to_owned(),
            kind: "removed".to_owned(),
            body: "{}".to_owned(),
            said: Some(Said {
                person: "ada".to_owned(),
                device: "cli".to_owned(),
                said_time,
                write_time: at(1_795_600_000),
            }),
            ..Default::default()
        };
        let shown = |said_time| finish(&entry(&entry_said(said_time)), Look::default());
        assert_eq!(
            shown(at(1_795_600_000)),
            "jobs/oak/entries/7  2026-11-25 09:46:40Z  ada on cli  removed\n  {}\n"
        );
        assert!(
            shown(at(1_795_590_000)).contains("2026-11-25 07:00:00Z, written 2026-11-25 09:46:40Z")
        );
    }
}
