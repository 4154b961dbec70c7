//! What was stacked under an odd fastener, against its length.

use super::{four, with_hole};
use crate::bench::{Bench, decision, inches, sound};
use clampbook_book::fact::{Assembled, Fact, LengthSeen, Removed, SaidLength, Stacked};
use clampbook_book::rules;
use clampbook_book::words::DecisionKind::Reuse;
use clampbook_book::words::Severity::{Caution, Note};
use clampbook_book::words::{Compared, HoleCheck, Piece};

fn piece(piece: Piece, mm: Option<f64>) -> Stacked {
    Stacked {
        piece,
        count: 1,
        thickness: mm.map(|mm| SaidLength {
            said: format!("{mm} mm"),
            mm,
        }),
        said: String::new(),
    }
}

fn stacked(position: u16, length_in: f64, stack: Vec<Stacked>) -> Removed {
    Removed {
        length: Some(LengthSeen::Measured(inches(length_in))),
        assembled: Some(Box::new(Assembled {
            stack,
            ..Assembled::default()
        })),
        ..sound(position)
    }
}

/// Three of 31.75 mm and the third, of 44.45 mm, with this stack.
fn long_with(stack: Vec<Stacked>) -> Bench {
    let mut bench = four(1.75);
    said_of(&mut bench, stacked(3, 1.75, stack));
    bench
}

/// Corrects a removal of the four, which are entries 4 to 7.
fn said_of(bench: &mut Bench, removed: Removed) {
    let entry = 3 + u32::from(removed.position);
    bench
        .correct(entry, Some(Fact::Removed(removed)))
        .expect("corrected");
}

fn cause(bench: &Bench) -> String {
    let flags = rules::joint_flags(bench.joint(), &bench.context(), bench.unit());
    let odd = flags.into_iter().find(|flag| flag.rule == "odd-length");
    odd.expect("raised").cause
}

#[test]
fn a_bracket_that_makes_the_difference_lowers_it_to_a_note_with_both_measures() {
    let bench = long_with(vec![piece(Piece::Bracket, Some(12.0))]);
    assert_eq!(bench.flag("odd-length", 3), Some(Note));
    assert_eq!(
        cause(&bench),
        "1/2 in longer than the others (1-1/4 in at position 1, 2, 4); 15/32 in more is stacked under it than under \
         them (bracket 12 mm), which makes the difference"
    );
}

#[test]
fn a_stack_that_is_too_thin_or_not_measured_explains_nothing() {
    let thin = long_with(vec![piece(Piece::Strap, Some(2.0))]);
    assert_eq!(thin.flag("odd-length", 3), Some(Caution));
    assert!(cause(&thin).ends_with("does not make the difference"));
    let unmeasured = long_with(vec![
        piece(Piece::Bracket, None),
        piece(Piece::Shim, Some(12.7)),
    ]);
    assert_eq!(unmeasured.flag("odd-length", 3), Some(Caution));
    assert!(cause(&unmeasured).ends_with("; under it: bracket, shim 12.7 mm, not all measured"));
    // Every bolt has a washer as a rule; of the others nothing was said.
    let washer = long_with(vec![piece(Piece::Washer, Some(12.7))]);
    assert_eq!(washer.flag("odd-length", 3), Some(Caution));
}

#[test]
fn what_lies_under_the_others_is_taken_off() {
    let mut bench = long_with(vec![
        piece(Piece::Washer, Some(2.0)),
        piece(Piece::Bracket, Some(12.0)),
    ]);
    for position in [1, 2, 4] {
        said_of(
            &mut bench,
            stacked(position, 1.25, vec![piece(Piece::Washer, Some(2.0))]),
        );
    }
    assert_eq!(bench.flag("odd-length", 3), Some(Note), "12 mm more");
    for position in [1, 2, 4] {
        said_of(
            &mut bench,
            stacked(position, 1.25, vec![piece(Piece::Spacer, Some(12.0))]),
        );
    }
    assert_eq!(bench.flag("odd-length", 3), Some(Caution), "2 mm more");
}

#[test]
fn the_stack_and_the_hole_measured_clear_it_together_and_neither_alone() {
    let mut bench = long_with(vec![piece(Piece::Bracket, Some(12.0))]);
    bench.decide(with_hole(decision(3, Reuse), HoleCheck::RunsInByHand));
    assert_eq!(bench.flag("odd-length", 3), Some(Note));
    bench.decide(with_hole(decision(3, Reuse), HoleCheck::Measured));
    assert_eq!(bench.flag("odd-length", 3), None);
    let mut bare = four(1.75);
    bare.decide(with_hole(decision(3, Reuse), HoleCheck::Measured));
    assert_eq!(bare.flag("odd-length", 3), Some(Caution));
}

#[test]
fn laid_side_by_side_it_is_told_and_not_weighed() {
    let mut bench = four(1.25);
    said_of(
        &mut bench,
        Removed {
            length: Some(LengthSeen::Compared(Compared::Longer)),
            ..stacked(3, 1.75, vec![piece(Piece::Bracket, Some(12.0))])
        },
    );
    assert_eq!(bench.flag("odd-length", 3), Some(Caution));
    assert!(cause(&bench).contains("; under it: bracket 12 mm; measure both"));
}
