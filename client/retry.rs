//! When a call is sent again, and after what pause.

use std::{
    hash::{BuildHasher, RandomState},
    time::Duration,
};

use tokio::time::Instant;
use tonic::{Code, Status};
use tonic_types::StatusExt;

/// How often one call is sent at most.
const ATTEMPTS: u32 = 4;

/// First pause; each following one is twice as long.
const FIRST_PAUSE: Duration = Duration::from_millis(100);

/// The pauses of one call.
#[derive(Debug, Default)]
pub(crate) struct Backoff {
    failed: u32,
}

impl Backoff {
    /// How long to wait before the next attempt; nothing when there is to be none.
    pub(crate) fn pause(&mut self, status: &Status, deadline: Instant) -> Option<Duration> {
        self.failed += 1;
        if status.code() != Code::Unavailable || self.failed >= ATTEMPTS {
            return None;
        }
        let asked = status
            .get_details_retry_info()
            .and_then(|info| info.retry_delay)
            .unwrap_or_default();
        let pause = jittered(FIRST_PAUSE * 2_u32.pow(self.failed - 1)).max(asked);
        (Instant::now() + pause < deadline).then_some(pause)
    }
}

/// Between half of the pause and all of it, so that many clients do not come back in step.
pub(crate) fn jittered(pause: Duration) -> Duration {
    // A fresh hasher is seeded by the system: randomness enough for this.
    let share = f64::from(RandomState::new().hash_one(0_u8) as u32) / f64::from(u32::MAX);
    pause.mul_f64(0.5 + share / 2.0)
}

#[cfg(test)]
mod tests {
    use tonic_types::ErrorDetails;

    use super::*;

    fn far() -> Instant {
        Instant::now() + Duration::from_secs(3600)
    }

    #[test]
    fn only_unavailable_is_sent_again_and_four_times_in_all() {
        let mut backoff = Backoff::default();
        let away = Status::unavailable("away");
        let pauses: Vec<_> = std::iter::from_fn(|| backoff.pause(&away, far())).collect();
        assert_eq!(pauses.len(), 3);
        for (pause, whole) in pauses.iter().zip([100, 200, 400]) {
            let whole = Duration::from_millis(whole);
            assert!(
                (whole / 2..=whole).contains(pause),
                "{pause:?} of {whole:?}"
            );
        }
        for code in [
            Code::Aborted,
            Code::DeadlineExceeded,
            Code::Internal,
            Code::ResourceExhausted,
        ] {
            assert_eq!(
                Backoff::default().pause(&Status::new(code, ""), far()),
                None
            );
        }
    }

    #[test]
    fn the_server_may_ask_for_a_longer_pause_but_not_past_the_deadline() {
        let mut details = ErrorDetails::new();
        details.set_retry_info(Some(Duration::from_secs(2)));
        let busy = Status::with_error_details(Code::Unavailable, "busy", details);
        assert_eq!(
            Backoff::default().pause(&busy, far()),
            Some(Duration::from_secs(2))
        );
        let soon = Instant::now() + Duration::from_secs(1);
        assert_eq!(Backoff::default().pause(&busy, soon), None);
    }
}
