//! Backups by the clock, verified, into a folder that is best on another disk.

use crate::config::Serve;
use anyhow::Context;
use clampbook_app::{Clock, Store};
use clampbook_book::entry::Moment;
use clampbook_journal::{backup_of, backups_in, remove_oldest};
use std::path::PathBuf;
use std::time::Duration;
use tonic_health::ServingStatus;
use tonic_health::server::HealthReporter;

/// Name under which health tells whether backups are made in time; the whole server serves even when they are not.
const SERVICE: &str = "clampbook.backups";

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

    /// Makes health know that backups are made, before anybody can ask.
    pub(crate) async fn are_known_to(&self, health: &HealthReporter) {
        self.tell_age((self.clock)(), health).await;
    }

    /// Makes them until it is dropped, and says when none was made for too long.
    pub(crate) async fn make(self, store: Store, health: HealthReporter) {
        let begun = (self.clock)();
        loop {
            self.tell_age(begun, &health).await;
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

    /// Tells health, and the log when it is too much, how old the last verified backup is.
    async fn tell_age(&self, begun: Moment, health: &HealthReporter) {
        // Where there is none, or only one of a clock that was wrong, it counts from the start.
        let age = self.age().or_else(|| age(begun, (self.clock)()));
        let overdue = age.is_some_and(|age| age > self.every * 2);
        let status = match overdue {
            true => ServingStatus::NotServing,
            false => ServingStatus::Serving,
        };
        if let (true, Some(age)) = (overdue, age) {
            tracing::warn!(
                hours = age.as_secs() / 3_600,
                folder = %self.folder.display(),
                "no backup was made and verified for more than twice the time between two; make room or name another folder with --backups"
            );
        }
        health.set_service_status(SERVICE, status).await;
    }

    /// How long until the next is due. A last one that lies ahead was made by a clock that was wrong.
    fn due(&self) -> Duration {
        let age = self.age().unwrap_or(self.every);
        self.every.saturating_sub(age)
    }

    /// How old the last one is.
    fn age(&self) -> Option<Duration> {
        let (last, _) = backups_in(&self.folder, &self.journal).pop()?;
        age(last, (self.clock)())
    }
}

/// The time from one moment to another after it.
fn age(from: Moment, to: Moment) -> Option<Duration> {
    let age = u64::try_from(to.0.saturating_sub(from.0)).ok();
    age.map(Duration::from_micros)
}
