//! One weak bolt among four: flagged, checked, replaced, ordered, arrived, fitted, and the sheet clean of it.
//!
//! Proof loads by hand: SAE J429 grade 5 has 85 ksi and grade 2 55 ksi on the 0.1187 sq in of 7/16-20 (ASME B1.1), so 10,090 lbf and
//! 6,529 lbf.

use clampbook_api::v1::correct_entry_request::Correction;
use clampbook_api::v1::{
    CheckReplacementRequest, DecisionKind, FastenerSpec, HoleCheck, ListPartsToOrderRequest,
    ListWaitsRequest, LogPartArrivalRequest, LogPartWantedRequest, PartArrival, PartToOrder,
    RemovalOutcome, Severity, WantedPart,
};
use tonic::Code;

use crate::support::shop::{fresh_id, new_bolt, rules_of};
use crate::support::{JobAt, Server, Shop, cli};

const BOLT: &str = "7/16-20 UNF x 1-1/4 in, SAE J429 5";

/// The text without its line ends.
fn flowing(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn one_weak_bolt_among_four_is_found_replaced_ordered_and_gone() {
    let server = Server::start();
    let say = |words: &[&str]| flowing(cli(&server, words).output());
    say(&["jobs", "create", "tractor", "--name", "Orchard tractor"]);
    say(&["assemblies", "add", "tractor", "hub", "--name", "Left hub"]);
    say(&[
        "joints",
        "add",
        "tractor",
        "plate",
        "--assembly",
        "hub",
        "--name",
        "Brake plate",
        "--layout",
        "ring",
        "--positions",
        "4",
        "--class",
        "A",
        "--approver",
        "Ida",
        "--hole-kind",
        "tapped-through",
        "--thread",
        "7/16-20",
        "--grade",
        "SAE J429 5",
        "--lubrication",
        "oiled",
    ]);
    // Three radial lines on three heads, none on the third: grade 5 and grade 2 by SAE J429.
    for (hole, grade) in [("1", "5"), ("2", "5"), ("3", "2"), ("4", "5")] {
        let grade = format!("SAE J429 {grade}");
        let mut words = vec!["removal", "log", "tractor", "plate", hole, "normal"];
        words.extend(["--grade", &grade, "--length", "1-1/4 in"]);
        say(&words);
    }

    // Flagged, on the weak one alone.
    let flags = say(&["flags", "list", "tractor"]);
    assert!(
        flags.contains("STOP plate position 3 weaker-than-specified"),
        "{flags}"
    );
    assert!(flags.contains("6530 lbf"), "{flags}");
    assert!(flags.contains("10100 lbf"), "{flags}");
    assert_eq!(flags.matches("Proposed: replace").count(), 1, "{flags}");
    assert_eq!(flags.matches("STOP").count(), 1, "{flags}");

    // What was in the drawer does not fit; what was found in the catalogue does.
    let fits = |thread: &str, grade: &str| {
        say(&[
            "fits", "tractor", "plate", "3", "--thread", thread, "--length", "1-1/4 in", "--grade",
            grade, "--finish", "plain",
        ])
    };
    let coarse = fits("7/16-14", "SAE J429 5");
    assert!(coarse.contains("DOES NOT FIT"), "{coarse}");
    assert!(coarse.contains("thread: STOP"), "{coarse}");
    let strong = fits("7/16-20", "SAE J429 8");
    assert!(strong.contains("fits, with cautions"), "{strong}");
    assert!(
        strong.contains("neighbours: CAUTION SAE J429 8 goes in beside SAE J429 5 at hole 1, 2, 4"),
        "{strong}"
    );
    let right = fits("7/16-20", "SAE J429 5");
    assert!(
        !right.contains("STOP") && !right.contains("CAUTION"),
        "{right}"
    );
    assert!(
        right.contains("as specified: 10100 lbf proof load"),
        "{right}"
    );
    assert_eq!(say(&["entries", "tractor"]).matches("decided").count(), 0);

    // Replaced, and by that on the list and at the top of the sheet.
    let decided = say(&[
        "decide",
        "tractor",
        "plate",
        "3",
        "replace",
        "--reason",
        "grade 2 by its bare head",
        "--thread",
        "7/16-20",
        "--length",
        "1-1/4 in",
        "--grade",
        "SAE J429 5",
        "--hole-check",
        "runs-in-by-hand",
    ]);
    assert!(!decided.contains("weaker-than-specified"), "{decided}");
    assert!(decided.contains("part-not-arrived"), "{decided}");
    let list = say(&["parts", "list", "tractor"]);
    assert!(
        list.contains(&format!("hub 1 0 1 {BOLT}; for plate 3")),
        "{list}"
    );
    let sheet = say(&["sheet", "tractor"]);
    let waited = format!("STILL WAITED FOR * Left hub: 1 of 1 x {BOLT}, for Brake plate hole 3");
    assert!(sheet.contains(&waited), "{sheet}");
    assert!(sheet.contains("Hole 3: waits for 1 x"), "{sheet}");

    // A gasket nobody else asks for stops the joint until it is there.
    let wanted = say(&[
        "parts",
        "want",
        "tractor",
        "hub",
        "gasket, brake plate",
        "1",
        "--why",
        "torn",
        "--joint",
        "plate",
        "--number",
        "K 112",
    ]);
    assert!(wanted.contains("STOP plate part-not-arrived"), "{wanted}");
    let waits = say(&["parts", "waits", "tractor"]);
    assert!(waits.contains("plate position 3"), "{waits}");
    assert!(waits.contains("1 x gasket, brake plate: torn"), "{waits}");
    let stopped = say(&["sheet", "tractor"]);
    assert!(
        !stopped.contains("N·m"),
        "no torque while it waits:\n{stopped}"
    );

    // Something else that arrives does not help; the right things do.
    let wrong = cli(
        &server,
        &["parts", "arrive", "tractor", "hub", "gasket, sump", "1"],
    );
    wrong.ends_with(2);
    assert!(flowing(&wrong.stderr).contains(BOLT), "{}", wrong.stderr);
    let bolt = say(&[
        "parts",
        "arrive",
        "tractor",
        "hub",
        BOLT,
        "1",
        "--reference",
        "delivery note 44",
    ]);
    assert!(bolt.contains("none is waited for any more"), "{bolt}");
    say(&[
        "parts",
        "arrive",
        "tractor",
        "hub",
        "Gasket brake plate",
        "1",
    ]);
    let csv = cli(&server, &["parts", "list", "tractor", "--csv"]);
    let mut lines = csv.output().lines();
    assert_eq!(
        lines.next(),
        Some("assembly,what,part_number,wanted,there,waits,for,entries")
    );
    assert!(
        lines.all(|line| line.contains(",1,1,0,")),
        "{}",
        csv.output()
    );

    // Fitted: the sheet is clean of it.
    for hole in ["1", "2", "4"] {
        say(&["refit", "tractor", "plate", hole, "original"]);
    }
    say(&[
        "refit",
        "tractor",
        "plate",
        "3",
        "new",
        "--thread",
        "7/16-20",
        "--length",
        "1-1/4 in",
        "--grade",
        "SAE J429 5",
    ]);
    say(&["tighten", "tractor", "plate", "all", "snug"]);
    let read = |hole| {
        let words = [
            "tighten",
            "tractor",
            "plate",
            hole,
            "final",
            "--reading",
            "67 N·m",
            "--tool",
            "TW1",
        ];
        say(&words)
    };
    let [.., fitted] = ["1", "2", "4", "3"].map(read);
    assert!(
        !fitted.contains("STOP") && !fitted.contains("CAUTION"),
        "{fitted}"
    );
    let clean = say(&["sheet", "tractor"]);
    assert!(clean.contains("No open stop"), "{clean}");
    assert!(!clean.contains("STILL WAITED FOR"), "{clean}");
    assert!(
        clean.contains("HOLE 3 7/16-20 x 1-1/4 in, SAE J429 5"),
        "{clean}"
    );
    let flags = say(&["flags", "list", "tractor"]);
    assert!(flags.contains("No rule raises a flag"), "{flags}");
}

fn hub(job: &JobAt<'_>) -> String {
    format!("{}/assemblies/hub", job.name)
}

async fn want(shop: &Shop, job: &JobAt<'_>, what: &str) -> WantedPart {
    let request = LogPartWantedRequest {
        wanted: Some(WantedPart {
            assembly: hub(job),
            what: what.into(),
            quantity: 2,
            why: "worn".into(),
            ..Default::default()
        }),
        request_id: fresh_id(),
        said_time: None,
    };
    let answer = shop.jobs().log_part_wanted(request).await;
    answer
        .expect("it is taken")
        .into_inner()
        .wanted
        .expect("it")
}

fn arrival(job: &JobAt<'_>, what: &str, quantity: i32) -> LogPartArrivalRequest {
    LogPartArrivalRequest {
        arrival: Some(PartArrival {
            assembly: hub(job),
            what: what.into(),
            quantity,
            reference: "note 44".into(),
            ..Default::default()
        }),
        request_id: fresh_id(),
        said_time: None,
    }
}

async fn list(shop: &Shop, parent: &str, page_size: i32) -> Vec<PartToOrder> {
    let mut all = Vec::new();
    let mut page_token = String::new();
    loop {
        let request = ListPartsToOrderRequest {
            parent: parent.into(),
            page_size,
            page_token,
        };
        let answer = shop.jobs().list_parts_to_order(request).await;
        let page = answer.expect("a page").into_inner();
        all.extend(page.parts);
        page_token = page.next_page_token;
        if page_token.is_empty() {
            return all;
        }
    }
}

#[tokio::test]
async fn the_list_comes_in_pages_and_by_assembly_and_outlives_a_restart() {
    let mut shop = Shop::open();
    let job = shop.job("tractor").await;
    job.assembly("arm", "").await;
    for part in ["seal", "gasket", "sealant"] {
        want(&shop, &job, part).await;
    }
    let came = shop
        .jobs()
        .log_part_arrival(arrival(&job, "Gasket", 2))
        .await;
    let came = came.expect("it is on the list").into_inner();
    assert_eq!(came.part.expect("its line").waiting_count, 0);
    assert_eq!(rules_of(&came.flags), ["part-not-arrived"]);
    assert_eq!(came.flags.len(), 2, "seal and sealant");
    let (name, hub) = (job.name.clone(), hub(&job));
    let whole = list(&shop, &name, 0).await;
    let told: Vec<(&str, i32, i32)> = (whole.iter())
        .map(|part| (part.what.as_str(), part.wanted_count, part.waiting_count))
        .collect();
    assert_eq!(told, [("seal", 2, 2), ("gasket", 2, 0), ("sealant", 2, 2)]);
    assert_eq!(list(&shop, &name, 1).await, whole);
    assert_eq!(list(&shop, &hub, 2).await, whole);
    assert_eq!(list(&shop, &format!("{name}/assemblies/arm"), 0).await, []);
    shop.restart(&[]).await;
    assert_eq!(list(&shop, &name, 0).await, whole);
}

#[tokio::test]
async fn what_was_said_of_parts_is_corrected_and_sent_again_safely() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let seal = want(&shop, &job, "seal").await;
    let request = arrival(&job, "seal", 1);
    let first = shop.jobs().log_part_arrival(request.clone()).await;
    let again = shop.jobs().log_part_arrival(request).await;
    let (first, again) = (first.expect("written"), again.expect("the same answer"));
    assert_eq!(first.get_ref().arrival, again.get_ref().arrival);
    assert_eq!(list(&shop, &job.name, 0).await[0].waiting_count, 1);

    let one = WantedPart {
        quantity: 1,
        ..seal.clone()
    };
    let mended = job
        .corrects(&seal.entry, Correction::Wanted(one))
        .await
        .await;
    assert_eq!(rules_of(&mended.flags), [""; 0], "one is wanted, one came");
    let came = first.into_inner().arrival.expect("an arrival");
    let gone = job
        .corrects(&came.entry, Correction::Withdrawn(true))
        .await
        .await;
    assert_eq!(rules_of(&gone.flags), ["part-not-arrived"]);
    let strange = job
        .corrects(&seal.entry, Correction::Arrival(came))
        .await
        .refused()
        .await;
    assert_eq!(strange.code, Code::FailedPrecondition);
}

#[tokio::test]
async fn a_replacement_is_checked_before_anything_came_out_and_nothing_is_written() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.vital_joint("plate").await;
    let before = shop.server.entry_count();
    let check = |part: FastenerSpec| {
        let request = CheckReplacementRequest {
            joint: plate.name.clone(),
            position: 2,
            replacement: Some(part),
        };
        let mut jobs = shop.jobs();
        async move { jobs.check_replacement(request).await.expect("an answer") }
    };
    let right = check(new_bolt()).await.into_inner();
    assert_eq!(right.severity(), Severity::Note, "some cannot be judged");
    assert_eq!(right.designation, BOLT);
    let hard = FastenerSpec {
        grade: "SAE J429 8".into(),
        finish: "zinc plated".into(),
        ..new_bolt()
    };
    // Grade 8 is 33 HRC at least (SAE J429): plated, it needs no baking.
    let plating = check(hard).await.into_inner();
    let told = plating.checks.iter().find(|c| c.subject == "plating");
    assert_eq!(
        told.expect("it is plated").severity(),
        Severity::Unspecified
    );
    assert_eq!(shop.server.entry_count(), before);

    // The decision tells the same, once the bolt is out.
    plate.takes_out(2, RemovalOutcome::Normal).await;
    let decided = plate.decides(2, DecisionKind::Replace).await.await;
    let again = check(new_bolt()).await.into_inner();
    assert_eq!(decided.checks, again.checks);
    let kept = plate.decides(2, DecisionKind::Reuse).await.await;
    assert_eq!(kept.checks, []);
}

#[tokio::test]
async fn what_is_on_hold_waits_until_it_is_decided() {
    let shop = Shop::open();
    let job = shop.job("tractor").await;
    let plate = job.joint("plate").await;
    plate.takes_out(2, RemovalOutcome::Normal).await;
    plate
        .decides(2, DecisionKind::Hold)
        .await
        .and(|decision| {
            decision.hold_reason = clampbook_api::v1::HoldReason::Hardness.into();
            decision.reason = "no marking".into();
        })
        .await;
    let waits = || async {
        let request = ListWaitsRequest {
            parent: job.name.clone(),
            ..Default::default()
        };
        let answer = shop.jobs().list_waits(request).await;
        answer.expect("waits").into_inner().waits
    };
    let open = waits().await;
    assert_eq!(open.len(), 1, "{open:?}");
    assert_eq!((open[0].position, open[0].on_hold), (2, true));
    assert_eq!(open[0].hold_reason, "hardness readings");
    let sheet = job.sheet().await;
    assert_eq!(
        sheet.waits,
        ["The hub: The plate, hole 2: hardness readings"]
    );
    plate
        .decides(2, DecisionKind::Reuse)
        .await
        .and(|decision| decision.hole_check = HoleCheck::Measured.into())
        .await;
    assert_eq!(waits().await, []);
}
