//! How tight the fitted fastener is: by the last tightening since it went in, else by hand only.

use crate::record::fact::{Refitted, TorqueRead};
use crate::record::joint::{Position, Record, Saying};
use crate::record::words::Tightness;

/// How tight a fastener is, and what says so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tight<'p> {
    /// The entry that says so.
    pub record: &'p Record,
    /// How tight.
    pub tightness: Tightness,
    /// What was read, and what was asked for.
    pub torque: &'p TorqueRead,
    /// What else was said of it.
    pub note: &'p str,
}

impl Position {
    /// How tight its fastener is; nothing when none went in since the removal.
    ///
    /// A fastener that goes in is by hand only, whatever it was before. What goes in beside one that is in already, a split
    /// pin for one, leaves it as it is.
    #[must_use]
    pub fn tight(&self) -> Option<Tight<'_>> {
        self.since_removal()
            .find_map(|record| match &record.saying {
                Saying::Tightened(tightened) => Some(Tight {
                    record,
                    tightness: tightened.step.tightness(),
                    torque: &tightened.torque,
                    note: &tightened.note,
                }),
                Saying::Refitted(refitted) if !refitted.in_already => Some(Tight {
                    record,
                    tightness: refitted.tightness.unwrap_or(Tightness::Started),
                    torque: &refitted.torque,
                    note: &refitted.note,
                }),
                _ => None,
            })
    }

    /// Every step that its fastener was tightened by since it went in, the last first.
    pub fn tightenings(&self) -> impl Iterator<Item = (&Record, &TorqueRead)> {
        let mut went_in = false;
        let since = self.since_removal().take_while(move |record| {
            let counts = !went_in;
            went_in |= matches!(&record.saying, Saying::Refitted(refitted) if !refitted.in_already);
            counts
        });
        since.filter_map(|record| match &record.saying {
            Saying::Tightened(tightened) => Some((record, &tightened.torque)),
            Saying::Refitted(refitted) => Some((record, &refitted.torque)),
            _ => None,
        })
    }

    /// What went in beside the fastener since it went in, oldest first.
    pub fn beside(&self) -> impl Iterator<Item = (&Record, &Refitted)> {
        let is_in = |record: &&Record| match &record.saying {
            Saying::Refitted(refitted) => refitted.in_already,
            _ => true,
        };
        let since = self.since_removal().take_while(is_in).count();
        let after = &self.records[self.records.len() - since..];
        after.iter().filter_map(|record| match &record.saying {
            Saying::Refitted(refitted) => Some((record, refitted)),
            _ => None,
        })
    }

    /// What says that its fastener is at its final torque, if it is.
    #[must_use]
    pub fn at_final(&self) -> Option<Tight<'_>> {
        self.tight()
            .filter(|tight| tight.tightness == Tightness::Final)
    }
}
