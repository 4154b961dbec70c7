//! A ruined part and its twin on the other side.

use crate::bench::{Bench, joint_id};
use crate::photos::{described, photo};
use clampbook_book::command::Command;
use clampbook_book::fact::{AssemblyAdded, CounterpartAnswered, Fact, PartFound, PhotoOf, Shown};
use clampbook_book::ids::AssemblyId;
use clampbook_book::refusal::Refusal;
use clampbook_book::rules::{self, On};
use clampbook_book::words::{Criticality, FindingKind, FindingSeverity, Severity};

fn id(id: &str) -> AssemblyId {
    AssemblyId::new(id).expect("a slug")
}

/// A hub and its other side.
fn twins() -> Bench {
    let mut bench = Bench::new(Criticality::B);
    other_side_added(&mut bench);
    bench
}

fn other_side_added(bench: &mut Bench) {
    bench.say(Command::AddAssembly(AssemblyAdded {
        assembly: id("other-hub"),
        display_name: "Other hub".into(),
        counterpart: Some(id("hub")),
    }));
}

fn ruined(assembly: &str) -> PartFound {
    PartFound {
        assembly: id(assembly),
        joint: None,
        part: "Spindle".into(),
        kind: FindingKind::Wear,
        severity: FindingSeverity::Ruined,
        criticality: Some(Criticality::A),
        cause: "bearing ran dry".into(),
        reading: String::new(),
        note: String::new(),
    }
}

/// Logs a finding and returns its entry.
fn find(bench: &mut Bench, found: PartFound) -> u32 {
    bench.say(Command::LogFinding(found));
    bench.job.last
}

fn answer(finding: u32, shown: Shown) -> Command {
    Command::AnswerCounterpart(CounterpartAnswered {
        finding,
        shown,
        note: String::new(),
    })
}

/// The assemblies that the rule stops.
fn stopped(bench: &Bench) -> Vec<String> {
    rules::flags(&bench.job, &bench.context())
        .into_iter()
        .filter(|flag| flag.rule == "other-side" && flag.severity == Severity::Stop)
        .map(|flag| match flag.on {
            On::Assembly(on) => on.to_string(),
            On::Joint(on) => panic!("raised on joint {on}"),
        })
        .collect()
}

#[test]
fn a_part_ruined_by_wear_heat_or_crack_stops_the_other_side() {
    for kind in [FindingKind::Wear, FindingKind::Heat, FindingKind::Crack] {
        for criticality in [Criticality::A, Criticality::B] {
            for (here, there) in [("hub", "other-hub"), ("other-hub", "hub")] {
                let mut bench = twins();
                find(
                    &mut bench,
                    PartFound {
                        kind,
                        criticality: Some(criticality),
                        ..ruined(here)
                    },
                );
                assert_eq!(stopped(&bench), [there], "{kind:?} {criticality:?}");
            }
        }
    }
}

#[test]
fn the_class_is_the_joints_when_the_part_has_none_of_its_own() {
    let mut bench = twins();
    let at_joint = PartFound {
        joint: Some(joint_id()),
        criticality: None,
        ..ruined("hub")
    };
    find(&mut bench, at_joint.clone());
    assert_eq!(stopped(&bench), ["other-hub"]);
    let mut bench = Bench::new(Criticality::C);
    other_side_added(&mut bench);
    find(&mut bench, at_joint);
    assert_eq!(stopped(&bench), [""; 0]);
}

#[test]
fn nothing_is_asked_where_there_is_nothing_to_ask() {
    let milder = |change: fn(&mut PartFound)| {
        let mut found = ruined("hub");
        change(&mut found);
        found
    };
    for found in [
        milder(|f| f.criticality = Some(Criticality::C)),
        milder(|f| f.severity = FindingSeverity::Doubtful),
        milder(|f| f.kind = FindingKind::Bent),
        milder(|f| f.kind = FindingKind::Corrosion),
    ] {
        let mut bench = twins();
        let entry = find(&mut bench, found.clone());
        assert_eq!(stopped(&bench), [""; 0], "{found:?}");
        let refused = bench.try_say(&answer(entry, Shown::Reading("24.98 mm".into())));
        assert!(matches!(refused, Err(Refusal::State { .. })), "{refused:?}");
    }
    let mut alone = Bench::new(Criticality::A);
    find(&mut alone, ruined("hub"));
    assert_eq!(stopped(&alone), [""; 0]);
    other_side_added(&mut alone);
    assert_eq!(stopped(&alone), ["other-hub"], "once it has another side");
}

#[test]
fn a_reading_a_photo_or_somebody_who_declares_it_absent_clears_it() {
    for shown in [
        Shown::Reading("journal 24.98 mm".into()),
        Shown::Photo("card 3, 0117".into()),
        Shown::NoSuchPart("Tomas".into()),
    ] {
        let mut bench = twins();
        let entry = find(&mut bench, ruined("hub"));
        bench.say(answer(entry, shown));
        assert_eq!(stopped(&bench), [""; 0]);
        let again = bench.try_say(&answer(entry, Shown::Photo("0118".into())));
        assert!(matches!(again, Err(Refusal::State { .. })), "{again:?}");
    }
}

#[test]
fn what_is_said_of_something_else_does_not_clear_it() {
    let mut bench = twins();
    let spindle = find(&mut bench, ruined("hub"));
    // Another part of the other side, and the same part found merely doubtful.
    for found in [
        PartFound {
            part: "Hub plate".into(),
            ..ruined("other-hub")
        },
        PartFound {
            severity: FindingSeverity::Doubtful,
            reading: "journal 24.90 mm".into(),
            ..ruined("other-hub")
        },
    ] {
        find(&mut bench, found);
    }
    assert_eq!(stopped(&bench), ["other-hub", "hub"]);
    // An answer to another finding.
    let plate = spindle + 1;
    bench.say(answer(plate, Shown::Reading("flat within 0.05 mm".into())));
    assert_eq!(stopped(&bench), ["other-hub"]);
    for entry in [0, 1, plate + 100] {
        let refused = bench.try_say(&answer(entry, Shown::Photo("0118".into())));
        assert!(refused.is_err(), "entry {entry} asks nothing");
    }
}

#[test]
fn when_both_are_ruined_nothing_is_left_to_ask() {
    let mut bench = twins();
    find(&mut bench, ruined("hub"));
    let twin = find(
        &mut bench,
        PartFound {
            part: "spindle".into(),
            ..ruined("other-hub")
        },
    );
    assert_eq!(stopped(&bench), [""; 0], "both are known");
    bench.correct(twin, None).expect("withdrawn");
    assert_eq!(stopped(&bench), ["other-hub"], "and open again");
}

#[test]
fn a_finding_is_corrected_in_its_place_and_an_answer_holds_it_there() {
    let mut bench = twins();
    let entry = find(&mut bench, ruined("hub"));
    let milder = PartFound {
        severity: FindingSeverity::Doubtful,
        ..ruined("hub")
    };
    bench
        .correct(entry, Some(Fact::PartFound(milder)))
        .expect("corrected");
    assert_eq!(stopped(&bench), [""; 0]);
    bench
        .correct(entry, Some(Fact::PartFound(ruined("hub"))))
        .expect("corrected again");
    bench.say(answer(entry, Shown::Photo("0118".into())));
    let answered = bench.job.last;
    let elsewhere = Fact::PartFound(ruined("other-hub"));
    let other_part = Fact::PartFound(PartFound {
        part: "Plate".into(),
        ..ruined("hub")
    });
    for with in [Some(elsewhere), Some(other_part), None] {
        let refused = bench.correct(entry, with);
        assert!(matches!(refused, Err(Refusal::State { .. })), "{refused:?}");
    }
    bench.correct(answered, None).expect("the answer withdrawn");
    assert_eq!(stopped(&bench), ["other-hub"]);
    bench.correct(entry, None).expect("the finding withdrawn");
    assert!(bench.job.findings.is_empty());
    assert_eq!(stopped(&bench), [""; 0]);
}

#[test]
fn an_answer_is_corrected_in_its_place_and_stays_with_its_finding() {
    let mut bench = twins();
    let first = find(&mut bench, ruined("hub"));
    let second = find(
        &mut bench,
        PartFound {
            part: "Arm".into(),
            ..ruined("hub")
        },
    );
    bench.say(answer(first, Shown::Photo("0118".into())));
    let answered = bench.job.last;
    let anew = |finding| {
        Some(Fact::CounterpartAnswered(CounterpartAnswered {
            finding,
            shown: Shown::Reading("24.98 mm".into()),
            note: String::new(),
        }))
    };
    let moved = bench.correct(answered, anew(second));
    assert!(matches!(moved, Err(Refusal::Invalid(_))), "{moved:?}");
    bench.correct(answered, anew(first)).expect("corrected");
    let finding = bench.job.findings.get(first).expect("it stands");
    let stands = finding.answer.as_ref().expect("an answer");
    assert_eq!(stands.entry, answered);
    assert_eq!(stands.answered.shown, Shown::Reading("24.98 mm".into()));
    for entry in [first, 2] {
        let refused = bench.correct(entry, anew(first));
        assert!(matches!(refused, Err(Refusal::State { .. })), "{refused:?}");
    }
}

#[test]
fn a_finding_names_an_assembly_that_is_there_and_a_joint_of_it() {
    let mut bench = twins();
    let nowhere = bench.try_say(&Command::LogFinding(ruined("cellar")));
    assert!(matches!(nowhere, Err(Refusal::NotFound { .. })));
    let strange = bench.try_say(&Command::LogFinding(PartFound {
        joint: Some(joint_id()),
        ..ruined("other-hub")
    }));
    assert!(matches!(strange, Err(Refusal::Invalid(_))), "{strange:?}");
}

#[test]
fn a_photo_that_answers_goes_on_answering_under_other_words_and_stays_of_that_side() {
    let mut bench = twins();
    let finding = find(&mut bench, ruined("other-hub"));
    bench.say(photo(PhotoOf::Assembly(id("hub"))));
    let shown = bench.job.last;
    bench.say(answer(finding, Shown::AddedPhoto(shown)));
    let answered = bench.job.last;
    assert_eq!(stopped(&bench), [""; 0]);
    for of in [None, Some(PhotoOf::Position(joint_id(), 2))] {
        bench
            .restate(shown, described(of, "journal, no scores"))
            .expect("it is still of the hub");
        assert_eq!(stopped(&bench), [""; 0]);
    }
    for elsewhere in [
        PhotoOf::Job,
        PhotoOf::Assembly(id("other-hub")),
        PhotoOf::Finding(finding),
    ] {
        let refused = bench.restate(shown, described(Some(elsewhere), "so"));
        let told = refused.expect_err("the answer rests on it").to_string();
        assert!(
            told.contains(&format!("withdraw entry {answered} first")),
            "{told}"
        );
    }
    bench.restate(answered, None).expect("withdrawn");
    bench
        .restate(shown, described(Some(PhotoOf::Job), "so"))
        .expect("nothing rests on it");
    assert_eq!(stopped(&bench), ["hub"]);
}

#[test]
fn a_photo_of_what_a_withdrawn_finding_said_can_still_get_another_caption() {
    let mut bench = twins();
    let finding = find(&mut bench, ruined("hub"));
    bench.say(photo(PhotoOf::Finding(finding)));
    let shown = bench.job.last;
    bench.restate(finding, None).expect("withdrawn");
    bench
        .restate(shown, described(None, "only a stain"))
        .expect("what it is of was said before");
    let said = bench.job.photos.get(shown).expect("it stands");
    assert_eq!(said.fact.caption, "only a stain");
}

#[test]
fn a_finding_whose_photo_answers_stays_and_stays_of_that_side() {
    let mut bench = twins();
    let finding = find(&mut bench, ruined("other-hub"));
    let drum = |assembly, note: &str| PartFound {
        part: "Drum".into(),
        severity: FindingSeverity::Usable,
        note: note.into(),
        ..ruined(assembly)
    };
    let seen = find(&mut bench, drum("hub", ""));
    bench.say(photo(PhotoOf::Finding(seen)));
    let shown = bench.job.last;
    bench.say(answer(finding, Shown::AddedPhoto(shown)));
    let answered = bench.job.last;

    let restated = |fact| Some(Fact::PartFound(fact).into());
    for with in [None, restated(drum("other-hub", ""))] {
        let told = bench.restate(seen, with).expect_err("refused").to_string();
        assert!(
            told.contains(&format!("withdraw entry {answered} first")),
            "{told}"
        );
        assert_eq!(stopped(&bench), [""; 0]);
    }
    bench
        .restate(seen, restated(drum("hub", "spindle beside it is clean")))
        .expect("it is still of the hub");
    assert_eq!(stopped(&bench), [""; 0]);

    bench.restate(answered, None).expect("withdrawn");
    bench.restate(seen, None).expect("nothing rests on it");
    assert_eq!(stopped(&bench), ["hub"]);
}
