//! Photos, in chunks: in from the caller who sends them, out to the caller who asks.
//!
//! A photo is held whole while it is under way, so only a few are at once.

use super::Jobs;
use super::writing::{first, unexpected};
use crate::app::photo::Kept;
use crate::app::{Caller, Error, Operation};
use crate::convert::Check;
use crate::convert::photo::{self as requests, Announced};
use crate::service::guard::Guard;
use crate::status::status;
use clampbook_api::v1 as wire;
use clampbook_book::fact::Fact;
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::{OwnedSemaphorePermit, mpsc};
use tokio::time::timeout;
use tokio_stream::wrappers::ReceiverStream;
use tonic::{Code, Request, Status, Streaming};

/// Most photos under way at once; each takes up to 8 MiB.
pub(in crate::service) const UNDER_WAY: usize = 8;

/// Longest that a stream may stay silent, or a reader not take the next chunk.
const SILENCE: Duration = Duration::from_secs(30);

/// Longest that a whole photo may take to arrive: 8 MiB over a workshop's Wi-Fi.
const LONGEST: Duration = Duration::from_secs(120);

/// Bytes of a chunk that is sent.
const CHUNK: usize = 256 * 1024;

/// Chunks on their way to a reader.
const SENT_AHEAD: usize = 2;

/// A photo that has arrived.
pub(super) struct Upload {
    announced: Announced,
    content: Vec<u8>,
    _room: OwnedSemaphorePermit,
}

/// Receives a photo. Nothing is looked at for who may not add one, and nothing is kept of a stream that does not end well.
pub(super) async fn receive(
    guard: &Guard,
    request: Request<Streaming<wire::AddPhotoRequest>>,
) -> Result<Request<Upload>, Status> {
    let caller = guard.caller(request.metadata()).map_err(|e| status(&e))?;
    caller.may(Operation::AddPhoto).map_err(|e| status(&e))?;
    let room = room(guard).map_err(|e| status(&e))?;
    let (metadata, extensions, mut incoming) = request.into_parts();
    let late = |_| status(&Error::deadline_passed(Operation::AddPhoto));
    let arriving = arrived(guard, &mut incoming, room);
    let upload = timeout(LONGEST, arriving).await.map_err(late)??;
    Ok(Request::from_parts(metadata, extensions, upload))
}

fn room(guard: &Guard) -> Result<OwnedSemaphorePermit, Error> {
    Arc::clone(&guard.photos)
        .try_acquire_owned()
        .map_err(|_| Error::too_many_photos())
}

async fn arrived(
    guard: &Guard,
    incoming: &mut Streaming<wire::AddPhotoRequest>,
    room: OwnedSemaphorePermit,
) -> Result<Upload, Status> {
    let mut first = next(guard, incoming).await?.unwrap_or_default();
    let mut chunk = std::mem::take(&mut first.chunk);
    let announced = requests::announced(&first).map_err(|e| status(&e))?;
    let mut content = Vec::with_capacity(announced.size);
    loop {
        if content.len() + chunk.len() > announced.size {
            let sent = content.len() + chunk.len();
            return Err(status(&requests::not_as_announced(sent, announced.size)));
        }
        content.append(&mut chunk);
        let Some(later) = next(guard, incoming).await? else {
            break;
        };
        requests::only_content(&later).map_err(|e| status(&e))?;
        chunk = later.chunk;
    }
    if content.len() < announced.size {
        let short = requests::not_as_announced(content.len(), announced.size);
        return Err(status(&short));
    }
    Ok(Upload {
        announced,
        content,
        _room: room,
    })
}

async fn next(
    guard: &Guard,
    incoming: &mut Streaming<wire::AddPhotoRequest>,
) -> Result<Option<wire::AddPhotoRequest>, Status> {
    tokio::select! {
        biased;
        () = guard.app.stopped() => Err(status(&Error::stopping())),
        message = timeout(SILENCE, incoming.message()) => match message {
            Ok(Ok(message)) => Ok(message),
            // What the codec will not read; nothing of ours answers with this code.
            Ok(Err(unread)) if unread.code() == Code::OutOfRange => {
                Err(status(&Error::too_large()))
            }
            Ok(Err(broken)) => Err(broken),
            Err(_) => Err(status(&Error::deadline_passed(Operation::AddPhoto))),
        },
    }
}

impl Jobs {
    pub(super) async fn keep_photo(
        &self,
        caller: &Caller,
        upload: Upload,
    ) -> Result<wire::AddPhotoResponse, Error> {
        let blob = self.0.app.hashed(upload.content).await?;
        let change = requests::add_photo(upload.announced, blob.bytes(), blob.hash())?;
        let receipt = self.0.app.add_photo(caller, change, blob).await?;
        let entry = first(&receipt)?;
        match &entry.fact {
            Fact::PhotoAdded(added) => Ok(wire::AddPhotoResponse {
                photo: Some(requests::photo(
                    &receipt.job.id,
                    entry.number,
                    &entry.said,
                    added,
                )),
            }),
            other => Err(unexpected(other)),
        }
    }

    pub(super) async fn show_photo(
        &self,
        caller: &Caller,
        request: wire::GetPhotoRequest,
    ) -> Result<ReceiverStream<Result<wire::GetPhotoResponse, Status>>, Error> {
        let mut check = Check::default();
        let name = check.entry_name("name", &request.name);
        let (job, entry) = check.finish(name)?;
        caller.may(Operation::GetPhoto)?;
        let room = room(&self.0)?;
        let kept = self.0.app.photo(caller, &job, entry).await?;
        let photo = requests::photo(&job, entry, &kept.said, &kept.photo);
        let (sender, receiver) = mpsc::channel(SENT_AHEAD);
        tokio::spawn(async move {
            let sending = send(&sender, photo, &kept);
            // A caller who hangs up or falls asleep ends it.
            let _ = sending.await;
            drop(room);
        });
        Ok(ReceiverStream::new(receiver))
    }
}

/// Sends a photo, then its content; nothing when nobody takes it any more.
async fn send(
    sender: &mpsc::Sender<Result<wire::GetPhotoResponse, Status>>,
    photo: wire::Photo,
    kept: &Kept,
) -> Option<()> {
    let head = wire::GetPhotoResponse {
        photo: Some(photo),
        chunk: Vec::new(),
    };
    let chunks = kept
        .content
        .chunks(CHUNK)
        .map(|chunk| wire::GetPhotoResponse {
            photo: None,
            chunk: chunk.to_vec(),
        });
    for message in std::iter::once(head).chain(chunks) {
        timeout(SILENCE, sender.send(Ok(message)))
            .await
            .ok()?
            .ok()?;
    }
    Some(())
}
