//! Torques by the chunk: ComputeTorques over one connection against a stream that returns the very same bytes, and
//! against the bare loop that looks up and computes the same questions without any network.

mod support;

use clampbook_api::v1::{
    ComputeTorqueRequest, ComputeTorquesRequest, ComputeTorquesResponse, many_answer::Outcome,
};
use clampbook_engine::{Ask, Catalogue, compute};
use futures_util::{StreamExt, stream};
use prost::Message;
use std::hint::black_box;
use std::time::{Duration, Instant};
use support::{RawCodec, Server, connect, echo, median, report};
use tonic::codegen::http;
use tonic::transport::Channel;
use tonic::{Request, Streaming};

const MANY: &str = "/clampbook.v1.TorqueService/ComputeTorques";
const CHUNK: usize = 256;
const TIME: Duration = Duration::from_millis(700);
const ROUNDS: usize = 7;

fn main() {
    echo::main(measure());
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
    let lubrications = ["dry", "oiled", "zinc plated"];
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
                lubrication: lubrications[i % lubrications.len()].into(),
                ..Default::default()
            }
        })
        .collect()
}

async fn measure() {
    let folder = tempfile::tempdir().expect("a folder");
    let ours = Server::clampbook(&folder.path().join("bench.clampbook"));
    let floor = Server::myself(echo::ARGUMENT);
    let asks = asks();
    let ask = ComputeTorquesRequest { asks: asks.clone() }.encode_to_vec();
    let (ours, same_back) = (connect(&ours.url).await, connect(&floor.url).await);
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
            rates[1].push(run(&same_back, echo::STREAM, &answer, streams).await);
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
                lubrication: &request.lubrication,
                ..Ask::default()
            };
            let question = catalogue.resolve(black_box(&ask)).expect("a good question");
            black_box(compute(&question));
            answers += 1;
        }
    }
    f64::from(answers) / start.elapsed().as_secs_f64()
}
