//! Judging an order, so that what follows from it can be stored: by the writer on the state it writes onto, or before that
//! by whoever gives the order.
//!
//! The second is a **draft**. It is made on the giver's thread on what is committed just then, and the writer takes it as it
//! is when nothing else was said meanwhile. Otherwise, and for everything that is refused, the writer judges anew. So orders
//! are judged side by side and only written one after the other.

use crate::barrier::{Barrier, BarrierPoint};
use crate::body;
use crate::cache::Shared;
use crate::error::CommitError;
use crate::open::{Clock, Decider};
use crate::request::{Order, Work};
use clampbook_book::decide::{Asked, Context};
use clampbook_book::entry::Moment;
use clampbook_book::fact::Fact;
use clampbook_book::job::Job;
use clampbook_book::shop::Shop;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use uuid::Uuid;

/// Facts with their bodies.
pub(crate) type Storable = Vec<(Fact, String)>;

/// What orders are judged with.
pub(crate) struct Judge {
    pub(crate) decider: Decider,
    pub(crate) clock: Clock,
    pub(crate) barrier: Option<Barrier>,
}

/// What follows from an order about a job, as long as job and shop are these.
#[derive(Debug)]
pub(crate) struct Draft {
    job: Arc<Job>,
    shop: Arc<Shop>,
    facts: Storable,
}

impl Draft {
    /// The facts, if nothing was said since.
    pub(crate) fn on(self, job: &Arc<Job>, shop: &Arc<Shop>) -> Option<Storable> {
        (Arc::ptr_eq(&self.job, job) && Arc::ptr_eq(&self.shop, shop)).then_some(self.facts)
    }
}

impl Judge {
    pub(crate) fn pass(&self, point: BarrierPoint) {
        if let Some(barrier) = &self.barrier {
            barrier.pass(point);
        }
    }

    /// The moment an order is said at, when it is written at this one.
    pub(crate) fn said(order: &Order, written: Moment) -> Moment {
        order.said.unwrap_or(written)
    }

    /// Judges an order on what is committed. Nothing when it is to be left to the writer.
    pub(crate) fn draft(&self, order: &Order, shared: &Shared) -> Option<Draft> {
        let Work::Job(id, command) = &order.work else {
            return None;
        };
        let (job, shop) = (shared.get(id)?.state, shared.shop());
        let judged = catch_unwind(AssertUnwindSafe(|| {
            let now = (self.clock)();
            let context = Context {
                now,
                said: Self::said(order, now),
                shop: &shop,
            };
            storable((self.decider)(Asked::OfJob(&job, command), &context).ok()?).ok()
        }));
        let facts = judged.ok().flatten()?;
        Some(Draft { job, shop, facts })
    }

    /// Judges an order on the state that its facts will be applied to.
    pub(crate) fn judge(
        &self,
        order: &Order,
        asked: Asked<'_>,
        context: &Context<'_>,
    ) -> Result<Storable, CommitError> {
        let decided = catch_unwind(AssertUnwindSafe(|| (self.decider)(asked, context)));
        match decided {
            Ok(Ok(facts)) => storable(facts),
            Ok(Err(refusal)) => Err(CommitError::Refused(refusal)),
            Err(panic) => {
                let incident = Uuid::new_v4();
                let said = panic
                    .downcast_ref::<String>()
                    .map(String::as_str)
                    .or_else(|| panic.downcast_ref::<&str>().copied())
                    .unwrap_or("no message");
                tracing::error!(%incident, stream = %order.work.stream(), request = %order.request, panic = said, "judging a request panicked");
                Err(CommitError::Panicked { incident })
            }
        }
    }
}

/// The facts with their bodies, if all of them can be stored so that they are read the same for ever.
fn storable(facts: Vec<Fact>) -> Result<Storable, CommitError> {
    facts
        .into_iter()
        .map(|fact| match body::encode(&fact) {
            Ok(body) => Ok((fact, body)),
            Err(detail) => Err(CommitError::Broken { detail }),
        })
        .collect()
}
