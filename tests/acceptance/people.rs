//! The people of the shop: named once, known again when they speak, called otherwise, withdrawn; entries stay as they were.

use clampbook_api::v1::{
    ListPositionHistoryRequest, Person, PersonRole, RemovalOutcome, RevisePersonRequest, Said,
};
use clampbook_api::{PERSON_KEY, reason};
use tonic::{Code, Request};

use crate::support::{Refusal, Server, Shop, cli};

const ADD: &[&str] = &[
    "people",
    "add",
    "ida",
    "--name",
    "Ida Holm",
    "--roles",
    "mechanic,lead",
];
const RENAME: &[&str] = &[
    "people",
    "revise",
    "ida",
    "--name",
    "Ida Lund",
    "--roles",
    "inspector",
];
const WITHDRAW: &[&str] = &["people", "withdraw", "ida", "--reason", "moved away"];

/// The person of the last entry of a job, and the name.
async fn last(shop: &Shop) -> (String, String) {
    let entries = shop.job_named("tractor").entries().await;
    let said = entries.last().and_then(|entry| entry.said.clone());
    of(said)
}

fn of(said: Option<Said>) -> (String, String) {
    let said = said.expect("who said it");
    (said.person, said.display_name)
}

fn ida(name: &str) -> (String, String) {
    ("people/ida".into(), name.into())
}

fn note(shop: &Shop, person: &str) {
    let words = [
        "marks",
        "log",
        "tractor",
        "plate",
        "2",
        "--mark",
        "left-hand",
    ];
    let said = [&words[..], &["--person", person]].concat();
    cli(&shop.server, &said).output();
}

#[tokio::test]
async fn an_entry_names_the_person_by_id_and_by_the_name_as_it_was() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    note(&shop, "Ida Holm");
    assert_eq!(last(&shop).await, (String::new(), "Ida Holm".into()));

    cli(&shop.server, ADD).output();
    for said in ["ida holm", "ida", "people/ida"] {
        note(&shop, said);
        assert_eq!(last(&shop).await, ida("Ida Holm"), "{said}");
    }
    note(&shop, "Ida");
    assert_eq!(last(&shop).await, ("people/ida".into(), "Ida Holm".into()));
    note(&shop, "Otto");
    assert_eq!(last(&shop).await, (String::new(), "Otto".into()));
    plate.takes_out(1, RemovalOutcome::Normal).await;
    assert_eq!(last(&shop).await.0, "", "nobody said who took it out");

    let before = job.entries().await;
    cli(&shop.server, RENAME).output();
    assert_eq!(job.entries().await, before, "history is as it was");
    note(&shop, "ida");
    assert_eq!(last(&shop).await, ida("Ida Lund"));
    note(&shop, "Ida Holm");
    assert_eq!(last(&shop).await, (String::new(), "Ida Holm".into()));

    cli(&shop.server, WITHDRAW).output();
    note(&shop, "ida");
    assert_eq!(last(&shop).await, (String::new(), "ida".into()));
    assert_eq!(job.entries().await[..before.len()], before);

    let told = cli(&shop.server, &["entries", "tractor"])
        .output()
        .to_owned();
    assert!(told.contains("Ida Lund (ida) on cli"), "{told}");
}

#[tokio::test]
async fn history_and_answers_carry_the_person_and_a_restart_keeps_them() {
    let mut shop = Shop::open();
    let job = shop.job("tractor").await;
    job.joint("plate").await;
    cli(&shop.server, ADD).output();
    let log = [
        "removal", "log", "tractor", "plate", "1", "normal", "--json", "--person", "ida",
    ];
    let answer = cli(&shop.server, &log).json();
    let said = &answer["removal"]["said"];
    assert_eq!(
        (&said["person"], &said["display_name"]),
        (&"people/ida".into(), &"Ida Holm".into())
    );

    shop.restart(&[]).await;
    let request = ListPositionHistoryRequest {
        joint: "jobs/tractor/joints/plate".into(),
        position: 1,
        ..Default::default()
    };
    let history = shop.jobs().list_position_history(request).await;
    let history = history.expect("the history").into_inner();
    let entry = history.items[0].entry.clone().expect("the removal");
    assert_eq!(of(entry.said), ida("Ida Holm"));
    let joint = shop.job_named("tractor").joint_named("plate").look().await;
    let removal = joint.positions[0].removal.clone().expect("it came out");
    assert_eq!(of(removal.said), ida("Ida Holm"));
}

/// Some devices send a letter and its accent one after the other.
#[tokio::test]
async fn a_name_is_the_same_however_its_accents_are_sent() {
    let shop = Shop::open();
    shop.job("tractor").await.joint("plate").await;
    let zofie = [
        "people",
        "add",
        "zofie-v",
        "--name",
        "Žofie Vik",
        "--roles",
        "lead",
    ];
    cli(&shop.server, &zofie).output();
    note(&shop, "z\u{30c}ofie vik");
    let known = ("people/zofie-v".to_owned(), "Žofie Vik".to_owned());
    assert_eq!(last(&shop).await, known);
}

#[test]
fn people_are_added_revised_withdrawn_and_listed() {
    let server = Server::start();
    let nobody = cli(&server, &["people", "list"]).output().to_owned();
    assert_eq!(nobody, "The shop has named no people.\n");
    let added = cli(&server, ADD).output().to_owned();
    assert!(
        added.contains("Person ida: Ida Holm; mechanic, lead"),
        "{added}"
    );
    let again = cli(&server, ADD);
    assert_eq!(again.code, Some(4), "{again:?}");
    let twin = [&["people", "add", "ida-2"], &ADD[3..]].concat();
    let twin = cli(&server, &twin);
    assert_eq!(twin.code, Some(2), "{twin:?}");
    let why =
        "person.display_name: \"Ida Holm\" is the name of people/ida; add what tells the two apart";
    assert!(twin.stderr.contains(why), "{}", twin.stderr);

    let revised = cli(&server, RENAME).output().to_owned();
    assert!(
        revised.contains("Person ida: Ida Lund; inspector"),
        "{revised}"
    );
    let gone = cli(&server, WITHDRAW).output().to_owned();
    assert!(gone.contains("WITHDRAWN: moved away"), "{gone}");
    let taken = cli(&server, ADD);
    assert_eq!(taken.code, Some(4), "the id stays taken: {taken:?}");
    let back = [&["people", "add", "ida-2"], &RENAME[3..]].concat();
    cli(&server, &back).output();
    let list = cli(&server, &["people", "list"]).output().to_owned();
    for line in [
        "Person ida: Ida Lund",
        "WITHDRAWN: moved away",
        "Person ida-2: Ida Lund",
    ] {
        assert!(list.contains(line), "{list}");
    }
    let told = cli(&server, &["entries", "--shop"]).output().to_owned();
    for line in ["person-stated", "Person ida WITHDRAWN: moved away"] {
        assert!(told.contains(line), "{told}");
    }
}

#[tokio::test]
async fn two_people_cannot_revise_a_person_against_each_other() {
    let shop = Shop::open();
    cli(&shop.server, ADD).output();
    let revise = |etag: &str| RevisePersonRequest {
        name: "people/ida".into(),
        person: Some(Person {
            display_name: "Ida Lund".into(),
            roles: vec![PersonRole::Inspector.into()],
            ..Default::default()
        }),
        etag: etag.into(),
        ..Default::default()
    };
    let mut by_herself = Request::new(revise("\"1\""));
    by_herself
        .metadata_mut()
        .insert(PERSON_KEY, "ida".parse().expect("ASCII"));
    let revised = shop.people().revise_person(by_herself).await;
    let revised = revised.expect("it is revised").into_inner();
    assert_eq!(
        (revised.name.as_str(), revised.etag.as_str()),
        ("people/ida", "\"2\"")
    );
    assert_eq!(
        of(revised.said),
        ida("Ida Holm"),
        "as she was called when she said so"
    );
    let stale = shop.people().revise_person(revise("\"1\"")).await;
    let stale = stale.expect_err("stale");
    let told = Refusal::of(&stale).reason;
    assert_eq!(
        (stale.code(), told.as_str()),
        (Code::Aborted, reason::ETAG_STALE)
    );
}
