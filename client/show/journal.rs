//! Entries of the journal, and times.

use clampbook_api::v1::{Entry, HistoryItem, ListEntriesResponse, ListPositionHistoryResponse};
use prost_types::Timestamp;
use serde_json::Value;

use super::text::{strong, wrap};
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
    list.items.iter().map(item).collect()
}

fn item(item: &HistoryItem) -> String {
    let told = item.entry.as_ref().map(entry).unwrap_or_default();
    let corrected = name::id(&item.corrects);
    match (corrected, item.withdraws) {
        ("", _) => told,
        (number, true) => format!("{told}  WITHDRAWS entry {number}\n"),
        (number, false) => format!("{told}  CORRECTS entry {number}\n"),
    }
}

/// One entry: its number, when, who, its place in the whole journal, and the fact.
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
        said.person,
        said.device,
        entry.sequence
    );
    head + &wrap("  ", 2, &fact(&entry.body))
}

/// The fact as a list of what it says; as it is stored where it is no such list.
fn fact(body: &str) -> String {
    let Ok(Value::Object(said)) = serde_json::from_str(body) else {
        return body.to_owned();
    };
    let said = said
        .iter()
        .filter(|(key, _)| !["v", "kind"].contains(&key.as_str()))
        .map(|(key, value)| match value {
            Value::String(text) => format!("{key}: {text}"),
            other => format!("{key}: {other}"),
        });
    said.collect::<Vec<_>>().join("; ")
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
            body: r#"{"v":1,"kind":"removed","joint":"hub","position":3,"ticks":["bent"]}"#
                .to_owned(),
            sequence: 41,
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
            "jobs/oak/entries/7  removed  2026-11-25 09:46:40Z  ada on cli  sequence 41\n  \
             joint: hub; position: 3; ticks: [\"bent\"]\n"
        );
        assert!(
            shown(at(1_795_590_000)).contains("2026-11-25 07:00:00Z, written 2026-11-25 09:46:40Z")
        );
    }

    #[test]
    fn a_fact_that_is_no_list_is_shown_as_stored() {
        for body in ["", "not JSON", "[1]"] {
            assert_eq!(fact(body), body);
        }
    }
}
