//! Answering needs no heap: neither computing nor looking up a question without faults.

#![allow(clippy::unwrap_used)] // a test may panic

use clampbook_engine::{Ask, Catalogue, OwnLubrication, OwnLubricationAsk, compute};
use std::hint::black_box;
use std::sync::Arc;

#[test]
fn an_answer_allocates_nothing() {
    let own = OwnLubricationAsk {
        id: "bench-paste",
        name: "bench paste",
        nut_factor: 0.15,
        low_nut_factor: 0.13,
        high_nut_factor: 0.17,
        lubricated: true,
        citation: "own tests",
        note: "",
    };
    let own = OwnLubrication::new(&own).unwrap();
    let catalogue = Catalogue::built_in().with_own_lubrications([Arc::new(own)]);
    let asks = [
        Ask {
            thread: "7/16-20",
            grade: "SAE J429 5",
            lubrication: "dry",
            ..Ask::default()
        },
        Ask {
            thread: "M10x1,5-6g-LH",
            grade: "8.8",
            lubrication: "zinc plated",
            nut_grade: Some("8"),
            proof_share: Some(1.0),
            ..Ask::default()
        },
        Ask {
            thread: "7/16-20",
            grade: "SAE J429 5",
            lubrication: "bench paste",
            ..Ask::default()
        },
        Ask {
            thread: "M12",
            grade: "A2-70",
            nut_factor: Some(0.2),
            ..Ask::default()
        },
    ];
    for ask in &asks {
        let looking_up = allocation_counter::measure(|| {
            assert!(black_box(catalogue.resolve(black_box(ask))).is_ok());
        });
        assert_eq!(looking_up.count_total, 0, "{ask:?}");
        let question = catalogue.resolve(ask).unwrap();
        let computing = allocation_counter::measure(|| {
            black_box(compute(black_box(&question)));
        });
        assert_eq!(computing.count_total, 0, "{ask:?}");
    }
}

#[test]
fn the_counter_counts() {
    let counted = allocation_counter::measure(|| {
        black_box(vec![1_u8; 100]);
    });
    assert_eq!(counted.count_total, 1);
}
