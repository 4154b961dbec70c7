//! What a status really says: tonic's own failures brought back to the codes that gRPC gives them.

use std::{error::Error, iter::successors, time::Duration};

use clampbook_api::reason;
use tonic::{
    Code, ConnectError, Status, TimeoutExpired,
    transport::{Channel, Endpoint},
};
use tonic_types::StatusExt;

/// How often a connection with an open stream is tried, so that a silent peer does not hold a watch for ever.
const KEEP_ALIVE: Duration = Duration::from_secs(60);

/// A channel that connects when it is first used.
pub(crate) fn channel(endpoint: Endpoint) -> Channel {
    endpoint
        .http2_keep_alive_interval(KEEP_ALIVE)
        .connect_lazy()
}

/// The status as gRPC would have it: a run-out timer is DEADLINE_EXCEEDED and a broken connection UNAVAILABLE,
/// where tonic says CANCELLED, UNKNOWN or INTERNAL.
pub(crate) fn plain(status: Status) -> Status {
    if causes(&status).any(|cause| cause.is::<TimeoutExpired>()) {
        return deadline_passed();
    }
    let own = status.source().is_some();
    match status.code() {
        Code::Cancelled if status.message() == "Timeout expired" => deadline_passed(),
        Code::Cancelled | Code::Unknown | Code::Internal if own => {
            Status::unavailable(format!("the connection broke: {}", last_cause(&status)))
        }
        _ => status,
    }
}

/// The status of a call that took longer than it may.
pub(crate) fn deadline_passed() -> Status {
    Status::deadline_exceeded("no answer within the time allowed")
}

/// True when the connection could not even be opened.
pub(crate) fn unreachable(status: &Status) -> bool {
    causes(status).any(|cause| cause.is::<ConnectError>())
}

/// True when a failed request may have been written all the same.
pub(crate) fn may_be_done(status: &Status) -> bool {
    if unreachable(status) {
        return false;
    }
    match status.get_details_error_info().map(|info| info.reason) {
        Some(said) if said == reason::OUTCOME_UNKNOWN || said == reason::DEADLINE_PASSED => true,
        // Any other refusal is the server's word that nothing was written.
        Some(_) => false,
        None => matches!(
            status.code(),
            Code::Unavailable | Code::DeadlineExceeded | Code::Cancelled | Code::Unknown
        ),
    }
}

/// The innermost cause, which names what the system said.
pub(crate) fn last_cause(status: &Status) -> String {
    causes(status)
        .last()
        .map_or_else(|| status.message().to_owned(), ToString::to_string)
}

fn causes(status: &Status) -> impl Iterator<Item = &(dyn Error + 'static)> {
    successors(status.source(), |cause| (*cause).source())
}
