//! Findings on parts other than fasteners, and what was seen on the other side.

use super::{Call, Change, Error, Recorded};
use clampbook_book::command::Command;
use clampbook_book::fact::{CounterpartAnswered, PartFound};
use clampbook_book::rules::{self, Flag};

/// A finding that was logged.
#[derive(Clone, Debug)]
pub struct LoggedFinding {
    /// The finding.
    pub finding: Recorded<PartFound>,
    /// Open flags on the assembly as a whole and on its other side.
    pub flags: Vec<Flag>,
}

/// An answer about the other side that was logged.
#[derive(Clone, Debug)]
pub struct LoggedAnswer {
    /// The answer.
    pub answer: Recorded<CounterpartAnswered>,
    /// Open flags on the assembly of the finding as a whole and on its other side.
    pub flags: Vec<Flag>,
}

impl Call<'_> {
    /// Logs what was found on a part.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn log_finding(&self, change: Change<PartFound>) -> Result<LoggedFinding, Error> {
        let written = self.write(change, Command::LogFinding).await?;
        let finding = written.only::<PartFound>()?;
        let assembly = &finding.fact.assembly;
        Ok(LoggedFinding {
            flags: rules::flags_around(&written.job, assembly, &self.world().asked()),
            finding,
        })
    }

    /// Answers what a finding asks about the other side.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn answer_counterpart(
        &self,
        change: Change<CounterpartAnswered>,
    ) -> Result<LoggedAnswer, Error> {
        let written = self.write(change, Command::AnswerCounterpart).await?;
        let answer = written.only::<CounterpartAnswered>()?;
        let finding = written.job.findings.get(answer.fact.finding);
        let flags = finding.map(|finding| {
            rules::flags_around(&written.job, &finding.found.assembly, &self.world().asked())
        });
        Ok(LoggedAnswer {
            answer,
            flags: flags.unwrap_or_default(),
        })
    }
}
