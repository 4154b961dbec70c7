//! A ruined spindle and its twin: what ruined a part here may have ruined the same part there.

use clampbook_api::reason;
use clampbook_api::v1::correct_entry_request::Correction;
use clampbook_api::v1::counterpart_answer::Shown;
use clampbook_api::v1::{FindingSeverity, RemovalOutcome, Severity, SheetFormat};
use tonic::Code;

use crate::support::{Server, Shop, cli};

fn asked(stops: &[clampbook_api::v1::Flag]) -> Vec<&str> {
    let about = stops.iter().filter(|flag| flag.rule == "other-side");
    about.map(|flag| flag.assembly.as_str()).collect()
}

/// The text without its line ends.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_ruined_spindle_asks_for_its_twin_until_somebody_has_looked() {
    let server = Server::start();
    let say = |words: &[&str]| flowing(cli(&server, words).output());
    say(&["jobs", "create", "tractor", "--name", "Orchard tractor"]);
    say(&[
        "assemblies",
        "add",
        "tractor",
        "left-hub",
        "--name",
        "Left front hub",
    ]);
    say(&[
        "assemblies",
        "add",
        "tractor",
        "right-hub",
        "--name",
        "Right front hub",
        "--counterpart",
        "left-hub",
    ]);
    for side in ["left", "right"] {
        let (joint, hub) = (format!("{side}-plate"), format!("{side}-hub"));
        say(&[
            "joints",
            "add",
            "tractor",
            &joint,
            "--assembly",
            &hub,
            "--name",
            "Plate",
            "--layout",
            "ring",
            "--positions",
            "4",
            "--class",
            "B",
            "--hole-kind",
            "tapped-through",
            "--thread",
            "7/16-20",
            "--grade",
            "SAE J429 5",
            "--lubrication",
            "oiled",
        ]);
        say(&[
            "removal",
            "log",
            "tractor",
            &joint,
            "1",
            "normal",
            "--grade",
            "SAE J429 5",
        ]);
    }
    let open = say(&["sheet", "tractor"]);
    assert!(open.contains("No open stop"), "{open}");

    let told = say(&[
        "finding",
        "log",
        "tractor",
        "left-hub",
        "spindle",
        "wear",
        "ruined",
        "--class",
        "A",
        "--cause",
        "bearing ran dry",
        "--reading",
        "journal 24.61 mm",
    ]);
    assert!(told.contains("STOP right-hub other-side"), "{told}");
    assert!(told.contains("(entry 8)"), "{told}");

    // It is told where somebody tightens in spite of it, and no torque is asked for.
    say(&["refit", "tractor", "right-plate", "1", "original"]);
    let tightened = say(&["tighten", "tractor", "right-plate", "1", "snug"]);
    assert!(
        tightened.contains("STOP right-hub other-side"),
        "{tightened}"
    );
    assert!(!tightened.contains("asks for"), "{tightened}");
    for entry in ["10", "9"] {
        say(&[
            "correct", "withdraw", "tractor", entry, "--reason", "not yet",
        ]);
    }

    // It stands at the top of every sheet it concerns, and nothing goes together on the other side.
    for scope in [
        &[][..],
        &["--assembly", "left-hub"],
        &["--assembly", "right-hub"],
    ] {
        let sheet = say(&[&["sheet", "tractor"], scope].concat());
        let top = sheet.find("STEP").unwrap_or(sheet.len());
        let told = sheet
            .find("nobody has looked at the same part of Right front hub")
            .expect("the question");
        assert!(told < top, "{sheet}");
    }
    let right = say(&["sheet", "tractor", "--assembly", "right-hub"]);
    assert!(
        right.contains("STOP: spindle of Left front hub is ruined by wear"),
        "{right}"
    );
    assert!(
        !right.contains("N·m"),
        "no torque on the stopped side:\n{right}"
    );
    let left = say(&["sheet", "tractor", "--assembly", "left-hub"]);
    assert!(left.contains("FOUND ON PARTS"), "{left}");
    assert!(
        left.contains("cause bearing ran dry; read journal 24.61 mm"),
        "{left}"
    );
    assert!(
        left.contains("Left front hub waits for 1 x spindle (wear, ruined)"),
        "{left}"
    );
    assert!(
        left.contains("STOP: spindle is ruined by wear; neither replaced nor repaired"),
        "nothing goes together on a ruined spindle:\n{left}"
    );
    let rule = say(&["flags", "explain", "other-side"]);
    assert!(rule.contains("a reading or a photo"), "{rule}");

    // Nobody gets past it with empty hands.
    let empty = cli(
        &server,
        &[
            "finding",
            "answer",
            "tractor",
            "8",
            "--note",
            "looks fine to me",
        ],
    );
    empty.ends_with(2);
    assert!(empty.stderr.contains("answer.reading"), "{}", empty.stderr);

    let answered = say(&[
        "finding",
        "answer",
        "tractor",
        "8",
        "--reading",
        "journal 24.98 mm",
    ]);
    assert!(
        answered.contains("other side: read journal 24.98 mm"),
        "{answered}"
    );
    assert!(!answered.contains("STOP  right-hub"), "{answered}");
    let came = say(&["parts", "arrive", "tractor", "left-hub", "spindle", "1"]);
    assert!(came.contains("none is waited for any more"), "{came}");
    let there = say(&["sheet", "tractor"]);
    assert!(
        there.contains("neither replaced nor repaired"),
        "there is not yet fitted: {there}"
    );
    let done = say(&[
        "finding", "log", "tractor", "left-hub", "spindle", "wear", "replaced", "--class", "A",
    ]);
    assert!(!done.contains("STOP"), "{done}");
    let whole = say(&["sheet", "tractor"]);
    assert!(whole.contains("No open stop"), "{whole}");
    assert!(
        whole.contains("other side: read journal 24.98 mm"),
        "{whole}"
    );
    let job = say(&["jobs", "show", "tractor"]);
    assert!(
        job.contains("left-hub: spindle: wear, ruined; class A"),
        "{job}"
    );
    // The finding is put right in the end, and the record keeps both.
    let mended = say(&[
        "correct",
        "finding",
        "tractor",
        "8",
        "left-hub",
        "spindle",
        "wear",
        "doubtful",
        "--class",
        "A",
        "--reason",
        "within limits after all",
    ]);
    assert!(
        mended.contains("CORRECTS entry 8, because within limits after all"),
        "{mended}"
    );
    let job = say(&["jobs", "show", "tractor"]);
    assert!(job.contains("spindle: wear, doubtful"), "{job}");
}

#[tokio::test]
async fn the_question_opens_in_either_direction_and_clears_by_each_kind_of_answer() {
    let shop = Shop::open();
    for (id, shown) in [
        ("one", Shown::Reading("journal 24.98 mm".into())),
        ("two", Shown::Photo("card 3, 0117".into())),
        ("three", Shown::NoSuchPartSays("Tomas".into())),
    ] {
        let job = shop.job(id).await;
        job.assembly("other", "hub").await;
        let right = format!("{}/assemblies/other", job.name);
        let left = format!("{}/assemblies/hub", job.name);
        let there = job.finds("other", "Arm").await;
        assert_eq!(asked(&there.flags), [left.as_str()]);
        let here = job.finds("hub", "Spindle").await;
        assert_eq!(asked(&here.flags), [left.as_str(), right.as_str()]);
        assert!(here.flags.iter().all(|f| f.severity() == Severity::Stop));
        assert!(here.flags.iter().all(|f| f.joint.is_empty()));
        let finding = here.finding.expect("a finding");

        let bare = job.answers(&finding.entry, None).refused().await;
        bare.names(&["answer.reading"]);
        let answer = job.answers(&finding.entry, Some(shown.clone())).await;
        assert_eq!(
            asked(&answer.flags),
            [left.as_str()],
            "the arm is still asked for"
        );
        let hub = job.look().await.assemblies.swap_remove(0);
        let stands = hub.findings[0]
            .counterpart_answer
            .clone()
            .expect("it is kept");
        assert_eq!(stands.shown, Some(shown.clone()));
        assert_eq!(stands.finding, finding.entry);

        let again = job.answers(&finding.entry, Some(shown)).refused().await;
        assert_eq!(
            (again.code, again.reason.as_str()),
            (Code::FailedPrecondition, reason::STATE_FORBIDS)
        );
    }
}

#[tokio::test]
async fn a_finding_and_its_answer_are_corrected_and_withdrawn_in_order() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    job.assembly("other", "hub").await;
    let found = job
        .finds("hub", "Spindle")
        .await
        .finding
        .expect("a finding");
    let photo = Some(Shown::Photo("0117".into()));
    let answer = job
        .answers(&found.entry, photo)
        .await
        .answer
        .expect("an answer");
    let early = job
        .corrects(&found.entry, Correction::Withdrawn(true))
        .await
        .refused()
        .await;
    assert_eq!(early.code, Code::FailedPrecondition);

    let mut better = answer.clone();
    better.shown = Some(Shown::Reading("24.98 mm".into()));
    let mended = job
        .corrects(&answer.entry, Correction::CounterpartAnswer(better))
        .await
        .await;
    assert_eq!(asked(&mended.flags), [""; 0]);
    let open = job
        .corrects(&answer.entry, Correction::Withdrawn(true))
        .await
        .await;
    assert_eq!(asked(&open.flags).len(), 1);
    let milder = clampbook_api::v1::Finding {
        severity: FindingSeverity::Usable.into(),
        ..found.clone()
    };
    let closed = job
        .corrects(&found.entry, Correction::Finding(milder))
        .await
        .await;
    assert_eq!(asked(&closed.flags), [""; 0]);
    job.corrects(&found.entry, Correction::Withdrawn(true))
        .await
        .await;
    assert!(
        job.look()
            .await
            .assemblies
            .iter()
            .all(|a| a.findings.is_empty())
    );
    let again = job
        .corrects(&found.entry, Correction::Withdrawn(true))
        .await
        .refused()
        .await;
    assert_eq!(again.code, Code::FailedPrecondition);
}

#[tokio::test]
async fn what_was_found_outlives_a_restart() {
    let mut shop = Shop::open();
    let job = shop.job("tractor").await;
    job.assembly("other", "hub").await;
    job.joint("plate")
        .await
        .takes_out(1, RemovalOutcome::Normal)
        .await;
    let found = job
        .finds("hub", "Spindle")
        .await
        .finding
        .expect("a finding");
    job.answers(&found.entry, Some(Shown::Photo("0117".into())))
        .await;
    job.finds("hub", "Arm").await;
    let (before, sheet) = (job.look().await, job.print(SheetFormat::Csv).await);
    shop.restart(&[]).await;
    let job = shop.job_named("tractor");
    assert_eq!(job.look().await, before);
    assert_eq!(job.print(SheetFormat::Csv).await, sheet);
}
