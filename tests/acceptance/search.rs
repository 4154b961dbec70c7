//! Searching across jobs: which machine had that thread, that bag, that flag, that part.

use clampbook_api::v1::{FoundPlace, RemovalOutcome, SearchJobsRequest, SearchJobsResponse};

use crate::support::{Refusal, Shop, cli};

async fn find(shop: &Shop, wanted: &SearchJobsRequest) -> SearchJobsResponse {
    let answer = shop.jobs().search_jobs(wanted.clone()).await;
    answer.expect("it is searched").into_inner()
}

fn at(places: &[FoundPlace]) -> Vec<(String, i32)> {
    let short = |place: &FoundPlace| {
        let place_of = match place.joint.as_str() {
            "" => &place.assembly,
            joint => joint,
        };
        (
            place_of.trim_start_matches("jobs/").to_owned(),
            place.position,
        )
    };
    places.iter().map(short).collect()
}

/// Three jobs, each with a plate of which two holes are apart; the last one has a ruined spindle and another thread.
async fn three_jobs() -> Shop {
    let shop = Shop::open();
    for id in ["one", "two", "three"] {
        let job = shop.job(id).await;
        let plate = job
            .joint_like("plate", |joint| {
                if let (Some(target), "three") = (&mut joint.target, id) {
                    target.thread = "1/2-13 UNC".into();
                }
            })
            .await;
        plate
            .takes_out(1, RemovalOutcome::Normal)
            .and(|removal| removal.kept_in = format!("Bag {id}"))
            .await;
        plate.takes_out(3, RemovalOutcome::Seized).await;
    }
    shop.job_named("three").finds("hub", "Spindle").await;
    shop
}

fn wanted(change: impl FnOnce(&mut SearchJobsRequest)) -> SearchJobsRequest {
    let mut wanted = SearchJobsRequest::default();
    change(&mut wanted);
    wanted
}

#[tokio::test]
async fn places_are_found_by_thread_bag_flag_part_and_machine() {
    let shop = three_jobs().await;
    let found = async |change: fn(&mut SearchJobsRequest)| {
        let answer = find(&shop, &wanted(change)).await;
        assert_eq!(answer.next_page_token, "");
        at(&answer.places)
    };
    let plate = |job: &str, position| (format!("{job}/joints/plate"), position);
    let all_holes: Vec<_> = ["two", "one"]
        .iter()
        .flat_map(|job| (1..=4).map(move |position| plate(job, position)))
        .collect();
    assert_eq!(
        found(|w| w.thread = "7/16-20".into()).await,
        all_holes,
        "in any spelling"
    );
    assert_eq!(
        found(|w| w.kept_in = "bag t".into()).await,
        [plate("three", 1), plate("two", 1)]
    );
    assert_eq!(
        found(|w| w.rule = "forced-out".into()).await,
        [plate("three", 3), plate("two", 3), plate("one", 3)]
    );
    assert_eq!(
        found(|w| {
            w.rule = "forced-out".into();
            w.thread = "1/2-13".into();
        })
        .await,
        [plate("three", 3)]
    );
    assert_eq!(
        found(|w| {
            w.rule = "forced-out".into();
            w.machine = "JOB TWO".into();
        })
        .await,
        [plate("two", 3)]
    );
    let hub = ("three/assemblies/hub".to_owned(), 0);
    assert_eq!(
        found(|w| w.part = "spin".into()).await,
        std::slice::from_ref(&hub)
    );
    assert_eq!(found(|w| w.rule = "part-ruined".into()).await, [hub]);
    assert_eq!(found(|w| w.kept_in = "cellar".into()).await, []);
    let first = find(&shop, &wanted(|w| w.part = "spindle".into()))
        .await
        .places
        .remove(0);
    assert_eq!(
        (first.job.as_str(), first.machine.as_str()),
        ("jobs/three", "Orchard tractor")
    );
    assert_eq!(first.what, "Spindle: wear, ruined");
}

#[tokio::test]
async fn pages_come_together_to_the_whole_and_later_writing_does_not_shift_them() {
    let shop = three_jobs().await;
    for size in [1, 3, 4, 5, 8] {
        // Before the first page the job written last comes first.
        let whole = find(&shop, &wanted(|w| w.thread = "7/16-20".into()))
            .await
            .places;
        let mut request = wanted(|w| w.thread = "7/16-20".into());
        request.page_size = size;
        let mut together = Vec::new();
        loop {
            let page = find(&shop, &request).await;
            assert!(page.places.len() <= usize::try_from(size).expect("a size"));
            together.extend(page.places);
            request.page_token = page.next_page_token;
            if request.page_token.is_empty() {
                break;
            }
            let plate = shop.job_named("one").joint_named("plate");
            plate.puts_back(3).await;
        }
        assert_eq!(at(&together), at(&whole), "in pages of {size}");
    }
    let mut request = wanted(|w| w.thread = "7/16-20".into());
    request.page_size = 1;
    request.page_token = find(&shop, &request).await.next_page_token;
    request.thread = "1/2-13".into();
    let status = shop
        .jobs()
        .search_jobs(request)
        .await
        .expect_err("another search's token");
    Refusal::of(&status).names(&["page_token"]);
}

#[tokio::test]
async fn a_search_for_nothing_or_for_what_cannot_be_is_refused() {
    let shop = three_jobs().await;
    let refused = async |change: fn(&mut SearchJobsRequest)| {
        let status = shop.jobs().search_jobs(wanted(change)).await;
        Refusal::of(&status.expect_err("it is refused"))
    };
    refused(|_| {}).await.names(&["machine"]);
    refused(|w| {
        w.thread = "7/16-21".into();
        w.rule = "no-such-rule".into();
        w.part = "\u{7}".into();
        w.page_size = -1;
    })
    .await
    .names(&["page_size", "part", "part", "rule", "thread"]);
    let told = cli(&shop.server, &["search", "--kept-in", "bag two"]);
    assert_eq!(
        told.output(),
        "two plate position 1: 7/16-20 UNF, Bag two\n"
    );
}
