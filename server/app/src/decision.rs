//! Decisions on what came out.

use super::joint::joint_of;
use super::{Call, Change, Error, Recorded};
use clampbook_book::command::Command;
use clampbook_book::fact::Decided;
use clampbook_book::rules::fits::{self, FitCheck};
use clampbook_book::rules::{self, Flag};

/// A decision that was logged.
#[derive(Clone, Debug)]
pub struct LoggedDecision {
    /// The decision.
    pub decision: Recorded<Decided>,
    /// Open flags of its position, of its joint, and those that follow from the whole job there.
    pub flags: Vec<Flag>,
    /// Etag of the position.
    pub etag: String,
    /// What there is to say about the replacement.
    pub checks: Vec<FitCheck>,
}

impl Call<'_> {
    /// Logs a decision on a position whose etag is given.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn log_decision(
        &self,
        change: Change<Decided>,
        etag: String,
    ) -> Result<LoggedDecision, Error> {
        let command = |decided| Command::LogDecision { decided, etag };
        let written = self.write(change, command).await?;
        let decision = written.only::<Decided>()?;
        let (decided, world) = (&decision.fact, self.world());
        let joint = joint_of(&written.job, &decided.joint)?;
        let part = decided.replacement.as_ref();
        let unit = written.job.torque_unit();
        let checks =
            part.and_then(|part| fits::check(joint, decided.position, part, &world.asked(), unit));
        Ok(LoggedDecision {
            flags: rules::flags_at(&written.job, joint, &[decided.position], &world.asked()),
            etag: decision.etag(),
            checks: checks.unwrap_or_default(),
            decision,
        })
    }
}
