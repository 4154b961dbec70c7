//! ComputeTorque against an echo call that returns the very same bytes, at 1, 8 and 64 in flight on one connection.
//! Both servers are processes of their own; both are called with raw bytes, so that the client costs the same.

mod support;

use clampbook_api::v1::{ComputeTorqueRequest, ComputeTorqueResponse};
use prost::Message;
use std::convert::Infallible;
use std::task::{Context, Poll};
use std::time::Duration;
use support::{RawCodec, Server, closed_loop, connect, report};
use tonic::codegen::{BoxFuture, http};
use tonic::transport::Channel;
use tonic::{Request, Response, Status};

const TORQUE: &str = "/clampbook.v1.TorqueService/ComputeTorque";
const SAME: &str = "/bench.Echo/Same";
const TIME: Duration = Duration::from_millis(500);
const ROUNDS: usize = 9;

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

async fn measure() {
    let folder = tempfile::tempdir().expect("a folder");
    let ours = Server::clampbook(&folder.path().join("bench.clampbook"));
    let echo = Server::myself("echo");
    let ask = ComputeTorqueRequest {
        thread: "7/16-20".into(),
        grade: "SAE J429 5".into(),
        condition: "dry".into(),
        ..Default::default()
    }
    .encode_to_vec();
    let (ours, echo) = (connect(&ours.url).await, connect(&echo.url).await);
    let answer = call(ours.clone(), TORQUE, ask.clone()).await;
    ComputeTorqueResponse::decode(answer.as_slice()).expect("an answer");
    println!("answer: {} bytes", answer.len());
    for in_flight in [1, 8, 64] {
        // The echo is told what to return, so its request is the answer. Rounds alternate, so that what else the machine
        // does falls on all alike; the medians are compared.
        let mut rates = [const { Vec::new() }; 3];
        for _ in 0..ROUNDS {
            rates[0].push(run(&ours, TORQUE, &ask, in_flight).await);
            rates[1].push(run(&echo, SAME, &answer, in_flight).await);
            rates[2].push(run(&echo, SAME, &[], in_flight).await);
        }
        let [torque, same, empty] = rates.map(median);
        report(
            &format!("ComputeTorque, {in_flight} in flight"),
            torque,
            "echo of the same bytes",
            same,
            ">= 0.90",
        );
        println!("  empty echo: {empty:.0}/s");
    }
}

fn median(mut rates: Vec<f64>) -> f64 {
    rates.sort_by(f64::total_cmp);
    rates[rates.len() / 2]
}

async fn run(channel: &Channel, path: &'static str, bytes: &[u8], in_flight: usize) -> f64 {
    let (channel, bytes) = (channel.clone(), bytes.to_vec());
    closed_loop(in_flight, TIME, move |_, _| {
        let (channel, bytes) = (channel.clone(), bytes.clone());
        async move {
            call(channel, path, bytes).await;
        }
    })
    .await
}

async fn call(channel: Channel, path: &'static str, bytes: Vec<u8>) -> Vec<u8> {
    let mut client = tonic::client::Grpc::new(channel);
    client.ready().await.expect("ready");
    client
        .unary(
            Request::new(bytes),
            http::uri::PathAndQuery::from_static(path),
            RawCodec::default(),
        )
        .await
        .expect("an answer")
        .into_inner()
}

#[derive(Clone)]
struct Echo;

struct Same;

impl tonic::server::UnaryService<Vec<u8>> for Same {
    type Response = Vec<u8>;
    type Future = BoxFuture<Response<Vec<u8>>, Status>;

    fn call(&mut self, request: Request<Vec<u8>>) -> Self::Future {
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
            Ok(grpc.unary(Same, request).await)
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
        .add_service(Echo)
        .serve_with_incoming(incoming)
        .await
        .expect("it serves");
}
