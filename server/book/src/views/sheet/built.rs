//! How a joint is built, as the sheet tells it: length and engagement, what governs, slots.

use super::cell::Number;
use super::torque::source;
use crate::reason::build;
use crate::reason::shown::{self, available, needed};
use crate::record::fact::{CastellatedNut, JointAdded, TappedHole};
use crate::record::words::TorqueUnit;
use clampbook_engine::Catalogue;
use clampbook_engine::joint::{CastleAnswer, Engagement, Lengths, Partner, Verdict, fit::AtHand};
use clampbook_engine::show;
use clampbook_engine::thread::System;
use clampbook_engine::units::{Degrees, Newtons};

/// How a joint is built.
#[derive(Clone, Debug)]
pub struct Built {
    /// What the check of the joint gave, or why this release cannot judge it.
    pub checked: Result<Checked, String>,
    /// Publications behind it.
    pub(super) sources: Vec<String>,
}

/// What the check of a joint gave.
#[derive(Clone, Debug)]
pub struct Checked {
    /// Length of the fastener that belongs here, in millimetres; nobody said it when absent.
    pub specified_mm: Option<f64>,
    /// What its grip wants, and what the fastener specified does in it.
    pub lengths: Lengths,
    /// Engagement there is and engagement wanted.
    pub engagement: Engagement,
    /// The tapped hole.
    pub tapped: Option<TappedHole>,
    /// Condition of the tapped metal, in words; may be empty.
    pub parent_state: String,
    /// Free height above the head's bearing face, in millimetres.
    pub head_room_mm: Option<f64>,
    /// Free diameter around the head, in millimetres.
    pub head_space_mm: Option<f64>,
    /// The part that bears least.
    pub weakest: Option<Partner>,
    /// The clamp load that the fastener is tightened to.
    pub clamp_load: Newtons,
    /// Slots of the castellated nut.
    pub slots: Option<Slots>,
    /// Family of the thread, which lengths are shown in.
    pub family: System,
    /// Unit of torques, and of loads beside them.
    pub unit: TorqueUnit,
}

/// The slots of a castellated nut.
#[derive(Clone, Debug)]
pub struct Slots {
    /// From one slot to the next.
    pub step: Degrees,
    /// How far the nut travels meanwhile, in millimetres.
    pub travel_mm: f64,
    /// Published range and what it means for the slots; nothing while a stop is open.
    pub range: Option<SlotRange>,
}

/// The published range of torque at a castellated nut.
#[derive(Clone, Debug)]
pub struct SlotRange {
    /// Minimum.
    pub minimum: Number,
    /// Maximum.
    pub maximum: Number,
    /// What to do about the next slot.
    pub verdict: Verdict,
}

/// How a joint is built; nothing when nobody said. A stopped joint tells no torque, not even a published one.
pub(super) fn of(
    fact: &JointAdded,
    unit: TorqueUnit,
    stopped: bool,
    catalogue: &Catalogue,
) -> Option<Built> {
    let said = fact.build.as_ref()?;
    let check = match build::check(fact, catalogue)? {
        Ok(check) => check,
        Err(wrong) => {
            let why: Vec<String> = wrong
                .iter()
                .map(|one| format!("{}: {}", one.field, one.wrong))
                .collect();
            return Some(Built {
                checked: Err(why.join("; ")),
                sources: Vec::new(),
            });
        }
    };
    let family = shown::family(catalogue.thread(&fact.target.as_ref()?.thread).ok());
    let slots = said.castle.as_ref().zip(build::slots(fact, catalogue));
    Some(Built {
        sources: check.remarks.sources.iter().map(source).collect(),
        checked: Ok(Checked {
            specified_mm: said.stack.bolt_length_mm,
            tapped: said.stack.tapped.clone(),
            parent_state: said.stack.parent_state.clone(),
            head_room_mm: said.stack.head_room_mm,
            head_space_mm: said.stack.head_space_mm,
            weakest: check.partners.first().copied(),
            clamp_load: check.answer.clamp_load,
            engagement: check.engagement,
            lengths: check.lengths,
            slots: slots.map(|(nut, answer)| Slots::of(nut, &answer, unit, stopped)),
            family,
            unit,
        }),
    })
}

impl Built {
    /// For people, a line each.
    #[must_use]
    pub fn lines(&self) -> Vec<String> {
        match &self.checked {
            Ok(checked) => checked.lines(),
            Err(why) => vec![format!("How it is built is not judged: {why}.")],
        }
    }
}

impl Checked {
    fn lines(&self) -> Vec<String> {
        let weakest = self.weakest.as_ref().map(|weakest| {
            format!(
                "Weakest: {} carries {}; the target is {}.",
                spoken(weakest.id),
                shown::load(weakest.capacity, self.unit),
                shown::load(self.clamp_load, self.unit)
            )
        });
        std::iter::once(self.length())
            .chain(self.parent())
            .chain(self.room())
            .chain(weakest)
            .chain(self.slots.as_ref().map(|slots| slots.line(self.family)))
            .collect()
    }

    fn length(&self) -> String {
        let (lengths, family) = (&self.lengths, self.family);
        let mut wants = format!("at least {}", needed(lengths.needed_mm, family));
        if let Some(longest) = lengths.longest_mm {
            wants.push_str("; bottoms beyond ");
            wants.push_str(&available(longest, family));
        }
        match self.specified_mm.zip(lengths.at_hand) {
            Some((own, at_hand)) => format!(
                "Length {} (wants {wants}): {}.",
                shown::length(own, family),
                self.does(&at_hand)
            ),
            None => {
                let buy = lengths.standard_mm.map_or_else(
                    || "no standard length fits".to_owned(),
                    |mm| format!("take {}", shown::length(mm, family)),
                );
                format!(
                    "Length wanted: {wants}; {buy}. Nobody said which length belongs here: only measured ones are checked."
                )
            }
        }
    }

    /// What the fastener does at its far end.
    fn does(&self, at_hand: &AtHand) -> String {
        let (engagement, system) = (&self.engagement, self.family);
        match (at_hand.protrusion_mm, engagement.by_trade_mm) {
            (Some(out), _) if out < 0.0 => format!("ends {} inside the nut", needed(-out, system)),
            (Some(out), _) => format!("stands {} out of the nut", available(out, system)),
            (None, trade) => {
                let by_trade = trade.map(|mm| format!(", by rule of thumb {}", needed(mm, system)));
                format!(
                    "engages {}; wanted by strength {}{}",
                    available(at_hand.engagement_mm, system),
                    needed(engagement.by_strength_mm, system),
                    by_trade.unwrap_or_default()
                )
            }
        }
    }

    /// How large a head may be, for the person who fits another one.
    fn room(&self) -> Option<String> {
        let limit = |what: &str, mm: Option<f64>| {
            mm.map(|mm| format!("{what} {}", available(mm, self.family)))
        };
        let limits = [
            limit("height", self.head_room_mm),
            limit("width", self.head_space_mm),
        ];
        let limits: Vec<String> = limits.into_iter().flatten().collect();
        (!limits.is_empty()).then(|| format!("Room for the head: {}.", limits.join(", ")))
    }

    /// What there is to say of the tapped metal besides its name.
    fn parent(&self) -> Option<String> {
        let tapped = self.tapped.as_ref()?;
        let insert = if tapped.insert { "helical insert" } else { "" };
        let said: Vec<&str> = [self.parent_state.as_str(), insert]
            .into_iter()
            .filter(|s| !s.is_empty())
            .collect();
        (!said.is_empty()).then(|| format!("Tapped into {}: {}.", tapped.metal, said.join(", ")))
    }
}

impl Slots {
    fn of(
        nut: &CastellatedNut,
        answer: &CastleAnswer<'_>,
        unit: TorqueUnit,
        stopped: bool,
    ) -> Self {
        let range = nut.minimum_torque_nm.zip(nut.maximum_torque_nm);
        Self {
            step: answer.step,
            travel_mm: answer.step_mm,
            range: range
                .filter(|_| !stopped)
                .map(|(minimum, maximum)| SlotRange {
                    minimum: Number { nm: minimum, unit },
                    maximum: Number { nm: maximum, unit },
                    verdict: answer.verdict,
                }),
        }
    }

    fn line(&self, family: System) -> String {
        let step = format!(
            "Castellated nut: a slot every {}, {} of travel. Never back off to a slot; new split pin.",
            show::angle(self.step),
            shown::length(self.travel_mm, family)
        );
        let Some(SlotRange {
            minimum,
            maximum,
            verdict,
        }) = &self.range
        else {
            return step;
        };
        let verdict = match verdict {
            Verdict::Advance { .. } => {
                format!("from {minimum} on to the next slot, which comes before {maximum}")
            }
            Verdict::Measure | Verdict::ChangeWasher { .. } => {
                format!("at {minimum} measure the angle to the next slot; never beyond {maximum}")
            }
            Verdict::Refuse { why, instead } => format!("{why} {instead}"),
        };
        format!("{step} Published range: {}.", verdict.trim_end_matches('.'))
    }
}

/// A part as people call it.
fn spoken(partner: &str) -> &str {
    match partner {
        "bolt-proof" => "the bolt",
        "nut-proof" => "the nut",
        "bolt-thread" => "the bolt's own thread",
        "tapped-thread" => "the tapped thread",
        other => other,
    }
}
