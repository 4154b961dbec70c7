//! Flags, and the rules that raise them.

use super::{Call, Error, blocking, names};
use clampbook_book::ids::JobId;
use clampbook_book::rules::{self, Flag, Rule};

impl Call<'_> {
    /// Open flags of a whole job.
    ///
    /// # Errors
    /// Not found.
    pub async fn flags(&self, id: &JobId) -> Result<Vec<Flag>, Error> {
        let job = self.find(id).await?;
        let world = self.world();
        blocking(move || rules::flags(&job, &world.asked())).await
    }

    /// The rules that raise flags.
    #[must_use]
    pub fn rules(&self) -> &'static [&'static Rule] {
        rules::ALL
    }

    /// One rule.
    ///
    /// # Errors
    /// Not found.
    pub fn rule(&self, id: &str) -> Result<&'static Rule, Error> {
        rules::rule(id).ok_or_else(|| Error::not_found(names::rule(id)))
    }
}
