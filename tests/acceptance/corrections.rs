//! Mending the record: a new entry in place of a wrong one, and the wrong one stays readable.

use clampbook_api::reason;
use clampbook_api::v1::correct_entry_request::Correction;
use clampbook_api::v1::{Criticality, DecisionKind, PositionState, RemovalOutcome, Severity};
use tonic::Code;

use crate::support::Shop;
use crate::support::shop::{ordinary_joint, removal, rules_of};

#[tokio::test]
async fn a_wrong_removal_is_replaced_and_both_entries_stay() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    let wrong = plate
        .takes_out(1, RemovalOutcome::Seized)
        .await
        .removal
        .expect("a removal");
    let right = removal(&plate.name, 1, RemovalOutcome::Stiff);
    let answer = job
        .corrects(&wrong.entry, Correction::Removal(right))
        .await
        .await;
    assert_eq!(rules_of(&answer.flags), ["not-refitted"]);
    let entry = answer.entry.expect("the correcting entry");
    assert_eq!(entry.kind, "corrected");
    assert_eq!(answer.etag, job.look().await.etag);

    let stands = plate.hole(1).await.removal.expect("a removal");
    assert_eq!(stands.outcome(), RemovalOutcome::Stiff);
    let kinds: Vec<String> = job.entries().await.into_iter().map(|e| e.kind).collect();
    assert_eq!(
        kinds,
        [
            "job-opened",
            "assembly-added",
            "joint-added",
            "removed",
            "corrected"
        ]
    );
    let first = &job.entries().await[3];
    assert_eq!(first.name, wrong.entry);
    assert!(first.body.contains("seized"), "{}", first.body);
}

#[tokio::test]
async fn a_removal_said_of_the_wrong_hole_moves() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    let wrong = plate
        .takes_out(1, RemovalOutcome::Seized)
        .await
        .removal
        .expect("a removal");
    let right = removal(&plate.name, 2, RemovalOutcome::Seized);
    job.corrects(&wrong.entry, Correction::Removal(right))
        .await
        .await;
    assert_eq!(plate.hole(1).await.state(), PositionState::InPlace);
    assert_eq!(plate.hole(2).await.state(), PositionState::Empty);
}

#[tokio::test]
async fn a_removal_that_others_rest_on_stays_in_its_hole() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    let removed = plate
        .takes_out(1, RemovalOutcome::Normal)
        .await
        .removal
        .expect("a removal");
    plate.decides(1, DecisionKind::Reuse).await.await;
    let moved = removal(&plate.name, 2, RemovalOutcome::Normal);
    let refusal = job
        .corrects(&removed.entry, Correction::Removal(moved))
        .await
        .refused()
        .await;
    refusal.is(Code::FailedPrecondition, reason::STATE_FORBIDS);
    let refusal = job
        .corrects(&removed.entry, Correction::Withdrawn(true))
        .await
        .refused()
        .await;
    refusal
        .is(Code::FailedPrecondition, reason::STATE_FORBIDS)
        .says("withdraw entry");
}

#[tokio::test]
async fn entries_are_withdrawn_from_the_last_one_back() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    let removed = plate
        .takes_out(1, RemovalOutcome::Normal)
        .await
        .removal
        .expect("a removal")
        .entry;
    let decided = plate
        .decides(1, DecisionKind::Reuse)
        .await
        .await
        .decision
        .expect("a decision")
        .entry;
    let refitted = plate.puts_back(1).await.refit.expect("a refit").entry;
    for (entry, state) in [
        (refitted, PositionState::Empty),
        (decided, PositionState::Empty),
        (removed, PositionState::InPlace),
    ] {
        job.corrects(&entry, Correction::Withdrawn(true))
            .await
            .await;
        assert_eq!(plate.hole(1).await.state(), state, "{entry}");
    }
    let hole = plate.hole(1).await;
    assert_eq!(
        (hole.removal, hole.decision, hole.refit),
        (None, None, None)
    );
}

#[tokio::test]
async fn naming_who_approves_lifts_the_stop_of_a_whole_joint() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job
        .joint_like("plate", |joint| joint.criticality = Criticality::A.into())
        .await;
    plate.comes_apart().await;
    let stop = |flags: &[clampbook_api::v1::Flag]| {
        flags
            .iter()
            .any(|f| f.rule == "computed-torque-not-approved" && f.severity() == Severity::Stop)
    };
    assert!(stop(&job.flags().await));
    let added = job.entries().await[2].name.clone();
    let mut described = ordinary_joint(&job.name, "plate");
    described.name = plate.name.clone();
    described.criticality = Criticality::A.into();
    described.computed_torque_approver = "Ida".into();
    job.corrects(&added, Correction::Joint(described))
        .await
        .await;
    assert!(!stop(&job.flags().await));
}

#[tokio::test]
async fn a_correction_of_another_kind_is_refused() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Normal).await;
    let added = job.entries().await[2].name.clone();
    let other = removal(&plate.name, 1, RemovalOutcome::Normal);
    let refusal = job
        .corrects(&added, Correction::Removal(other))
        .await
        .refused()
        .await;
    refusal.is(Code::FailedPrecondition, reason::STATE_FORBIDS);
}

#[tokio::test]
async fn an_entry_that_is_not_there_is_not_corrected() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let entry = format!("{}/entries/99", job.name);
    let refusal = job
        .corrects(&entry, Correction::Withdrawn(true))
        .await
        .refused()
        .await;
    refusal.is(Code::NotFound, reason::RESOURCE_NOT_FOUND);
    assert_eq!(refusal.resource, Some(entry));
}

#[tokio::test]
async fn a_correction_on_a_stale_view_of_the_job_is_refused() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    let removed = plate
        .takes_out(1, RemovalOutcome::Normal)
        .await
        .removal
        .expect("a removal");
    let mine = job
        .corrects(&removed.entry, Correction::Withdrawn(true))
        .await;
    plate.takes_out(2, RemovalOutcome::Normal).await;
    mine.refused().await.is(Code::Aborted, reason::ETAG_STALE);
}
