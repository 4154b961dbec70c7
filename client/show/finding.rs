//! What was found on parts other than fasteners.

use clampbook_api::v1::{
    AnswerCounterpartResponse, Criticality, Finding, FindingKind, FindingSeverity,
    LogFindingResponse, counterpart_answer::Shown,
};

use super::{
    recorded::follows,
    text::{stop, strong, wrap},
};
use crate::{args::Word, name};

/// A finding that was recorded.
pub(crate) fn finding(answer: &LogFindingResponse) -> String {
    let said = answer.finding.as_ref().map(line).unwrap_or_default();
    said + &follows(&answer.flags)
}

/// An answer about the other side that was recorded.
pub(crate) fn answer(answer: &AnswerCounterpartResponse) -> String {
    let said = answer.answer.as_ref().map(|said| {
        let (finding, entry) = (name::id(&said.finding), name::id(&said.entry));
        let shown = said.shown.as_ref().map(spoken).unwrap_or_default();
        let head = strong(&format!("Finding {finding}"));
        wrap(
            "",
            2,
            &format!("{head}, other side: {shown} (entry {entry})"),
        )
    });
    said.unwrap_or_default() + &follows(&answer.flags)
}

/// One finding: where, which part, how bad, and what the other side shows.
pub(super) fn line(finding: &Finding) -> String {
    let place = match (name::id(&finding.assembly), name::id(&finding.joint)) {
        (assembly, "") => assembly.to_owned(),
        (assembly, joint) => format!("{assembly}, {joint}"),
    };
    let severity = match finding.severity() {
        FindingSeverity::Ruined => stop("ruined"),
        _ => FindingSeverity::said_of(finding.severity),
    };
    let mut text = format!(
        "{}: {}, {}, {severity}",
        strong(&place),
        finding.part,
        FindingKind::said_of(finding.kind)
    );
    if finding.criticality() != Criticality::Unspecified {
        text.push_str(&format!(
            ", class {}",
            Criticality::said_of(finding.criticality)
        ));
    }
    for (word, said) in [("cause", &finding.cause), ("read", &finding.reading)] {
        if !said.is_empty() {
            text.push_str(&format!("; {word} {said}"));
        }
    }
    let shown = finding.counterpart_answer.as_ref();
    if let Some(shown) = shown.and_then(|answer| answer.shown.as_ref()) {
        text.push_str(&format!("; other side: {}", spoken(shown)));
    }
    wrap(
        "",
        2,
        &format!("{text} (entry {})", name::id(&finding.entry)),
    )
}

fn spoken(shown: &Shown) -> String {
    match shown {
        Shown::Reading(reading) => format!("read {reading}"),
        Shown::Photo(photo) => format!("photo {photo}"),
        Shown::AddedPhoto(photo) => format!("photo of entry {}", name::id(photo)),
        Shown::NoSuchPartSays(who) => format!("no such part there, says {who}"),
    }
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::CounterpartAnswer;
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn a_finding_tells_part_fault_cause_and_the_other_side() {
        let mut finding = Finding {
            entry: "jobs/oak/entries/12".into(),
            assembly: "jobs/oak/assemblies/left-hub".into(),
            joint: "jobs/oak/joints/bearing-nut".into(),
            part: "spindle".into(),
            kind: FindingKind::Wear.into(),
            severity: FindingSeverity::Ruined.into(),
            criticality: Criticality::A.into(),
            cause: "bearing ran dry".into(),
            reading: "journal 24.61 mm".into(),
            ..Finding::default()
        };
        assert_snapshot!(finish(&line(&finding), Look::default()), @r"
        left-hub, bearing-nut: spindle, wear, ruined, class A; cause bearing ran dry;
          read journal 24.61 mm (entry 12)
        ");
        finding = Finding {
            joint: String::new(),
            cause: String::new(),
            reading: String::new(),
            counterpart_answer: Some(CounterpartAnswer {
                shown: Some(Shown::NoSuchPartSays("Tomas".into())),
                ..CounterpartAnswer::default()
            }),
            ..finding
        };
        assert_snapshot!(finish(&line(&finding), Look::default()), @r"
        left-hub: spindle, wear, ruined, class A; other side: no such part there, says
          Tomas (entry 12)
        ");
    }
}
