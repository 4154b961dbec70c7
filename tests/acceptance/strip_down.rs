//! Taking apart: what is said about each fastener, and what is flagged at once.

use clampbook_api::v1::removal::LengthSeen;
use clampbook_api::v1::{
    HeatColour, LengthCompared, LogAlikeRemovalsRequest, PositionState, RemovalMethod,
    RemovalOutcome, RemovalTick, Severity,
};
use clampbook_api::{DEVICE_KEY, PERSON_KEY};
use tonic::{Code, Request};

use clampbook_api::reason;

use crate::support::shop::{removal, rules_of};
use crate::support::{Refusal, Shop, fresh_id};

#[tokio::test]
async fn a_fastener_that_came_out_well_raises_nothing_but_the_empty_hole() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let answer = plate.takes_out(1, RemovalOutcome::Normal).await;
    assert_eq!(rules_of(&answer.flags), ["not-refitted"]);
    assert_eq!(answer.flags[0].severity(), Severity::Note);
    let hole = plate.hole(1).await;
    assert_eq!(hole.state(), PositionState::Empty);
    assert_eq!(hole.etag, answer.etag);
    assert_eq!(plate.hole(2).await.state(), PositionState::InPlace);
}

#[tokio::test]
async fn a_seized_bolt_driven_out_hot_stops_the_joint_for_force_and_for_heat() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.vital_joint("plate").await;
    let answer = plate
        .takes_out(3, RemovalOutcome::Seized)
        .and(|removal| {
            removal.methods = vec![RemovalMethod::Heat.into(), RemovalMethod::Hammer.into()];
            removal.heat_colour = HeatColour::Red.into();
            removal.heated_place = "the boss".into();
        })
        .await;
    let stops: Vec<_> = answer
        .flags
        .iter()
        .filter(|f| f.severity() == Severity::Stop)
        .collect();
    let rules: Vec<&str> = stops.iter().map(|flag| flag.rule.as_str()).collect();
    assert_eq!(rules, ["forced-out", "heated"]);
    assert!(stops[0].cause.contains("hammer"), "{}", stops[0].cause);
    assert!(
        stops[1].cause.contains("red, on the boss"),
        "{}",
        stops[1].cause
    );
    for stop in stops {
        assert_eq!(
            (stop.joint.as_str(), stop.position),
            (plate.name.as_str(), 3)
        );
        assert!(!stop.clears.is_empty());
        assert_eq!(
            stop.entries,
            [answer.removal.as_ref().expect("a removal").entry.clone()]
        );
    }
    assert_eq!(
        rules_of(&job.flags().await),
        ["forced-out", "heated", "not-refitted"]
    );
}

#[tokio::test]
async fn the_same_bolt_in_class_b_warmed_only_is_a_caution() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let answer = plate
        .takes_out(1, RemovalOutcome::Stiff)
        .and(|removal| {
            removal.methods = vec![RemovalMethod::Heat.into()];
            removal.heat_colour = HeatColour::Warm.into();
        })
        .await;
    let heated: Vec<_> = answer
        .flags
        .iter()
        .filter(|flag| flag.rule == "heated")
        .collect();
    assert_eq!(heated.len(), 1);
    assert_eq!(heated[0].severity(), Severity::Caution);
}

#[tokio::test]
async fn the_one_longer_bolt_of_four_is_named_with_by_how_much() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    plate.comes_apart().await;
    assert!(!rules_of(&job.flags().await).contains(&"odd-length"));

    let cover = job.joint("cover").await;
    for hole in 1..=3 {
        cover.takes_out(hole, RemovalOutcome::Normal).await;
    }
    let answer = cover
        .takes_out(4, RemovalOutcome::Normal)
        .and(|removal| removal.length_seen = Some(LengthSeen::Length("1-3/4 in".into())))
        .await;
    let odd = answer
        .flags
        .iter()
        .find(|flag| flag.rule == "odd-length")
        .expect("a flag");
    assert_eq!(odd.severity(), Severity::Caution);
    assert!(odd.cause.contains("1/2 in longer"), "{}", odd.cause);
    let removal = answer.removal.expect("a removal");
    let length = removal.length_mm.expect("a measured length");
    assert!((length - 44.45).abs() < 1e-9, "{length}");
}

#[tokio::test]
async fn one_tap_for_longer_is_enough_to_flag_it() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let answer = plate
        .takes_out(2, RemovalOutcome::Normal)
        .and(|r| r.length_seen = Some(LengthSeen::LengthCompared(LengthCompared::Longer.into())))
        .await;
    assert!(rules_of(&answer.flags).contains(&"odd-length"));
    assert_eq!(answer.removal.expect("a removal").length_mm, None);
}

#[tokio::test]
async fn loose_on_arrival_and_an_unmarked_head_stop_a_joint_that_can_kill() {
    let shop = Shop::open();
    let arm = shop.job("tractor").await.vital_joint("arm").await;
    let loose = arm.takes_out(1, RemovalOutcome::LooseOnArrival).await;
    assert_eq!(rules_of(&loose.flags), ["loose-on-arrival", "not-refitted"]);
    let unmarked = arm
        .takes_out(2, RemovalOutcome::Normal)
        .and(|removal| {
            removal.grade.clear();
            removal.head_marking = "none".into();
        })
        .await;
    assert_eq!(rules_of(&unmarked.flags), ["grade-unknown", "not-refitted"]);
    assert_eq!(unmarked.flags[0].severity(), Severity::Stop);
}

#[tokio::test]
async fn a_grade_weaker_than_specified_is_named_with_both_proof_loads() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let answer = plate
        .takes_out(1, RemovalOutcome::Normal)
        .and(|removal| removal.grade = "SAE J429 2".into())
        .await;
    let weaker = answer
        .flags
        .iter()
        .find(|f| f.rule == "weaker-than-specified")
        .expect("a flag");
    assert_eq!(weaker.severity(), Severity::Stop);
    // 0.1187 sq in of 7/16-20 (ASME B1.1) times 55 and 85 ksi (SAE J429): 6,529 and 10,090 lbf.
    assert!(weaker.cause.contains("6530 lbf"), "{}", weaker.cause);
    assert!(weaker.cause.contains("10100 lbf"), "{}", weaker.cause);
}

#[tokio::test]
async fn breakaway_far_from_the_specified_torque_is_flagged_at_either_end() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let tight = plate
        .takes_out(1, RemovalOutcome::Normal)
        .and(|removal| removal.breakaway_torque = "160 lbf·ft".into())
        .await;
    assert!(rules_of(&tight.flags).contains(&"forced-out"));
    // 160 lbf·ft by the exact factor 1.3558179483314004 N·m (NIST SP 811, B.8).
    let nm = tight
        .removal
        .and_then(|r| r.breakaway_torque_nm)
        .expect("a reading");
    assert!((nm - 216.930_871_733).abs() < 1e-6, "{nm}");
    let slack = plate
        .takes_out(2, RemovalOutcome::Normal)
        .and(|removal| removal.breakaway_torque = "3 N·m".into())
        .await;
    assert!(rules_of(&slack.flags).contains(&"loose-on-arrival"));
}

#[tokio::test]
async fn every_lubrication_that_ruins_a_fastener_stops_it() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let table = [
        (RemovalOutcome::Spun, "forced-out"),
        (RemovalOutcome::Rounded, "fastener-unfit"),
        (RemovalOutcome::PulledThreads, "thread-damaged"),
        (RemovalOutcome::CrossThreaded, "thread-damaged"),
        (RemovalOutcome::BrokeNow, "broken-or-missing"),
        (RemovalOutcome::BrokenBefore, "broken-or-missing"),
        (RemovalOutcome::MissingBefore, "broken-or-missing"),
        (RemovalOutcome::CutOnPurpose, "broken-or-missing"),
    ];
    let line = job
        .joint_like("line", |joint| {
            joint.layout = clampbook_api::v1::Layout::Line.into();
            joint.positions = vec![Default::default(); table.len()];
        })
        .await;
    for (hole, (outcome, rule)) in (1..).zip(table) {
        let answer = line.takes_out(hole, outcome).await;
        let flag = answer.flags.iter().find(|flag| flag.rule == rule);
        assert_eq!(
            flag.map(|f| f.severity()),
            Some(Severity::Stop),
            "{outcome:?}"
        );
    }
}

#[tokio::test]
async fn what_is_ticked_beside_the_lubrication_counts_too() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let bent = plate
        .takes_out(1, RemovalOutcome::Normal)
        .and(|removal| removal.ticks = vec![RemovalTick::Bent.into()])
        .await;
    assert_eq!(bent.flags[0].severity(), Severity::Stop);
    let pitted = plate
        .takes_out(2, RemovalOutcome::Normal)
        .and(|removal| removal.ticks = vec![RemovalTick::Pitted.into()])
        .await;
    assert_eq!(pitted.flags[0].rule, "fastener-unfit");
    assert_eq!(pitted.flags[0].severity(), Severity::Caution);
}

#[tokio::test]
async fn all_four_at_once_copies_outcome_and_methods_but_never_length_or_marking() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    plate.takes_out(2, RemovalOutcome::Stiff).await;
    let request = LogAlikeRemovalsRequest {
        joint: plate.name.clone(),
        outcome: RemovalOutcome::Normal.into(),
        methods: vec![RemovalMethod::Hand.into()],
        kept_in: "tin 1".into(),
        request_id: fresh_id(),
        ..Default::default()
    };
    let answer = shop
        .jobs()
        .log_alike_removals(request)
        .await
        .expect("taken")
        .into_inner();
    let holes: Vec<i32> = answer.removals.iter().map(|r| r.position).collect();
    assert_eq!(holes, [1, 3, 4], "the one already out is left alone");
    for removal in &answer.removals {
        assert_eq!(removal.outcome(), RemovalOutcome::Normal);
        assert_eq!(removal.kept_in, "tin 1");
        assert_eq!(
            (&removal.length_seen, removal.head_marking.as_str()),
            (&None, "")
        );
    }
    assert_eq!(
        plate.hole(2).await.removal.expect("a removal").outcome(),
        RemovalOutcome::Stiff
    );
}

#[tokio::test]
async fn a_hole_that_is_empty_already_is_not_emptied_twice() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    plate.takes_out(1, RemovalOutcome::Normal).await;
    let refusal = plate.takes_out(1, RemovalOutcome::Normal).refused().await;
    refusal
        .is(Code::FailedPrecondition, reason::STATE_FORBIDS)
        .says("is empty already");
    assert_eq!(
        refusal.preconditions,
        [format!("{} position 1", plate.name)]
    );
}

#[tokio::test]
async fn an_entry_says_who_said_it_on_which_device_and_both_times() {
    let shop = Shop::open();
    let plate = shop.job("tractor").await.joint("plate").await;
    let hours_ago = prost_types::Timestamp {
        seconds: 1_700_000_000,
        nanos: 0,
    };
    let mut request = Request::new(clampbook_api::v1::LogRemovalRequest {
        removal: Some(removal(&plate.name, 1, RemovalOutcome::Normal)),
        request_id: fresh_id(),
        said_time: Some(hours_ago),
    });
    request
        .metadata_mut()
        .insert(PERSON_KEY, "J%C3%B6rg".parse().expect("ASCII"));
    request
        .metadata_mut()
        .insert(DEVICE_KEY, "tablet-2".parse().expect("ASCII"));
    let answer = shop
        .jobs()
        .log_removal(request)
        .await
        .expect("taken")
        .into_inner();
    let said = answer.removal.and_then(|r| r.said).expect("who said it");
    assert_eq!(
        (said.display_name.as_str(), said.device.as_str()),
        ("Jörg", "tablet-2")
    );
    assert_eq!(said.said_time, Some(hours_ago));
    assert!(said.write_time.expect("a time").seconds > hours_ago.seconds);

    let nobody = plate.takes_out(2, RemovalOutcome::Normal).await;
    let said = nobody.removal.and_then(|r| r.said).expect("who said it");
    assert_eq!(said.display_name, "local person");
}

#[tokio::test]
async fn a_name_that_is_too_long_to_be_one_is_refused() {
    let shop = Shop::open();
    shop.job("tractor").await;
    let mut request = Request::new(clampbook_api::v1::GetJobRequest {
        name: "jobs/tractor".into(),
    });
    let name = "x".repeat(81);
    request
        .metadata_mut()
        .insert(PERSON_KEY, name.parse().expect("ASCII"));
    let status = shop.jobs().get_job(request).await.expect_err("refused");
    Refusal::of(&status).names(&[PERSON_KEY]);
}

#[tokio::test]
async fn the_other_side_is_linked_both_ways() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    job.assembly("left", "").await;
    job.assembly("right", "left").await;
    let assemblies = job.look().await.assemblies;
    let of = |id: &str| {
        let found = assemblies
            .iter()
            .find(|a| a.name.ends_with(id))
            .expect("an assembly");
        found.counterpart.clone()
    };
    assert_eq!(of("/left"), "jobs/tractor/assemblies/right");
    assert_eq!(of("/right"), "jobs/tractor/assemblies/left");
}
