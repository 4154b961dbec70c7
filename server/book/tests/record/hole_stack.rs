//! What is stacked at one hole adds to the grip of its fastener: a bolt too short for it stops, the long one that belongs there
//! does not, and stops once its bracket is left out. Lengths by hand: reach = length - clamped - stacked.

use crate::bench::Bench;
use crate::built::{joint, nutted, out, tapped};
use clampbook_book::fact::{
    Assembled, Decided, FastenerSpec, FittedWith, PieceFitted, Refitted, Removed, SaidLength,
    Stacked, Thing,
};
use clampbook_book::rules;
use clampbook_book::rules::fits::{self, Subject};
use clampbook_book::words::Criticality::{A, B};
use clampbook_book::words::DecisionKind::Replace;
use clampbook_book::words::Piece;
use clampbook_book::words::Severity::Stop;

fn mm(mm: f64) -> SaidLength {
    SaidLength {
        said: format!("{mm} mm"),
        mm,
    }
}

fn out_with(position: u16, length_mm: f64, piece: Piece, height_mm: f64) -> Removed {
    let stacked = Stacked {
        piece,
        count: 1,
        thickness: Some(mm(height_mm)),
        said: String::new(),
    };
    Removed {
        assembled: Some(Box::new(Assembled {
            stack: vec![stacked],
            ..Assembled::default()
        })),
        ..out(position, length_mm)
    }
}

fn bolt(length_mm: f64) -> FastenerSpec {
    FastenerSpec {
        thread: "M10".into(),
        length: mm(length_mm),
        grade: "8.8".into(),
        detail: None,
    }
}

fn replace(bench: &mut Bench, length_mm: f64) {
    bench.decide(Decided {
        replacement: Some(bolt(length_mm)),
        ..crate::bench::decision(1, Replace)
    });
}

fn back() -> Refitted {
    Refitted::new(crate::bench::joint_id(), 1)
}

fn as_it_came_out(refitted: Refitted) -> Refitted {
    Refitted {
        with: Some(Box::new(FittedWith {
            as_it_came_out: true,
            ..FittedWith::default()
        })),
        ..refitted
    }
}

#[test]
fn a_bolt_too_short_for_the_stack_at_its_hole_stops_at_the_decision_and_when_it_is_in() {
    let mut bench = joint(B, nutted(32.0));
    bench.take_out(out_with(1, 42.0, Piece::Bracket, 10.0));
    assert_eq!(
        bench.flag("too-short", 1),
        None,
        "42 - 20 - 10 = 12 mm into and through the nut"
    );
    replace(&mut bench, 32.0);
    // 32 - 20 - 10 = 2 mm into a nut of 8.4 mm (ISO 4032), where 12 mm fill it without the bracket.
    assert_eq!(bench.flag("too-short", 1), Some(Stop));
    let flags = rules::joint_flags(bench.joint(), &bench.context(), bench.unit());
    let told = flags
        .iter()
        .find(|flag| flag.rule == "too-short")
        .expect("it is raised");
    assert!(
        told.cause.ends_with("; 10 mm is stacked under it"),
        "{}",
        told.cause
    );
    let new = || Refitted {
        new_part: Some(bolt(32.0)),
        ..back()
    };
    bench.refit(as_it_came_out(new()));
    assert_eq!(bench.flag("too-short", 1), Some(Stop));
    bench.refit(new());
    assert_eq!(bench.flag("too-short", 1), None, "the bracket was left out");
    replace(&mut bench, 42.0);
    bench.refit(as_it_came_out(Refitted {
        new_part: Some(bolt(42.0)),
        ..back()
    }));
    assert_eq!(bench.flag("too-short", 1), None);
}

#[test]
fn the_long_bolt_does_not_bottom_on_its_bracket_and_does_without_it() {
    // 52 - 12 - 20 = 20 mm in a hole of 24 mm; 40 mm without the bracket.
    let with_bracket = || {
        let mut bench = joint(A, tapped(Some(32.0), 24.0));
        bench.take_out(out_with(1, 52.0, Piece::Bracket, 20.0));
        bench
    };
    let mut bench = with_bracket();
    assert_eq!(bench.flag("bottoms", 1), None);
    bench.refit(back());
    assert_eq!(
        bench.flag("bottoms", 1),
        Some(Stop),
        "no bracket is said to be in"
    );
    bench.refit(as_it_came_out(back()));
    assert_eq!(bench.flag("bottoms", 1), None);

    let mut bench = with_bracket();
    let bracket = PieceFitted {
        what: Thing::Piece(Piece::Bracket),
        count: 1,
        is_new: false,
        said: String::new(),
    };
    bench.refit(Refitted {
        with: Some(Box::new(FittedWith {
            pieces: vec![bracket],
            ..FittedWith::default()
        })),
        ..back()
    });
    assert_eq!(bench.flag("bottoms", 1), None, "named by itself");
}

#[test]
fn a_bolt_of_the_joints_own_length_is_judged_on_its_hole_too_and_washers_belong_to_the_joint() {
    let mut bench = joint(A, tapped(Some(32.0), 24.0));
    // 32 - 12 - 19 = 1 mm of thread in the hole, where the joint's own have 20 mm.
    bench.take_out(out_with(1, 32.0, Piece::Spacer, 19.0));
    assert_eq!(bench.flag("thread-strips", 1), Some(Stop));
    assert_eq!(bench.flag("thread-strips", 0), None);
    let mut bench = joint(B, nutted(32.0));
    bench.take_out(out_with(1, 32.0, Piece::Washer, 10.0));
    assert_eq!(bench.flag("too-short", 1), None);
}

#[test]
fn whether_a_bolt_fits_is_answered_for_its_hole() {
    let mut bench = joint(B, nutted(32.0));
    bench
        .take_out(out_with(1, 42.0, Piece::Bracket, 10.0))
        .take_out(out(2, 32.0));
    let worst = |position, length_mm| {
        let part = bolt(length_mm);
        let checks = fits::check(
            bench.joint(),
            position,
            &part,
            &bench.context(),
            bench.unit(),
        );
        let of_length = checks.expect("a position").into_iter();
        let of_length = of_length.filter(|one| one.subject == Subject::Length);
        of_length.filter_map(|one| one.severity).max()
    };
    assert_eq!(worst(1, 32.0), Some(Stop));
    assert_eq!(worst(2, 32.0), None);
}
