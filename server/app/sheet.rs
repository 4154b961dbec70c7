//! The reassembly sheet.

use super::{App, Caller, Error, Operation, blocking};
use clampbook_book::ids::{AssemblyId, JobId};
use clampbook_book::sheet::{Head, Scope, Sheet};
use clampbook_book::stream::Stream;
use clampbook_book::words::TorqueUnit;

impl App {
    /// The sheet of a job or of one of its assemblies.
    ///
    /// # Errors
    /// Not found.
    pub(crate) async fn sheet(
        &self,
        caller: &Caller,
        operation: Operation,
        id: &JobId,
        assembly: Option<AssemblyId>,
        unit: Option<TorqueUnit>,
    ) -> Result<Sheet, Error> {
        caller.may(operation)?;
        let job = self.find_with(id, assembly.as_ref()).await?;
        let last = self
            .store
            .entries(Stream::Job(id.clone()), job.last - 1, 1)
            .await?;
        let world = self.world(caller);
        let hash = last.first().map(|stored| stored.hash).unwrap_or_default();
        let head = Head {
            entry: job.last,
            hash,
            made: world.now,
        };
        blocking(move || {
            let scope = Scope {
                assembly,
                unit: unit.unwrap_or_else(|| job.torque_unit()),
            };
            clampbook_book::sheet::sheet(&job, &scope, &world.asked(), &head)
        })
        .await
    }
}
