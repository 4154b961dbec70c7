//! Barriers: places where a kill test can hold the writer still, to end the process exactly there.
//!
//! Never set in ordinary use. The test arms the barrier by creating a file, waits for the other file, and kills.

use std::fs::File;
use std::path::PathBuf;
use std::str::FromStr;

/// Places in the writer where it can be held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BarrierPoint {
    /// The transaction has begun, nothing is written.
    AfterBegin,
    /// One entry is written, others of its request may follow.
    AfterInsert,
    /// All entries are written, the transaction is open.
    BeforeCommit,
    /// The transaction is committed, nobody knows yet.
    AfterCommit,
    /// Readers know, the callers do not yet.
    BeforeAnswer,
}

impl BarrierPoint {
    /// Every point, in the order the writer passes them.
    pub const ALL: [Self; 5] = [
        Self::AfterBegin,
        Self::AfterInsert,
        Self::BeforeCommit,
        Self::AfterCommit,
        Self::BeforeAnswer,
    ];

    /// Name as used on the command line.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::AfterBegin => "after-begin",
            Self::AfterInsert => "after-insert",
            Self::BeforeCommit => "before-commit",
            Self::AfterCommit => "after-commit",
            Self::BeforeAnswer => "before-answer",
        }
    }
}

/// Holds the writer for ever at a point, once it is armed.
#[derive(Clone, Debug)]
pub struct Barrier {
    /// Where to hold.
    pub point: BarrierPoint,
    /// File the writer creates when it is held.
    pub reached: PathBuf,
    /// File that arms the barrier by existing.
    pub armed: PathBuf,
}

/// Holds the writer at this point if its barrier stands there.
pub(crate) fn pass(barrier: Option<&Barrier>, point: BarrierPoint) {
    if let Some(barrier) = barrier {
        barrier.pass(point);
    }
}

impl Barrier {
    /// Never returns when this is the point and the barrier is armed.
    fn pass(&self, point: BarrierPoint) {
        if self.point != point || !self.armed.exists() {
            return;
        }
        if let Err(error) = File::create(&self.reached) {
            tracing::error!(%error, "cannot say that the barrier is reached");
        }
        loop {
            std::thread::park();
        }
    }
}

impl FromStr for Barrier {
    type Err = String;

    /// Parses `POINT=DIR`; the files are `DIR/armed` and `DIR/reached`.
    fn from_str(text: &str) -> Result<Self, String> {
        let wrong = || {
            let names = BarrierPoint::ALL.map(BarrierPoint::name).join(", ");
            format!("barrier {text:?} is not POINT=DIR with POINT one of {names}")
        };
        let (name, dir) = text.split_once('=').ok_or_else(wrong)?;
        let point = BarrierPoint::ALL
            .into_iter()
            .find(|p| p.name() == name)
            .filter(|_| !dir.is_empty())
            .ok_or_else(wrong)?;
        let dir = PathBuf::from(dir);
        Ok(Self {
            point,
            reached: dir.join("reached"),
            armed: dir.join("armed"),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::{Barrier, BarrierPoint};
    use std::path::Path;

    #[test]
    fn every_point_can_be_named() {
        for point in BarrierPoint::ALL {
            let text = format!("{}=/var/tmp/a=b", point.name());
            let barrier: Barrier = text.parse().expect("a barrier");
            assert_eq!(barrier.point, point);
            assert_eq!(barrier.armed, Path::new("/var/tmp/a=b/armed"));
            assert_eq!(barrier.reached, Path::new("/var/tmp/a=b/reached"));
        }
    }

    #[test]
    fn what_is_no_barrier_is_named() {
        for text in ["", "after-begin", "after-begin=", "after-lunch=/tmp", "=x"] {
            let error = text.parse::<Barrier>().expect_err("no barrier");
            assert!(
                error.contains(text) && error.contains("before-answer"),
                "{error}"
            );
        }
    }
}
