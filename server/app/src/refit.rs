//! Refits.

use super::joint::joint_of;
use super::{Call, Change, Error, Recorded};
use clampbook_book::command::Command;
use clampbook_book::fact::Refitted;
use clampbook_book::rules::{self, Flag};

/// A refit that was logged.
#[derive(Clone, Debug)]
pub struct LoggedRefit {
    /// The refit.
    pub refit: Recorded<Refitted>,
    /// Open flags of its position, of its joint, and those that follow from the whole job there.
    pub flags: Vec<Flag>,
    /// Etag of the position.
    pub etag: String,
}

impl Call<'_> {
    /// Logs a refit.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn log_refit(&self, change: Change<Refitted>) -> Result<LoggedRefit, Error> {
        let written = self.write(change, Command::LogRefit).await?;
        let refit = written.only::<Refitted>()?;
        let joint = joint_of(&written.job, &refit.fact.joint)?;
        let position = [refit.fact.position];
        Ok(LoggedRefit {
            flags: rules::flags_at(&written.job, joint, &position, &self.world().asked()),
            etag: refit.etag(),
            refit,
        })
    }
}
