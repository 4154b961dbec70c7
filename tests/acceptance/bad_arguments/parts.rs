//! Bad arguments of the commands about parts.

use super::Bad;
use super::good::{ARRIVE, FITS, REARRIVE, REWANT, WANT};

pub(super) const TABLE: &[Bad] = &[
    (FITS, &[("tractor", "none")], 3, "jobs/none"),
    (FITS, &[("plate", "none")], 3, "joints/none"),
    (FITS, &[("1", "0")], 2, "position"),
    (FITS, &[("1", "5")], 2, "position 5; allowed is 1 to 4"),
    (FITS, &[("1-1/4 in", "40")], 2, "replacement.length"),
    (FITS, &[("SAE J429 5", "")], 2, "replacement.grade"),
    (FITS, &[("7/16-20", "")], 2, "replacement.thread"),
    (FITS, &[("", "--made-for=luck")], 2, "--made-for"),
    (
        FITS,
        &[("", "--thread-length-mm=-1")],
        2,
        "replacement.thread_length_mm",
    ),
    (
        FITS,
        &[("", "--head-height-mm=NaN")],
        2,
        "replacement.head_height_mm",
    ),
    (
        FITS,
        &[("", "--head-diameter-mm=4000")],
        2,
        "replacement.head_diameter_mm",
    ),
    (
        &["fits", "tractor", "plate", "1"],
        &[("1", "2")],
        2,
        "replacement",
    ),
    (
        &["parts", "list", "tractor"],
        &[("tractor", "none")],
        3,
        "jobs/none",
    ),
    (
        &["parts", "list", "tractor"],
        &[("", "--assembly=none")],
        3,
        "assemblies/none",
    ),
    (
        &["parts", "waits", "tractor"],
        &[("", "--assembly=NONE")],
        2,
        "parent",
    ),
    (WANT, &[("tractor", "none")], 3, "jobs/none"),
    (WANT, &[("hub", "none")], 3, "assemblies/none"),
    (WANT, &[("gasket, cover", "")], 2, "wanted.what"),
    (WANT, &[("1", "0")], 2, "wanted.quantity"),
    (WANT, &[("1", "-1")], 2, "wanted.quantity"),
    (WANT, &[("1", "1001")], 2, "allowed are 1 to 1000"),
    (WANT, &[("torn", "")], 2, "wanted.why"),
    (WANT, &[("", "--joint=none")], 3, "joints/none"),
    (
        WANT,
        &[("", "--number=two\u{7}bells")],
        2,
        "wanted.part_number",
    ),
    (ARRIVE, &[("hub", "none")], 3, "assemblies/none"),
    // Nothing was wanted.
    (ARRIVE, &[], 2, "arrival.what"),
    (ARRIVE, &[("1", "0")], 2, "arrival.quantity"),
    (
        ARRIVE,
        &[("", "--reference=two\u{7}bells")],
        2,
        "arrival.reference",
    ),
    // Entry 4 is a removal.
    (REWANT, &[], 4, "is not a part wanted"),
    (REWANT, &[("2", "0")], 2, "wanted.quantity"),
    (REWANT, &[("counted again", "")], 2, "reason"),
    (REARRIVE, &[], 4, "is not an arrival"),
    (REARRIVE, &[("4", "x")], 2, "entry"),
];
