//! Flags, and the rules that raise them.

use super::judged::{JudgedAt, JudgedFlags};
use super::{Call, Error, blocking, names};
use clampbook_book::ids::JobId;
use clampbook_book::rules::{self, Rule};
use std::sync::Arc;

impl Call<'_> {
    /// Open flags of a whole job: as it stands, or as it was judged for an earlier page.
    ///
    /// # Errors
    /// Not found; stale when the earlier judgement is not kept any more.
    pub async fn flags(&self, id: &JobId, at: Option<JudgedAt>) -> Result<JudgedFlags, Error> {
        let job = self.find(id).await?;
        let world = self.world();
        let now = JudgedAt::of(&job, &world.shop);
        let at = at.unwrap_or(now);
        if let Some(kept) = self.app.judged.get(id, at) {
            return Ok(kept);
        }
        if at != now {
            return Err(Error::moved_on(names::job(id)));
        }
        let flags = Arc::new(blocking(move || rules::flags(&job, &world.asked())).await?);
        let judged = JudgedFlags { at, flags };
        self.app.judged.keep(id, &judged);
        Ok(judged)
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
