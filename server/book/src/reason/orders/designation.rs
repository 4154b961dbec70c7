//! A fastener as it is ordered.

use crate::reason::shown;
use crate::record::fact::FastenerSpec;
use clampbook_engine::thread::{Series, System};
use clampbook_engine::{Catalogue, Designation, Thread};

/// A fastener in the order of its standard: form, thread, length and grade for a metric one (ISO 8991), thread, length, form and
/// grade for others (ASME B18.2.1), then the finish. Units are said, and words the catalogue does not know stand as said.
#[must_use]
pub fn designation(part: &FastenerSpec, catalogue: &Catalogue) -> String {
    let thread = catalogue.thread(&part.thread).ok();
    let name = thread_name(&part.thread, catalogue);
    let length = thread.map_or_else(
        || part.length.said.clone(),
        |thread| shown::length(part.length.mm, thread.system()),
    );
    let grade = grade_name(part.grade_said(), catalogue);
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

/// A thread in standard words; as said where the catalogue does not know it.
pub(super) fn thread_name(said: &str, catalogue: &Catalogue) -> String {
    let left = Designation::parse(said).is_ok_and(|thread| thread.is_left_hand());
    match catalogue.thread(said) {
        Ok(thread) if left => format!("{} left hand", short(thread)),
        Ok(thread) => short(thread),
        Err(_) => said.to_owned(),
    }
}

/// A grade in standard words; as said where the catalogue does not know it.
pub(super) fn grade_name(said: &str, catalogue: &Catalogue) -> String {
    let known = catalogue.grade(said);
    known.map_or_else(|_| said.to_owned(), ToString::to_string)
}

/// A coarse metric thread goes by its diameter alone (ISO 965-1).
fn short(thread: &Thread) -> String {
    match thread.series() {
        Series::MetricCoarse => format!("M{}", thread.size()),
        _ => thread.to_string(),
    }
}
