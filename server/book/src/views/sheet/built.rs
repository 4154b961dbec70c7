//! How a joint is built, as the sheet tells it: length and engagement, what governs, slots.

use super::torque::{shown, source};
use crate::reason::build;
use crate::reason::in_words;
use crate::record::fact::{CastellatedNut, JointAdded, JointBuild, TappedHole};
use crate::record::words::TorqueUnit;
use clampbook_engine::Catalogue;
use clampbook_engine::joint::{
    CastleAnswer, Engagement, JointCheck, Lengths, Partner, Verdict, fit::AtHand,
};
use clampbook_engine::thread::System;
use clampbook_engine::units::MILLIMETRES_PER_INCH;

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
    /// The part that bears minimum.
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
    let mut lines = vec![length(said.bolt_length_mm, &check, system)];
    lines.extend(
        said.tapped
            .as_ref()
            .and_then(|t| parent(t, &said.parent_state)),
    );
    lines.extend(room(said, system));
    lines.extend(check.partners.first().map(|weakest| {
        format!(
            "Weakest: {} carries {:.1} kN; the target is {:.1} kN.",
            spoken(weakest.id),
            weakest.capacity.get() / 1000.0,
            check.answer.clamp_load.get() / 1000.0
        )
    }));
    if let Some((nut, answer)) = said.castle.as_ref().zip(build::slots(fact, catalogue)) {
        lines.push(slots(nut, &answer, unit, stopped));
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
    let mut wants = format!(
        "at least {}",
        in_words(at_least(lengths.needed_mm, system), system)
    );
    if let Some(longest) = lengths.longest_mm {
        wants.push_str("; bottoms beyond ");
        wants.push_str(&in_words(at_most(longest, system), system));
    }
    match specified_mm.zip(lengths.at_hand) {
        Some((own, at_hand)) => format!(
            "Length {} (wants {wants}): {}.",
            in_words(own, system),
            does(&at_hand, &check.engagement, system)
        ),
        None => {
            let buy = lengths.standard_mm.map_or_else(
                || "no standard length fits".to_owned(),
                |mm| format!("take {}", in_words(mm, system)),
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
        (Some(out), _) if out < 0.0 => format!("ends {} inside the nut", in_words(-out, system)),
        (Some(out), _) => format!("stands {} out of the nut", in_words(out, system)),
        (None, trade) => {
            let by_trade = trade.map(|mm| format!(", by rule of thumb {}", in_words(mm, system)));
            format!(
                "engages {}; wanted by strength {}{}",
                in_words(at_hand.engagement_mm, system),
                in_words(engagement.by_strength_mm, system),
                by_trade.unwrap_or_default()
            )
        }
    }
}

/// How large a head may be, for the person who fits another one.
fn room(said: &JointBuild, system: System) -> Option<String> {
    let limit =
        |what: &str, mm: Option<f64>| mm.map(|mm| format!("{what} {}", in_words(mm, system)));
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
    unit: TorqueUnit,
    stopped: bool,
) -> String {
    let step = format!(
        "Castellated nut: a slot every {:.0}°, {:.2} mm of travel. Never back off to a slot; new split pin.",
        answer.step.get(),
        answer.step_mm
    );
    let Some((minimum, most)) = nut
        .minimum_torque_nm
        .zip(nut.maximum_torque_nm)
        .filter(|_| !stopped)
    else {
        return step;
    };
    let (minimum, most) = (shown(minimum, unit), shown(most, unit));
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

/// Digits that lengths are shown with: a tenth of a millimetre, a hundredth of an inch.
const fn steps(system: System) -> f64 {
    match system {
        System::Metric => 10.0,
        System::Inch | System::British => 100.0 / MILLIMETRES_PER_INCH,
    }
}

/// A minimum length, rounded up to what is shown; a hair of slack keeps whole ones whole.
fn at_least(mm: f64, system: System) -> f64 {
    (mm * steps(system) - 1e-6).ceil() / steps(system)
}

/// A maximum length, rounded down to what is shown.
fn at_most(mm: f64, system: System) -> f64 {
    (mm * steps(system) + 1e-6).floor() / steps(system)
}
