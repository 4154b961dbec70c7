//! A fastener that is made to fit.

use super::out;
use super::replacements::of_grade;
use crate::bench::{back, decision, new_bolt, sound};
use crate::ordering::{BOLT, arrive, flagged, list, told};
use crate::sheet::view;
use clampbook_book::fact::{Decided, FastenerSpec, Refitted};
use clampbook_book::orders::By;
use clampbook_book::words::Criticality::{A, B, C};
use clampbook_book::words::DecisionKind::{Make, Replace};
use clampbook_book::words::Severity::{Caution, Note, Stop};
use clampbook_book::words::{HoleCheck, Outcome, Tightness, TorqueUnit};

fn made(part: FastenerSpec) -> Decided {
    Decided {
        replacement: Some(part),
        hole_check: Some(HoleCheck::RunsInByHand),
        ..decision(1, Make)
    }
}

fn shown() -> Decided {
    Decided {
        citation: "hardness log 4: 28 HRC".into(),
        ..made(new_bolt())
    }
}

fn fitted(grade: &str) -> Refitted {
    Refitted {
        new_part: Some(of_grade(grade)),
        ..back(1, Tightness::Final)
    }
}

#[test]
fn its_grade_is_unknown_until_its_decision_shows_it() {
    for (class, severity) in [(A, Stop), (B, Caution), (C, Note)] {
        let mut bench = out(class, |_| {});
        assert_eq!(bench.flag("grade-unknown", 1), None);
        bench.decide(made(of_grade("")));
        assert_eq!(bench.flag("grade-unknown", 1), Some(severity));
        bench.decide(shown());
        assert_eq!(bench.flag("grade-unknown", 1), None);
    }
}

#[test]
fn what_is_said_at_the_refit_does_not_show_its_grade() {
    let mut bench = out(A, |_| {});
    bench.decide(made(of_grade("")));
    bench.refit(fitted("SAE J429 8"));
    assert_eq!(bench.flag("grade-unknown", 1), Some(Stop));
}

#[test]
fn it_is_a_replacement_to_the_rules_and_is_judged_as_one() {
    let mut bench = out(B, |r| r.outcome = Outcome::BrokeNow);
    assert_eq!(bench.flag("broken-or-missing", 1), Some(Stop));
    bench.decide(shown());
    assert_eq!(bench.flag("broken-or-missing", 1), None);
    bench.decide(Decided {
        replacement: Some(FastenerSpec {
            thread: "7/16-14".into(),
            grade: "SAE J429 2".into(),
            ..new_bolt()
        }),
        ..shown()
    });
    assert_eq!(bench.flag("other-thread", 1), Some(Stop));
    assert_eq!(bench.flag("weaker-than-specified", 1), Some(Stop));
    bench.refit(back(1, Tightness::Final));
    assert_eq!(bench.flag("not-as-decided", 1), Some(Stop));
}

#[test]
fn it_waits_to_be_made_on_a_line_of_its_own() {
    let mut bench = out(B, |_| {});
    bench.decide(made(of_grade("")));
    let line = "7/16-20 UNF x 1-1/4 in, grade not shown, to be made";
    assert_eq!(told(&bench), [(line.into(), 1, 0)]);
    assert_eq!(list(&bench)[0].demands[0].by, By::Making);
    assert_eq!(flagged(&bench), [(Caution, 1)]);
    bench.take_out(sound(2)).decide(decision(2, Replace));
    arrive(&mut bench, BOLT, 1);
    assert_eq!(flagged(&bench), [(Caution, 1)], "that one was bought");
    arrive(&mut bench, line, 1);
    assert_eq!(flagged(&bench), []);
    let sheet = view(&bench, TorqueUnit::NewtonMetre);
    let row = &sheet.joints[0].rows[0];
    assert_eq!(row.fastener, "7/16-20 UNF x 1.25 in, grade not shown");
    assert_eq!(row.reuse, "new, made to fit");
}
