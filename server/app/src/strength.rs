//! Asking whether a joint holds: long form, weaker partner, lengths, stretch, slots. `found` is what the adapter found wrong
//! with a question already.

use super::error::{beside, from_faults, unless_wrong, violations_of};
use super::{Call, Error};
use clampbook_book::refusal::Violation;
use clampbook_engine::FaultReason;
use clampbook_engine::joint::check::JointFaults;
use clampbook_engine::joint::{
    self, CastleAnswer, CastleAsk, CastleQuestion, JointAsk, JointCheck, JointQuestion, LengthAsk,
    LengthQuestion, Lengths, Stretch, StretchAsk, StretchQuestion, align, check_joint, stretch,
};
use clampbook_engine::long_form::{LongAnswer, LongAsk, LongQuestion, compute_long_form};

impl Call<'_> {
    /// Computes a torque by the long form and hands question and answer to `show`, which makes what the adapter carries.
    ///
    /// # Errors
    /// All faults as violations, or the refused purpose.
    pub fn long_form<T>(
        &self,
        ask: &LongAsk<'_>,
        found: Vec<Violation>,
        show: impl FnOnce(&LongQuestion<'_>, &LongAnswer) -> T,
    ) -> Result<T, Error> {
        let catalogue = self.catalogue();
        let question = unless_wrong(catalogue.resolve_long_form(ask), "", found)?;
        Ok(show(&question, &compute_long_form(&question)))
    }

    /// Checks a joint, for `show`.
    ///
    /// # Errors
    /// As for the long form.
    pub fn joint_check<T>(
        &self,
        ask: &JointAsk<'_>,
        found: Vec<Violation>,
        show: impl FnOnce(&JointQuestion<'_>, &JointCheck<'_>) -> T,
    ) -> Result<T, Error> {
        let catalogue = self.catalogue();
        let resolved = catalogue.resolve_joint(ask);
        let question = unless_joint_wrong(resolved, found)?;
        Ok(show(&question, &check_joint(&question)))
    }

    /// Fits lengths, for `show`.
    ///
    /// # Errors
    /// All faults as violations.
    pub fn fit_length<T>(
        &self,
        ask: &LengthAsk<'_>,
        found: Vec<Violation>,
        show: impl FnOnce(&LengthQuestion<'_>, &Lengths) -> T,
    ) -> Result<T, Error> {
        let catalogue = self.catalogue();
        let question = unless_wrong(catalogue.resolve_length(ask), "", found)?;
        Ok(show(&question, &joint::fit_length(&question)))
    }

    /// Computes stretch, for `show`.
    ///
    /// # Errors
    /// As for the long form.
    pub fn compute_stretch<T>(
        &self,
        ask: &StretchAsk<'_>,
        found: Vec<Violation>,
        show: impl FnOnce(&StretchQuestion<'_>, &Stretch<'_>) -> T,
    ) -> Result<T, Error> {
        let catalogue = self.catalogue();
        let resolved = catalogue.resolve_stretch(ask);
        let question = unless_joint_wrong(resolved, found)?;
        Ok(show(&question, &stretch(&question)))
    }

    /// Aligns a castellated nut, for `show`.
    ///
    /// # Errors
    /// As for the long form.
    pub fn align_castellated_nut<T>(
        &self,
        ask: &CastleAsk<'_>,
        found: Vec<Violation>,
        show: impl FnOnce(&CastleQuestion<'_>, &CastleAnswer<'_>) -> T,
    ) -> Result<T, Error> {
        let catalogue = self.catalogue();
        let question = match catalogue.resolve_castle(ask) {
            Ok(question) if found.is_empty() => question,
            Ok(_) => return Err(Error::invalid(found)),
            Err(faults) => {
                let nut = violations_of(&faults.nut, "");
                let paths = ("joint.torque.", "joint.");
                return Err(from_joint_faults(&faults.joint, paths, found, nut));
            }
        };
        Ok(show(&question, &align(&question)))
    }
}

/// What was looked up of a joint, unless something is wrong.
fn unless_joint_wrong<Q>(
    resolved: Result<Q, JointFaults>,
    found: Vec<Violation>,
) -> Result<Q, Error> {
    match resolved {
        Ok(question) if found.is_empty() => Ok(question),
        Ok(_) => Err(Error::invalid(found)),
        Err(faults) => Err(from_joint_faults(
            &faults,
            ("torque.", ""),
            found,
            Vec::new(),
        )),
    }
}

/// The faults of both parts, each under its own path, beside what was found before, and what else is wrong.
fn from_joint_faults(
    faults: &JointFaults,
    (torque, stack): (&str, &str),
    found: Vec<Violation>,
    others: Vec<Violation>,
) -> Error {
    let refused = |reason: &FaultReason| matches!(reason, FaultReason::PurposeRefused { .. });
    if found.is_empty() && faults.torque.iter().any(|fault| refused(&fault.reason)) {
        return from_faults(&faults.torque, torque);
    }
    let mut violations = violations_of(&faults.torque, torque);
    violations.extend(violations_of(&faults.stack, stack));
    violations.extend(others);
    Error::invalid(beside(found, violations))
}
