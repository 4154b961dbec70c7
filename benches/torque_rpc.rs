//! ComputeTorque against an echo call that returns the very same bytes, at 1, 8 and 64 in flight on one connection.
//! Both servers are processes of their own; both are called with raw bytes, so that the client costs the same.

mod support;

use clampbook_api::v1::{ComputeTorqueRequest, ComputeTorqueResponse};
use prost::Message;
use std::time::Duration;
use support::{RawCodec, Server, closed_loop, connect, echo, median, report};
use tonic::Request;
use tonic::codegen::http;
use tonic::transport::Channel;

const TORQUE: &str = "/clampbook.v1.TorqueService/ComputeTorque";
const IN_FLIGHT: [usize; 3] = [1, 8, 64];
/// Of the echo; an answer copies the texts of its sources, which one call at a time has nothing to hide behind.
const WANTED: [&str; 3] = [">= 0.85", ">= 0.90", ">= 0.90"];
const TIME: Duration = Duration::from_millis(300);
const ROUNDS: usize = 5;
/// Where a process happens to run decides more about one call at a time than what it does; so both servers are started anew
/// so many times.
const STARTS: usize = 5;

fn main() {
    echo::main(measure());
}

async fn measure() {
    let ask = ComputeTorqueRequest {
        thread: "7/16-20".into(),
        grade: "SAE J429 5".into(),
        lubrication: "dry".into(),
        ..Default::default()
    }
    .encode_to_vec();
    let mut rates = IN_FLIGHT.map(|_| [const { Vec::new() }; 3]);
    for start in 0..STARTS {
        let folder = tempfile::tempdir().expect("a folder");
        let ours = Server::clampbook(&folder.path().join("bench.clampbook"));
        let floor = Server::myself(echo::ARGUMENT);
        let (ours, same_back) = (connect(&ours.url).await, connect(&floor.url).await);
        let answer = call(ours.clone(), TORQUE, ask.clone()).await;
        ComputeTorqueResponse::decode(answer.as_slice()).expect("an answer");
        if start == 0 {
            println!("answer: {} bytes", answer.len());
        }
        for (in_flight, rates) in IN_FLIGHT.into_iter().zip(&mut rates) {
            // The echo is told what to return, so its request is the answer. Rounds alternate, so that what else the machine
            // does falls on all alike; the medians are compared.
            for _ in 0..ROUNDS {
                rates[0].push(run(&ours, TORQUE, &ask, in_flight).await);
                rates[1].push(run(&same_back, echo::CALL, &answer, in_flight).await);
                rates[2].push(run(&same_back, echo::CALL, &[], in_flight).await);
            }
        }
    }
    for ((in_flight, wanted), rates) in IN_FLIGHT.into_iter().zip(WANTED).zip(rates) {
        let [torque, same, empty] = rates.map(median);
        report(
            &format!("ComputeTorque, {in_flight} in flight"),
            torque,
            "echo of the same bytes",
            same,
            wanted,
        );
        println!("  empty echo: {empty:.0}/s");
    }
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
