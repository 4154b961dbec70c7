//! A server that gives back what it gets, set as Clampbook's is: the floor that calls and streams are held against.

use super::RawCodec;
use std::convert::Infallible;
use std::task::{Context, Poll};
use std::time::Duration;
use tonic::codegen::{BoxFuture, http};
use tonic::{Request, Response, Status, Streaming};

/// Argument that makes a bench the echo.
pub(crate) const ARGUMENT: &str = "echo";

/// Gives back what it gets.
#[derive(Clone)]
struct Echo;

/// One message there and back.
pub(crate) const CALL: &str = "/bench.Echo/Call";
/// Each message of a stream back as it comes.
pub(crate) const STREAM: &str = "/bench.Echo/Stream";

struct Same;

impl tonic::server::UnaryService<Vec<u8>> for Same {
    type Response = Vec<u8>;
    type Future = BoxFuture<Response<Vec<u8>>, Status>;

    fn call(&mut self, request: Request<Vec<u8>>) -> Self::Future {
        Box::pin(async move { Ok(Response::new(request.into_inner())) })
    }
}

impl tonic::server::StreamingService<Vec<u8>> for Same {
    type Response = Vec<u8>;
    type ResponseStream = Streaming<Vec<u8>>;
    type Future = BoxFuture<Response<Self::ResponseStream>, Status>;

    fn call(&mut self, request: Request<Streaming<Vec<u8>>>) -> Self::Future {
        Box::pin(async move { Ok(Response::new(request.into_inner())) })
    }
}

impl tonic::server::NamedService for Echo {
    const NAME: &'static str = "bench.Echo";
}

impl tonic::codegen::Service<http::Request<tonic::body::Body>> for Echo {
    type Response = http::Response<tonic::body::Body>;
    type Error = Infallible;
    type Future = BoxFuture<Self::Response, Infallible>;

    fn poll_ready(&mut self, _: &mut Context<'_>) -> Poll<Result<(), Infallible>> {
        Poll::Ready(Ok(()))
    }

    fn call(&mut self, request: http::Request<tonic::body::Body>) -> Self::Future {
        Box::pin(async move {
            let mut grpc = tonic::server::Grpc::new(RawCodec::default());
            Ok(match request.uri().path() {
                STREAM => grpc.streaming(Same, request).await,
                _ => grpc.unary(Same, request).await,
            })
        })
    }
}

/// What a bench against the echo does: measures, or, started again by itself with `ARGUMENT`, is the echo.
pub(crate) fn main(measure: impl Future<Output = ()>) {
    let is_echo = std::env::args().any(|argument| argument == ARGUMENT);
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(if is_echo { 2 } else { 1 })
        .enable_all()
        .build()
        .expect("a runtime");
    if is_echo {
        runtime.block_on(serve());
    } else {
        runtime.block_on(measure);
    }
}

/// Serves on a free port and says where.
async fn serve() {
    let listener = tokio::net::TcpListener::bind("127.0.0.1:0")
        .await
        .expect("a port");
    println!("http://{}", listener.local_addr().expect("an address"));
    let incoming = tonic::transport::server::TcpIncoming::from(listener).with_nodelay(Some(true));
    // The transport is set as the server's is; what differs is only who answers.
    tonic::transport::Server::builder()
        .max_concurrent_streams(Some(256))
        .http2_keepalive_interval(Some(Duration::from_secs(45)))
        .http2_keepalive_timeout(Some(Duration::from_secs(20)))
        .add_service(Echo)
        .serve_with_incoming(incoming)
        .await
        .expect("it serves");
}
