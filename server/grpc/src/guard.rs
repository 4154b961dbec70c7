//! Who speaks and how long a call may take, from its metadata; what that means is the use cases' guard's.

use crate::status::status;
use crate::{Validator, photo};
use clampbook_api::{DEVICE_KEY, PERSON_KEY};
use clampbook_app::{App, Call, Caller, Error, LONGEST, Operation, Role};
use clampbook_book::bounds;
use clampbook_book::entry;
use http::HeaderName;
use percent_encoding::percent_decode_str;
use std::future::Future;
use std::sync::Arc;
use std::time::Duration;
use tokio::sync::Semaphore;
use tonic::metadata::MetadataMap;
use tonic::{Request, Response, Status};

static PERSON: HeaderName = HeaderName::from_static(PERSON_KEY);
static DEVICE: HeaderName = HeaderName::from_static(DEVICE_KEY);

/// Use cases behind the guard.
#[derive(Clone)]
pub(crate) struct Guard {
    pub(crate) app: App,
    role: Role,
    /// Who speaks when nobody is named.
    unnamed: entry::Caller,
    /// Room for photos that are under way.
    pub(crate) photos: Arc<Semaphore>,
}

impl Guard {
    /// Puts the guard before the use cases; callers may do what the role includes.
    pub(crate) fn new(app: App, role: Role) -> Self {
        Self {
            app,
            role,
            unnamed: Caller::unnamed(),
            photos: Arc::new(Semaphore::new(photo::UNDER_WAY)),
        }
    }

    /// Runs a call that waits for something: the journal, or a thread that may block.
    pub(crate) async fn call<'a, Q, A, F>(
        &'a self,
        operation: Operation,
        request: Request<Q>,
        run: impl FnOnce(Call<'a>, Q) -> F,
    ) -> Result<Response<A>, Status>
    where
        F: Future<Output = Result<A, Error>>,
    {
        let limit = time_limit(request.metadata());
        let caller = self.caller(request.metadata()).map_err(|e| status(&e))?;
        let run = |call| run(call, request.into_inner());
        answer(
            operation,
            self.app.call(caller, operation, limit, run).await,
        )
    }

    /// Runs a call that only calculates.
    pub(crate) fn calculate<'a, Q, A>(
        &'a self,
        operation: Operation,
        request: Request<Q>,
        run: impl FnOnce(Call<'a>, Q) -> Result<A, Error>,
    ) -> Result<Response<A>, Status> {
        let caller = self.caller(request.metadata()).map_err(|e| status(&e))?;
        let run = |call| run(call, request.into_inner());
        answer(operation, self.app.calculate(caller, operation, run))
    }

    /// Lets a caller in whose call is a stream; also how long the rest may take.
    pub(crate) fn let_in<Q>(
        &self,
        operation: Operation,
        request: &Request<Q>,
    ) -> Result<(Call<'_>, Duration), Status> {
        let limit = time_limit(request.metadata());
        let call = self
            .caller(request.metadata())
            .and_then(|caller| self.app.let_in(caller, operation));
        Ok((call.map_err(|e| status(&e))?, limit))
    }

    /// Who speaks, from the call's metadata.
    fn caller(&self, metadata: &MetadataMap) -> Result<Caller, Error> {
        let mut check = Validator::default();
        let mut named = |key: &HeaderName, otherwise: &Arc<str>| {
            let given = metadata.as_ref().get(key);
            let given = given.and_then(|value| value.to_str().ok());
            let Some(given) = given else {
                return Arc::clone(otherwise);
            };
            let said = percent_decode_str(given).decode_utf8_lossy();
            match check.text(key.as_str(), &said, bounds::SHORT).as_str() {
                "" => Arc::clone(otherwise),
                name => name.into(),
            }
        };
        let who = entry::Caller {
            person: named(&PERSON, &self.unnamed.person),
            device: named(&DEVICE, &self.unnamed.device),
        };
        check.finish(Some(Caller {
            who,
            role: self.role,
        }))
    }
}

pub(crate) fn answer<A>(
    operation: Operation,
    outcome: Result<A, Error>,
) -> Result<Response<A>, Status> {
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
