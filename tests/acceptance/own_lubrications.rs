//! A lubrication of the shop's own: kept, computed with, revised, withdrawn; what was recorded stays as it was.

use clampbook_api::v1::{Basis, ComputeTorqueRequest, Entry, ListEntriesRequest, RemovalOutcome};
use clampbook_api::{PERSON_KEY, reason};
use tonic::{Code, Request};

use crate::support::{Refusal, Server, Shop, cli};

const ADD: &[&str] = &[
    "lubrications",
    "add",
    "bench-paste",
    "--name",
    "bench paste",
    "--nut-factor",
    "0.15",
    "--low",
    "0.13",
    "--high",
    "0.17",
    "--tests",
    "12",
    "--tested-by",
    "Ada",
    "--tested-on",
    "2026-03-02",
    "--tested",
    "7/16-20 grade 5, load cell",
];
const REVISE: &[&str] = &[
    "lubrications",
    "revise",
    "bench-paste",
    "--name",
    "bench paste",
    "--nut-factor",
    "0.16",
    "--low",
    "0.13",
    "--high",
    "0.19",
    "--tests",
    "20",
    "--tested-by",
    "Ida",
    "--tested-on",
    "2026-06-11",
    "--tested",
    "7/16-20 grade 5, load cell",
];
const WITHDRAW: &[&str] = &[
    "lubrications",
    "withdraw",
    "bench-paste",
    "--reason",
    "the tin is empty",
];
const TORQUE: &[&str] = &["torque", "7/16-20", "SAE J429 5", "bench paste"];

fn with_paste(lubrication: &str) -> ComputeTorqueRequest {
    ComputeTorqueRequest {
        thread: "7/16-20".into(),
        grade: "SAE J429 5".into(),
        lubrication: lubrication.into(),
        ..Default::default()
    }
}

async fn shop_entries(shop: &Shop) -> Vec<Entry> {
    let request = ListEntriesRequest {
        parent: "shop".into(),
        ..Default::default()
    };
    let answer = shop.jobs().list_entries(request).await;
    answer.expect("entries").into_inner().entries
}

#[test]
fn the_shop_keeps_a_paste_and_every_answer_says_whose_it_is() {
    let server = Server::start();
    let refused = cli(&server, TORQUE);
    assert_eq!(refused.code, Some(2), "{refused:?}");

    let kept = cli(&server, ADD).output().to_owned();
    assert!(
        kept.contains("bench-paste revision 1: bench paste"),
        "{kept}"
    );
    assert!(kept.contains("0.15, tests 0.13 to 0.17"), "{kept}");
    assert!(kept.contains("by ida"), "{kept}");

    // 74.8 N·m dry with K 0.20 (SAE J429 5 at 3/4 of proof), so 56.1 with K 0.15.
    let torque = cli(&server, TORQUE).output().to_owned();
    assert!(torque.contains("56.1 N·m"), "{torque}");
    let joined = torque.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        joined.contains("own tests of 2026-03-02 by Ada: 12 tests, K 0.13 to 0.17"),
        "{torque}"
    );
    assert!(joined.contains("(shop)"), "{torque}");
    assert!(joined.contains("from the shop's own tests"), "{torque}");

    let list = cli(&server, &["lubrications", "list"]).output().to_owned();
    assert!(
        list.contains("bench-paste") && !list.contains("zinc"),
        "{list}"
    );
    let catalogue = cli(&server, &["catalog", "lubrications"])
        .output()
        .to_owned();
    assert!(catalogue.contains("bench paste"), "{catalogue}");

    cli(&server, REVISE).output();
    // By hand: 0.16 x 0.4375 in x 0.75 x 85 000 psi x 0.1187 in² / 12 = 44.1 lbf·ft.
    let torque = cli(&server, TORQUE).output().to_owned();
    assert!(torque.contains("44.1 lbf·ft"), "{torque}");
    let joined = torque.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        joined.contains("by Ida: 20 tests") && joined.contains("revision 2"),
        "{torque}"
    );

    let gone = cli(&server, WITHDRAW).output().to_owned();
    assert!(gone.contains("WITHDRAWN: the tin is empty"), "{gone}");
    let refused = cli(&server, TORQUE);
    assert_eq!(refused.code, Some(2));
    let why = "lubrication: \"bench paste\" was withdrawn by ida on 20";
    assert!(refused.stderr.contains(why), "{}", refused.stderr);
    assert!(
        refused
            .stderr
            .contains(": the tin is empty; choose another"),
        "{}",
        refused.stderr
    );
    let taken = cli(&server, ADD);
    assert_eq!(taken.code, Some(4), "its name stays taken: {taken:?}");
    let list = cli(&server, &["lubrications", "list"]).output().to_owned();
    assert!(list.contains("no lubrications of its own"), "{list}");
}

#[tokio::test]
async fn what_was_tightened_with_a_revision_keeps_its_values() {
    let mut shop = Shop::open();
    cli(&shop.server, ADD).output();
    let job = shop.job("tractor").await;
    let plate = job
        .joint_like("plate", |joint| {
            let target = joint.target.as_mut().expect("a target");
            target.lubrication = "bench paste".into();
        })
        .await;
    plate.takes_out(1, RemovalOutcome::Normal).await;
    plate.goes_back(1).await;
    let sheet = job.sheet().await;
    assert_eq!(nm(&sheet), Some(56.1));
    assert!(
        sheet.joints[0]
            .sources
            .iter()
            .any(|s| s.contains("own tests of 2026-03-02") && s.contains("(shop)"))
    );

    cli(&shop.server, REVISE).output();
    let before = job.entries().await;
    let refit = before.last().expect("the refit");
    assert!(refit.body.contains("\"nut_factor\":0.15"), "{}", refit.body);
    assert!(refit.body.contains("by Ada: 12 tests"), "{}", refit.body);
    assert_eq!(nm(&job.sheet().await), Some(59.9), "what is to be done now");

    shop.restart(&[]).await;
    let job = shop.job_named("tractor");
    assert_eq!(job.entries().await, before);
    assert_eq!(nm(&job.sheet().await), Some(59.9));

    let plate = job.joint_named("plate");
    plate.takes_out(2, RemovalOutcome::Normal).await;
    plate.goes_back(2).await;
    let entries = job.entries().await;
    let tightening = entries.last().expect("the tightening");
    assert!(
        tightening.body.contains("\"nut_factor\":0.16")
            && tightening.body.contains("by Ida: 20 tests")
    );

    cli(&shop.server, WITHDRAW).output();
    let sheet = job.sheet().await;
    assert_eq!(nm(&sheet), None, "nothing is computed with it any more");
    let shown = &sheet.joints[0].rows[0].torque;
    assert!(
        shown.starts_with("no torque: lubrication: \"bench paste\" was withdrawn by ")
            && shown.ends_with(": the tin is empty; choose another one, or give a nut factor"),
        "{shown}"
    );
    assert_eq!(job.entries().await, entries);
}

/// Torque of the first row, to the digit that is printed.
fn nm(sheet: &clampbook_api::v1::Sheet) -> Option<f64> {
    let torque = sheet.joints[0].rows[0].torque_nm?;
    Some((torque * 10.0).round() / 10.0)
}

#[tokio::test]
async fn the_shop_has_a_stream_of_its_own_that_no_job_list_shows() {
    let shop = Shop::open();
    cli(&shop.server, ADD).output();
    cli(&shop.server, REVISE).output();
    let entries = shop_entries(&shop).await;
    let names: Vec<_> = entries
        .iter()
        .map(|e| (e.name.as_str(), e.kind.as_str()))
        .collect();
    assert_eq!(
        names,
        [
            ("shop/entries/1", "condition-stated"),
            ("shop/entries/2", "condition-stated")
        ]
    );
    let told = cli(&shop.server, &["entries", "--shop"])
        .output()
        .to_owned();
    assert!(
        told.contains("condition-stated") || told.contains("condition stated"),
        "{told}"
    );
    let jobs = cli(&shop.server, &["jobs", "list"]).output().to_owned();
    assert!(!jobs.contains("shop"), "{jobs}");
    shop.job("tractor").await;
    assert_eq!(shop_entries(&shop).await, entries);
}

#[tokio::test]
async fn the_answer_names_the_shop_as_basis_and_two_people_cannot_revise_against_each_other() {
    let shop = Shop::open();
    cli(&shop.server, ADD).output();
    let answer = shop
        .torque()
        .compute_torque(with_paste("bench-paste"))
        .await;
    let answer = answer.expect("a torque").into_inner();
    let own: Vec<_> = answer
        .sources
        .iter()
        .filter(|s| s.basis() == Basis::Shop)
        .collect();
    assert_eq!(own.len(), 1);
    assert_eq!(
        (own[0].used_for.as_str(), own[0].source.as_str()),
        ("nut factor", "shop-bench-paste")
    );

    let lubrication = clampbook_api::v1::OwnLubrication {
        display_name: "bench paste".into(),
        nut_factor: 0.15,
        low_nut_factor: 0.14,
        high_nut_factor: 0.16,
        test_count: 1,
        tested_by: "Ida".into(),
        tested_on: "2026-03-03".into(),
        tested: "one bolt".into(),
        ..Default::default()
    };
    let revise = |etag: &str| clampbook_api::v1::ReviseLubricationRequest {
        name: "lubrications/bench-paste".into(),
        lubrication: Some(lubrication.clone()),
        etag: etag.into(),
        ..Default::default()
    };
    let mut first = Request::new(revise("\"1\""));
    first
        .metadata_mut()
        .insert(PERSON_KEY, "Ida".parse().expect("ASCII"));
    let revised = shop
        .catalog()
        .revise_lubrication(first)
        .await
        .expect("it is revised")
        .into_inner();
    assert_eq!((revised.revision, revised.etag.as_str()), (2, "\"2\""));
    assert_eq!(revised.said.expect("who").display_name, "Ida");
    assert_eq!(revised.relative_scatter, 0.35, "dry by its own word");
    let status = shop
        .catalog()
        .revise_lubrication(revise("\"1\""))
        .await
        .expect_err("stale");
    assert_eq!(
        (status.code(), Refusal::of(&status).reason.as_str()),
        (Code::Aborted, reason::ETAG_STALE)
    );
}
