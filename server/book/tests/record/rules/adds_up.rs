//! Nothing is left over, by kind and over a whole assembly.

use crate::bench::{Bench, back, decision, joint_id, new_bolt, sound};
use crate::folding::fold;
use clampbook_book::command::Command;
use clampbook_book::fact::{
    Assembled, Fact, FittedWith, NotRefitted, PartSeen, PieceFitted, Refitted, Removed, Stacked,
    Thing,
};
use clampbook_book::ids::JointId;
use clampbook_book::job::Saying;
use clampbook_book::refusal::Refusal;
use clampbook_book::rules::{self, On};
use clampbook_book::words::Criticality::B;
use clampbook_book::words::DecisionKind::Replace;
use clampbook_book::words::{
    Outcome, Piece, PieceFate, Severity, SmallPart, SmallPartCondition, Tightness,
};

/// Two shims, a washer and a nut come out with each.
fn shimmed(position: u16) -> Removed {
    let stacked = |piece, count| Stacked {
        piece,
        count,
        thickness: None,
        said: String::new(),
    };
    Removed {
        assembled: Some(Box::new(Assembled {
            stack: vec![stacked(Piece::Washer, 1), stacked(Piece::Shim, 2)],
            parts: vec![PartSeen {
                part: SmallPart::Nut,
                found: SmallPartCondition::Present,
                said: String::new(),
            }],
            ..Assembled::default()
        })),
        ..sound(position)
    }
}

fn fitted(what: Thing, count: u16) -> PieceFitted {
    PieceFitted {
        what,
        count,
        is_new: false,
        said: String::new(),
    }
}

fn back_with(position: u16, pieces: Vec<PieceFitted>) -> Refitted {
    Refitted {
        with: Some(Box::new(FittedWith {
            pieces,
            ..FittedWith::default()
        })),
        ..back(position, Tightness::Final)
    }
}

fn all_of_it() -> Vec<PieceFitted> {
    vec![
        fitted(Thing::Piece(Piece::Washer), 1),
        fitted(Thing::Piece(Piece::Shim), 2),
        fitted(Thing::SmallPart(SmallPart::Nut), 1),
    ]
}

fn accounted(position: u16, what: Thing, count: u16) -> Command {
    Command::LogNotRefitted(NotRefitted {
        joint: joint_id(),
        position,
        what,
        count,
        became: PieceFate::Found,
        why: "under the bench".into(),
    })
}

/// What is left over, as it is told.
fn left_over(bench: &Bench) -> Vec<String> {
    rules::flags(&bench.job, &bench.context())
        .into_iter()
        .filter(|flag| flag.rule == "does-not-add-up")
        .map(|flag| {
            assert_eq!(flag.severity, Severity::Caution);
            assert!(matches!(flag.on, On::Assembly(_)));
            let told = flag
                .cause
                .strip_prefix("does not add up: ")
                .expect("its words");
            told.split(" left over")
                .next()
                .unwrap_or_default()
                .to_owned()
        })
        .collect()
}

#[test]
fn what_is_left_over_when_a_position_is_closed_is_named_by_kind() {
    let mut bench = Bench::new(B);
    bench.take_out(shimmed(1));
    assert_eq!(left_over(&bench), [""; 0], "it is apart");
    bench.refit(back(1, Tightness::Snug));
    assert_eq!(left_over(&bench), [""; 0], "it is not closed");
    bench.refit(back(1, Tightness::Final));
    assert_eq!(left_over(&bench), ["1 x washer", "2 x shim", "1 x nut"]);
    bench.refit(back_with(1, vec![fitted(Thing::Piece(Piece::Shim), 1)]));
    assert_eq!(left_over(&bench), ["1 x washer", "1 x shim", "1 x nut"]);
}

#[test]
fn what_went_back_adds_up_in_whichever_hole_and_under_either_name() {
    let mut bench = Bench::new(B);
    bench.take_out(shimmed(1)).refit(back_with(1, all_of_it()));
    assert_eq!(left_over(&bench), [""; 0]);
    // Both washers of the next hole went into the third.
    bench.take_out(shimmed(2)).take_out(shimmed(3));
    let but_washer = all_of_it().split_off(1);
    bench.refit(back_with(2, but_washer.clone()));
    assert_eq!(left_over(&bench), ["1 x washer"]);
    let two = [
        vec![fitted(Thing::SmallPart(SmallPart::Washer), 2)],
        but_washer,
    ]
    .concat();
    bench.refit(back_with(3, two));
    assert_eq!(left_over(&bench), [""; 0]);
    bench.take_out(sound(4)).refit(back(4, Tightness::Final));
    assert_eq!(left_over(&bench), [""; 0], "a plain bolt leaves nothing");
}

#[test]
fn saying_that_all_went_back_as_it_came_out_clears_it() {
    let mut bench = Bench::new(B);
    bench.take_out(shimmed(1)).refit(back(1, Tightness::Final));
    assert_eq!(left_over(&bench).len(), 3);
    bench.refit(Refitted {
        with: Some(Box::new(FittedWith {
            as_it_came_out: true,
            ..FittedWith::default()
        })),
        ..back(1, Tightness::Final)
    });
    assert_eq!(left_over(&bench), [""; 0]);
}

#[test]
fn the_named_piece_found_or_explained_clears_it_and_another_does_not() {
    let mut bench = Bench::new(B);
    bench.take_out(shimmed(1)).refit(back(1, Tightness::Final));
    bench.say(accounted(1, Thing::Piece(Piece::Bracket), 5));
    bench.say(accounted(1, Thing::SmallPart(SmallPart::Pin), 5));
    bench.decide(decision(1, clampbook_book::words::DecisionKind::Reuse));
    assert_eq!(left_over(&bench), ["1 x washer", "2 x shim", "1 x nut"]);
    bench.say(accounted(1, Thing::Piece(Piece::Shim), 1));
    assert_eq!(
        left_over(&bench),
        ["1 x washer", "1 x shim", "1 x nut"],
        "one of two"
    );
    bench.say(accounted(1, Thing::Piece(Piece::Shim), 1));
    bench.say(accounted(1, Thing::SmallPart(SmallPart::Washer), 1));
    bench.say(accounted(1, Thing::SmallPart(SmallPart::Nut), 1));
    assert_eq!(left_over(&bench), [""; 0]);
    let last = bench.job.last;
    bench.correct(last, None).expect("withdrawn");
    assert_eq!(left_over(&bench), ["1 x nut"], "and open again");
    let untouched = bench.try_say(&accounted(2, Thing::Fastener, 1));
    assert!(
        matches!(untouched, Err(Refusal::State { .. })),
        "{untouched:?}"
    );
    let moved = bench.correct(last, Some(Fact::Removed(sound(1))));
    assert!(moved.is_err(), "an account is no removal");
}

/// The account that an entry says, if it stands.
fn said_in(bench: &Bench, entry: u32) -> Option<NotRefitted> {
    let mut records = bench.job.positions().flat_map(|p| &p.records);
    match &records.find(|r| r.entry == entry)?.saying {
        Saying::Accounted(accounted) => Some(accounted.clone()),
        _ => None,
    }
}

#[test]
fn an_account_said_anew_is_counted_as_it_now_stands() {
    let mut bench = Bench::new(B);
    bench
        .take_out(shimmed(1))
        .refit(back_with(1, all_of_it().split_off(2)));
    bench.say(accounted(1, Thing::Piece(Piece::Washer), 1));
    let washer = bench.job.last;
    bench.say(accounted(1, Thing::Piece(Piece::Shim), 1));
    let shim = bench.job.last;
    assert_eq!(left_over(&bench), ["1 x shim"]);
    let both = NotRefitted {
        count: 2,
        became: PieceFate::WrittenOff,
        why: "torn, both".into(),
        ..said_in(&bench, shim).expect("it stands")
    };
    let fact = Fact::NotRefitted(both.clone());
    bench.correct(shim, Some(fact)).expect("there were two");
    assert_eq!(said_in(&bench, shim), Some(both.clone()));
    assert_eq!(left_over(&bench), [""; 0], "cleared");
    let one = NotRefitted { count: 1, ..both };
    bench
        .correct(shim, Some(Fact::NotRefitted(one)))
        .expect("there was one after all");
    assert_eq!(left_over(&bench), ["1 x shim"], "and raised again");
    // A washer is one under either name, and an account before the last is said anew as well.
    let under_the_other_name = NotRefitted {
        what: Thing::SmallPart(SmallPart::Washer),
        became: PieceFate::Explained,
        ..said_in(&bench, washer).expect("it stands")
    };
    bench
        .correct(washer, Some(Fact::NotRefitted(under_the_other_name)))
        .expect("the same washer");
    assert_eq!(left_over(&bench), ["1 x shim"]);
    assert_eq!(bench.job, fold(&bench.entries));
}

#[test]
fn an_account_keeps_its_place_and_its_piece() {
    let mut bench = Bench::new(B);
    bench.take_out(shimmed(1)).take_out(shimmed(2));
    let removal = bench.job.last;
    bench.say(accounted(1, Thing::Piece(Piece::Shim), 1));
    let shim = bench.job.last;
    let said = said_in(&bench, shim).expect("it stands");
    let before = bench.job.clone();
    let moved = NotRefitted {
        joint: JointId::new("cover").expect("a slug"),
        position: 2,
        what: Thing::SmallPart(SmallPart::Nut),
        ..said.clone()
    };
    let Err(Refusal::Invalid(wrong)) = bench.correct(shim, Some(Fact::NotRefitted(moved))) else {
        panic!("its place and piece are fixed");
    };
    let told: Vec<(&str, &str)> = wrong
        .iter()
        .map(|v| {
            let was = v.wrong.split(" and ").next().unwrap_or_default();
            (v.field.as_ref(), was)
        })
        .collect();
    assert_eq!(
        told,
        [
            ("not_refitted.joint", "was plate"),
            ("not_refitted.position", "was 1"),
            ("not_refitted.small_part", "was shim"),
        ]
    );
    for (what, field) in [
        (Thing::Fastener, "not_refitted.fastener"),
        (Thing::Piece(Piece::Washer), "not_refitted.piece"),
    ] {
        let other = NotRefitted {
            what,
            ..said.clone()
        };
        let refused = bench.correct(shim, Some(Fact::NotRefitted(other)));
        let Err(Refusal::Invalid(wrong)) = refused else {
            panic!("it is about a shim: {refused:?}");
        };
        assert_eq!(wrong.len(), 1);
        assert_eq!(wrong[0].field, field);
    }
    let account = || Some(Fact::NotRefitted(said.clone()));
    for no_account in [1, removal] {
        let refused = bench.correct(no_account, account());
        let told = refused.expect_err("it is none").to_string();
        assert!(
            told.contains("is not an account of pieces, or stands no more"),
            "{told}"
        );
    }
    let missing = bench.correct(99, account());
    assert!(
        matches!(missing, Err(Refusal::NotFound { .. })),
        "{missing:?}"
    );
    assert_eq!(bench.job, before, "nothing of that was written");
    bench.correct(shim, None).expect("withdrawn");
    let gone = bench.correct(shim, account());
    assert!(matches!(gone, Err(Refusal::State { .. })), "{gone:?}");
}

#[test]
fn an_old_bolt_that_a_new_one_took_the_place_of_is_written_off_by_somebody() {
    let mut bench = Bench::new(B);
    let new = |position| Refitted {
        new_part: Some(new_bolt()),
        ..back(position, Tightness::Final)
    };
    bench.take_out(sound(1)).refit(new(1));
    assert_eq!(
        left_over(&bench),
        ["1 x fastener"],
        "nobody decided to replace it"
    );
    bench.say(accounted(1, Thing::Fastener, 1));
    assert_eq!(left_over(&bench), [""; 0]);
    bench
        .take_out(sound(2))
        .decide(decision(2, Replace))
        .refit(new(2));
    assert_eq!(left_over(&bench), [""; 0], "replaced");
    bench.take_out(Removed {
        outcome: Outcome::MissingBefore,
        length: None,
        ..sound(3)
    });
    bench.refit(new(3));
    assert_eq!(left_over(&bench), [""; 0], "there was none");
}
