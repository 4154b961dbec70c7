//! Parts to order, parts that arrive, and what waits.

use super::{Call, Change, Error, Recorded, blocking};
use clampbook_book::command::Command;
use clampbook_book::fact::{PartArrived, PartWanted};
use clampbook_book::ids::{AssemblyId, JobId};
use clampbook_book::orders::{self, Line, Wait};
use clampbook_book::rules::{self, Flag};

/// A part wanted by hand that was logged.
#[derive(Clone, Debug)]
pub struct LoggedPartWanted {
    /// The part.
    pub wanted: Recorded<PartWanted>,
    /// Open flags about parts that have not arrived.
    pub flags: Vec<Flag>,
}

/// A part that arrived.
#[derive(Clone, Debug)]
pub struct LoggedPartArrival {
    /// The arrival.
    pub arrival: Recorded<PartArrived>,
    /// The line of the list that it is for.
    pub line: Option<Line>,
    /// Open flags about parts that have not arrived.
    pub flags: Vec<Flag>,
}

impl Call<'_> {
    /// The parts to order of a job or of one of its assemblies.
    ///
    /// # Errors
    /// Not found.
    pub async fn parts_to_order(
        &self,
        id: &JobId,
        assembly: Option<AssemblyId>,
    ) -> Result<Vec<Line>, Error> {
        let job = self.find_with(id, assembly.as_ref()).await?;
        let world = self.world();
        blocking(move || orders::list(&job, assembly.as_ref(), &world.asked())).await
    }

    /// What waits in a job or in one of its assemblies.
    ///
    /// # Errors
    /// Not found.
    pub async fn waits(
        &self,
        id: &JobId,
        assembly: Option<AssemblyId>,
    ) -> Result<Vec<Wait>, Error> {
        let job = self.find_with(id, assembly.as_ref()).await?;
        let world = self.world();
        blocking(move || orders::waits(&job, assembly.as_ref(), &world.asked())).await
    }

    /// Logs that a part is wanted which nothing else asks for.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn log_part_wanted(
        &self,
        change: Change<PartWanted>,
    ) -> Result<LoggedPartWanted, Error> {
        let written = self.write(change, Command::LogPartWanted).await?;
        let wanted = written.only::<PartWanted>()?;
        let assembly = &wanted.fact.assembly;
        Ok(LoggedPartWanted {
            flags: rules::flags_about_parts(&written.job, assembly, &self.world().asked()),
            wanted,
        })
    }

    /// Logs that a part of the list arrived.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn log_part_arrival(
        &self,
        change: Change<PartArrived>,
    ) -> Result<LoggedPartArrival, Error> {
        let written = self.write(change, Command::LogPartArrival).await?;
        let arrival = written.only::<PartArrived>()?;
        let (job, world) = (&written.job, self.world());
        let PartArrived { assembly, what, .. } = &arrival.fact;
        Ok(LoggedPartArrival {
            line: orders::line_called(job, assembly, what, &world.asked()),
            flags: rules::flags_about_parts(job, assembly, &world.asked()),
            arrival,
        })
    }
}
