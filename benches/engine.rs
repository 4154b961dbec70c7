//! Full answers per second of the engine on one core, against the bare formula; and that an answer needs no heap is shown
//! by `no_heap` in the engine's tests.

use clampbook_engine::{Ask, Catalogue, compute};
use std::hint::black_box;
use std::time::Instant;

const ROUNDS: u32 = 3_000_000;

fn main() {
    let catalogue = Catalogue::built_in();
    let asks = [
        ("7/16-20 UNF", "SAE J429 5", "dry", None),
        ("M10x1.25", "ISO 898-1 8.8", "oiled", None),
        (
            "1/2-13 UNC",
            "SAE J429 8",
            "zinc plated",
            Some("SAE J995 8"),
        ),
        ("M8x1.25", "A2-70", "dry", None),
    ];
    let questions: Vec<_> = asks
        .iter()
        .map(|(thread, grade, lubrication, nut_grade)| {
            let ask = Ask {
                thread,
                grade,
                lubrication,
                nut_grade: *nut_grade,
                ..Ask::default()
            };
            catalogue.resolve(&ask).expect("a good question")
        })
        .collect();
    let full = rate(|i| {
        compute(black_box(&questions[i % questions.len()]))
            .torque
            .get()
    });
    let bare = rate(|i| {
        let (k, d, f) = black_box((0.2 + i as f64 * 1e-12, 11.1125, 33_665.0));
        k * d / 1_000.0 * f
    });
    println!("full answers: {full:.0}/s on one core (wanted >= 3000000)");
    println!("bare T = K D F: {bare:.0}/s; ratio {:.4}", full / bare);
    let resolved = rate_of(200_000, |i| {
        let (thread, grade, lubrication, nut_grade) = asks[i % asks.len()];
        let ask = Ask {
            thread,
            grade,
            lubrication,
            nut_grade,
            ..Ask::default()
        };
        let question = catalogue.resolve(black_box(&ask)).expect("a good question");
        compute(&question).torque.get()
    });
    println!("looked up from words and answered: {resolved:.0}/s");
}

fn rate(answer: impl FnMut(usize) -> f64) -> f64 {
    rate_of(ROUNDS, answer)
}

fn rate_of(rounds: u32, mut answer: impl FnMut(usize) -> f64) -> f64 {
    let start = Instant::now();
    for i in 0..rounds as usize {
        black_box(answer(i));
    }
    f64::from(rounds) / start.elapsed().as_secs_f64()
}
