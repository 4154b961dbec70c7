//! What is no photo, comes by half or is too much at once is refused, and leaves nothing.

use std::time::Duration;

use clampbook_api::reason;
use clampbook_api::v1::{AddPhotoRequest, Photo};
use tonic::Code;

use super::{kept, refused};
use crate::support::photo::{long_png, messages, png};
use crate::support::{Refusal, Shop, fresh_id};

/// The most that is taken: 8 MiB.
const MOST: usize = 8 * 1024 * 1024;

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
    fn photo_of(sent: &mut [AddPhotoRequest]) -> &mut Photo {
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
