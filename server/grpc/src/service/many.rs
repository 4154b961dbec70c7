//! The stream of `TorqueService.ComputeTorques`: one chunk in, one chunk out, in order.

use super::guard::Guard;
use crate::convert::many;
use crate::status::status;
use clampbook_api::v1::{ComputeTorquesRequest, ComputeTorquesResponse};
use clampbook_app::{Error, Operation};
use futures_util::stream::{Stream, try_unfold};
use std::pin::Pin;
use std::time::Duration;
use tonic::{Code, Request, Response, Status, Streaming};

/// Longest a stream may stay silent between two chunks.
const SILENCE: Duration = Duration::from_secs(30);

/// Chunks of answers.
pub(super) type Answers =
    Pin<Box<dyn Stream<Item = Result<ComputeTorquesResponse, Status>> + Send>>;

/// Answers chunk after chunk. The next is taken only when the last was sent off, so a slow reader costs nothing.
pub(super) fn answers(
    guard: &Guard,
    request: Request<Streaming<ComputeTorquesRequest>>,
) -> Result<Response<Answers>, Status> {
    let caller = guard.caller(request.metadata()).map_err(|e| status(&e))?;
    guard.app.may_ask_many(&caller).map_err(|e| status(&e))?;
    let state = (guard.clone(), request.into_inner());
    let chunks = try_unfold(state, |(guard, mut incoming)| async move {
        let Some(chunk) = next(&guard, &mut incoming).await? else {
            return Ok(None);
        };
        let answer =
            Guard::contain(|| many::answers(&guard.app, &chunk)).map_err(|e| status(&e))?;
        Ok(Some((answer, (guard, incoming))))
    });
    Ok(Response::new(Box::pin(chunks)))
}

async fn next(
    guard: &Guard,
    incoming: &mut Streaming<ComputeTorquesRequest>,
) -> Result<Option<ComputeTorquesRequest>, Status> {
    tokio::select! {
        biased;
        () = guard.app.stopped() => Err(status(&Error::stopping())),
        chunk = tokio::time::timeout(SILENCE, incoming.message()) => match chunk {
            Ok(Ok(chunk)) => Ok(chunk),
            // What the codec will not read; nothing of ours answers with this code.
            Ok(Err(unread)) if unread.code() == Code::OutOfRange => {
                Err(status(&Error::too_large()))
            }
            Ok(Err(broken)) => Err(broken),
            Err(_) => Err(status(&Error::deadline_passed(Operation::ComputeTorques))),
        },
    }
}
