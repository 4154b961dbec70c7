//! Clamp load, weaker partner, engagement, pressures and lengths of a joint.

use clampbook_engine::joint::fit::AtHand;
use clampbook_engine::joint::{BearingFace, Engagement, Lengths, Partner};
use clampbook_engine::published::Restated;
use clampbook_engine::quantity::TorqueUnit;
use clampbook_engine::show::{self, Rounded, length};
use clampbook_engine::thread::System;
use clampbook_engine::{Answer, GovernedBy};

/// What decided the clamp load, and the load that it is a share of.
#[must_use]
pub fn target(answer: &Answer<'_>, unit: TorqueUnit) -> String {
    let governed = match answer.governed_by {
        GovernedBy::WantedClampLoad => "as asked,",
        GovernedBy::ProofOfBolt | GovernedBy::YieldOfBolt => "governed by",
    };
    // Where the standard has no proof stress, 0.85 of yield stands for it.
    let bears = match answer.governed_by {
        GovernedBy::YieldOfBolt => "0.85 of the bolt's yield load,",
        GovernedBy::ProofOfBolt | GovernedBy::WantedClampLoad => "the bolt's proof load of",
    };
    format!(
        "{}, {governed} {} of {bears} {}.",
        show::load(answer.clamp_load, unit),
        show::ratio(answer.clamp_load.get() / answer.working_load.get()),
        show::load(answer.working_load, unit)
    )
}

/// What a published torque would be with another lubrication.
#[must_use]
pub fn restated(restated: &Restated<'_>, unit: TorqueUnit) -> String {
    format!(
        "with {} {} would give the intended clamp load, {} times the published torque; the published torque still holds.",
        restated.lubrication.name(),
        show::torque(restated.torque, unit),
        show::ratio(restated.ratio)
    )
}

/// What a part bears.
#[must_use]
pub fn partner(partner: &Partner, unit: TorqueUnit) -> String {
    format!(
        "{} bears {}.",
        partner.id.replace('-', " "),
        show::load(partner.capacity, unit)
    )
}

/// Engagement there is, and engagement wanted.
#[must_use]
pub fn engagement(engagement: &Engagement, family: System) -> String {
    let there = engagement.available_mm.map_or_else(
        || "unknown".to_owned(),
        |mm| length(mm, family, Rounded::Down),
    );
    let needed = |mm| length(mm, family, Rounded::Up);
    let by_trade = engagement.by_trade_mm.map_or_else(String::new, |mm| {
        format!(", {} by rule of thumb", needed(mm))
    });
    format!(
        "{there} there; wanted are {} by strength{by_trade}.",
        needed(engagement.by_strength_mm)
    )
}

/// The pressure on a face.
#[must_use]
pub fn face(face: &BearingFace) -> String {
    format!(
        "{}: {} to {}, allowed {}.",
        face.face,
        show::stress(face.nominal),
        show::stress(face.maximum),
        show::stress(face.allowed)
    )
}

/// What is clamped, and which lengths that needs.
#[must_use]
pub fn lengths(lengths: &Lengths, family: System) -> String {
    let longest = lengths.longest_mm.map_or_else(String::new, |mm| {
        let most = length(mm, family, Rounded::Down);
        format!(", at most {most} in this blind hole")
    });
    format!(
        "{} clamped; at least {} needed{longest}.",
        length(lengths.grip_mm, family, Rounded::Nearest),
        length(lengths.needed_mm, family, Rounded::Up)
    )
}

/// The next length that can be bought; empty where there is none.
#[must_use]
pub fn standard(lengths: &Lengths, family: System) -> String {
    let standard = lengths.standard_mm;
    standard.map_or_else(String::new, |mm| length(mm, family, Rounded::Nearest))
}

/// What the bolt at hand does.
#[must_use]
pub fn at_hand(bolt: &AtHand, family: System) -> String {
    let there = |mm| length(mm, family, Rounded::Down);
    let out = bolt
        .protrusion_mm
        .map_or_else(String::new, |mm| format!(", {} out of the nut", there(mm)));
    format!(
        "reaches {} past the clamped parts, {} engaged{out}; body {}, full thread from {}.",
        there(bolt.reach_mm),
        there(bolt.engagement_mm),
        there(bolt.body_mm),
        length(bolt.grip_length_mm, family, Rounded::Up)
    )
}
