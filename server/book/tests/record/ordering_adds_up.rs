//! Whatever is said about parts, in whatever order, the list adds up and is as if it had been said right the first time.

use crate::bench::{Bench, decision, joint_id, new_bolt, sound};
use crate::folding::{fold, said_right};
use crate::ordering::{BOLT, arrived, flagged, gasket, list};
use clampbook_book::command::Command;
use clampbook_book::fact::{Fact, PartArrived, PartWanted, Refitted};
use clampbook_book::orders;
use clampbook_book::words::Criticality::B;
use clampbook_book::words::DecisionKind::Replace;
use proptest::prelude::*;

#[derive(Clone, Debug)]
enum Step {
    Replace(u16),
    Fit(u16),
    Want(usize, u16),
    Arrive(usize, u16),
    Restate(u32, u16),
    Withdraw(u32),
}

const NAMES: [&str; 3] = ["gasket", "Seal, outer", BOLT];

fn steps() -> impl Strategy<Value = Vec<Step>> {
    let (position, name, count) = (1..=4_u16, 0..NAMES.len(), 1..=3_u16);
    let one = prop_oneof![
        position.clone().prop_map(Step::Replace),
        position.prop_map(Step::Fit),
        (name.clone(), count.clone()).prop_map(|(n, c)| Step::Want(n, c)),
        (name, count.clone()).prop_map(|(n, c)| Step::Arrive(n, c)),
        (4..30_u32, count).prop_map(|(e, c)| Step::Restate(e, c)),
        (4..30_u32).prop_map(Step::Withdraw),
    ];
    proptest::collection::vec(one, 0..24)
}

/// Says it, if it is taken; what is refused changes nothing.
fn take(bench: &mut Bench, step: &Step) {
    let before = bench.job.clone();
    let outcome = match *step {
        Step::Replace(position) => {
            let taken = bench.try_say(&Command::LogRemoval(sound(position)));
            if taken.is_ok() {
                bench.decide(decision(position, Replace));
            }
            taken
        }
        Step::Fit(position) => bench.try_say(&Command::LogRefit(Refitted {
            new_part: Some(new_bolt()),
            ..Refitted::new(joint_id(), position)
        })),
        Step::Want(name, quantity) => bench.try_say(&Command::LogPartWanted(PartWanted {
            what: NAMES[name].into(),
            quantity,
            ..gasket()
        })),
        Step::Arrive(name, quantity) => {
            bench.try_say(&Command::LogPartArrival(arrived(NAMES[name], quantity)))
        }
        Step::Restate(entry, quantity) => {
            let parts = &bench.job.parts;
            let wanted = parts.wanted_by(entry).map(|there| {
                Fact::PartWanted(PartWanted {
                    quantity,
                    ..there.fact.clone()
                })
            });
            let came = parts.arrived_by(entry).map(|there| {
                Fact::PartArrived(PartArrived {
                    quantity,
                    ..there.fact.clone()
                })
            });
            match wanted.or(came) {
                Some(fact) => bench.correct(entry, Some(fact)),
                None => return,
            }
        }
        Step::Withdraw(entry) => bench.correct(entry, None),
    };
    if outcome.is_err() {
        assert_eq!(bench.job, before, "{step:?}");
    }
}

proptest! {
    #[test]
    fn the_list_adds_up_whatever_is_said(steps in steps()) {
        let mut bench = Bench::new(B);
        for step in &steps {
            take(&mut bench, step);
        }
        let lines = list(&bench);
        for line in &lines {
            let asked: u32 = line.demands.iter().map(|d| d.quantity).sum();
            prop_assert_eq!(line.wanted, asked);
            let open: u32 = line.demands.iter().filter(|d| !d.is_there).map(|d| d.quantity).sum();
            prop_assert!(open >= line.waiting(), "{:?}", line);
            prop_assert_eq!(open == 0, line.waiting() == 0, "{:?}", line);
        }
        let open = lines.iter().flat_map(|l| &l.demands).filter(|d| !d.is_there);
        prop_assert_eq!(flagged(&bench).len(), open.count());
        let right = fold(&said_right(&bench.entries));
        prop_assert_eq!(orders::list(&right, None, &bench.context()), lines);
    }
}
