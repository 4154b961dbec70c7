//! Pages: of jobs as of tables, of lists that grow, of any size, each list with tokens of its own.

use clampbook_api::reason;
use clampbook_api::v1::{
    ListEntriesRequest, ListFlagsRequest, ListGradesRequest, ListJobsRequest, ListJointsRequest,
    ListRulesRequest, ListThreadsRequest, RemovalOutcome,
};
use tonic::{Code, Status};

use crate::support::{Refusal, Shop};

#[tokio::test]
async fn all_pages_of_a_job_add_up_too() {
    let shop = Shop::open();
    for id in ["first", "second", "third"] {
        shop.job(id).await;
    }
    let job = shop.job("tractor").await;
    for id in ["plate", "cover", "arm"] {
        job.joint(id)
            .await
            .takes_out(1, RemovalOutcome::Seized)
            .await;
    }
    let mut jobs = shop.jobs();
    let parent = || job.name.clone();
    let names = adds_up!(jobs, list_jobs, ListJobsRequest::default(), jobs, name);
    assert_eq!(
        names,
        ["jobs/tractor", "jobs/third", "jobs/second", "jobs/first"],
        "the last written first"
    );
    let joints = ListJointsRequest {
        parent: parent(),
        ..Default::default()
    };
    assert_eq!(adds_up!(jobs, list_joints, joints, joints, name).len(), 3);
    let flags = ListFlagsRequest {
        parent: parent(),
        ..Default::default()
    };
    assert_eq!(adds_up!(jobs, list_flags, flags, flags, joint).len(), 6);
    let entries = ListEntriesRequest {
        parent: parent(),
        ..Default::default()
    };
    assert_eq!(
        adds_up!(jobs, list_entries, entries, entries, name).len(),
        8
    );
    adds_up!(jobs, list_rules, ListRulesRequest::default(), rules, name);
}

#[tokio::test]
async fn a_list_that_grows_between_pages_neither_repeats_nor_loses_what_was_there() {
    let shop = Shop::open();
    for id in ["a", "b", "c"] {
        shop.job(id).await;
    }
    let first = ListJobsRequest {
        page_size: 2,
        page_token: String::new(),
    };
    let first = shop
        .jobs()
        .list_jobs(first)
        .await
        .expect("a page")
        .into_inner();
    shop.job("d").await;
    let second = ListJobsRequest {
        page_size: 2,
        page_token: first.next_page_token,
    };
    let second = shop
        .jobs()
        .list_jobs(second)
        .await
        .expect("a page")
        .into_inner();
    let names: Vec<String> = first
        .jobs
        .into_iter()
        .chain(second.jobs)
        .map(|job| job.name)
        .collect();
    assert_eq!(names, ["jobs/c", "jobs/b", "jobs/a"]);
}

#[tokio::test]
async fn pages_of_flags_rest_on_one_judgement_while_others_write() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Seized).await;
    plate.takes_out(2, RemovalOutcome::Seized).await;
    let list = async |page_size, page_token: &str| {
        let request = ListFlagsRequest {
            parent: job.name.clone(),
            page_size,
            page_token: page_token.into(),
        };
        let answer = shop.jobs().list_flags(request).await;
        answer.map(tonic::Response::into_inner)
    };
    let whole = list(0, "").await.expect("all").flags;
    let first = list(1, "").await.expect("a page");
    // A stop more comes to stand in front of what the next page begins with.
    plate.takes_out(3, RemovalOutcome::Seized).await;
    let rest = list(100, &first.next_page_token).await.expect("the rest");
    assert_eq!([first.flags, rest.flags].concat(), whole);
    assert_eq!(list(0, "").await.expect("all").flags.len(), whole.len() + 2);

    // What is not kept any more is not guessed.
    for n in 0..8 {
        plate.takes_out(4, RemovalOutcome::Seized).await;
        plate.puts_back(4).await;
        list(n, "").await.expect("a judgement more");
    }
    let refused = list(100, &first.next_page_token)
        .await
        .expect_err("it is gone");
    Refusal::of(&refused)
        .is(Code::Aborted, reason::ETAG_STALE)
        .says("list it again from the first page");
}

#[tokio::test]
async fn page_sizes_are_bounded_and_never_negative() {
    let shop = Shop::open();
    let ask = |page_size| ListThreadsRequest {
        page_size,
        page_token: String::new(),
    };
    let mut catalog = shop.catalog();
    let default = catalog
        .list_threads(ask(0))
        .await
        .expect("a page")
        .into_inner();
    assert_eq!(default.threads.len(), 100);
    let huge = catalog
        .list_threads(ask(i32::MAX))
        .await
        .expect("a page")
        .into_inner();
    assert!(
        huge.threads.len() <= 500 && huge.threads.len() > 100,
        "{}",
        huge.threads.len()
    );
    for negative in [-1, i32::MIN] {
        let status = catalog
            .list_threads(ask(negative))
            .await
            .expect_err("refused");
        Refusal::of(&status).names(&["page_size"]).says("negative");
    }
}

#[tokio::test]
async fn a_token_of_another_list_is_refused() {
    let shop = Shop::open();
    let ask = ListThreadsRequest {
        page_size: 1,
        page_token: String::new(),
    };
    let token = shop
        .catalog()
        .list_threads(ask)
        .await
        .expect("a page")
        .into_inner()
        .next_page_token;
    assert!(token.bytes().all(|b| b.is_ascii_alphanumeric()), "{token}");
    let refused = |status: Status| {
        Refusal::of(&status).names(&["page_token"]);
    };
    let grades = ListGradesRequest {
        page_size: 1,
        page_token: token.clone(),
    };
    refused(
        shop.catalog()
            .list_grades(grades)
            .await
            .expect_err("refused"),
    );
    let jobs = ListJobsRequest {
        page_size: 1,
        page_token: token,
    };
    refused(shop.jobs().list_jobs(jobs).await.expect_err("refused"));

    let (a, b) = (shop.job("a").await, shop.job("b").await);
    a.assembly("second", "").await;
    let entries = |parent: &str, page_token: &str| ListEntriesRequest {
        parent: parent.into(),
        page_size: 1,
        page_token: page_token.into(),
    };
    let page = shop
        .jobs()
        .list_entries(entries(&a.name, ""))
        .await
        .expect("a page")
        .into_inner();
    let other = shop
        .jobs()
        .list_entries(entries(&b.name, &page.next_page_token))
        .await;
    refused(other.expect_err("a token of another job"));
}
