//! What every call passes through: who speaks, how long it may take, and that a panic stays inside it.

use crate::status::status;
use clampbook_api::{DEVICE_KEY, PERSON_KEY};
use clampbook_app::{App, Caller, Error, Operation, Role};
use clampbook_book::bounds;
use clampbook_book::entry;
use clampbook_book::refusal::Violation;
use futures_util::FutureExt;
use http::HeaderName;
use percent_encoding::percent_decode_str;
use std::future::Future;
use std::panic::AssertUnwindSafe;
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::Semaphore;
use tonic::metadata::MetadataMap;
use tonic::{Request, Response, Status};

/// Longest a call may take, whatever the caller allows.
const LONGEST: Duration = Duration::from_secs(30);

static PERSON: HeaderName = HeaderName::from_static(PERSON_KEY);
static DEVICE: HeaderName = HeaderName::from_static(DEVICE_KEY);

/// Use cases behind the guard.
#[derive(Clone)]
pub(super) struct Guard {
    pub(super) app: App,
    pub(super) role: Role,
    /// Who speaks when nobody is named.
    pub(super) unnamed: entry::Caller,
    /// Room for photos that are under way.
    pub(super) photos: Arc<Semaphore>,
}

impl Guard {
    /// Runs a call that waits for something: the journal, or a thread that may block.
    pub(super) async fn call<Q, A, F>(
        &self,
        operation: Operation,
        request: Request<Q>,
        run: impl FnOnce(Caller, Q) -> F,
    ) -> Result<Response<A>, Status>
    where
        F: Future<Output = Result<A, Error>>,
    {
        let limit = time_limit(request.metadata());
        let caller = self.caller(request.metadata()).map_err(|e| status(&e))?;
        // Before the request is looked at: who may not do it learns nothing from what is wrong with it.
        caller.may(operation).map_err(|e| status(&e))?;
        let work = AssertUnwindSafe(run(caller, request.into_inner())).catch_unwind();
        let outcome = match tokio::time::timeout(limit, work).await {
            Ok(Ok(outcome)) => outcome,
            Ok(Err(panic)) => Err(Error::broken(&panic_text(panic.as_ref()))),
            Err(_) => Err(Error::deadline_passed(operation)),
        };
        answer(operation, outcome)
    }

    /// Runs a call that only calculates: it is done in microseconds, and a timer would cost more than the answer.
    pub(super) fn calculate<Q, A>(
        &self,
        operation: Operation,
        request: Request<Q>,
        run: impl FnOnce(Caller, Q) -> Result<A, Error>,
    ) -> Result<Response<A>, Status> {
        let caller = self.caller(request.metadata()).map_err(|e| status(&e))?;
        // Before the request is looked at: who may not do it learns nothing from what is wrong with it.
        caller.may(operation).map_err(|e| status(&e))?;
        answer(
            operation,
            Self::contain(|| run(caller, request.into_inner())),
        )
    }

    /// Keeps a panic inside what is being done.
    pub(super) fn contain<A>(run: impl FnOnce() -> Result<A, Error>) -> Result<A, Error> {
        std::panic::catch_unwind(AssertUnwindSafe(run))
            .unwrap_or_else(|panic| Err(Error::broken(&panic_text(panic.as_ref()))))
    }

    /// Who speaks, from the call's metadata.
    pub(super) fn caller(&self, metadata: &MetadataMap) -> Result<Caller, Error> {
        let mut wrong: Vec<Violation> = Vec::new();
        let mut named = |key: &HeaderName, otherwise: &Arc<str>| {
            let given = metadata.as_ref().get(key);
            let given = given.and_then(|value| value.to_str().ok());
            let Some(given) = given else {
                return Arc::clone(otherwise);
            };
            let said = percent_decode_str(given).decode_utf8_lossy();
            let name = said.trim();
            wrong.extend(bounds::text(key.as_str(), name, bounds::SHORT));
            match name {
                "" => Arc::clone(otherwise),
                name => name.into(),
            }
        };
        let who = entry::Caller {
            person: named(&PERSON, &self.unnamed.person),
            device: named(&DEVICE, &self.unnamed.device),
        };
        if wrong.is_empty() {
            Ok(Caller {
                who,
                role: self.role,
            })
        } else {
            Err(Error::invalid(wrong))
        }
    }
}

fn answer<A>(operation: Operation, outcome: Result<A, Error>) -> Result<Response<A>, Status> {
    outcome.map(Response::new).map_err(|error| {
        tracing::debug!(
            rpc.method = operation.name(),
            error.reason = error.reason.name(),
            "refused"
        );
        status(&error)
    })
}

/// The shorter of our limit and a little less than the caller's: tonic cuts a call off at the caller's own limit with
/// CANCELLED, and we want to say DEADLINE_EXCEEDED before it does.
fn time_limit(metadata: &MetadataMap) -> Duration {
    let asked = metadata
        .get("grpc-timeout")
        .and_then(|value| value.to_str().ok())
        .and_then(parse_timeout);
    match asked {
        Some(asked) if asked < LONGEST => asked.mul_f64(0.95),
        _ => LONGEST,
    }
}

/// The form of the gRPC protocol: up to eight digits and a unit.
fn parse_timeout(text: &str) -> Option<Duration> {
    let (digits, unit) = text.split_at_checked(text.len().checked_sub(1)?)?;
    if digits.is_empty() || digits.len() > 8 {
        return None;
    }
    let count: u64 = digits.parse().ok()?;
    Some(match unit {
        "H" => Duration::from_secs(count * 3_600),
        "M" => Duration::from_secs(count * 60),
        "S" => Duration::from_secs(count),
        "m" => Duration::from_millis(count),
        "u" => Duration::from_micros(count),
        "n" => Duration::from_nanos(count),
        _ => return None,
    })
}

fn panic_text(panic: &(dyn std::any::Any + Send)) -> String {
    let text = panic
        .downcast_ref::<&str>()
        .map(|s| (*s).to_owned())
        .or_else(|| panic.downcast_ref::<String>().cloned());
    format!(
        "panic: {}",
        text.unwrap_or_else(|| "of no known kind".into())
    )
}

#[cfg(test)]
mod tests {
    use super::parse_timeout;
    use std::time::Duration;

    #[test]
    fn timeouts_are_read_as_the_protocol_writes_them() {
        assert_eq!(parse_timeout("250m"), Some(Duration::from_millis(250)));
        assert_eq!(parse_timeout("2S"), Some(Duration::from_secs(2)));
        for wrong in ["", "S", "1", "123456789S", "-1S", "1s"] {
            assert_eq!(parse_timeout(wrong), None, "{wrong}");
        }
    }
}
