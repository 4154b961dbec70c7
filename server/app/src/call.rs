//! What every call passes through, once: may the caller do this, how long may it take, and a panic stays inside it.

use super::{App, Caller, Error, Operation};
use clampbook_book::shop::Shop;
use clampbook_engine::Catalogue;
use futures_util::FutureExt;
use std::any::Any;
use std::future::Future;
use std::panic::AssertUnwindSafe;
use std::sync::Arc;
use std::time::Duration;

/// Longest a call may take, whatever its caller allows.
pub const LONGEST: Duration = Duration::from_secs(30);

/// A call that was let in. The use cases are its methods, so none can be had without asking who calls.
pub struct Call<'a> {
    pub(crate) app: &'a App,
    pub(crate) caller: Caller,
    pub(crate) operation: Operation,
}

impl App {
    /// Lets a caller in who may do this. What is wrong with a request is looked at afterwards: nobody else learns of it.
    ///
    /// # Errors
    /// Not allowed.
    pub fn let_in(&self, caller: Caller, operation: Operation) -> Result<Call<'_>, Error> {
        caller.may(operation)?;
        Ok(Call {
            app: self,
            caller,
            operation,
        })
    }

    /// Lets a caller in and runs what waits for something: the journal, or a thread that may block.
    ///
    /// # Errors
    /// Not allowed, out of time, broken, and what `run` says.
    pub async fn call<'a, A, F>(
        &'a self,
        caller: Caller,
        operation: Operation,
        limit: Duration,
        run: impl FnOnce(Call<'a>) -> F,
    ) -> Result<A, Error>
    where
        F: Future<Output = Result<A, Error>>,
    {
        self.let_in(caller, operation)?.within(limit, run).await
    }

    /// Lets a caller in and runs what only calculates: it is done in microseconds, and a timer would cost more than that.
    ///
    /// # Errors
    /// Not allowed, broken, and what `run` says.
    pub fn calculate<'a, A>(
        &'a self,
        caller: Caller,
        operation: Operation,
        run: impl FnOnce(Call<'a>) -> Result<A, Error>,
    ) -> Result<A, Error> {
        let call = self.let_in(caller, operation)?;
        contain(|| run(call))
    }
}

impl<'a> Call<'a> {
    /// Runs what waits for something, for no longer than `limit` and never longer than [`LONGEST`].
    ///
    /// # Errors
    /// Out of time, broken, and what `run` says.
    pub async fn within<A, F>(
        self,
        limit: Duration,
        run: impl FnOnce(Self) -> F,
    ) -> Result<A, Error>
    where
        F: Future<Output = Result<A, Error>>,
    {
        let operation = self.operation;
        let work = AssertUnwindSafe(run(self)).catch_unwind();
        match tokio::time::timeout(std::cmp::min(limit, LONGEST), work).await {
            Ok(Ok(outcome)) => outcome,
            Ok(Err(panic)) => Err(Error::broken(&text(panic.as_ref()))),
            Err(_) => Err(Error::deadline_passed(operation)),
        }
    }

    /// What the call was let in for.
    #[must_use]
    pub fn operation(&self) -> Operation {
        self.operation
    }

    /// What the shop keeps, as it stands.
    #[must_use]
    pub fn shop(&self) -> Arc<Shop> {
        self.app.store.shop()
    }

    /// The catalogue in force: the published tables and the shop's own rows, as the journal has them now.
    #[must_use]
    pub fn catalogue(&self) -> Arc<Catalogue> {
        self.app.catalogue()
    }
}

/// Keeps a panic inside what is being done.
///
/// # Errors
/// Broken, and what `run` says.
pub fn contain<A>(run: impl FnOnce() -> Result<A, Error>) -> Result<A, Error> {
    std::panic::catch_unwind(AssertUnwindSafe(run))
        .unwrap_or_else(|panic| Err(Error::broken(&text(panic.as_ref()))))
}

fn text(panic: &(dyn Any + Send)) -> String {
    let text = panic
        .downcast_ref::<&str>()
        .map(|s| (*s).to_owned())
        .or_else(|| panic.downcast_ref::<String>().cloned());
    format!(
        "panic: {}",
        text.unwrap_or_else(|| "of no known kind".into())
    )
}
