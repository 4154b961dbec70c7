//! Deciding on what came out: what clears a flag, and what does not.

use clampbook_api::reason;
use clampbook_api::v1::removal::LengthSeen;
use clampbook_api::v1::{DecisionKind, HeatColour, HoleCheck, RemovalMethod, RemovalOutcome};
use tonic::Code;

use crate::support::shop::rules_of;
use crate::support::{JointAt, Shop};

async fn heated_and_seized(joint: &JointAt<'_>, hole: i32) {
    joint
        .takes_out(hole, RemovalOutcome::Seized)
        .and(|removal| {
            removal.methods = vec![RemovalMethod::Heat.into()];
            removal.heat_colour = HeatColour::Red.into();
        })
        .await;
}

#[tokio::test]
async fn a_new_bolt_and_a_proved_hole_clear_force_and_heat() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.vital_joint("plate").await;
    heated_and_seized(&plate, 1).await;
    let half = plate.decides(1, DecisionKind::Replace).await.await;
    assert_eq!(
        rules_of(&half.flags),
        ["forced-out", "not-refitted", "part-not-arrived"],
        "the hole is not proved yet"
    );
    let whole = plate
        .decides(1, DecisionKind::Replace)
        .await
        .and(|decision| decision.hole_check = HoleCheck::Chased.into())
        .await;
    assert_eq!(rules_of(&whole.flags), ["not-refitted", "part-not-arrived"]);
}

#[tokio::test]
async fn reuse_never_clears_force_in_class_a() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let (vital, other) = (job.vital_joint("vital").await, job.joint("other").await);
    for (joint, cleared) in [(&vital, false), (&other, true)] {
        joint.takes_out(1, RemovalOutcome::Seized).await;
        let answer = joint
            .decides(1, DecisionKind::CleanAndReuse)
            .await
            .and(|decision| decision.hole_check = HoleCheck::RunsInByHand.into())
            .await;
        let open = rules_of(&answer.flags).contains(&"forced-out");
        assert_eq!(open, !cleared, "{}", joint.name);
    }
}

#[tokio::test]
async fn a_citation_explains_an_odd_length_and_bare_words_do_not() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    for hole in 1..=3 {
        plate.takes_out(hole, RemovalOutcome::Normal).await;
    }
    plate
        .takes_out(4, RemovalOutcome::Normal)
        .and(|removal| removal.length_seen = Some(LengthSeen::Length("1-3/4 in".into())))
        .await;
    let words = plate.decides(4, DecisionKind::Reuse).await.await;
    assert!(rules_of(&words.flags).contains(&"odd-length"));
    let cited = plate
        .decides(4, DecisionKind::Reuse)
        .await
        .and(|decision| decision.citation = "parts book, plate 14".into())
        .await;
    assert_eq!(rules_of(&cited.flags), ["not-refitted"]);
}

#[tokio::test]
async fn a_grade_shown_by_papers_clears_the_unknown_one() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.vital_joint("plate").await;
    plate
        .takes_out(1, RemovalOutcome::Normal)
        .and(|removal| removal.grade.clear())
        .await;
    let uncited = plate
        .decides(1, DecisionKind::Reuse)
        .await
        .and(|decision| decision.grade_shown = "SAE J429 8".into())
        .refused()
        .await;
    uncited.names(&["decision.citation"]);
    let cited = plate
        .decides(1, DecisionKind::Reuse)
        .await
        .and(|decision| {
            decision.grade_shown = "SAE J429 8".into();
            decision.citation = "parts list, page 12".into();
        })
        .await;
    assert_eq!(rules_of(&cited.flags), ["not-refitted"]);
}

#[tokio::test]
async fn a_replacement_of_another_thread_or_a_weaker_grade_stops_again() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::BrokenBefore).await;
    let answer = plate
        .decides(1, DecisionKind::Replace)
        .await
        .and(|decision| {
            decision.hole_check = HoleCheck::RunsInByHand.into();
            let part = decision.replacement.get_or_insert_default();
            part.thread = "7/16-14".into();
            part.grade = "SAE J429 2".into();
        })
        .await;
    assert_eq!(
        rules_of(&answer.flags),
        [
            "not-refitted",
            "other-thread",
            "part-not-arrived",
            "weaker-than-specified"
        ]
    );
}

#[tokio::test]
async fn loose_on_arrival_in_class_a_wants_the_hole_measured_and_the_bolt_replaced() {
    let shop = Shop::open();
    let arm = shop.job("tractor").await.vital_joint("arm").await;
    arm.takes_out(1, RemovalOutcome::LooseOnArrival).await;
    let kept = arm
        .decides(1, DecisionKind::Reuse)
        .await
        .and(|decision| decision.hole_check = HoleCheck::Measured.into())
        .await;
    assert!(rules_of(&kept.flags).contains(&"loose-on-arrival"));
    let replaced = arm
        .decides(1, DecisionKind::Replace)
        .await
        .and(|decision| decision.hole_check = HoleCheck::Measured.into())
        .await;
    assert_eq!(
        rules_of(&replaced.flags),
        ["not-refitted", "part-not-arrived"]
    );
}

#[tokio::test]
async fn nothing_is_decided_on_a_fastener_that_is_still_in() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let refusal = plate.decides(1, DecisionKind::Reuse).await.refused().await;
    refusal
        .is(Code::FailedPrecondition, reason::STATE_FORBIDS)
        .says("log the removal");
}

#[tokio::test]
async fn two_people_who_decide_at_once_do_not_overrule_each_other() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Normal).await;
    let (mine, theirs) = (
        plate.decides(1, DecisionKind::Reuse).await,
        plate.decides(1, DecisionKind::Replace).await,
    );
    let current = theirs.await.etag;
    let refusal = mine.refused().await;
    refusal.is(Code::Aborted, reason::ETAG_STALE);
    assert_eq!(refusal.metadata.get("current"), Some(&current));
    let stands = plate.hole(1).await.decision.expect("a decision");
    assert_eq!(stands.kind(), DecisionKind::Replace);
}

#[tokio::test]
async fn what_somebody_wrote_about_another_hole_does_not_make_an_etag_stale() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Normal).await;
    let mine = plate.decides(1, DecisionKind::Reuse).await;
    plate.takes_out(2, RemovalOutcome::Normal).await;
    mine.await;
}

#[tokio::test]
async fn a_replacement_must_be_named_and_only_a_replacement_may() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Normal).await;
    let unnamed = plate
        .decides(1, DecisionKind::Replace)
        .await
        .and(|decision| decision.replacement = None)
        .refused()
        .await;
    unnamed.names(&["decision.replacement"]);
    let useless = plate
        .decides(1, DecisionKind::Reuse)
        .await
        .and(|decision| decision.replacement = Some(crate::support::shop::new_bolt()))
        .refused()
        .await;
    useless.names(&["decision.replacement"]);
}
