//! Many torques in one breath: a stream of chunks, one in, one out, in order. Texts stand once in a chunk, items refer to
//! them.

use crate::guard::Guard;
use crate::status::status;
use crate::words::{Word, severity};
use crate::{Validator, catalogue, torque};
use clampbook_api::v1 as wire;
use clampbook_app::many::{CHUNK, one_of_many};
use clampbook_app::{App, Error, Operation, contain};
use clampbook_engine::quantity::TorqueUnit;
use clampbook_engine::{Answer, Cited, show};
use futures_util::stream::{Stream, try_unfold};
use std::pin::Pin;
use std::time::Duration;
use tonic::{Code, Request, Response, Status, Streaming};

/// Longest a stream may stay silent between two chunks.
const SILENCE: Duration = Duration::from_secs(30);

/// Chunks of answers.
pub(crate) type Answers =
    Pin<Box<dyn Stream<Item = Result<wire::ComputeTorquesResponse, Status>> + Send>>;

/// Answers chunk after chunk. The next is taken only when the last was sent off, so a slow reader costs nothing.
pub(crate) fn compute(
    guard: &Guard,
    request: Request<Streaming<wire::ComputeTorquesRequest>>,
) -> Result<Response<Answers>, Status> {
    guard.let_in(Operation::ComputeTorques, &request)?;
    let state = (guard.app.clone(), request.into_inner());
    let chunks = try_unfold(state, |(app, mut incoming)| async move {
        let Some(chunk) = next(&app, &mut incoming).await? else {
            return Ok(None);
        };
        let answer = contain(|| answers(&app, &chunk)).map_err(|e| status(&e))?;
        Ok(Some((answer, (app, incoming))))
    });
    Ok(Response::new(Box::pin(chunks)))
}

async fn next(
    app: &App,
    incoming: &mut Streaming<wire::ComputeTorquesRequest>,
) -> Result<Option<wire::ComputeTorquesRequest>, Status> {
    tokio::select! {
        biased;
        () = app.stopped() => Err(status(&Error::stopping())),
        chunk = tokio::time::timeout(SILENCE, incoming.message()) => match chunk {
            Ok(Ok(chunk)) => Ok(chunk),
            // What the codec will not read; nothing of ours answers with this code.
            Ok(Err(unread)) if unread.code() == Code::OutOfRange => {
                Err(status(&Error::too_large()))
            }
            Ok(Err(broken)) => Err(broken),
            Err(_) => Err(status(&Error::deadline_passed(Operation::ComputeTorques))),
        },
    }
}

/// Answers a chunk, item by item; what is wrong with one is said in its place.
///
/// # Errors
/// A chunk that is empty or too long.
fn answers(
    app: &App,
    chunk: &wire::ComputeTorquesRequest,
) -> Result<wire::ComputeTorquesResponse, Error> {
    let count = chunk.asks.len();
    let mut check = Validator::default();
    if count == 0 || count > CHUNK {
        let why = format!("has {count} items, allowed are 1 to {CHUNK}");
        check.wrong("asks", why);
    }
    check.finish(Some(()))?;
    let catalogue = app.catalogue();
    let mut shared = Shared::default();
    let answers = chunk
        .asks
        .iter()
        .map(|request| {
            let (ask, found) = torque::ask(request);
            let outcome = match one_of_many(&catalogue, &ask, found) {
                Ok(answer) => {
                    let mut numbers = shared.numbers(&answer);
                    if let Some(unit) = TorqueUnit::from_wire(request.torque_unit()) {
                        numbers.torque_text = show::torque(answer.torque, unit);
                    }
                    wire::many_answer::Outcome::Numbers(numbers)
                }
                Err(error) => wire::many_answer::Outcome::Fault(fault(error)),
            };
            wire::ManyAnswer {
                outcome: Some(outcome),
            }
        })
        .collect();
    Ok(wire::ComputeTorquesResponse {
        answers,
        sources: shared.sources.iter().map(catalogue::cited).collect(),
        texts: shared.texts.into_iter().map(Into::into).collect(),
    })
}

/// What the items of a chunk share.
#[derive(Default)]
struct Shared<'c> {
    texts: Vec<&'static str>,
    sources: Vec<Cited<'c>>,
}

impl<'c> Shared<'c> {
    fn numbers(&mut self, answer: &Answer<'c>) -> wire::ManyNumbers {
        wire::ManyNumbers {
            torque_nm: answer.torque.get(),
            clamp_load_n: answer.clamp_load.get(),
            nut_factor: answer.nut_factor.get(),
            working_load_n: answer.working_load.get(),
            minimum_clamp_load_n: answer.scatter.minimum.get(),
            maximum_clamp_load_n: answer.scatter.maximum.get(),
            governed_by: self.text(answer.governed_by.text()),
            assumptions: answer
                .assumptions
                .iter()
                .map(|a| self.text(a.text()))
                .collect(),
            cautions: answer
                .cautions
                .iter()
                .map(|c| self.text(c.text()))
                .collect(),
            sources: answer.sources.iter().map(|s| self.source(s)).collect(),
            checks: torque::findings(answer)
                .map(|finding| wire::ManyCheck {
                    text: self.text(finding.id.text()),
                    severity: severity(finding.severity).number(),
                    share: finding.share,
                })
                .collect(),
            torque_text: String::new(),
        }
    }

    fn text(&mut self, text: &'static str) -> i32 {
        index(&mut self.texts, text, |a, b| std::ptr::eq(*a, *b))
    }

    fn source(&mut self, cited: Cited<'c>) -> i32 {
        index(&mut self.sources, cited, |a, b| {
            std::ptr::eq(a.source, b.source) && a.used_for == b.used_for && a.basis == b.basis
        })
    }
}

/// Place of an item, added when it is not there yet. What is the same stands at the same address, so comparing is short.
fn index<T>(list: &mut Vec<T>, item: T, same: impl Fn(&T, &T) -> bool) -> i32 {
    let place = list.iter().position(|known| same(known, &item));
    let place = place.unwrap_or_else(|| {
        list.push(item);
        list.len() - 1
    });
    // A chunk has a few dozen texts at most.
    place as i32
}

fn fault(error: Error) -> wire::ManyFault {
    let fields = error.violations.into_iter();
    wire::ManyFault {
        reason: error.reason.name().into(),
        message: error.message,
        fields: fields
            .map(|violation| wire::FieldFault {
                field: violation.field,
                text: violation.wrong,
            })
            .collect(),
    }
}
