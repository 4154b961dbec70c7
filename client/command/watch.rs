//! `watch`: a stream that is taken up again where it broke off.

use std::time::Duration;

use clampbook_api::v1::{Entry, WatchEntriesRequest, job_service_client::JobServiceClient};
use tokio::time::{sleep, timeout};
use tonic::{Code, Status, Streaming};

use crate::{
    args::WatchArgs, call::Server, error::Failure, name, out::Out, retry::jittered, show::journal,
    transport,
};

/// Pauses before a broken stream is taken up again.
const FIRST_PAUSE: Duration = Duration::from_millis(200);
const LONGEST_PAUSE: Duration = Duration::from_secs(5);

pub(super) async fn run(args: WatchArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let parent = name::stream(args.job.as_deref(), args.shop);
    let from = |after_sequence| WatchEntriesRequest {
        parent: parent.clone(),
        after_sequence,
    };
    // The first time is a call like any other: a wrong name or address is told at once.
    let mut stream = server
        .jobs(JobServiceClient::watch_entries, from(args.after))
        .await?;
    let mut last = args.after;
    loop {
        let ended = follow(&mut stream, &mut last, out).await?;
        broken(&ended, server)?;
        out.notice(&format!("clampbook: {}; connecting again", ended.message()));
        stream = again(from(last), server).await?;
    }
}

/// Prints entries until the stream ends, and says why it did.
async fn follow(
    stream: &mut Streaming<Entry>,
    last: &mut i64,
    out: &Out,
) -> Result<Status, Failure> {
    loop {
        match stream.message().await {
            Ok(Some(entry)) => {
                out.item(&entry, journal::entry)?;
                *last = entry.sequence;
            }
            Ok(None) => return Ok(Status::unavailable("the server ended the stream")),
            Err(status) => return Ok(transport::plain(status)),
        }
    }
}

/// Opens the stream again, as long as it takes.
async fn again(request: WatchEntriesRequest, server: &Server) -> Result<Streaming<Entry>, Failure> {
    let mut pause = FIRST_PAUSE;
    loop {
        sleep(jittered(pause)).await;
        pause = (pause * 2).min(LONGEST_PAUSE);
        let mut client = server.stream_client();
        let call = client.watch_entries(server.signed(request.clone()));
        let status = match timeout(server.timeout(), call).await {
            Ok(Ok(stream)) => return Ok(stream.into_inner()),
            Ok(Err(status)) => transport::plain(status),
            Err(_) => transport::deadline_passed(),
        };
        broken(&status, server)?;
    }
}

/// Goes on only when it is the way there, not the request, that is at fault.
fn broken(status: &Status, server: &Server) -> Result<(), Failure> {
    match status.code() {
        Code::Unavailable | Code::DeadlineExceeded => Ok(()),
        _ => Err(Failure::answered(status, server.address(), false)),
    }
}
