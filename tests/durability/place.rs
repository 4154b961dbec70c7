//! Place: a journal that is deleted, moved or replaced while it is served acknowledges nothing more, and says so.

use crate::ask::says;
use crate::crew::Crew;
use crate::dice::Dice;
use crate::health::{is_serving, served};
use crate::outside::Outside;
use crate::server::{Server, until};
use clampbook_api::reason;
use std::fs;
use tonic::Code;

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_journal_that_is_taken_away_is_not_served_and_acknowledges_nothing() {
    for replaced in [false, true] {
        let mut outside = Outside::new(Dice::new(Dice::seed()));
        let server = Server::start(&outside.data());
        let channel = server.connect();
        until("the journal is served as sound", async || {
            is_serving(&channel).await
        })
        .await;
        let crew = Crew::begin(&server, 0, &mut outside.dice).await;
        crew.acknowledged(outside.dice.between(5, 20)).await;
        crew.ledger.goes_down();
        let away = outside.beside("away.clampbook");
        fs::rename(outside.data(), &away).expect("it is moved away");
        if replaced {
            fs::copy(&away, outside.data()).expect("it is replaced");
        }
        let ledger = crew.ends().await;
        let cut_off = ledger.cut_off_with();
        assert!(!cut_off.is_empty(), "everything was acknowledged");
        for status in &cut_off {
            let told = says(status, reason::NOT_READY) || says(status, reason::OUTCOME_UNKNOWN);
            assert!(status.code() == Code::Unavailable && told, "{status:?}");
        }
        let told = |status: &tonic::Status| status.message().contains("moved, removed or replaced");
        assert!(cut_off.iter().any(told), "{cut_off:?}");
        until("health says so", async || served(&channel).await.is_empty()).await;
        assert!(
            server.log().contains("while it was served"),
            "{}",
            server.log()
        );
        server.terminate();
        server.ended().await;

        // Put back with its log, the journal has everything that was acknowledged.
        fs::rename(&away, outside.data()).expect("it is put back");
        outside.look_through(&ledger).await;
    }
}
