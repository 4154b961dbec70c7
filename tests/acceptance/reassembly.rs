//! Putting back: how far it is, what is in but not tight, and what went in that should not have.

use clampbook_api::reason;
use clampbook_api::v1::{
    DecisionKind, FittedPart, HoleCheck, PositionState, RemovalOutcome, Severity, Tightness,
};
use tonic::Code;

use crate::support::Shop;
use crate::support::shop::{new_bolt, rules_of};

#[tokio::test]
async fn a_joint_that_went_apart_and_back_well_has_nothing_open() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.vital_joint("plate").await;
    plate.comes_apart().await;
    for hole in 1..=4 {
        plate
            .puts_back(hole, Tightness::Final)
            .and(|refit| {
                refit.torque_reading = "67 N·m".into();
                refit.tool = "click wrench 2".into();
            })
            .await;
    }
    assert_eq!(job.flags().await, []);
    let count = job.look().await.position_count.expect("a count");
    assert_eq!(
        (
            count.in_place_count,
            count.empty_count,
            count.loose_count,
            count.final_count
        ),
        (0, 0, 0, 4)
    );
}

#[tokio::test]
async fn in_but_not_tight_is_said_until_it_is_final() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    plate.comes_apart().await;
    for (tightness, state) in [
        (Tightness::Started, PositionState::Started),
        (Tightness::Snug, PositionState::Snug),
    ] {
        let answer = plate.puts_back(1, tightness).await;
        assert!(rules_of(&answer.flags).contains(&"not-tight"));
        assert_eq!(plate.hole(1).await.state(), state);
        assert_eq!(
            job.look()
                .await
                .position_count
                .expect("a count")
                .loose_count,
            1
        );
    }
    let answer = plate.puts_back(1, Tightness::Final).await;
    assert_eq!(rules_of(&answer.flags), [""; 0]);
    assert_eq!(plate.hole(1).await.state(), PositionState::Final);
}

#[tokio::test]
async fn an_empty_hole_beside_a_filled_one_is_a_caution() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    plate.comes_apart().await;
    let severity = |flags: Vec<clampbook_api::v1::Flag>| {
        let flag = flags
            .into_iter()
            .find(|f| f.rule == "not-refitted" && f.position == 2);
        flag.expect("hole 2 is empty").severity()
    };
    assert_eq!(severity(job.flags().await), Severity::Note);
    plate.puts_back(1, Tightness::Final).await;
    assert_eq!(severity(job.flags().await), Severity::Caution);
}

#[tokio::test]
async fn the_original_of_a_fastener_that_was_to_be_replaced_stops_the_joint() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Rounded).await;
    plate
        .decides(1, DecisionKind::Replace)
        .await
        .and(|decision| decision.hole_check = HoleCheck::RunsInByHand.into())
        .await;
    let wrong = plate.puts_back(1, Tightness::Final).await;
    assert_eq!(
        rules_of(&wrong.flags),
        ["not-as-decided", "part-not-arrived"]
    );
    assert_eq!(wrong.flags[0].severity(), Severity::Stop);
    let right = plate
        .puts_back(1, Tightness::Final)
        .and(|refit| {
            refit.fitted_part = FittedPart::New.into();
            refit.new_part = Some(new_bolt());
        })
        .await;
    assert_eq!(rules_of(&right.flags), [""; 0]);
}

#[tokio::test]
async fn a_reading_far_from_what_was_asked_for_is_a_caution() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Normal).await;
    let answer = plate
        .puts_back(1, Tightness::Final)
        .and(|refit| refit.torque_reading = "90 N·m".into())
        .await;
    assert_eq!(rules_of(&answer.flags), ["reading-off"]);
    let refit = answer.refit.expect("a refit");
    assert_eq!(refit.torque_reading_nm, Some(90.0));
    // K 0.18 as received with oil, 75 % of 85 ksi on 0.1187 sq in: 49.7 lbf·ft = 67.3 N·m.
    let wanted = refit.wanted_torque_nm.expect("a wanted torque");
    assert!((wanted - 67.3).abs() < 0.05, "{wanted}");
    assert!(!refit.catalog_edition.is_empty());
}

#[tokio::test]
async fn nothing_goes_back_where_nothing_came_out() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let refusal = plate.puts_back(1, Tightness::Final).refused().await;
    refusal
        .is(Code::FailedPrecondition, reason::STATE_FORBIDS)
        .says("log the removal");
}

#[tokio::test]
async fn a_missing_fastener_has_no_original_to_go_back() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::MissingBefore).await;
    let answer = plate.puts_back(1, Tightness::Final).await;
    assert!(rules_of(&answer.flags).contains(&"not-as-decided"));
}

#[tokio::test]
async fn a_joint_may_come_apart_again_and_begins_anew() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Rounded).await;
    plate
        .decides(1, DecisionKind::Replace)
        .await
        .and(|decision| decision.hole_check = HoleCheck::RunsInByHand.into())
        .await;
    plate
        .puts_back(1, Tightness::Final)
        .and(|refit| {
            refit.fitted_part = FittedPart::New.into();
            refit.new_part = Some(new_bolt());
        })
        .await;
    let again = plate.takes_out(1, RemovalOutcome::Normal).await;
    assert_eq!(rules_of(&again.flags), ["not-refitted"]);
    let hole = plate.hole(1).await;
    assert_eq!(
        (hole.decision, hole.refit),
        (None, None),
        "the old decision is spent"
    );
}
