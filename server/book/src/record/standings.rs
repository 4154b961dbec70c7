//! How many positions stand how.

use crate::record::joint::{Joint, Standing};
use crate::record::joints::Joints;
use crate::record::words::Tightness;

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
    /// Out, and by decision nothing goes back in.
    pub left_out: u32,
}

impl Standings {
    /// Counts the positions of all joints of a job.
    #[must_use]
    pub fn of(joints: &Joints) -> Self {
        let mut counts = Self::default();
        for joint in joints.iter() {
            counts.add(joint);
        }
        counts
    }

    /// Adds the positions of a joint.
    pub fn add(&mut self, joint: &Joint) {
        for position in &joint.positions {
            *self.count(position.standing()) += 1;
        }
    }

    /// A position that was counted stands elsewhere now.
    pub(crate) fn moved(&mut self, from: Standing, to: Standing) {
        *self.count(from) -= 1;
        *self.count(to) += 1;
    }

    fn count(&mut self, standing: Standing) -> &mut u32 {
        match standing {
            Standing::InPlace => &mut self.in_place,
            Standing::Empty => &mut self.empty,
            Standing::LeftOut => &mut self.left_out,
            Standing::Fitted(Tightness::Started | Tightness::Snug) => &mut self.loose,
            Standing::Fitted(Tightness::Final) => &mut self.tight,
        }
    }
}
