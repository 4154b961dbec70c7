//! What was recorded by a changing command, and what follows from it at once.

use clampbook_api::v1::{
    CorrectEntryResponse, Decision, DecisionKind, FastenerSpec, FittedPart, Flag, HoldReason,
    ImportRemovalsResponse, LogAlikeRemovalsResponse, LogDecisionResponse, LogRefitResponse,
    LogRemovalResponse, Refit, Removal, RemovalOutcome, Tightness,
};

use super::{
    flag::block,
    quantity,
    text::{strong, wrap},
};
use crate::{args::Word, name};

/// A removal.
pub(crate) fn removal(answer: &LogRemovalResponse) -> String {
    let said = answer.removal.as_ref().map(removed).unwrap_or_default();
    said + &follows(&answer.flags)
}

/// Removals that went alike.
pub(crate) fn alike(answer: &LogAlikeRemovalsResponse) -> String {
    let said: String = answer.removals.iter().map(removed).collect();
    said + &follows(&answer.flags)
}

fn removed(removal: &Removal) -> String {
    let how = format!("came out {}", RemovalOutcome::said_of(removal.outcome));
    line(&removal.entry, &removal.joint, removal.position, &how)
}

/// A whole strip-down, or a check of one.
pub(crate) fn import(answer: &ImportRemovalsResponse, checked_only: bool) -> String {
    let deed = if checked_only {
        "checked, nothing written"
    } else {
        "recorded"
    };
    let removals = match answer.removal_count {
        1 => "1 removal".to_owned(),
        count => format!("{count} removals"),
    };
    format!("{removals} {deed}.\n{}", follows(&answer.flags))
}

/// A decision.
pub(crate) fn decision(answer: &LogDecisionResponse) -> String {
    let said = answer.decision.as_ref().map(decided).unwrap_or_default();
    said + &follows(&answer.flags)
}

/// A fastener as it was named.
fn fastener(part: &FastenerSpec) -> String {
    let words = [
        &part.thread,
        &part.length,
        &part.grade,
        &part.form,
        &part.finish,
    ];
    let said: Vec<&str> = (words.into_iter())
        .map(String::as_str)
        .filter(|word| !word.is_empty())
        .collect();
    said.join(" ")
}

fn decided(decision: &Decision) -> String {
    let with = decision
        .replacement
        .as_ref()
        .map(|new| format!(" with {}", fastener(new)))
        .unwrap_or_default();
    let waits = match decision.hold_reason() {
        HoldReason::Unspecified => String::new(),
        _ => format!(", waits for {}", HoldReason::said_of(decision.hold_reason)),
    };
    let by = match decision.left_out_by.as_str() {
        "" => String::new(),
        name => format!(", by {name}"),
    };
    let repaired = match decision.hole_repair.as_str() {
        "" => String::new(),
        how => format!(", hole repaired: {how}"),
    };
    let baked = match decision.baking_shown {
        true => format!(", baking shown by {}", decision.citation),
        false => String::new(),
    };
    let what = format!(
        "{}{with}{waits}{by}{repaired}{baked}",
        DecisionKind::said_of(decision.kind)
    );
    line(&decision.entry, &decision.joint, decision.position, &what)
}

/// A refit.
pub(crate) fn refit(answer: &LogRefitResponse) -> String {
    let said = answer.refit.as_ref().map(refitted).unwrap_or_default();
    said + &follows(&answer.flags)
}

fn refitted(refit: &Refit) -> String {
    let part = FittedPart::said_of(refit.fitted_part);
    let tightness = match refit.tightness() {
        Tightness::Final => "at its final torque".to_owned(),
        _ => format!("{}, NOT TIGHT", Tightness::said_of(refit.tightness)),
    };
    let reading = match refit.torque_reading.as_str() {
        "" => String::new(),
        said => format!(", read {said}"),
    };
    let what = format!("{part} in, {tightness}{reading}");
    let mut shown = line(&refit.entry, &refit.joint, refit.position, &what);
    let published = match refit.specification_revision {
        0 => None,
        revision => Some(format!(
            "{} revision {revision}",
            name::id(&refit.specification)
        )),
    };
    let asked = match (refit.wanted_torque_nm, published) {
        (Some(_), published) => {
            let wanted = quantity::unbroken(&refit.wanted_torque_text);
            let from = match published {
                Some(published) => format!("PUBLISHED, {published}"),
                None => "COMPUTED, NOT MAKER'S".to_owned(),
            };
            format!("The record asks for {wanted}, {from}.")
        }
        (None, Some(published)) => {
            format!("The record asks for the steps that are PUBLISHED, {published}.")
        }
        (None, None) => return shown,
    };
    shown.push_str(&wrap("  ", 2, &asked));
    shown
}

/// A correction.
pub(crate) fn correction(answer: &CorrectEntryResponse) -> String {
    let name = answer.entry.as_ref().map_or("", |entry| &entry.name);
    format!("Corrected by {}.\n{}", strong(name), follows(&answer.flags))
}

fn line(entry: &str, joint: &str, position: i32, what: &str) -> String {
    let place = strong(&format!("{} position {position}", name::id(joint)));
    let entry = name::id(entry);
    wrap("", 2, &format!("{place}: {what} (entry {entry})"))
}

/// Flags that follow from what was recorded.
pub(super) fn follows(flags: &[Flag]) -> String {
    match flags {
        [] => String::new(),
        flags => format!("\n{}", block(flags)),
    }
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::Severity;
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    const HUB: &str = "jobs/oak/joints/hub";

    fn printed(text: String) -> String {
        finish(&text, Look::default())
    }

    #[test]
    fn a_refit_that_is_not_tight_says_so() {
        let refit_of = |tightness: Tightness, reading: &str| LogRefitResponse {
            refit: Some(Refit {
                entry: "jobs/oak/entries/9".to_owned(),
                joint: HUB.to_owned(),
                position: 3,
                fitted_part: FittedPart::New.into(),
                tightness: tightness.into(),
                torque_reading: reading.to_owned(),
                wanted_torque_nm: Some(61.0),
                wanted_torque_text: "61 N·m (45 lbf·ft)".to_owned(),
                ..Refit::default()
            }),
            ..LogRefitResponse::default()
        };
        assert_snapshot!(printed(refit(&refit_of(Tightness::Snug, ""))), @r"
        hub position 3: new in, snug, NOT TIGHT (entry 9)
          The record asks for 61 N·m (45 lbf·ft), COMPUTED, NOT MAKER'S.
        ");
        assert_snapshot!(printed(refit(&refit_of(Tightness::Final, "44 lbf·ft"))), @r"
        hub position 3: new in, at its final torque, read 44 lbf·ft (entry 9)
          The record asks for 61 N·m (45 lbf·ft), COMPUTED, NOT MAKER'S.
        ");
    }

    #[test]
    fn a_refit_tells_what_was_published_for_it() {
        let refit_of = |wanted_torque_nm: Option<f64>| LogRefitResponse {
            refit: Some(Refit {
                entry: "jobs/oak/entries/9".to_owned(),
                joint: HUB.to_owned(),
                position: 3,
                fitted_part: FittedPart::Original.into(),
                tightness: Tightness::Final.into(),
                wanted_torque_nm,
                wanted_torque_text: "61 N·m (45 lbf·ft)".to_owned(),
                specification: "specifications/hub-bolts".to_owned(),
                specification_revision: 2,
                ..Refit::default()
            }),
            ..LogRefitResponse::default()
        };
        assert_snapshot!(printed(refit(&refit_of(Some(61.0)))), @r"
        hub position 3: original in, at its final torque (entry 9)
          The record asks for 61 N·m (45 lbf·ft), PUBLISHED, hub-bolts revision 2.
        ");
        assert_snapshot!(printed(refit(&refit_of(None))), @r"
        hub position 3: original in, at its final torque (entry 9)
          The record asks for the steps that are PUBLISHED, hub-bolts revision 2.
        ");
    }

    #[test]
    fn a_removal_tells_at_once_what_follows_from_it() {
        let answer = LogRemovalResponse {
            removal: Some(Removal {
                entry: "jobs/oak/entries/7".to_owned(),
                joint: HUB.to_owned(),
                position: 3,
                outcome: RemovalOutcome::Seized.into(),
                ..Removal::default()
            }),
            flags: vec![Flag {
                rule: "forced-out".to_owned(),
                severity: Severity::Stop.into(),
                joint: HUB.to_owned(),
                position: 3,
                cause: "Seized.".to_owned(),
                clears: "A decision on fastener and hole.".to_owned(),
                ..Flag::default()
            }],
            etag: String::new(),
        };
        assert_snapshot!(printed(removal(&answer)), @r"
        hub position 3: came out seized (entry 7)

        STOP  hub position 3  forced-out
          Seized.
          Clears: A decision on fastener and hole.
        ");
    }

    #[test]
    fn a_decision_names_the_new_part_and_a_check_says_that_nothing_was_written() {
        let answer = LogDecisionResponse {
            decision: Some(Decision {
                entry: "jobs/oak/entries/8".to_owned(),
                joint: HUB.to_owned(),
                position: 3,
                kind: DecisionKind::Replace.into(),
                replacement: Some(FastenerSpec {
                    thread: "7/16-20".to_owned(),
                    length: "1-3/4 in".to_owned(),
                    grade: "SAE J429 5".to_owned(),
                    length_mm: 44.45,
                    finish: "zinc flake".to_owned(),
                    ..FastenerSpec::default()
                }),
                ..Decision::default()
            }),
            ..LogDecisionResponse::default()
        };
        assert_snapshot!(printed(decision(&answer)), @r"
        hub position 3: replace with 7/16-20 1-3/4 in SAE J429 5 zinc flake (entry 8)
        ");
        let checked = ImportRemovalsResponse {
            removal_count: 12,
            flags: Vec::new(),
        };
        assert_snapshot!(printed(import(&checked, true)), @r"
        12 removals checked, nothing written.
        ");
    }
}
