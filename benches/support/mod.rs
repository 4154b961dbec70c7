//! What the benches share: server processes, a codec of raw bytes, a closed loop, and how figures are printed.

#![allow(dead_code, missing_docs, reason = "each bench uses a part of it")]

pub(crate) mod echo;

use std::io::{BufRead, BufReader};
use std::marker::PhantomData;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};
use tonic::Status;
use tonic::codec::{Codec, DecodeBuf, Decoder, EncodeBuf, Encoder};
use tonic::transport::{Channel, Endpoint};

/// A server process; killed when dropped.
pub(crate) struct Server {
    process: Child,
    pub(crate) url: String,
}

impl Server {
    /// Starts `clampbookd serve` on a journal.
    pub(crate) fn clampbook(data: &Path) -> Self {
        let mut command = Command::new(env!("CARGO_BIN_EXE_clampbookd"));
        command
            .args(["serve", "--listen", "127.0.0.1:0", "--data"])
            .arg(data);
        Self::start(command)
    }

    /// Starts this bench again with an argument; its first line must be the address.
    pub(crate) fn myself(argument: &str) -> Self {
        let mut command = Command::new(std::env::current_exe().expect("own program"));
        command.arg(argument);
        Self::start(command)
    }

    fn start(mut command: Command) -> Self {
        let mut process = command
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("the server starts");
        let mut line = String::new();
        BufReader::new(process.stdout.take().expect("a pipe"))
            .read_line(&mut line)
            .expect("the first line");
        let url = line.trim().trim_start_matches("listening on ").to_owned();
        Self { process, url }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.process.kill();
        let _ = self.process.wait();
    }
}

pub(crate) async fn connect(url: &str) -> Channel {
    Endpoint::from_shared(url.to_owned())
        .expect("an address")
        .tcp_nodelay(true)
        .connect()
        .await
        .expect("the server answers")
}

/// Runs `call` in a closed loop with `in_flight` at once for about `time`, and gives calls per second.
pub(crate) async fn closed_loop<F, Fut>(in_flight: usize, time: Duration, call: F) -> f64
where
    F: Fn(usize, u64) -> Fut + Clone + Send + 'static,
    Fut: Future<Output = ()> + Send,
{
    let start = Instant::now();
    let loops: Vec<_> = (0..in_flight)
        .map(|lane| {
            let call = call.clone();
            tokio::spawn(async move {
                let mut done = 0;
                while start.elapsed() < time {
                    call(lane, done).await;
                    done += 1;
                }
                done
            })
        })
        .collect();
    let mut total = 0;
    for lane in loops {
        total += lane.await.expect("a lane");
    }
    total as f64 / start.elapsed().as_secs_f64()
}

/// Passes bytes through as they are.
#[derive(Clone, Copy, Default)]
pub(crate) struct RawCodec(PhantomData<()>);

impl Codec for RawCodec {
    type Encode = Vec<u8>;
    type Decode = Vec<u8>;
    type Encoder = Self;
    type Decoder = Self;

    fn encoder(&mut self) -> Self {
        *self
    }

    fn decoder(&mut self) -> Self {
        *self
    }
}

impl Encoder for RawCodec {
    type Item = Vec<u8>;
    type Error = Status;

    fn encode(&mut self, item: Vec<u8>, buffer: &mut EncodeBuf<'_>) -> Result<(), Status> {
        bytes::BufMut::put_slice(buffer, &item);
        Ok(())
    }
}

impl Decoder for RawCodec {
    type Item = Vec<u8>;
    type Error = Status;

    fn decode(&mut self, buffer: &mut DecodeBuf<'_>) -> Result<Option<Vec<u8>>, Status> {
        let mut item = vec![0; bytes::Buf::remaining(buffer)];
        bytes::Buf::copy_to_slice(buffer, &mut item);
        Ok(Some(item))
    }
}

/// One figure, its floor in the same run, and their ratio.
pub(crate) fn report(what: &str, figure: f64, floor_is: &str, floor: f64, wanted: &str) {
    println!(
        "{what}: {figure:.0}/s; {floor_is}: {floor:.0}/s; ratio {:.2} (wanted {wanted})",
        figure / floor
    );
}

/// The middle one of several rates.
pub(crate) fn median(mut rates: Vec<f64>) -> f64 {
    rates.sort_by(f64::total_cmp);
    rates[rates.len() / 2]
}

pub(crate) fn ms(time: Duration) -> f64 {
    time.as_secs_f64() * 1_000.0
}
