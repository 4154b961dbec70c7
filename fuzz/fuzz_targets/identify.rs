//! Any measurements and marks lead to threads and grades or are refused; nothing that fits contradicts itself.

#![no_main]

use clampbook_engine::Catalogue;
use clampbook_engine::identify::{Measured, MeasuredAsk, Verdict};
use clampbook_engine::units::Millimetres;
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

static CATALOGUE: LazyLock<Catalogue> = LazyLock::new(Catalogue::built_in);

fuzz_target!(|input: (&str, bool, f64, [Option<f64>; 5])| {
    let (mark, internal, diameter_mm, n) = input;
    if let Ok(found) = CATALOGUE.identify_head(mark) {
        assert!(found.is_sorted_by_key(|m| m.weakest_tensile_mpa), "{mark:?}");
    }
    let ask = MeasuredAsk {
        internal,
        diameter_mm,
        diameter_error_mm: n[0],
        wear_mm: n[1],
        pitch_mm: n[2],
        pitch_error_mm: n[3],
        flank_angle_deg: n[4],
    };
    if let Ok(measured) = Measured::new(&ask) {
        let found = CATALOGUE.identify_thread(&measured);
        assert!(!found.candidates.is_empty());
        for candidate in &found.candidates {
            let contradicted = !candidate.misfits.is_empty();
            assert_eq!(contradicted, candidate.verdict == Verdict::DoesNotFit);
            assert!(candidate.off_mm.is_finite());
        }
    }
    if let Ok(width) = Millimetres::new(diameter_mm) {
        let _ = CATALOGUE.identify_spanner(width);
    }
});
