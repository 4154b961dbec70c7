//! What was recorded by a changing command, and what follows from it at once. The server says what an entry says.

use clampbook_api::v1::{
    AddPhotoResponse, AnswerCounterpartResponse, CorrectEntryResponse, ImportRemovalsResponse,
    LogAlikeRemovalsResponse, LogDecisionResponse, LogFindingResponse, LogMatchMarksResponse,
    LogNotRefittedResponse, LogPartArrivalResponse, LogPartWantedResponse, LogRefitResponse,
    LogRemovalResponse, LogTighteningResponse,
};

use super::{flag::follows, text::led};
use crate::name;

/// An answer that holds something recorded and the flags that follow from it.
macro_rules! recorded {
    ($($screen:ident $answer:ident $field:ident;)+) => {$(
        pub(crate) fn $screen(answer: &$answer) -> String {
            let said = answer.$field.as_ref();
            let said = said.map(|said| line(&said.text, &said.entry));
            said.unwrap_or_default() + &follows(&answer.flags)
        }
    )+};
}

recorded! {
    removal LogRemovalResponse removal;
    decision LogDecisionResponse decision;
    refit LogRefitResponse refit;
    finding LogFindingResponse finding;
    counterpart AnswerCounterpartResponse answer;
    pieces LogNotRefittedResponse not_refitted;
    wanted LogPartWantedResponse wanted;
}

/// Removals that went alike.
pub(crate) fn alike(answer: &LogAlikeRemovalsResponse) -> String {
    let removals = answer.removals.iter();
    let said: String = removals.map(|one| line(&one.text, &one.entry)).collect();
    said + &follows(&answer.flags)
}

/// Fasteners that were tightened by the same step.
pub(crate) fn tightening(answer: &LogTighteningResponse) -> String {
    let tightenings = answer.tightenings.iter();
    let said: String = tightenings.map(|one| line(&one.text, &one.entry)).collect();
    said + &follows(&answer.flags)
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

/// An arrival, and how many are still waited for.
pub(crate) fn arrival(answer: &LogPartArrivalResponse) -> String {
    let waits = answer.part.as_ref().map_or(0, |part| part.waiting_count);
    let still = match waits {
        0 => "none is waited for any more".to_owned(),
        count => format!("{count} still waited for"),
    };
    let said = answer.arrival.as_ref();
    let said = said.map(|said| line(&format!("{}; {still}", said.text), &said.entry));
    said.unwrap_or_default() + &follows(&answer.flags)
}

/// Marks made before parting.
pub(crate) fn marks(answer: &LogMatchMarksResponse) -> String {
    let said = answer.match_marks.as_ref();
    said.map(|said| line(&said.text, &said.entry))
        .unwrap_or_default()
}

/// A photo that was added.
pub(crate) fn photo(answer: &AddPhotoResponse) -> String {
    let said = answer.photo.as_ref();
    said.map(|said| line(&said.text, &said.entry))
        .unwrap_or_default()
}

/// A correction.
pub(crate) fn correction(answer: &CorrectEntryResponse) -> String {
    let said = answer.entry.as_ref();
    let said = said.map(|said| line(&said.text, &said.name));
    said.unwrap_or_default() + &follows(&answer.flags)
}

/// What an entry says, with its number.
pub(super) fn line(text: &str, entry: &str) -> String {
    led(&format!("{text} (entry {})", name::id(entry)))
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::{Flag, PartArrival, PartToOrder, Removal, Severity};
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    fn printed(text: &str) -> String {
        finish(text, Look::default())
    }

    #[test]
    fn a_removal_tells_at_once_what_follows_from_it() {
        let answer = LogRemovalResponse {
            removal: Some(Removal {
                entry: "jobs/oak/entries/7".to_owned(),
                text: "hub position 3: came out seized".to_owned(),
                ..Removal::default()
            }),
            flags: vec![Flag {
                rule: "forced-out".to_owned(),
                severity: Severity::Stop.into(),
                joint: "jobs/oak/joints/hub".to_owned(),
                position: 3,
                text: "Seized.\nClears: A decision on fastener and hole.".to_owned(),
                ..Flag::default()
            }],
            etag: String::new(),
        };
        assert_snapshot!(printed(&removal(&answer)), @r"
        hub position 3: came out seized (entry 7)

        STOP  hub position 3  forced-out
          Seized.
          Clears: A decision on fastener and hole.
        ");
    }

    #[test]
    fn a_check_says_that_nothing_was_written() {
        let checked = ImportRemovalsResponse {
            removal_count: 12,
            flags: Vec::new(),
        };
        assert_snapshot!(printed(&import(&checked, true)), @r"
        12 removals checked, nothing written.
        ");
    }

    #[test]
    fn an_arrival_says_how_many_are_still_waited_for() {
        let answer = |waiting_count| LogPartArrivalResponse {
            arrival: Some(PartArrival {
                entry: "jobs/oak/entries/9".to_owned(),
                text: "left: 2 x gasket arrived".to_owned(),
                ..PartArrival::default()
            }),
            part: Some(PartToOrder {
                waiting_count,
                ..PartToOrder::default()
            }),
            flags: Vec::new(),
        };
        assert_eq!(
            printed(&arrival(&answer(1))),
            "left: 2 x gasket arrived; 1 still waited for (entry 9)\n"
        );
        assert_eq!(
            printed(&arrival(&answer(0))),
            "left: 2 x gasket arrived; none is waited for any more (entry 9)\n"
        );
    }
}
