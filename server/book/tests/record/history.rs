//! The history of one position among all that is said of a job.

use crate::bench::{Bench, back, decision, joint_id, sound};
use clampbook_book::command::Command;
use clampbook_book::fact::{Fact, Mark, Marked, Removed};
use clampbook_book::history::{About, History};
use clampbook_book::words::{Criticality, DecisionKind, MarkKind, Outcome, Tightness};

fn history(bench: &Bench, position: u16) -> Vec<(u32, About)> {
    let mut history = History::of(joint_id(), position);
    let follow =
        |entry: &clampbook_book::entry::Entry| Some((entry.number, history.follow(entry)?));
    bench.entries.iter().filter_map(follow).collect()
}

fn marked(position: u16) -> Command {
    Command::LogMatchMarks(Marked {
        joint: joint_id(),
        position,
        marks: vec![Mark {
            what: MarkKind::LeftHand,
            said: String::new(),
        }],
        note: String::new(),
    })
}

#[test]
fn only_what_is_said_of_the_position_is_in_its_history() {
    let mut bench = Bench::new(Criticality::B);
    bench.say(marked(0));
    bench.say(marked(1));
    bench.take_out(sound(1)).take_out(sound(2));
    bench.decide(decision(1, DecisionKind::Reuse));
    bench
        .refit(back(2, Tightness::Snug))
        .refit(back(1, Tightness::Final));
    let of = |position| -> Vec<u32> { history(&bench, position).iter().map(|(n, _)| *n).collect() };
    assert_eq!(of(1), [5, 6, 8, 11, 12]);
    assert_eq!(of(2), [7, 9, 10]);
    assert_eq!(of(3), [0; 0]);
}

#[test]
fn corrections_stand_in_their_own_place_and_say_what_they_correct() {
    let mut bench = Bench::new(Criticality::B);
    bench.take_out(sound(1)).take_out(sound(2));
    let stiff = Removed {
        outcome: Outcome::Stiff,
        ..sound(1)
    };
    bench
        .correct(4, Some(Fact::Removed(stiff.clone())))
        .expect("corrected");
    bench.correct(4, Some(Fact::Removed(stiff))).expect("again");
    bench.correct(5, None).expect("withdrawn");
    assert_eq!(
        history(&bench, 1),
        [
            (4, About::Said),
            (6, About::Replaces(4)),
            (7, About::Replaces(4))
        ]
    );
    assert_eq!(
        history(&bench, 2),
        [(5, About::Said), (8, About::Withdraws(5))]
    );
}

#[test]
fn what_was_moved_is_in_the_history_of_both_places() {
    let mut bench = Bench::new(Criticality::B);
    bench.take_out(sound(1));
    bench
        .correct(4, Some(Fact::Removed(sound(3))))
        .expect("moved");
    bench
        .correct(4, Some(Fact::Removed(sound(3))))
        .expect("said again");
    let moved = [(5, About::Replaces(4)), (6, About::Replaces(4))];
    assert_eq!(history(&bench, 3), moved);
    assert_eq!(history(&bench, 1)[..2], [(4, About::Said), moved[0]]);
    assert_eq!(history(&bench, 2), [(0, About::Said); 0]);
}
