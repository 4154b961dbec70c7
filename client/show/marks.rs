//! What was marked before parting.

use clampbook_api::v1::{LogMatchMarksResponse, Mark, MarkKind, MatchMarks};

use super::text::{strong, wrap};
use crate::{args::Word, name};

/// Marks that were recorded.
pub(crate) fn recorded(answer: &LogMatchMarksResponse) -> String {
    let match_marks = answer.match_marks.clone().unwrap_or_default();
    let place = match match_marks.position {
        0 => name::id(&match_marks.joint).to_owned(),
        number => format!("{} position {number}", name::id(&match_marks.joint)),
    };
    let what = format!("{}: marked {}", strong(&place), said(&match_marks));
    wrap("", 2, &what)
}

/// One line of marks: `tie-rod turns: 14.5; left hand (entry 4)`.
pub(super) fn said(match_marks: &MatchMarks) -> String {
    let marks: Vec<String> = match_marks.marks.iter().map(mark).collect();
    let note = match match_marks.note.as_str() {
        "" => String::new(),
        note => format!("; {note}"),
    };
    let entry = name::id(&match_marks.entry);
    format!("{}{note} (entry {entry})", marks.join("; "))
}

fn mark(mark: &Mark) -> String {
    let kind = MarkKind::said_of(mark.kind);
    match mark.text.as_str() {
        "" => kind,
        text => format!("{kind}: {text}"),
    }
}

#[cfg(test)]
mod tests {
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn marks_are_told_with_their_place() {
        let mark = |kind: MarkKind, text: &str| Mark {
            kind: kind.into(),
            text: text.to_owned(),
        };
        let mut match_marks = MatchMarks {
            entry: "jobs/oak/entries/4".to_owned(),
            joint: "jobs/oak/joints/tie-rod".to_owned(),
            position: 1,
            marks: vec![
                mark(MarkKind::TieRodTurns, "14.5"),
                mark(MarkKind::LeftHand, ""),
            ],
            ..MatchMarks::default()
        };
        let told = |match_marks: &MatchMarks| {
            let answer = LogMatchMarksResponse {
                match_marks: Some(match_marks.clone()),
                etag: String::new(),
            };
            finish(&recorded(&answer), Look::default())
        };
        assert_snapshot!(told(&match_marks), @r"
        tie-rod position 1: marked tie rod turns: 14.5; left hand (entry 4)
        ");
        match_marks.position = 0;
        match_marks.note = "both rods".to_owned();
        assert_snapshot!(told(&match_marks), @r"
        tie-rod: marked tie rod turns: 14.5; left hand; both rods (entry 4)
        ");
    }
}
