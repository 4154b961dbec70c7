//! Sending again: a request has one outcome, however often it is sent.

use clampbook_api::reason;
use clampbook_api::v1::{
    CreateJobRequest, DecisionKind, ImportRemovalsRequest, Job, LogAlikeRemovalsRequest,
    RemovalOutcome,
};
use tonic::Code;

use crate::support::shop::new_bolt;
use crate::support::{Refusal, Shop, fresh_id};

#[tokio::test]
async fn a_removal_sent_twice_is_written_once_and_answered_alike() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let id = fresh_id();
    let say = || {
        plate
            .takes_out(1, RemovalOutcome::Seized)
            .request(|request| request.request_id.clone_from(&id))
    };
    let first = say().await;
    let written = shop.server.entry_count();
    let second = say().await;
    assert_eq!(second, first);
    assert_eq!(shop.server.entry_count(), written);
}

#[tokio::test]
async fn the_first_answer_comes_back_after_a_restart_and_after_a_kill() {
    let mut shop = Shop::open();
    let request = CreateJobRequest {
        job_id: "tractor".into(),
        job: Some(Job {
            display_name: "A job".into(),
            ..Default::default()
        }),
        request_id: fresh_id(),
        said_time: None,
    };
    let first = shop
        .jobs()
        .create_job(request.clone())
        .await
        .expect("taken")
        .into_inner();
    shop.restart(&[]).await;
    let second = shop
        .jobs()
        .create_job(request.clone())
        .await
        .expect("taken")
        .into_inner();
    assert_eq!(second, first);
    shop.server.kill();
    shop.server.start_again(&[]);
    let shop = Shop::at(shop.server);
    let third = shop
        .jobs()
        .create_job(request)
        .await
        .expect("taken")
        .into_inner();
    assert_eq!(third, first);
    assert_eq!(shop.server.entry_count(), 1);
}

#[tokio::test]
async fn the_same_id_for_something_else_is_refused_and_nothing_is_written() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let id = fresh_id();
    plate
        .takes_out(1, RemovalOutcome::Normal)
        .request(|request| request.request_id.clone_from(&id))
        .await;
    let written = shop.server.entry_count();
    let other_content = plate
        .takes_out(2, RemovalOutcome::Normal)
        .request(|request| request.request_id.clone_from(&id));
    other_content
        .refused()
        .await
        .is(Code::InvalidArgument, reason::REQUEST_ID_REUSED);
    let other_method = plate
        .puts_back(1)
        .request(|request| request.request_id.clone_from(&id));
    other_method
        .refused()
        .await
        .is(Code::InvalidArgument, reason::REQUEST_ID_REUSED);
    assert_eq!(shop.server.entry_count(), written);
}

#[tokio::test]
async fn a_decision_sent_again_with_an_etag_that_is_stale_by_now_gets_its_first_answer() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Normal).await;
    let say = plate.decides(1, DecisionKind::Reuse).await;
    let request = say.request.clone();
    let first = say.await;
    let second = shop
        .jobs()
        .log_decision(request.clone())
        .await
        .expect("taken")
        .into_inner();
    assert_eq!(second, first);
    // Even when somebody decided otherwise since.
    plate.decides(1, DecisionKind::Replace).await.await;
    let written = shop.server.entry_count();
    let third = shop
        .jobs()
        .log_decision(request)
        .await
        .expect("taken")
        .into_inner();
    assert_eq!((third.decision, third.etag), (first.decision, first.etag));
    assert_eq!(shop.server.entry_count(), written);
}

#[tokio::test]
async fn a_refusal_is_not_remembered() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let id = fresh_id();
    let decision = plate
        .decides(1, DecisionKind::Reuse)
        .await
        .request(|request| request.request_id.clone_from(&id));
    decision
        .refused()
        .await
        .is(Code::FailedPrecondition, reason::STATE_FORBIDS);
    plate.takes_out(1, RemovalOutcome::Normal).await;
    plate
        .decides(1, DecisionKind::Reuse)
        .await
        .request(|request| request.request_id.clone_from(&id))
        .await;
}

#[tokio::test]
async fn a_request_without_an_id_gets_one_and_is_never_taken_for_another() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let say = || {
        plate
            .takes_out(1, RemovalOutcome::Normal)
            .request(|request| request.request_id.clear())
    };
    say().await;
    say()
        .refused()
        .await
        .is(Code::FailedPrecondition, reason::STATE_FORBIDS);
    let entries = shop.job_named("tractor").entries().await;
    let id = &entries.last().expect("an entry").request_id;
    assert!(uuid::Uuid::try_parse(id).is_ok(), "{id}");
}

#[tokio::test]
async fn many_at_once_and_a_whole_table_are_each_one_request() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let (plate, cover) = (job.joint("plate").await, job.joint("cover").await);
    let alike = LogAlikeRemovalsRequest {
        joint: plate.name.clone(),
        outcome: RemovalOutcome::Normal.into(),
        request_id: fresh_id(),
        ..Default::default()
    };
    let import = ImportRemovalsRequest {
        parent: job.name.clone(),
        csv: "joint,position,outcome\ncover,1,normal\ncover,2,stiff\n".into(),
        request_id: fresh_id(),
        ..Default::default()
    };
    let mut jobs = shop.jobs();
    let first = (
        jobs.log_alike_removals(alike.clone())
            .await
            .expect("taken")
            .into_inner(),
        jobs.import_removals(import.clone())
            .await
            .expect("taken")
            .into_inner(),
    );
    let written = shop.server.entry_count();
    // All four come back, although no position is in place any more.
    let again = jobs
        .log_alike_removals(alike)
        .await
        .expect("taken")
        .into_inner();
    assert_eq!(again.removals, first.0.removals);
    let again = jobs
        .import_removals(import)
        .await
        .expect("taken")
        .into_inner();
    assert_eq!(again.removal_count, first.1.removal_count);
    assert_eq!(shop.server.entry_count(), written);
    assert_eq!(cover.hole(3).await.removal, None);
}

#[tokio::test]
async fn the_same_request_from_many_at_once_is_written_once() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let request = plate.takes_out(1, RemovalOutcome::Normal).request;
    let before = shop.server.entry_count();
    let senders: Vec<_> = (0..16)
        .map(|_| {
            let (mut jobs, request) = (shop.jobs(), request.clone());
            tokio::spawn(async move {
                jobs.log_removal(request)
                    .await
                    .map(tonic::Response::into_inner)
            })
        })
        .collect();
    let mut answers = Vec::new();
    for sender in senders {
        answers.push(sender.await.expect("it ends").expect("each is answered"));
    }
    assert!(answers.windows(2).all(|pair| pair[0] == pair[1]));
    assert_eq!(shop.server.entry_count(), before + 1);
}

#[tokio::test]
async fn a_retry_of_a_correction_is_one_correction() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    let removed = plate
        .takes_out(1, RemovalOutcome::Normal)
        .await
        .removal
        .expect("a removal");
    let withdrawn = clampbook_api::v1::correct_entry_request::Correction::Withdrawn(true);
    let say = job.corrects(&removed.entry, withdrawn).await;
    let request = say.request.clone();
    let first = say.await;
    let second = shop
        .jobs()
        .correct_entry(request)
        .await
        .expect("taken")
        .into_inner();
    assert_eq!(second, first);
}

#[tokio::test]
async fn an_id_that_is_no_uuid_is_refused() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Normal).await;
    let refusal = plate
        .puts_back(1)
        .and(|refit| {
            refit.fitted_part = clampbook_api::v1::FittedPart::New.into();
            refit.new_part = Some(new_bolt());
        })
        .request(|request| request.request_id = "7".into())
        .refused()
        .await;
    refusal.names(&["request_id"]);
    let status = shop
        .jobs()
        .create_job(CreateJobRequest::default())
        .await
        .expect_err("refused");
    Refusal::of(&status).names(&["job_id", "job"]);
}

#[tokio::test]
async fn what_was_recorded_comes_back_as_recorded_and_what_follows_from_it_as_it_is_now() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let say = plate.takes_out(1, RemovalOutcome::Seized);
    let request = say.request.clone();
    let first = say.await;
    let decision = plate.decides(1, DecisionKind::Replace).await;
    decision
        .and(|decision| decision.hole_check = clampbook_api::v1::HoleCheck::Chased.into())
        .await;
    let again = shop.jobs().log_removal(request).await;
    let again = again.expect("taken").into_inner();
    assert_eq!((&again.removal, &again.etag), (&first.removal, &first.etag));
    assert!(first.flags.iter().any(|flag| flag.rule == "forced-out"));
    assert!(!again.flags.iter().any(|flag| flag.rule == "forced-out"));
}
