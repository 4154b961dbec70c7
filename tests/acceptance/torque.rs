//! How tight: the pinned names, the published values, and what is refused.

use clampbook_api::reason;
use clampbook_api::v1::many_answer::Outcome;
use clampbook_api::v1::{
    Basis, ComputeTorqueRequest, ComputeTorqueResponse, ComputeTorquesRequest, Purpose,
};
use serde_json::Value;
use tonic::Code;

use crate::support::{Refusal, Server, Shop, cli};

fn ask(thread: &str, grade: &str, lubrication: &str) -> ComputeTorqueRequest {
    ComputeTorqueRequest {
        thread: thread.into(),
        grade: grade.into(),
        lubrication: lubrication.into(),
        ..Default::default()
    }
}

async fn answer(shop: &Shop, request: ComputeTorqueRequest) -> ComputeTorqueResponse {
    shop.torque()
        .compute_torque(request)
        .await
        .expect("an answer")
        .into_inner()
}

async fn refusal(shop: &Shop, request: ComputeTorqueRequest) -> Refusal {
    let outcome = shop.torque().compute_torque(request).await;
    Refusal::of(&outcome.expect_err("it is refused"))
}

#[track_caller]
fn near(found: f64, published: f64, half_last_digit: f64) {
    assert!(
        (found - published).abs() <= half_last_digit,
        "{found}, published {published}"
    );
}

#[tokio::test]
async fn a_textbook_bolt_comes_out_as_printed() {
    let shop = Shop::open();
    // T = K F d (Shigley, Mechanical Engineering Design, 9th ed., eq. 8-27) with K 0.20, as worked by hand from printed
    // values: As 0.1419 sq in (ASME B1.1), proof 85 ksi (SAE J429 5): F = 0.75 x 12,062 = 9,046 lbf; T = 75.4 lbf ft.
    let request = ComputeTorqueRequest {
        nut_factor: Some(0.20),
        ..ask("1/2-13", "SAE J429 5", "")
    };
    let torque = answer(&shop, request).await;
    near(torque.clamp_load_n / 4.448_221_615, 9_046.0, 3.5);
    near(torque.torque_nm / 1.355_817_948, 75.4, 0.05);
    assert_eq!(torque.nut_factor, 0.20);
    assert_eq!(torque.governed_by, "proof-of-bolt");
}

#[tokio::test]
async fn proof_loads_are_those_of_the_standard() {
    let shop = Shop::open();
    // ISO 898-1:2013, tables 5 and 7 (proof loads in newtons), SAE J429 table (proof loads in pounds-force).
    for (thread, grade, newtons, half) in [
        ("M10", "10.9", 48_100.0, 50.0),
        ("M20", "10.9", 203_000.0, 500.0),
        ("M8x1", "8.8", 22_700.0, 50.0),
        (
            "7/16-20",
            "SAE J429 5",
            10_100.0 * 4.448_221_615,
            50.0 * 4.448_221_615,
        ),
        (
            "1/2-13",
            "SAE J429 8",
            17_000.0 * 4.448_221_615,
            50.0 * 4.448_221_615,
        ),
    ] {
        let torque = answer(&shop, ask(thread, grade, "dry")).await;
        near(torque.proof_load_n.expect("a proof load"), newtons, half);
        assert_eq!(torque.proof_load_n, Some(torque.working_load_n));
    }
}

#[tokio::test]
async fn both_bands_bracket_what_they_are_bands_of() {
    let shop = Shop::open();
    let torque = answer(&shop, ask("7/16-20", "SAE J429 5", "oiled")).await;
    let scatter = torque.scatter.expect("a band of clamp load");
    assert_eq!(scatter.relative_scatter, 0.25);
    near(
        scatter.minimum_clamp_load_n,
        0.75 * torque.clamp_load_n,
        1e-6,
    );
    near(
        scatter.maximum_clamp_load_n,
        1.25 * torque.clamp_load_n,
        1e-6,
    );
    let literature = torque.literature.expect("a band of torque");
    assert!(
        literature.low_nut_factor < torque.nut_factor
            && torque.nut_factor < literature.high_nut_factor
    );
    assert!(
        literature.low_torque_nm < torque.torque_nm && torque.torque_nm < literature.high_torque_nm
    );
    let dry = answer(&shop, ask("7/16-20", "SAE J429 5", "dry")).await;
    assert_eq!(dry.scatter.expect("a band").relative_scatter, 0.35);
    assert!(
        dry.torque_nm > torque.torque_nm,
        "dry takes more torque for the same clamp load"
    );
}

#[tokio::test]
async fn every_answer_says_where_it_comes_from_and_what_stands_above_it() {
    let shop = Shop::open();
    let torque = answer(&shop, ask("M10x1.25", "8.8", "zinc plated")).await;
    assert!(
        torque
            .cautions
            .iter()
            .any(|caution| caution.contains("not the maker's")),
        "{:?}",
        torque.cautions
    );
    for wanted in ["thread", "grade", "nut factor"] {
        assert!(
            torque.sources.iter().any(|s| s.used_for == wanted),
            "{wanted} of {:?}",
            torque.sources
        );
    }
    for source in &torque.sources {
        assert_ne!(source.basis(), Basis::Unspecified);
        assert!(!source.citation.is_empty());
    }
    assert_eq!(
        (torque.thread.as_str(), torque.lubrication.as_str()),
        ("M10x1.25", "zinc plated")
    );
}

#[tokio::test]
async fn a_value_from_memory_says_so_in_the_answer_that_used_it() {
    let shop = Shop::open();
    let torque = answer(&shop, ask("M10", "8.8", "black oxide oiled")).await;
    assert!(
        torque
            .sources
            .iter()
            .any(|source| source.basis() == Basis::Memory),
        "{:?}",
        torque.sources
    );
}

#[tokio::test]
async fn a_wanted_clamp_load_takes_the_place_of_a_share_of_proof_load() {
    let shop = Shop::open();
    let request = ComputeTorqueRequest {
        clamp_load_n: Some(10_000.0),
        nut_factor: Some(0.15),
        ..ask("M10", "8.8", "")
    };
    let torque = answer(&shop, request).await;
    // 0.15 x 10,000 N x 0.010 m.
    near(torque.torque_nm, 15.0, 1e-9);
    assert_eq!(torque.governed_by, "wanted-clamp-load");
    let both = ComputeTorqueRequest {
        clamp_load_n: Some(10_000.0),
        proof_share: Some(0.5),
        ..ask("M10", "8.8", "dry")
    };
    let refusal = refusal(&shop, both).await;
    refusal.is(Code::InvalidArgument, reason::FIELDS_INVALID);
}

#[tokio::test]
async fn every_wrong_field_is_named_at_once() {
    let shop = Shop::open();
    let request = ComputeTorqueRequest {
        proof_share: Some(2.0),
        nut_factor: Some(-0.2),
        nut_grade: Some("cheese".into()),
        ..ask("7/16-21", "butter", "honey")
    };
    let refusal = refusal(&shop, request).await;
    refusal.names(&[
        "lubrication",
        "grade",
        "nut_factor",
        "nut_grade",
        "proof_share",
        "thread",
    ]);
}

#[tokio::test]
async fn numbers_that_are_no_numbers_of_a_bolt_are_refused() {
    let shop = Shop::open();
    let absurd = [
        f64::NAN,
        f64::INFINITY,
        f64::NEG_INFINITY,
        -1.0,
        0.0,
        -0.0,
        1e300,
        f64::MIN_POSITIVE,
    ];
    for value in absurd {
        let good = || ask("M10", "8.8", "dry");
        for (field, request) in [
            (
                "proof_share",
                ComputeTorqueRequest {
                    proof_share: Some(value),
                    ..good()
                },
            ),
            (
                "nut_factor",
                ComputeTorqueRequest {
                    nut_factor: Some(value),
                    ..good()
                },
            ),
        ] {
            refusal(&shop, request).await.names(&[field]);
        }
        // The minimum positive number is a clamp load above zero, and its torque is as small.
        if value != f64::MIN_POSITIVE {
            let request = ComputeTorqueRequest {
                clamp_load_n: Some(value),
                ..good()
            };
            refusal(&shop, request).await.names(&["clamp_load_n"]);
        }
    }
}

#[tokio::test]
async fn no_grade_at_this_size_is_an_answer() {
    let shop = Shop::open();
    let refusal = refusal(&shop, ask("2-4.5 UNC", "SAE J429 8", "dry")).await;
    refusal.names(&["grade"]);
}

#[tokio::test]
async fn every_purpose_but_clamping_is_refused_with_what_to_do_instead() {
    let shop = Shop::open();
    let mut refused = 0;
    for purpose in (2..100).filter_map(|number| Purpose::try_from(number).ok()) {
        let request = ComputeTorqueRequest {
            purpose: purpose.into(),
            ..ask("M10", "8.8", "dry")
        };
        let refusal = refusal(&shop, request).await;
        refusal.is(Code::FailedPrecondition, reason::PURPOSE_REFUSED);
        for key in ["why", "instead"] {
            let said = refusal.metadata.get(key).map_or("", String::as_str);
            assert!(said.len() > 10, "{purpose:?} {key}: {said:?}");
        }
        refused += 1;
    }
    assert!(refused >= 16, "{refused}");
    let clamping = ComputeTorqueRequest {
        purpose: Purpose::Clamping.into(),
        ..ask("M10", "8.8", "dry")
    };
    answer(&shop, clamping).await;
}

#[test]
fn the_command_line_prints_the_pinned_names() {
    let server = Server::start();
    let told = cli(
        &server,
        &["torque", "7/16-20", "SAE J429 5", "dry", "--json"],
    );
    let json = told.json();
    for name in [
        "torque_nm",
        "clamp_load_n",
        "nut_factor",
        "tensile_stress_area_mm2",
        "working_load_n",
        "proof_load_n",
    ] {
        assert!(
            json[name].as_f64().is_some_and(|value| value > 0.0),
            "{name}: {}",
            json[name]
        );
    }
    for name in [
        "minimum_clamp_load_n",
        "maximum_clamp_load_n",
        "relative_scatter",
    ] {
        assert!(json["scatter"][name].is_f64(), "{name}");
    }
    for name in [
        "low_nut_factor",
        "high_nut_factor",
        "low_torque_nm",
        "high_torque_nm",
    ] {
        assert!(json["literature"][name].is_f64(), "{name}");
    }
    assert_eq!(json["governed_by"], "proof-of-bolt");
    for name in ["sources", "assumptions", "cautions"] {
        assert!(
            json[name].as_array().is_some_and(|list| !list.is_empty()),
            "{name}"
        );
    }
    let gentle = [
        "torque",
        "7/16-20",
        "SAE J429 5",
        "dry",
        "--proof-share",
        "0.5",
        "--json",
    ];
    let json = cli(&server, &gentle).json();
    assert_eq!(
        json["checks"],
        Value::Array(vec![]),
        "an empty list is printed too"
    );
}

#[test]
fn the_pinned_options_of_the_command_line_reach_the_server() {
    let server = Server::start();
    let json = cli(
        &server,
        &[
            "torque",
            "M10",
            "8.8",
            "--nut-factor",
            "0.15",
            "--clamp-load-n",
            "10000",
            "--nut-grade",
            "8",
            "--json",
        ],
    )
    .json();
    near(json["torque_nm"].as_f64().expect("a number"), 15.0, 1e-9);
    let json = cli(
        &server,
        &[
            "torque",
            "M10",
            "8.8",
            "dry",
            "--proof-share",
            "0.5",
            "--json",
        ],
    )
    .json();
    // ISO 898-1:2013: stress area 58.0 mm2 (table 4) times 580 MPa (table 3).
    near(
        json["clamp_load_n"].as_f64().expect("a number"),
        16_820.0,
        25.0,
    );
}

#[tokio::test]
async fn many_at_once_are_answered_as_one_by_one_and_a_wrong_one_spoils_no_other() {
    let shop = Shop::open();
    let asks = vec![
        ask("M10", "8.8", "dry"),
        ask("7/16-21", "butter", "honey"),
        ComputeTorqueRequest {
            purpose: Purpose::SparkPlug.into(),
            ..ask("M10", "8.8", "dry")
        },
        ask("7/16-20", "SAE J429 5", "oiled"),
    ];
    let chunks = tokio_stream::iter([
        ComputeTorquesRequest { asks: asks.clone() },
        ComputeTorquesRequest {
            asks: vec![asks[3].clone()],
        },
    ]);
    let mut answers = shop
        .torque()
        .compute_torques(chunks)
        .await
        .expect("a stream")
        .into_inner();
    let first = answers.message().await.expect("no error").expect("a chunk");
    let second = answers.message().await.expect("no error").expect("a chunk");
    assert_eq!(answers.message().await.expect("no error"), None);
    assert_eq!((first.answers.len(), second.answers.len()), (4, 1));
    for (place, single) in [(0, &asks[0]), (3, &asks[3])] {
        let wanted = answer(&shop, single.clone()).await;
        let Some(Outcome::Numbers(numbers)) = &first.answers[place].outcome else {
            panic!("{:?}", first.answers[place]);
        };
        assert_eq!(numbers.torque_nm, wanted.torque_nm);
        let cautions: Vec<&str> = numbers
            .cautions
            .iter()
            .map(|index| first.texts[usize::try_from(*index).expect("an index")].as_str())
            .collect();
        assert_eq!(cautions, wanted.cautions);
    }
    for (place, single) in [(1, &asks[1]), (2, &asks[2])] {
        let wanted = refusal(&shop, single.clone()).await;
        let Some(Outcome::Fault(fault)) = &first.answers[place].outcome else {
            panic!("{:?}", first.answers[place]);
        };
        assert_eq!(fault.reason, wanted.reason);
        let fields: Vec<&str> = fault.fields.iter().map(|f| f.field.as_str()).collect();
        let named: Vec<&str> = wanted
            .wrong
            .iter()
            .map(|(field, _)| field.as_str())
            .collect();
        assert_eq!(fields, named);
    }
}

#[tokio::test]
async fn a_chunk_that_is_empty_or_too_long_ends_the_stream() {
    let shop = Shop::open();
    for count in [0, 257] {
        let chunk = ComputeTorquesRequest {
            asks: vec![ask("M10", "8.8", "dry"); count],
        };
        let stream = shop
            .torque()
            .compute_torques(tokio_stream::once(chunk))
            .await;
        let ended = stream.expect("a stream").into_inner().message().await;
        Refusal::of(&ended.expect_err("refused")).names(&["asks"]);
    }
}
