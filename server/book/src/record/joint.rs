//! A joint and its positions: what was said about them and still stands.

use crate::record::entry::{Said, etag};
use crate::record::fact::{
    Decided, FastenerSpec, JointAdded, Marked, NotRefitted, Refitted, Removed, Tightened,
};
use crate::record::ids::{EntryNumber, JobId, PositionNumber};
use crate::record::words::{DecisionKind, Tightness};
use std::sync::Arc;

/// A joint with all that was said about its positions.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// Entry that added it.
    pub entry: EntryNumber,
    /// Number of the last entry that touched it.
    pub touched: EntryNumber,
    /// Its description as it now stands.
    pub fact: Arc<JointAdded>,
    /// What was said about it as a whole and still stands, oldest first.
    pub records: Vec<Record>,
    /// Its positions; number 1 is first.
    pub positions: Vec<Arc<Position>>,
}

/// A position and everything said about it that still stands, oldest first.
#[derive(Clone, Debug, PartialEq)]
pub struct Position {
    /// Its number.
    pub number: PositionNumber,
    /// Number of the last entry that touched it.
    pub touched: EntryNumber,
    /// What was said, in the order of the entries' places.
    pub records: Vec<Record>,
}

/// Something said about a position, or about a joint as a whole.
#[derive(Clone, Debug, PartialEq)]
pub struct Record {
    /// The entry's place; a correction keeps the place of what it replaces.
    pub entry: EntryNumber,
    /// Who and when; of the correction where there is one.
    pub said: Said,
    /// What was said.
    pub saying: Saying,
}

/// The kinds of things said about a position; of a joint as a whole only what was marked.
#[derive(Clone, Debug, PartialEq)]
pub enum Saying {
    /// What was marked before parting.
    Marked(Marked),
    /// How the fastener came out.
    Removed(Removed),
    /// What was decided.
    Decided(Decided),
    /// What went in.
    Refitted(Refitted),
    /// How what is in was tightened.
    Tightened(Tightened),
    /// What became of pieces that did not go back.
    Accounted(NotRefitted),
}

/// Where a position stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Never taken out since the job was opened.
    InPlace,
    /// Out and not back in.
    Empty,
    /// Out, and by decision nothing goes back in.
    LeftOut,
    /// Back in.
    Fitted(Tightness),
}

impl Joint {
    /// The joint's etag.
    #[must_use]
    pub fn etag(&self) -> String {
        etag(self.touched)
    }

    /// The position with this number.
    #[must_use]
    pub fn position(&self, number: PositionNumber) -> Option<&Position> {
        self.positions
            .get(usize::from(number).checked_sub(1)?)
            .map(|p| &**p)
    }

    /// What was marked on it as a whole, oldest first.
    pub fn marked(&self) -> impl Iterator<Item = (&Record, &Marked)> {
        self.records.iter().filter_map(marked)
    }

    /// Name of a position; empty when it has none.
    #[must_use]
    pub fn label(&self, number: PositionNumber) -> &str {
        usize::from(number)
            .checked_sub(1)
            .and_then(|i| self.fact.labels.get(i))
            .map_or("", String::as_str)
    }

    /// Resource name of the joint in a job.
    #[must_use]
    pub fn name(&self, job: &JobId) -> String {
        format!("jobs/{job}/joints/{}", self.fact.joint)
    }
}

impl Position {
    /// The position's etag.
    #[must_use]
    pub fn etag(&self) -> String {
        etag(self.touched)
    }

    /// Where it stands.
    #[must_use]
    pub fn standing(&self) -> Standing {
        if self.is_left_out() {
            return Standing::LeftOut;
        }
        match (self.tight(), self.removal()) {
            (Some(tight), _) => Standing::Fitted(tight.tightness),
            (None, Some(_)) => Standing::Empty,
            (None, None) => Standing::InPlace,
        }
    }

    /// Whether it is empty on purpose: by the last decision nothing goes in, and nothing did.
    #[must_use]
    pub fn is_left_out(&self) -> bool {
        let decision = self.decision();
        decision.is_some_and(|(_, decided)| decided.kind == DecisionKind::LeaveOut)
            && self.refit().is_none()
    }

    /// How the fastener last came out.
    #[must_use]
    pub fn removal(&self) -> Option<(&Record, &Removed)> {
        self.records.iter().rev().find_map(|r| match &r.saying {
            Saying::Removed(removed) => Some((r, removed)),
            _ => None,
        })
    }

    /// The last decision since the removal.
    #[must_use]
    pub fn decision(&self) -> Option<(&Record, &Decided)> {
        self.since_removal().find_map(|r| match &r.saying {
            Saying::Decided(decided) => Some((r, decided)),
            _ => None,
        })
    }

    /// How the fastener that is in last went in since the removal.
    #[must_use]
    pub fn refit(&self) -> Option<(&Record, &Refitted)> {
        self.since_removal().find_map(|r| match &r.saying {
            Saying::Refitted(refitted) if !refitted.in_already => Some((r, refitted)),
            _ => None,
        })
    }

    /// The fastener that is to go in, if it is a new one.
    #[must_use]
    pub fn new_part(&self) -> Option<&FastenerSpec> {
        match (self.refit(), self.decision()) {
            (Some((_, refitted)), _) => refitted.new_part.as_ref(),
            (None, decision) => decision.and_then(|(_, decided)| decided.replacement.as_ref()),
        }
    }

    /// Grade of the fastener that is to go in, as far as it was shown; empty when unknown.
    #[must_use]
    pub fn grade(&self) -> &str {
        let shown = self
            .decision()
            .map(|(_, decided)| decided)
            .filter(|decided| !decided.grade_shown.is_empty() && !decided.citation.is_empty());
        // The grade of a fastener that was made is what its decision shows, whatever its head is said to be at the refit.
        let made = self
            .decision()
            .filter(|(_, decided)| decided.kind == DecisionKind::Make)
            .and_then(|(_, decided)| decided.replacement.as_ref());
        match (self.new_part().map(|part| made.unwrap_or(part)), shown) {
            (Some(part), _) => &part.grade,
            (None, Some(decided)) => &decided.grade_shown,
            (None, None) => self.removal().map_or("", |(_, removed)| &removed.grade),
        }
    }

    /// What was marked on it for its last removal or for one to come, oldest first: everything since it was last put back
    /// before that removal.
    pub fn marked(&self) -> impl Iterator<Item = (&Record, &Marked)> {
        let is_removal = |r: &Record| matches!(r.saying, Saying::Removed(_));
        let is_refit = |r: &Record| matches!(r.saying, Saying::Refitted(_));
        let removal = self.records.iter().rposition(is_removal);
        let before = &self.records[..removal.unwrap_or(self.records.len())];
        let from = before
            .iter()
            .rposition(is_refit)
            .map_or(0, |refit| refit + 1);
        self.records[from..].iter().filter_map(marked)
    }

    /// The refits that say what is in, newest first: the one that the fastener went in with, and those beside it since. Older
    /// entries said a refit again for each step of tightening, so of those all since the removal count.
    pub fn refits(&self) -> impl Iterator<Item = &Refitted> {
        let mut is_told = false;
        let refits = self.since_removal().filter_map(|r| match &r.saying {
            Saying::Refitted(refitted) => Some(refitted),
            _ => None,
        });
        refits.take_while(move |refitted| {
            let counts = !is_told;
            is_told |= refitted.tightness.is_none() && !refitted.in_already;
            counts
        })
    }

    /// What is known since the removal of pieces that did not go back, newest first.
    pub fn accounted(&self) -> impl Iterator<Item = &NotRefitted> {
        self.since_removal().filter_map(|r| match &r.saying {
            Saying::Accounted(accounted) => Some(accounted),
            _ => None,
        })
    }

    /// Records after the last removal, newest first.
    pub(in crate::record) fn since_removal(&self) -> impl Iterator<Item = &Record> {
        self.records
            .iter()
            .rev()
            .take_while(|r| !matches!(r.saying, Saying::Removed(_)))
    }
}

fn marked(record: &Record) -> Option<(&Record, &Marked)> {
    match &record.saying {
        Saying::Marked(marked) => Some((record, marked)),
        _ => None,
    }
}
