//! The last committed entries, shared by all who watch: what everybody wants at once is not read from the file by each.

use crate::protocol::entry::StoredEntry;
use clampbook_book::stream::Stream;
use std::collections::VecDeque;

/// Most bytes of entries: 8 MiB. Common practice: some ten thousand entries, minutes of the busiest shop.
const ROOM: usize = 8 << 20;

/// What an entry takes besides its text: its fact, and what points to it.
const BESIDE: usize = 1_024;

/// The last entries, without gaps, up to the end of the journal.
#[derive(Debug, Default)]
pub(crate) struct Tail {
    entries: VecDeque<StoredEntry>,
    bytes: usize,
}

impl Tail {
    /// Takes what was committed; the journal now reaches to `last`. What came in between and is not known here is not guessed:
    /// the tail begins again behind it.
    pub(crate) fn take(&mut self, committed: Vec<StoredEntry>, last: i64) {
        let reaches = self.entries.back().map(|entry| entry.seq);
        let follows = match committed.first() {
            Some(first) => reaches.is_none_or(|seq| seq + 1 == first.seq),
            None => reaches == Some(last),
        };
        if !follows {
            self.clear();
        }
        for entry in committed {
            self.bytes += size(&entry);
            self.entries.push_back(entry);
        }
        while self.bytes > ROOM
            && let Some(oldest) = self.entries.pop_front()
        {
            self.bytes -= size(&oldest);
        }
    }

    /// Forgets them all.
    pub(crate) fn clear(&mut self) {
        *self = Self::default();
    }

    /// Entries after a place in the file, of one stream or of all, oldest first; nothing when they begin before the tail does.
    pub(crate) fn after(
        &self,
        seq: i64,
        stream: Option<&Stream>,
        limit: usize,
    ) -> Option<Vec<StoredEntry>> {
        let first = self.entries.front()?.seq;
        let skipped = usize::try_from(seq.checked_add(1)?.checked_sub(first)?).ok()?;
        let rest = self.entries.range(skipped.min(self.entries.len())..);
        let wanted = rest.filter(|stored| stream.is_none_or(|of| stored.entry.stream == *of));
        Some(wanted.take(limit).cloned().collect())
    }
}

fn size(entry: &StoredEntry) -> usize {
    entry.body.len() * 2 + BESIDE
}

#[cfg(test)]
mod tests {
    use super::{BESIDE, ROOM, Tail};
    use crate::protocol::entry::StoredEntry;
    use clampbook_book::entry::{Entry, Moment, Said};
    use clampbook_book::fact::{Fact, JobOpened};
    use clampbook_book::ids::JobId;
    use clampbook_book::speaker::Speaker;
    use clampbook_book::stream::Stream;
    use std::sync::Arc;
    use uuid::Uuid;

    fn of(job: &str) -> Stream {
        Stream::Job(JobId::new(job).expect("a slug"))
    }

    fn entry(seq: i64, job: &str, body: usize) -> StoredEntry {
        let said = Said {
            by: Speaker::called("Ida".into()),
            device: String::new().into(),
            said: Moment(0),
            written: Moment(0),
        };
        let fact = Fact::JobOpened(JobOpened {
            display_name: "Tractor".into(),
            machine: String::new(),
            torque_unit: None,
        });
        let entry = Entry {
            stream: of(job),
            number: 1,
            said,
            fact,
        };
        StoredEntry {
            seq,
            entry: Arc::new(entry),
            request: Uuid::nil(),
            hash: [0; 32],
            body: "x".repeat(body).into(),
        }
    }

    fn after(tail: &Tail, seq: i64, stream: Option<&Stream>, limit: usize) -> Option<Vec<i64>> {
        let found = tail.after(seq, stream, limit)?;
        Some(found.into_iter().map(|stored| stored.seq).collect())
    }

    #[test]
    fn it_gives_what_came_after_a_place_and_says_when_it_begins_later() {
        let mut tail = Tail::default();
        assert_eq!(after(&tail, 7, None, 9), None, "it knows nothing yet");
        let committed = vec![entry(8, "hub", 1), entry(9, "axle", 1), entry(10, "hub", 1)];
        tail.take(committed, 10);
        assert_eq!(after(&tail, 6, None, 9), None, "7 lies before it");
        assert_eq!(after(&tail, 7, None, 9), Some(vec![8, 9, 10]));
        assert_eq!(after(&tail, 7, None, 2), Some(vec![8, 9]));
        assert_eq!(after(&tail, 8, Some(&of("hub")), 9), Some(vec![10]));
        assert_eq!(after(&tail, 7, Some(&of("lathe")), 9), Some(vec![]));
        assert_eq!(after(&tail, 10, None, 9), Some(vec![]));
        assert_eq!(after(&tail, i64::MAX, None, 9), None);
    }

    #[test]
    fn what_it_did_not_see_is_not_skipped() {
        let mut tail = Tail::default();
        tail.take(vec![entry(1, "hub", 1)], 1);
        // It is known by now that a commit went through whose entries nobody holds.
        tail.take(Vec::new(), 3);
        assert_eq!(after(&tail, 1, None, 9), None);
        tail.take(vec![entry(4, "hub", 1)], 4);
        assert_eq!(after(&tail, 3, None, 9), Some(vec![4]));
        tail.take(vec![entry(6, "hub", 1)], 6);
        assert_eq!(after(&tail, 4, None, 9), None, "5 is missing");
        tail.take(Vec::new(), 6);
        assert_eq!(after(&tail, 5, None, 9), Some(vec![6]), "nothing came");
    }

    #[test]
    fn it_keeps_no_more_than_it_has_room_for() {
        let mut tail = Tail::default();
        let large = ROOM / 8;
        for seq in 1..=9 {
            tail.take(vec![entry(seq, "hub", large)], seq);
        }
        assert!(tail.bytes <= ROOM, "{}", tail.bytes);
        let kept = after(&tail, 6, None, 99).expect("the last are there");
        assert_eq!(kept, [7, 8, 9]);
        assert_eq!(tail.bytes, tail.entries.len() * (large * 2 + BESIDE));
    }
}
