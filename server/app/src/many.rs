//! Asking many questions in one breath.

use super::error::unless_wrong;
use super::{App, Caller, Error, Operation};
use clampbook_book::refusal::Violation;
use clampbook_engine::{Answer, Ask, Catalogue};

/// Most questions of one chunk.
pub const CHUNK: usize = 256;

impl App {
    /// Whether the caller may ask many at once; asked once for a whole stream.
    ///
    /// # Errors
    /// Not allowed.
    pub fn may_ask_many(&self, caller: &Caller) -> Result<(), Error> {
        caller.may(Operation::ComputeTorques)
    }

    /// Answers one question of a chunk, which has one catalogue. `found` is what the adapter found wrong already.
    ///
    /// # Errors
    /// All faults of the question as violations, or the refused purpose.
    pub fn one_of_many<'c>(
        catalogue: &'c Catalogue,
        ask: &Ask<'_>,
        found: Vec<Violation>,
    ) -> Result<Answer<'c>, Error> {
        let question = unless_wrong(catalogue.resolve(ask), "", found)?;
        Ok(clampbook_engine::compute(&question))
    }

    /// Comes when the server stops: streams end then.
    pub async fn stopped(&self) {
        self.stopping.cancelled().await;
    }
}
