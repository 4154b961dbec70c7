//! Full disk: writing is refused in words, nothing is kept by half, reading goes on; and writing goes on once there is room.
//!
//! The disk is full as far as the server can see: the system lets none of its files grow.

use crate::ask::{Ask, says};
use crate::check::all_entries;
use crate::crew::Crew;
use crate::dice::Dice;
use crate::outside::Outside;
use crate::server::Server;
use clampbook_api::v1 as wire;
use clampbook_api::v1::sheet_service_client::SheetServiceClient;
use clampbook_api::{reason, v1::RenderSheetRequest};
use std::process::Command;
use tonic::Code;

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_full_disk_refuses_writing_until_there_is_room_and_nothing_else() {
    let mut outside = Outside::new(Dice::new(Dice::seed()));
    // Without the trap the system would end the process at the first write too many.
    let mut server = Server::start_after(&outside.data(), "trap '' XFSZ");
    let crew = Crew::begin(&server, 0, &mut outside.dice).await;
    crew.acknowledged(outside.dice.between(20, 40)).await;
    crew.ledger.goes_down();
    // At some moment of the log's growth, so that a write of several pages is cut in the middle.
    let room = outside.log().len() + outside.dice.between(0, 12_000);
    let_files_grow_to(&server, &room.to_string());
    let ledger = crew.ends().await;
    server.assert_alive();

    let cut_off = ledger.cut_off_with();
    assert!(!cut_off.is_empty(), "the disk gets full");
    for status in &cut_off {
        let said = says(status, reason::NOT_READY) || says(status, reason::OUTCOME_UNKNOWN);
        assert!(status.code() == Code::Unavailable && said, "{status:?}");
    }
    let channel = server.connect();
    let (entries, found) = outside.examine(&channel, &ledger.records()).await;
    assert_eq!(found.present, 0, "what was refused was not kept");
    for record in ledger.records().iter().filter(|r| r.answer.is_none()) {
        let mut ask: Ask = record.ask.clone();
        let status = ask.insist(&channel).await.expect_err("still no room");
        assert_eq!(status.code(), Code::Unavailable, "{status:?}");
    }
    assert_eq!(all_entries(&channel).await, entries, "reading goes on");
    let sheet = SheetServiceClient::new(channel.clone())
        .render_sheet(RenderSheetRequest {
            name: "jobs/round-0-0".into(),
            format: wire::SheetFormat::Text.into(),
            ..Default::default()
        })
        .await
        .expect("the sheet can be printed");
    assert!(sheet.into_inner().content.contains("REASSEMBLY SHEET"));

    let_files_grow_to(&server, "unlimited");
    outside.look_through_at(&server, &ledger).await;
    let crew = Crew::begin(&server, 1, &mut outside.dice).await;
    let ledger = crew.ends().await;
    let found = outside.look_through_at(&server, &ledger).await;
    assert_eq!(found.absent, 0, "writing goes on");
    server.terminate();
    server.ended().await;
}

/// Sets how far files of a running server may grow, in bytes.
fn let_files_grow_to(server: &Server, size: &str) {
    let set = Command::new("prlimit")
        .args(["--pid", &server.id().to_string()])
        .arg(format!("--fsize={size}:unlimited"))
        .status()
        .expect("prlimit of util-linux");
    assert!(set.success(), "the limit is set");
}
