//! Judging an order and drafting what is to be written: by the writer on the state it writes onto, or before that by the caller who
//! gives the order.
//!
//! The caller who gives an order drafts on their own thread, on what is committed just then, and the writer takes that draft when
//! nothing else was said meanwhile. Otherwise, and for everything that is refused, the writer judges again. So orders are
//! judged side by side and only written one after the other.

use crate::protocol::body;
use crate::protocol::error::CommitError;
use crate::protocol::request::{Order, Work};
use crate::protocol::state::State;
use clampbook_book::entry::{Entry, Moment, Said};
use clampbook_book::fact::Fact;
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::job::Job;
use clampbook_book::judge::{Asked, Context};
use clampbook_book::refusal::Refusal;
use clampbook_book::shop::Shop;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use uuid::Uuid;

/// How long a draft may wait for the writer, in microseconds: so much later the same would be said of it.
pub(crate) const FRESH: i64 = 1_000_000;

/// Judges a command on the states that its facts will be applied to. Pure: it may be asked more than once about an order.
pub type Decider = Box<dyn Fn(Asked<'_>, &Context<'_>) -> Result<Vec<Fact>, Refusal> + Send + Sync>;

/// Tells the server's time.
pub type Clock = Arc<dyn Fn() -> Moment + Send + Sync>;

/// What orders are judged with.
pub(crate) struct Judge {
    pub(crate) decider: Decider,
    pub(crate) clock: Clock,
}

/// What follows from an order, as long as what it is about and the shop are these.
#[derive(Debug)]
pub(crate) struct Draft<S> {
    pub(crate) on: Arc<S>,
    shop: EntryNumber,
    written: Moment,
    /// Name of the stream.
    pub(crate) stream: String,
    /// The entries with their bodies.
    pub(crate) entries: Vec<(Arc<Entry>, Arc<str>)>,
    /// What is so after them.
    pub(crate) next: Arc<S>,
}

impl<S: State> Draft<S> {
    /// Whether it can be written: nothing was said since, and it was made just now.
    pub(crate) fn holds(&self, on: &S, shop: &Shop, now: Moment) -> bool {
        self.heads() == (on.last(), shop.last)
            && (self.written.0..=self.written.0.saturating_add(FRESH)).contains(&now.0)
    }

    /// Numbers of the last entries it was judged on: of what it is about, and of the shop.
    pub(crate) fn heads(&self) -> (EntryNumber, EntryNumber) {
        (self.on.last(), self.shop)
    }

    /// The same, written no earlier than the entry before it; nothing when it is so already.
    pub(crate) fn not_before(&self, order: &Order, before: Moment) -> Option<Self> {
        if self.written >= before {
            return None;
        }
        let mut next = S::clone(&self.on);
        let again = |(entry, body): &(Arc<Entry>, Arc<str>)| {
            let mut entry = Entry::clone(entry);
            entry.said.written = before;
            entry.said.said = order.said.unwrap_or(before);
            next.apply(&entry);
            (Arc::new(entry), body.clone())
        };
        Some(Self {
            entries: self.entries.iter().map(again).collect(),
            on: self.on.clone(),
            shop: self.shop,
            written: before,
            stream: self.stream.clone(),
            next: Arc::new(next),
        })
    }
}

impl Judge {
    /// Judges an order on what is committed. Nothing when it is to be left to the writer.
    pub(crate) fn ahead(
        &self,
        order: &Order,
        committed: impl FnOnce(&JobId) -> Option<(Arc<Job>, Arc<Shop>)>,
    ) -> Option<Draft<Job>> {
        let Work::Job(id, command) = &order.work else {
            return None;
        };
        let (job, shop) = committed(id)?;
        let asked = Asked::OfJob(&job, command);
        let drafted = catch_unwind(AssertUnwindSafe(|| {
            self.draft(order, &job, asked, &shop, (self.clock)())
        }));
        drafted.ok()?.ok()
    }

    /// Judges an order on the state that is written onto.
    pub(crate) fn judge<S: State>(
        &self,
        order: &Order,
        on: &Arc<S>,
        asked: Asked<'_>,
        shop: &Arc<Shop>,
        now: Moment,
    ) -> Result<Draft<S>, CommitError> {
        let drafted = catch_unwind(AssertUnwindSafe(|| self.draft(order, on, asked, shop, now)));
        drafted.unwrap_or_else(|panic| {
            let incident = Uuid::new_v4();
            let said = panic
                .downcast_ref::<String>()
                .map(String::as_str)
                .or_else(|| panic.downcast_ref::<&str>().copied())
                .unwrap_or("no message");
            tracing::error!(%incident, stream = %order.work.stream(), request = %order.request, panic = said, "judging a request panicked");
            Err(CommitError::Panicked { incident })
        })
    }

    fn draft<S: State>(
        &self,
        order: &Order,
        on: &Arc<S>,
        asked: Asked<'_>,
        shop: &Arc<Shop>,
        written: Moment,
    ) -> Result<Draft<S>, CommitError> {
        let said = Said {
            by: shop.speaker(&order.caller),
            device: order.caller.device.clone(),
            said: order.said.unwrap_or(written),
            written,
        };
        let context = Context {
            by: said.by.clone(),
            said: said.said,
            now: written,
            shop,
        };
        let facts = (self.decider)(asked, &context).map_err(CommitError::Refused)?;
        let stream = order.work.stream();
        let name = stream.to_string();
        room_for(&name, on.last(), &said, facts.len())?;
        let mut next = S::clone(on);
        let mut entries = Vec::with_capacity(facts.len());
        for fact in facts {
            let body = body::encode(&fact).map_err(|detail| CommitError::Broken { detail })?;
            let entry = Entry {
                stream: stream.clone(),
                number: next.last() + 1,
                said: said.clone(),
                fact,
            };
            next.apply(&entry);
            entries.push((Arc::new(entry), body.into()));
        }
        Ok(Draft {
            on: on.clone(),
            shop: shop.last,
            written,
            stream: name,
            entries,
            next: Arc::new(next),
        })
    }
}

/// So many facts can be written of this caller, and numbered.
fn room_for(stream: &str, last: EntryNumber, said: &Said, facts: usize) -> Result<(), CommitError> {
    let broken = |detail| CommitError::Broken { detail };
    if said.by.name.is_empty() {
        return Err(broken("the caller has no name".into()));
    }
    let room = EntryNumber::MAX - last;
    if facts as u64 > u64::from(room) {
        return Err(broken(format!("{stream} is full")));
    }
    Ok(())
}
