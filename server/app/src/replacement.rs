//! Whether a replacement fits.

use super::joint::joint_of;
use super::{Call, Error};
use clampbook_book::fact::FastenerSpec;
use clampbook_book::ids::{JobId, JointId, PositionNumber};
use clampbook_book::orders;
use clampbook_book::refusal::Violation;
use clampbook_book::rules::fits::{self, FitCheck};

/// What there is to say about a fastener in a position.
#[derive(Clone, Debug)]
pub struct CheckedReplacement {
    /// The single checks.
    pub checks: Vec<FitCheck>,
    /// The fastener in the words of its standard.
    pub designation: String,
}

impl Call<'_> {
    /// Looks whether a fastener fits a position.
    ///
    /// # Errors
    /// Not found; a position that the joint does not have.
    pub async fn check_replacement(
        &self,
        job: &JobId,
        joint: &JointId,
        position: PositionNumber,
        part: &FastenerSpec,
    ) -> Result<CheckedReplacement, Error> {
        let job = self.find(job).await?;
        let joint = joint_of(&job, joint)?;
        let world = self.world();
        let checks = fits::check(joint, position, part, &world.asked(), job.torque_unit())
            .ok_or_else(|| {
                let most = joint.positions.len();
                let wrong = format!("the joint has no position {position}; allowed is 1 to {most}");
                Error::invalid(vec![Violation::new("position", wrong)])
            })?;
        Ok(CheckedReplacement {
            checks,
            designation: orders::designation(part, world.shop.catalogue()),
        })
    }
}
