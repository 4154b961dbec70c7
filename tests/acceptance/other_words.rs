//! Other words for what was said of a photo or of pieces: the picture, the place and the first words stay.

use std::fs;

use clampbook_api::reason;
use clampbook_api::v1::correct_entry_request::Correction;
use clampbook_api::v1::counterpart_answer::Shown;
use clampbook_api::v1::{CounterpartAnswer, PhotoDescription, RemovalOutcome};
use tonic::Code;

use crate::support::photo::png;
use crate::support::{Server, Shop, cli};

fn described(subject: &str, position: i32, caption: &str) -> Correction {
    Correction::Photo(PhotoDescription {
        subject: subject.into(),
        position,
        caption: caption.into(),
    })
}

#[tokio::test]
async fn a_photo_under_other_words_is_the_same_picture_on_every_page() {
    let mut shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    plate.takes_out(3, RemovalOutcome::Normal).await;
    let added = job.adds_photo(&plate.name, 3, &png(1)).await.expect("kept");
    for (of, position, caption) in [
        ("", 0, "bracket under the head"),
        (plate.name.as_str(), 2, "bracket, seen from below"),
    ] {
        job.corrects(&added.entry, described(of, position, caption))
            .await
            .await;
        let photos = job.look().await.photos;
        let (photo, content) = job.photo(&added.entry).await.expect("it is there");
        assert_eq!(
            photos,
            std::slice::from_ref(&photo),
            "one photo, told alike everywhere"
        );
        assert_eq!((photo.caption.as_str(), content), (caption, png(1)));
        let expected = clampbook_api::v1::Photo {
            position: if of.is_empty() { 3 } else { position },
            caption: caption.into(),
            said: photo.said.clone(),
            text: photo.text.clone(),
            ..added.clone()
        };
        assert_eq!(photo, expected);
        assert!(photo.text.contains(&format!(": {caption}; ")), "{photo:?}");
        let number = added.entry.rsplit('/').next().expect("a number");
        let told = &job.sheet().await.joints[0].photos;
        let line = format!(
            "hole {}: {caption} (photo of entry {number})",
            photo.position
        );
        assert_eq!(told, &[line]);
    }
    let last = job.look().await;
    shop.restart(&[]).await;
    let job = shop.job_named("tractor");
    assert_eq!(job.look().await, last);
    let second = shop.job("second").await;
    let said = || described(&second.name, 0, "so");
    let elsewhere = job.corrects(&added.entry, said()).await;
    elsewhere.refused().await.names(&["correction"]);
    for (correction, fields) in [
        (described("", 2, "so"), &["photo.position"][..]),
        (
            described("plate", -1, "\u{7}"),
            &["photo.caption", "photo.position", "photo.subject"],
        ),
        (described(&job.name, 1, "so"), &["photo.position"]),
        (
            described(&format!("{}/joints/plate", job.name), 5, "so"),
            &["photo.position"],
        ),
    ] {
        let refused = job.corrects(&added.entry, correction).await;
        refused.refused().await.names(fields);
    }
    assert_eq!(job.look().await, last);

    job.corrects(&added.entry, Correction::Withdrawn(true))
        .await
        .await;
    let (first, content) = job.photo(&added.entry).await.expect("it stays readable");
    assert_eq!((first, content), (added.clone(), png(1)), "as it was added");
    let gone = job.corrects(&added.entry, described("", 0, "so")).await;
    gone.refused()
        .await
        .is(Code::FailedPrecondition, reason::STATE_FORBIDS)
        .says("is not a photo, or stands no more");
}

#[tokio::test]
async fn a_photo_of_the_other_side_goes_on_answering() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    job.assembly("other", "hub").await;
    let other = format!("{}/assemblies/other", job.name);
    let found = job.finds("hub", "Spindle").await.finding;
    let finding = found.expect("a finding").entry;
    let photo = job
        .adds_photo(&other, 0, &png(1))
        .await
        .expect("kept")
        .entry;
    let shown = Some(Shown::AddedPhoto(photo.clone()));
    let answered = job.answers(&finding, shown).await.answer;
    let answered = answered.expect("an answer").entry;
    let answer = job
        .corrects(&photo, described("", 0, "journal, no scores"))
        .await
        .await;
    assert!(answer.flags.iter().all(|flag| flag.rule != "other-side"));
    let sheet = job.sheet().await;
    assert!(
        sheet.findings[0].contains("other side: photo of entry 5"),
        "{:?}",
        sheet.findings
    );
    let machine = job.adds_photo(&job.name, 0, &png(2)).await.expect("kept");
    let anew = |finding: &str, photo: &str| {
        Correction::CounterpartAnswer(CounterpartAnswer {
            finding: finding.into(),
            shown: Some(Shown::AddedPhoto(photo.into())),
            ..CounterpartAnswer::default()
        })
    };
    for (wrong, field) in [
        (
            anew(&finding, &machine.entry),
            "counterpart_answer.added_photo",
        ),
        (anew(&machine.entry, &photo), "counterpart_answer.finding"),
    ] {
        let refused = job.corrects(&answered, wrong).await;
        refused.refused().await.names(&[field]);
    }
    let away = job.corrects(&photo, described(&job.name, 0, "so")).await;
    away.refused()
        .await
        .is(Code::FailedPrecondition, reason::STATE_FORBIDS)
        .says("is based on entry");
    assert!(
        job.flags()
            .await
            .iter()
            .all(|flag| flag.rule != "other-side")
    );
}

/// Asserts that all of it is told; lines break anywhere between words.
fn assert_tells(told: &str, all: &[&str]) {
    let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in all {
        assert!(told.contains(words), "{words} is not in {told}");
    }
}

/// Adds the plate, whose four studs hold the hub.
const PLATE: [&str; 22] = [
    "joints",
    "add",
    "tractor",
    "plate",
    "--assembly",
    "hub",
    "--name",
    "Plate",
    "--layout",
    "ring",
    "--positions",
    "4",
    "--class",
    "C",
    "--hole-kind",
    "stud",
    "--thread",
    "7/16-20",
    "--grade",
    "SAE J429 5",
    "--lubrication",
    "oiled",
];

#[test]
fn a_caption_and_an_account_are_corrected_at_the_bench() {
    let server = Server::start();
    let folder = tempfile::tempdir().expect("a folder");
    let file = |name: &str| folder.path().join(name).display().to_string();
    let (picture, copy) = (file("hub.png"), file("again.png"));
    fs::write(&picture, png(7)).expect("a file");
    let say = |words: &[&str]| cli(&server, words).output().to_owned();
    let left_over = || say(&["flags", "list", "tractor"]).contains("left over");
    say(&["jobs", "create", "tractor", "--name", "Orchard tractor"]);
    say(&["assemblies", "add", "tractor", "hub", "--name", "Hub"]);
    say(&PLATE);
    say(&[
        "removal", "log", "tractor", "plate", "1", "normal", "--stack", "shim:2",
    ]);
    say(&["refit", "tractor", "plate", "1", "original"]);
    say(&["tighten", "tractor", "plate", "1", "final"]);
    let one = say(&[
        "not-refitted",
        "tractor",
        "plate",
        "1",
        "shim",
        "found",
        "--reason",
        "under the bench",
    ]);
    assert!(one.contains("(entry 7)") && left_over(), "{one}");
    let of = ["--of", "joint:plate:1", "--caption", "bracket"];
    let added = say(&[&["photo", "add", "tractor", &picture][..], &of].concat());
    assert!(added.contains("(entry 8)"), "{added}");

    let account = |position: &str, count: &str| {
        let words = [
            "correct",
            "not-refitted",
            "tractor",
            "7",
            "plate",
            position,
            "shim",
            "written-off",
            "--count",
            count,
            "--known",
            "torn and thrown away",
            "--reason",
            "counted again",
        ];
        cli(&server, &words)
    };
    let both = account("1", "2").output().to_owned();
    assert!(
        both.contains("CORRECTS entry 7") && both.contains("(entry 9)"),
        "{both}"
    );
    assert!(!both.contains("left over") && !left_over(), "{both}");
    let one = account("1", "1").output().to_owned();
    assert!(one.contains("1 x shim left over") && left_over(), "{one}");
    let moved = account("2", "1");
    moved.ends_with(2);
    assert!(
        moved
            .stderr
            .contains("not_refitted.position: was 1 and cannot be changed"),
        "{}",
        moved.stderr
    );

    let photo = |more: &[&str]| {
        let words = [
            "correct",
            "photo",
            "tractor",
            "8",
            "--reason",
            "there is more to it",
            "--caption",
        ];
        say(&[&words[..], more].concat())
    };
    photo(&["bracket under the long bolt"]);
    let listed = say(&["photo", "list", "tractor"]);
    assert!(
        listed.starts_with("Photo of plate position 1: bracket under the long bolt; PNG"),
        "{listed}"
    );
    let got = say(&["photo", "get", "tractor", "8", &copy]);
    assert!(got.starts_with(&listed), "{got}");
    assert_eq!(fs::read(&copy).expect("the copy"), png(7));

    let history = say(&["history", "tractor", "plate", "1"]);
    assert_tells(
        &history,
        &[
            "under the bench",
            "torn and thrown away",
            "CORRECTS entry 7",
            ": bracket; PNG",
            "bracket under the long bolt",
            "CORRECTS entry 8",
        ],
    );
    let sheet = say(&["sheet", "tractor"]);
    assert!(
        sheet.contains("hole 1: bracket under the long bolt (photo of"),
        "{sheet}"
    );
    assert!(sheet.contains("1 x shim left over"), "{sheet}");
    photo(&["the whole hub", "--of", "machine"]);
    let sheet = say(&["sheet", "tractor"]);
    assert!(!sheet.contains("(photo of"), "{sheet}");
    let moved = say(&["photo", "list", "tractor"]);
    assert!(
        moved.starts_with("Photo of the machine: the whole hub; PNG"),
        "{moved}"
    );
}

#[test]
fn a_decision_a_refit_and_an_answer_are_corrected_at_the_bench() {
    let server = Server::start();
    let say = |words: &[&str]| cli(&server, words).output().to_owned();
    say(&["jobs", "create", "tractor", "--name", "Orchard tractor"]);
    say(&["assemblies", "add", "tractor", "hub", "--name", "Hub"]);
    say(&[
        "assemblies",
        "add",
        "tractor",
        "other",
        "--name",
        "Other hub",
        "--counterpart",
        "hub",
    ]);
    say(&PLATE);
    say(&["removal", "log", "tractor", "plate", "1", "normal"]);
    let decided = say(&[
        "decide", "tractor", "plate", "1", "reuse", "--reason", "sound",
    ]);
    assert!(decided.contains("(entry 6)"), "{decided}");
    say(&["refit", "tractor", "plate", "1", "original"]);
    say(&[
        "finding", "log", "tractor", "hub", "spindle", "wear", "ruined", "--class", "A",
    ]);
    say(&["finding", "answer", "tractor", "8", "--reading", "24.61 mm"]);
    say(&[
        "correct",
        "decision",
        "tractor",
        "6",
        "plate",
        "1",
        "clean-and-reuse",
        "--why",
        "rust on the shank",
        "--reason",
        "it was wiped first",
    ]);
    say(&[
        "correct",
        "refit",
        "tractor",
        "7",
        "plate",
        "1",
        "original",
        "--note",
        "the long one",
        "--reason",
        "only run in",
    ]);
    let answered = say(&[
        "correct",
        "answer",
        "tractor",
        "9",
        "8",
        "--reading",
        "24.98 mm",
        "--reason",
        "misread",
    ]);
    assert!(
        answered.contains("CORRECTS entry 9") && answered.contains("(entry 12)"),
        "{answered}"
    );
    let history = say(&["history", "tractor", "plate", "1"]);
    assert_tells(
        &history,
        &[
            "rust on the shank",
            "CORRECTS entry 6",
            "the long one",
            "CORRECTS entry 7",
        ],
    );
    let tightened = say(&["tighten", "tractor", "plate", "1", "snug", "--tool", "TW2"]);
    assert!(tightened.contains("(entry 13)"), "{tightened}");
    let read = say(&[
        "correct",
        "tightening",
        "tractor",
        "13",
        "plate",
        "1",
        "final",
        "--reading",
        "67 N·m",
        "--reason",
        "pulled to the click",
    ]);
    assert_tells(
        &read,
        &[
            "CORRECTS entry 13",
            "at its final torque; read 67 N·m",
            "(entry 14)",
        ],
    );
    let sheet = say(&["sheet", "tractor"]);
    assert!(
        sheet.contains("24.98 mm") && !sheet.contains("24.61 mm"),
        "{sheet}"
    );
}
