//! How a joint is built, as the sheet tells it: length and engagement, what governs, slots.

use super::torque::source;
use crate::reason::build;
use crate::reason::shown::{self, available, needed};
use crate::record::fact::{CastellatedNut, GripStack, JointAdded, TappedHole};
use crate::record::words::TorqueUnit;
use clampbook_engine::Catalogue;
use clampbook_engine::joint::{
    CastleAnswer, Engagement, JointCheck, Lengths, Partner, Verdict, fit::AtHand,
};
use clampbook_engine::show;
use clampbook_engine::thread::System;

/// How a joint is built.
#[derive(Clone, Debug)]
pub struct Built {
    /// For people, a line each.
    pub lines: Vec<String>,
    /// Publications behind them.
    pub(super) sources: Vec<String>,
    /// The numbers behind them; nothing for what this release cannot judge.
    pub numbers: Option<Numbers>,
}

/// What the check of the joint gave.
#[derive(Clone, Debug)]
pub struct Numbers {
    /// What its grip wants, and what the fastener specified does in it.
    pub lengths: Lengths,
    /// Engagement there is and engagement wanted.
    pub engagement: Engagement,
    /// The part that bears least.
    pub weakest: Option<Partner>,
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
                lines: vec![format!(
                    "How it is built is not judged: {}.",
                    why.join("; ")
                )],
                sources: Vec::new(),
                numbers: None,
            });
        }
    };
    let system = catalogue
        .thread(&fact.target.as_ref()?.thread)
        .map_or(System::Metric, |thread| thread.system());
    let mut lines = vec![length(said.stack.bolt_length_mm, &check, system)];
    lines.extend(
        said.stack
            .tapped
            .as_ref()
            .and_then(|t| parent(t, &said.parent_state)),
    );
    lines.extend(room(&said.stack, system));
    lines.extend(check.partners.first().map(|weakest| {
        format!(
            "Weakest: {} carries {}; the target is {}.",
            spoken(weakest.id),
            shown::load(weakest.capacity, unit),
            shown::load(check.answer.clamp_load, unit)
        )
    }));
    if let Some((nut, answer)) = said.castle.as_ref().zip(build::slots(fact, catalogue)) {
        lines.push(slots(nut, &answer, system, unit, stopped));
    }
    Some(Built {
        lines,
        sources: check.remarks.sources.iter().map(source).collect(),
        numbers: Some(Numbers {
            weakest: check.partners.first().copied(),
            engagement: check.engagement,
            lengths: check.lengths,
        }),
    })
}

fn length(specified_mm: Option<f64>, check: &JointCheck<'_>, system: System) -> String {
    let lengths = &check.lengths;
    let mut wants = format!("at least {}", needed(lengths.needed_mm, system));
    if let Some(longest) = lengths.longest_mm {
        wants.push_str("; bottoms beyond ");
        wants.push_str(&available(longest, system));
    }
    match specified_mm.zip(lengths.at_hand) {
        Some((own, at_hand)) => format!(
            "Length {} (wants {wants}): {}.",
            shown::length(own, system),
            does(&at_hand, &check.engagement, system)
        ),
        None => {
            let buy = lengths.standard_mm.map_or_else(
                || "no standard length fits".to_owned(),
                |mm| format!("take {}", shown::length(mm, system)),
            );
            format!(
                "Length wanted: {wants}; {buy}. Nobody said which length belongs here: only measured ones are checked."
            )
        }
    }
}

/// What the fastener does at its far end.
fn does(at_hand: &AtHand, engagement: &Engagement, system: System) -> String {
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
fn room(said: &GripStack, system: System) -> Option<String> {
    let limit =
        |what: &str, mm: Option<f64>| mm.map(|mm| format!("{what} {}", available(mm, system)));
    let limits = [
        limit("height", said.head_room_mm),
        limit("width", said.head_space_mm),
    ];
    let limits: Vec<String> = limits.into_iter().flatten().collect();
    (!limits.is_empty()).then(|| format!("Room for the head: {}.", limits.join(", ")))
}

/// What there is to say of the tapped metal besides its name.
fn parent(tapped: &TappedHole, lubrication: &str) -> Option<String> {
    let insert = if tapped.insert { "helical insert" } else { "" };
    let said: Vec<&str> = [lubrication, insert]
        .into_iter()
        .filter(|s| !s.is_empty())
        .collect();
    (!said.is_empty()).then(|| format!("Tapped into {}: {}.", tapped.metal, said.join(", ")))
}

fn slots(
    nut: &CastellatedNut,
    answer: &CastleAnswer<'_>,
    system: System,
    unit: TorqueUnit,
    stopped: bool,
) -> String {
    let step = format!(
        "Castellated nut: a slot every {}, {} of travel. Never back off to a slot; new split pin.",
        show::angle(answer.step),
        shown::length(answer.step_mm, system)
    );
    let Some((minimum, most)) = nut
        .minimum_torque_nm
        .zip(nut.maximum_torque_nm)
        .filter(|_| !stopped)
    else {
        return step;
    };
    let (minimum, most) = (shown::torque(minimum, unit), shown::torque(most, unit));
    let verdict = match answer.verdict {
        Verdict::Advance { .. } => {
            format!("from {minimum} on to the next slot, which comes before {most}")
        }
        Verdict::Measure | Verdict::ChangeWasher { .. } => {
            format!("at {minimum} measure the angle to the next slot; never beyond {most}")
        }
        Verdict::Refuse { why, instead } => format!("{why} {instead}"),
    };
    format!("{step} Published range: {}.", verdict.trim_end_matches('.'))
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
