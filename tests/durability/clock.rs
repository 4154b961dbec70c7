//! Clock: a machine whose clock is decades off answers, writes nothing with an earlier time than before, and tells when it was set back.

use crate::crew::Crew;
use crate::dice::Dice;
use crate::health::is_serving;
use crate::outside::Outside;
use crate::server::{Server, until, verify};
use std::fs;
use std::process::Command;

/// Seconds of sixty years.
const SIXTY_YEARS: i64 = 60 * 365 * 24 * 3_600;

/// Stands before the system's clock, and says what it says so many seconds later.
const SHIM: &str = r#"
#include <stdlib.h>
#include <sys/syscall.h>
#include <time.h>
#include <unistd.h>
int clock_gettime(clockid_t clock, struct timespec *now) {
    int told = syscall(SYS_clock_gettime, clock, now);
    if (clock == CLOCK_REALTIME) now->tv_sec += atol(getenv("LATER"));
    return told;
}
"#;

#[tokio::test(flavor = "multi_thread", worker_threads = 4)]
async fn a_clock_that_is_decades_off_answers_every_call_and_is_told() {
    let mut outside = Outside::new(Dice::new(Dice::seed()));
    let (source, shim) = (outside.beside("shim.c"), outside.beside("shim.so"));
    fs::write(&source, SHIM).expect("written");
    let made = Command::new("cc")
        .args(["-shared", "-fPIC", "-o"])
        .args([&shim, &source])
        .status()
        .expect("a compiler, as for SQLite");
    assert!(made.success());
    for (round, later) in [SIXTY_YEARS, 0, -SIXTY_YEARS].into_iter().enumerate() {
        let before = format!("export LATER={later} LD_PRELOAD={}", shim.display());
        let server = Server::start_after(&outside.data(), &before);
        let channel = server.connect();
        until("it is served", async || is_serving(&channel).await).await;
        let crew = Crew::begin(&server, round, &mut outside.dice).await;
        let ledger = crew.ends().await;
        assert!(
            ledger
                .records()
                .iter()
                .all(|record| record.answer.is_some())
        );
        let told = server.log().contains("the clock was set back");
        assert_eq!(told, round > 0, "{}", server.log());
        server.terminate();
        server.ended().await;
        let said = verify(&outside.data()).expect("it is whole");
        assert!(
            !said.contains("the clock was set back before entry"),
            "written times never run backwards: {said}"
        );
    }
}
