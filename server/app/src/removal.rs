//! Removals: one, several that went alike, a whole strip-down from a table.

mod cells;
mod table;

use super::joint::joint_of;
use super::{Call, Change, Error, Recorded};
use clampbook_book::command::{AlikeRemovals, Command, ImportedRemoval};
use clampbook_book::fact::Removed;
use clampbook_book::rules::{self, Flag};
use std::sync::Arc;
pub use table::read as read_table;

/// A removal that was logged.
#[derive(Clone, Debug)]
pub struct LoggedRemoval {
    /// The removal.
    pub removal: Recorded<Removed>,
    /// Open flags of its position and of its whole joint.
    pub flags: Vec<Flag>,
    /// Etag of the position.
    pub etag: String,
}

/// Removals that went alike.
#[derive(Clone, Debug)]
pub struct LoggedAlikeRemovals {
    /// The removals.
    pub removals: Vec<Recorded<Removed>>,
    /// Open flags of their joint.
    pub flags: Vec<Flag>,
}

/// A strip-down that was imported, or looked at.
#[derive(Clone, Debug)]
pub struct ImportedRemovals {
    /// How many removals it holds.
    pub count: usize,
    /// Open flags of the job; none if it was only looked at.
    pub flags: Arc<Vec<Flag>>,
}

impl Call<'_> {
    /// Logs a removal.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn log_removal(&self, change: Change<Removed>) -> Result<LoggedRemoval, Error> {
        let written = self.write(change, Command::LogRemoval).await?;
        let removal = written.only::<Removed>()?;
        let joint = joint_of(&written.job, &removal.fact.joint)?;
        Ok(LoggedRemoval {
            flags: rules::position_flags(
                joint,
                removal.fact.position,
                &self.world().asked(),
                written.job.torque_unit(),
            ),
            etag: removal.etag(),
            removal,
        })
    }

    /// Logs several removals that went alike.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn log_alike_removals(
        &self,
        change: Change<AlikeRemovals>,
    ) -> Result<LoggedAlikeRemovals, Error> {
        let written = self.write(change, Command::LogAlikeRemovals).await?;
        let removals = written.all::<Removed>()?;
        let flags = match removals.last() {
            Some(last) => {
                let joint = joint_of(&written.job, &last.fact.joint)?;
                rules::joint_flags(joint, &self.world().asked(), written.job.torque_unit())
            }
            None => Vec::new(),
        };
        Ok(LoggedAlikeRemovals { removals, flags })
    }

    /// Logs a whole strip-down, or only looks whether it could be.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn import_removals(
        &self,
        change: Change<Vec<ImportedRemoval>>,
        validate_only: bool,
    ) -> Result<ImportedRemovals, Error> {
        if validate_only {
            let facts = self.judge(change, Command::ImportRemovals).await?;
            return Ok(ImportedRemovals {
                count: facts.len(),
                flags: Arc::default(),
            });
        }
        let job = change.job.clone();
        let written = self.write(change, Command::ImportRemovals).await?;
        Ok(ImportedRemovals {
            count: written.entries.len(),
            flags: self.flags(&job, None).await?.flags,
        })
    }
}
