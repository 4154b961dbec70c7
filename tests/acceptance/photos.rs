//! Photos: in the journal's own file, the same content once, evidence that verification looks at.

mod evidence;
mod refusing;

use std::fs;

use clampbook_api::reason;
use clampbook_api::v1::{AddPhotoRequest, RemovalOutcome, SheetFormat};
use rusqlite::Connection;
use tonic::Code;

use crate::support::photo::{long_png, messages, png};
use crate::support::{JobAt, Refusal, Server, Shop, cli};

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
    plate.takes_out(3, RemovalOutcome::Normal).await;
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
        "Photo of hub: before the puller; PNG, 1 KiB (entry 3)\n"
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
