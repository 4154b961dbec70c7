//! Asking whether a joint holds: long form, weaker partner, lengths, stretch, slots.

use super::error::{from_faults, violations_of};
use super::{App, Caller, Error, Operation};
use clampbook_book::refusal::Violation;
use clampbook_engine::FaultReason;
use clampbook_engine::joint::check::JointFaults;
use clampbook_engine::joint::{
    self, CastleAnswer, CastleAsk, CastleQuestion, JointAsk, JointCheck, JointQuestion, LengthAsk,
    LengthQuestion, Lengths, Stretch, StretchAsk, StretchQuestion, align, check_joint, stretch,
};
use clampbook_engine::long_form::{LongAnswer, LongAsk, LongQuestion, compute_long_form};

impl App {
    /// Computes a torque by the long form and hands question and answer to `show`, which makes what the adapter carries.
    ///
    /// # Errors
    /// All faults as violations, or the refused purpose.
    pub(crate) fn long_form<T>(
        &self,
        caller: &Caller,
        ask: &LongAsk<'_>,
        show: impl FnOnce(&LongQuestion<'_>, &LongAnswer) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::ComputeLongFormTorque)?;
        let question = self
            .catalogue
            .resolve_long_form(ask)
            .map_err(|faults| from_faults(&faults, ""))?;
        Ok(show(&question, &compute_long_form(&question)))
    }

    /// Checks a joint, for `show`.
    ///
    /// # Errors
    /// As for the long form.
    pub(crate) fn joint_check<T>(
        &self,
        caller: &Caller,
        ask: &JointAsk<'_>,
        show: impl FnOnce(&JointQuestion<'_>, &JointCheck<'_>) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::CheckJoint)?;
        let question = self
            .catalogue
            .resolve_joint(ask)
            .map_err(|faults| from_joint_faults(&faults, ("torque.", ""), Vec::new()))?;
        Ok(show(&question, &check_joint(&question)))
    }

    /// Fits lengths, for `show`.
    ///
    /// # Errors
    /// All faults as violations.
    pub(crate) fn fit_length<T>(
        &self,
        caller: &Caller,
        ask: &LengthAsk<'_>,
        show: impl FnOnce(&LengthQuestion<'_>, &Lengths) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::FitLength)?;
        let question = self
            .catalogue
            .resolve_length(ask)
            .map_err(|faults| from_faults(&faults, ""))?;
        Ok(show(&question, &joint::fit_length(&question)))
    }

    /// Computes stretch, for `show`.
    ///
    /// # Errors
    /// As for the long form.
    pub(crate) fn compute_stretch<T>(
        &self,
        caller: &Caller,
        ask: &StretchAsk<'_>,
        show: impl FnOnce(&StretchQuestion<'_>, &Stretch<'_>) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::ComputeStretch)?;
        let question = self
            .catalogue
            .resolve_stretch(ask)
            .map_err(|faults| from_joint_faults(&faults, ("torque.", ""), Vec::new()))?;
        Ok(show(&question, &stretch(&question)))
    }

    /// Aligns a castellated nut, for `show`.
    ///
    /// # Errors
    /// As for the long form.
    pub(crate) fn align_castellated_nut<T>(
        &self,
        caller: &Caller,
        ask: &CastleAsk<'_>,
        show: impl FnOnce(&CastleQuestion<'_>, &CastleAnswer<'_>) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::AlignCastellatedNut)?;
        let question = self.catalogue.resolve_castle(ask).map_err(|faults| {
            let nut = violations_of(&faults.nut, "");
            from_joint_faults(&faults.joint, ("joint.torque.", "joint."), nut)
        })?;
        Ok(show(&question, &align(&question)))
    }
}

/// The faults of both parts, each under its own path, and what else is wrong.
fn from_joint_faults(
    faults: &JointFaults,
    (torque, stack): (&str, &str),
    others: Vec<Violation>,
) -> Error {
    let refused = |reason: &FaultReason| matches!(reason, FaultReason::PurposeRefused { .. });
    if faults.torque.iter().any(|fault| refused(&fault.reason)) {
        return from_faults(&faults.torque, torque);
    }
    let mut violations = violations_of(&faults.torque, torque);
    violations.extend(violations_of(&faults.stack, stack));
    violations.extend(others);
    Error::invalid(violations)
}
