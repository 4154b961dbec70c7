//! `many.proto`: chunks of questions and answers. Texts stand once in a chunk, items refer to them.

use super::words::{Word, severity};
use super::{Check, catalog, torque};
use crate::app::many::CHUNK;
use crate::app::{App, Error};
use clampbook_api::v1 as wire;
use clampbook_engine::{Answer, Cited, show};

/// Answers a chunk, item by item; what is wrong with one is said in its place.
///
/// # Errors
/// A chunk that is empty or too long.
pub(crate) fn answers(
    app: &App,
    chunk: &wire::ComputeTorquesRequest,
) -> Result<wire::ComputeTorquesResponse, Error> {
    let count = chunk.asks.len();
    let mut check = Check::default();
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
            let outcome = match App::one_of_many(&catalogue, &ask, found) {
                Ok(answer) => {
                    let mut numbers = shared.numbers(&answer);
                    if request.torque_unit() != wire::TorqueUnit::Unspecified {
                        numbers.torque_text = show::torque(answer.torque, torque::unit(request));
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
        sources: shared.sources.iter().map(catalog::cited).collect(),
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
            proof_load_n: answer.working_load.get(),
            least_clamp_load_n: answer.scatter.least.get(),
            greatest_clamp_load_n: answer.scatter.greatest.get(),
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
        reason: error.reason.into(),
        message: error.message,
        fields: fields
            .map(|violation| wire::FieldFault {
                field: violation.field,
                text: violation.wrong,
            })
            .collect(),
    }
}
