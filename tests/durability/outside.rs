//! What is known of a journal outside of it, over all its rounds, and how it is looked through after a blow.

use crate::ask::Ask;
use crate::check::{Found, all_entries, assert_sound, examine};
use crate::contents::{assert_given_out, assert_kept};
use crate::crew::Crew;
use crate::dice::Dice;
use crate::ledger::{Ledger, Record};
use crate::server::{Server, verify};
use clampbook_api::v1::Entry;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;
use tokio::task::JoinSet;
use tonic::transport::Channel;

/// A journal and all that was ever said to it.
#[derive(Debug)]
pub(crate) struct Outside {
    folder: TempDir,
    pub(crate) dice: Dice,
    /// Entries as they were when the last round was over.
    pub(crate) history: Vec<Entry>,
    /// All requests of the rounds that are over, with their answers.
    told: Vec<Record>,
}

impl Outside {
    pub(crate) fn new(dice: Dice) -> Self {
        Self {
            folder: tempfile::tempdir().expect("a temporary folder"),
            dice,
            history: Vec::new(),
            told: Vec::new(),
        }
    }

    /// The journal.
    pub(crate) fn data(&self) -> PathBuf {
        self.beside("shop.clampbook")
    }

    /// Its write-ahead log.
    pub(crate) fn log_path(&self) -> PathBuf {
        self.beside("shop.clampbook-wal")
    }

    /// What is in its write-ahead log.
    pub(crate) fn log(&self) -> Vec<u8> {
        fs::read(self.log_path()).expect("the log can be read")
    }

    /// The file and its log in another place, and what is known of them but for requests.
    pub(crate) fn copy(&mut self) -> Self {
        let copy = Self::new(self.dice.fork());
        for (from, to) in [
            (self.data(), copy.data()),
            (self.log_path(), copy.log_path()),
        ] {
            fs::copy(from, to).expect("it can be copied");
        }
        Self {
            history: self.history.clone(),
            ..copy
        }
    }

    /// A file or folder beside it.
    pub(crate) fn beside(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Looks the journal through after its server ended, and says everything of the round again.
    pub(crate) async fn look_through(&mut self, ledger: &Ledger) -> Found {
        let data = self.data();
        if self.dice.coin() {
            // Somebody may verify it before a server has repaired it.
            assert_verified(&data, None);
        }
        let server = Server::start(&data);
        let found = self.look_through_at(&server, ledger).await;
        if self.dice.coin() {
            server.terminate();
            server.ended().await;
        } else {
            server.kill();
        }
        found
    }

    /// The same at a server that runs.
    pub(crate) async fn look_through_at(&mut self, server: &Server, ledger: &Ledger) -> Found {
        let channel = server.connect();
        let mut records = ledger.records();
        let (_, found) = self.examine(&channel, &records).await;

        records = say_again(&channel, records).await;
        let (entries, left) = self.examine(&channel, &records).await;
        assert_eq!(left, Found::default(), "now everything is acknowledged");
        assert_given_out(&channel, &entries[self.history.len()..], &records).await;

        assert_verified(&self.data(), Some(entries.len()));
        assert_sound(&self.data());
        self.history = entries;
        self.told.append(&mut records);
        found
    }

    /// Reads everything, and compares it with what is known and with what was asked since.
    pub(crate) async fn examine(
        &self,
        channel: &Channel,
        records: &[Record],
    ) -> (Vec<Entry>, Found) {
        let entries = all_entries(channel).await;
        let found = examine(&entries, &self.history, records);
        assert_kept(&self.data(), &entries);
        (entries, found)
    }

    /// Goes on with a fresh round after what is left of the journal.
    pub(crate) async fn goes_on_from(&mut self, left: Vec<Entry>) {
        assert_verified(&self.data(), Some(left.len()));
        self.history = left;
        let server = Server::start(&self.data());
        let crew = Crew::begin(&server, usize::MAX, &mut self.dice).await;
        let ledger = crew.ends().await;
        let found = self.look_through_at(&server, &ledger).await;
        assert_eq!(found.absent, 0, "writing goes on");
        server.kill();
    }

    /// Says everything of all rounds again: nothing may come of it but the first answers.
    pub(crate) async fn say_everything_again(self) {
        let server = Server::start(&self.data());
        let channel = server.connect();
        say_again(&channel, self.told).await;
        let entries = all_entries(&channel).await;
        assert_eq!(entries, self.history, "nothing was written");
        server.kill();
    }
}

/// Says everything again, each lane in its order and all lanes at once.
async fn say_again(channel: &Channel, records: Vec<Record>) -> Vec<Record> {
    let mut lanes: BTreeMap<usize, Vec<(usize, Record)>> = BTreeMap::new();
    for (place, record) in records.into_iter().enumerate() {
        lanes.entry(record.lane).or_default().push((place, record));
    }
    let mut saying = JoinSet::new();
    for mut lane in lanes.into_values() {
        let channel = channel.clone();
        saying.spawn(async move {
            for (_, record) in &mut lane {
                say_one_again(&channel, record).await;
            }
            lane
        });
    }
    let mut said: Vec<_> = saying.join_all().await.into_iter().flatten().collect();
    said.sort_by_key(|(place, _)| *place);
    said.into_iter().map(|(_, record)| record).collect()
}

/// What was acknowledged must be answered the same; what was not is acknowledged now, and from then on the same.
async fn say_one_again(channel: &Channel, record: &mut Record) {
    let ask = &mut record.ask;
    let answer = match ask.insist(channel).await {
        Ok(answer) => answer,
        Err(status) => panic!("{ask:?} is refused when it is sent again: {status:?}"),
    };
    match &record.answer {
        Some(first) => assert_eq!(answer, *first, "another answer to {ask:?}"),
        None => {
            let again = ask.send(channel).await.expect("a third time");
            assert_eq!(again, answer, "another answer to {ask:?}");
            if let Ask::Photo(photo) = ask {
                photo.assert_only_this_content(channel).await;
            }
            record.answer = Some(answer);
        }
    }
}

fn assert_verified(data: &Path, count: Option<usize>) {
    let said = verify(data).expect("the journal is whole");
    if let Some(count) = count {
        let expected = format!("{count} entries, chain whole\nhead {count}:");
        assert!(said.starts_with(&expected), "{said}");
    }
}
