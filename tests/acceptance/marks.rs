//! Marks before parting: said before anything comes out, and there again on the day it goes back.

use clampbook_api::v1::correct_entry_request::Correction;
use clampbook_api::v1::{
    LogMatchMarksRequest, Mark, MarkKind, MatchMarks, RemovalOutcome, SheetFormat,
};
use tonic::Code;

use crate::support::shop::fresh_id;
use crate::support::{Refusal, Server, Shop, cli};

fn mark(kind: MarkKind, text: &str) -> Mark {
    Mark {
        kind: kind.into(),
        text: text.into(),
    }
}

fn says(joint: &str, position: i32, marks: Vec<Mark>) -> LogMatchMarksRequest {
    LogMatchMarksRequest {
        match_marks: Some(MatchMarks {
            joint: joint.into(),
            position,
            marks,
            ..MatchMarks::default()
        }),
        request_id: fresh_id(),
        said_time: None,
    }
}

#[tokio::test]
async fn marks_said_before_parting_stay_when_the_removal_says_more() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let rod = job.joint("rod").await;
    let turns = mark(MarkKind::TieRodTurns, "14.5");
    let out = mark(MarkKind::ExposedThread, "22 mm");
    let caps = mark(MarkKind::MatchMarks, "two dots, upper edge");

    let marked = says(&rod.name, 1, vec![turns.clone()]);
    let marked = shop.jobs().log_match_marks(marked).await.expect("marked");
    let whole = says(&rod.name, 0, vec![caps.clone()]);
    let whole = shop.jobs().log_match_marks(whole).await.expect("marked");
    let hole = rod.hole(1).await;
    assert_eq!(
        hole.etag,
        marked.get_ref().etag,
        "the hole is another one now"
    );
    assert_eq!(hole.removal, None, "nothing came out");
    assert_eq!(hole.match_marks[0].marks, std::slice::from_ref(&turns));
    assert_eq!(rod.look().await.match_marks[0].marks, [caps]);
    assert_eq!(rod.look().await.etag, whole.get_ref().etag);

    rod.takes_out(1, RemovalOutcome::Normal)
        .and(|removal| removal.marks = vec![turns.clone(), out])
        .await;
    let sheet = job.sheet().await;
    assert_eq!(sheet.joints[0].marks, "match marks: two dots, upper edge");
    assert_eq!(
        sheet.joints[0]
            .rows
            .iter()
            .find(|r| r.position == 1)
            .map(|r| r.marks.as_str()),
        Some("tie-rod turns: 14.5; exposed thread: 22 mm"),
        "each once, the earlier first"
    );
    let printed = job.print(SheetFormat::Text).await;
    assert!(
        printed.contains("Marks: match marks: two dots, upper edge"),
        "{printed}"
    );
    let table = job.print(SheetFormat::Csv).await;
    assert!(
        table
            .lines()
            .all(|line| line.ends_with("joint_marks") || line.ends_with("upper edge\"")),
        "{table}"
    );

    // After it is back, the next strip-down begins with marks of its own.
    rod.puts_back(1).await;
    let again = says(&rod.name, 1, vec![mark(MarkKind::TieRodTurns, "15")]);
    shop.jobs()
        .log_match_marks(again)
        .await
        .expect("marked again");
    rod.takes_out(1, RemovalOutcome::Normal).await;
    let marks = rod.hole(1).await.match_marks;
    assert_eq!(marks.len(), 1, "those of the last strip-down are done with");
    assert_eq!(marks[0].marks[0].text, "15");
}

#[tokio::test]
async fn an_empty_hole_takes_no_marks_and_a_place_no_more_than_twenty() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    plate.takes_out(2, RemovalOutcome::Normal).await;
    let late = says(&plate.name, 2, vec![mark(MarkKind::LeftHand, "")]);
    let status = shop
        .jobs()
        .log_match_marks(late)
        .await
        .expect_err("too late");
    assert_eq!(status.code(), Code::FailedPrecondition);
    assert!(
        status.message().contains("correction of that removal"),
        "{status:?}"
    );

    let dots = |count| vec![mark(MarkKind::MatchMarks, "dot"); count];
    for place in [0, 1] {
        shop.jobs()
            .log_match_marks(says(&plate.name, place, dots(15)))
            .await
            .expect("15 fit");
        let status = shop
            .jobs()
            .log_match_marks(says(&plate.name, place, dots(6)))
            .await;
        let status = status.expect_err("21 do not");
        assert!(status.message().contains("15 marks already"), "{status:?}");
        shop.jobs()
            .log_match_marks(says(&plate.name, place, dots(5)))
            .await
            .expect("20 do");
    }
    let wrong = LogMatchMarksRequest {
        match_marks: Some(MatchMarks {
            joint: "plate".into(),
            position: -1,
            marks: vec![
                mark(MarkKind::Unspecified, "x"),
                mark(MarkKind::TieRodTurns, "many"),
                mark(MarkKind::ExposedThread, "22"),
                mark(MarkKind::Eccentric, ""),
            ],
            ..MatchMarks::default()
        }),
        ..LogMatchMarksRequest::default()
    };
    let status = shop
        .jobs()
        .log_match_marks(wrong)
        .await
        .expect_err("it is wrong");
    Refusal::of(&status).names(&[
        "match_marks.joint",
        "match_marks.marks[0].kind",
        "match_marks.marks[1].text",
        "match_marks.marks[2].text",
        "match_marks.marks[3].text",
        "match_marks.position",
    ]);
}

#[tokio::test]
async fn marks_are_corrected_even_to_another_place_and_withdrawn() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    let said = says(&plate.name, 1, vec![mark(MarkKind::LeftHand, "")]);
    let said = shop
        .jobs()
        .log_match_marks(said)
        .await
        .expect("marked")
        .into_inner();
    let there = said.match_marks.expect("marks");
    plate.takes_out(1, RemovalOutcome::Normal).await;
    let moved = MatchMarks {
        position: 3,
        ..there.clone()
    };
    job.corrects(&there.entry, Correction::MatchMarks(moved))
        .await
        .await;
    assert!(plate.hole(1).await.match_marks.is_empty());
    assert_eq!(plate.hole(3).await.match_marks[0].entry, there.entry);
    let whole = MatchMarks {
        position: 0,
        ..there.clone()
    };
    job.corrects(&there.entry, Correction::MatchMarks(whole))
        .await
        .await;
    assert_eq!(plate.look().await.match_marks.len(), 1);
    job.corrects(&there.entry, Correction::Withdrawn(true))
        .await
        .await;
    assert!(plate.look().await.match_marks.is_empty());
    let gone = job
        .corrects(&there.entry, Correction::Withdrawn(true))
        .await;
    assert_eq!(gone.refused().await.code, Code::FailedPrecondition);
}

#[test]
fn marks_are_logged_and_put_right_in_words() {
    let server = Server::start();
    let say = |words: &[&str]| cli(&server, words).output().to_owned();
    say(&["jobs", "create", "tractor", "--name", "Orchard tractor"]);
    say(&[
        "assemblies",
        "add",
        "tractor",
        "axle",
        "--name",
        "Front axle",
    ]);
    say(&[
        "joints",
        "add",
        "tractor",
        "tie-rod",
        "--assembly",
        "axle",
        "--name",
        "Tie rod",
        "--layout",
        "line",
        "--positions",
        "2",
        "--class",
        "A",
        "--hole-kind",
        "through",
        "--purpose",
        "tapered-ball-stud",
    ]);
    let told = say(&[
        "marks",
        "log",
        "tractor",
        "tie-rod",
        "1",
        "--mark",
        "tie-rod-turns:14.5",
        "--mark",
        "left-hand",
    ]);
    assert_eq!(
        told,
        "tie-rod position 1: marked tie-rod turns: 14.5; left hand (entry 4)\n"
    );
    say(&[
        "correct",
        "marks",
        "tractor",
        "4",
        "tie-rod",
        "2",
        "--mark",
        "tie-rod-turns:13.5",
        "--reason",
        "other end",
    ]);
    say(&["removal", "log", "tractor", "tie-rod", "2", "normal"]);
    let shown = say(&["joints", "show", "tractor", "tie-rod"]);
    assert!(
        shown.contains("tie-rod position 2: marked tie-rod turns: 13.5 (entry 4)"),
        "{shown}"
    );
    let sheet = say(&["sheet", "tractor"]);
    assert!(sheet.contains("marks: tie-rod turns: 13.5"), "{sheet}");
    let entries = say(&["entries", "tractor"]);
    assert!(
        entries.contains("marked") && entries.contains("14.5"),
        "both are kept: {entries}"
    );
}
