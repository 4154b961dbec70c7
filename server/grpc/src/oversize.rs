//! Messages that are too large are refused by the codec before any handler sees them, with a code and text of its own;
//! this layer puts our reason on them.

use crate::status::status;
use clampbook_app::Error;
use futures_util::future::{MapOk, TryFutureExt};
use http::{HeaderMap, Request, Response};
use std::task::{Context, Poll};
use tonic::Code;
use tower::{Layer, Service};

/// Puts our reason on refusals of messages that are too large.
#[derive(Clone, Copy, Debug, Default)]
pub struct OversizeLayer;

/// A service whose refusals of messages that are too large carry our reason.
#[derive(Clone, Debug)]
pub struct Oversize<S>(S);

impl<S> Layer<S> for OversizeLayer {
    type Service = Oversize<S>;

    fn layer(&self, inner: S) -> Oversize<S> {
        Oversize(inner)
    }
}

impl<S, B, R> Service<Request<B>> for Oversize<S>
where
    S: Service<Request<B>, Response = Response<R>>,
{
    type Response = Response<R>;
    type Error = S::Error;
    type Future = MapOk<S::Future, fn(Response<R>) -> Response<R>>;

    fn poll_ready(&mut self, context: &mut Context<'_>) -> Poll<Result<(), S::Error>> {
        self.0.poll_ready(context)
    }

    fn call(&mut self, request: Request<B>) -> Self::Future {
        self.0.call(request).map_ok(with_our_reason)
    }
}

fn with_our_reason<R>(mut answer: Response<R>) -> Response<R> {
    if is_oversize(answer.headers()) {
        // Headers made from a status of ours are always well formed.
        let _ = status(&Error::too_large()).add_header(answer.headers_mut());
    }
    answer
}

/// tonic answers OUT_OF_RANGE for what its codec will not read, and nothing of ours ever does.
fn is_oversize(headers: &HeaderMap) -> bool {
    headers
        .get("grpc-status")
        .and_then(|code| code.to_str().ok())
        .and_then(|code| code.parse::<i32>().ok())
        .is_some_and(|code| Code::from_i32(code) == Code::OutOfRange)
}
