//! What must hold of a journal, whatever happened to the process that wrote it.

use crate::ledger::Record;
use clampbook_api::v1 as wire;
use clampbook_api::v1::job_service_client::JobServiceClient;
use rusqlite::{Connection, OpenFlags};
use serde_json::Value;
use std::collections::HashMap;
use std::path::Path;
use tonic::transport::Channel;
use wire::Entry;

/// What became of requests that were not acknowledged.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Found {
    /// Written, whole.
    pub(crate) present: usize,
    /// Not written.
    pub(crate) absent: usize,
}

/// All entries of the shop and of all jobs, in the order of the journal, read through the API.
pub(crate) async fn all_entries(channel: &Channel) -> Vec<Entry> {
    let mut entries = entries_of(channel, "shop").await;
    for job in all_jobs(channel).await {
        entries.extend(entries_of(channel, &job).await);
    }
    entries.sort_by_key(|entry| entry.sequence);
    entries
}

async fn all_jobs(channel: &Channel) -> Vec<String> {
    let mut names = Vec::new();
    let mut page_token = String::new();
    loop {
        let request = wire::ListJobsRequest {
            page_size: 200,
            page_token,
        };
        let mut client = JobServiceClient::new(channel.clone());
        let answer = client.list_jobs(request).await;
        let answer = answer.expect("jobs are listed").into_inner();
        names.extend(answer.jobs.into_iter().map(|job| job.name));
        if answer.next_page_token.is_empty() {
            return names;
        }
        page_token = answer.next_page_token;
    }
}

/// Entries of a job or of the shop; their numbers must be without gaps and their sequences grow.
pub(crate) async fn entries_of(channel: &Channel, stream: &str) -> Vec<Entry> {
    let mut entries: Vec<Entry> = Vec::new();
    let mut page_token = String::new();
    loop {
        let request = wire::ListEntriesRequest {
            parent: stream.into(),
            page_size: 1_000,
            page_token,
        };
        let mut client = JobServiceClient::new(channel.clone());
        let answer = client.list_entries(request).await;
        let answer = answer.expect("entries are listed").into_inner();
        entries.extend(answer.entries);
        if answer.next_page_token.is_empty() {
            break;
        }
        page_token = answer.next_page_token;
    }
    for (i, entry) in entries.iter().enumerate() {
        assert_eq!(entry.name, format!("{stream}/entries/{}", i + 1));
    }
    let grow = entries.is_sorted_by(|a, b| a.sequence < b.sequence);
    assert!(grow, "{stream}: sequences do not grow");
    entries
}

/// Compares all entries with those seen earlier and with the ledger of what was asked since.
pub(crate) fn examine(entries: &[Entry], earlier: &[Entry], records: &[Record]) -> Found {
    for (i, entry) in entries.iter().enumerate() {
        assert_eq!(usize::try_from(entry.sequence), Ok(i + 1), "{}", entry.name);
    }
    let Some((before, since)) = entries.split_at_checked(earlier.len()) else {
        panic!("{} entries are left of {}", entries.len(), earlier.len());
    };
    for (now, then) in before.iter().zip(earlier) {
        assert_eq!(now, then, "the past has changed");
    }
    let mut written = by_request(since);
    let mut last_of_lane = HashMap::new();
    let mut found = Found::default();
    for record in records {
        let Some(own) = written.remove(record.ask.id()) else {
            assert_eq!(record.answer, None, "{:?} is lost", record.ask);
            found.absent += 1;
            continue;
        };
        let half = record.answer.is_none() && !record.whole;
        assert!(
            !half,
            "{:?} is kept, though half of it was sent",
            record.ask
        );
        found.present += usize::from(record.answer.is_none());
        assert_whole(record, own);
        let last = last_of_lane.insert(record.lane, own[0].sequence);
        let in_order = last.is_none_or(|last| last < own[0].sequence);
        assert!(
            in_order,
            "{:?} stands before what was said before it",
            record.ask
        );
    }
    assert!(written.is_empty(), "nobody asked for {written:?}");
    found
}

/// Entries by their request. Those of one request stand together, so that a second writing of it would show.
fn by_request(entries: &[Entry]) -> HashMap<&str, &[Entry]> {
    let mut groups = HashMap::new();
    for group in entries.chunk_by(|a, b| a.request_id == b.request_id) {
        let again = groups.insert(group[0].request_id.as_str(), group);
        assert_eq!(again, None, "{} is there twice", group[0].request_id);
    }
    groups
}

fn assert_whole(record: &Record, entries: &[Entry]) {
    let bodies: Vec<Value> = entries
        .iter()
        .map(|entry| serde_json::from_str(&entry.body).expect("a body is JSON"))
        .collect();
    assert_eq!(bodies, record.ask.bodies(), "of {:?}", record.ask);
    if let Some(answer) = &record.answer
        && !answer.entries.is_empty()
    {
        let names: Vec<&str> = entries.iter().map(|entry| entry.name.as_str()).collect();
        assert_eq!(names, answer.entries, "of {:?}", record.ask);
    }
}

/// Asserts that the file is sound as a database.
pub(crate) fn assert_sound(data: &Path) {
    let conn = reader(data);
    let integrity: String = conn
        .query_row("PRAGMA integrity_check", [], |row| row.get(0))
        .expect("integrity is checked");
    assert_eq!(integrity, "ok");
    let dangling = conn
        .prepare("PRAGMA foreign_key_check")
        .and_then(|mut check| check.exists([]))
        .expect("references are checked");
    assert!(!dangling, "references lead nowhere");
}

/// Opens the file beside its server.
pub(crate) fn reader(data: &Path) -> Connection {
    Connection::open_with_flags(data, OpenFlags::SQLITE_OPEN_READ_ONLY).expect("the journal opens")
}
