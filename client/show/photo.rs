//! Photos, without their content.

use std::path::Path;

use clampbook_api::v1::{Job, Photo};

use super::{recorded::line, text::wrap};

/// A photo that was written to a file.
pub(crate) fn written(photo: &Photo, file: &Path) -> String {
    let told = format!("{}: {} bytes written", file.display(), photo.size_bytes);
    line(&photo.text, &photo.entry) + &wrap("", 2, &told)
}

/// The photos of a job.
pub(crate) fn list(job: &Job) -> String {
    match job.photos.as_slice() {
        [] => "The job has no photo yet.\n".to_owned(),
        photos => (photos.iter())
            .map(|photo| line(&photo.text, &photo.entry))
            .collect(),
    }
}
