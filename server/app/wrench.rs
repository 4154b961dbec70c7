//! Asking what to set a torque wrench to.

use super::{App, Caller, Error, Operation};
use clampbook_book::refusal::Violation;
use clampbook_engine::lock_nut::{LockNutKind, UsedNut};
use clampbook_engine::units::NewtonMetres;
use clampbook_engine::wrench::{Adapter, Fit, Wrench, choose, setting};

/// A torque that is to be set.
pub(crate) struct SettingAsk<'a> {
    /// Torque wanted.
    pub(crate) torque: NewtonMetres,
    /// Measured run-on torque.
    pub(crate) run_on: Option<NewtonMetres>,
    /// Whether the source leaves the run-on torque out, so that it is added.
    pub(crate) run_on_excluded: bool,
    /// The adapter.
    pub(crate) adapter: Option<Adapter>,
    /// Thread and kind of a lock nut that is used again.
    pub(crate) used_nut: Option<(&'a str, LockNutKind)>,
    /// Wrenches at hand.
    pub(crate) wrenches: Vec<Wrench>,
}

/// What to set.
pub(crate) struct Setting {
    /// Torque at the fastener, run-on torque included where it was added.
    pub(crate) at_fastener: NewtonMetres,
    /// What the wrench must show.
    pub(crate) setting: NewtonMetres,
    /// How each wrench fits.
    pub(crate) fits: Vec<Fit>,
    /// Which wrench to take.
    pub(crate) chosen: Option<usize>,
    /// What is found of the used lock nut.
    pub(crate) used_nut: Option<UsedNut>,
}

impl App {
    /// Works out a setting and looks through the wrenches.
    ///
    /// # Errors
    /// Violations: a thread that is not known, a setting nobody sets.
    pub(crate) fn set_wrench(
        &self,
        caller: &Caller,
        ask: &SettingAsk<'_>,
    ) -> Result<Setting, Error> {
        caller.may(Operation::SetWrench)?;
        let mut violations = Vec::new();
        let mut wrong = |field: &str, why: String| violations.push(Violation::new(field, why));
        let added = ask.run_on.filter(|_| ask.run_on_excluded);
        let at_fastener = setting(ask.torque, added, None)
            .map_err(|e| wrong("torque", e.to_string()))
            .ok();
        let shown = setting(ask.torque, added, ask.adapter.as_ref())
            .map_err(|e| wrong("torque", e.to_string()))
            .ok();
        let used_nut = ask
            .used_nut
            .zip(ask.run_on)
            .and_then(|((said, kind), measured)| {
                let thread = self.catalogue.thread(said);
                let thread = thread.map_err(|e| wrong("used_lock_nut.thread", e.to_string()));
                Some(UsedNut::judge(thread.ok()?, kind, measured))
            });
        match (at_fastener, shown) {
            (Some(at_fastener), Some(setting)) if violations.is_empty() => Ok(Setting {
                at_fastener,
                setting,
                fits: ask.wrenches.iter().map(|w| w.judge(setting)).collect(),
                chosen: choose(&ask.wrenches, setting),
                used_nut,
            }),
            _ => Err(Error::invalid(violations)),
        }
    }
}
