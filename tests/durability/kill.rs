//! Kill: the process ends at every place of the writer and at any moment, with requests in flight.

use crate::ask::Ask;
use crate::check::Found;
use crate::crew::Crew;
use crate::dice::Dice;
use crate::outside::Outside;
use crate::server::{Server, until};
use clampbook_journal::BarrierPoint;
use std::fs::{self, File};
use std::time::Duration;

/// Kills at barriers, unless `CLAMPBOOK_KILLS` says otherwise.
const KILLS: usize = 200;

/// Files that are worked on at once.
const FILES: usize = 2;

/// Kills before a fresh file is begun, so that looking all of it through stays quick.
const KILLS_PER_FILE: usize = 10;

#[test]
fn a_kill_at_every_place_of_the_writer_loses_nothing_acknowledged() {
    each_file(kills(), |mut outside, kills| async move {
        for round in 0..kills {
            let point = BarrierPoint::ALL[round % BarrierPoint::ALL.len()];
            kill_at(&mut outside, round, point).await;
        }
        outside.say_everything_again().await;
    });
}

#[test]
fn a_kill_at_any_moment_loses_nothing_acknowledged() {
    each_file(kills().div_ceil(10), |mut outside, kills| async move {
        let mut in_flight = 0;
        for round in 0..kills {
            in_flight += kill_now(&mut outside, round).await;
        }
        assert!(in_flight > 0, "no kill hit a request");
        outside.say_everything_again().await;
    });
}

/// How many kills are wanted.
fn kills() -> usize {
    match std::env::var("CLAMPBOOK_KILLS") {
        Ok(said) => said.parse().expect("CLAMPBOOK_KILLS is a whole number"),
        Err(_) => KILLS,
    }
}

/// Shares kills among files, some files at once, each on a thread of its own.
fn each_file<F: Future<Output = ()>>(kills: usize, rounds: impl Fn(Outside, usize) -> F + Sync) {
    let mut dice = Dice::new(Dice::seed());
    let share = kills.div_ceil(FILES);
    std::thread::scope(|threads| {
        for _ in 0..FILES {
            let (mut dice, rounds) = (dice.fork(), &rounds);
            threads.spawn(move || {
                let runtime = tokio::runtime::Builder::new_multi_thread()
                    .worker_threads(2)
                    .enable_all()
                    .build()
                    .expect("a runtime");
                for done in (0..share).step_by(KILLS_PER_FILE) {
                    let kills = KILLS_PER_FILE.min(share - done);
                    runtime.block_on(rounds(Outside::new(dice.fork()), kills));
                }
            });
        }
    });
}

/// Holds the writer at a place while everybody is at work, and kills it there.
async fn kill_at(outside: &mut Outside, round: usize, point: BarrierPoint) {
    let folder = outside.beside(&format!("barrier-{round}"));
    fs::create_dir(&folder).expect("a folder");
    let barrier = format!("{}={}", point.name(), folder.display());
    let mut server = Server::start_with(&outside.data(), &["--barrier", &barrier]);
    let crew = Crew::begin(&server, round, &mut outside.dice).await;
    crew.acknowledged(outside.dice.between(0, 40)).await;
    File::create(folder.join("armed")).expect("the barrier is armed");
    let reached = folder.join("reached");
    until("the barrier is reached", async || {
        server.assert_alive();
        reached.exists()
    })
    .await;

    // Whoever else sends a photo has to wait as well.
    until("a photo is in flight", async || {
        crew.ledger.in_flight(is_photo) > 0
    })
    .await;
    crew.ledger.goes_down();
    server.kill();
    let ledger = crew.ends().await;
    let unanswered_correction = ledger.in_flight(is_correction) > 0;
    let found = outside.look_through(&ledger).await;
    assert_telling(point, found, unanswered_correction);
}

/// Asserts that the kill hit what it was to hit: those whose turn it was are not there before the commit, and there after
/// it, though nobody was told.
fn assert_telling(point: BarrierPoint, found: Found, unanswered_correction: bool) {
    match point {
        BarrierPoint::AfterBegin | BarrierPoint::AfterInsert | BarrierPoint::BeforeCommit => {
            assert!(found.absent > 0, "{}: {found:?}", point.name());
        }
        BarrierPoint::AfterCommit | BarrierPoint::BeforeAnswer => {
            // Only a correction can have been alone in its group and have come too late for its etag.
            let telling = found.present > 0 || unanswered_correction;
            assert!(telling, "{}: {found:?}", point.name());
        }
    }
}

/// Kills at a moment that nobody chose, with photos that are sent by half, and says how many others were in flight.
async fn kill_now(outside: &mut Outside, round: usize) -> usize {
    let server = Server::start(&outside.data());
    let mut crew = Crew::begin(&server, round, &mut outside.dice).await;
    crew.photos_break_off(&mut outside.dice).await;
    crew.acknowledged(outside.dice.between(0, 40)).await;
    let moment = outside.dice.between(0, 5_000);
    tokio::time::sleep(Duration::from_micros(moment as u64)).await;
    crew.ledger.goes_down();
    let in_flight = crew.ledger.in_flight(|_| true);
    server.kill();
    let ledger = crew.ends().await;
    outside.look_through(&ledger).await;
    in_flight
}

fn is_photo(ask: &Ask) -> bool {
    matches!(ask, Ask::Photo(_))
}

fn is_correction(ask: &Ask) -> bool {
    matches!(ask, Ask::Correction(_))
}
