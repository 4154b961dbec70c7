//! What was marked before parting.

use clampbook_api::v1::{LogMarksResponse, Mark, MarkKind, Marking};

use super::text::{strong, wrap};
use crate::{args::Word, name};

/// Marks that were recorded.
pub(crate) fn recorded(answer: &LogMarksResponse) -> String {
    let marking = answer.marking.clone().unwrap_or_default();
    let place = match marking.position {
        0 => name::id(&marking.joint).to_owned(),
        number => format!("{} position {number}", name::id(&marking.joint)),
    };
    let what = format!("{}: marked {}", strong(&place), said(&marking));
    wrap("", 2, &what)
}

/// One line of marks: `tie-rod turns: 14.5; left hand (entry 4)`.
pub(super) fn said(marking: &Marking) -> String {
    let marks: Vec<String> = marking.marks.iter().map(mark).collect();
    let note = match marking.note.as_str() {
        "" => String::new(),
        note => format!("; {note}"),
    };
    let entry = name::id(&marking.entry);
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
        let mut marking = Marking {
            entry: "jobs/oak/entries/4".to_owned(),
            joint: "jobs/oak/joints/tie-rod".to_owned(),
            position: 1,
            marks: vec![
                mark(MarkKind::TieRodTurns, "14.5"),
                mark(MarkKind::LeftHand, ""),
            ],
            ..Marking::default()
        };
        let told = |marking: &Marking| {
            let answer = LogMarksResponse {
                marking: Some(marking.clone()),
                etag: String::new(),
            };
            finish(&recorded(&answer), Look::default())
        };
        assert_snapshot!(told(&marking), @r"
        tie-rod position 1: marked tie rod turns: 14.5; left hand (entry 4)
        ");
        marking.position = 0;
        marking.note = "both rods".to_owned();
        assert_snapshot!(told(&marking), @r"
        tie-rod: marked tie rod turns: 14.5; left hand; both rods (entry 4)
        ");
    }
}
