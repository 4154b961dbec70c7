//! Photos, in chunks: in from the sender, out to the reader.
//!
//! A photo is held whole while it is under way, so only a few are at once.

use super::Announced;
use crate::Validator;
use crate::guard::{Guard, answer};
use crate::status::status;
use clampbook_api::v1 as wire;
use clampbook_app::{App, Call, Error, KeptPhoto, Operation};
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::{OwnedSemaphorePermit, Semaphore, mpsc};
use tokio::time::timeout;
use tokio_stream::wrappers::ReceiverStream;
use tonic::{Code, Request, Response, Status, Streaming};

/// Most photos under way at once; each takes up to 8 MiB.
pub(crate) const UNDER_WAY: usize = 8;

/// Longest that a stream may stay silent, or a reader not take the next chunk.
const SILENCE: Duration = Duration::from_secs(30);

/// Longest that a whole photo may take to arrive: 8 MiB over a workshop's Wi-Fi.
const LONGEST: Duration = Duration::from_secs(120);

/// Bytes of a chunk that is sent.
const CHUNK: usize = 256 * 1024;

/// Chunks on their way to a reader.
const SENT_AHEAD: usize = 2;

/// A photo on its way to a reader.
pub(crate) type Sent = ReceiverStream<Result<wire::GetPhotoResponse, Status>>;

/// A photo that has arrived.
struct Upload {
    announced: Announced,
    content: Vec<u8>,
    _room: OwnedSemaphorePermit,
}

/// Adds a photo. Nothing is looked at for who may not add one, and nothing is kept of a stream that does not end well.
pub(crate) async fn add(
    guard: &Guard,
    request: Request<Streaming<wire::AddPhotoRequest>>,
) -> Result<Response<wire::AddPhotoResponse>, Status> {
    let operation = Operation::AddPhoto;
    let (call, limit) = guard.let_in(operation, &request)?;
    let room = room(&guard.photos).map_err(|e| status(&e))?;
    let mut incoming = request.into_inner();
    let late = |_| status(&Error::deadline_passed(operation));
    let arriving = arrived(&guard.app, &mut incoming, room);
    let upload = timeout(LONGEST, arriving).await.map_err(late)??;
    let kept = call.within(limit, async |call| keep(call, upload).await);
    answer(operation, kept.await)
}

async fn keep(call: Call<'_>, upload: Upload) -> Result<wire::AddPhotoResponse, Error> {
    let blob = call.hashed(upload.content).await?;
    let change = super::add_photo(upload.announced, blob.bytes(), blob.hash())?;
    let added = call.add_photo(change, blob).await?;
    let photo = super::photo(&added.job, added.entry, &added.said, &added.fact);
    Ok(wire::AddPhotoResponse { photo: Some(photo) })
}

/// Sends a photo to who asks for it.
pub(crate) async fn get(
    call: Call<'_>,
    request: wire::GetPhotoRequest,
    rooms: Arc<Semaphore>,
) -> Result<Sent, Error> {
    let mut check = Validator::default();
    let name = check.entry_name("name", &request.name);
    let (job, entry) = check.finish(name)?;
    let room = room(&rooms)?;
    let kept = call.photo(&job, entry).await?;
    let photo = super::photo(&job, entry, &kept.said, &kept.photo);
    let (sender, receiver) = mpsc::channel(SENT_AHEAD);
    tokio::spawn(async move {
        let sending = send(&sender, photo, &kept);
        // A caller who hangs up or falls asleep ends it.
        let _ = sending.await;
        drop(room);
    });
    Ok(ReceiverStream::new(receiver))
}

fn room(rooms: &Arc<Semaphore>) -> Result<OwnedSemaphorePermit, Error> {
    Arc::clone(rooms)
        .try_acquire_owned()
        .map_err(|_| Error::too_many_photos())
}

async fn arrived(
    app: &App,
    incoming: &mut Streaming<wire::AddPhotoRequest>,
    room: OwnedSemaphorePermit,
) -> Result<Upload, Status> {
    let mut first = next(app, incoming).await?.unwrap_or_default();
    let mut chunk = std::mem::take(&mut first.chunk);
    let announced = super::announced(&first).map_err(|e| status(&e))?;
    let mut content = Vec::with_capacity(announced.size);
    loop {
        if content.len() + chunk.len() > announced.size {
            let sent = content.len() + chunk.len();
            return Err(status(&super::not_as_announced(sent, announced.size)));
        }
        content.append(&mut chunk);
        let Some(later) = next(app, incoming).await? else {
            break;
        };
        super::only_content(&later).map_err(|e| status(&e))?;
        chunk = later.chunk;
    }
    if content.len() < announced.size {
        let short = super::not_as_announced(content.len(), announced.size);
        return Err(status(&short));
    }
    Ok(Upload {
        announced,
        content,
        _room: room,
    })
}

async fn next(
    app: &App,
    incoming: &mut Streaming<wire::AddPhotoRequest>,
) -> Result<Option<wire::AddPhotoRequest>, Status> {
    tokio::select! {
        biased;
        () = app.stopped() => Err(status(&Error::stopping())),
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

/// Sends a photo, then its content; nothing when nobody takes it any more.
async fn send(
    sender: &mpsc::Sender<Result<wire::GetPhotoResponse, Status>>,
    photo: wire::Photo,
    kept: &KeptPhoto,
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
