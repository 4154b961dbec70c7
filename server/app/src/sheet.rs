//! The reassembly sheet.

use super::{Call, Error, blocking};
use clampbook_book::ids::{AssemblyId, JobId};
use clampbook_book::sheet::{Head, Scope, Sheet};
use clampbook_book::stream::Stream;
use clampbook_book::words::TorqueUnit;

/// The form of a rendered sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SheetForm {
    /// Plain text.
    Text,
    /// Comma separated values.
    Csv,
}

impl SheetForm {
    /// Its media type.
    #[must_use]
    pub const fn media_type(self) -> &'static str {
        match self {
            Self::Text => "text/plain; charset=utf-8",
            Self::Csv => "text/csv; charset=utf-8; header=present",
        }
    }
}

impl Call<'_> {
    /// The sheet of a job or of one of its assemblies.
    ///
    /// # Errors
    /// Not found.
    pub async fn sheet(
        &self,
        id: &JobId,
        assembly: Option<AssemblyId>,
        unit: Option<TorqueUnit>,
    ) -> Result<Sheet, Error> {
        let job = self.find_with(id, assembly.as_ref()).await?;
        let last = self
            .app
            .store
            .entries(Stream::Job(id.clone()), job.last - 1, 1)
            .await?;
        let hash = last.first().map(|stored| stored.hash).unwrap_or_default();
        let world = self.world();
        let head = Head {
            entry: job.last,
            hash,
            made: world.now,
        };
        blocking(move || {
            let scope = Scope {
                assembly,
                unit: unit.or(job.torque_unit()),
            };
            clampbook_book::sheet::sheet(&job, &scope, &world.asked(), &head)
        })
        .await
    }

    /// The sheet of a job or of one of its assemblies, rendered.
    ///
    /// # Errors
    /// Not found.
    pub async fn render_sheet(
        &self,
        id: &JobId,
        assembly: Option<AssemblyId>,
        unit: Option<TorqueUnit>,
        form: SheetForm,
    ) -> Result<String, Error> {
        let sheet = self.sheet(id, assembly, unit).await?;
        match form {
            SheetForm::Text => Ok(clampbook_paper::text::render(&sheet)),
            SheetForm::Csv => clampbook_paper::csv::render(&sheet).map_err(|e| Error::broken(&e)),
        }
    }
}
