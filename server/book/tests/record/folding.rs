//! The fold: total, and a correction stands where the corrected fact stood.

use crate::bench::{Bench, decision, joint_id, sound, tightening};
use clampbook_book::entry::Entry;
use clampbook_book::fact::{
    Corrected, Fact, NotRefitted, Refitted, Removed, Thing, Tightened, TorqueRead,
};
use clampbook_book::ids::JobId;
use clampbook_book::job::{Job, Saying};
use clampbook_book::standings::Standings;
use clampbook_book::words;
use clampbook_book::words::{Criticality, DecisionKind, Outcome, Piece, PieceFate};
use proptest::prelude::*;

/// What stands at each position, without who said it and when.
fn standing(job: &Job) -> Vec<Vec<(u32, Saying)>> {
    job.positions()
        .map(|p| {
            p.records
                .iter()
                .map(|r| (r.entry, r.saying.clone()))
                .collect()
        })
        .collect()
}

pub(crate) fn fold<'e>(entries: impl IntoIterator<Item = &'e Entry>) -> Job {
    let mut job = Job::new(JobId::new("tractor").expect("a slug"));
    for entry in entries {
        job.apply(entry);
    }
    job
}

/// The entries as if every corrected fact had been said right the first time.
pub(crate) fn said_right(entries: &[Entry]) -> Vec<Entry> {
    let mut right: Vec<Entry> = Vec::new();
    for entry in entries {
        match &entry.fact {
            Fact::Corrected(Corrected { replaces, with, .. }) => match with {
                Some(fact) => {
                    let place = right.iter_mut().find(|e| e.number == *replaces);
                    place.expect("the entry").fact = (**fact).clone();
                }
                None => right.retain(|e| e.number != *replaces),
            },
            _ => right.push(entry.clone()),
        }
    }
    right
}

#[derive(Clone, Debug)]
enum Step {
    Out(u16, Outcome),
    Decide(u16, DecisionKind),
    Back(u16, bool),
    Tighten(u16, words::Step),
    Retell(u32, u16, words::Step),
    Account(u16, u16),
    Correct(u32, u16, Outcome),
    CountAnew(u32, u16, u16),
    Withdraw(u32),
}

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let position = 1..=4_u16;
    let outcome = prop::sample::select(Outcome::ALL);
    let tightened = prop::sample::select(words::Step::ALL);
    let step = prop_oneof![
        4 => (position.clone(), outcome.clone()).prop_map(|(p, c)| Step::Out(p, c)),
        2 => (position.clone(), prop::sample::select(DecisionKind::ALL)).prop_map(|(p, d)| Step::Decide(p, d)),
        3 => (position.clone(), any::<bool>()).prop_map(|(p, there)| Step::Back(p, there)),
        3 => (position.clone(), tightened.clone()).prop_map(|(p, step)| Step::Tighten(p, step)),
        1 => (3..40_u32, position.clone(), tightened).prop_map(|(e, p, step)| Step::Retell(e, p, step)),
        2 => (3..40_u32, position.clone(), outcome).prop_map(|(e, p, c)| Step::Correct(e, p, c)),
        2 => (position.clone(), 1..4_u16).prop_map(|(p, n)| Step::Account(p, n)),
        2 => (3..40_u32, position, 1..4_u16).prop_map(|(e, p, n)| Step::CountAnew(e, p, n)),
        2 => (3..40_u32).prop_map(Step::Withdraw),
    ];
    prop::collection::vec(step, 1..60)
}

fn shims(position: u16, count: u16) -> NotRefitted {
    NotRefitted {
        joint: joint_id(),
        position,
        what: Thing::Piece(Piece::Shim),
        count,
        became: PieceFate::Found,
        why: "under the bench".into(),
    }
}

fn play(bench: &mut Bench, step: Step) {
    use clampbook_book::command::Command;
    let removed = |position, outcome| Removed {
        outcome,
        ..sound(position)
    };
    // Refused steps are part of the game: they must change nothing, which `judging` shows.
    let _ = match step {
        Step::Out(p, c) => bench.try_say(&Command::LogRemoval(removed(p, c))),
        Step::Decide(p, d) => {
            let etag = bench.joint().position(p).expect("it").etag();
            let decided = decision(p, d);
            bench.try_say(&Command::LogDecision { decided, etag })
        }
        Step::Back(p, in_already) => bench.try_say(&Command::LogRefit(Refitted {
            in_already,
            ..Refitted::new(joint_id(), p)
        })),
        Step::Tighten(p, step) => bench.try_say(&Command::LogTightening(tightening(&[p], step))),
        Step::Retell(e, position, step) => {
            let retold = Fact::Tightened(Tightened {
                joint: joint_id(),
                position,
                step,
                note: String::new(),
                torque: TorqueRead::default(),
            });
            bench.correct(e, Some(retold))
        }
        Step::Account(p, n) => bench.try_say(&Command::LogNotRefitted(shims(p, n))),
        Step::CountAnew(e, p, n) => bench.correct(e, Some(Fact::NotRefitted(shims(p, n)))),
        Step::Correct(e, p, c) => bench.correct(e, Some(Fact::Removed(removed(p, c)))),
        Step::Withdraw(e) => bench.correct(e, None),
    };
}

proptest! {
    #[test]
    fn a_corrected_job_stands_as_if_it_had_been_said_right(steps in steps()) {
        let mut bench = Bench::new(Criticality::B);
        for step in steps {
            play(&mut bench, step);
        }
        let right = said_right(&bench.entries);
        prop_assert_eq!(standing(&bench.job), standing(&fold(&right)));
    }

    #[test]
    fn folding_again_gives_the_same_job(steps in steps()) {
        let mut bench = Bench::new(Criticality::A);
        for step in steps {
            play(&mut bench, step);
        }
        prop_assert_eq!(&bench.job, &fold(&bench.entries));
        prop_assert_eq!(bench.job.standings, Standings::of(&bench.job.joints));
    }

    #[test]
    fn any_entries_in_any_order_can_be_read(steps in steps(), picks in prop::collection::vec(0..80_usize, 0..80)) {
        let mut bench = Bench::new(Criticality::C);
        for step in steps {
            play(&mut bench, step);
        }
        let shuffled = picks.iter().filter_map(|i| bench.entries.get(*i));
        let job = fold(shuffled);
        prop_assert!(job.joints.len() <= picks.len());
    }

    #[test]
    fn what_is_stored_reads_back_as_it_was_said(steps in steps()) {
        let mut bench = Bench::new(Criticality::B);
        for step in steps {
            play(&mut bench, step);
        }
        for entry in &bench.entries {
            let text = serde_json::to_string(&entry.fact).expect("it can be written");
            let read: Fact = serde_json::from_str(&text).expect("it can be read");
            prop_assert_eq!(&read, &entry.fact);
        }
    }
}

#[test]
fn the_form_in_which_facts_are_stored_does_not_change() {
    let text = serde_json::to_string(&Fact::Removed(Removed {
        outcome: Outcome::LooseOnArrival,
        ..sound(3)
    }))
    .expect("it can be written");
    assert_eq!(
        text,
        r#"{"kind":"removed","joint":"plate","position":3,"condition":"loose-on-arrival","length":{"measured":{"said":"1.25 in","mm":31.75}},"grade":"SAE J429 5"}"#
    );
}
