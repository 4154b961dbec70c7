//! How many positions stand how.

use crate::job::{Job, Joint, Standing};
use crate::words::Tightness;

/// Positions by where they stand.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Standings {
    /// Never taken out.
    pub in_place: u32,
    /// Out and not back in.
    pub empty: u32,
    /// Back in, not at the final torque.
    pub loose: u32,
    /// Back in, at the final torque.
    pub tight: u32,
}

impl Standings {
    /// Counts the positions of a job.
    #[must_use]
    pub fn of(job: &Job) -> Self {
        let mut counts = Self::default();
        for joint in &job.joints {
            counts.add(joint);
        }
        counts
    }

    /// Adds the positions of a joint.
    pub fn add(&mut self, joint: &Joint) {
        for position in &joint.positions {
            let count = match position.standing() {
                Standing::InPlace => &mut self.in_place,
                Standing::Empty => &mut self.empty,
                Standing::Fitted(Tightness::Started | Tightness::Snug) => &mut self.loose,
                Standing::Fitted(Tightness::Final) => &mut self.tight,
            };
            *count += 1;
        }
    }
}
