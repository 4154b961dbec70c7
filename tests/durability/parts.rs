//! Joints and fasteners of the story, and what is said of them.

use crate::story::JOBS;
use clampbook_api::v1 as wire;
use wire::removal::LengthSeen;

pub(crate) fn joint(assembly: &str, name: &str) -> wire::Joint {
    wire::Joint {
        assembly: format!("{}/assemblies/{assembly}", JOBS[0]),
        display_name: name.into(),
        ..Default::default()
    }
}

pub(crate) fn brake_plate(name: &str) -> wire::Joint {
    wire::Joint {
        positions: ["upper front", "upper rear", "lower rear", "lower front"]
            .map(hole)
            .into(),
        layout: wire::Layout::Ring.into(),
        criticality: wire::Criticality::A.into(),
        hole_kind: wire::HoleKind::TappedThrough.into(),
        target: Some(wire::JointTarget {
            thread: "7/16-20 UNF".into(),
            grade: "SAE J429 5".into(),
            condition: "oiled".into(),
            ..Default::default()
        }),
        lock: "tab plate, new".into(),
        preparation: "thread clean, one drop of oil".into(),
        computed_torque_approver: "Ida".into(),
        ..joint("left-hub", name)
    }
}

pub(crate) fn hole(label: &str) -> wire::Position {
    wire::Position {
        label: label.into(),
        ..Default::default()
    }
}

pub(crate) fn at(joint: &str) -> String {
    format!("{}/joints/{joint}", JOBS[0])
}

pub(crate) fn plain(joint: &str, position: i32) -> wire::Removal {
    wire::Removal {
        joint: at(joint),
        position,
        condition: wire::RemovalCondition::Normal.into(),
        means: vec![wire::RemovalMeans::Hand.into()],
        length_seen: Some(LengthSeen::Length("1-1/4 in".into())),
        grade: "SAE J429 5".into(),
        kept_in: format!("bag {joint}"),
        ..Default::default()
    }
}

pub(crate) fn fought_back() -> wire::Removal {
    wire::Removal {
        condition: wire::RemovalCondition::Seized.into(),
        ticks: vec![
            wire::RemovalTick::Bent.into(),
            wire::RemovalTick::Pitted.into(),
        ],
        means: vec![
            wire::RemovalMeans::Heat.into(),
            wire::RemovalMeans::Hammer.into(),
        ],
        heat_colour: wire::HeatColour::Red.into(),
        heated_place: "the knuckle boss".into(),
        thread: "7/16-20".into(),
        length_seen: Some(LengthSeen::Length("1-3/4 in".into())),
        marking: "three radial lines".into(),
        breakaway_torque: "160 lbf·ft".into(),
        note: "Came with the hose bracket under its head.".into(),
        ..plain("brake-plate", 3)
    }
}

pub(crate) fn decision(joint: &str, position: i32, reason: &str) -> wire::Decision {
    wire::Decision {
        joint: at(joint),
        position,
        disposition: wire::Disposition::Reuse.into(),
        reason: reason.into(),
        ..Default::default()
    }
}

pub(crate) fn replaced(reason: &str) -> wire::Decision {
    wire::Decision {
        disposition: wire::Disposition::Replace.into(),
        replacement: Some(bolt("1-3/4 in")),
        hole_check: wire::HoleCheck::Chased.into(),
        citation: "parts book of the tractor, plate 14".into(),
        ..decision("brake-plate", 3, reason)
    }
}

pub(crate) fn bolt(length: &str) -> wire::FastenerSpec {
    wire::FastenerSpec {
        thread: "7/16-20 UNF".into(),
        length: length.into(),
        grade: "SAE J429 5".into(),
        ..Default::default()
    }
}

pub(crate) fn refit(position: i32) -> wire::Refit {
    wire::Refit {
        joint: at("brake-plate"),
        position,
        fitted_part: wire::FittedPart::Original.into(),
        tightness: wire::Tightness::Snug.into(),
        ..Default::default()
    }
}
