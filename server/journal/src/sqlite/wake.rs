//! Who waits for more is woken by what concerns it: of one stream by entries of that stream, of all by every commit.

use crate::protocol::entry::StoredEntry;
use clampbook_book::stream::Stream;
use std::collections::HashMap;
use std::sync::{Mutex, MutexGuard, PoisonError};
use tokio::sync::watch;

/// The last place in the file, for those who wait for it to grow.
#[derive(Debug)]
pub(crate) struct Wakes {
    all: watch::Sender<i64>,
    streams: Mutex<HashMap<Stream, watch::Sender<i64>>>,
}

impl Wakes {
    pub(crate) fn new(last_seq: i64) -> Self {
        Self {
            all: watch::Sender::new(last_seq),
            streams: Mutex::default(),
        }
    }

    /// The last place in the file, as it grows by entries of a stream, or by any.
    pub(crate) fn wait(&self, stream: Option<&Stream>) -> watch::Receiver<i64> {
        let Some(stream) = stream else {
            return self.all.subscribe();
        };
        let mut streams = self.lock();
        let last_seq = *self.all.borrow();
        let new = || watch::Sender::new(last_seq);
        let sender = streams.entry(stream.clone()).or_insert_with(new);
        sender.subscribe()
    }

    /// Wakes those whom these entries concern; everybody when it is not known what came.
    pub(crate) fn wake(&self, committed: &[StoredEntry], last_seq: i64) {
        self.all.send_replace(last_seq);
        let concerns = |stream: &Stream| {
            committed.is_empty()
                || committed
                    .iter()
                    .any(|stored| stored.entry.stream == *stream)
        };
        self.lock().retain(|stream, sender| {
            let is_awaited = sender.receiver_count() > 0;
            if is_awaited && concerns(stream) {
                sender.send_replace(last_seq);
            }
            is_awaited
        });
    }

    fn lock(&self) -> MutexGuard<'_, HashMap<Stream, watch::Sender<i64>>> {
        self.streams.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
