//! Any words and numbers are a question or are refused; what is answered is finite and keeps its order.

#![no_main]

use clampbook_engine::{Ask, Catalogue, compute};
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

fuzz_target!(|input: (&str, &str, &str, Option<f64>, Option<f64>, Option<f64>)| {
    let (thread, grade, lubrication, proof_share, clamp_load_n, nut_factor) = input;
    let ask = Ask {
        thread,
        grade,
        lubrication,
        proof_share,
        clamp_load_n,
        nut_factor,
        ..Ask::default()
    };
    if let Ok(question) = CATALOGUE.resolve(&ask) {
        let answer = compute(&question);
        let (minimum, maximum) = (answer.scatter.minimum.get(), answer.scatter.maximum.get());
        assert!(answer.torque.get().is_finite() && answer.torque.get() > 0.0);
        assert!(minimum < answer.clamp_load.get() && answer.clamp_load.get() < maximum);
    }
});
