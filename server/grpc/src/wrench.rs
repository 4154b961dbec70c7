//! What to set a torque wrench to.

use crate::words::{Word, severity};
use crate::{Validator, catalogue};
use clampbook_api::v1 as wire;
use clampbook_app::wrench::{AtHand, Setting, SettingAsk};
use clampbook_app::{Call, Error};
use clampbook_book::refusal::Violation;
use clampbook_book::{answers, bounds};
use clampbook_engine::lock_nut::LockNutKind;
use clampbook_engine::quantity::TorqueUnit;
use clampbook_engine::show;
use clampbook_engine::units::{Millimetres, NewtonMetres};
use clampbook_engine::wrench::{Adapter, Calibration, Fit, Reading, Wrench};

// In these two what is not said is a value of its own.
impl Word for Calibration {
    type Wire = wire::Calibration;

    fn from_wire(word: wire::Calibration) -> Option<Self> {
        Some(match word {
            wire::Calibration::Unspecified => Self::Unknown,
            wire::Calibration::InDate => Self::InDate,
            wire::Calibration::Overdue => Self::Overdue,
            wire::Calibration::KnownBad => Self::KnownBad,
        })
    }

    fn to_wire(self) -> wire::Calibration {
        match self {
            Self::Unknown => wire::Calibration::Unspecified,
            Self::InDate => wire::Calibration::InDate,
            Self::Overdue => wire::Calibration::Overdue,
            Self::KnownBad => wire::Calibration::KnownBad,
        }
    }
}

impl Word for LockNutKind {
    type Wire = wire::LockNutKind;

    fn from_wire(word: wire::LockNutKind) -> Option<Self> {
        Some(match word {
            wire::LockNutKind::Unspecified => Self::Any,
            wire::LockNutKind::AllMetal => Self::AllMetal,
            wire::LockNutKind::Insert => Self::Insert,
        })
    }

    fn to_wire(self) -> wire::LockNutKind {
        match self {
            Self::Any => wire::LockNutKind::Unspecified,
            Self::AllMetal => wire::LockNutKind::AllMetal,
            Self::Insert => wire::LockNutKind::Insert,
        }
    }
}

/// Most wrenches of one request.
const WRENCHES: usize = 50;

/// Works out what to set.
pub(crate) fn set(
    call: Call<'_>,
    request: wire::SetWrenchRequest,
) -> Result<wire::SetWrenchResponse, Error> {
    let (ask, found) = ask(&request)?;
    let unit = TorqueUnit::from_wire(request.torque_unit()).unwrap_or(ask.torque.unit);
    let set = call.set_wrench(&ask, found)?;
    Ok(answer(&request, &ask, &set, unit))
}

/// The question of a request, and what was found wrong with it so far.
///
/// # Errors
/// Never, as long as the stand-in for an unreadable torque can be read.
fn ask(request: &wire::SetWrenchRequest) -> Result<(SettingAsk<'_>, Vec<Violation>), Error> {
    let mut check = Validator::default();
    let torque = check.torque_or_stand_in("torque", &request.torque)?;
    let _ = check.word::<TorqueUnit>("torque_unit", request.torque_unit);
    let prevailing_torque = check.torque_if_said("prevailing_torque", &request.prevailing_torque);
    let adapter = request
        .adapter
        .as_ref()
        .and_then(|adapter| check.adapter(adapter));
    let used_nut = request
        .used_lock_nut
        .as_ref()
        .map(|nut| (nut.thread.as_str(), check.lock_nut_kind(nut.kind)));
    if used_nut.is_some() && request.prevailing_torque.trim().is_empty() {
        check.wrong(
            "prevailing_torque",
            "is required to judge a lock nut that is used again: measure it with the nut on its thread and nothing clamped",
        );
    }
    if request.prevailing_torque_excluded && request.prevailing_torque.trim().is_empty() {
        check.wrong(
            "prevailing_torque",
            "is required, because the torque does not include it",
        );
    }
    let wrenches = check.wrenches(&request.wrenches);
    let ask = SettingAsk {
        torque,
        prevailing_torque,
        prevailing_torque_excluded: request.prevailing_torque_excluded,
        adapter,
        used_nut,
        wrenches,
    };
    Ok((ask, check.into_violations()))
}

impl Validator {
    fn torque_if_said(&mut self, field: &str, said: &str) -> Option<NewtonMetres> {
        let said = self.torque(field, said)?;
        // Inside the book's bounds, which are narrower.
        NewtonMetres::new(said.nm).ok()
    }

    fn lever(&mut self, field: &str, said: &str) -> Option<Millimetres> {
        let said = self.length(field, said)?;
        match Millimetres::new(said.mm) {
            Ok(length) => Some(length),
            Err(range) => {
                self.wrong(field, range.to_string());
                None
            }
        }
    }

    fn adapter(&mut self, adapter: &wire::Adapter) -> Option<Adapter> {
        let wrench = self.lever("adapter.wrench_length", &adapter.wrench_length);
        let length = self.lever("adapter.adapter_length", &adapter.adapter_length);
        // A length that is wrong must not hide an angle that is.
        let (Some(wrench), Some(length)) = (wrench, length) else {
            if !(0.0..=180.0).contains(&adapter.angle_degrees) {
                self.wrong("adapter.angle_degrees", "allowed is 0 to 180 degrees");
            }
            return None;
        };
        match Adapter::new(wrench, length, adapter.angle_degrees) {
            Ok(adapter) => Some(adapter),
            Err(range) => {
                let field = match range.quantity {
                    "angle of the adapter" => "adapter.angle_degrees",
                    _ => "adapter.adapter_length",
                };
                self.wrong(field, range.to_string());
                None
            }
        }
    }

    fn lock_nut_kind(&mut self, number: i32) -> LockNutKind {
        self.word("used_lock_nut.kind", number)
            .unwrap_or(LockNutKind::Any)
    }

    fn wrenches(&mut self, wrenches: &[wire::Wrench]) -> Vec<AtHand> {
        if wrenches.len() > WRENCHES {
            let count = wrenches.len();
            self.wrong(
                "wrenches",
                format!("has {count} items, allowed are up to {WRENCHES}"),
            );
            return Vec::new();
        }
        let labels: Vec<&str> = wrenches.iter().map(|w| w.label.trim()).collect();
        self.distinct("wrenches", &labels);
        let each = wrenches.iter().enumerate();
        each.filter_map(|(i, wrench)| self.wrench(&format!("wrenches[{i}]"), wrench))
            .collect()
    }

    fn wrench(&mut self, at: &str, wrench: &wire::Wrench) -> Option<AtHand> {
        self.required_text(&format!("{at}.label"), &wrench.label, bounds::SHORT);
        let minimum = self.torque_if_said(&format!("{at}.minimum_torque"), &wrench.minimum_torque);
        let maximum = self.torque_as_said(&format!("{at}.maximum_torque"), &wrench.maximum_torque);
        let graduation = self.torque_as_said(&format!("{at}.graduation"), &wrench.graduation);
        let calibration = self
            .word::<Calibration>(&format!("{at}.calibration"), wrench.calibration)
            .unwrap_or(Calibration::Unknown);
        let (maximum, graduation) = (maximum?.torque, graduation?);
        let made = Wrench {
            minimum,
            maximum,
            graduation: graduation.torque,
            stated_deviation: wrench.stated_deviation_share,
            calibration,
        };
        match made.checked() {
            Ok(wrench) => Some(AtHand { wrench, graduation }),
            Err((field, range)) => {
                self.wrong(format!("{at}.{field}"), range.to_string());
                None
            }
        }
    }
}

/// The answer on the wire.
fn answer(
    request: &wire::SetWrenchRequest,
    ask: &SettingAsk<'_>,
    set: &Setting,
    unit: TorqueUnit,
) -> wire::SetWrenchResponse {
    let label = |index: usize| {
        request
            .wrenches
            .get(index)
            .map(|w| w.label.trim().to_owned())
    };
    let fits = set.fits.iter().zip(&ask.wrenches).enumerate();
    wire::SetWrenchResponse {
        fastener_torque_nm: set.at_fastener.get(),
        setting_nm: set.setting.get(),
        setting_text: show::torque(set.setting, unit),
        adapter_text: answers::adapter(ask.adapter.as_ref()),
        minimum_prevailing_torque_text: answers::minimum_prevailing_torque(
            set.used_nut.as_ref(),
            unit,
        ),
        adapter_factor: ask.adapter.as_ref().map_or(1.0, Adapter::factor),
        chosen: set.chosen.and_then(label).unwrap_or_default(),
        fits: fits
            .map(|(index, ((fit, read), at_hand))| {
                let label = label(index).unwrap_or_default();
                of_wrench(label, fit, read.as_ref(), &at_hand.wrench)
            })
            .collect(),
        lock_nut: set.used_nut.as_ref().and_then(|nut| {
            Some(wire::Objection {
                objection: "used-lock-nut".into(),
                severity: severity(nut.severity()?).number(),
                text: nut.text()?.into(),
            })
        }),
        minimum_prevailing_torque_nm: set
            .used_nut
            .iter()
            .flat_map(|nut| nut.minimum.iter().map(|minimum| minimum.torque.get()))
            .collect(),
        sources: set.sources(ask).iter().map(catalogue::cited).collect(),
        cautions: set.cautions(ask).into_iter().map(Into::into).collect(),
        set: set.read().as_ref().map(shown),
        at_fastener: set.read_at_fastener().as_ref().map(shown),
    }
}

fn shown(reading: &Reading) -> wire::ShownTorque {
    wire::ShownTorque {
        value: reading.value,
        unit: reading.unit.number(),
        text: reading.text.clone(),
    }
}

fn of_wrench(label: String, fit: &Fit, read: Option<&Reading>, wrench: &Wrench) -> wire::WrenchFit {
    let mut findings: Vec<_> = fit.findings.iter().collect();
    findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity()));
    wire::WrenchFit {
        text: answers::one_wrench(&label, wrench, fit, read),
        label,
        set_torque_nm: fit.set.map(NewtonMetres::get),
        rounding_share: fit.rounding,
        share_of_scale: fit.share_of_scale,
        deviation_share: wrench.deviation(),
        minimum_torque_nm: fit.minimum.get(),
        maximum_torque_nm: fit.maximum.get(),
        objections: findings
            .into_iter()
            .map(|finding| wire::Objection {
                objection: finding.id().into(),
                severity: severity(finding.severity()).number(),
                text: finding.text().into(),
            })
            .collect(),
        set: read.map(shown),
    }
}
