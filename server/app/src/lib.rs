//! Use cases: one function per operation, between the adapters and what they are adapters for.
//!
//! Authorisation lives here and only here. Nothing here knows wire types, markup or SQL.

pub mod caller;
pub mod catalog;
pub mod chart;
pub mod effective;
pub mod error;
pub mod history;
pub mod identify;
pub mod job;
pub mod many;
pub mod operation;
mod ordering;
pub mod photo;
pub mod procedure;
pub mod published;
mod reason;
pub mod search;
pub mod sheet;
pub mod shop;
pub mod strength;
pub mod torque;
pub mod watch;
pub mod wrench;

use clampbook_book::entry::Moment;
use clampbook_engine::Catalogue;
use clampbook_store::Store;
use std::sync::Arc;
use tokio_util::sync::CancellationToken;

pub use caller::{Caller, Role};
pub use error::Error;
pub use operation::Operation;
pub use reason::Reason;

/// What every use case works with. Cheap to clone.
#[derive(Clone)]
pub struct App {
    store: Store,
    clock: clampbook_store::Clock,
    stopping: CancellationToken,
}

impl App {
    /// Puts the parts together. `stopping` ends the streams when the server stops.
    pub fn new(store: Store, clock: clampbook_store::Clock, stopping: CancellationToken) -> Self {
        Self {
            store,
            clock,
            stopping,
        }
    }

    /// The catalogue in force: the published tables and the shop's own rows, as the journal has them now.
    pub fn catalogue(&self) -> Arc<Catalogue> {
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
