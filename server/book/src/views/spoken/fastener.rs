//! A fastener as it was named.

use crate::record::fact::FastenerSpec;

/// What it is ordered by: `7/16-20 x 1-3/4 in, SAE J429 5, hexagon bolt, zinc plated`.
pub(in crate::views) fn named(part: &FastenerSpec) -> String {
    let grade = part.grade_said();
    let mut words = format!("{} x {}, {grade}", part.thread, part.length.said);
    let form = part.detail.as_ref().map_or("", |detail| &detail.form);
    for said in [form, part.finish()].into_iter().filter(|s| !s.is_empty()) {
        words.push_str(", ");
        words.push_str(said);
    }
    words
}

/// All that was said of it.
pub(super) fn in_full(part: &FastenerSpec) -> String {
    let mut words = vec![named(part)];
    if let Some(detail) = &part.detail {
        if !detail.purpose.is_empty() {
            words.push(format!("made for {}", purpose(&detail.purpose)));
        }
        if detail.baked {
            words.push("baked after plating".to_owned());
        }
        let lengths = [
            ("thread", detail.thread_length_mm, "long"),
            ("head", detail.head_height_mm, "high"),
            ("head", detail.head_diameter_mm, "across"),
        ];
        for (what, mm, way) in lengths {
            words.extend(mm.map(|mm| format!("{what} {mm} mm {way}")));
        }
    }
    words.join(", ")
}

/// A purpose as people read it.
pub(super) fn purpose(id: &str) -> String {
    id.replace('-', " ")
}
