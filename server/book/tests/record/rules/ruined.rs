//! A ruined part on its own side.

use crate::bench::{Bench, joint_id, sound};
use clampbook_book::command::Command;
use clampbook_book::fact::{Fact, PartFound};
use clampbook_book::ids::AssemblyId;
use clampbook_book::rules::{self, On};
use clampbook_book::words::Criticality::{self, A, B, C};
use clampbook_book::words::Severity::{self, Caution, Stop};
use clampbook_book::words::{FindingKind, FindingSeverity};

fn found(severity: FindingSeverity, criticality: Option<Criticality>) -> PartFound {
    PartFound {
        assembly: AssemblyId::new("hub").expect("a slug"),
        joint: Some(joint_id()),
        part: "Spindle".into(),
        kind: FindingKind::Bent,
        severity,
        criticality,
        cause: String::new(),
        reading: String::new(),
        note: String::new(),
    }
}

fn bench_that(found: PartFound) -> Bench {
    let mut bench = Bench::new(B);
    bench.say(Command::LogFinding(found));
    bench
}

fn flagged(bench: &Bench) -> Option<Severity> {
    let flags = rules::flags(&bench.job, &bench.context());
    let flag = flags.into_iter().find(|flag| flag.rule == "part-ruined")?;
    assert!(matches!(flag.on, On::Assembly(_)));
    Some(flag.severity)
}

#[test]
fn a_ruined_part_stops_its_own_side_whatever_ruined_it() {
    for (class, severity) in [
        (Some(A), Stop),
        (Some(B), Stop),
        (Some(C), Caution),
        (None, Stop),
    ] {
        let bench = bench_that(found(FindingSeverity::Ruined, class));
        assert_eq!(flagged(&bench), Some(severity), "{class:?}");
    }
}

#[test]
fn a_part_that_is_not_ruined_stops_nothing() {
    for severity in [
        FindingSeverity::Usable,
        FindingSeverity::Doubtful,
        FindingSeverity::Repaired,
        FindingSeverity::Replaced,
    ] {
        let bench = bench_that(found(severity, Some(A)));
        assert_eq!(flagged(&bench), None, "{severity:?}");
    }
}

#[test]
fn it_clears_when_the_part_is_replaced_or_repaired_or_was_not_ruined_after_all() {
    for severity in [FindingSeverity::Repaired, FindingSeverity::Replaced] {
        let mut bench = bench_that(found(FindingSeverity::Ruined, Some(A)));
        bench.say(Command::LogFinding(PartFound {
            part: "spindle".into(),
            ..found(severity, Some(A))
        }));
        assert_eq!(flagged(&bench), None, "{severity:?}");
        let last = bench.job.last;
        bench.correct(last, None).expect("withdrawn");
        assert_eq!(flagged(&bench), Some(Stop));
    }
    let mut bench = bench_that(found(FindingSeverity::Ruined, Some(A)));
    let entry = bench.job.last;
    let milder = found(FindingSeverity::Doubtful, Some(A));
    bench
        .correct(entry, Some(Fact::PartFound(milder)))
        .expect("corrected");
    assert_eq!(flagged(&bench), None);
}

#[test]
fn another_part_an_earlier_repair_or_a_second_look_does_not_clear_it() {
    let mut bench = bench_that(found(FindingSeverity::Replaced, Some(A)));
    bench.say(Command::LogFinding(found(FindingSeverity::Ruined, Some(A))));
    assert_eq!(
        flagged(&bench),
        Some(Stop),
        "it was replaced before it was ruined again"
    );
    bench.say(Command::LogFinding(PartFound {
        part: "Hub plate".into(),
        ..found(FindingSeverity::Replaced, Some(A))
    }));
    bench.say(Command::LogFinding(found(FindingSeverity::Usable, Some(A))));
    bench.take_out(sound(1));
    assert_eq!(flagged(&bench), Some(Stop));
}
