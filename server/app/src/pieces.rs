//! What became of pieces that did not go back.

use super::joint::joint_of;
use super::{Call, Change, Error, Recorded};
use clampbook_book::command::Command;
use clampbook_book::fact::NotRefitted;
use clampbook_book::rules::{self, Flag};

/// An account of pieces that was logged.
#[derive(Clone, Debug)]
pub struct LoggedPieces {
    /// What happened to the pieces.
    pub account: Recorded<NotRefitted>,
    /// Open flags on the assembly as a whole and on its other side.
    pub flags: Vec<Flag>,
    /// Etag of the position.
    pub etag: String,
}

impl Call<'_> {
    /// Logs what became of pieces that did not go back.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn log_not_refitted(
        &self,
        change: Change<NotRefitted>,
    ) -> Result<LoggedPieces, Error> {
        let written = self.write(change, Command::LogNotRefitted).await?;
        let account = written.only::<NotRefitted>()?;
        let joint = joint_of(&written.job, &account.fact.joint)?;
        let assembly = &joint.fact.assembly;
        Ok(LoggedPieces {
            flags: rules::flags_around(&written.job, assembly, &self.world().asked()),
            etag: account.etag(),
            account,
        })
    }
}
