//! Values that look bad and are allowed, each with the reason.

use std::collections::BTreeSet;

use super::spoiling::Bad;

/// Ends of paths, the value, and why it is allowed.
const ALLOWED: [(&str, &str, &str); 12] = [
    (
        "page_size",
        "2147483647",
        "above the maximum size means the maximum size",
    ),
    (
        "after_sequence",
        "9223372036854775807",
        "nothing is written after it yet, and a watch waits",
    ),
    ("angle_degrees", "0", "an adapter in line with the wrench"),
    ("angle_degrees", "-0", "the same"),
    ("wear_mm", "0", "a new part"),
    ("wear_mm", "-0", "the same"),
    ("loading_plane", "0", "the load acts between the parts"),
    ("loading_plane", "-0", "the same"),
    ("prevailing_torque_nm", "0", "a nut that turns freely"),
    ("prevailing_torque_nm", "-0", "the same"),
    ("to_slot_degrees", "0", "a slot is there already"),
    ("to_slot_degrees", "-0", "the same"),
];

/// True when a value that was taken may be.
pub(super) fn allows(bad: &Bad) -> bool {
    ALLOWED
        .iter()
        .any(|(path, value, _)| bad.path.ends_with(path) && bad.what == *value)
}

/// Fields that are judged together: a bad value of the first is rightly blamed on the second.
const TOGETHER: [(&str, &str); 3] = [
    // Another parent makes its parts strangers.
    ("parent", "assembly.counterpart"),
    ("parent", "joint.assembly"),
    // Only of a joint is there a position.
    ("photo.subject", "photo.position"),
];

/// True when the blame fell on a field that is judged together with the bad one.
pub(super) fn is_blamed_elsewhere(path: &str, named: &BTreeSet<&str>) -> bool {
    TOGETHER.iter().any(|(bad, blamed)| {
        path.starts_with(bad) && named.iter().any(|name| name.starts_with(blamed))
    })
}
