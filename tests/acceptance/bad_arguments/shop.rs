//! Bad arguments of the commands about what the shop keeps.

use super::Bad;
use super::good::{PASTE, PASTE_ANEW, PASTE_GONE};

pub(super) const TABLE: &[Bad] = &[
    (PASTE, &[("pit-paste", "NOT LOWER")], 2, "condition_id"),
    (PASTE, &[("pit-paste", "dry")], 2, "condition_id"),
    (
        PASTE,
        &[("pit-paste", "bench-paste")],
        4,
        "conditions/bench-paste",
    ),
    (PASTE, &[("pit paste", "")], 2, "condition.display_name"),
    (
        PASTE,
        &[("pit paste", "Zinc Plated")],
        2,
        "condition.display_name",
    ),
    (
        PASTE,
        &[("pit paste", "bench paste")],
        2,
        "condition.display_name",
    ),
    (
        PASTE,
        &[("pit paste", "rusty paste")],
        2,
        "condition.display_name",
    ),
    (
        PASTE,
        &[("pit paste", "grade")],
        2,
        "condition.display_name",
    ),
    (PASTE, &[("0.15", "NaN")], 2, "condition.nut_factor"),
    (PASTE, &[("0.15", "0.04")], 2, "condition.nut_factor"),
    (PASTE, &[("0.15", "0.61")], 2, "condition.nut_factor"),
    (PASTE, &[("0.15", "slippery")], 2, "--nut-factor"),
    (PASTE, &[("0.13", "0.16")], 2, "condition.low_nut_factor"),
    (PASTE, &[("0.13", "inf")], 2, "condition.low_nut_factor"),
    (PASTE, &[("0.17", "0.14")], 2, "condition.high_nut_factor"),
    (PASTE, &[("12", "0")], 2, "condition.test_count"),
    (PASTE, &[("12", "10001")], 2, "condition.test_count"),
    (PASTE, &[("12", "-1")], 2, "--tests"),
    (PASTE, &[("Ada", "")], 2, "condition.tested_by"),
    (
        PASTE,
        &[("2026-03-02", "2026-02-30")],
        2,
        "condition.tested_on",
    ),
    (
        PASTE,
        &[("2026-03-02", "2999-01-01")],
        2,
        "condition.tested_on",
    ),
    (PASTE, &[("load cell", "")], 2, "condition.tested"),
    (PASTE, &[("", "--note=two\u{7}bells")], 2, "condition.note"),
    (PASTE, &[("", "--request-id=7")], 2, "request_id"),
    (PASTE_ANEW, &[("bench-paste", "none")], 3, "conditions/none"),
    (PASTE_ANEW, &[("bench-paste", "dry")], 3, "conditions/dry"),
    (
        PASTE_ANEW,
        &[("bench paste", "another")],
        2,
        "condition.display_name",
    ),
    (PASTE_ANEW, &[("0.15", "0.9")], 2, "condition.nut_factor"),
    (PASTE_ANEW, &[("", "--etag=\"7\"")], 4, "changed"),
    (PASTE_GONE, &[("bench-paste", "none")], 3, "conditions/none"),
    (PASTE_GONE, &[("the tin is empty", "")], 2, "reason"),
    (PASTE_GONE, &[("", "--etag=\"7\"")], 4, "changed"),
];
