//! Asking what to set a torque wrench to.

use super::{Call, Error};
use clampbook_book::refusal::Violation;
use clampbook_engine::lock_nut::{LockNutKind, UsedNut};
use clampbook_engine::quantity::{Torque, TorqueUnit};
use clampbook_engine::source::{Basis, Cited, Source, UsedFor, cited};
use clampbook_engine::units::NewtonMetres;
use clampbook_engine::wrench::{
    ADAPTER_SOURCE, Adapter, DEVIATION_SOURCE, Fit, RANGE_SOURCE, RUN_ON_SOURCE, Reading, Wrench,
    choose, setting,
};

/// A torque that is to be set.
pub struct SettingAsk<'a> {
    /// Torque wanted.
    pub torque: Torque,
    /// Measured prevailing torque.
    pub prevailing_torque: Option<NewtonMetres>,
    /// Whether the source leaves the prevailing torque out, so that it is added.
    pub prevailing_torque_excluded: bool,
    /// The adapter.
    pub adapter: Option<Adapter>,
    /// Thread and kind of a lock nut that is used again.
    pub used_nut: Option<(&'a str, LockNutKind)>,
    /// Wrenches at hand.
    pub wrenches: Vec<AtHand>,
}

/// A wrench at hand.
pub struct AtHand {
    /// What it can do.
    pub wrench: Wrench,
    /// Its graduation as said, which is what its scale is read by.
    pub graduation: Torque,
}

impl AtHand {
    /// How it fits, and what is read on it then.
    fn judge(&self, setting: NewtonMetres) -> (Fit, Option<Reading>) {
        let fit = self.wrench.judge(setting);
        let read = fit.set.map(|set| Reading::on(&self.graduation, set));
        (fit, read)
    }
}

/// What to set.
pub struct Setting {
    /// Torque at the fastener, prevailing torque included where it was added.
    pub at_fastener: NewtonMetres,
    /// What the wrench must show.
    pub setting: NewtonMetres,
    /// How each wrench fits, and what is read on it.
    pub fits: Vec<(Fit, Option<Reading>)>,
    /// Which wrench to take.
    pub chosen: Option<usize>,
    /// What is found of the used lock nut.
    pub used_nut: Option<UsedNut>,
    unit: TorqueUnit,
}

impl Setting {
    /// What is set, as it is read; without any wrench in the unit the torque was said in.
    pub fn read(&self) -> Option<Reading> {
        match self.chosen {
            Some(index) => self.fits.get(index)?.1.clone(),
            None if self.fits.is_empty() => Some(Reading::in_unit(self.unit, self.setting)),
            None => None,
        }
    }

    /// The torque at the fastener in the same unit; nothing where it is the same number, since two equal ones confuse.
    pub fn read_at_fastener(&self) -> Option<Reading> {
        let set = self.read();
        let unit = set.as_ref().map_or(self.unit, |set| set.unit);
        let reading = Reading::in_unit(unit, self.at_fastener);
        set.is_none_or(|set| set.value != reading.value)
            .then_some(reading)
    }

    /// What to beware of.
    #[must_use]
    pub fn cautions(&self, ask: &SettingAsk<'_>) -> Vec<&'static str> {
        let mut cautions = Vec::new();
        if ask.prevailing_torque.is_some() && !ask.prevailing_torque_excluded {
            cautions.push(RUN_ON_LEFT_OUT);
        }
        if self.chosen.is_none() && !ask.wrenches.is_empty() {
            cautions.push(NONE_WILL_DO);
        }
        cautions
    }

    /// Where the numbers come from, each source once.
    #[must_use]
    pub fn sources(&self, ask: &SettingAsk<'_>) -> Vec<Cited<'static>> {
        let tool = |source: &'static Source, basis| Cited {
            source,
            used_for: UsedFor::Tool,
            basis,
        };
        let mut list = Vec::new();
        if ask.prevailing_torque.is_some() {
            list.push(tool(RUN_ON_SOURCE, Basis::Found));
        }
        if ask.adapter.is_some() {
            list.push(tool(ADAPTER_SOURCE, Basis::Found));
        }
        if !ask.wrenches.is_empty() {
            list.push(tool(RANGE_SOURCE, Basis::Found));
            list.push(tool(DEVIATION_SOURCE, Basis::Memory));
        }
        for nut in self.used_nut.iter().flat_map(|nut| &nut.minimum) {
            for one in cited(&nut.row.origin, UsedFor::Tool) {
                if !list.contains(&one) {
                    list.push(one);
                }
            }
        }
        list
    }
}

const RUN_ON_LEFT_OUT: &str =
    "The prevailing torque was not added: the source must say that its torque does not include it.";
const NONE_WILL_DO: &str = "None of these wrenches can be used.";

impl Call<'_> {
    /// Works out a setting and looks through the wrenches. `found` is what the adapter found wrong already.
    ///
    /// # Errors
    /// Violations: a thread that is not known, a setting nobody sets.
    pub fn set_wrench(
        &self,
        ask: &SettingAsk<'_>,
        found: Vec<Violation>,
    ) -> Result<Setting, Error> {
        let mut violations = found;
        let mut wrong = |field: &str, why: String| violations.push(Violation::new(field, why));
        let added = ask
            .prevailing_torque
            .filter(|_| ask.prevailing_torque_excluded);
        let at_fastener = setting(ask.torque.torque, added, None)
            .map_err(|e| wrong("torque", e.to_string()))
            .ok();
        let shown = setting(ask.torque.torque, added, ask.adapter.as_ref())
            .map_err(|e| wrong("torque", e.to_string()))
            .ok();
        let catalogue = self.catalogue();
        let used_nut = ask.used_nut.and_then(|(said, kind)| {
            let thread = catalogue.thread(said);
            let thread = thread.map_err(|e| wrong("used_lock_nut.thread", e.to_string()));
            Some(UsedNut::judge(thread.ok()?, kind, ask.prevailing_torque?))
        });
        let wrenches: Vec<Wrench> = ask.wrenches.iter().map(|w| w.wrench).collect();
        match (at_fastener, shown) {
            (Some(at_fastener), Some(setting)) if violations.is_empty() => Ok(Setting {
                at_fastener,
                setting,
                fits: ask.wrenches.iter().map(|w| w.judge(setting)).collect(),
                chosen: choose(&wrenches, setting),
                used_nut,
                unit: ask.torque.unit,
            }),
            _ => Err(Error::invalid(violations)),
        }
    }
}
