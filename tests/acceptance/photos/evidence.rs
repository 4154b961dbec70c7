//! Photos as evidence: of the other side, and verified with the journal and in its backup.

use std::fs;
use std::process::Command;

use clampbook_api::reason;
use clampbook_api::v1::correct_entry_request::Correction;
use clampbook_api::v1::counterpart_answer::Shown;
use rusqlite::Connection;
use tonic::Code;

use crate::support::photo::png;
use crate::support::{Server, Shop};

#[tokio::test]
async fn a_photo_of_the_other_side_answers_for_it_and_cannot_be_taken_back_before_the_answer() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    job.assembly("other", "hub").await;
    let other = format!("{}/assemblies/other", job.name);
    let there = job
        .joint_like("other-plate", |joint| joint.assembly = other.clone())
        .await;
    let finding = job
        .finds("hub", "Spindle")
        .await
        .finding
        .expect("a finding")
        .entry;
    let here = job
        .adds_photo(&finding, 0, &png(1))
        .await
        .expect("kept")
        .entry;
    let machine = job
        .adds_photo(&job.name, 0, &png(2))
        .await
        .expect("kept")
        .entry;
    for wrong in [&here, &machine, &finding] {
        let shown = Some(Shown::AddedPhoto(wrong.clone()));
        job.answers(&finding, shown)
            .refused()
            .await
            .names(&["answer.added_photo"]);
    }
    let second = shop.job("second").await;
    let strange = second
        .adds_photo(&second.name, 0, &png(3))
        .await
        .expect("kept")
        .entry;
    let shown = Some(Shown::AddedPhoto(strange));
    job.answers(&finding, shown)
        .refused()
        .await
        .names(&["answer.added_photo"]);

    let twin = job
        .adds_photo(&there.name, 1, &png(4))
        .await
        .expect("kept")
        .entry;
    let shown = Some(Shown::AddedPhoto(twin.clone()));
    let answered = job.answers(&finding, shown.clone()).await;
    assert!(answered.flags.iter().all(|flag| flag.rule != "other-side"));
    let answer = answered.answer.expect("an answer");
    assert_eq!(answer.shown, shown);
    let sheet = job.sheet().await;
    let number = twin.rsplit('/').next().expect("a number");
    assert!(
        sheet.findings[0].contains(&format!("other side: photo of entry {number}")),
        "{:?}",
        sheet.findings
    );

    let early = job.corrects(&twin, Correction::Withdrawn(true)).await;
    early
        .refused()
        .await
        .is(Code::FailedPrecondition, reason::STATE_FORBIDS);
    job.corrects(&answer.entry, Correction::Withdrawn(true))
        .await
        .await;
    let open = job.corrects(&twin, Correction::Withdrawn(true)).await.await;
    assert!(open.flags.iter().any(|flag| flag.rule == "other-side"));
    assert_eq!(job.look().await.photos.len(), 2);
    let (_, content) = job
        .photo(&twin)
        .await
        .expect("what was withdrawn stays in the record");
    assert_eq!(content, png(4));
}

#[tokio::test]
async fn verifying_looks_at_every_photo_and_a_backup_holds_them() {
    let mut shop = Shop::open();
    let job = shop.job("tractor").await;
    for number in [1, 2, 1] {
        job.adds_photo(&job.name, 0, &png(number))
            .await
            .expect("kept");
    }
    shop.server.stop().await;
    let folder = tempfile::tempdir().expect("a folder");
    let copy = folder.path().join("copy.db");
    let run = |words: &[&str], files: &[&std::path::Path]| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_clampbookd"));
        command.args(words).args(files).output().expect("it runs")
    };
    let backed = run(&["backup", "--data"], &[shop.server.data(), &copy]);
    assert!(backed.status.success(), "{backed:?}");
    assert!(run(&["verify", "--data"], &[&copy]).status.success());
    for (name, sql, told) in [
        (
            "changed",
            "UPDATE blobs SET bytes = zeroblob(length(bytes)) WHERE key = 2",
            "names content that was changed",
        ),
        (
            "gone",
            "DELETE FROM blobs WHERE key = 2",
            "which is missing",
        ),
    ] {
        let bad = folder.path().join(name);
        fs::copy(&copy, &bad).expect("a copy");
        let conn = Connection::open(&bad).expect("it opens");
        assert!(
            conn.execute_batch(sql).is_err(),
            "the file itself refuses it"
        );
        conn.execute_batch(
            "DROP TRIGGER blobs_are_not_changed; DROP TRIGGER blobs_are_not_deleted;",
        )
        .expect("an outsider");
        conn.execute_batch(sql).expect("can do anything");
        drop(conn);
        let found = run(&["verify", "--data"], &[&bad]);
        let said = String::from_utf8_lossy(&found.stderr).into_owned();
        assert!(!found.status.success(), "{found:?}");
        assert!(
            said.contains("then entry 4: names content") && said.contains(told),
            "{said}"
        );
    }
    let other = Shop::at(Server::on_copy(&copy));
    let again = other.job_named("tractor");
    let photos = again.look().await.photos;
    assert_eq!(photos.len(), 3);
    assert_eq!(
        again.photo(&photos[1].entry).await.expect("it is there").1,
        png(2)
    );
}
