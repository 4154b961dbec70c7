//! Use cases: one function per operation, between the adapters and what they are adapters for.
//!
//! Authorisation lives here and only here. Nothing here knows wire types, markup or SQL.

pub(crate) mod caller;
pub(crate) mod catalog;
pub(crate) mod chart;
pub(crate) mod effective;
pub(crate) mod error;
pub(crate) mod history;
pub(crate) mod identify;
pub(crate) mod job;
pub(crate) mod many;
pub(crate) mod operation;
mod ordering;
pub(crate) mod photo;
pub(crate) mod procedure;
pub(crate) mod published;
pub(crate) mod search;
pub(crate) mod sheet;
pub(crate) mod shop;
pub(crate) mod strength;
pub(crate) mod torque;
pub(crate) mod watch;
mod world;
pub(crate) mod wrench;

use clampbook_book::entry::Moment;
use clampbook_engine::Catalogue;
use clampbook_store::Store;
use std::sync::Arc;
use tokio_util::sync::CancellationToken;

pub(crate) use caller::{Caller, Role};
pub(crate) use error::Error;
pub(crate) use operation::Operation;

/// What every use case works with. Cheap to clone.
#[derive(Clone)]
pub(crate) struct App {
    store: Store,
    clock: clampbook_store::Clock,
    stopping: CancellationToken,
}

impl App {
    /// Puts the parts together. `stopping` ends the streams when the server stops.
    pub(crate) fn new(
        store: Store,
        clock: clampbook_store::Clock,
        stopping: CancellationToken,
    ) -> Self {
        Self {
            store,
            clock,
            stopping,
        }
    }

    /// The catalogue in force: the published tables and the shop's own rows, as the journal has them now.
    pub(crate) fn catalogue(&self) -> Arc<Catalogue> {
        Arc::clone(self.store.shop().catalogue())
    }

    fn now(&self) -> Moment {
        (self.clock)()
    }
}

/// Runs something long and synchronous away from the async threads.
async fn blocking<T: Send + 'static>(
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, Error> {
    tokio::task::spawn_blocking(work)
        .await
        .map_err(|gone| Error::broken(&gone))
}
