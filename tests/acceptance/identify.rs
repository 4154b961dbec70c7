//! Old iron, and naming threads, heads and spanners, through both programs.

use clampbook_api::v1::{
    ComputeTorqueRequest, GetThreadRequest, IdentifyGradeRequest, IdentifySpannerRequest,
    IdentifyThreadRequest, ListLookAlikesRequest, ListPublishedTorquesRequest, LookAlikeHalf,
    Purpose, ThreadVerdict,
};
use tonic::Code;

use crate::support::{Refusal, Shop};

#[tokio::test]
async fn a_measured_thread_is_named_and_the_cruel_look_alike_with_it() {
    let shop = Shop::open();
    let request = IdentifyThreadRequest {
        diameter: "11.9 mm".to_owned(),
        pitch: "1.25 mm".to_owned(),
        ..IdentifyThreadRequest::default()
    };
    let found = shop
        .catalog()
        .identify_thread(request)
        .await
        .expect("found")
        .into_inner();
    let first = &found.candidates[0];
    assert_eq!(
        first.thread.as_ref().expect("a thread").designation,
        "M12x1.25"
    );
    assert_eq!(first.verdict(), ThreadVerdict::Fits);
    let cruel = found
        .look_alikes
        .iter()
        .find(|pair| pair.internal_thread == "1/2-20 UNF")
        .expect("the nut that strips");
    assert_eq!(cruel.half(), LookAlikeHalf::Cruel);
    assert!((cruel.overlap_share - 0.49).abs() < 0.005);
    assert!(!found.sources.is_empty() && !found.assumptions.is_empty());
}

#[tokio::test]
async fn everything_wrong_with_measurements_is_said_at_once() {
    let shop = Shop::open();
    let request = IdentifyThreadRequest {
        diameter: "12.3 mm".to_owned(),
        diameter_error_mm: Some(f64::NAN),
        wear_mm: Some(-1.0),
        flank_angle_degrees: Some(90.0),
        ..IdentifyThreadRequest::default()
    };
    let status = shop
        .catalog()
        .identify_thread(request)
        .await
        .expect_err("refused");
    assert_eq!(status.code(), Code::InvalidArgument);
    let refusal = Refusal::of(&status);
    for field in ["diameter_error_mm", "wear_mm", "flank_angle_degrees"] {
        assert!(
            refusal.wrong.iter().any(|(name, _)| name == field),
            "{field}: {refusal:?}"
        );
    }
}

#[tokio::test]
async fn a_head_and_a_spanner_are_named() {
    let shop = Shop::open();
    let mut catalog = shop.catalog();
    let request = IdentifyGradeRequest {
        head_marking: "three radial lines".to_owned(),
    };
    let grades = catalog
        .identify_grade(request)
        .await
        .expect("grades")
        .into_inner();
    let tensile: Vec<f64> = grades
        .grades
        .iter()
        .map(|m| m.weakest_tensile_mpa)
        .collect();
    assert!(tensile.len() > 2 && tensile.is_sorted(), "{tensile:?}");
    let request = IdentifySpannerRequest {
        thread: "5/16 BSF".to_owned(),
        ..IdentifySpannerRequest::default()
    };
    let spanner = catalog
        .identify_spanner(request)
        .await
        .expect("a spanner")
        .into_inner();
    assert!((spanner.matches[0].across_flats_mm - 13.335).abs() < 0.001);
    let both = IdentifySpannerRequest {
        width: "13 mm".to_owned(),
        thread: "M8".to_owned(),
    };
    let status = catalog
        .identify_spanner(both)
        .await
        .expect_err("one of them");
    assert_eq!(status.code(), Code::InvalidArgument);
}

#[tokio::test]
async fn printed_torques_are_listed_for_what_no_torque_is_computed_for() {
    let shop = Shop::open();
    let request = ListPublishedTorquesRequest {
        purpose: Purpose::FlareFitting.into(),
        page_size: 500,
        ..ListPublishedTorquesRequest::default()
    };
    let list = shop
        .catalog()
        .list_published_torques(request)
        .await
        .expect("rows")
        .into_inner();
    assert_eq!(list.published_torques.len(), 44);
    for row in &list.published_torques {
        assert_eq!(row.purpose(), Purpose::FlareFitting);
        assert!(!row.seat.is_empty() && !row.material.is_empty() && !row.sources.is_empty());
    }
    let pairs = shop
        .catalog()
        .list_look_alikes(ListLookAlikesRequest::default())
        .await
        .expect("pairs")
        .into_inner();
    assert!(pairs.look_alikes.len() >= 25);
}

#[tokio::test]
async fn a_whitworth_thread_is_told_with_its_angle_and_a_letter_grade_gets_no_torque() {
    let shop = Shop::open();
    let request = GetThreadRequest {
        name: "1/2 BSW".to_owned(),
    };
    let thread = shop
        .catalog()
        .get_thread(request)
        .await
        .expect("a thread")
        .into_inner();
    assert_eq!(
        (thread.designation.as_str(), thread.flank_angle_degrees),
        ("1/2-12 BSW", 55.0)
    );
    assert!(thread.insert_hole.is_none());
    let request = ComputeTorqueRequest {
        thread: "1/2-20".to_owned(),
        grade: "BS 1083 S".to_owned(),
        lubrication: "dry".to_owned(),
        ..ComputeTorqueRequest::default()
    };
    let status = shop
        .torque()
        .compute_torque(request)
        .await
        .expect_err("no yield is invented");
    assert_eq!(status.code(), Code::InvalidArgument);
    let refusal = Refusal::of(&status);
    assert!(
        refusal
            .wrong
            .iter()
            .any(|(field, why)| field == "grade" && why.contains("no proof or yield")),
        "{refusal:?}"
    );
}
