//! Use cases: what can be asked of Clampbook, by whom, and what comes of it. Adapters and programs put it to use.
//!
//! A caller is let in once ([`App::call`]); what is asked then is a method of the [`Call`], one file a noun. It answers with
//! a typed outcome. Authorisation, time limit and panic guard live here and only here, as do cautions, tables that people
//! import, and rendering. Nothing here knows wire types, HTTP, markup or SQL.

pub mod assembled;
mod assembly;
mod call;
mod caller;
pub mod catalogue;
mod change;
mod chart;
mod correction;
mod decision;
mod effective;
mod entry;
pub mod error;
mod finding;
mod flag;
mod history;
pub mod identify;
mod job;
mod joint;
mod judged;
mod lubrication;
pub mod many;
mod mark;
pub mod names;
mod operation;
mod parts_to_order;
mod people;
mod photo;
mod pieces;
pub mod procedure;
pub mod published;
mod reason;
mod refit;
pub mod removal;
mod replacement;
pub mod search;
mod sheet;
pub mod specification;
mod strength;
mod table;
mod tightening;
mod torque;
mod validate;
mod words;
mod world;
pub mod wrench;

use clampbook_book::entry::Moment;
use clampbook_book::judge;
use clampbook_engine::Catalogue;
use std::path::Path;
use std::sync::Arc;
use tokio_util::sync::CancellationToken;

pub use assembly::AddedAssembly;
pub use call::{Call, LONGEST, contain};
pub use caller::{Caller, Role};
pub use change::{Change, Recorded, Sending, ShopChange};
pub use clampbook_book as book;
pub use clampbook_engine as engine;
pub use clampbook_journal::{
    Blob, Clock, Condition, Fingerprint, JobPage, JobSummary, JobsAfter, OpenError, Options,
    ReadError, Store, StoredEntry,
};
pub use clampbook_paper::chart::Chart;
pub use correction::CorrectedEntry;
pub use decision::LoggedDecision;
pub use entry::Watch;
pub use error::Error;
pub use finding::{LoggedAnswer, LoggedFinding};
pub use joint::JointOf;
use judged::Judged;
pub use judged::{JudgedAt, JudgedFlags};
pub use mark::LoggedMarks;
pub use operation::Operation;
pub use parts_to_order::{LoggedPartArrival, LoggedPartWanted};
pub use photo::KeptPhoto;
pub use pieces::LoggedPieces;
pub use reason::Reason;
pub use refit::LoggedRefit;
pub use replacement::CheckedReplacement;
pub use sheet::SheetForm;
pub use validate::Validator;

/// What every use case works with. Cheap to clone.
#[derive(Clone)]
pub struct App {
    store: Store,
    clock: Clock,
    judged: Arc<Judged>,
    stopping: CancellationToken,
}

impl App {
    /// Opens a journal, which is made if there is none, and puts the use cases on it.
    ///
    /// # Errors
    /// When the journal cannot be opened.
    pub fn open(journal: &Path, clock: Clock) -> Result<Self, OpenError> {
        Self::with(Self::options(journal, clock))
    }

    /// How a journal is opened, to be changed before [`App::with`].
    #[must_use]
    pub fn options(journal: &Path, clock: Clock) -> Options {
        Options::new(journal, Box::new(judge::judge), clock)
    }

    /// Opens a journal as the options say.
    ///
    /// # Errors
    /// When the journal cannot be opened.
    pub fn with(options: Options) -> Result<Self, OpenError> {
        let clock = Arc::clone(&options.clock);
        Ok(Self {
            store: Store::open(options)?,
            clock,
            judged: Arc::default(),
            stopping: CancellationToken::new(),
        })
    }

    /// The journal, to verify, rebuild or back it up.
    #[must_use]
    pub fn store(&self) -> &Store {
        &self.store
    }

    /// Ends what streams; who waits for it hears that the service stops.
    pub fn end_streams(&self) {
        self.stopping.cancel();
    }

    /// Comes when streams are to end.
    pub async fn stopped(&self) {
        self.stopping.cancelled().await;
    }

    /// Ends what streams and closes the journal, when what was ordered is written.
    pub async fn stop(self) {
        self.end_streams();
        self.store.stop().await;
    }

    /// The catalogue in force: the published tables and the shop's own rows, as the journal has them now.
    #[must_use]
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
