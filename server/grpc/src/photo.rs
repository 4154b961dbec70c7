//! Photos: what one is of, from the first message of its stream, and what was recorded of it.

mod stream;

pub(crate) use stream::{Sent, UNDER_WAY, add, get};

use crate::{Validator, request};
use clampbook_api::v1 as wire;
use clampbook_app::{Change, Error, Fingerprint, Sending, names};
use clampbook_book::bounds;
use clampbook_book::command::PhotoDescribed;
use clampbook_book::entry::Said;
use clampbook_book::fact::{ContentHash, PhotoAdded, PhotoOf};
use clampbook_book::ids::{EntryNumber, JobId};
use clampbook_book::photos::{Photo, Photos};
use clampbook_book::spoken::Spoken;
use clampbook_book::words::MediaType;

/// What the first message of a stream says, before the content is known.
#[derive(Debug)]
pub(crate) struct Announced {
    job: JobId,
    of: PhotoOf,
    media_type: Option<MediaType>,
    caption: String,
    /// How many bytes will follow.
    pub(crate) size: usize,
    sending: Sending,
}

/// Takes the first message.
///
/// # Errors
/// All violations.
pub(crate) fn announced(first: &wire::AddPhotoRequest) -> Result<Announced, Error> {
    let mut check = Validator::default();
    let sending = check.sending(first);
    let parts = check
        .required("photo", first.photo.as_ref())
        .and_then(|photo| {
            let of = subject(&mut check, &photo.subject, photo.position);
            let media_type = media_type(&mut check, &photo.media_type);
            let caption = caption(&mut check, &photo.caption);
            let size = size(&mut check, photo.size_bytes);
            let (job, of) = of?;
            Some((job, of, media_type, caption, size?))
        });
    let (job, of, media_type, caption, size) = check.finish(parts)?;
    Ok(Announced {
        job,
        of,
        media_type,
        caption,
        size,
        sending,
    })
}

/// What is wrong with a message after the first, if anything.
///
/// # Errors
/// It says more than content.
pub(crate) fn only_content(later: &wire::AddPhotoRequest) -> Result<(), Error> {
    let mut check = Validator::default();
    for (field, is_said) in [
        ("photo", later.photo.is_some()),
        ("request_id", !later.request_id.is_empty()),
        ("said_time", later.said_time.is_some()),
    ] {
        if is_said {
            check.wrong(
                field,
                "is for the first message only; later ones carry content",
            );
        }
    }
    check.finish(Some(()))
}

/// The stream was not as long as it said.
pub(crate) fn not_as_announced(sent: usize, announced: usize) -> Error {
    let mut check = Validator::default();
    let more = if sent > announced { " or more" } else { "" };
    check.wrong(
        "photo.size_bytes",
        format!("announces {announced} bytes, but {sent}{more} were sent; nothing was kept"),
    );
    Error::invalid(check.into_violations())
}

/// The photo as a change, once its content is known.
///
/// # Errors
/// The content is no picture, or another than was said.
pub(crate) fn add_photo(
    announced: Announced,
    content: &[u8],
    hash: ContentHash,
) -> Result<Change<PhotoAdded>, Error> {
    let mut check = Validator::default();
    let found = MediaType::of(content);
    match (found, announced.media_type) {
        (None, _) => check.wrong(
            "chunk",
            "is not a known kind of picture; allowed are JPEG, PNG and WebP",
        ),
        (Some(found), Some(said)) if found != said => check.wrong(
            "photo.media_type",
            format!("says {}, the content is {}", said.id(), found.id()),
        ),
        _ => {}
    }
    let media_type = check.finish(found)?;
    let added = PhotoAdded {
        of: announced.of,
        hash,
        size_bytes: content.len() as u64,
        media_type,
        caption: announced.caption,
    };
    let sending = Sending {
        fingerprint: with_content(announced.sending.fingerprint, hash),
        ..announced.sending
    };
    Ok(Change {
        job: announced.job,
        what: added,
        sending,
    })
}

/// Two requests are the same when they say the same of the same content.
fn with_content(said: Fingerprint, hash: ContentHash) -> Fingerprint {
    let mut hasher = blake3::Hasher::new();
    hasher.update(&said.hash).update(&hash.0);
    Fingerprint {
        hash: *hasher.finalize().as_bytes(),
        ..said
    }
}

/// What a message says about a photo that is kept already; the job only if it says what the photo is of.
pub(crate) fn described(
    check: &mut Validator,
    said: &wire::PhotoDescription,
) -> Option<(Option<JobId>, PhotoDescribed)> {
    let caption = caption(check, &said.caption);
    if !said.subject.is_empty() {
        let (job, of) = subject(check, &said.subject, said.position)?;
        let of = Some(of);
        return Some((Some(job), PhotoDescribed { of, caption }));
    }
    if said.position == 0 {
        return Some((None, PhotoDescribed { of: None, caption }));
    }
    check.wrong(
        "photo.position",
        "is of the joint that photo.subject names; name it, or leave both out",
    );
    None
}

fn caption(check: &mut Validator, said: &str) -> String {
    check.text("photo.caption", said, bounds::SENTENCE)
}

fn subject(check: &mut Validator, name: &str, position: i32) -> Option<(JobId, PhotoOf)> {
    const FIELD: &str = "photo.subject";
    let kind = name
        .strip_prefix("jobs/")
        .and_then(|rest| rest.split_once('/'));
    let named = match kind.map(|(_, rest)| rest) {
        None => check.job_name(FIELD, name).map(|job| (job, PhotoOf::Job)),
        Some(rest) if rest.starts_with("assemblies/") => check
            .assembly_name(FIELD, name)
            .map(|(job, id)| (job, PhotoOf::Assembly(id))),
        Some(rest) if rest.starts_with("entries/") => check
            .entry_name(FIELD, name)
            .map(|(job, entry)| (job, PhotoOf::Finding(entry))),
        Some(_) => check
            .joint_name(FIELD, name)
            .map(|(job, id)| (job, PhotoOf::Joint(id))),
    };
    if position == 0 {
        return named;
    }
    let position = check.position("photo.position", position);
    match named? {
        (job, PhotoOf::Joint(id)) => Some((job, PhotoOf::Position(id, position?))),
        _ => {
            check.wrong("photo.position", "is for a joint only; leave it out");
            None
        }
    }
}

fn media_type(check: &mut Validator, said: &str) -> Option<MediaType> {
    let known = MediaType::from_id(said);
    if known.is_none() && !said.is_empty() {
        let all: Vec<&str> = MediaType::ALL.iter().map(|one| one.id()).collect();
        let why = format!("is not known; allowed are {}", all.join(", "));
        check.wrong("photo.media_type", why);
    }
    known
}

fn size(check: &mut Validator, said: i64) -> Option<usize> {
    let size = usize::try_from(said)
        .ok()
        .filter(|size| (1..=bounds::PHOTO_BYTES).contains(size));
    if size.is_none() {
        let most = bounds::PHOTO_BYTES;
        let why = format!("{said} bytes: allowed are 1 to {most} (8 MiB)");
        check.wrong("photo.size_bytes", why);
    }
    size
}

/// Photos that stand.
pub(crate) fn standing(job: &JobId, photos: &Photos) -> Vec<wire::Photo> {
    let on_wire = |one: &Photo| photo(job, one.entry, &one.said, &one.fact);
    photos.iter().map(on_wire).collect()
}

/// A photo as recorded.
pub(crate) fn photo(
    job: &JobId,
    number: EntryNumber,
    said: &Said,
    added: &PhotoAdded,
) -> wire::Photo {
    let (subject, position) = match &added.of {
        PhotoOf::Job => (names::job(job), 0),
        PhotoOf::Assembly(id) => (names::assembly(job, id), 0),
        PhotoOf::Joint(id) => (names::joint(job, id), 0),
        PhotoOf::Position(id, number) => (names::joint(job, id), *number),
        PhotoOf::Finding(entry) => (names::entry(job, *entry), 0),
    };
    wire::Photo {
        entry: names::entry(job, number),
        subject,
        position: position.into(),
        media_type: added.media_type.id().to_owned(),
        caption: added.caption.clone(),
        size_bytes: i64::try_from(added.size_bytes).unwrap_or(i64::MAX),
        hash: added.hash.to_string(),
        said: Some(request::said(said)),
        text: added.text(),
    }
}
