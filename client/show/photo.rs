//! Photos, without their content.

use std::path::Path;

use clampbook_api::v1::{AddPhotoResponse, Job, Photo};

use super::text::{strong, wrap};
use crate::name;

/// A photo that was added.
pub(crate) fn added(answer: &AddPhotoResponse) -> String {
    answer.photo.as_ref().map(line).unwrap_or_default()
}

/// A photo that was written to a file.
pub(crate) fn written(photo: &Photo, file: &Path) -> String {
    let told = format!("{}: {} bytes written", file.display(), photo.size_bytes);
    line(photo) + &wrap("", 2, &told)
}

/// The photos of a job.
pub(crate) fn list(job: &Job) -> String {
    match job.photos.as_slice() {
        [] => "The job has no photo yet.\n".to_owned(),
        photos => photos.iter().map(line).collect(),
    }
}

/// One photo: its entry, what it is of, what it shows.
pub(super) fn line(photo: &Photo) -> String {
    let subject = name::id(&photo.subject);
    let of = match photo.subject.split('/').nth(2) {
        Some("entries") => format!("finding {subject}"),
        Some(_) if photo.position > 0 => format!("{subject} position {}", photo.position),
        _ => subject.to_owned(),
    };
    let caption = match photo.caption.as_str() {
        "" => String::new(),
        caption => format!(", {caption}"),
    };
    let kib = photo.size_bytes.div_euclid(1024) + i64::from(photo.size_bytes % 1024 > 0);
    let head = strong(&format!("Photo of {of}"));
    let entry = name::id(&photo.entry);
    wrap(
        "",
        2,
        &format!(
            "{head}{caption}: {}, {kib} KiB (entry {entry})",
            photo.media_type
        ),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn a_photo_tells_what_it_is_of() {
        let mut photo = Photo {
            entry: "jobs/oak/entries/14".to_owned(),
            subject: "jobs/oak/joints/plate".to_owned(),
            position: 3,
            media_type: "image/jpeg".to_owned(),
            caption: "bracket under the head".to_owned(),
            size_bytes: 2_049,
            ..Photo::default()
        };
        let told = |photo: &Photo| finish(&line(photo), Look::default());
        assert_eq!(
            told(&photo),
            "Photo of plate position 3, bracket under the head: image/jpeg, 3 KiB (entry 14)\n"
        );
        photo.caption.clear();
        for (subject, position, of) in [
            ("jobs/oak", 0, "oak"),
            ("jobs/oak/assemblies/hub", 0, "hub"),
            ("jobs/oak/joints/plate", 0, "plate"),
            ("jobs/oak/entries/12", 0, "finding 12"),
        ] {
            photo.subject = subject.to_owned();
            photo.position = position;
            assert_eq!(
                told(&photo),
                format!("Photo of {of}: image/jpeg, 3 KiB (entry 14)\n")
            );
        }
    }
}
