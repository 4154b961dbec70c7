//! Marks made before parting.

use super::{Call, Change, Error, Recorded};
use clampbook_book::command::Command;
use clampbook_book::fact::Marked;

/// Marks that were logged.
#[derive(Clone, Debug)]
pub struct LoggedMarks {
    /// The marks.
    pub marks: Recorded<Marked>,
    /// Etag of what was marked.
    pub etag: String,
}

impl Call<'_> {
    /// Logs what was marked before parting.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn log_match_marks(&self, change: Change<Marked>) -> Result<LoggedMarks, Error> {
        let marks = self.write(change, Command::LogMatchMarks).await?.only()?;
        Ok(LoggedMarks {
            etag: Recorded::etag(&marks),
            marks,
        })
    }
}
