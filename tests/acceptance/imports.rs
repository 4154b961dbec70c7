//! A whole strip-down from a table: all of it or nothing of it.

use std::fmt::Write;

use clampbook_api::v1::{
    ImportRemovalsRequest, ImportRemovalsResponse, Layout, RemovalOutcome, RemovalTick,
};

use crate::support::shop::rules_of;
use crate::support::{JobAt, Refusal, Shop, fresh_id};

fn request(job: &JobAt<'_>, csv: &str) -> ImportRemovalsRequest {
    ImportRemovalsRequest {
        parent: job.name.clone(),
        csv: csv.into(),
        request_id: fresh_id(),
        ..Default::default()
    }
}

async fn import(shop: &Shop, job: &JobAt<'_>, csv: &str) -> ImportRemovalsResponse {
    shop.jobs()
        .import_removals(request(job, csv))
        .await
        .expect("it is taken")
        .into_inner()
}

async fn refused(shop: &Shop, job: &JobAt<'_>, csv: &str) -> Refusal {
    let outcome = shop.jobs().import_removals(request(job, csv)).await;
    Refusal::of(&outcome.expect_err("it is refused"))
}

/// A job with three lines of twenty holes each.
async fn sixty_holes(shop: &Shop) -> JobAt<'_> {
    let job = shop.job("tractor").await;
    for id in ["head", "sump", "cover"] {
        job.joint_like(id, |joint| {
            joint.layout = Layout::Line.into();
            joint.positions = vec![Default::default(); 20];
        })
        .await;
    }
    job
}

fn sixty_lines() -> String {
    let mut csv = "position,joint,outcome,methods,ticks,length,grade,kept_in,note\n".to_owned();
    for joint in ["head", "sump", "cover"] {
        for hole in 1..=20 {
            let outcome = if hole == 7 { "seized" } else { "normal" };
            writeln!(csv, "{hole},{joint},{outcome},hand; long bar,pitted,1-1/4 in,SAE J429 5,\"tin, {joint}\",")
                .expect("a String takes it");
        }
    }
    csv
}

#[tokio::test]
async fn sixty_holes_come_out_in_one_request() {
    let shop = Shop::open();
    let job = sixty_holes(&shop).await;
    let before = shop.server.entry_count();
    let answer = import(&shop, &job, &sixty_lines()).await;
    assert_eq!(answer.removal_count, 60);
    assert_eq!(
        rules_of(&answer.flags),
        ["fastener-unfit", "forced-out", "not-refitted"]
    );
    assert_eq!(answer.flags, job.flags().await);
    assert_eq!(shop.server.entry_count(), before + 60);
    let entries = job.entries().await;
    let of_request = &entries[entries.len() - 1].request_id;
    assert_eq!(
        entries
            .iter()
            .filter(|entry| entry.request_id == *of_request)
            .count(),
        60
    );
    let joint = clampbook_api::v1::GetJointRequest {
        name: format!("{}/joints/sump", job.name),
    };
    let sump = shop
        .jobs()
        .get_joint(joint)
        .await
        .expect("the joint")
        .into_inner();
    let removal = sump.positions[6].removal.clone().expect("hole 7 is out");
    assert_eq!(removal.outcome(), RemovalOutcome::Seized);
    assert_eq!(removal.kept_in, "tin, sump");
    assert_eq!(removal.ticks, [i32::from(RemovalTick::Pitted)]);
    assert_eq!(removal.methods.len(), 2);
}

#[tokio::test]
async fn wrong_lines_are_named_by_number_and_column_and_nothing_is_kept() {
    let shop = Shop::open();
    let job = sixty_holes(&shop).await;
    let before = shop.server.entry_count();
    let good = sixty_lines();
    let mut lines: Vec<String> = good.lines().map(ToOwned::to_owned).collect();
    lines[4] = "x,head,normal,hand,,,,,".into();
    lines[10] = "10,head,sideways,hand,,,,,".into();
    lines[20] = "20,nowhere-at-all!,normal,hand,,12 furlongs,,,".into();
    let refusal = refused(&shop, &job, &lines.join("\n")).await;
    refusal.names(&["csv"; 4]);
    for (line, column) in [
        (5, "position"),
        (11, "outcome"),
        (21, "joint"),
        (21, "length"),
    ] {
        refusal.says(&format!("line {line}, column {column}"));
    }
    assert_eq!(shop.server.entry_count(), before);
}

#[tokio::test]
async fn what_only_the_record_knows_is_named_by_line_too() {
    let shop = Shop::open();
    let job = sixty_holes(&shop).await;
    import(&shop, &job, "joint,position,outcome\nhead,1,normal\n").await;
    let before = shop.server.entry_count();
    let csv = "joint,position,outcome\nhead,1,normal\nhead,2,normal\nhead,2,stiff\nhead,21,normal\nnone,1,normal\n";
    let refusal = refused(&shop, &job, csv).await;
    refusal.names(&["csv"; 4]);
    refusal
        .says("line 2, column position")
        .says("is empty already");
    refusal
        .says("line 4, column position")
        .says("the same position as line 3");
    refusal
        .says("line 5, column position")
        .says("line 6, column joint");
    assert_eq!(shop.server.entry_count(), before);
}

#[tokio::test]
async fn checking_only_finds_the_same_and_writes_nothing() {
    let shop = Shop::open();
    let job = sixty_holes(&shop).await;
    let before = shop.server.entry_count();
    let dry = |csv: &str| ImportRemovalsRequest {
        validate_only: true,
        ..request(&job, csv)
    };
    let answer = shop
        .jobs()
        .import_removals(dry(&sixty_lines()))
        .await
        .expect("it is good")
        .into_inner();
    assert_eq!((answer.removal_count, answer.flags), (60, vec![]));
    let status = shop
        .jobs()
        .import_removals(dry("joint,position,outcome\nhead,99,normal\n"))
        .await;
    Refusal::of(&status.expect_err("it is not")).says("line 2, column position");
    assert_eq!(shop.server.entry_count(), before);
    // The id of a dry run stands for nothing: the real one may use it.
    let mut real = dry(&sixty_lines());
    let id = real.request_id.clone();
    shop.jobs()
        .import_removals(real.clone())
        .await
        .expect("it is good");
    real.validate_only = false;
    assert_eq!(real.request_id, id);
    shop.jobs()
        .import_removals(real)
        .await
        .expect("it is taken");
    assert_eq!(shop.server.entry_count(), before + 60);
}

#[tokio::test]
async fn a_header_that_is_not_ours_is_explained() {
    let shop = Shop::open();
    let job = sixty_holes(&shop).await;
    let refusal = refused(
        &shop,
        &job,
        "joint,position,colour,joint\nhead,1,red,head\n",
    )
    .await;
    refusal
        .says("colour is not a column")
        .says("joint appears twice")
        .says("column outcome is required");
    for (csv, words) in [
        ("", "allowed are 1 to 200000"),
        ("joint,position,outcome\n", "no removal"),
        ("joint,position,outcome\nhead,1\n", "line 2: has"),
        (
            "joint,position,outcome\nhead,1,normal,more\n",
            "line 2: has",
        ),
    ] {
        refused(&shop, &job, csv).await.says(words);
    }
}

#[tokio::test]
async fn what_table_programs_write_is_read() {
    let shop = Shop::open();
    let job = sixty_holes(&shop).await;
    let csv = "\u{feff}joint,position,outcome,note\r\nhead, 1 ,Loose on arrival,\"two\nlines\"\r\n\r\nhead,2,LOOSE_ON_ARRIVAL,\r\n";
    let answer = import(&shop, &job, csv).await;
    assert_eq!(answer.removal_count, 2);
    assert!(rules_of(&answer.flags).contains(&"loose-on-arrival"));
}

#[tokio::test]
async fn a_table_of_more_lines_than_a_strip_down_has_is_refused() {
    let shop = Shop::open();
    let job = sixty_holes(&shop).await;
    let csv = format!(
        "joint,position,outcome\n{}",
        "head,1,normal\n".repeat(2_001)
    );
    refused(&shop, &job, &csv)
        .await
        .says("more than 2000 lines");
}
