//! Torn: a write-ahead log that was cut off or changed gives back whole requests from the beginning, and work goes on from
//! there.
//!
//! That acknowledged requests are missing then cannot be known from the file alone; the chain head on a printed sheet
//! tells it. What must never come about is a half request or a broken chain.

use crate::check::all_entries;
use crate::crew::Crew;
use crate::dice::Dice;
use crate::ledger::Ledger;
use crate::outside::Outside;
use crate::server::Server;
use clampbook_api::v1::Entry;
use std::fs::{self, File};

const TRIES: usize = 6;

/// Bytes of the log before its first frame.
const HEADER: usize = 32;

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_log_cut_off_anywhere_leaves_whole_requests_from_the_beginning() {
    let (mut killed, full, ledger) = killed_with_a_log().await;
    let size = killed.log().len();
    let mut sizes = vec![0, HEADER - 1, HEADER, size - 1];
    sizes.extend((0..TRIES).map(|_| killed.dice.between(HEADER, size)));
    for cut in sizes {
        let mut copy = killed.copy();
        File::options()
            .write(true)
            .open(copy.log_path())
            .and_then(|log| log.set_len(cut as u64))
            .expect("the log is cut");
        assert_whole_requests_are_left(&mut copy, &full, &ledger).await;
    }
}

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_bit_that_flipped_in_the_log_leaves_whole_requests_from_the_beginning() {
    let (mut killed, full, ledger) = killed_with_a_log().await;
    for _ in 0..TRIES {
        let mut log = killed.log();
        let place = killed.dice.between(0, log.len() - 1);
        log[place] ^= 1 << killed.dice.between(0, 7);
        let mut copy = killed.copy();
        fs::write(copy.log_path(), log).expect("the log is written");
        assert_whole_requests_are_left(&mut copy, &full, &ledger).await;
    }
}

/// A journal with one round in its file and another, acknowledged in full, in its log; its entries, and the second round
/// as if nothing of it had ever been acknowledged.
async fn killed_with_a_log() -> (Outside, Vec<Entry>, Ledger) {
    let mut outside = Outside::new(Dice::new(Dice::seed()));
    let server = Server::start(&outside.data());
    let crew = Crew::begin(&server, 0, &mut outside.dice).await;
    let ledger = crew.ends().await;
    outside.look_through_at(&server, &ledger).await;
    server.terminate();
    server.ended().await;

    let server = Server::start(&outside.data());
    let crew = Crew::begin(&server, 1, &mut outside.dice).await;
    let ledger = crew.ends().await;
    let full = all_entries(&server.connect()).await;
    server.kill();
    (outside, full, ledger.without_answers())
}

async fn assert_whole_requests_are_left(copy: &mut Outside, full: &[Entry], ledger: &Ledger) {
    let server = Server::start(&copy.data());
    let (left, _) = copy.examine(&server.connect(), &ledger.records()).await;
    assert!(
        left.len() >= copy.history.len(),
        "what was in the file is there"
    );
    assert_eq!(left, full[..left.len()], "what is left is as it was");
    server.kill();
    copy.goes_on_from(left).await;
}
