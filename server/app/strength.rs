//! Asking whether a joint holds: long form, weaker partner, lengths, stretch, slots.

use super::error::{from_faults, violations_of};
use super::{App, Caller, Error, Operation};
use clampbook_book::refusal::Violation;
use clampbook_engine::FaultReason;
use clampbook_engine::joint::check::JointFaults;
use clampbook_engine::joint::{
    CastleAsk, CastleQuestion, JointAsk, JointQuestion, LengthAsk, LengthQuestion, StretchAsk,
    StretchQuestion,
};
use clampbook_engine::long_form::{LongAsk, LongQuestion};

impl App {
    /// Looks up a question for the long form.
    ///
    /// # Errors
    /// All faults as violations, or the refused purpose.
    pub(crate) fn long_form(
        &self,
        caller: &Caller,
        ask: &LongAsk<'_>,
    ) -> Result<LongQuestion<'_>, Error> {
        caller.may(Operation::ComputeLongFormTorque)?;
        self.catalogue
            .resolve_long_form(ask)
            .map_err(|faults| from_faults(&faults, ""))
    }

    /// Looks up a question about a joint.
    ///
    /// # Errors
    /// As for the long form.
    pub(crate) fn joint_check(
        &self,
        caller: &Caller,
        ask: &JointAsk<'_>,
    ) -> Result<JointQuestion<'_>, Error> {
        caller.may(Operation::CheckJoint)?;
        self.catalogue
            .resolve_joint(ask)
            .map_err(|faults| from_joint_faults(&faults, ("torque.", ""), Vec::new()))
    }

    /// Looks up a question about lengths.
    ///
    /// # Errors
    /// All faults as violations.
    pub(crate) fn fit_length(
        &self,
        caller: &Caller,
        ask: &LengthAsk<'_>,
    ) -> Result<LengthQuestion<'_>, Error> {
        caller.may(Operation::FitLength)?;
        self.catalogue
            .resolve_length(ask)
            .map_err(|faults| from_faults(&faults, ""))
    }

    /// Looks up a question about stretch.
    ///
    /// # Errors
    /// As for the long form.
    pub(crate) fn compute_stretch(
        &self,
        caller: &Caller,
        ask: &StretchAsk<'_>,
    ) -> Result<StretchQuestion<'_>, Error> {
        caller.may(Operation::ComputeStretch)?;
        self.catalogue
            .resolve_stretch(ask)
            .map_err(|faults| from_joint_faults(&faults, ("torque.", ""), Vec::new()))
    }

    /// Looks up a question about a castellated nut.
    ///
    /// # Errors
    /// As for the long form.
    pub(crate) fn align_castellated_nut(
        &self,
        caller: &Caller,
        ask: &CastleAsk<'_>,
    ) -> Result<CastleQuestion<'_>, Error> {
        caller.may(Operation::AlignCastellatedNut)?;
        self.catalogue.resolve_castle(ask).map_err(|faults| {
            let nut = violations_of(&faults.nut, "");
            from_joint_faults(&faults.joint, ("joint.torque.", "joint."), nut)
        })
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
