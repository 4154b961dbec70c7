//! Photos: in the journal's own file, the same content once, evidence that verification looks at.

use std::fs;
use std::process::Command;
use std::time::Duration;

use clampbook_api::reason;
use clampbook_api::v1::correct_entry_request::Correction;
use clampbook_api::v1::counterpart_answer::Shown;
use clampbook_api::v1::{AddPhotoRequest, RemovalCondition, SheetFormat};
use rusqlite::Connection;
use tonic::Code;

use crate::support::photo::{long_png, messages, png};
use crate::support::{JobAt, Refusal, Server, Shop, cli, fresh_id};

/// The most that is taken: 8 MiB.
const MOST: usize = 8 * 1024 * 1024;

fn kept(shop: &Shop) -> Vec<i64> {
    let conn = Connection::open(shop.server.data()).expect("the journal");
    let mut statement = conn
        .prepare("SELECT length(bytes) FROM blobs ORDER BY key")
        .expect("it is there");
    let sizes = statement.query_map([], |row| row.get(0)).expect("rows");
    sizes.map(|size| size.expect("a size")).collect()
}

async fn refused(job: &JobAt<'_>, messages: Vec<AddPhotoRequest>) -> Refusal {
    let outcome = job.sends_photo(messages).await;
    Refusal::of(&outcome.expect_err("it must be refused"))
}

#[tokio::test]
async fn a_photo_comes_back_as_it_was_sent_and_is_told_where_it_belongs() {
    let mut shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    plate.takes_out(3, RemovalCondition::Normal).await;
    let found = job
        .finds("hub", "Spindle")
        .await
        .finding
        .expect("a finding");
    let hub = format!("{}/assemblies/hub", job.name);
    let picture = long_png(7, 1_000_000);
    let sent = messages(&plate.name, 3, &picture, 300_000);
    let photo = job.sends_photo(sent).await.expect("it is kept");
    assert_eq!(
        (photo.media_type.as_str(), photo.size_bytes, photo.position),
        ("image/png", 1_000_000, 3)
    );
    for (subject, content) in [
        (&job.name, png(1)),
        (&hub, png(2)),
        (&plate.name, png(3)),
        (&found.entry, png(4)),
    ] {
        let photo = job
            .adds_photo(subject, 0, &content)
            .await
            .expect("it is kept");
        assert_eq!(&photo.subject, subject);
        assert_eq!(
            job.photo(&photo.entry).await.expect("it is there").1,
            content
        );
    }
    assert_eq!(
        job.photo(&photo.entry).await.expect("it is there"),
        (photo.clone(), picture.clone())
    );
    let all = job.look().await.photos;
    assert_eq!(all.len(), 5);
    assert_eq!(all[0], photo);
    let entries = job.entries().await;
    assert!(
        entries
            .iter()
            .any(|entry| entry.kind == "photo-added" && entry.body.contains(&photo.hash))
    );
    let sheet = job.sheet().await;
    let number = photo.entry.rsplit('/').next().expect("a number");
    assert_eq!(
        sheet.joints[0].photos[0],
        format!("hole 3: as it was (photo of entry {number})")
    );
    assert_eq!(sheet.joints[0].photos.len(), 2, "that of the joint as well");
    assert!(
        sheet.findings[0].contains("as it was (photo of entry"),
        "{:?}",
        sheet.findings
    );
    let printed = job.print(SheetFormat::Text).await;
    assert!(printed.contains("Photo: hole 3: as it was"), "{printed}");

    shop.restart(&[]).await;
    let job = shop.job_named("tractor");
    assert_eq!(job.look().await.photos, all);
    assert_eq!(
        job.photo(&photo.entry).await.expect("it is there"),
        (photo, picture)
    );
}

#[tokio::test]
async fn the_same_content_is_kept_once_and_a_request_sent_again_writes_nothing() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    let first = messages(&plate.name, 1, &png(1), 30);
    let photo = job.sends_photo(first.clone()).await.expect("it is kept");
    let count = shop.server.entry_count();
    // Cut into other pieces it is the same photo.
    let mut again = messages(&plate.name, 1, &png(1), 7);
    again[0].request_id = first[0].request_id.clone();
    assert_eq!(
        job.sends_photo(again).await.expect("the first answer"),
        photo
    );
    assert_eq!(shop.server.entry_count(), count);
    assert_eq!(kept(&shop).len(), 1);
    for change in [
        |sent: &mut Vec<AddPhotoRequest>| sent[1].chunk[60] ^= 1,
        |sent: &mut Vec<AddPhotoRequest>| sent[0].photo.as_mut().expect("it").caption.push('!'),
        |sent: &mut Vec<AddPhotoRequest>| sent[0].photo.as_mut().expect("it").position = 2,
    ] {
        let mut other = messages(&plate.name, 1, &png(1), 1_000);
        other[0].request_id = first[0].request_id.clone();
        change(&mut other);
        refused(&job, other)
            .await
            .is(Code::InvalidArgument, reason::REQUEST_ID_REUSED);
    }
    assert_eq!(kept(&shop).len(), 1, "nothing of those is kept");
    let other_hole = job
        .adds_photo(&plate.name, 2, &png(1))
        .await
        .expect("it is kept");
    assert_eq!(other_hole.hash, photo.hash);
    assert_eq!(
        (kept(&shop).len(), job.look().await.photos.len()),
        (1, 2),
        "two say it, one is kept"
    );
}

#[tokio::test]
async fn the_largest_photo_fits_and_what_is_no_photo_leaves_nothing() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let name = job.name.clone();
    let largest = long_png(7, MOST);
    let photo = job
        .sends_photo(messages(&name, 0, &largest, 1_000_000))
        .await;
    let photo = photo.expect("8 MiB fit");
    assert_eq!(
        job.photo(&photo.entry).await.expect("it is there").1,
        largest
    );
    let (count, before) = (shop.server.entry_count(), kept(&shop));

    let good = || messages(&name, 0, &png(1), 1_000);
    let with = |change: &dyn Fn(&mut Vec<AddPhotoRequest>)| {
        let mut sent = good();
        change(&mut sent);
        sent
    };
    fn photo_of(sent: &mut [AddPhotoRequest]) -> &mut clampbook_api::v1::Photo {
        sent[0].photo.as_mut().expect("the first says it")
    }
    let too_large = messages(&name, 0, &long_png(7, MOST + 1), 1_000_000);
    for (sent, fields) in [
        (Vec::new(), &["photo"][..]),
        (too_large, &["photo.size_bytes"]),
        (
            with(&|sent| photo_of(sent).size_bytes = 0),
            &["photo.size_bytes"],
        ),
        (
            with(&|sent| photo_of(sent).size_bytes += 1),
            &["photo.size_bytes"],
        ),
        (
            with(&|sent| photo_of(sent).size_bytes -= 1),
            &["photo.size_bytes"],
        ),
        (with(&|sent| drop(sent.pop())), &["photo.size_bytes"]),
        (with(&|sent| sent[1].chunk[0] = 0), &["chunk"]),
        (
            with(&|sent| photo_of(sent).media_type = "image/jpeg".into()),
            &["photo.media_type"],
        ),
        (
            with(&|sent| photo_of(sent).media_type = "image/gif".into()),
            &["photo.media_type"],
        ),
        (
            with(&|sent| photo_of(sent).caption = "x".repeat(201)),
            &["photo.caption"],
        ),
        (
            with(&|sent| photo_of(sent).position = 1),
            &["photo.position"],
        ),
        (
            with(&|sent| photo_of(sent).subject = "jobs/tractor/joints/".into()),
            &["photo.subject"],
        ),
        (
            with(&|sent| sent[0].request_id = "7".into()),
            &["request_id"],
        ),
        (
            with(&|sent| sent[1].request_id = fresh_id()),
            &["request_id"],
        ),
        (
            with(&|sent| sent[1] = sent[0].clone()),
            &["photo", "request_id"],
        ),
        (
            with(&|sent| {
                sent[0].request_id = "7".into();
                let photo = photo_of(sent);
                photo.caption = "\u{7}".into();
                photo.size_bytes = -1;
                photo.subject = "tractor".into();
                photo.position = -1;
                photo.media_type = "png".into();
            }),
            &[
                "photo.caption",
                "photo.media_type",
                "photo.position",
                "photo.size_bytes",
                "photo.subject",
                "request_id",
            ],
        ),
    ] {
        refused(&job, sent).await.names(fields);
    }
    for subject in [
        "jobs/none",
        "jobs/tractor/assemblies/none",
        "jobs/tractor/joints/none",
        "jobs/tractor/entries/99",
    ] {
        let lost = with(&|sent| photo_of(sent).subject = subject.into());
        refused(&job, lost)
            .await
            .is(Code::NotFound, reason::RESOURCE_NOT_FOUND);
    }
    let no_finding = with(&|sent| photo_of(sent).subject = "jobs/tractor/entries/1".into());
    refused(&job, no_finding)
        .await
        .is(Code::FailedPrecondition, reason::STATE_FORBIDS);
    let huge = with(&|sent| sent[1].chunk = vec![0; 2_000_000]);
    refused(&job, huge)
        .await
        .is(Code::ResourceExhausted, reason::MESSAGE_TOO_LARGE);
    for entry in [
        "jobs/tractor/entries/0",
        "jobs/tractor/entries/1",
        "jobs/tractor/entries/99",
        "jobs/none/entries/3",
    ] {
        let status = job.photo(entry).await.expect_err("it is no photo");
        assert_eq!(status.code(), Code::NotFound, "{entry}");
    }
    assert_eq!((shop.server.entry_count(), kept(&shop)), (count, before));
}

#[tokio::test]
async fn a_stream_that_breaks_off_leaves_nothing() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let count = shop.server.entry_count();
    let mut sent = messages(&job.name, 0, &long_png(7, 500_000), 100_000);
    sent.truncate(3);
    // Two chunks, then silence; whoever waits for the answer hangs up.
    let silent = tokio_stream::StreamExt::chain(tokio_stream::iter(sent), tokio_stream::pending());
    let mut jobs = shop.jobs();
    let waiting = tokio::time::timeout(Duration::from_millis(300), jobs.add_photo(silent));
    waiting.await.expect_err("it is still waited for");
    // The next one is taken as if nothing had been.
    job.adds_photo(&job.name, 0, &png(1))
        .await
        .expect("it is kept");
    assert_eq!(shop.server.entry_count(), count + 1);
    assert_eq!(kept(&shop), [png(1).len() as i64]);
}

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

#[test]
fn photos_go_in_and_out_in_words() {
    let server = Server::start();
    let folder = tempfile::tempdir().expect("a folder");
    let file = |name: &str| {
        folder
            .path()
            .join(name)
            .to_str()
            .expect("a name")
            .to_owned()
    };
    let (picture, copy, text) = (file("hub.png"), file("again.png"), file("note.txt"));
    fs::write(&picture, png(9)).expect("a file");
    fs::write(&text, "no picture").expect("a file");
    cli(
        &server,
        &["jobs", "create", "tractor", "--name", "Orchard tractor"],
    )
    .output();
    cli(
        &server,
        &["assemblies", "add", "tractor", "hub", "--name", "Hub"],
    )
    .output();
    let none = cli(&server, &["photo", "list", "tractor"]);
    assert_eq!(none.output(), "The job has no photo yet.\n");
    let words = [
        "photo",
        "add",
        "tractor",
        &picture,
        "--of",
        "assembly:hub",
        "--caption",
        "before the puller",
    ];
    let told = cli(&server, &words).output().to_owned();
    assert_eq!(
        told,
        "Photo of hub, before the puller: image/png, 1 KiB (entry 3)\n"
    );
    assert_eq!(cli(&server, &["photo", "list", "tractor"]).output(), told);
    let shown = cli(&server, &["jobs", "show", "tractor"])
        .output()
        .to_owned();
    assert!(shown.contains(&told), "{shown}");
    let got = cli(&server, &["photo", "get", "tractor", "3", &copy])
        .output()
        .to_owned();
    assert!(got.contains("bytes written"), "{got}");
    assert_eq!(fs::read(&copy).expect("the copy"), png(9));
    cli(&server, &["photo", "get", "tractor", "3", &copy]).ends_with(2);
    assert_eq!(
        fs::read(&copy).expect("the copy"),
        png(9),
        "nothing is written over"
    );
    let wrong = cli(&server, &["photo", "add", "tractor", &text]);
    wrong.ends_with(2);
    assert!(
        wrong.stderr.contains("JPEG, PNG and WebP"),
        "{}",
        wrong.stderr
    );
}

#[tokio::test]
async fn more_photos_under_way_than_can_be_held_are_asked_to_come_again() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let half = || {
        let mut sent = messages(&job.name, 0, &png(1), 30);
        sent.pop();
        tokio_stream::StreamExt::chain(tokio_stream::iter(sent), tokio_stream::pending())
    };
    let mut under_way = Vec::new();
    for _ in 0..8 {
        let (mut jobs, sent) = (shop.jobs(), half());
        under_way.push(tokio::spawn(async move { jobs.add_photo(sent).await }));
    }
    // Until all eight have arrived, one more may still find room.
    let status = loop {
        tokio::time::sleep(Duration::from_millis(20)).await;
        if let Err(status) = job.adds_photo(&job.name, 0, &png(2)).await {
            break status;
        }
    };
    Refusal::of(&status).is(Code::Unavailable, reason::OVERLOADED);
    for one in under_way {
        one.abort();
    }
    while job.adds_photo(&job.name, 0, &png(2)).await.is_err() {
        tokio::time::sleep(Duration::from_millis(20)).await;
    }
    assert_eq!(kept(&shop), [png(2).len() as i64]);
}
