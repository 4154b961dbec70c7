//! Export: a journal, or one job of it, as a folder of open files that anybody can read and check without this program, and
//! the way back. `docs/export.md` describes the files.

mod check;
mod error;
mod files;
mod import;
mod line;
mod manifest;
mod rows;
mod write;

pub use check::{Checked, check_export};
pub use error::ExportError;
pub use import::import_file;
pub use write::export_file;
