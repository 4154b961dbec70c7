//! What must hold of photos, whatever happened: an entry and its content are there together or not at all.

use crate::ask::Ask;
use crate::check::reader;
use crate::ledger::Record;
use crate::picture::read_back;
use clampbook_api::v1::job_service_client::JobServiceClient;
use clampbook_api::v1::{Entry, GetJobRequest, Photo};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use tonic::transport::Channel;

/// Asserts that the file keeps the contents that entries name, each once, and no other.
pub(crate) fn assert_kept(data: &Path, entries: &[Entry]) {
    let conn = reader(data);
    let mut statement = conn
        .prepare("SELECT lower(hex(hash)) FROM blobs")
        .expect("contents are kept in the file");
    let rows = statement.query_map([], |row| row.get(0)).expect("rows");
    let mut kept: Vec<String> = rows.map(|hash| hash.expect("a hash")).collect();
    kept.sort();
    let named: BTreeSet<String> = photos(entries).map(hash_in).collect();
    let named: Vec<String> = named.into_iter().collect();
    assert_eq!(kept, named, "contents kept, and contents named");
}

/// Asserts that each photo is in the list of its job, once, and comes back as it was sent.
pub(crate) async fn assert_given_out(channel: &Channel, entries: &[Entry], records: &[Record]) {
    let mut jobs = JobServiceClient::new(channel.clone());
    let mut of_job: BTreeMap<&str, Vec<&Entry>> = BTreeMap::new();
    for entry in entries {
        let job = entry.name.split("/entries/").next().unwrap_or_default();
        of_job.entry(job).or_default();
        if is_photo(entry) {
            of_job.entry(job).or_default().push(entry);
        }
    }
    for (job, added) in of_job {
        let request = GetJobRequest { name: job.into() };
        let answer = jobs.get_job(request).await.expect("the job");
        let listed: Vec<Photo> = answer.into_inner().photos;
        let names = added.iter().map(|entry| &entry.name);
        assert!(
            listed.iter().map(|photo| &photo.entry).eq(names),
            "{listed:?}"
        );
        for (entry, listed) in added.into_iter().zip(listed) {
            let (photo, content) = read_back(&mut jobs, &entry.name)
                .await
                .unwrap_or_else(|status| panic!("{entry:?} has no content: {status:?}"));
            assert_eq!(photo, listed);
            let hash = blake3::hash(&content).to_hex();
            assert_eq!(photo.hash, hash.as_str(), "{entry:?}");
            let sent = records.iter().find_map(|record| match &record.ask {
                Ask::Photo(sent) if sent.request_id == entry.request_id => Some(sent),
                _ => None,
            });
            let sent = sent.expect("somebody asked for it");
            assert!(*content == *sent.content, "{sent:?} comes back changed");
        }
    }
}

fn photos(entries: &[Entry]) -> impl Iterator<Item = &Entry> {
    entries.iter().filter(|entry| is_photo(entry))
}

fn is_photo(entry: &Entry) -> bool {
    entry.kind == "photo-added"
}

fn hash_in(entry: &Entry) -> String {
    let body: Value = serde_json::from_str(&entry.body).expect("a body is JSON");
    body["hash"].as_str().expect("a photo has a hash").into()
}
