//! Stop: told to end with requests in flight, the server answers what it has begun and leaves one whole file.

use crate::crew::Crew;
use crate::dice::Dice;
use crate::outside::Outside;
use crate::server::{Server, in_time};
use std::fs;

const STOPS: usize = 10;

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_stop_answers_what_is_written_and_writes_what_is_answered() {
    let mut outside = Outside::new(Dice::new(Dice::seed()));
    for round in 0..STOPS {
        let server = Server::start(&outside.data());
        let crew = Crew::begin(&server, round, &mut outside.dice).await;
        crew.acknowledged(outside.dice.between(1, 40)).await;
        crew.ledger.goes_down();
        server.terminate();
        in_time("the server to end", server.ended()).await;
        let ledger = crew.ends().await;

        let left = fs::metadata(outside.log_path()).map_or(0, |log| log.len());
        assert_eq!(left, 0, "everything is in the one file");
        let found = outside.look_through(&ledger).await;
        assert_eq!(found.present, 0, "what was written was acknowledged");
    }
    outside.say_everything_again().await;
}
