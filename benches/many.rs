//! Torques by the chunk: ComputeTorques over one connection against a stream that returns the very same bytes, and
//! against the bare loop that looks up and computes the same questions without any network.

mod support;

use clampbook_api::v1::{
    ComputeTorqueRequest, ComputeTorquesRequest, ComputeTorquesResponse, many_answer::Outcome,
};
use clampbook_engine::{Ask, Catalogue, compute};
use futures_util::{StreamExt, stream};
use prost::Message;
use std::convert::Infallible;
use std::hint::black_box;
use std::task::{Context, Poll};
use std::time::{Duration, Instant};
use support::{RawCodec, Server, connect, report};
use tonic::codegen::{BoxFuture, http};
use tonic::transport::Channel;
use tonic::{Request, Response, Status, Streaming};

const MANY: &str = "/clampbook.v1.TorqueService/ComputeTorques";
const SAME: &str = "/bench.Chunks/Same";
const CHUNK: usize = 256;
const TIME: Duration = Duration::from_millis(700);
const ROUNDS: usize = 7;

fn main() {
    let runtime = tokio::runtime::Builder::new_multi_thread()
        .worker_threads(if is_echo() { 2 } else { 1 })
        .enable_all()
        .build()
        .expect("a runtime");
    if is_echo() {
        runtime.block_on(serve_echo());
    } else {
        runtime.block_on(measure());
    }
}

fn is_echo() -> bool {
    std::env::args().any(|argument| argument == "echo")
}

/// A chunk as a shop might ask it: sizes, grades and lubrications mixed.
fn asks() -> Vec<ComputeTorqueRequest> {
    let threads = [
        "7/16-20",
        "M10x1.25",
        "1/2-13 UNC",
        "M8",
        "3/8-24",
        "M12x1.75",
    ];
    let conditions = ["dry", "oiled", "zinc plated"];
    (0..CHUNK)
        .map(|i| {
            let thread = threads[i % threads.len()];
            ComputeTorqueRequest {
                thread: thread.into(),
                grade: if thread.starts_with('M') {
                    "8.8"
                } else {
                    "SAE J429 5"
                }
                .into(),
                condition: conditions[i % conditions.len()].into(),
                ..Default::default()
            }
        })
        .collect()
}

async fn measure() {
    let folder = tempfile::tempdir().expect("a folder");
    let ours = Server::clampbook(&folder.path().join("bench.clampbook"));
    let echo = Server::myself("echo");
    let asks = asks();
    let ask = ComputeTorquesRequest { asks: asks.clone() }.encode_to_vec();
    let (ours, echo) = (connect(&ours.url).await, connect(&echo.url).await);
    let answer = one(ours.clone(), ask.clone()).await;
    println!(
        "a chunk of {CHUNK}: {} bytes asked, {} bytes answered",
        ask.len(),
        answer.len()
    );
    for streams in [1, 2, 4] {
        // Rounds alternate, so that what else the machine does falls on all alike; the medians are compared.
        let mut rates = [const { Vec::new() }; 3];
        for _ in 0..ROUNDS {
            rates[0].push(run(&ours, MANY, &ask, streams).await);
            rates[1].push(run(&echo, SAME, &answer, streams).await);
            rates[2].push(bare(&asks));
        }
        let [many, same, bare] = rates.map(median);
        let what = format!("answers, {streams} streams on one connection");
        report(
            &what,
            many,
            "echo of the same bytes",
            same,
            "for information",
        );
        report(
            &what,
            many,
            "bare loop on one core",
            bare,
            "answers >= 300000/s",
        );
    }
}

fn median(mut rates: Vec<f64>) -> f64 {
    rates.sort_by(f64::total_cmp);
    rates[rates.len() / 2]
}

/// One chunk there and back, looked at.
async fn one(channel: Channel, ask: Vec<u8>) -> Vec<u8> {
    let mut incoming = open(channel, MANY, stream::iter([ask])).await;
    let bytes = incoming.message().await.expect("a chunk").expect("one");
    let chunk = ComputeTorquesResponse::decode(bytes.as_slice()).expect("answers");
    assert_eq!(chunk.answers.len(), CHUNK);
    for answer in chunk.answers {
        assert!(matches!(answer.outcome, Some(Outcome::Numbers(_))));
    }
    bytes
}

/// Answers per second, chunks sent as fast as they are taken.
async fn run(channel: &Channel, path: &'static str, bytes: &[u8], streams: usize) -> f64 {
    let start = Instant::now();
    let lanes: Vec<_> = (0..streams)
        .map(|_| {
            let (channel, bytes) = (channel.clone(), bytes.to_vec());
            let chunks = stream::repeat(bytes)
                .take_while(move |_| std::future::ready(start.elapsed() < TIME));
            tokio::spawn(async move {
                let mut incoming = open(channel, path, chunks).await;
                let mut chunks = 0_u32;
                while incoming.message().await.expect("a chunk").is_some() {
                    chunks += 1;
                }
                chunks
            })
        })
        .collect();
    let mut chunks = 0;
    for lane in lanes {
        chunks += lane.await.expect("a lane");
    }
    f64::from(chunks) * CHUNK as f64 / start.elapsed().as_secs_f64()
}

async fn open(
    channel: Channel,
    path: &'static str,
    chunks: impl stream::Stream<Item = Vec<u8>> + Send + 'static,
) -> Streaming<Vec<u8>> {
    let mut client = tonic::client::Grpc::new(channel);
    client.ready().await.expect("ready");
    client
        .streaming(
            Request::new(chunks),
            http::uri::PathAndQuery::from_static(path),
            RawCodec::default(),
        )
        .await
        .expect("a stream")
        .into_inner()
}

/// The same questions, looked up and computed on this thread.
fn bare(asks: &[ComputeTorqueRequest]) -> f64 {
    let catalogue = Catalogue::built_in();
    let start = Instant::now();
    let mut answers = 0_u32;
    while start.elapsed() < TIME / 4 {
        for request in asks {
            let ask = Ask {
                thread: &request.thread,
                grade: &request.grade,
                condition: &request.condition,
                ..Ask::default()
            };
            let question = catalogue.resolve(black_box(&ask)).expect("a good question");
            black_box(compute(&question));
            answers += 1;
        }
    }
    f64::from(answers) / start.elapsed().as_secs_f64()
}

#[derive(Clone)]
struct Chunks;

struct Same;

impl tonic::server::StreamingService<Vec<u8>> for Same {
    type Response = Vec<u8>;
    type ResponseStream = Streaming<Vec<u8>>;
    type Future = BoxFuture<Response<Self::ResponseStream>, Status>;

    fn call(&mut self, request: Request<Streaming<Vec<u8>>>) -> Self::Future {
        Box::pin(async move { Ok(Response::new(request.into_inner())) })
    }
}

impl tonic::server::NamedService for Chunks {
    const NAME: &'static str = "bench.Chunks";
}

impl tonic::codegen::Service<http::Request<tonic::body::Body>> for Chunks {
    type Response = http::Response<tonic::body::Body>;
    type Error = Infallible;
    type Future = BoxFuture<Self::Response, Infallible>;

    fn poll_ready(&mut self, _: &mut Context<'_>) -> Poll<Result<(), Infallible>> {
        Poll::Ready(Ok(()))
    }

    fn call(&mut self, request: http::Request<tonic::body::Body>) -> Self::Future {
        Box::pin(async move {
            let mut grpc = tonic::server::Grpc::new(RawCodec::default());
            Ok(grpc.streaming(Same, request).await)
        })
    }
}

async fn serve_echo() {
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
        .add_service(Chunks)
        .serve_with_incoming(incoming)
        .await
        .expect("it serves");
}
