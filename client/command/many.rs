//! `torque --csv`: a table of questions in, a table of answers out, line by line.

mod table;

use std::{
    fs::File,
    io::{self, Read},
    path::Path,
};

use clampbook_api::v1::{
    ComputeTorqueRequest, ComputeTorquesRequest, ComputeTorquesResponse, ManyAnswer, TorqueUnit,
    many_answer::Outcome, torque_service_client::TorqueServiceClient,
};
use tokio::time::timeout;
use tonic::{Request, Streaming};

use self::table::Line;
use crate::{call::Server, error::Failure, out::Out, show, transport};

/// Questions in one chunk, as many as the contract allows.
const CHUNK: usize = 256;

/// Largest table taken; only keeps a slip of the finger from filling the memory.
const LARGEST_FILE: u64 = 64 * 1024 * 1024;

pub(super) async fn run(
    path: &Path,
    unit: TorqueUnit,
    server: &Server,
    out: &Out,
) -> Result<(), Failure> {
    let lines = table::read(&text(path)?)?;
    // A torque is shown for people only where its unit is named.
    let told = match unit {
        TorqueUnit::Unspecified => TorqueUnit::NewtonMetre,
        unit => unit,
    };
    let asked: Vec<ComputeTorquesRequest> = lines
        .chunks(CHUNK)
        .map(|chunk| ComputeTorquesRequest {
            asks: chunk
                .iter()
                .filter_map(Line::ask)
                .map(|ask| ComputeTorqueRequest {
                    torque_unit: told.into(),
                    ..ask.clone()
                })
                .collect(),
        })
        .filter(|chunk| !chunk.asks.is_empty())
        .collect();
    let mut answers = match asked.is_empty() {
        true => None,
        false => Some(
            server
                .torque(
                    async |client: &mut TorqueServiceClient<_>, request: Request<Vec<_>>| {
                        client
                            .compute_torques(request.map(tokio_stream::iter))
                            .await
                    },
                    asked,
                )
                .await?,
        ),
    };
    if !out.is_json() {
        out.bytes(show::many::head(unit).as_bytes())?;
    }
    let mut without = 0;
    for chunk in lines.chunks(CHUNK) {
        let sent = chunk.iter().any(|line| line.ask().is_some());
        let answered = match &mut answers {
            Some(answers) if sent => next(answers, server).await?,
            _ => ComputeTorquesResponse::default(),
        };
        let whole = in_order(chunk, answered)?;
        without += whole.answers.iter().filter(|a| is_fault(a)).count();
        if out.is_json() {
            out.item(&whole, |_| String::new())?;
        } else {
            out.bytes(&show::many::rows(chunk.iter().map(Line::said), &whole)?)?;
        }
    }
    match without {
        0 => Ok(()),
        some => Err(Failure::usage(format!(
            "{some} of {} lines have no answer; the last column says why",
            lines.len()
        ))),
    }
}

async fn next(
    answers: &mut Streaming<ComputeTorquesResponse>,
    server: &Server,
) -> Result<ComputeTorquesResponse, Failure> {
    let answered = |status| Failure::answered(&status, server.address(), false);
    match timeout(server.timeout(), answers.message()).await {
        Ok(Ok(Some(chunk))) => Ok(chunk),
        Ok(Ok(None)) => Err(Failure::system(
            "the answers ended early",
            &"the server ended the stream",
        )),
        Ok(Err(status)) => Err(answered(transport::plain(status))),
        Err(_) => Err(answered(transport::deadline_passed())),
    }
}

/// Puts the faults of lines that could not even be sent back between the answers to the others.
fn in_order(
    lines: &[Line],
    answered: ComputeTorquesResponse,
) -> Result<ComputeTorquesResponse, Failure> {
    let mut received = answered.answers.into_iter();
    let answers = lines
        .iter()
        .map(|line| match line.fault() {
            Some(fault) => Ok(ManyAnswer {
                outcome: Some(Outcome::Fault(fault.clone())),
            }),
            None => received.next().ok_or_else(|| {
                Failure::system("an answer is missing", &"fewer answers than questions")
            }),
        })
        .collect::<Result<_, _>>()?;
    Ok(ComputeTorquesResponse {
        answers,
        ..answered
    })
}

fn is_fault(answer: &ManyAnswer) -> bool {
    !matches!(answer.outcome, Some(Outcome::Numbers(_)))
}

fn text(path: &Path) -> Result<String, Failure> {
    let bounded = |source: &mut dyn Read| {
        let mut text = String::new();
        source.take(LARGEST_FILE + 1).read_to_string(&mut text)?;
        Ok::<_, io::Error>(text)
    };
    let name = path.display();
    let text = match path.as_os_str() == "-" {
        true => bounded(&mut io::stdin().lock()),
        false => File::open(path).and_then(|mut file| bounded(&mut file)),
    }
    .map_err(|error| Failure::usage(format!("cannot read {name}: {error}")))?;
    if text.len() as u64 > LARGEST_FILE {
        return Err(Failure::usage(format!("{name} is larger than 64 MiB")));
    }
    Ok(text)
}
