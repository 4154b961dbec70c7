//! The store against a plain model: lists and maps in memory, the same steps done to both, and after each step the same
//! promises asked of both.
//!
//! The seed is printed. `CLAMPBOOK_SEED=<seed>` plays one run again, `CLAMPBOOK_CASES=<n>` plays more.

#![allow(
    clippy::disallowed_methods,
    reason = "outsiders open the file as they like"
)]

#[path = "../support/mod.rs"]
mod support;

mod plain;
mod promises;
mod steps;

use plain::Plain;
use proptest::test_runner::{Config, RngAlgorithm, TestCaseError, TestRng, TestRunner};
use steps::{Bench, Step};
use uuid::Uuid;

#[test]
fn the_store_does_what_the_model_does() {
    let seed: u128 = number("CLAMPBOOK_SEED").unwrap_or_else(|| Uuid::new_v4().as_u128());
    let cases: u32 = number("CLAMPBOOK_CASES").unwrap_or(48);
    println!("CLAMPBOOK_SEED={seed} CLAMPBOOK_CASES={cases}");
    let mut bytes = [0; 32];
    bytes[..16].copy_from_slice(&seed.to_le_bytes());
    silence_the_writer();
    let config = Config {
        cases,
        failure_persistence: None,
        ..Config::default()
    };
    let rng = TestRng::from_seed(RngAlgorithm::ChaCha, &bytes);
    TestRunner::new_with_rng(config, rng)
        .run(&steps::any(), |steps| {
            play(steps);
            Ok::<(), TestCaseError>(())
        })
        .unwrap_or_else(|failure| {
            panic!("CLAMPBOOK_SEED={seed} CLAMPBOOK_CASES={cases}\n{failure}")
        });
}

/// The bug that the test puts into judgement would otherwise fill the screen.
fn silence_the_writer() {
    let hook = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |info| {
        if std::thread::current().name() != Some("store-writer") {
            hook(info);
        }
    }));
}

fn number<T: std::str::FromStr>(name: &str) -> Option<T> {
    let text = std::env::var(name).ok()?;
    Some(
        text.parse()
            .ok()
            .unwrap_or_else(|| panic!("{name}={text} is no number")),
    )
}

fn play(steps: Vec<Step>) {
    tokio::runtime::Builder::new_current_thread()
        .build()
        .expect("a runtime")
        .block_on(async {
            let mut bench = Bench::new();
            let mut plain = Plain::new();
            for step in steps {
                bench.play(step, &mut plain).await;
                promises::all(&bench.store, &plain).await;
            }
            bench.restart(&plain).await;
            promises::all(&bench.store, &plain).await;
            promises::the_chain_is_whole(&bench.store, &plain).await;
            bench.store.stop().await;
        });
}
