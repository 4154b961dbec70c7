//! Backups by the clock, verified, into a folder that is best on another disk.

use crate::config::Serve;
use anyhow::Context;
use clampbook_app::{Clock, Store};
use clampbook_journal::{backup_of, backups_in, remove_oldest};
use std::path::PathBuf;
use std::time::Duration;

/// When and where backups are made.
pub(crate) struct Backups {
    folder: PathBuf,
    journal: PathBuf,
    every: Duration,
    kept: usize,
    clock: Clock,
}

/// How long after a backup that failed the next is tried, if that is not due anyway.
const AGAIN: Duration = Duration::from_secs(15 * 60);

impl Backups {
    /// As the flags say; nothing when they name no folder.
    ///
    /// # Errors
    /// When the folder is not there.
    pub(crate) fn of(flags: &Serve, clock: Clock) -> anyhow::Result<Option<Self>> {
        let Some(folder) = flags.backups.clone() else {
            return Ok(None);
        };
        let is_folder = folder.is_dir();
        anyhow::ensure!(is_folder, "--backups {}: no such folder", folder.display());
        let journal = flags.data.canonicalize().context("the journal's name")?;
        Ok(Some(Self {
            folder,
            journal,
            every: Duration::from_secs_f64(flags.backup_every * 3_600.0),
            kept: flags.backups_kept.into(),
            clock,
        }))
    }

    /// Makes them until it is dropped.
    pub(crate) async fn make(self, store: Store) {
        loop {
            tokio::time::sleep(self.due()).await;
            let target = backup_of(&self.folder, &self.journal, (self.clock)());
            match store.backup(&target).await {
                Ok(made) => {
                    tracing::info!(path = %made.path.display(), head = %made.head, "a backup was made and verified");
                    for left in remove_oldest(&self.folder, &self.journal, self.kept) {
                        tracing::warn!(path = %left.display(), "an old backup could not be removed");
                    }
                }
                Err(error) => {
                    tracing::error!(cause = %error, "no backup was made");
                    tokio::time::sleep(AGAIN.min(self.every)).await;
                }
            }
        }
    }

    /// How long until the next is due. A last one that lies ahead was made by a clock that was wrong.
    fn due(&self) -> Duration {
        let now = (self.clock)();
        let last = backups_in(&self.folder, &self.journal).pop();
        let age = last.and_then(|(last, _)| u64::try_from(now.0.saturating_sub(last.0)).ok());
        let age = age.map_or(self.every, Duration::from_micros);
        self.every.saturating_sub(age)
    }
}
