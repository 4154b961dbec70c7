//! A fastener as it is ordered.

use crate::fact::FastenerSpec;
use crate::sheet::in_words;
use clampbook_engine::thread::{Series, System};
use clampbook_engine::{Catalogue, Thread};

/// A fastener in the order of its standard: form, thread, length and grade for a metric one (ISO 8991), thread, length, form and
/// grade for others (ASME B18.2.1), then the finish. Units are said, and words the catalogue does not know stand as said.
#[must_use]
pub fn designation(part: &FastenerSpec, catalogue: &Catalogue) -> String {
    let thread = catalogue.thread(&part.thread).ok();
    let name = thread.map_or_else(|| part.thread.clone(), short);
    let length = thread.map_or_else(
        || part.length.said.clone(),
        |thread| in_words(part.length.mm, thread.system()),
    );
    let grade = catalogue.grade(&part.grade);
    let grade = grade.map_or_else(|_| part.grade.clone(), ToString::to_string);
    let detail = part.detail.as_deref();
    let form = detail.map_or("", |detail| &detail.form);
    let mut words = match (thread.map(Thread::system), form) {
        (_, "") => format!("{name} x {length}, {grade}"),
        (Some(System::Metric), form) => format!("{form} {name} x {length}, {grade}"),
        (_, form) => format!("{name} x {length} {form}, {grade}"),
    };
    let Some(detail) = detail else {
        return words;
    };
    if !detail.finish.is_empty() {
        words.push_str(&format!(", {}", detail.finish));
    }
    if detail.baked {
        words.push_str(", baked after plating");
    }
    if !detail.purpose.is_empty() {
        words.push_str(&format!(", made for {}", detail.purpose));
    }
    words
}

/// A coarse metric thread goes by its diameter alone (ISO 965-1).
fn short(thread: &Thread) -> String {
    match thread.series() {
        Series::MetricCoarse => format!("M{}", thread.size()),
        _ => thread.to_string(),
    }
}
