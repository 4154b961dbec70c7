//! Joints and their positions.

use clampbook_api::v1::{
    DecisionKind, FittedPart, Joint, ListJointsResponse, Position, PositionState, RemovalOutcome,
};

use super::{
    recorded::line,
    text::{led, table},
};
use crate::args::Word;

/// One joint with all its positions.
pub(crate) fn joint(joint: &Joint) -> String {
    let mut shown = led(&joint.text);
    let of_positions = joint.positions.iter().flat_map(|one| &one.match_marks);
    for match_marks in joint.match_marks.iter().chain(of_positions) {
        shown.push_str(&line(&match_marks.text, &match_marks.entry));
    }
    shown.push('\n');
    let rows: Vec<_> = joint.positions.iter().map(position).collect();
    shown.push_str(&table(
        [
            "hole", "state", "came out", "decided", "went in", "read", "called",
        ],
        &rows,
    ));
    shown
}

fn position(position: &Position) -> [String; 7] {
    let or_dash = |word: Option<String>| word.unwrap_or_else(|| "-".to_owned());
    [
        position.number.to_string(),
        PositionState::said_of(position.state),
        or_dash(
            position
                .removal
                .as_ref()
                .map(|removal| RemovalOutcome::said_of(removal.outcome)),
        ),
        or_dash(
            position
                .decision
                .as_ref()
                .map(|decision| DecisionKind::said_of(decision.kind)),
        ),
        or_dash(
            position
                .refit
                .as_ref()
                .map(|refit| FittedPart::said_of(refit.fitted_part)),
        ),
        or_dash(
            (position.tightening.as_ref())
                .map(|tightening| tightening.torque_reading.clone())
                .filter(|reading| !reading.is_empty()),
        ),
        position.label.clone(),
    ]
}

/// All joints of a job.
pub(crate) fn joints(list: &ListJointsResponse) -> String {
    if list.joints.is_empty() {
        return "The job has no joint yet.\n".to_owned();
    }
    list.joints.iter().map(|joint| led(&joint.text)).collect()
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::{Decision, MatchMarks, Refit, Removal, Tightening};
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    fn example() -> Joint {
        let removed = Position {
            number: 1,
            label: "upper rear".to_owned(),
            state: PositionState::Snug.into(),
            removal: Some(Removal {
                outcome: RemovalOutcome::LooseOnArrival.into(),
                ..Removal::default()
            }),
            decision: Some(Decision {
                kind: DecisionKind::CleanAndReuse.into(),
                ..Decision::default()
            }),
            refit: Some(Refit {
                fitted_part: FittedPart::Original.into(),
                ..Refit::default()
            }),
            tightening: Some(Tightening {
                torque_reading: "20 N·m".to_owned(),
                ..Tightening::default()
            }),
            ..Position::default()
        };
        let in_place = Position {
            number: 2,
            state: PositionState::InPlace.into(),
            ..Position::default()
        };
        Joint {
            text: "left, hub: Hub to spindle; class A life and limb; grid of 2 in 2 rows"
                .to_owned(),
            positions: vec![removed, in_place],
            match_marks: vec![MatchMarks {
                entry: "jobs/oak/entries/4".to_owned(),
                text: "hub: marked match marks: two dots".to_owned(),
                ..MatchMarks::default()
            }],
            ..Joint::default()
        }
    }

    #[test]
    fn a_joint_shows_every_hole_in_its_state() {
        assert_snapshot!(finish(&joint(&example()), Look::default()), @r"
        left, hub: Hub to spindle; class A life and limb; grid of 2 in 2 rows
        hub: marked match marks: two dots (entry 4)

        hole  state     came out          decided          went in   read    called
        1     snug      loose on arrival  clean and reuse  original  20 N·m  upper rear
        2     in place  -                 -                -         -
        ");
    }

    #[test]
    fn joints_are_listed_with_what_they_were_specified_for() {
        let list = ListJointsResponse {
            joints: vec![example()],
            next_page_token: String::new(),
        };
        assert_snapshot!(finish(&joints(&list), Look::default()), @r"
        left, hub: Hub to spindle; class A life and limb; grid of 2 in 2 rows
        ");
    }
}
