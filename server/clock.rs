//! The wall clock; the one place that reads it.

use clampbook_book::entry::Moment;
use clampbook_journal::Clock;
use std::sync::Arc;
use std::time::{Duration, SystemTime, UNIX_EPOCH};

/// The machine's clock in UTC; moments before 1970 read as 1970.
pub(crate) fn system() -> Clock {
    Arc::new(|| {
        let since = since_1970().unwrap_or_default();
        Moment(i64::try_from(since.as_micros()).unwrap_or(i64::MAX))
    })
}

/// Whether the machine's clock was never set, or is far behind.
pub(crate) fn is_before_1970() -> bool {
    since_1970().is_none()
}

fn since_1970() -> Option<Duration> {
    #[expect(
        clippy::disallowed_methods,
        reason = "this is the clock that everything else is given"
    )]
    SystemTime::now().duration_since(UNIX_EPOCH).ok()
}
