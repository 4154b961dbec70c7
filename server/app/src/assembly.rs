//! Assemblies.

use super::{Call, Change, Error};
use clampbook_book::command::Command;
use clampbook_book::fact::AssemblyAdded;
use clampbook_book::job::Job;
use std::sync::Arc;

/// An assembly that was added.
#[derive(Clone, Debug)]
pub struct AddedAssembly {
    /// Its job as it stands.
    pub job: Arc<Job>,
    /// The assembly.
    pub assembly: AssemblyAdded,
}

impl Call<'_> {
    /// Adds an assembly.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn add_assembly(
        &self,
        change: Change<AssemblyAdded>,
    ) -> Result<AddedAssembly, Error> {
        let written = self.write(change, Command::AddAssembly).await?;
        Ok(AddedAssembly {
            assembly: written.only()?.fact,
            job: written.job,
        })
    }
}
