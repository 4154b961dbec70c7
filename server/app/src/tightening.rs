//! Tightenings.

use super::joint::joint_of;
use super::{Call, Change, Error, Recorded};
use clampbook_book::command::{Command, Tightening};
use clampbook_book::fact::Tightened;
use clampbook_book::rules::{self, Flag};

/// Positions of one joint that were tightened by the same step.
#[derive(Clone, Debug)]
pub struct LoggedTightening {
    /// One for each position.
    pub tightenings: Vec<Recorded<Tightened>>,
    /// Open flags of these positions, of their joint, and those that follow from the whole job there.
    pub flags: Vec<Flag>,
}

impl Call<'_> {
    /// Logs how far positions of one joint were tightened, all or none.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn log_tightening(
        &self,
        change: Change<Tightening>,
    ) -> Result<LoggedTightening, Error> {
        let written = self.write(change, Command::LogTightening).await?;
        let tightenings = written.all::<Tightened>()?;
        let joint = joint_of(&written.job, &written.only::<Tightened>()?.fact.joint)?;
        let positions: Vec<_> = tightenings.iter().map(|one| one.fact.position).collect();
        Ok(LoggedTightening {
            flags: rules::flags_at(&written.job, joint, &positions, &self.world().asked()),
            tightenings,
        })
    }
}
