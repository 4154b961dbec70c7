//! `photo`.

use std::{
    fs::File,
    io::{Read, Write},
    path::Path,
};

use clampbook_api::v1::{
    AddPhotoRequest, GetPhotoRequest, GetPhotoResponse, Photo, job_service_client::JobServiceClient,
};
use tokio::time::timeout;
use tonic::{Request, Streaming};

use super::jobs;
use crate::{
    args::{GetPhotoArgs, PhotoArgs, PhotoCommand, Subject},
    call::Server,
    error::Failure,
    name,
    out::Out,
    show, transport,
};

/// Largest photo that is read; the server says what it allows.
const LARGEST_FILE: u64 = 64 << 20;

/// Bytes of a chunk that is sent.
const CHUNK: usize = 256 * 1024;

pub(super) async fn run(command: PhotoCommand, server: &Server, out: &Out) -> Result<(), Failure> {
    match command {
        PhotoCommand::Add(args) => add(args, server, out).await,
        PhotoCommand::Get(args) => get(args, server, out).await,
        PhotoCommand::List { job } => {
            let job = jobs::get(&job, server).await?;
            out.answer(&job, show::photo::list)
        }
    }
}

async fn add(args: PhotoArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let content = content(&args.file)?;
    let (subject, position) = named(&args.job, &args.of);
    let ticket = args.change.ticket();
    let first = AddPhotoRequest {
        photo: Some(Photo {
            subject,
            position,
            caption: args.caption,
            size_bytes: i64::try_from(content.len()).unwrap_or(i64::MAX),
            ..Photo::default()
        }),
        request_id: ticket.request_id(),
        ..AddPhotoRequest::default()
    };
    let chunks = content.chunks(CHUNK).map(|chunk| AddPhotoRequest {
        chunk: chunk.to_vec(),
        ..AddPhotoRequest::default()
    });
    let messages: Vec<_> = std::iter::once(first).chain(chunks).collect();
    let answer = server
        .change(
            &ticket,
            async |client: &mut JobServiceClient<_>, request: Request<Vec<_>>| {
                client.add_photo(request.map(tokio_stream::iter)).await
            },
            messages,
        )
        .await?;
    out.answer(&answer, show::recorded::photo)
}

/// Name and position of what a photo is of.
pub(super) fn named(job: &str, of: &Subject) -> (String, i32) {
    match of {
        Subject::Machine => (name::job(job), 0),
        Subject::Assembly(id) => (name::assembly(job, id), 0),
        Subject::Joint(id, position) => (name::joint(job, id), *position),
        Subject::Finding(entry) => (name::entry(job, entry), 0),
    }
}

async fn get(args: GetPhotoArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let request = GetPhotoRequest {
        name: name::entry(&args.job, &args.entry),
    };
    let mut answers = server.jobs(JobServiceClient::get_photo, request).await?;
    let photo = next(&mut answers, server)
        .await?
        .and_then(|first| first.photo);
    let photo = photo.unwrap_or_default();
    let mut content = Vec::new();
    while let Some(mut answer) = next(&mut answers, server).await? {
        content.append(&mut answer.chunk);
    }
    if i64::try_from(content.len()) != Ok(photo.size_bytes) {
        return Err(Failure::system(
            "the photo ended early",
            &format!("{} of {} bytes came", content.len(), photo.size_bytes),
        ));
    }
    if args.file.as_os_str() == "-" {
        return out.bytes(&content);
    }
    let name = args.file.display();
    File::create_new(&args.file)
        .and_then(|mut file| file.write_all(&content))
        .map_err(|error| Failure::usage(format!("cannot write {name}: {error}")))?;
    out.answer(&photo, |photo| show::photo::written(photo, &args.file))
}

async fn next(
    answers: &mut Streaming<GetPhotoResponse>,
    server: &Server,
) -> Result<Option<GetPhotoResponse>, Failure> {
    let status = match timeout(server.timeout(), answers.message()).await {
        Ok(Ok(answer)) => return Ok(answer),
        Ok(Err(status)) => transport::plain(status),
        Err(_) => transport::deadline_passed(),
    };
    Err(Failure::answered(&status, server.address(), false))
}

fn content(path: &Path) -> Result<Vec<u8>, Failure> {
    let name = path.display();
    let mut content = Vec::new();
    File::open(path)
        .and_then(|file| file.take(LARGEST_FILE).read_to_end(&mut content))
        .map_err(|error| Failure::usage(format!("cannot read {name}: {error}")))?;
    Ok(content)
}
